package drawing

import (
	"math"

	"foldwright/plane"
)

// Point is a place in a drawing, in mm, y up.
type Point struct{ X, Y float64 }

// Of returns the place of an exact point: x and y in mm.
func Of(p plane.Point) Point { return Point{p.X.MM(), p.Y.MM()} }

// OfAll returns the places of exact points.
func OfAll(points []plane.Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = Of(p)
	}
	return out
}

// Add returns p moved by q.
func (p Point) Add(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Sub returns p - q.
func (p Point) Sub(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times returns p with both coordinates multiplied by k.
func (p Point) Times(k float64) Point { return Point{p.X * k, p.Y * k} }

// Len returns the distance of p from the origin, in mm.
func (p Point) Len() float64 { return math.Hypot(p.X, p.Y) }

// Turned returns p turned about the origin by deg degrees counter-clockwise. Quarter turns are exact.
func (p Point) Turned(deg float64) Point {
	switch math.Mod(math.Mod(deg, 360)+360, 360) {
	case 0:
		return p
	case 90:
		return Point{-p.Y, p.X}
	case 180:
		return Point{-p.X, -p.Y}
	case 270:
		return Point{p.Y, -p.X}
	}
	s, c := math.Sincos(deg * math.Pi / 180)
	return Point{p.X*c - p.Y*s, p.X*s + p.Y*c}
}

// Box is a rectangle with level and upright sides, in mm.
type Box struct{ Min, Max Point }

// BoxOf returns the smallest box around points; without points the empty box at the origin.
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

// Grown returns the box with every side moved outwards by mm.
func (b Box) Grown(mm float64) Box {
	return Box{Point{b.Min.X - mm, b.Min.Y - mm}, Point{b.Max.X + mm, b.Max.Y + mm}}
}

// Meets says whether the boxes have more in common than their borders.
func (b Box) Meets(c Box) bool {
	return b.Min.X < c.Max.X && c.Min.X < b.Max.X && b.Min.Y < c.Max.Y && c.Min.Y < b.Max.Y
}

// W returns the width in mm.
func (b Box) W() float64 { return b.Max.X - b.Min.X }

// H returns the height in mm.
func (b Box) H() float64 { return b.Max.Y - b.Min.Y }

// Centre returns the middle of the box.
func (b Box) Centre() Point { return b.Min.Add(b.Max).Times(0.5) }

// BoundsOf returns the smallest box around shapes; without shapes the empty box at the origin.
func BoundsOf(shapes []Shape) Box {
	if len(shapes) == 0 {
		return Box{}
	}
	b := shapes[0].Bounds()
	for _, s := range shapes[1:] {
		b = b.Union(s.Bounds())
	}
	return b
}
