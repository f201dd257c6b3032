package pattern

import (
	"foldwright/length"
	"foldwright/plane"
)

// overlap says whether panel p, placed on panel q, lies on some of it.
func overlap(p, q *Panel, place plane.Motion) bool {
	outline := make([]plane.Point, len(p.Outline))
	for i, c := range p.Outline {
		outline[i] = place.Point(c)
	}
	b := plane.BoxOf(outline...)
	w := min(b.Max.X, q.Box.Max.X) - max(b.Min.X, q.Box.Min.X)
	h := min(b.Max.Y, q.Box.Max.Y) - max(b.Min.Y, q.Box.Min.Y)
	if w <= 0 || h <= 0 {
		return false
	}
	// The middle of what the boxes share lies on both for nearly all tabs; only where it does not are the shapes overlaid.
	x, y := float64(max(b.Min.X, q.Box.Min.X))+float64(w)/2, float64(max(b.Min.Y, q.Box.Min.Y))+float64(h)/2
	back := place.Inverse()
	both := func(x, y float64) bool {
		px, py := back.At(x, y)
		return q.Contains(x, y) && p.Contains(px, py)
	}
	if both(x, y) {
		return true
	}
	var segments []plane.Segment
	add := func(ring []plane.Point) {
		for i, c := range ring {
			segments = append(segments, plane.Segment{A: c, B: ring[(i+1)%len(ring)]})
		}
	}
	add(outline)
	for _, ring := range p.Holes {
		moved := make([]plane.Point, len(ring))
		for i, c := range ring {
			moved[i] = place.Point(c)
		}
		add(moved)
	}
	for _, ring := range q.Rings() {
		add(ring)
	}
	sub := plane.Subdivide(segments, length.Micrometre)
	for f := range sub.Faces {
		if x, y, ok := sub.InnerPoint(f); ok && sub.Faces[f].Area > contactLeast && both(x, y) {
			return true
		}
	}
	return false
}

// contactLeast is the area in nm² below which two panels do not count as touching: a hundredth of a square millimetre.
const contactLeast = 1e10
