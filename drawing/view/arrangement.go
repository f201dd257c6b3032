package view

import (
	"slices"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
)

// arrangement is the closed card with its mats and toppers, cut up along every edge, so that within a face of sub the
// same layers lie on each other.
type arrangement struct {
	closed      *flat.Closed
	decorations []flat.Decoration
	sub         *plane.Subdivision
	// stacks holds the layers per face of sub, from the front; empty where there is no card. A layer is the number of a
	// panel, or the number of panels plus that of a decoration.
	stacks [][]int
	// before says which panels lie in front of which somewhere.
	before map[[2]int]bool
}

// newArrangement lays out the closed card. A topper that reaches beyond its panel lies over what is there, except over
// panels that lie above its own.
func newArrangement(c *flat.Closed) *arrangement {
	a := &arrangement{closed: c, decorations: c.Decorations(), before: map[[2]int]bool{}}
	var segments []plane.Segment
	for i, p := range c.Assembly.Panels {
		for _, ring := range p.Rings() {
			segments = ringSegments(segments, moved(c.At[i], ring), i)
		}
	}
	for i, d := range a.decorations {
		segments = ringSegments(segments, d.Ring, len(c.At)+i)
	}
	a.sub = plane.Subdivide(segments, merging)
	for _, cell := range c.Overlay.Cells {
		for i, p := range cell.Stack {
			for _, q := range cell.Stack[i+1:] {
				a.before[[2]int{p, q}] = true
			}
		}
	}
	a.stacks = make([][]int, len(a.sub.Faces))
	find := newFinder(c.Overlay)
	var specks []int
	for f := range a.sub.Faces {
		x, y, ok := a.sub.InnerPoint(f)
		if !ok || a.sub.Faces[f].Area < speck {
			specks = append(specks, f)
			continue
		}
		a.stacks[f] = a.decorated(find.stack(x, y), x, y)
	}
	a.absorb(specks)
	return a
}

// absorb gives the dust of rounding to a neighbour.
func (a *arrangement) absorb(specks []int) {
	for _, f := range specks {
		for _, e := range a.sub.Edges {
			if e.Left == f && e.Right != f && len(a.stacks[e.Right]) > 0 {
				a.stacks[f] = a.stacks[e.Right]
			}
			if e.Right == f && e.Left != f && len(a.stacks[e.Left]) > 0 {
				a.stacks[f] = a.stacks[e.Left]
			}
		}
	}
	if len(a.stacks) > 0 {
		a.stacks[0] = nil // the region outside everything
	}
}

// decorated puts the mats and toppers at a point into a stack of panels.
func (a *arrangement) decorated(panels []int, x, y float64) []int {
	stack := slices.Clone(panels)
	for i, d := range a.decorations { // those next to the card come first
		if !plane.InPolygon(d.Ring, x, y) {
			continue
		}
		stack = slices.Insert(stack, a.level(stack, d.Panel), len(a.closed.At)+i)
	}
	return stack
}

// level returns where in a stack the next layer on the outer face of a panel goes.
func (a *arrangement) level(stack []int, panel int) int {
	outwards := !a.closed.At[panel].Flips() // the outer face looks to the front
	if outwards {
		at := 0
		for i, l := range stack {
			if l < len(a.closed.At) && a.before[[2]int{l, panel}] {
				at = i + 1
			}
		}
		return at
	}
	at := len(stack)
	for i := len(stack) - 1; i >= 0; i-- {
		if l := stack[i]; l < len(a.closed.At) && a.before[[2]int{panel, l}] {
			at = i
		}
	}
	return at
}

// top returns the layer that shows per face of sub, none where there is no card.
func (a *arrangement) top(side Side) []int {
	out := make([]int, len(a.stacks))
	for f, s := range a.stacks {
		switch {
		case len(s) == 0:
			out[f] = none
		case side == Back:
			out[f] = s[len(s)-1]
		default:
			out[f] = s[0]
		}
	}
	return out
}

// host returns the panel of a layer, and its decoration or -1.
func (a *arrangement) host(layer int) (panel, decoration int) {
	if n := len(a.closed.At); layer >= n {
		return a.decorations[layer-n].Panel, layer - n
	}
	return layer, -1
}

// stock returns the stock of a layer.
func (a *arrangement) stock(layer int) string {
	panel, decoration := a.host(layer)
	if decoration >= 0 {
		return a.decorations[decoration].Stock
	}
	as := a.closed.Assembly
	return as.Copies[as.Panels[panel].Copy].Pattern.Piece.Stock
}

// thick returns how thick the card is per face of sub.
func (a *arrangement) thick() []length.Length {
	out := make([]length.Length, len(a.stacks))
	for f, s := range a.stacks {
		for _, l := range s {
			if _, d := a.host(l); d >= 0 {
				out[f] += a.decorations[d].Thick
			} else if s := a.closed.Assembly.Card.StockNamed(a.stock(l)); s != nil {
				out[f] += s.Caliper
			}
		}
	}
	return out
}

// finder finds the cell of an overlay in which a point lies.
type finder struct {
	overlay *flat.Overlay
	rings   [][][]plane.Point
}

func newFinder(o *flat.Overlay) finder {
	f := finder{overlay: o}
	for i, c := range o.Cells {
		rings := [][]plane.Point{o.Ring(i)}
		for _, hole := range o.Sub.Faces[c.Face].Holes {
			rings = append(rings, o.Sub.Ring(hole))
		}
		f.rings = append(f.rings, rings)
	}
	return f
}

// stack returns the panels at a point from the front, none where there is no card.
func (f finder) stack(x, y float64) []int {
	for i, rings := range f.rings {
		inside := plane.InPolygon(rings[0], x, y)
		for _, hole := range rings[1:] {
			inside = inside && !plane.InPolygon(hole, x, y)
		}
		if inside {
			return f.overlay.Cells[i].Stack
		}
	}
	return nil
}
