package pdf

import "foldwright/drawing"

// frame maps a drawing (mm, y up) to a page (mm, y down). First the drawing may be turned a quarter counter-clockwise:
// (x, y) becomes (height - y, x). Then window's lower left corner goes to (left, bottom) on the page, times scale.
type frame struct {
	turned       bool
	height       float64 // of the drawing before it is turned
	window       drawing.Box
	left, bottom float64
	scale        float64
}

// turn returns a point in the turned drawing.
func (f frame) turn(p drawing.Point) drawing.Point {
	if !f.turned {
		return p
	}
	return drawing.Point{X: f.height - p.Y, Y: p.X}
}

// at returns where a point of the drawing lies on the page.
func (f frame) at(p drawing.Point) (x, y float64) { return f.onPage(f.turn(p)) }

// onPage returns where a point of the turned drawing lies on the page.
func (f frame) onPage(p drawing.Point) (x, y float64) {
	q := p.Sub(f.window.Min).Times(f.scale)
	return f.left + q.X, f.bottom - q.Y
}

// degrees returns by how much text is turned on the page.
func (f frame) degrees(deg float64) float64 {
	if f.turned {
		return deg + 90
	}
	return deg
}

// upright is the frame of things that are placed on the page itself, y up from the bottom of a page of that height.
func upright(pageHeight float64) frame { return frame{bottom: pageHeight, scale: 1} }

// turnedSize returns width and height of a drawing, swapped if it is turned.
func turnedSize(d *drawing.Drawing, turned bool) (w, h float64) {
	if turned {
		return d.H, d.W
	}
	return d.W, d.H
}
