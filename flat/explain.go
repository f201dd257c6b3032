package flat

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Gap is a glue joint that does not meet, or a score at which a piece with slits does not meet itself.
type Gap struct {
	// Joint and Hinge are numbers of the assembly; the one that is not meant is -1.
	Joint, Hinge int
	Name         string
	// DX and DY is where the glued panel lands less where its glue line wants it, in the directions of the panel that it is
	// glued on; for a hinge, how far its two sides are apart in the closed card.
	DX, DY length.Length
}

// Miss explains a card that does not close: the gaps of the way to fold it that comes nearest, and the cures.
type Miss struct {
	Gaps  []Gap
	Cures []Cure
	// Folded is the choice of folds that comes nearest, Box its outline.
	Folded []bool
	Box    plane.Box
	// Joints names the glue joints each of which alone is in the way, where nothing comes near.
	Joints []int
}

// Slack is how far a glue joint may miss for the way to fold to count as meant: a slip of the ruler is rarely more than
// half an inch.
const Slack = 13 * length.Millimetre

// Limits of the search for cures.
const (
	nearMisses = 60
	cureTries  = 30
	cureMost   = 6
	// cureWork bounds near misses times measurements times panels; a stand takes 120 000.
	cureWork = 2_000_000
)

// Explain looks for what keeps a card from lying flat. Call it where [Close] proved none of the choices of folds: what
// closes exactly is left aside here, for it is known to have no layer order.
func Explain(ctx context.Context, a *pattern.Assembly) *Miss {
	s := newSearcher(ctx, a, Slack)
	s.accept = func(c *candidate) bool { return c.miss > slanted }
	near := s.candidates()
	if len(near) == 0 {
		return &Miss{Joints: culprits(ctx, a), Cures: s.reglued()}
	}
	m := &Miss{}
	first := s.closed(near[0])
	m.Folded, m.Box = first.Folded, first.Box
	m.Gaps = gapsOf(a, first.Folded, s.relay(a, first.Folded))
	m.Cures = s.cures(near)
	if len(m.Cures) == 0 || m.Cures[0].Change().Abs() > small {
		// The ruler is hardly to blame: a word of a glue line may be.
		m.Cures = append(s.reglued(), m.Cures...)
		m.Cures = m.Cures[:min(len(m.Cures), 2*cureMost)]
	}
	return m
}

// culprits returns the joints without any one of which the card would close.
func culprits(ctx context.Context, a *pattern.Assembly) []int {
	var found []int
	for i := range a.Joints {
		b := *a
		b.Joints = slices.Delete(slices.Clone(a.Joints), i, i+1)
		s := newSearcher(ctx, &b, 0)
		if len(s.order) == len(b.Copies) && len(s.candidates()) > 0 {
			found = append(found, i)
		}
	}
	return found
}

// gapsOf lists the joints and hinges that do not meet.
func gapsOf(a *pattern.Assembly, folded []bool, at []plane.Motion) []Gap {
	var gaps []Gap
	for i, v := range Misses(a, folded, at) {
		g := Gap{Joint: i, Hinge: -1, DX: nearest(v[0]), DY: nearest(v[1])}
		var panel int
		if i < len(a.Joints) {
			g.Name, panel = a.Name(i), a.Joints[i].A
		} else {
			g.Joint, g.Hinge = -1, i-len(a.Joints)
			h := a.Hinges[g.Hinge]
			g.Name, panel = fmt.Sprintf("%s at score %d", a.Copies[h.Copy].Name, h.Score()+1), h.A
		}
		if math.Hypot(v[0], v[1]) > tolerance(at[panel]) {
			gaps = append(gaps, g)
		}
	}
	return gaps
}

func nearest(v float64) length.Length { return length.Length(math.Round(v)) }

// misses returns, per joint, how far it misses in the directions of the panel that it is glued on; NaN where a panel is
// turned the wrong way.
func misses(a *pattern.Assembly, at []plane.Motion) [][2]float64 {
	out := make([][2]float64, len(a.Joints))
	for i, j := range a.Joints {
		dx, dy, ok := gapOf(j.Place.Then(at[j.B]), at[j.A], a.Panels[j.A].Panel)
		if !ok {
			out[i] = [2]float64{math.NaN(), math.NaN()}
			continue
		}
		b := at[j.B]
		out[i] = [2]float64{b.XX*dx + b.YX*dy, b.XY*dx + b.YY*dy}
	}
	return out
}

// cures tries every measurement on every near miss: the gaps depend on a measurement linearly, so one trial step tells the
// change that would close them all; what it promises is then proven on the changed card.
func (s *searcher) cures(near []*candidate) []Cure {
	trials := s.trials()
	near = near[:min(len(near), max(1, cureWork/(1+len(trials)*len(s.a.Panels))))]
	var found []Cure
	for _, c := range near {
		folded := s.foldedOf(c)
		before := Misses(s.a, folded, s.relay(s.a, folded))
		for _, t := range trials {
			if d, ok := closingStep(before, Misses(t.changed, folded, s.relay(t.changed, folded))); ok {
				cure := t.cure
				cure.To = cure.From + d
				found = append(found, cure)
			}
		}
		if s.ctx.Err() != nil {
			return nil
		}
	}
	marks := s.a.Card.Marks
	slices.SortStableFunc(found, func(x, y Cure) int {
		return cmp.Or(
			-compareBool(x.To.OnMark(marks), y.To.OnMark(marks)),
			cmp.Compare(x.Change().Abs(), y.Change().Abs()),
			cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Piece, y.Piece), cmp.Compare(x.Score, y.Score), cmp.Compare(x.Panel, y.Panel))
	})
	return s.proven(slices.Compact(found))
}

// foldedOf returns what a candidate folds, hinge by hinge of the assembly.
func (s *searcher) foldedOf(c *candidate) []bool {
	folded := make([]bool, len(s.a.Hinges))
	for i, o := range c.picks {
		copy(folded[s.a.Copies[i].FirstHinge:], o.folded)
	}
	return folded
}

func compareBool(x, y bool) int {
	switch {
	case x == y:
		return 0
	case x:
		return 1
	}
	return -1
}

// proven keeps the cures after which the card does lie flat.
func (s *searcher) proven(cures []Cure) []Cure {
	var kept []Cure
	seen := make(map[Cure]bool)
	tries := 0
	for _, c := range cures {
		if seen[c] || len(kept) == cureMost || tries == cureTries || s.ctx.Err() != nil {
			continue
		}
		seen[c] = true
		tries++
		if s.closing(c.Apply(s.a.Card)) != nil {
			kept = append(kept, c)
		}
	}
	return kept
}

// closing folds a changed card shut. It returns nil where the card does not lie flat, or is no longer the same card.
func (s *searcher) closing(changed *card.Card) *Closed {
	a, problems := pattern.Assemble(changed)
	if a == nil || problems.HasErrors() || !sameScores(s.a.Card, changed) {
		return nil
	}
	if c := Close(s.ctx, a); c.LiesFlat() {
		return c
	}
	return nil
}

// sameScores says whether level and upright scores still lie inside their pieces and follow each other as before.
func sameScores(old, c *card.Card) bool {
	for i := range c.Pieces {
		p := &c.Pieces[i]
		box := pattern.OutlineBox(p)
		for k, sc := range p.Scores {
			end := box.W()
			if sc.Kind == card.Up {
				end = box.H()
			}
			if sc.Kind != card.Slanted && (sc.At <= 0 || sc.At >= end) {
				return false
			}
			for n, other := range p.Scores[:k] {
				was := cmp.Compare(old.Pieces[i].Scores[n].At, old.Pieces[i].Scores[k].At)
				if other.Kind == sc.Kind && sc.Kind != card.Slanted && cmp.Compare(other.At, sc.At) != was {
					return false
				}
			}
		}
	}
	return true
}

// closingStep returns the change that closes all gaps at once, given the gaps before and after one trial step; ok is
// false where there is none.
func closingStep(before, after [][2]float64) (d length.Length, ok bool) {
	step := math.NaN()
	for i := range before {
		for x := range 2 {
			slope := (after[i][x] - before[i][x]) / float64(trialStep)
			if math.IsNaN(slope) {
				return 0, false
			}
			if math.Abs(slope) > 1e-9 && math.IsNaN(step) {
				step = -before[i][x] / slope
			}
		}
	}
	if math.IsNaN(step) || math.Abs(step) < 0.5 {
		return 0, false
	}
	for i := range before {
		for x := range 2 {
			slope := (after[i][x] - before[i][x]) / float64(trialStep)
			if math.Abs(before[i][x]+slope*step) > slanted {
				return 0, false
			}
		}
	}
	return nearest(step), true
}
