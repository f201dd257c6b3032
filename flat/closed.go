package flat

import (
	"context"
	"slices"

	"foldwright/card"
	"foldwright/pattern"
	"foldwright/plane"
)

// Status says how a search ended.
type Status uint8

const (
	// Solved: the card closes, and its panels have an order.
	Solved Status = iota
	// Contradictory: none of the choices closes, or those that do have no order.
	Contradictory
	// StoppedEarly: a limit or the context ended the search before it found a way.
	StoppedEarly
)

// String returns solved, contradictory or stopped.
func (s Status) String() string { return [...]string{"solved", "contradictory", "stopped"}[s] }

// Closed is one way to fold a card shut.
type Closed struct {
	Status   Status
	Assembly *pattern.Assembly
	// Folded says for every hinge of the assembly whether it is folded shut; nil if no choice closes.
	Folded []bool
	// At holds where every panel of the assembly lies.
	At []plane.Motion
	// Box is the outline of all glued pieces, without toppers.
	Box plane.Box
	// Overlay is the closed card cell by cell; its stacks run from the front if OrderOK.
	Overlay *Overlay
	OrderOK bool
	// Clash names the panels in each other's way if not OrderOK.
	Clash *Clash
	// search and found are kept for Alternatives: what was taken, then what else closes, best first.
	search *searcher
	found  []*candidate
}

// LiesFlat says whether the card was folded shut with every loop closed and a layer order.
func (c *Closed) LiesFlat() bool { return c.Status == Solved }

// Close folds the card shut.
//
// Errors show in the Status: Contradictory where no choice of folds closes (Folded is nil) or where those that do have no
// layer order (OrderOK false, the best such choice given). Time for a stand of 29 scores is about a millisecond.
func Close(ctx context.Context, a *pattern.Assembly) *Closed {
	s := newSearcher(ctx, a, 0)
	found := s.candidates()
	if len(found) == 0 {
		c := &Closed{Status: Contradictory, Assembly: a}
		if s.stopped {
			c.Status = StoppedEarly
		}
		return c
	}
	return s.settle(found)
}

// orderLimit bounds how many choices are tried for a layer order.
const orderLimit = 200

// orderWork bounds them further for large cards: cells times panels, summed over the tries; a stand takes some 300 a try.
const orderWork = 1_000_000

// settle takes the first candidate that has a layer order.
func (s *searcher) settle(found []*candidate) *Closed {
	var best *Closed // the most telling of those that have no order
	telling := false
	tried, work := 0, 0
	for i, c := range found {
		n := 0
		for v := range s.variants(c) {
			tried++
			closed := s.closed(v)
			var gaveUp bool
			closed.Clash, gaveUp = order(s.a, closed.Overlay, closed.At, closed.Folded)
			s.clash = closed.Clash
			s.stopped = s.stopped || gaveUp
			if closed.OrderOK = closed.Clash == nil && !gaveUp; closed.OrderOK {
				closed.search, closed.found = s, append([]*candidate{v}, slices.Delete(slices.Clone(found), i, i+1)...)
				return closed
			}
			// A way in which every piece has an order on its own tells what is wrong between the pieces.
			if n++; best == nil || (!telling && n > 1) {
				best, telling = closed, n > 1
			}
			work += len(closed.Overlay.Cells) * len(closed.At)
			if s.ctx.Err() != nil || tried >= orderLimit || work > orderWork {
				best.Status = StoppedEarly
				return best
			}
		}
	}
	best.Status = Contradictory
	if s.stopped || s.dropped {
		best.Status = StoppedEarly // what was not looked at may have an order
	}
	return best
}

// closed lays a candidate out.
func (s *searcher) closed(c *candidate) *Closed {
	out := &Closed{Assembly: s.a, Folded: s.foldedOf(c), At: make([]plane.Motion, len(s.a.Panels)), Box: c.box}
	for i, o := range c.picks {
		first := s.a.Copies[i].FirstPanel
		for p, m := range o.at {
			out.At[first+p] = m.Then(c.roots[i])
		}
	}
	out.setUpright(s.a.Front())
	out.Overlay = newOverlay(s.a, out.At, dust(out.At))
	return out
}

// setUpright turns the closed card so that a panel shows its outer face, upright as in its pattern. A card whose panel
// lies askew, folded over slanted scores, stays as it is.
func (c *Closed) setUpright(panel int) {
	m := c.At[panel]
	if tolerance(m) == slanted {
		return
	}
	back := plane.Motion{XX: m.XX, XY: m.YX, YX: m.XY, YY: m.YY}
	for i, m := range c.At {
		c.At[i] = m.Then(back)
	}
	c.Box = plane.BoxOf(moved(back, plane.Rectangle(c.Box))...)
}

// Reorder looks for another layer order of the same closed card, in which of each pair the first panel lies in front of
// the second. It returns nil where there is none.
func (c *Closed) Reorder(front [][2]int) *Closed {
	out := *c
	o := *c.Overlay
	o.Cells = slices.Clone(o.Cells)
	for i := range o.Cells {
		o.Cells[i].Stack = slices.Clone(o.Cells[i].Stack)
	}
	out.Overlay = &o
	if clash, gaveUp := orderWith(c.Assembly, &o, c.At, c.Folded, front); clash != nil || gaveUp {
		return nil
	}
	return &out
}

// Alternative is another choice of folds that lies flat.
type Alternative struct {
	Folded []bool
	Box    plane.Box
}

// Alternatives returns up to most further choices that close and have a layer order, best first: "also lies flat 198 wide".
// Of the many ways to fold that differ only in how small the pieces fold up within the same outline, the smallest are given.
func (c *Closed) Alternatives(ctx context.Context, most int) []Alternative {
	if c.search == nil {
		return nil
	}
	s := *c.search
	s.ctx = ctx
	var out []Alternative
	seen := [][]bool{c.Folded}
	tries := 8 * most
	for _, o := range c.found {
		for v := range s.variants(o) {
			if tries--; tries < 0 || len(out) == most || ctx.Err() != nil {
				return out
			}
			alt := s.closed(v)
			if compareClose(v.own, o.own) > 0 || slices.ContainsFunc(seen, func(f []bool) bool { return slices.Equal(f, alt.Folded) }) {
				continue
			}
			if clash, gaveUp := order(c.Assembly, alt.Overlay, alt.At, alt.Folded); clash == nil && !gaveUp {
				seen = append(seen, alt.Folded)
				out = append(out, Alternative{Folded: alt.Folded, Box: alt.Box})
			}
		}
	}
	return out
}

// Sense returns the way in which a hinge is folded in the closed card: as its score says or, where the score does not say,
// as the layer order has it. A hinge that is straight keeps the sense of its score.
func (c *Closed) Sense(hinge int) card.Sense {
	h := c.Assembly.Hinges[hinge]
	if h.Sense != card.Either || !c.Folded[hinge] || !c.OrderOK {
		return h.Sense
	}
	for _, cell := range c.Overlay.Cells {
		a, b := slices.Index(cell.Stack, h.A), slices.Index(cell.Stack, h.B)
		if a < 0 || b < 0 {
			continue
		}
		if (a < b) == !c.At[h.A].Flips() {
			return card.Mountain
		}
		return card.Valley
	}
	return card.Either
}
