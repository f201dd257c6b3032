package trim

import (
	"context"
	"math"
	"slices"

	"foldwright/length"
)

// near returns a tree with at most want of every part, and its worth, that is good but need not be the best: the best
// tree with
// unlimited copies, where parts beyond want are left out and what fits in their places is put there; then again, with
// the parts
// that were too many made worth less.
func (t *table) near(ctx context.Context, want []int) (best *Cut, value int64) {
	other := t
	for range 4 {
		tree := other.plan()
		made, left := tree.made(len(want)), slices.Clone(want)
		c := t.refill(clip(tree, left), t.g.sheet.W, t.g.sheet.H, left)
		if v := t.worthOf(c); v > value {
			best, value = c, v
		}
		worth := slices.Clone(other.worth)
		for i := range worth {
			if made[i] > want[i] {
				worth[i] = int64(float64(worth[i]) * math.Sqrt(float64(want[i])/float64(made[i])))
			}
		}
		if slices.Equal(worth, other.worth) {
			break
		}
		if other = fill(ctx, t.g, worth); other == nil {
			break
		}
	}
	return best, value
}

// clip returns the tree with the parts beyond want made rests; it uses want up.
func clip(c *Cut, want []int) *Cut {
	switch {
	case c == nil || c.Kind == Rest:
		return nil
	case c.Kind == IsPart:
		if want[c.Part] <= 0 {
			return nil
		}
		want[c.Part]--
		return c
	}
	out := *c
	out.First, out.Second = clip(c.First, want), clip(c.Second, want)
	if out.First == nil && out.Second == nil {
		return nil
	}
	return &out
}

// refill puts parts of left into the rests of the tree of a piece of w by h; it uses left up.
func (t *table) refill(c *Cut, w, h length.Length, left []int) *Cut {
	switch {
	case c == nil || c.Kind == Rest:
		return t.pack(w, h, left)
	case c.Kind == IsPart:
		return c
	}
	out := *c
	if c.Kind == AtX {
		out.First, out.Second = t.refill(c.First, c.At, h, left), t.refill(c.Second, w-c.At, h, left)
	} else {
		out.First, out.Second = t.refill(c.First, w, c.At, left), t.refill(c.Second, w, h-c.At, left)
	}
	return &out
}

// pack lays the worthiest part of left that fits into the corner of a piece, then goes on with what is left beside and
// above it, cut so that the
// larger of the two rests is as large as can be.
func (t *table) pack(w, h length.Length, left []int) *Cut {
	best, at := int64(0), block{}
	for _, it := range t.g.items {
		if left[it.part] <= 0 || t.worth[it.part] <= best {
			continue
		}
		if b := t.g.leaf(it); b.w <= w && b.h <= h {
			best, at = t.worth[it.part], b
		}
	}
	if at.cut == nil {
		return nil
	}
	left[at.cut.Part]--
	c := at.cut
	if max(area(w-at.w, h), area(at.w, h-at.h)) >= max(area(w, h-at.h), area(w-at.w, at.h)) {
		if at.h < h {
			c = &Cut{Kind: AtY, At: at.h, First: c, Second: t.pack(at.w, h-at.h, left)}
		}
		if at.w < w {
			c = &Cut{Kind: AtX, At: at.w, First: c, Second: t.pack(w-at.w, h, left)}
		}
		return c
	}
	if at.w < w {
		c = &Cut{Kind: AtX, At: at.w, First: c, Second: t.pack(w-at.w, at.h, left)}
	}
	if at.h < h {
		c = &Cut{Kind: AtY, At: at.h, First: c, Second: t.pack(w, h-at.h, left)}
	}
	return c
}
