package plane

import (
	"math"
	"slices"

	"foldwright/length"
)

// SignedArea returns the area inside a closed ring of points in nm², positive if the ring runs counter-clockwise. ring
// holds indices into points.
// Accuracy: about 1e-15 of the area of the ring's box.
func SignedArea(points []Point, ring []int) float64 {
	if len(ring) == 0 {
		return 0
	}
	o := points[ring[0]]
	sum := 0.0
	for i, k := range ring {
		u, v := points[k].Sub(o), points[ring[(i+1)%len(ring)]].Sub(o)
		sum += float64(u.X)*float64(v.Y) - float64(u.Y)*float64(v.X)
	}
	return sum / 2
}

// Area returns the signed area of a polygon in nm².
func Area(polygon []Point) float64 { return SignedArea(polygon, sequence(len(polygon))) }

func sequence(n int) []int {
	s := make([]int, n)
	for i := range s {
		s[i] = i
	}
	return s
}

// Inside says whether (x, y), in nanometres, lies inside the closed ring of points (even-odd rule). A point on the
// ring itself may come out either way: ask for points that are clearly on one side.
func Inside(points []Point, ring []int, x, y float64) bool {
	in := false
	for i, k := range ring {
		if crosses(points[k], points[ring[(i+1)%len(ring)]], x, y) {
			in = !in
		}
	}
	return in
}

// InPolygon says whether (x, y) lies inside the polygon; see [Inside].
func InPolygon(polygon []Point, x, y float64) bool {
	in := false
	for i, p := range polygon {
		if crosses(p, polygon[(i+1)%len(polygon)], x, y) {
			in = !in
		}
	}
	return in
}

// crosses says whether the edge a→b crosses the ray from (x, y) to the right.
func crosses(a, b Point, x, y float64) bool {
	at, ok := crossLevel(a, b, y)
	return ok && x < at
}

// crossLevel returns where the edge a→b crosses the level line at a height; ok is false where it does not.
func crossLevel(a, b Point, y float64) (x float64, ok bool) {
	ay, by := float64(a.Y), float64(b.Y)
	if (ay > y) == (by > y) {
		return 0, false
	}
	return float64(a.X) + (y-ay)/(by-ay)*float64(b.X-a.X), true
}

// InnerPoint returns a point well inside a face, in nanometres: the middle of the widest stretch of the level line
// half-way between two neighbouring heights of its corners.
// Range: a face with an outer boundary; ok is false where the face has no inside (a sliver under a nanometre high).
func (s *Subdivision) InnerPoint(f int) (x, y float64, ok bool) {
	face := s.Faces[f]
	if len(face.Outer) == 0 {
		return 0, 0, false
	}
	rings := append([][]int{face.Outer}, face.Holes...)
	y, ok = middleHeight(s.Points, face.Outer)
	if !ok {
		return 0, 0, false
	}
	var cuts []float64
	for _, ring := range rings {
		for i, k := range ring {
			if at, ok := crossLevel(s.Points[k], s.Points[ring[(i+1)%len(ring)]], y); ok {
				cuts = append(cuts, at)
			}
		}
	}
	slices.Sort(cuts)
	widest := 0.0
	for i := 0; i+1 < len(cuts); i += 2 {
		if w := cuts[i+1] - cuts[i]; w > widest {
			widest, x = w, (cuts[i]+cuts[i+1])/2
		}
	}
	return x, y, widest > 0
}

// middleHeight returns the middle of the tallest gap between neighbouring heights of the ring's corners.
func middleHeight(points []Point, ring []int) (float64, bool) {
	var heights []float64
	for _, k := range ring {
		heights = append(heights, float64(points[k].Y))
	}
	slices.Sort(heights)
	best, y := 0.0, 0.0
	for i := 1; i < len(heights); i++ {
		if d := heights[i] - heights[i-1]; d > best {
			best, y = d, (heights[i]+heights[i-1])/2
		}
	}
	return y, best > 0
}

// Ellipse returns a polygon of n corners on the ellipse with the given box, counter-clockwise, each corner on the
// nearest nanometre. The polygon lies inside the ellipse by at most (1 - cos(π/n)) of its half axes.
func Ellipse(box Box, n int) []Point {
	cx, cy := float64(box.Min.X+box.Max.X)/2, float64(box.Min.Y+box.Max.Y)/2
	rx, ry := float64(box.W())/2, float64(box.H())/2
	out := make([]Point, n)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = Point{length.Length(math.Round(cx + rx*c)), length.Length(math.Round(cy + ry*s))}
	}
	return out
}

// Rectangle returns the corners of a box, counter-clockwise from the lower left.
func Rectangle(b Box) []Point {
	return []Point{b.Min, {b.Max.X, b.Min.Y}, b.Max, {b.Min.X, b.Max.Y}}
}
