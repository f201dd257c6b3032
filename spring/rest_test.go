package spring

import (
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func form(t testing.TB, name string) *Model {
	t.Helper()
	text, err := os.ReadFile("../forms/" + name + ".card")
	if err != nil {
		t.Fatal(err)
	}
	return springy(t, string(text))
}

// TestRest: every card of the catalogue comes to rest with assumed stock: its loops meet, its folds keep their sense, no
// panel passes through another, and it has less energy than closed.
func TestRest(t *testing.T) {
	files, _ := filepath.Glob("../forms/*.card")
	if len(files) < 10 {
		t.Fatalf("only %d cards in the catalogue", len(files))
	}
	for _, f := range files {
		name := strings.TrimSuffix(filepath.Base(f), ".card")
		t.Run(name, func(t *testing.T) {
			s := form(t, name)
			r := s.Rest(context.Background())
			t.Logf("%.3f mJ of %.3f closed, %.1f deep, %d panels rigid, %d cross", r.Energy, s.Energy.At(s.Fold.Shut), r.Standing.Depth, len(s.Rigid), len(r.Crossings))
			// A row of two springs is straight on a ridge: see TestRest_straight.
			if row := strings.HasPrefix(name, "harbour-light"); !r.Found || r.Stable == row || r.LoopError > 1e-6 {
				t.Fatalf("found %v, stable %v, loops within %g mm", r.Found, r.Stable, r.LoopError)
			}
			if len(r.Crossings) > 0 {
				t.Errorf("%d pairs of panels pass through each other", len(r.Crossings))
			}
			for h, a := range r.Angles {
				if a < s.Fold.Low[h]-1e-12 || a > s.Fold.High[h]+1e-12 || math.IsNaN(a) {
					t.Errorf("hinge %d: %g rad against its sense", h, a)
				}
			}
			if shut := s.Energy.At(s.Fold.Shut); !(r.Energy >= 0 && r.Energy < shut) {
				t.Errorf("%g mJ at rest, %g mJ closed", r.Energy, shut)
			}
		})
	}
}

// TestRest_straight: the two springs of the stand are alike, and so are their sides, but for the tab that stiffens one: the
// pose has nearly the same folds on all of them, and what it leans to has less energy and is less deep.
func TestRest_straight(t *testing.T) {
	s := form(t, "harbour-light-inches")
	r := rest(t, s)
	a := s.Fold.Assembly
	leaf := func(copy, score int) float64 {
		for h, hinge := range a.Hinges {
			if a.Copies[hinge.Copy].Pattern.Piece.Name == "spring" && a.Copies[hinge.Copy].Number == copy && hinge.Score() == score {
				return math.Abs(r.Angles[h])
			}
		}
		t.Fatalf("no score %d of spring %d", score, copy)
		return 0
	}
	for k := range 5 {
		want := leaf(1, k)
		for _, got := range []float64{leaf(1, 9-k), leaf(2, 4-k), leaf(2, 5+k)} {
			if math.Abs(got-want) > 3*degree {
				t.Errorf("score %d: %.2f and %.2f degrees", k+1, got/degree, want/degree)
			}
		}
	}
	lean, found := s.Lean(context.Background(), r)
	if !found {
		t.Fatal("it leans nowhere")
	}
	if !lean.Stable || lean.Energy >= r.Energy || lean.Standing.Depth >= r.Standing.Depth || len(lean.Touching) == 0 {
		t.Errorf("leaning: stable %v, %g mJ after %g, %g mm deep after %g, %d touch", lean.Stable, lean.Energy, r.Energy, lean.Standing.Depth, r.Standing.Depth, len(lean.Touching))
	}
}

func TestRest_stops(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if r := form(t, "square-lantern").Rest(ctx); r.Found || r.Stable {
		t.Error("a search that was stopped found something")
	}
}

func BenchmarkRest(b *testing.B) {
	s := form(b, "harbour-light")
	for b.Loop() {
		s.Rest(context.Background())
	}
}

func BenchmarkRest_warm(b *testing.B) {
	s := form(b, "harbour-light")
	r := s.Rest(context.Background())
	for b.Loop() {
		s.Held(context.Background(), r.Angles, r.Standing.Panels, r.Standing.Poses[0].Drive-1)
	}
}
