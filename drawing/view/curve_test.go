package view

import (
	"math"
	"testing"

	"foldwright/drawing"
)

func TestCurve(t *testing.T) {
	p := Plot{Name: "force", Title: "Lantern: how strongly it pushes", Notes: []string{"held between two plates"}, Across: "how far open, mm", Up: "force, N"}
	for x := 0.0; x <= 72; x++ {
		p.Points = append(p.Points, drawing.Point{X: x, Y: 1.7 * math.Cos(x/46)})
	}
	p.Marks = []PlotMark{{drawing.Point{X: 0, Y: 1.7}, "shut: 1.7 N"}, {drawing.Point{X: 72, Y: 1.7 * math.Cos(72.0/46)}, "rests at 72 mm"}}
	d := Curve(p)
	if bad := drawing.Clashes(d); len(bad) > 0 {
		t.Error(bad)
	}
	if problems := drawing.Check(d); problems.HasErrors() {
		t.Error(problems)
	}
	if Curve(Plot{Points: p.Points[:1]}) != nil {
		t.Error("one point is a curve")
	}
}

// TestAxis: an axis holds both ends, in two to twelve round steps.
func TestAxis(t *testing.T) {
	for _, c := range [][2]float64{{0, 1}, {0, 84}, {-0.3, 2.9}, {0, 0}, {0, 1e-6}, {0, 99999}, {-5, 5}} {
		a := axisOf(c[0], c[1])
		if a.low > c[0] || a.high < c[1] || len(a.ticks()) < 2 || len(a.ticks()) > 12 {
			t.Errorf("%v: %+v, ticks %v", c, a, a.ticks())
		}
	}
}
