package fold

import (
	"context"
	"math"
	"slices"

	"foldwright/card"
)

// hingesOfDriver returns the hinges of the score that the card opens at.
func (m *Model) hingesOfDriver() []int {
	o := m.Assembly.Card.Opening
	c, ok := m.Assembly.FindCopy(o.Piece)
	if !ok {
		return nil
	}
	return m.Assembly.HingesOf(c, o.Score)
}

// turn drives the angle of the score that the card opens at.
func (m *Model) turn(ctx context.Context, poses int) *Opening {
	s := newSolver(m)
	o := &Opening{Driver: card.OpensAt}
	hinges := m.hingesOfDriver()
	shut := m.closedPose()
	o.Poses = []Pose{m.pose(shut)}
	if len(hinges) == 0 || slices.ContainsFunc(hinges, func(h int) bool { return shut[h] == 0 }) {
		o.Outcome = Locks
		return o
	}
	h := m.Assembly.Hinges[hinges[0]]
	o.Panels = [2]int{h.A, h.B}
	end := m.Assembly.Card.Opening.ToDeg * math.Pi / 180
	x := m.Ajar(end / float64(poses-1))
	free, rest := m.freeHinges(hinges), m.remembered()
	for k := 1; k < poses; k++ {
		if ctx.Err() != nil {
			o.Outcome = Stopped
			return o
		}
		opened := end * float64(k) / float64(poses-1)
		for _, i := range free {
			x[i] = shut[i] + float64(k)/float64(poses-1)*(rest[i]-shut[i])
		}
		if !m.advance(s, x, o.Poses, driver{hinges: hinges, angles: m.opened(hinges, opened)}, free) {
			o.Outcome = Locks
			return o
		}
		p := m.pose(slices.Clone(x))
		p.Drive = opened
		o.Poses = append(o.Poses, p)
	}
	return o
}

// opened returns the angles of the driving hinges when their panels stand so far apart: each folds the way it is shut, for
// a score that crosses another may be a mountain on one half and a valley on the other.
func (m *Model) opened(hinges []int, apart float64) []float64 {
	out := make([]float64, len(hinges))
	for i, h := range hinges {
		out[i] = math.Copysign(math.Pi-apart, m.Shut[h])
	}
	return out
}

// freeHinges lists the hinges that no loop binds and that do not drive: they open towards what they remember.
func (m *Model) freeHinges(drivers []int) []int {
	bound := make([]bool, len(m.Shut))
	for i := range m.loops {
		for _, h := range m.loops[i].chain {
			bound[h.hinge] = true
		}
	}
	for _, h := range drivers {
		bound[h] = true
	}
	var free []int
	for i, b := range bound {
		if !b {
			free = append(free, i)
		}
	}
	return free
}

// advance moves x to the next pose of a driven path, guessing on from the last two; x holds the last pose, but for the
// angles of free hinges, which are those wanted.
func (m *Model) advance(s *solver, x []float64, before []Pose, d driver, free []int) bool {
	s.hold(d)
	wanted := slices.Clone(x)
	if n := len(before); n >= 3 {
		for i := range x {
			x[i] += before[n-1].Angles[i] - before[n-2].Angles[i]
		}
	}
	for _, i := range free {
		x[i] = wanted[i]
	}
	guess := slices.Clone(x)
	return s.settle(x, guess, warmPulls[:]) <= found || m.again(s, x, before[len(before)-1].Angles)
}

// again tries from the last pose itself, for where the path bends too sharply to be guessed.
func (m *Model) again(s *solver, x, last []float64) bool {
	copy(x, last)
	return s.settle(x, slices.Clone(x), coldPulls[:]) <= found
}
