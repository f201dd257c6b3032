package cutlist

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
)

// along finds the side along which a group counts, and its values.
func (r *resolver) along(g *group) ([]placed, card.ScoreKind) {
	long, short := card.Across, card.Up
	if r.hgt > r.w {
		long, short = card.Up, card.Across
	}
	kind := long
	switch g.dir.kind {
	case longSide:
	case shortSide:
		kind = short
	case acrossPiece:
		kind = card.Across
	case upPiece:
		kind = card.Up
	case namedSide:
		kind = r.named(g, long)
	default:
		switch g.from {
		case fromLeft, fromRight:
			kind = card.Across
		case fromTop, fromBottom:
			kind = card.Up
		default:
			return r.eitherSide(g, long, short)
		}
	}
	_, pick := r.values(g, r.side(kind))
	return pick(), kind
}

// named finds the side that "along the 3 in side" means.
func (r *resolver) named(g *group, long card.ScoreKind) card.ScoreKind {
	k := g.dir.side
	unit := r.unit
	if n := r.items[k].num; n.said {
		unit = n.unit
	}
	l, err := r.items[k].num.length(unit)
	r.mark(k)
	switch {
	case err == nil && l == r.w:
		return card.Across
	case err == nil && l == r.hgt:
		return card.Up
	}
	r.items[k].used = false
	r.warn("side-unclear", k, "the piece has no such side", "one of "+card.Bare(r.w, r.unit)+" and "+card.Bare(r.hgt, r.unit))
	return long
}

// eitherSide chooses the side that fits the scores; the long one where both do.
func (r *resolver) eitherSide(g *group, long, short card.ScoreKind) ([]placed, card.ScoreKind) {
	badLong, pick := r.values(g, r.side(long))
	badShort, other := r.values(g, r.side(short))
	if badShort < badLong {
		return other(), short
	}
	if badShort == badLong && r.w != r.hgt && (len(g.list) > 0 || g.half || len(g.ends) > 0) {
		r.warn("direction-guessed", g.at, "these scores fit both sides of the piece; they are put along the long one", "on the long side, or on the short side")
	}
	return pick(), long
}

// values works out the distances of a group along a side. bad counts what is out of order or outside; pick returns the
// distances, tells what is to be told, and marks the numbers as read.
func (r *resolver) values(g *group, side length.Length) (bad int, pick func() []placed) {
	switch {
	case g.half:
		return 0, func() []placed { return r.half(g, side) }
	case len(g.ends) > 0:
		return r.ends(g, side)
	case g.step > 0:
		return r.every(g, side)
	}
	return r.listed(g, side)
}

func (r *resolver) half(g *group, side length.Length) []placed {
	if side%2 != 0 {
		r.fail("not-exact", g.at, "half of the side is no whole nanometre", "a side that can be halved")
		return nil
	}
	return []placed{{side / 2, r.place(g.at)}}
}

// ends returns the distances so far from both ends, in order.
func (r *resolver) ends(g *group, side length.Length) (int, func() []placed) {
	bad := 0
	for _, k := range g.ends {
		if l, err := r.items[k].num.length(r.unitOf(k, side)); err == nil && 2*l >= side {
			bad++
		}
	}
	return bad, func() []placed {
		var out []placed
		for _, k := range g.ends {
			l, ok := r.read(k, r.unitOf(k, side))
			if !ok {
				continue
			}
			r.mark(k)
			at := r.place(k)
			out = append(out, placed{min(l, side-l), at}, placed{max(l, side-l), at})
		}
		slices.SortStableFunc(out, func(a, b placed) int { return cmp.Compare(a.at, b.at) })
		return out
	}
}

// unitOf returns the unit of a single number of a group.
func (r *resolver) unitOf(k int, side length.Length) length.Unit {
	n := r.items[k].num
	if n.said {
		return n.unit
	}
	us := r.candidates(k)
	for _, u := range us {
		if l, err := n.length(u); err == nil && l < side {
			return u
		}
	}
	return us[0]
}

// candidates returns the units that numbers without one may be in, the likeliest first: inches for a fraction.
func (r *resolver) candidates(list ...int) []length.Unit {
	var out []length.Unit
	add := func(u length.Unit) {
		if !slices.Contains(out, u) {
			out = append(out, u)
		}
	}
	if r.d.scoreUnit != nil {
		return []length.Unit{*r.d.scoreUnit}
	}
	if len(r.declared) == 0 && slices.ContainsFunc(list, func(k int) bool { return r.items[k].num.fine() }) {
		add(length.IN)
	}
	add(r.unit)
	for _, d := range r.declared {
		add(d.unit)
	}
	for _, s := range r.h.said {
		if len(out) == 3 {
			break
		}
		add(s.unit)
	}
	return out
}

func (r *resolver) every(g *group, side length.Length) (int, func() []placed) {
	value := func(k int, otherwise length.Length) length.Length {
		if k <= 0 {
			return otherwise
		}
		n := r.items[k].num
		u := r.unitOf(k, side+1)
		if step := r.items[g.step].num; !n.said && step.said {
			u = step.unit
		}
		if l, err := n.length(u); err == nil {
			return l
		}
		return 0
	}
	step := value(g.step, 0)
	lo, hi := value(g.lo, step), value(g.hi, side-1)
	n := length.Length(0)
	if step > 0 && lo > 0 {
		n = (min(hi, side-1)-lo)/step + 1
	}
	bad := 0
	if n < 1 || hi > side {
		bad = 1
	}
	return bad, func() []placed {
		if step <= 0 || lo <= 0 || n > card.MaxScores {
			r.fail("number", g.at, "these scores cannot be counted out", fmt.Sprintf("at most %d scores, at distances above 0", card.MaxScores))
			return nil
		}
		for _, k := range []int{g.step, g.lo, g.hi} {
			if k > 0 {
				r.compare(k, value(k, 0))
				r.mark(k)
			}
		}
		var out []placed
		for i := range max(n, 0) {
			out = append(out, placed{lo + i*step, r.place(g.at)})
		}
		return out
	}
}
