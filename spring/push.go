package spring

import (
	"context"
	"math"
	"slices"

	"foldwright/fold"
)

// Step is the card at one moment of its way from closed to rest.
type Step struct {
	// Apart is how far the two panels that part most stand from each other, Force what they push each other apart with
	// there, in N; where closed, Force is Press, and both are HoldShut.
	Apart, Force float64
	// Depth is that of the standing card in millimetres, Energy what its folds store in mJ.
	Depth, Energy float64
	// Press is what two plates in front of the card and behind it would feel, in N: less the change of energy by depth,
	// from differences between the steps. 0 where the depth does not grow on both sides of the step.
	Press  float64
	Angles []float64
}

// Push is what a card does on the way from closed to rest, let go slowly.
type Push struct {
	// Steps leads from the closed card to the rest pose.
	Steps []Step
	// Panels are the two that part most.
	Panels [2]int
	// HoldShut is what keeps the card shut, in N: the Press over the first hundredths of the way. 0 where it is not known: where
	// the card does not grow deeper little by little from the start, or flips at once.
	HoldShut float64
	// ByItself says that the folds push all the way, so that nobody has to help.
	ByItself bool
	// Snaps lists the steps (by index) at which a fold jumps by more than 30 degrees from the step before: the card flips
	// there instead of moving on.
	Snaps []int
	// Crosses lists the steps (by index) in which panels pass through each other all the same: no real card goes that way.
	Crosses []int
	// Complete is false where ctx ended it or a step has no balance: then the steps end before it.
	Complete bool
}

const snap = 30 * math.Pi / 180

// mostTurned returns by how much the fold that turned most differs between two poses.
func mostTurned(x, y []float64) float64 {
	most := 0.0
	for i := range x {
		most = max(most, math.Abs(x[i]-y[i]))
	}
	return most
}

// Opening follows the card from closed to its rest pose in so many steps (at least 4), the distance of the two panels that
// part most held in each.
func (s *Model) Opening(ctx context.Context, rest Rest, steps int) Push {
	m := s.Fold
	steps = max(steps, 4)
	p := Push{Panels: rest.Standing.Panels, Complete: rest.Found}
	from, to := m.Apart(m.Shut, p.Panels), m.Apart(rest.Angles, p.Panels)
	p.Steps = append(p.Steps, s.step(fold.Balance{Angles: slices.Clone(m.Shut), Energy: s.Energy.At(m.Shut)}, from))
	f := s.ajar(ctx, p.Panels, from+(to-from)/float64(steps-1))
	last, before := f.last, []float64(nil)
	for k := 1; k < steps-1 && p.Complete; k++ {
		apart := from + float64(k)/float64(steps-1)*(to-from)
		hold := fold.Hold{Panels: p.Panels, Apart: apart}
		b := f.to(ctx, s.Energy, onward(before, last), hold)
		if !b.Found {
			f.last = last
			b = f.to(ctx, s.Energy, last, hold)
		}
		if !b.Found || b.LoopError > loopError {
			p.Complete = false
			break
		}
		if k > 1 {
			before = last
		}
		p.Steps, last = append(p.Steps, s.step(b, apart)), b.Angles
	}
	if p.Complete {
		p.Steps = append(p.Steps, s.step(rest.Balance, to))
	}
	p.judge()
	if p.Complete {
		p.HoldShut = s.holdShut(ctx, p.Panels, from, to)
	}
	p.Steps[0].Force, p.Steps[0].Press = p.HoldShut, p.HoldShut
	for i := range p.Steps {
		if i > 0 && len(m.Crossings(ctx, m.Standing(p.Steps[i].Angles))) > 0 {
			p.Crosses = append(p.Crosses, i)
		}
	}
	return p
}

// ajar returns a pose with two panels held a little apart, to begin from: first as near to closed as it can be, then with
// the remembered angles growing to their own, so that the search does not run away to another pose at the start.
func (s *Model) ajar(ctx context.Context, panels [2]int, apart float64) *follower {
	f := &follower{s: s, last: s.Fold.Ajar(0.05)}
	const growth = 8
	for k := range growth + 1 {
		before := f.last
		if b := f.to(ctx, s.grown(float64(k)/growth), before, fold.Hold{Panels: panels, Apart: apart}); !b.Found {
			f.last = before
		}
	}
	return f
}

// onward guesses the angles that follow on the last two of a path; the last ones where there is nothing before them.
func onward(before, last []float64) []float64 {
	x := slices.Clone(last)
	for i := range before {
		x[i] += last[i] - before[i]
	}
	return x
}

func (s *Model) step(b fold.Balance, apart float64) Step {
	return Step{Apart: apart, Force: b.Force, Depth: s.Fold.Standing(b.Angles).Depth, Energy: b.Energy, Angles: b.Angles}
}

// judge fills in what follows from the steps.
func (p *Push) judge() {
	n := len(p.Steps)
	if n < 3 {
		return
	}
	p.ByItself = p.Complete
	for i := range p.Steps {
		k := min(max(i, 1), n-2)
		p.Steps[i].Press = press(p.Steps[k-1:k+2], p.Steps[i].Depth)
		if i == 0 {
			continue
		}
		if p.Steps[i].Energy > p.Steps[i-1].Energy*(1+1e-9) {
			p.ByItself = false
		}
		if mostTurned(p.Steps[i].Angles, p.Steps[i-1].Angles) > snap {
			p.Snaps = append(p.Snaps, i)
		}
	}
}

// holdShut finds what keeps the card shut, from two poses in the first hundredths of its way.
func (s *Model) holdShut(ctx context.Context, panels [2]int, from, to float64) float64 {
	const little = 8e-3
	shut := s.step(fold.Balance{Angles: s.Fold.Shut, Energy: s.Energy.At(s.Fold.Shut)}, from)
	list := []Step{shut}
	for k := range 2 {
		apart := from + float64(k+1)*little*(to-from)
		x := s.ajar(ctx, panels, apart).last
		list = append(list, s.step(fold.Balance{Angles: x, Energy: s.Energy.At(x)}, apart))
		if mostTurned(x, s.Fold.Shut) > snap {
			return 0
		}
	}
	if list[1].Depth-list[0].Depth > evenly*(list[2].Depth-list[1].Depth) {
		return 0
	}
	return max(press(list, 0), 0)
}

// evenly is how many times deeper the first step may be than the next one for the depth to count as growing little by
// little: a card whose front turns as it opens has no depth at which it is pressed flat.
const evenly = 4

// press returns less the slope, at a depth, of the parabola through the energies of three steps; 0 where they do not grow
// deeper one after the other.
func press(s []Step, depth float64) float64 {
	a, b, c := s[0], s[1], s[2]
	if !(b.Depth-a.Depth > 1e-9 && c.Depth-b.Depth > 1e-9) {
		return 0
	}
	ab := (b.Energy - a.Energy) / (b.Depth - a.Depth)
	bc := (c.Energy - b.Energy) / (c.Depth - b.Depth)
	bend := (bc - ab) / (c.Depth - a.Depth)
	return -(ab + bend*(2*depth-a.Depth-b.Depth))
}
