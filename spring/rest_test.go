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
			if !r.Found || !r.Stable || r.LoopError > 1e-6 {
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
