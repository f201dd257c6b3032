package fold

import (
	"context"
	"math"
	"slices"

	"foldwright/card"
)

// remembered returns the fold angles that the creases remember: the stock's rest for those folded shut in the closed
// card, its scored for the others, or what the piece says.
func (m *Model) remembered() []float64 {
	a := m.Assembly
	out := make([]float64, len(m.Shut))
	for i, h := range a.Hinges {
		piece := a.Copies[h.Copy].Pattern.Piece
		stock := a.Card.StockNamed(piece.Stock)
		rest, scored := assumedRest, assumedScored
		if stock != nil && stock.RestDeg.Given {
			rest = stock.RestDeg.Value
		}
		if stock != nil && stock.ScoredDeg.Given {
			scored = stock.ScoredDeg.Value
		}
		angle := scored
		if m.Shut[i] != 0 {
			angle = rest
		}
		if said, ok := card.ValueAt(piece.Rest, h.Score()); ok {
			angle = said
		}
		out[i] = angle * (math.Pi / 180) * m.Sense(i)
	}
	return out
}

// Fold angles in degrees that a crease remembers where the stock does not say: assumed, from the example in the recipe's
// description; to be measured by whoever folds the card.
const (
	assumedRest   = 110.0
	assumedScored = 25.0
)

// part drives the two panels that move apart most.
func (m *Model) part(ctx context.Context, poses int) *Opening {
	s := newSolver(m)
	o := &Opening{Driver: m.Assembly.Card.Opening.Kind}
	open := m.openPose(ctx, s)
	if open == nil {
		o.Outcome = Locks
		o.Poses = []Pose{m.pose(m.closedPose())}
		return o
	}
	o.Panels = m.Parting(open)
	shut := m.closedPose()
	from, to := m.Apart(shut, o.Panels), m.Apart(open, o.Panels)
	if to-from < 0.01*m.scale {
		o.Outcome = Locks
		o.Poses = []Pose{m.pose(shut)}
		return o
	}
	list, ok := m.wayBack(ctx, s, open, poses, nil)
	if !ok || !m.parts(list, o.Panels) {
		// The free way does not lead steadily apart: hold the distance.
		list, ok = m.wayBack(ctx, s, open, poses, &partDriver{o.Panels, from, to})
		m.parts(list, o.Panels)
	}
	if !ok {
		o.Outcome = Locks
	}
	o.Poses = list
	return o
}

// parts notes in every pose how far two panels are apart, and says whether that grows all the way.
func (m *Model) parts(list []Pose, panels [2]int) bool {
	grows := true
	for i := range list {
		list[i].Drive = m.Apart(list[i].Angles, panels)
		grows = grows && (i == 0 || list[i].Drive > list[i-1].Drive-1e-6)
	}
	return grows
}

// partDriver holds the distance of two panels in step with the opening.
type partDriver struct {
	panels   [2]int
	from, to float64
}

// wayBack follows the card back from open to closed: each pose is the nearest that the loops allow to the angles in
// proportion between the two. ok is false where a pose is not found.
func (m *Model) wayBack(ctx context.Context, s *solver, open []float64, poses int, d *partDriver) ([]Pose, bool) {
	shut := m.closedPose()
	list := make([]Pose, poses)
	list[0], list[poses-1] = m.pose(shut), m.pose(open)
	x, target := slices.Clone(open), make([]float64, len(open))
	ok := true
	for k := poses - 2; k > 0; k-- {
		if ctx.Err() != nil {
			return list[:1], false
		}
		t := float64(k) / float64(poses-1)
		for i := range target {
			target[i] = shut[i] + t*(open[i]-shut[i])
			x[i] = shut[i] + float64(k)/float64(k+1)*(list[k+1].Angles[i]-shut[i])
			if k+2 < poses { // straight on from the last two
				x[i] = 2*list[k+1].Angles[i] - list[k+2].Angles[i]
			}
		}
		var held driver
		if d != nil {
			held = driver{p: d.panels[0], q: d.panels[1], apart: d.from + t*(d.to-d.from)}
		}
		s.hold(held)
		if s.settle(x, target, warmPulls[:]) > found {
			copy(x, target)
			ok = s.settle(x, target, coldPulls[:]) <= found && ok
		}
		list[k] = m.pose(slices.Clone(x))
	}
	return list, ok
}

// openPose follows the remembered angles from the closed card; nil where the loops let nothing open.
func (m *Model) openPose(ctx context.Context, s *solver) []float64 {
	rest := m.remembered()
	x := m.Ajar(0.05)
	target := make([]float64, len(x))
	const steps = 8
	for k := 1; k <= steps; k++ {
		if ctx.Err() != nil {
			return nil
		}
		for i := range target {
			target[i] = m.Shut[i] + float64(k)/steps*(rest[i]-m.Shut[i])
		}
		if s.settle(x, target, coldPulls[:]) > found && k == steps {
			return nil
		}
	}
	return x
}

// bound says which panels lie on a loop and are at least half as large as the largest that does: those by which a person
// would say how far the card is open. All do where there is no loop.
func (m *Model) bound() []bool {
	out := make([]bool, len(m.Assembly.Panels))
	for i := range m.loops {
		for _, p := range [2]int{m.loops[i].p, m.loops[i].q} {
			out[p] = true
		}
		for _, h := range m.loops[i].chain {
			out[m.Assembly.Hinges[h.hinge].A], out[m.Assembly.Hinges[h.hinge].B] = true, true
		}
	}
	if len(m.loops) == 0 {
		for i := range out {
			out[i] = true
		}
	}
	largest := 0.0
	for i, p := range m.Assembly.Panels {
		if out[i] {
			largest = max(largest, p.Area())
		}
	}
	for i, p := range m.Assembly.Panels {
		out[i] = out[i] && p.Area() >= largest/2
	}
	return out
}
