package pattern

import (
	"foldwright/length"
	"foldwright/plane"
)

// overlap says whether panel p, placed on panel q, lies on some of it.
func overlap(p, q *Panel, place plane.Motion) bool {
	b := plane.BoxOf(place.Points(p.Outline)...)
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
	sub := overlaid(p, q, place)
	for f := range sub.Faces {
		if x, y, ok := sub.InnerPoint(f); ok && sub.Faces[f].Area > contactLeast && both(x, y) {
			return true
		}
	}
	return false
}

// overlaid cuts up the plane of panel q along the edges of q and of p as it is placed on q.
func overlaid(p, q *Panel, place plane.Motion) *plane.Subdivision {
	var segments []plane.Segment
	add := func(ring []plane.Point) {
		for i, c := range ring {
			segments = append(segments, plane.Segment{A: c, B: ring[(i+1)%len(ring)]})
		}
	}
	for _, ring := range p.Rings() {
		add(place.Points(ring))
	}
	for _, ring := range q.Rings() {
		add(ring)
	}
	return plane.Subdivide(segments, length.Micrometre)
}

// holding returns which share of what the outlines of two glued panels have in common is card on both of them: less than 1
// where windows take something out of it.
func holding(p, q *Panel, place plane.Motion) float64 {
	if len(p.Holes)+len(q.Holes) == 0 {
		return 1
	}
	sub, back := overlaid(p, q, place), place.Inverse()
	card, whole := 0.0, 0.0
	for f := range sub.Faces {
		x, y, ok := sub.InnerPoint(f)
		if !ok {
			continue
		}
		px, py := back.At(x, y)
		if !plane.InPolygon(q.Outline, x, y) || !plane.InPolygon(p.Outline, px, py) {
			continue
		}
		area := sub.Faces[f].Area
		if whole += area; q.Contains(x, y) && p.Contains(px, py) {
			card += area
		}
	}
	if whole == 0 {
		return 1
	}
	return card / whole
}

// contactLeast is the area in nm² below which two panels do not count as touching: a hundredth of a square millimetre.
const contactLeast = 1e10

// holdingLeast is the share of a glued area that windows must leave for the joint to be trusted. Assumed.
const holdingLeast = 0.5
