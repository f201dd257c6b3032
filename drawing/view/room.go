package view

import (
	"math"
	"slices"

	"foldwright/drawing"
)

// room finds places for words: inside an area, off every line and every word that is there already.
type room struct {
	lines [][2]drawing.Point
	taken [][4]drawing.Point
	// avoid are areas that words keep out of while there is another place.
	avoid [][]drawing.Point
	// tight lets words stand closer to lines where they find no place else.
	tight bool
}

// block is words to be set on one or more lines, in one size.
type block struct {
	role  drawing.Role
	bold  bool
	lines []string
	size  float64
	// turns are the directions in which the words may run, in degrees, the best first.
	turns []float64
}

// Distances in mm.
const (
	wordsClear = 1.0 // between words and lines
	tightClear = 0.7
	leadingBy  = 1.25
)

func (b block) width() float64 {
	w := 0.0
	for _, l := range b.lines {
		w = max(w, drawing.TextRoom(l, b.size, b.bold))
	}
	return w
}

func (b block) height() float64 {
	return b.size * (drawing.CapHeight + drawing.Descent + leadingBy*float64(len(b.lines)-1))
}

// at sets the block with its middle at a point.
func (b block) at(middle drawing.Point, turn float64) []drawing.Shape {
	top := drawing.Point{Y: b.height() / 2}
	return drawing.Lines(drawing.Text{
		Role: b.role, Bold: b.bold, Size: b.size, Anchor: drawing.Middle, Level: drawing.Top, TurnDeg: turn,
		At: middle.Add(top.Turned(turn)),
	}, b.lines, leadingBy*b.size)
}

// box returns the corners of the block, grown by some mm.
func (b block) box(middle drawing.Point, turn, grown float64) [4]drawing.Point {
	x, y := b.width()/2+grown, b.height()/2+grown
	var c [4]drawing.Point
	for i, p := range [4]drawing.Point{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}} {
		c[i] = middle.Add(p.Turned(turn))
	}
	return c
}

// put tries the blocks in turn and sets the first for which there is a place in the area, as near to the point near as can
// be; false if there is room for none. rings holds the borders of the area, even-odd.
func (r *room) put(rings [][]drawing.Point, near drawing.Point, blocks ...block) ([]drawing.Shape, bool) {
	spots := grid(rings[0], near)
	for _, keepOut := range []bool{true, false} {
		if keepOut && len(r.avoid) == 0 {
			continue
		}
		if set, ok := r.putAt(rings, spots, wordsClear, keepOut, blocks); ok {
			return set, true
		}
	}
	if r.tight {
		return r.putAt(rings, spots, tightClear, false, blocks)
	}
	return nil, false
}

// putAt sets the first block for which one of the places is clear by some mm.
func (r *room) putAt(rings [][]drawing.Point, spots []drawing.Point, off float64, keepOut bool, blocks []block) ([]drawing.Shape, bool) {
	for _, b := range blocks {
		for _, turn := range b.turns {
			for _, at := range spots {
				box := b.box(at, turn, off)
				if within(rings, box) && r.free(box) && !(keepOut && r.kept(box)) {
					r.taken = append(r.taken, b.box(at, turn, 0))
					return b.at(at, turn), true
				}
			}
		}
	}
	return nil, false
}

func (r *room) kept(box [4]drawing.Point) bool {
	for _, a := range r.avoid {
		if meet(box[:], a) {
			return true
		}
	}
	return false
}

// take notes words that have been set without asking.
func (r *room) take(shapes ...drawing.Shape) {
	for _, s := range shapes {
		if t, ok := s.(drawing.Text); ok {
			r.taken = append(r.taken, t.Corners())
		}
	}
}

// line notes the lines of shapes, off which words are to keep.
func (r *room) line(shapes ...drawing.Shape) {
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Polyline:
			for i := 1; i < len(s.Points); i++ {
				r.lines = append(r.lines, [2]drawing.Point{s.Points[i-1], s.Points[i]})
			}
		case drawing.Ellipse:
			box := drawing.Rect(drawing.Style{}, drawing.None, s.Bounds().Min, s.Bounds().Max)
			r.line(box)
		case drawing.Polygon:
			for _, ring := range s.Rings() {
				for i, p := range ring {
					r.lines = append(r.lines, [2]drawing.Point{p, ring[(i+1)%len(ring)]})
				}
			}
		}
	}
}

func (r *room) free(box [4]drawing.Point) bool {
	for _, t := range r.taken {
		if meet(box[:], t[:]) {
			return false
		}
	}
	for _, l := range r.lines {
		if meet(box[:], l[:]) {
			return false
		}
	}
	return true
}

// gridSteps is how many places are tried across an area, and up.
const gridSteps = 24

// grid returns places in the box of a ring, nearest to a point first.
func grid(ring []drawing.Point, near drawing.Point) []drawing.Point {
	b := drawing.BoxOf(ring...)
	spots := []drawing.Point{near, b.Centre()}
	for i := range gridSteps {
		for k := range gridSteps {
			spots = append(spots, drawing.Point{
				X: b.Min.X + b.W()*(float64(i)+0.5)/gridSteps,
				Y: b.Min.Y + b.H()*(float64(k)+0.5)/gridSteps,
			})
			if k == 0 {
				spots = append(spots, drawing.Point{X: b.Min.X + b.W()*(float64(i)+0.5)/gridSteps, Y: near.Y})
			}
		}
		spots = append(spots, drawing.Point{X: near.X, Y: b.Min.Y + b.H()*(float64(i)+0.5)/gridSteps})
	}
	nearestFirst(spots, near)
	return spots
}

// nearestFirst sorts places by their distance from a point.
func nearestFirst(spots []drawing.Point, near drawing.Point) {
	slices.SortStableFunc(spots, func(p, q drawing.Point) int {
		// whole tenths of a millimetre, so that float noise does not decide between places as far away
		return int(math.Round(p.Sub(near).Len()*10)) - int(math.Round(q.Sub(near).Len()*10))
	})
}

// squeeze tries what put tries, then the places half way between two borders of the area: a narrow one may lie between the
// places of a grid.
func (r *room) squeeze(rings [][]drawing.Point, near drawing.Point, blocks ...block) ([]drawing.Shape, bool) {
	if set, ok := r.put(rings, near, blocks...); ok {
		return set, true
	}
	return r.putAt(rings, middles(rings, near), tightClear, false, blocks)
}

// middles returns the places half way between neighbouring borders of an area, level and upright, nearest to a point first.
func middles(rings [][]drawing.Point, near drawing.Point) []drawing.Point {
	var spots []drawing.Point
	for _, turn := range []float64{0, 90} {
		turned := make([][]drawing.Point, len(rings))
		for i, ring := range rings {
			for _, p := range ring {
				turned[i] = append(turned[i], p.Turned(turn))
			}
		}
		b := drawing.BoxOf(turned[0]...)
		for i := range gridSteps {
			y := b.Min.Y + b.H()*(float64(i)+0.5)/gridSteps
			cuts := drawing.Crossings(turned, y)
			for k := 1; k < len(cuts); k++ {
				spots = append(spots, drawing.Point{X: (cuts[k-1] + cuts[k]) / 2, Y: y}.Turned(-turn))
			}
		}
	}
	nearestFirst(spots, near)
	return spots
}

// within says whether a convex box lies in an area (even-odd).
func within(rings [][]drawing.Point, box [4]drawing.Point) bool {
	c := box[0].Add(box[2]).Times(0.5)
	inside := false
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if meet(box[:], []drawing.Point{a, b}) {
				return false
			}
			if (a.Y > c.Y) != (b.Y > c.Y) && c.X < a.X+(c.Y-a.Y)*(b.X-a.X)/(b.Y-a.Y) {
				inside = !inside
			}
		}
	}
	return inside
}

// touching is how far two convex shapes may run into each other and still count as side by side, in mm.
const touching = 1e-3

// meet says whether two convex shapes (a polygon, or a segment of two points) overlap.
func meet(a, b []drawing.Point) bool { return drawing.Overlap(a, b, touching) }

// without cuts out of straight lines what runs through words.
func without(lines []drawing.Shape, boxes [][4]drawing.Point) []drawing.Shape {
	var out []drawing.Shape
	for _, s := range lines {
		l, ok := s.(drawing.Polyline)
		if !ok {
			out = append(out, s)
			continue
		}
		stretches := [][2]float64{{0, 1}}
		a, d := l.Points[0], l.Points[1].Sub(l.Points[0])
		for _, box := range boxes {
			lo, hi := through(a, d, box)
			if lo >= hi {
				continue
			}
			var kept [][2]float64
			for _, t := range stretches {
				if u := min(t[1], lo); u > t[0] {
					kept = append(kept, [2]float64{t[0], u})
				}
				if u := max(t[0], hi); u < t[1] {
					kept = append(kept, [2]float64{u, t[1]})
				}
			}
			stretches = kept
		}
		for _, t := range stretches {
			if (t[1]-t[0])*d.Len() > 1.2 { // shorter ones are specks
				out = append(out, drawing.Line(l.Line, a.Add(d.Times(t[0])), a.Add(d.Times(t[1]))))
			}
		}
	}
	return out
}

// through returns between which fractions of a→a+d a line lies in a counter-clockwise convex box; lo >= hi if nowhere.
func through(a, d drawing.Point, box [4]drawing.Point) (lo, hi float64) {
	lo, hi = 0, 1
	for i, p := range box {
		e := box[(i+1)%4].Sub(p)
		at := e.X*(a.Y-p.Y) - e.Y*(a.X-p.X)
		by := e.X*d.Y - e.Y*d.X
		switch {
		case math.Abs(by) < 1e-12:
			if at < 0 {
				return 1, 0
			}
		case by > 0:
			lo = max(lo, -at/by)
		default:
			hi = min(hi, -at/by)
		}
	}
	return lo, hi
}
