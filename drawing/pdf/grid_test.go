package pdf

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/drawing"
)

// TestSeamsAlong asserts for any scores: (1) no tile is larger than the room; (2) as few tiles as without scores; (3) of two
// tiles the seam is clear of scores if any tenth of a millimetre on which it may lie is.
func TestSeamsAlong(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		room := rapid.Float64Range(60, 250).Draw(t, "room")
		size := rapid.Float64Range(room+1, 900).Draw(t, "size")
		scores := rapid.SliceOfN(rapid.Float64Range(0, size), 0, 60).Draw(t, "scores")
		seams := seamsAlong(size, room, scores, nil)
		if len(seams)+1 != tilesAlong(size, room) {
			t.Fatalf("%d seams for %d tiles", len(seams), tilesAlong(size, room))
		}
		for k := range len(seams) + 1 {
			if from, to := tileSpan(seams, size, k); to-from > room+1e-6 || to-from < overlap {
				t.Errorf("tile %d is %g long, the room %g", k, to-from, room)
			}
		}
		if len(seams) != 1 || clearOfAll(seams[0], scores) {
			return
		}
		for at := size - room + overlap/2; at <= room-overlap/2; at += 0.1 {
			if clearOfAll(at, scores) {
				t.Fatalf("the seam lies at %g, near one of %v, but could lie at %g", seams[0], scores, at)
			}
		}
	})
}

func clearOfAll(at float64, lines []float64) bool {
	return !slices.ContainsFunc(lines, func(l float64) bool { return math.Abs(at-l) < 3-1e-6 })
}

// TestNewGrid: a base of an easel, whose score would lie under the seam, is cut beside it, whichever way it is turned; a
// seam keeps off cuts too where it can.
func TestNewGrid(t *testing.T) {
	const wide, high = 110.0, 310.0
	across := func(d *drawing.Drawing, group string, role drawing.Role, y float64) {
		d.Add(group, drawing.Line(role, drawing.Point{X: 3, Y: y}, drawing.Point{X: 107, Y: y}))
	}
	d := sized("base", wide, high)
	if g := newGrid(d, false, 190, 240); !slices.Equal(g.up, []float64{155}) || g.across != nil {
		t.Fatalf("a bare sheet is cut at %v, want 155, in the middle", g.up)
	}
	across(d, drawing.GroupScore, drawing.ScoreMountain, 154)
	if g := newGrid(d, false, 190, 240); !slices.Equal(g.up, []float64{162}) {
		t.Errorf("the seam lies at %v, want 162: the score at 154 is off the overlap and 3 mm more", g.up)
	}
	if g := newGrid(d, true, 240, 190); !slices.Equal(g.across, []float64{high - 162}) {
		t.Errorf("turned, the seam lies at %v, want %g", g.across, high-162)
	}
	across(d, drawing.GroupCut, drawing.Cut, 159)
	if g := newGrid(d, false, 190, 240); !slices.Equal(g.up, []float64{146}) {
		t.Errorf("the seam lies at %v, want 146: the cut at 159 is too near 162", g.up)
	}
	for y := 45.0; y < high; y += 10 {
		across(d, drawing.GroupCut, drawing.Cut, y)
	}
	if g := newGrid(d, false, 190, 240); !slices.Equal(g.up, []float64{151}) {
		t.Errorf("the seam lies at %v, want 151: 3 mm beside the score at 154, where cuts leave no more room", g.up)
	}
}
