package spring

import (
	"context"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/fold"
)

// Step is the card at one moment of its way from closed to rest.
type Step struct {
	// Apart is how far what holds the card is apart, in millimetres: two plates between which all of it lies, or for a card
	// that is pulled open or opens at a score the middles of the two panels that part. Force is what the card pushes that
	// apart with, in N.
	Apart, Force float64
	// Depth is that of the standing card in millimetres, Energy what its folds store in mJ.
	Depth, Energy float64
	Angles        []float64
	// Ridge says that the card is straight there though a nudge would let it lean to one side.
	Ridge bool
}

// Push is what a card does on the way from closed to rest, let go slowly and guided straight.
type Push struct {
	// Steps leads from the closed card to the rest pose.
	Steps []Step
	// Plates says that the card is held between two plates, as an envelope holds it; else by Panels, the two that part most.
	Plates bool
	Panels [2]int
	// HoldShut is what keeps the card shut, in N; 0 where the way does not lead to the closed card.
	HoldShut float64
	// ByItself says that the folds push all the way, so that nobody has to help.
	ByItself bool
	// Snaps lists the steps (by index) to which the card flips from the step before instead of moving on.
	Snaps []int
	// Crosses lists the steps (by index) in which panels pass through each other all the same: no real card goes that way.
	Crosses []int
	// Complete is false where ctx ended it or a step has no balance: then the steps begin after it, but for the closed card.
	Complete bool
}

// A card that turns a fold by so much, in radians, from one step to the next flips there.
const snap = 30 * math.Pi / 180

// Opening follows the card between closed and its rest pose, in so many steps (at least 5). It goes from rest to closed,
// which leads to the same poses as the other way wherever the card does not flip: near the closed card all folds are
// free to go either way.
func (s *Model) Opening(ctx context.Context, rest Rest, steps int) Push {
	p := Push{Panels: rest.Standing.Panels}
	if !rest.Found {
		return p
	}
	steps = max(steps, 5)
	if s.Fold.Assembly.Card.Opening.Kind == card.OpensByItself {
		before, behind := s.Fold.Reach(rest.Angles)
		if to := before + behind; to > 0 {
			p.Plates = true
			share := before / to
			s.wayBack(ctx, &p, rest, steps, func(t float64) fold.Hold { return fold.Hold{Plates: t, Before: share} }, 0, to)
		}
	}
	if !p.Complete && ctx.Err() == nil {
		from, to := s.Fold.Apart(s.Fold.Shut, p.Panels), s.Fold.Apart(rest.Angles, p.Panels)
		q := Push{Panels: p.Panels}
		s.wayBack(ctx, &q, rest, steps, func(t float64) fold.Hold { return fold.Hold{Panels: q.Panels, Apart: t} }, from, to)
		if q.Complete || !p.Plates {
			p = q
		}
	}
	for i := range p.Steps {
		if i > 0 && len(s.Fold.Crossings(ctx, s.Fold.Standing(p.Steps[i].Angles))) > 0 {
			p.Crosses = append(p.Crosses, i)
		}
	}
	return p
}

// wayBack fills in the steps from rest to closed, held in each as hold says.
func (s *Model) wayBack(ctx context.Context, p *Push, rest Rest, steps int, hold func(t float64) fold.Hold, from, to float64) {
	if rest.guide != nil && s.walkBack(ctx, p, rest, steps, hold, from, to) {
		return
	}
	rest.guide = nil
	s.walkBack(ctx, p, rest, steps, hold, from, to)
}

// walkBack is wayBack with the guide of the rest pose; it is false where the guide has something to do on the way.
func (s *Model) walkBack(ctx context.Context, p *Push, rest Rest, steps int, hold func(t float64) fold.Hold, from, to float64) bool {
	e := s.Energy
	e.Guide = rest.guide
	f := s.follow(func(t float64) (fold.Energy, fold.Hold) { return e, hold(t) }, to, rest.Angles, to-from, 20)
	last := s.step(rest.Balance, to)
	last.Force = 0
	list := []Step{last}
	k := steps - 2
	for ; k > 0; k-- {
		t := from + float64(k)/float64(steps-1)*(to-from)
		b := f.to(ctx, t)
		if !b.Found {
			break
		}
		if rest.guide != nil && !rest.Helped && s.stray(rest.guide, b.Angles) > straight {
			return false
		}
		list = append(list, s.step(b, t))
	}
	// The last of the way is as good as closed: what remains goes on as it came.
	p.Complete = ctx.Err() == nil && float64(k) <= nearlyShut*float64(steps)
	shut := s.step(fold.Balance{Angles: slices.Clone(s.Fold.Shut), Energy: s.Energy.At(s.Fold.Shut), Stable: true}, from)
	list = append(list, shut)
	slices.Reverse(list)
	p.Steps = list
	p.judge()
	return p.Complete
}

// nearlyShut is the share of the way from closed that a card may be left unfollowed: close to closed, loops bind so little
// that numbers do not hold them.
const nearlyShut = 0.08

func (s *Model) step(b fold.Balance, apart float64) Step {
	return Step{Apart: apart, Force: b.Force, Depth: s.Fold.Standing(b.Angles).Depth, Energy: b.Energy, Angles: b.Angles, Ridge: !b.Stable}
}

// judge fills in what follows from the steps.
func (p *Push) judge() {
	n := len(p.Steps)
	if n < 5 || !p.Complete {
		return
	}
	p.ByItself = true
	for i := 1; i < n; i++ {
		if p.Steps[i].Energy > p.Steps[i-1].Energy*(1+1e-9) {
			p.ByItself = false
		}
		if mostTurned(p.Steps[i].Angles, p.Steps[i-1].Angles) > snap {
			p.Snaps = append(p.Snaps, i)
		}
	}
	if len(p.Snaps) > 0 && p.Snaps[0] == 1 {
		return // the way ends before the closed card
	}
	p.HoldShut = max(p.towardsShut(), 0)
	p.Steps[0].Force = p.HoldShut
}

// towardsShut continues the parabola through the forces of the first steps to the closed card, at which no pose says what
// its folds do.
func (p *Push) towardsShut() float64 {
	sum, t := 0.0, p.Steps[0].Apart
	for i := 1; i <= 3; i++ {
		weight := 1.0
		for j := 1; j <= 3; j++ {
			if j != i {
				weight *= (t - p.Steps[j].Apart) / (p.Steps[i].Apart - p.Steps[j].Apart)
			}
		}
		sum += weight * p.Steps[i].Force
	}
	return sum
}
