package view

import (
	"math"
	"testing"

	"foldwright/drawing"
	"foldwright/fold"
	"foldwright/length"
	"foldwright/plane"
)

// board is a square of 20 mm with its lower left corner at the origin of its pattern.
func board(panel, layer int) flatSheet {
	const s = 20 * length.Millimetre
	ring := []plane.Point{{}, {X: s}, {X: s, Y: s}, {Y: s}}
	return flatSheet{panel: panel, layer: layer, rings: [][]plane.Point{ring},
		parts: []flatPart{{ring: ring, edge: []bool{true, true, true, true}}}}
}

// lifted is the frame of a board at a place above the table, its outer face up, or down if over.
func lifted(x, y, z float64, over bool) fold.Frame {
	f := fold.Still()
	f.O = fold.Vec{x, y, z}
	if over {
		f.X, f.Z = f.X.Scale(-1), f.Z.Scale(-1)
		f.O[0] += 20
	}
	return f
}

// TestOrderOnTheWay: which of two boards lies on top on the table, seen from above. Board 0 lies still; the heights are
// those of board 1 in the poses after the closed one. In the closed card board 1 lies on the outer side of board 0.
func TestOrderOnTheWay(t *testing.T) {
	for _, c := range []struct {
		name    string
		heights []float64
		x       float64
		over    [2]bool
		layer   int
		want    int
	}{
		{name: "closed", want: 1},
		{name: "comes down", heights: []float64{5, 2, 0}, want: 1},
		{name: "comes up from below", heights: []float64{-5, -2, 0}, want: -1},
		{name: "slides on after it has come up", heights: []float64{-5, 0, 0, 0}, want: -1},
		{name: "goes round", heights: []float64{5, -5, 0}, want: -1},
		{name: "never apart", heights: []float64{0, 0}, want: 1},
		{name: "apart by less than a micrometre", heights: []float64{-1e-4, 0}, want: 1},
		{name: "outer face down, comes down", heights: []float64{5, 0}, over: [2]bool{true, false}, want: 1},
		{name: "outer face down, comes up", heights: []float64{-5, 0}, over: [2]bool{true, true}, want: -1},
		{name: "beside it, turned", heights: []float64{-5, 0}, x: 30, over: [2]bool{false, true}, want: 1},
		{name: "topper comes up", heights: []float64{-5, 0}, layer: 1, want: -1},
	} {
		way := []fold.Pose{{Panels: []fold.Frame{lifted(0, 0, 0, c.over[0]), lifted(0, 0, 0, c.over[1])}}}
		for _, h := range c.heights {
			way = append(way, fold.Pose{Panels: []fold.Frame{lifted(0, 0, 0, c.over[0]), lifted(c.x+3, 2, h, c.over[1])}})
		}
		flat := []flatSheet{board(0, 0), board(1, c.layer)}
		o := (&order{sheets: flat, shut: map[[2]int]int{{0, 1}: 1}}).in(&fold.Opening{Poses: way}, len(way)-1)
		placed := place(flat, way[len(way)-1].Panels)
		up := fold.Vec{0, 0, 1}
		if got := o.nearer(0, 1, placed, up); got != c.want {
			t.Errorf("%s: board 1 is nearer: %d, want %d", c.name, got, c.want)
		}
		if got := o.nearer(1, 0, placed, up); got != -c.want {
			t.Errorf("%s: board 0 is nearer: %d, want %d", c.name, got, -c.want)
		}
		if got := o.nearer(0, 1, placed, up.Scale(-1)); got != -c.want {
			t.Errorf("%s, from below: board 1 is nearer: %d, want %d", c.name, got, -c.want)
		}
	}
}

// TestSorted: boards of one plane that do not meet need not wait for each other, even where the closed card would have each
// of them wait for the next one round a ring.
func TestSorted(t *testing.T) {
	flat := []flatSheet{board(0, 0), board(1, 0), board(2, 0)}
	shut := map[[2]int]int{{0, 1}: 1, {1, 2}: 1, {0, 2}: -1}
	c := cameraAt(0, 0)
	frames := []fold.Frame{lifted(0, 0, 0, false), lifted(15, 0, 0, false), lifted(30, 0, 0, false)} // 0 and 2 do not meet
	way := []fold.Pose{{Panels: frames}, {Panels: frames}}
	sheets := place(flat, frames)
	o := (&order{sheets: flat, shut: shut}).in(&fold.Opening{Poses: way}, 1)
	var got []int
	for _, f := range o.sorted(seen([]polygon{sheets[2].parts[0], sheets[1].parts[0], sheets[0].parts[0]}, sheets, c), sheets, c.towards) {
		got = append(got, f.sheet)
	}
	if len(got) != 3 || got[0] != 0 || got[1] != 1 || got[2] != 2 {
		t.Errorf("painted in the order %v, want 0, 1, 2", got)
	}
}

// TestClipped: what a square of 20 mm shares with a triangle, worked out by hand.
func TestClipped(t *testing.T) {
	square := []drawing.Point{{}, {X: 20}, {X: 20, Y: 20}, {Y: 20}}
	for _, c := range []struct {
		name     string
		triangle []drawing.Point
		area     float64
		middle   drawing.Point
	}{
		{"inside", []drawing.Point{{X: 3, Y: 3}, {X: 9, Y: 3}, {X: 3, Y: 9}}, 18, drawing.Point{X: 5, Y: 5}},
		{"half outside", []drawing.Point{{X: -10, Y: 0}, {X: 10, Y: 0}, {X: -10, Y: 20}}, 50, drawing.Point{X: 10. / 3, Y: 10. / 3}},
		{"clockwise", []drawing.Point{{X: -10, Y: 0}, {X: -10, Y: 20}, {X: 10, Y: 0}}, 50, drawing.Point{X: 10. / 3, Y: 10. / 3}},
		{"beside it", []drawing.Point{{X: 30}, {X: 40}, {X: 30, Y: 10}}, 0, drawing.Point{}},
		{"along a side", []drawing.Point{{X: 20}, {X: 40}, {X: 20, Y: 10}}, 0, drawing.Point{}},
	} {
		middle, area := centroid(clipped(square, c.triangle))
		if math.Abs(area-c.area) > 1e-9 || area > 0 && middle.Sub(c.middle).Len() > 1e-9 {
			t.Errorf("%s: %g mm² round %v, want %g round %v", c.name, area, middle, c.area, c.middle)
		}
	}
}
