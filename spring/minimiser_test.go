package spring

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"foldwright/fold"
	"foldwright/internal/check"
)

// equations is a springy card as scripts/minimise.py reads it: hinges and glue joints as they lie in the patterns, in
// millimetres, and the energy over the fold angles.
type equations struct {
	Panels int         `json:"panels"`
	Hinges []hinged    `json:"hinges"`
	Joints []glued     `json:"joints"`
	K      [][]float64 `json:"k"`
	Rest   []float64   `json:"rest"`
	Low    []float64   `json:"low"`
	High   []float64   `json:"high"`
	Start  []float64   `json:"start"`
}

type hinged struct {
	A    int        `json:"a"`
	B    int        `json:"b"`
	From [2]float64 `json:"from"`
	To   [2]float64 `json:"to"`
}

type glued struct {
	A     int        `json:"a"`
	B     int        `json:"b"`
	Place [6]float64 `json:"place"` // xx xy tx yx yy ty
}

func (s *Model) equations(start []float64) equations {
	a := s.Fold.Assembly
	n := len(a.Hinges)
	e := equations{Panels: len(a.Panels), Rest: s.Energy.Rest, Low: s.Fold.Low, High: s.Fold.High, Start: start}
	for i, h := range a.Hinges {
		e.Hinges = append(e.Hinges, hinged{h.A, h.B, [2]float64{h.From.X.MM(), h.From.Y.MM()}, [2]float64{h.To.X.MM(), h.To.Y.MM()}})
		e.K = append(e.K, s.Energy.K[i*n:(i+1)*n])
	}
	for _, j := range a.Joints {
		m := j.Place
		e.Joints = append(e.Joints, glued{j.A, j.B, [6]float64{m.XX, m.XY, m.TX / 1e6, m.YX, m.YY, m.TY / 1e6}})
	}
	return e
}

// comparedCards are those that scripts/minimise.py solves again: each stable, with nothing touching.
func comparedCards() []string {
	return []string{"square-lantern", "eight-lantern", "gull-box", "lamp-box", "harbour-mouth"}
}

// TestEquations writes the equations of the compared cards into the folder that FOLDWRIGHT_EQUATIONS names, for
// scripts/minimise. The search there starts beside the rest pose.
func TestEquations(t *testing.T) {
	folder := os.Getenv("FOLDWRIGHT_EQUATIONS")
	for _, name := range comparedCards() {
		s := form(t, name)
		r := rest(t, s)
		if !r.Stable || len(r.Touching) > 0 {
			t.Errorf("%s: stable %v, %d pairs touch", name, r.Stable, len(r.Touching))
		}
		text, err := json.Marshal(s.equations(beside(r)))
		if err != nil {
			t.Fatal(err)
		}
		if folder != "" {
			if err := os.WriteFile(filepath.Join(folder, name+".json"), text, 0o644); err != nil {
				t.Fatal(err)
			}
		}
	}
}

// beside returns angles near a rest pose, every fold a little off by its number.
func beside(r Rest) []float64 {
	x := append([]float64{}, r.Angles...)
	for i := range x {
		x[i] += 0.03 * float64(i%3-1)
	}
	return x
}

// TestRest_minimiser compares rest poses with those of an independent minimiser (see the table).
func TestRest_minimiser(t *testing.T) {
	check.Each(t, "testdata/check/minimiser.csv", func(t *testing.T, r check.Row) {
		got := rest(t, form(t, r.Text("card")))
		r.NearColumn("expected_energy_mJ", got.Energy)
		sum := 0.0
		for _, a := range got.Angles {
			sum += a * a
		}
		r.NearColumn("expected_angles_rad2", sum)
	})
}

// BenchmarkRest_compared is the other side of scripts/minimise: the same cards from the same start.
func BenchmarkRest_compared(b *testing.B) {
	for _, name := range comparedCards() {
		b.Run(name, func(b *testing.B) {
			s := form(b, name)
			r := rest(b, s)
			for b.Loop() {
				if got := s.Fold.Seek(s.Energy).Least(context.Background(), beside(r), fold.Hold{}); !got.Found || !same(got.Angles, r.Angles) {
					b.Fatal("another pose")
				}
			}
		})
	}
}
