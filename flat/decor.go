package flat

import (
	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Decoration is a mat or a topper where it lies on the closed card.
type Decoration struct {
	Panel int
	Stock string
	// Thick is what it adds to the stack.
	Thick length.Length
	// Ring is its edge in the closed card.
	Ring []plane.Point
	// Cut is its edge as it is cut: that of a mat lies as the pattern of its panel does, that of a topper as Ring.
	Cut []plane.Point
	// Layer counts the layers on one panel from 0, those next to the panel first.
	Layer int
	// Topper says that it is a topper and not a mat; Index is its place in Card.Toppers or Card.Mats.
	Topper bool
	Index  int
}

// Decorations lays the mats and toppers of the card on its closed panels. A mat is the panel less its edge on every side,
// or the mat below less its edge. A topper stands upright in the closed card, centred across its panel.
// Approximate: a mat on a panel that is not a rectangle is that panel's bounding rectangle less the edge.
func (c *Closed) Decorations() []Decoration {
	var out []Decoration
	layers := make([]int, len(c.At))
	for m := range c.matsOnPanels() {
		box := c.Assembly.Panels[m.panel].Box
		box.Min = box.Min.Add(plane.Point{X: m.inset, Y: m.inset})
		box.Max = box.Max.Sub(plane.Point{X: m.inset, Y: m.inset})
		if box.W() <= 0 || box.H() <= 0 {
			continue
		}
		stock := c.Assembly.Card.Mats[m.mat].Stock
		out = append(out, Decoration{Panel: m.panel, Stock: stock, Thick: c.caliper(stock), Index: m.mat,
			Ring: moved(c.At[m.panel], plane.Rectangle(box)), Cut: plane.Rectangle(box), Layer: layers[m.panel]})
		layers[m.panel]++
	}
	for i, t := range c.Assembly.Card.Toppers {
		p, ok := c.Assembly.Find(t.On)
		if !ok {
			continue
		}
		thick := c.caliper(t.Stock)
		if t.ThickGiven {
			thick = t.Thick
		}
		ring := c.topperRing(p, t)
		out = append(out, Decoration{Panel: p, Stock: t.Stock, Thick: thick, Topper: true, Index: i, Ring: ring, Cut: ring, Layer: layers[p]})
		layers[p]++
	}
	return out
}

func (c *Closed) caliper(stock string) length.Length {
	if s := c.Assembly.Card.StockNamed(stock); s != nil {
		return s.Caliper
	}
	return 0
}

// topperRing returns a topper's edge in the closed card.
func (c *Closed) topperRing(panel int, t card.Topper) []plane.Point {
	on := plane.BoxOf(moved(c.At[panel], c.Assembly.Panels[panel].Outline)...)
	size := t.Size
	if t.Kind == card.Polygon {
		b := plane.BoxOf(t.Points...)
		size = card.Size{W: b.W(), H: b.H()}
	}
	low := plane.Point{X: (on.Min.X + on.Max.X - size.W) / 2, Y: (on.Min.Y + on.Max.Y - size.H) / 2}
	switch t.Place {
	case card.TopperTop:
		low.Y = c.Box.Min.Y + t.At - size.H
	case card.TopperBottom:
		low.Y = c.Box.Min.Y + t.At
	}
	box := plane.Box{Min: low, Max: low.Add(plane.Point{X: size.W, Y: size.H})}
	switch t.Kind {
	case card.Rect:
		return plane.Rectangle(box)
	case card.Polygon:
		shift := low.Sub(plane.BoxOf(t.Points...).Min)
		ring := make([]plane.Point, len(t.Points))
		for i, p := range t.Points {
			ring[i] = p.Add(shift)
		}
		return ring
	}
	return plane.Ellipse(box, topperCorners)
}

// topperCorners is how many corners an oval topper has in the closed card.
const topperCorners = 96

// Bulk is one region of equal thickness.
type Bulk struct {
	Ring  []plane.Point
	Thick length.Length
}

// Thickness is how thick the closed card is, as the sum of the calipers that lie on each other.
type Thickness struct {
	Map []Bulk
	Max length.Length
	// At is a point where it is thickest, Stack the panels there.
	At    plane.Point
	Stack []int
}

// Thickness returns the thickness map of the closed card with its mats and toppers. It is a lower bound: springback and
// glue add to it (no published figure was found; measure a pressed card where it matters).
func (c *Closed) Thickness() Thickness {
	decorations := c.Decorations()
	o := c.Overlay
	if len(decorations) > 0 {
		o = overlayWith(c.Assembly, c.At, decorations)
	}
	var t Thickness
	for i, cell := range o.Cells {
		thick := length.Length(0)
		for _, p := range cell.Stack {
			thick += c.caliper(pieceOf(c.Assembly, p).Stock)
		}
		for _, d := range decorations {
			if plane.InPolygon(d.Ring, cell.X, cell.Y) {
				thick += d.Thick
			}
		}
		t.Map = append(t.Map, Bulk{Ring: o.Ring(i), Thick: thick})
		if thick > t.Max {
			t.Max, t.Stack = thick, cell.Stack
			t.At = plane.Point{X: length.Length(cell.X), Y: length.Length(cell.Y)}
		}
	}
	return t
}

func pieceOf(a *pattern.Assembly, panel int) *card.Piece {
	return a.Copies[a.Panels[panel].Copy].Pattern.Piece
}

// Outline returns the box of the closed card with its toppers and mats.
func (c *Closed) Outline() plane.Box {
	b := c.Box
	for _, d := range c.Decorations() {
		b = b.Union(plane.BoxOf(d.Ring...))
	}
	return b
}
