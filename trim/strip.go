package trim

import (
	"cmp"
	"encoding/binary"
	"slices"

	"foldwright/length"
)

// strip is a piece in hand as somebody at the trimmer sees it: a part, a rest, or a piece that is cut into strips all one
// way before any of them is taken up again. It holds the same as a tree of cuts, but what is cut one after the other at
// the same piece stands side by side, in an order that is free.
type strip struct {
	w, h length.Length
	kind CutKind // AtX: kids lie from left to right; AtY: from below
	leaf *Cut    // of a part
	kids []*strip
	rest length.Length // what is left behind the last kid
	on   Trimmer
}

// stripOf returns the tree of a piece as strips: rests beside each other are one, cuts that only divide a rest are gone,
// and what is left over at one end of all strips of a piece is cut off before the piece is cut into them, which takes
// fewer cuts and leaves a larger off-cut. No cut is added.
func (t Trimmer) stripOf(c *Cut, w, h length.Length) *strip {
	switch {
	case c == nil || c.Kind == Rest:
		return &strip{w: w, h: h}
	case c.Kind == IsPart:
		return &strip{w: w, h: h, kind: IsPart, leaf: c}
	}
	return t.newStrip(c.Kind, w, h, t.pieces(c, c.Kind, w, h)...)
}

// pieces returns what a piece is cut into by cuts of the kind alone.
func (t Trimmer) pieces(c *Cut, kind CutKind, w, h length.Length) []*strip {
	switch {
	case c == nil || c.Kind != kind:
		return []*strip{t.stripOf(c, w, h)}
	case kind == AtX:
		return append(t.pieces(c.First, kind, c.At, h), t.pieces(c.Second, kind, w-c.At, h)...)
	}
	return append(t.pieces(c.First, kind, w, c.At), t.pieces(c.Second, kind, w, h-c.At)...)
}

// newStrip joins pieces to one of w by h.
func (t Trimmer) newStrip(kind CutKind, w, h length.Length, kids ...*strip) *strip {
	s := &strip{w: w, h: h, kind: kind, on: t}
	for _, k := range kids {
		switch {
		case k.kind == Rest:
			s.rest += k.along(kind)
		case k.kind == kind:
			s.kids, s.rest = append(s.kids, k.kids...), s.rest+k.rest
		default:
			s.kids = append(s.kids, k)
		}
	}
	switch {
	case len(s.kids) == 0:
		return &strip{w: w, h: h}
	case len(s.kids) == 1 && s.rest == 0:
		return s.kids[0]
	}
	if over := s.common(); over > 0 {
		return s.hoist(over)
	}
	if !t.reaches(s.along(other(kind))) && t.reaches(s.along(kind)) && len(s.kids) == 1 && s.kids[0].kind == other(kind) {
		return s.lower()
	}
	return s
}

// lower leaves the rest to the strips of the only kid, since the cut across all of them would be too long: the way back of
// hoist.
func (s *strip) lower() *strip {
	in := s.kids[0]
	var kids []*strip
	for _, k := range in.kids {
		all := piece(in.kind, k.along(in.kind), s.along(s.kind))
		kids = append(kids, s.on.newStrip(s.kind, all.w, all.h, k, piece(s.kind, s.rest, k.along(in.kind))))
	}
	kids = append(kids, piece(in.kind, in.rest, s.along(s.kind)))
	return s.on.newStrip(in.kind, s.w, s.h, kids...)
}

// common is what is left over at the end of every kid, if it is better cut off first: because two kids or more then need
// no cut of their own, because it is then the largest off-cut, or because the trimmer does not reach across the kids.
func (s *strip) common() length.Length {
	across := other(s.kind)
	least, alike, biggest := s.along(across), 0, area(s.rest, s.along(across))
	for _, k := range s.kids {
		over := k.over(s.kind)
		biggest = max(biggest, area(k.along(s.kind), over))
		switch {
		case over < least:
			least, alike = over, 1
		case over == least:
			alike++
		}
	}
	switch {
	case !s.on.reaches(s.along(s.kind)):
		return 0
	case alike > 1, area(s.along(s.kind), least) > biggest && s.on.reaches(s.along(across)), !s.on.reaches(s.along(across)):
		return least
	}
	return 0
}

// along is the size of the piece in the direction in which kids of this kind follow each other.
func (s *strip) along(kind CutKind) length.Length {
	if kind == AtX {
		return s.w
	}
	return s.h
}

// other is the kind of cut across the first.
func other(kind CutKind) CutKind { return AtX + AtY - kind }

// over is what is left over at the end of a strip that was cut by cuts of the kind.
func (s *strip) over(kind CutKind) length.Length {
	if s.kind == other(kind) {
		return s.rest
	}
	return 0
}

// hoist cuts off first what is left over at the end of every kid.
func (s *strip) hoist(over length.Length) *strip {
	across := other(s.kind)
	kids := make([]*strip, len(s.kids), len(s.kids)+1)
	for i, k := range s.kids {
		kids[i] = k.without(over)
	}
	size, end := s.along(s.kind), s.along(across)
	kids = append(kids, piece(s.kind, s.rest, end-over))
	in := piece(s.kind, size, end-over)
	return s.on.newStrip(across, s.w, s.h, s.on.newStrip(s.kind, in.w, in.h, kids...), piece(s.kind, size, over))
}

// piece is a rest, along measured as kids of the kind follow each other.
func piece(kind CutKind, along, across length.Length) *strip {
	if kind == AtX {
		return &strip{w: along, h: across}
	}
	return &strip{w: across, h: along}
}

// without returns the strip with its rest shorter by so much.
func (s *strip) without(over length.Length) *strip {
	kids := append(slices.Clone(s.kids), piece(s.kind, s.rest-over, s.along(other(s.kind))))
	if s.kind == AtX {
		return s.on.newStrip(s.kind, s.w-over, s.h, kids...)
	}
	return s.on.newStrip(s.kind, s.w, s.h-over, kids...)
}

// sort puts strips that are alike beside each other, the widest first, in this piece and in all of its strips.
func (s *strip) sort() {
	for _, k := range s.kids {
		k.sort()
	}
	slices.SortStableFunc(s.kids, func(a, b *strip) int {
		return cmp.Or(cmp.Compare(b.along(s.kind), a.along(s.kind)), slices.Compare(a.key(nil), b.key(nil)))
	})
}

// key is the same for pieces that are cut alike.
func (s *strip) key(to []byte) []byte {
	to = append(to, byte(s.kind))
	to = binary.AppendVarint(binary.AppendVarint(to, int64(s.w)), int64(s.h))
	if s.kind == IsPart {
		turned := byte(0)
		if s.leaf.Turned {
			turned = 1
		}
		return append(binary.AppendVarint(to, int64(s.leaf.Part)), turned)
	}
	to = binary.AppendVarint(to, int64(len(s.kids)))
	for _, k := range s.kids {
		to = k.key(to)
	}
	return to
}

// tree returns the strips as a tree of cuts: one after the other is cut off, from the left or from below. Those that are too
// narrow to be held at the fence are what falls off behind the blade: last if the rest can be held in their place, or else
// first.
func (s *strip) tree() *Cut {
	switch s.kind {
	case Rest:
		return nil
	case IsPart:
		return s.leaf
	}
	var wide, narrow []*strip
	left := s.along(s.kind)
	for _, k := range s.kids {
		if k.along(s.kind) < s.on.Narrowest {
			narrow = append(narrow, k)
			continue
		}
		wide = append(wide, k)
	}
	if len(narrow) == 0 {
		return s.row(wide, s.rest, nil)
	}
	if s.rest >= s.on.Narrowest || len(wide) == 0 {
		c, held := (*Cut)(nil), s.rest
		for _, k := range narrow {
			c, held = &Cut{Kind: s.kind, At: held, First: c, Second: k.tree()}, held+k.along(s.kind)
		}
		return s.row(wide, held, c)
	}
	for _, k := range narrow {
		left -= k.along(s.kind)
	}
	held := left - s.rest
	c := s.row(wide, 0, nil)
	for _, k := range narrow {
		c, held = &Cut{Kind: s.kind, At: held, First: c, Second: k.tree()}, held+k.along(s.kind)
	}
	if s.rest > 0 {
		c = &Cut{Kind: s.kind, At: held, First: c}
	}
	return c
}

// row cuts one strip off after the other; what is left behind them is cut up by last.
func (s *strip) row(kids []*strip, left length.Length, last *Cut) *Cut {
	c := last
	for i := len(kids) - 1; i >= 0; i-- {
		k := kids[i]
		if i == len(kids)-1 && left == 0 {
			c = k.tree()
			continue
		}
		c = &Cut{Kind: s.kind, At: k.along(s.kind), First: k.tree(), Second: c}
	}
	return c
}
