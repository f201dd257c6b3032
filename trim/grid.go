package trim

import (
	"cmp"
	"slices"

	"foldwright/length"
)

// item is a part in one of its directions, in units of the grid.
type item struct {
	part   int
	turned bool
	w, h   int64
}

// grid is a sheet with the parts that fit it, in whole units: the greatest common divisor of the part sizes, or a coarser
// unit where that would give too many points. On a coarse grid parts are rounded up and the sheet down: every plan is
// right,
// but there may be a better one between the marks.
type grid struct {
	sheet  Sheet
	parts  []Part
	ux, uy length.Length // the unit across and up
	w, h   int64         // of the sheet in units
	x, y   axis
	items  []item
	coarse bool
}

func newGrid(s Sheet, parts []Part, most int) *grid {
	g := &grid{sheet: s, parts: parts}
	for i, p := range parts {
		for _, turned := range [2]bool{false, true} {
			if !p.fits(s, turned) || turned && p.W == p.H && p.fits(s, false) {
				continue // a square that lies as it is need not be turned
			}
			w, h := p.lying(turned)
			g.items = append(g.items, item{i, turned, int64(w), int64(h)})
		}
	}
	ws, hs := make([]int64, len(g.items)), make([]int64, len(g.items))
	for i, t := range g.items {
		ws[i], hs[i] = t.w, t.h
	}
	var cx, cy bool
	g.x, g.ux, g.w, cx = fit(int64(s.W), ws, most)
	g.y, g.uy, g.h, cy = fit(int64(s.H), hs, most)
	g.coarse = cx || cy
	for i := range g.items {
		g.items[i].w, g.items[i].h = ws[i], hs[i]
	}
	slices.SortStableFunc(g.items, func(a, b item) int { return cmp.Compare(b.w*b.h, a.w*a.h) })
	return g
}

// fit chooses the unit of one side, changes sizes into units, and returns the axis, the unit and the side in units.
// An item that no longer fits after rounding is made too large for ever, not lost: up finds no point for it.
func fit(side int64, sizes []int64, most int) (a axis, unit length.Length, units int64, coarse bool) {
	u := int64(0)
	for _, s := range sizes {
		u = gcd(u, s)
	}
	if u == 0 {
		u = side // nothing to cut out: one point is enough
	}
	for ; ; u, coarse = u*2, true {
		in := make([]int64, len(sizes))
		for i, s := range sizes {
			in[i] = (s + u - 1) / u
		}
		if a, ok := newAxis(side/u, in, most); ok {
			copy(sizes, in)
			return a, length.Length(u), side / u, coarse
		}
	}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}

// block is a tree of cuts with the size that it fills; none is a block of nothing.
type block struct {
	w, h length.Length
	cut  *Cut
}

// leaf returns item t as a block of its exact size.
func (g *grid) leaf(t item) block {
	w, h := g.parts[t.part].lying(t.turned)
	return block{w, h, &Cut{Kind: IsPart, Part: t.part, Turned: t.turned}}
}

// within cuts b out of a piece of w by h, from its lower left corner.
func (b block) within(w, h length.Length) *Cut {
	c := b.cut
	if c == nil {
		return nil
	}
	if b.h < h {
		c = &Cut{Kind: AtY, At: b.h, First: c}
	}
	if b.w < w {
		c = &Cut{Kind: AtX, At: b.w, First: c}
	}
	return c
}

// beside lays b to the right of a; above lays it over a. The result is as small as it can be.
func (a block) beside(b block) block {
	if a.cut == nil || b.cut == nil {
		return a.orElse(b)
	}
	h := max(a.h, b.h)
	return block{a.w + b.w, h, &Cut{Kind: AtX, At: a.w, First: a.within(a.w, h), Second: b.within(b.w, h)}}
}

func (a block) above(b block) block {
	if a.cut == nil || b.cut == nil {
		return a.orElse(b)
	}
	w := max(a.w, b.w)
	return block{w, a.h + b.h, &Cut{Kind: AtY, At: a.h, First: a.within(w, a.h), Second: b.within(w, b.h)}}
}

func (a block) orElse(b block) block {
	if a.cut == nil {
		return b
	}
	return a
}
