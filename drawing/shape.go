package drawing

// Shape is one of [Polyline], [Polygon], [Ellipse] and [Text]. Shapes are values: nothing changes the points of a shape
// once it is made.
type Shape interface {
	// Bounds returns the smallest level box around the shape, in mm, not counting the width of lines.
	Bounds() Box
	// moved returns the shape moved by mm.
	moved(by Point) Shape
}

// Moved returns shapes moved by mm.
func Moved(shapes []Shape, by Point) []Shape {
	out := make([]Shape, len(shapes))
	for i, s := range shapes {
		out[i] = s.moved(by)
	}
	return out
}

// Polyline is an open line through two or more points. Where it has just two, its dashes are fitted so that it begins
// and ends with a dash ([FitDash]).
type Polyline struct {
	Line   Role
	Points []Point
}

// Line returns the straight line from a to b.
func Line(role Role, a, b Point) Polyline { return Polyline{Line: role, Points: []Point{a, b}} }

// Bounds returns the box around the points.
func (p Polyline) Bounds() Box { return BoxOf(p.Points...) }

func (p Polyline) moved(by Point) Shape {
	p.Points = movedPoints(p.Points, by)
	return p
}

// Polygon is a closed shape with straight sides. Fill is None for an empty one, Line is None for one without an edge.
// Holes are cut out of the fill (even-odd) and edged like the outside.
type Polygon struct {
	Fill  Style
	Line  Role
	Outer []Point
	Holes [][]Point
}

// Rect returns the upright rectangle with these two opposite corners.
func Rect(fill Style, line Role, a, b Point) Polygon {
	return Polygon{Fill: fill, Line: line, Outer: []Point{a, {b.X, a.Y}, b, {a.X, b.Y}}}
}

// Bounds returns the box around the outside.
func (p Polygon) Bounds() Box { return BoxOf(p.Outer...) }

// Rings returns all borders: the outside, then the holes.
func (p Polygon) Rings() [][]Point { return append([][]Point{p.Outer}, p.Holes...) }

func (p Polygon) moved(by Point) Shape {
	p.Outer = movedPoints(p.Outer, by)
	if p.Holes != nil {
		holes := make([][]Point, len(p.Holes))
		for i, h := range p.Holes {
			holes[i] = movedPoints(h, by)
		}
		p.Holes = holes
	}
	return p
}

// Ellipse is an ellipse whose axes are level and upright, with the half axes RX and RY in mm.
type Ellipse struct {
	Fill   Style
	Line   Role
	Centre Point
	RX, RY float64
}

// Circle returns the circle of radius r mm.
func Circle(fill Style, line Role, centre Point, r float64) Ellipse {
	return Ellipse{Fill: fill, Line: line, Centre: centre, RX: r, RY: r}
}

// Bounds returns the box around the ellipse.
func (e Ellipse) Bounds() Box {
	r := Point{e.RX, e.RY}
	return Box{e.Centre.Sub(r), e.Centre.Add(r)}
}

func (e Ellipse) moved(by Point) Shape {
	e.Centre = e.Centre.Add(by)
	return e
}

func movedPoints(points []Point, by Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = p.Add(by)
	}
	return out
}
