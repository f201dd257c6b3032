package flat

import (
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Overlay is the closed card cut up along every edge of every panel, so that within a cell the same panels lie on each
// other everywhere.
type Overlay struct {
	Sub *plane.Subdivision
	// Cells holds the faces of Sub that card covers.
	Cells []Cell
	// cellOf is the index in Cells per face of Sub, -1 where no card lies.
	cellOf []int
}

// Cell is one region of the closed card.
type Cell struct {
	Face int
	// Stack holds the panels that cover the cell: in rising number until the order is known, then from the front.
	Stack []int
	// X and Y is a point inside, in nanometres.
	X, Y float64
}

// smallCell is the area in nm² below which a cell is the dust of rounding: a thousandth of a square millimetre.
const smallCell = 1e9

// newOverlay lays the panels of an assembly on each other. at holds where every panel lies. The tags of its edges count the
// panels from 0, and the hinges behind them.
func newOverlay(a *pattern.Assembly, at []plane.Motion, tolerance length.Length) *Overlay {
	return overlay(a, at, nil, tolerance)
}

// overlayWith is newOverlay with the edges of mats and toppers besides; cells that hold a topper only have an empty stack.
func overlayWith(a *pattern.Assembly, at []plane.Motion, decorations []Decoration) *Overlay {
	return overlay(a, at, decorations, length.Micrometre)
}

func overlay(a *pattern.Assembly, at []plane.Motion, decorations []Decoration, tolerance length.Length) *Overlay {
	var segments []plane.Segment
	for _, d := range decorations {
		for k, c := range d.Ring {
			segments = append(segments, plane.Segment{A: c, B: d.Ring[(k+1)%len(d.Ring)], Tag: -1})
		}
	}
	boxes := make([]plane.Box, len(a.Panels))
	for i, p := range a.Panels {
		boxes[i] = plane.BoxOf(moved(at[i], p.Outline)...)
		for _, ring := range p.Rings() {
			points := moved(at[i], ring)
			for k, c := range points {
				segments = append(segments, plane.Segment{A: c, B: points[(k+1)%len(points)], Tag: i})
			}
		}
	}
	for i, h := range a.Hinges {
		for _, part := range h.Parts {
			segments = append(segments, plane.Segment{A: at[h.A].Point(part.A), B: at[h.A].Point(part.B), Tag: len(a.Panels) + i})
		}
	}
	o := &Overlay{Sub: plane.Subdivide(segments, tolerance)}
	o.cellOf = make([]int, len(o.Sub.Faces))
	back := make([]plane.Motion, len(at))
	for i, m := range at {
		back[i] = m.Inverse()
	}
	for f := range o.Sub.Faces {
		o.cellOf[f] = -1
		if tolerance > 0 && o.Sub.Faces[f].Area < smallCell {
			continue
		}
		x, y, ok := o.Sub.InnerPoint(f)
		if !ok {
			continue
		}
		if stack := stackAt(a, boxes, back, x, y); len(stack) > 0 || decorated(decorations, x, y) {
			o.cellOf[f] = len(o.Cells)
			o.Cells = append(o.Cells, Cell{Face: f, Stack: stack, X: x, Y: y})
		}
	}
	return o
}

func decorated(decorations []Decoration, x, y float64) bool {
	for _, d := range decorations {
		if plane.InPolygon(d.Ring, x, y) {
			return true
		}
	}
	return false
}

func moved(m plane.Motion, ring []plane.Point) []plane.Point { return m.Points(ring) }

// stackAt lists the panels that cover a point of the closed card.
func stackAt(a *pattern.Assembly, boxes []plane.Box, back []plane.Motion, x, y float64) []int {
	var stack []int
	for i := range a.Panels {
		b := boxes[i]
		if x < float64(b.Min.X) || x > float64(b.Max.X) || y < float64(b.Min.Y) || y > float64(b.Max.Y) {
			continue
		}
		if px, py := back[i].At(x, y); a.Panels[i].Contains(px, py) {
			stack = append(stack, i)
		}
	}
	return stack
}

// Ring returns the outer boundary of a cell, counter-clockwise.
func (o *Overlay) Ring(cell int) []plane.Point {
	return o.Sub.Ring(o.Sub.Faces[o.Cells[cell].Face].Outer)
}

// Area returns the area of a cell in nm².
func (o *Overlay) Area(cell int) float64 { return o.Sub.Faces[o.Cells[cell].Face].Area }
