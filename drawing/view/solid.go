package view

import (
	"slices"

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
			slices.Reverse(ring)
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
		if slices.Contains(e.Tags, side) {
			sides[[2]int{e.A, e.B}], sides[[2]int{e.B, e.A}] = true, true
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
