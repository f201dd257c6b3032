package view

import (
	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/fold"
)

// Measures of a strip in mm.
const (
	cellWide = 46.0
	cellHigh = 52.0
	cellGap  = 6.0
)

// Sequence draws the opening as a strip of n poses (at least 2) from closed to open, evenly apart, all seen alike and at one
// scale. It returns nil where there are no poses.
func Sequence(c *flat.Closed, o *fold.Opening, n int) *drawing.Drawing {
	if c == nil || o == nil || len(o.Poses) == 0 || len(o.Poses[0].Panels) != len(c.At) {
		return nil
	}
	title := c.Assembly.Card.Title
	s := newScene(c, o)
	n = max(2, n)
	cells := make([][]drawing.Shape, n)
	var box drawing.Box
	for i := range cells {
		cells[i] = s.shapes(At(o, float64(i)/float64(n-1)))
		if b := drawing.BoundsOf(cells[i]); i == 0 {
			box = b
		} else {
			box = box.Union(b)
		}
	}
	k := min(cellWide/box.W(), cellHigh/box.H())
	wide := max(cellWide*0.6, box.W()*k)
	d := drawing.New("opening", title+", from closed to open")
	for i, shapes := range cells {
		at := drawing.Point{X: float64(i) * (wide + cellGap)}
		small := drawing.Moved(scaled(shapes, k, box), at)
		d.Add(drawing.GroupPanel, small...)
		d.Add(drawing.GroupText, drawing.Text{
			Role: drawing.TextPlain, Words: partWords(partOpen(o, At(o, float64(i)/float64(n-1)))), Size: drawing.NoteSize,
			Anchor: drawing.Middle, Level: drawing.Top, At: drawing.Point{X: drawing.BoundsOf(small).Centre().X, Y: -3},
		})
	}
	head(d, title, "from closed to open, not true to size")
	d.Desc = "The card in steps from closed to open, seen from above and from the right."
	d.Fit(margin)
	return d
}

// scaled returns the polygons and lines of a view made smaller, the lower left corner of box at the origin.
func scaled(shapes []drawing.Shape, k float64, box drawing.Box) []drawing.Shape {
	ring := func(points []drawing.Point) []drawing.Point {
		out := make([]drawing.Point, len(points))
		for i, p := range points {
			out[i] = p.Sub(box.Min).Times(k)
		}
		return out
	}
	out := make([]drawing.Shape, 0, len(shapes))
	for _, s := range shapes {
		switch s := s.(type) {
		case drawing.Polygon:
			s.Outer = ring(s.Outer)
			holes := s.Holes
			s.Holes = nil
			for _, h := range holes {
				s.Holes = append(s.Holes, ring(h))
			}
			out = append(out, s)
		case drawing.Polyline:
			s.Points = ring(s.Points)
			out = append(out, s)
		}
	}
	return out
}
