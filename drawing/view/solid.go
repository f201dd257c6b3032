package view

import (
	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

func vec(x, y length.Length) fold.Vec { return fold.Vec{x.MM(), y.MM(), 0} }

// sheet is a panel, a mat or a topper in space: rings (outside first, then windows) in one plane.
type sheet struct {
	panel int
	// layer counts the mats and toppers on a panel from 1; 0 is the panel itself.
	layer int
	tint  int
	// normal looks out of the outer face.
	normal fold.Vec
	rings  [][]fold.Vec
	// parts are convex polygons that together make the sheet.
	parts []polygon
}

// polygon is a convex polygon in space. edge says of each side, from corner i to the next, whether it is a side of the sheet
// and not a cut through it.
type polygon struct {
	sheet   int
	corners []fold.Vec
	edge    []bool
}

// flatSheet is a sheet as it lies in the pattern of its panel, the same in every pose.
type flatSheet struct {
	panel, layer, tint int
	rings              [][]plane.Point
	parts              []flatPart
}

type flatPart struct {
	ring []plane.Point
	edge []bool
}

// flatSheets lists all panels, mats and toppers.
func flatSheets(c *flat.Closed) []flatSheet {
	a := c.Assembly
	var out []flatSheet
	for i, p := range a.Panels {
		stock := a.Copies[p.Copy].Pattern.Piece.Stock
		out = append(out, flatSheet{panel: i, tint: tint(a.Card, stock), rings: p.Rings(), parts: convexParts(p.Panel)})
	}
	for _, d := range c.Decorations() {
		ring := moved(c.At[d.Panel].Inverse(), d.Ring)
		if plane.Area(ring) < 0 {
			for i, k := 0, len(ring)-1; i < k; i, k = i+1, k-1 {
				ring[i], ring[k] = ring[k], ring[i]
			}
		}
		cut := &pattern.Panel{Outline: ring, Box: plane.BoxOf(ring...)}
		out = append(out, flatSheet{panel: d.Panel, layer: d.Layer + 1, tint: tint(a.Card, d.Stock),
			rings: [][]plane.Point{ring}, parts: convexParts(cut)})
	}
	return out
}

// place puts sheets into space.
func place(sheets []flatSheet, frames []fold.Frame) []sheet {
	out := make([]sheet, len(sheets))
	for i, s := range sheets {
		f := frames[s.panel]
		at := func(ring []plane.Point) []fold.Vec {
			v := make([]fold.Vec, len(ring))
			for k, p := range ring {
				v[k] = f.At(vec(p.X, p.Y))
			}
			return v
		}
		o := sheet{panel: s.panel, layer: s.layer, tint: s.tint, normal: f.Z}
		for _, r := range s.rings {
			o.rings = append(o.rings, at(r))
		}
		for _, p := range s.parts {
			o.parts = append(o.parts, polygon{sheet: i, corners: at(p.ring), edge: p.edge})
		}
		out[i] = o
	}
	return out
}

// convexParts cuts a panel into convex polygons: itself if it is one, else by level lines through its corners.
func convexParts(p *pattern.Panel) []flatPart {
	if len(p.Holes) == 0 && convex(p.Outline) {
		edge := make([]bool, len(p.Outline))
		for i := range edge {
			edge[i] = true
		}
		return []flatPart{{p.Outline, edge}}
	}
	const side, level = 0, 1
	var segments []plane.Segment
	heights := map[length.Length]bool{}
	for _, ring := range p.Rings() {
		segments = ringSegments(segments, ring, side)
		for _, c := range ring {
			if heights[c.Y] {
				continue
			}
			heights[c.Y] = true
			segments = append(segments, plane.Segment{A: plane.Point{X: p.Box.Min.X, Y: c.Y}, B: plane.Point{X: p.Box.Max.X, Y: c.Y}, Tag: level})
		}
	}
	sub := plane.Subdivide(segments, 0)
	sides := map[[2]int]bool{}
	for _, e := range sub.Edges {
		for _, t := range e.Tags {
			if t == side {
				sides[[2]int{e.A, e.B}], sides[[2]int{e.B, e.A}] = true, true
			}
		}
	}
	var out []flatPart
	for f := range sub.Faces {
		x, y, ok := sub.InnerPoint(f)
		if !ok || !p.Contains(x, y) {
			continue
		}
		outer := sub.Faces[f].Outer
		var part flatPart
		for i, k := range outer {
			part.ring = append(part.ring, sub.Points[k])
			part.edge = append(part.edge, sides[[2]int{k, outer[(i+1)%len(outer)]}])
		}
		out = append(out, part)
	}
	return out
}

func convex(ring []plane.Point) bool {
	for i, p := range ring {
		if plane.Side(p, ring[(i+1)%len(ring)], ring[(i+2)%len(ring)]) < 0 {
			return false
		}
	}
	return plane.Area(ring) > 0
}

// order knows which sheets lie on which side of each other where they lie in one plane.
type order struct {
	sheets []flatSheet
	// outer[p][q] is +1 if panel q lies on p's outer side, -1 on its inner side, 0 if they never meet.
	outer map[[2]int]int
}

// newOrder takes the sides of the panels from the stacks of the closed card: what is glued keeps them in every pose.
func newOrder(c *flat.Closed, sheets []flatSheet) *order {
	o := &order{sheets: sheets, outer: map[[2]int]int{}}
	out := func(panel int) int { // where the outer face looks: +1 to the front
		if c.At[panel].Flips() {
			return -1
		}
		return 1
	}
	for _, cell := range c.Overlay.Cells {
		for i, p := range cell.Stack {
			for _, q := range cell.Stack[i+1:] { // q lies behind p
				o.outer[[2]int{p, q}] = -out(p)
				o.outer[[2]int{q, p}] = out(q)
			}
		}
	}
	return o
}

// side says on which side of sheet s sheet t lies: +1 on the outer one, -1 on the inner one, 0 unknown.
func (o *order) side(s, t int) int {
	a, b := o.sheets[s], o.sheets[t]
	switch {
	case a.panel == b.panel:
		return sign(b.layer - a.layer)
	case o.outer[[2]int{a.panel, b.panel}] != 0:
		return o.outer[[2]int{a.panel, b.panel}]
	case a.layer > 0 && b.layer == 0: // a topper that reaches beyond its panel lies over what it meets
		return -1
	}
	return 0
}

func sign(n int) int {
	switch {
	case n > 0:
		return 1
	case n < 0:
		return -1
	}
	return 0
}

// nearer says whether sheet t lies nearer to the eye than sheet s in one plane: +1 yes, -1 no, 0 unknown.
func (o *order) nearer(s, t int, placed []sheet, towards fold.Vec) int {
	if k := o.side(s, t); k != 0 {
		return k * facing(placed[s], towards)
	}
	return -o.side(t, s) * facing(placed[t], towards)
}

// facing is +1 if the outer face of a sheet is seen, else -1.
func facing(s sheet, towards fold.Vec) int {
	if s.normal.Dot(towards) > 0 {
		return 1
	}
	return -1
}

// shade returns how much a face that looks along n is in shadow: the light comes from the left, above and behind you.
func (c camera) shade(n fold.Vec) float64 {
	light := c.right.Scale(-0.38).Add(c.up.Scale(0.55)).Add(c.towards.Scale(0.74)).Unit()
	return min(1, max(0, 1.15*(1-n.Dot(light))))
}

// fill returns the face of a sheet that is seen, in its light.
func (c camera) fill(s sheet) drawing.Style {
	if facing(s, c.towards) > 0 {
		return drawing.Outer(s.tint).Shaded(c.shade(s.normal))
	}
	return drawing.Inner(s.tint).Shaded(c.shade(s.normal.Scale(-1)))
}
