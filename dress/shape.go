package dress

import (
	"foldwright/plane"
)

// least is the area in nm² below which two shapes do not count as overlapping: a hundredth of a square millimetre.
const least = 1e10

// cuts says, exactly, whether a segment passes through the inside of a box.
func cuts(a, b plane.Point, box plane.Box) bool {
	if max(a.X, b.X) <= box.Min.X || min(a.X, b.X) >= box.Max.X || max(a.Y, b.Y) <= box.Min.Y || min(a.Y, b.Y) >= box.Max.Y {
		return false
	}
	left, right := false, false
	for _, c := range plane.Rectangle(box) {
		switch plane.Side(a, b, c) {
		case 1:
			left = true
		case -1:
			right = true
		}
	}
	return left && right
}

// within says, exactly, whether a box lies inside a ring; the two may touch.
func within(box plane.Box, ring []plane.Point) bool {
	return beside(box, ring) && holdsMiddle(ring, box)
}

// apart says, exactly, whether a box has nothing of the inside of a ring; the two may touch.
func apart(box plane.Box, ring []plane.Point) bool {
	return beside(box, ring) && !holdsMiddle(ring, box)
}

// beside says whether no side of the ring passes through the box.
func beside(box plane.Box, ring []plane.Point) bool {
	for i, a := range ring {
		if cuts(a, ring[(i+1)%len(ring)], box) {
			return false
		}
	}
	return true
}

func holdsMiddle(ring []plane.Point, box plane.Box) bool {
	return plane.InPolygon(ring, (float64(box.Min.X)+float64(box.Max.X))/2, (float64(box.Min.Y)+float64(box.Max.Y))/2)
}

// shares says whether a ring has some area inside another one or, with in false, outside it.
func shares(a, b []plane.Point, in bool) bool {
	var segments []plane.Segment
	for _, ring := range [][]plane.Point{a, b} {
		for i, p := range ring {
			segments = append(segments, plane.Segment{A: p, B: ring[(i+1)%len(ring)]})
		}
	}
	sub := plane.Subdivide(segments, 0)
	for f := range sub.Faces {
		if f == 0 || sub.Faces[f].Area < least {
			continue
		}
		if x, y, ok := sub.InnerPoint(f); ok && plane.InPolygon(a, x, y) && plane.InPolygon(b, x, y) == in {
			return true
		}
	}
	return false
}
