package pdf

import "foldwright/drawing"

// overview draws a small picture of a tiled drawing with the tile at hand filled, as large as it fits, into the lower
// right corner of a box of wide x high mm that ends at right and bottom (y down).
func (p *printer) overview(d *drawing.Drawing, place Place, right, bottom, wide, high float64) {
	w, h := turnedSize(d, place.Turned)
	k := min(wide/w, high/h)
	own := frame{
		turned: place.Turned, height: d.H, window: whole(d, place.Turned),
		left: right - w*k, bottom: bottom, scale: k,
	}
	tiles := own
	tiles.turned = false // windows are given in the turned drawing
	corner := func(q drawing.Point) drawing.Point {
		x, y := tiles.onPage(q)
		return drawing.Point{X: x, Y: -y}
	}
	page := frame{scale: 1} // y up from the top edge of the page
	p.shape(page, drawing.Rect(drawing.Outer(0), drawing.None, corner(place.Window.Min), corner(place.Window.Max)))
	p.shapes(own, d.Group(drawing.GroupCut))
	for r := range place.Rows {
		for c := range place.Columns {
			tile := place.grid.window(c, r)
			p.shape(page, drawing.Rect(drawing.Style{}, drawing.Frame, corner(tile.Min), corner(tile.Max)))
		}
	}
}
