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
}

// stripOf returns the tree of a piece as strips: rests beside each other are one, cuts that only divide a rest are gone,
// and what is left over at one end of all strips of a piece is cut off before the piece is cut into them, which takes
// fewer cuts and leaves a larger off-cut. No cut is added.
func stripOf(c *Cut, w, h length.Length) *strip {
	switch {
	case c == nil || c.Kind == Rest:
		return &strip{w: w, h: h}
	case c.Kind == IsPart:
		return &strip{w: w, h: h, kind: IsPart, leaf: c}
	}
	return newStrip(c.Kind, w, h, pieces(c, c.Kind, w, h)...)
}

// pieces returns what a piece is cut into by cuts of the kind alone.
func pieces(c *Cut, kind CutKind, w, h length.Length) []*strip {
	switch {
	case c == nil || c.Kind != kind:
		return []*strip{stripOf(c, w, h)}
	case kind == AtX:
		return append(pieces(c.First, kind, c.At, h), pieces(c.Second, kind, w-c.At, h)...)
	}
	return append(pieces(c.First, kind, w, c.At), pieces(c.Second, kind, w, h-c.At)...)
}

// newStrip joins pieces to one of w by h.
func newStrip(kind CutKind, w, h length.Length, kids ...*strip) *strip {
	s := &strip{w: w, h: h, kind: kind}
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
	return s
}

// common is what is left over at the end of every kid, if it is better cut off first: because two kids or more then need
// no cut of their own, or because it is then the largest off-cut.
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
	if alike > 1 || area(s.along(s.kind), least) > biggest {
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
	return newStrip(across, s.w, s.h, newStrip(s.kind, in.w, in.h, kids...), piece(s.kind, size, over))
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
		return newStrip(s.kind, s.w-over, s.h, kids...)
	}
	return newStrip(s.kind, s.w, s.h-over, kids...)
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

// tree returns the strips as a tree of cuts: one after the other is cut off, from the left or from below.
func (s *strip) tree() *Cut {
	switch s.kind {
	case Rest:
		return nil
	case IsPart:
		return s.leaf
	}
	var c *Cut
	for i := len(s.kids) - 1; i >= 0; i-- {
		k := s.kids[i]
		if i == len(s.kids)-1 && s.rest == 0 {
			c = k.tree()
			continue
		}
		c = &Cut{Kind: s.kind, At: k.along(s.kind), First: k.tree(), Second: c}
	}
	return c
}
