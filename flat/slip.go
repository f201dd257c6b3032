package flat

import (
	"context"

	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Slip is a measurement that looks mistaken although the card lies flat: changed, more scores could be folded shut.
type Slip struct {
	Cure
	// Straight lists the hinges of the assembly that are straight as written and would be folded shut.
	Straight []int
}

// slipMost is the largest change that is taken for a slip of the ruler, and slipGain the least share by which the pieces
// must fold up smaller for it.
const (
	slipMost = 7 * length.Millimetre
	slipGain = 0.05
)

// Slips looks for single measurements, to be put on a mark, after which the same folds and more could be shut and the
// pieces fold up smaller. It is meant for a card that lies flat only because some of its scores stay straight.
func (c *Closed) Slips(ctx context.Context) []Slip {
	s := newSearcher(ctx, c.Assembly, Slack)
	own := 0.0
	for i := range c.Assembly.Copies {
		own += c.ownArea(i)
	}
	s.accept = func(n *candidate) bool {
		return n.miss > slanted && n.own < (1-slipGain)*own && area(n.box) < area(c.Box)*1.0001 && s.foldsMore(n, c.Folded)
	}
	near := s.candidates()
	if len(near) == 0 {
		return nil
	}
	var out []Slip
	for _, cure := range s.cures(near) {
		if cure.Change().Abs() > slipMost || !cure.To.OnMark(c.Assembly.Card.Marks) {
			continue
		}
		a, _ := pattern.Assemble(cure.Apply(c.Assembly.Card))
		changed := Close(ctx, a)
		var straight []int
		for i, f := range changed.Folded {
			if f && !c.Folded[i] {
				straight = append(straight, i)
			}
		}
		if len(straight) > 0 {
			out = append(out, Slip{cure, straight})
		}
	}
	return out
}

// ownArea returns the area of the box of one folded copy in nm².
func (c *Closed) ownArea(copy int) float64 {
	at := c.Assembly.Copies[copy]
	var b plane.Box
	for i := range at.Pattern.Panels {
		m := c.At[at.FirstPanel+i]
		p := plane.BoxOf(moved(m, at.Pattern.Panels[i].Outline)...)
		if i == 0 {
			b = p
		}
		b = b.Union(p)
	}
	return area(b)
}

// foldsMore says whether a candidate folds all that is folded already.
func (s *searcher) foldsMore(n *candidate, folded []bool) bool {
	for i, o := range n.picks {
		first := s.a.Copies[i].FirstHinge
		for h, f := range o.folded {
			if folded[first+h] && !f {
				return false
			}
		}
	}
	return true
}
