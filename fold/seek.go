package fold

import (
	"context"
	"math"
	"slices"

	"foldwright/dense"
)

// Seeker finds one balance after another along a way. It remembers between them what loops, contacts and the hold push
// with, and on which side of each other panels lie: card does not go through card, a panel that meets another one leans
// against it.
//
// Method: as [Model.Minimise] near a balance; far from one it travels (see travel).
type Seeker struct {
	*minimiser
	watch *watch
	warm  bool
	// behind and before are how far the plates are from the front panel; both 0 without plates.
	behind, before float64
}

// Seek returns a Seeker that starts at the closed card.
func (m *Model) Seek(e Energy) *Seeker {
	return &Seeker{minimiser: newMinimiser(m, e), watch: newWatch(m)}
}

// Change gives another energy to the next balances.
func (s *Seeker) Change(e Energy) { s.e = e }

// Touching lists the pairs of panels that lean against each other in the last balance.
func (s *Seeker) Touching() [][2]int {
	var out [][2]int
	for _, t := range s.touch {
		if t.plate {
			continue
		}
		pair := [2]int{min(t.Panel, t.On), max(t.Panel, t.On)}
		if t.push > 0 && !slices.Contains(out, pair) {
			out = append(out, pair)
		}
	}
	return out
}

// begin sets what is held, and returns x within its bounds.
func (s *Seeker) begin(x []float64, hold Hold) []float64 {
	held := s.drive.p != s.drive.q
	s.hold(driver{p: hold.Panels[0], q: hold.Panels[1], apart: hold.Apart})
	if now := s.drive.p != s.drive.q; now != held {
		s.pull[s.rows-1] = 0
	}
	s.plate(hold)
	x = slices.Clone(x)
	s.clip(x)
	if !s.warm {
		s.estimate(x)
		s.warm = true
	}
	return x
}

func (s *Seeker) clip(x []float64) {
	for i := range x {
		x[i] = min(max(x[i], s.low[i]), s.high[i])
	}
}

// end completes a balance.
func (s *Seeker) end(x []float64, found bool) Balance {
	guide := s.e.Guide
	s.e.Guide = nil
	b := Balance{Angles: x, Found: found, Stable: found && s.least(x), Energy: s.e.At(x), LoopError: s.m.LoopError(x)}
	s.e.Guide = guide
	if s.drive.p != s.drive.q {
		b.Force = s.pull[s.rows-1] * s.unit / s.m.scale
	}
	for _, t := range s.touch {
		if t.plate && s.behind > 0 {
			b.Force += t.push * s.unit / s.m.scale * t.Off / (s.behind + s.before)
		}
	}
	return b
}

// Least finds the pose of least energy that the card comes to from x, two panels held as hold says. Where it is not Found,
// the Seeker remembers what it did before.
func (s *Seeker) Least(ctx context.Context, x []float64, hold Hold) Balance {
	x = s.begin(x, hold)
	found := s.downhill(ctx, x)
	for try := 0; try < nudges && found && !s.least(x); try++ {
		s.nudge(x, try)
		found = s.downhill(ctx, x)
	}
	return s.end(x, found)
}

// Straight finds the balance that goes straight on from x, whether or not a nudge would move the card away from it: so a
// row of springs stays upright that might lean to one side. x must be near it.
func (s *Seeker) Straight(ctx context.Context, x []float64, hold Hold) Balance {
	x = s.begin(x, hold)
	pull, touch := slices.Clone(s.pull), slices.Clone(s.touch)
	found := s.straight(ctx, x)
	if !found {
		s.pull, s.touch = pull, touch
	}
	return s.end(x, found)
}

// Bounds of the search: how far, in radians, a straight step may lead, and how many steps are taken.
const (
	straightStep     = 0.3
	stiffStraight    = 1e7
	straightBalanced = 1e-8 // the last step, in radians
	straightMeet     = 1e-9
	mostStraight     = 25
	mostNear         = 10
	mostFar          = 150
)

// straight takes Newton steps to where the forces balance, ridge or not.
func (s *Seeker) straight(ctx context.Context, x []float64) bool {
	s.merit(x, stiffStraight)
	s.meet()
	for range mostStraight {
		if ctx.Err() != nil {
			return false
		}
		s.merit(x, stiffStraight)
		s.bent(x, stiffStraight, 0)
		longest, ok := s.towards(x)
		if !ok || !(longest <= straightStep) { // written so that NaN is refused
			return false
		}
		for i := range x {
			x[i] += s.step[i]
		}
		s.clip(x)
		s.foresee(s.step, stiffStraight)
		s.merit(x, stiffStraight)
		if residual := s.push(0); longest < straightBalanced && residual < straightMeet && !s.meet() {
			return true
		}
	}
	return false
}

// towards computes the step to where the gradient vanishes, over the angles that do not push against a bound.
func (s *Seeker) towards(x []float64) (longest float64, ok bool) {
	n := s.n
	s.unbound(x)
	for range 5 {
		for i := range n {
			for j := range n {
				s.a[i*n+j] = 0
				if s.free[i] && s.free[j] {
					s.a[i*n+j] = s.k[max(i, j)*n+min(i, j)]
				}
			}
			s.step[i] = -s.grad[i]
			if !s.free[i] {
				s.a[i*n+i], s.step[i] = 1, 0
			}
		}
		if !eliminate(s.a, n, s.step) {
			return 0, false
		}
		if !s.hinder(x) {
			break
		}
	}
	return s.longest(), true
}

// foresee brings the forces of loops and contacts up to what they are at the end of a step, to first order: what second
// order leaves of the residuals is not yet a force.
func (s *Seeker) foresee(step []float64, stiff float64) {
	s.foreseeLoops(step, stiff)
	for i := range s.touch {
		if t := &s.touch[i]; t.plate && t.closed() {
			t.push = max(0, t.push-stiff*(t.gap+dot(t.row, step)))
		}
	}
}

func (s *Seeker) foreseeLoops(step []float64, stiff float64) {
	for k := range s.rows {
		s.pull[k] += stiff * (s.r[k] + dot(s.j[k*s.n:(k+1)*s.n], step))
	}
}

// push returns how far loops and contacts are from being kept; above 0, stiff brings their forces up to date.
func (s *Seeker) push(stiff float64) float64 {
	residual := 0.0
	for i, r := range s.r {
		residual = max(residual, math.Abs(r))
		s.pull[i] += stiff * r
	}
	return max(residual, s.settleTouch(stiff))
}

// downhill brings x into balance: by a few steps where it is near, else by travelling there.
func (s *Seeker) downhill(ctx context.Context, x []float64) bool {
	from, pull, touch := slices.Clone(x), slices.Clone(s.pull), slices.Clone(s.touch)
	back := func() { copy(s.pull, pull); s.touch = slices.Clone(touch) }
	if s.near(ctx, x, mostNear) {
		return true
	}
	copy(x, from)
	back()
	const legs = 4
	for range legs {
		if !s.travel(ctx, x) {
			break
		}
		if s.near(ctx, x, 4*mostNear) {
			return true
		}
	}
	back()
	return false
}

// near takes up to most Newton steps until the card is in balance and nothing goes through anything.
func (s *Seeker) near(ctx context.Context, x []float64, most int) bool {
	s.merit(x, stiffLoops)
	s.meet()
	before, damping := s.merit(x, stiffLoops), 0.0
	for range most {
		if ctx.Err() != nil {
			return false
		}
		s.model(x, stiffLoops)
		longest, moved := 0.0, false
		if longest, damping, moved = s.tryStep(x, before, damping, stiffLoops); !moved {
			return false
		}
		update := 0.0
		if longest < 0.05 && damping == 0 {
			update = stiffLoops
		}
		residual := s.push(update)
		if longest < balanced && residual < loopsMeet && !s.meet() {
			return true
		}
		before = s.merit(x, stiffLoops)
	}
	return false
}

// meet brings the contacts up to date with the frames of the last measure, and says whether they changed.
func (s *Seeker) meet() bool {
	changed := false
	s.touch = slices.DeleteFunc(s.touch, func(t touch) bool {
		off := !t.plate && !s.watch.above(&t.Contact, s.frames)
		changed = changed || off && t.push > 0
		return off || t.push == 0 && t.gap*s.m.scale > farApart
	})
	for _, c := range s.watch.look(s.frames) {
		changed = s.add(c) || changed
	}
	return s.meetPlates() || changed
}

// plate moves the plates; without them what pushed against them is forgotten.
func (s *Seeker) plate(hold Hold) {
	s.behind, s.before = hold.Plates*(1-hold.Before), hold.Plates*hold.Before
	s.touch = slices.DeleteFunc(s.touch, func(t touch) bool { return t.plate && hold.Plates == 0 })
	front := s.m.front(s.m.Assembly.Front())
	for i := range s.touch {
		switch t := &s.touch[i]; {
		case t.plate && t.Side == front:
			t.Off = s.behind
		case t.plate:
			t.Off = s.before
		}
	}
}

// meetPlates adds the corners that have gone through a plate, and says whether there are any.
func (s *Seeker) meetPlates() bool {
	if s.behind == 0 {
		return false
	}
	changed := false
	panel := s.m.Assembly.Front()
	f, front := &s.frames[panel], s.m.front(panel)
	for p, corners := range s.m.outlines {
		for _, c := range corners {
			v := s.frames[p].At(c)
			contact := Contact{Panel: p, On: panel, Corner: c, Side: front, Off: s.behind}
			if h := front * v.Sub(f.O).Dot(f.Z); h > s.before+felt {
				contact.Side, contact.Off = -front, s.before
			} else if h >= -s.behind-felt {
				continue
			}
			if !slices.ContainsFunc(s.touch, func(t touch) bool {
				return t.plate && t.Side == contact.Side && s.frames[t.Panel].At(t.Corner).Sub(v).Norm() < felt
			}) {
				s.touches([]Contact{contact})
				s.touch[len(s.touch)-1].plate = true
				changed = true
			}
		}
	}
	return changed
}

// Contacts that stand further apart than this, in millimetres, are forgotten; they are found again when they matter.
const farApart = 0.5

// add puts a contact into the list, in place of one that is almost the same, and says whether that changes anything.
func (s *Seeker) add(c Contact) bool {
	const same = 1e-3 // millimetres
	for i := range s.touch {
		if t := &s.touch[i]; !t.plate && t.Panel == c.Panel && t.On == c.On {
			if moved := t.Corner.Sub(c.Corner).Norm(); moved < farApart {
				t.Contact = c
				return moved > same
			}
		}
	}
	s.touches([]Contact{c})
	return true
}

// estimate finds the forces of the loops, and of the hold, that come nearest to balance at x: least squares.
func (s *Seeker) estimate(x []float64) {
	clear(s.pull)
	s.merit(x, stiffLoops)
	s.model(x, 0)
	rows, n := s.rows, s.n
	a := make([]float64, rows*rows)
	for i := range rows {
		row := s.j[i*n : (i+1)*n]
		for j := range i + 1 {
			a[i*rows+j] = dot(row, s.j[j*n:(j+1)*n])
		}
		a[i*rows+i] += 1e-8 // loops that say the same twice share the force
		s.pull[i] = -dot(row, s.grad)
	}
	if !dense.Factor(a, rows, 0) {
		clear(s.pull)
		return
	}
	dense.Solve(a, rows, s.pull)
}
