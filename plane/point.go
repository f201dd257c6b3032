package plane

import (
	"fmt"

	"foldwright/length"
)

// Point is a point on a flat piece, in exact lengths.
type Point struct{ X, Y length.Length }

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// String returns the point in millimetres, as tests print it.
func (p Point) String() string {
	x, _ := p.X.Exact(length.MM)
	y, _ := p.Y.Exact(length.MM)
	return fmt.Sprintf("(%s,%s)", x, y)
}

// Side tells on which side of the line a→b the point p lies: +1 left, -1 right, 0 on the line.
// Range: coordinates of a figure no larger than length.Max; then the result is exact (see length.Max).
func Side(a, b, p Point) int {
	u, v := b.Sub(a), p.Sub(a)
	switch d := int64(u.X)*int64(v.Y) - int64(u.Y)*int64(v.X); {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// Box is a rectangle with level and upright sides. The zero Box is empty at the origin; use [BoxOf].
type Box struct{ Min, Max Point }

// BoxOf returns the smallest box around points.
func BoxOf(points ...Point) Box {
	if len(points) == 0 {
		return Box{}
	}
	b := Box{points[0], points[0]}
	for _, p := range points[1:] {
		b.Min = Point{min(b.Min.X, p.X), min(b.Min.Y, p.Y)}
		b.Max = Point{max(b.Max.X, p.X), max(b.Max.Y, p.Y)}
	}
	return b
}

// Union returns the smallest box around both.
func (b Box) Union(c Box) Box { return BoxOf(b.Min, b.Max, c.Min, c.Max) }

// W returns the width of the box.
func (b Box) W() length.Length { return b.Max.X - b.Min.X }

// H returns the height of the box.
func (b Box) H() length.Length { return b.Max.Y - b.Min.Y }

// Contains says whether p lies in the box or on its sides.
func (b Box) Contains(p Point) bool {
	return b.Min.X <= p.X && p.X <= b.Max.X && b.Min.Y <= p.Y && p.Y <= b.Max.Y
}
