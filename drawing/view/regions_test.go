package view

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
)

func mm(x, y int) plane.Point {
	return plane.Point{X: length.Length(x) * length.Millimetre, Y: length.Length(y) * length.Millimetre}
}

func square(x, y, side int) []plane.Point {
	return plane.Rectangle(plane.Box{Min: mm(x, y), Max: mm(x+side, y+side)})
}

// TestRegions: faces of one label become one region without the lines between them; a region round another has a hole;
// regions that touch in a point stay two.
func TestRegions(t *testing.T) {
	for _, c := range []struct {
		name    string
		squares [][3]int
		label   func(x, y float64) int
		want    string // label: corners of the outer ring, holes
	}{
		{"side by side", [][3]int{{0, 0, 10}, {10, 0, 10}}, func(x, y float64) int { return 7 }, "7: 4 corners, 0 holes; "},
		{"a hole", [][3]int{{0, 0, 10}, {3, 3, 2}}, func(x, y float64) int {
			if x > 3 && x < 5 && y > 3 && y < 5 {
				return none
			}
			return 1
		}, "1: 4 corners, 1 holes; "},
		{"touching", [][3]int{{0, 0, 10}, {10, 10, 10}}, func(x, y float64) int { return 2 }, "2: 4 corners, 0 holes; 2: 4 corners, 0 holes; "},
		{"two labels", [][3]int{{0, 0, 10}, {10, 0, 10}}, func(x, y float64) int { return int(x) / 10 }, "0: 4 corners, 0 holes; 1: 4 corners, 0 holes; "},
	} {
		var segments []plane.Segment
		for _, s := range c.squares {
			segments = ringSegments(segments, square(s[0], s[1], s[2]), 0)
		}
		sub := plane.Subdivide(segments, 0)
		label := make([]int, len(sub.Faces))
		for f := range sub.Faces {
			label[f] = none
			if x, y, ok := sub.InnerPoint(f); ok {
				label[f] = c.label(x/1e6, y/1e6)
			}
		}
		got := ""
		for _, r := range regions(sub, label) {
			got += fmt.Sprintf("%d: %d corners, %d holes; ", r.label, len(r.outer), len(r.holes))
		}
		if got != c.want {
			t.Errorf("%s: got %s want %s", c.name, got, c.want)
		}
	}
}

// TestRegionsArea: whatever lies on whatever, the regions of each label have the area of its faces.
func TestRegionsArea(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var segments []plane.Segment
		for range rapid.IntRange(1, 8).Draw(t, "squares") {
			at := rapid.IntRange(0, 12)
			segments = ringSegments(segments, square(at.Draw(t, "x"), at.Draw(t, "y"), rapid.IntRange(1, 9).Draw(t, "side")), 0)
		}
		sub := plane.Subdivide(segments, 0)
		label := make([]int, len(sub.Faces))
		want := map[int]float64{}
		label[0] = none
		for f := 1; f < len(label); f++ {
			label[f] = rapid.IntRange(none, 2).Draw(t, "label")
			if label[f] != none {
				want[label[f]] += sub.Faces[f].Area
			}
		}
		got := map[int]float64{}
		for _, r := range regions(sub, label) {
			got[r.label] += r.area()
		}
		for l := range 3 {
			if math.Abs(got[l]-want[l]) > 1 {
				t.Fatalf("label %d has %g nm², want %g", l, got[l], want[l])
			}
		}
	})
}

// TestPaths: lines run on where they can; a cross is two lines, a square is one ring, a link given twice counts once.
func TestPaths(t *testing.T) {
	points := []plane.Point{mm(0, 0), mm(10, 0), mm(20, 0), mm(10, -10), mm(10, 10), mm(20, 10)}
	for _, c := range []struct {
		name  string
		links []link
		want  string
	}{
		{"straight", []link{{0, 1}, {2, 1}, {1, 0}}, "2 open; "},
		{"cross", []link{{0, 1}, {1, 2}, {3, 1}, {1, 4}}, "2 open; 2 open; "},
		{"ring", []link{{1, 2}, {2, 5}, {5, 4}, {4, 1}}, "4 ring; "},
		{"corner", []link{{0, 1}, {1, 4}}, "3 open; "},
		{"nothing", nil, ""},
	} {
		got := ""
		lines, closed := paths(points, c.links)
		for i, l := range lines {
			kind := "open"
			if closed[i] {
				kind = "ring"
			}
			got += fmt.Sprintf("%d %s; ", len(l), kind)
		}
		if got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

// TestRoom: words stand level in the middle, turn or shrink where they must, keep off lines and each other, and find no
// place where there is none.
func TestRoom(t *testing.T) {
	word := block{role: drawing.TextPlain, lines: []string{"lighthouse"}, size: 3, turns: []float64{0, 90}}
	area := func(w, h float64) [][]drawing.Point {
		return [][]drawing.Point{drawing.Rect(drawing.Style{}, drawing.None, drawing.Point{}, drawing.Point{X: w, Y: h}).Outer}
	}
	var r room
	set, ok := r.put(area(60, 20), drawing.Point{X: 30, Y: 10}, word)
	if text := set[0].(drawing.Text); !ok || text.TurnDeg != 0 || text.At.X != 30 {
		t.Errorf("in the open: %+v", set)
	}
	if second, ok := r.put(area(60, 20), drawing.Point{X: 30, Y: 10}, word); !ok || second[0].Bounds() == set[0].Bounds() {
		t.Errorf("beside the first: %v %+v", ok, second)
	}
	var upright room
	if set, ok := upright.put(area(8, 60), drawing.Point{X: 4, Y: 30}, word); !ok || set[0].(drawing.Text).TurnDeg != 90 {
		t.Errorf("in a narrow panel: %v %+v", ok, set)
	}
	var tight room
	if _, ok := tight.put(area(8, 8), drawing.Point{X: 4, Y: 4}, word); ok {
		t.Error("words found a place where there is none")
	}
	var crossed room
	crossed.line(drawing.Line(drawing.Cut, drawing.Point{X: -1, Y: 10}, drawing.Point{X: 61, Y: 10}))
	set, ok = crossed.put(area(60, 20), drawing.Point{X: 30, Y: 10}, word)
	if b := drawing.BoundsOf(set); !ok || b.Min.Y < 10 && b.Max.Y > 10 {
		t.Errorf("on a line: %v %+v", ok, b)
	}
}

// TestWithout: what runs through words is cut out of a line, and nothing else.
func TestWithout(t *testing.T) {
	line := []drawing.Shape{drawing.Line(drawing.Glue, drawing.Point{X: 0, Y: 5}, drawing.Point{X: 30, Y: 5})}
	box := [4]drawing.Point{{X: 10, Y: 0}, {X: 20, Y: 0}, {X: 20, Y: 10}, {X: 10, Y: 10}}
	got := without(line, [][4]drawing.Point{box})
	if len(got) != 2 || got[0].Bounds().Max.X != 10 || got[1].Bounds().Min.X != 20 {
		t.Errorf("got %+v", got)
	}
	if got := without(line, [][4]drawing.Point{{{X: 10, Y: 6}, {X: 20, Y: 6}, {X: 20, Y: 9}, {X: 10, Y: 9}}}); len(got) != 1 || got[0].Bounds() != line[0].Bounds() {
		t.Errorf("words beside the line changed it: %+v", got)
	}
}
