package fold

import (
	"context"
	"math"
	"slices"

	"foldwright/dense"
)

// Energy is what the folds store at fold angles x: ½ (x - Rest)ᵀ K (x - Rest). With K in N·mm per radian it is in mJ.
type Energy struct {
	// K is symmetric, row by row, one row for each hinge, and positive definite.
	K []float64
	// Rest holds the fold angles of all hinges at which nothing is stored, in radians, with the sign of their sense.
	Rest []float64
	// Guide, where it is there, holds folds to each other while a [Seeker] looks for a balance: as if ½ xᵀ Guide x were
	// stored as well. It counts neither as energy nor for whether a balance is stable.
	Guide []float64
}

// At returns the energy at fold angles x.
func (e Energy) At(x []float64) float64 {
	n, sum := len(x), 0.0
	for i := range n {
		row := e.K[i*n : (i+1)*n]
		for j, v := range row {
			sum += v * (x[i] - e.Rest[i]) * (x[j] - e.Rest[j])
		}
	}
	return sum / 2
}

// Hold keeps the middles of two panels a distance apart, in millimetres; none where the panels are the same.
type Hold struct {
	Panels [2]int
	Apart  float64
	// Plates, where it is above 0, keeps the whole card between two plates so far apart, in millimetres. They are parallel to
	// the front panel, and Before says what share of the way between them lies before it. Only a [Seeker] knows them.
	Plates, Before float64
}

// Balance is a pose in which the folds are in balance.
type Balance struct {
	Angles []float64
	// Energy is that of Energy.At; LoopError is as in Pose.
	Energy, LoopError float64
	// Force is what the two held panels, or the card on its plates, push with, apart where it is positive: less the change
	// of energy by distance, in N for an energy in mJ. 0 where nothing is held.
	Force float64
	// Found says that the loops meet and the forces balance. Stable says that the energy is least there, so that the card
	// comes back when it is nudged; without it the pose is a ridge or a pass.
	Found, Stable bool
}

// Bounds of the search. Residuals are in units of the model's scale, energies in units of the stiffest fold.
const (
	balanced   = 1e-9 // the last step, in radians
	loopsMeet  = 1e-10
	stiffLoops = 1e5
	// A balance on a ridge is nudged so often, by so many radians.
	nudges = 2
	nudge  = 0.003
)

// Minimise finds the pose of least energy near start that keeps the loops, the senses of the scores and what is held.
//
// Method: augmented Lagrangian (Hestenes 1969, Powell 1969, from memory) with Newton steps on angles, damped where the curvature is not
// positive; second derivatives of the loops are written out, since folds that push hard bend the loops as much as the
// springs. Bounds are kept by an active set.
//
// Range: start has an angle for every hinge. The result is not Found where the search ends early, because of ctx or
// because nothing near start balances.
func (m *Model) Minimise(ctx context.Context, e Energy, start []float64, hold Hold) Balance {
	s := newMinimiser(m, e)
	s.hold(driver{p: hold.Panels[0], q: hold.Panels[1], apart: hold.Apart})
	x := slices.Clone(start)
	for i := range x {
		x[i] = min(max(x[i], s.low[i]), s.high[i])
	}
	b := Balance{Angles: x}
	for k, stiff := range [...]float64{10, 1e3, stiffLoops} {
		most := 15
		if k == 2 {
			most = 80
		}
		b.Found = s.search(ctx, x, stiff, most)
	}
	for try := 0; try < nudges && b.Found && !s.least(x); try++ {
		s.nudge(x, try)
		b.Found = s.search(ctx, x, stiffLoops, 80)
	}
	b.Stable = b.Found && s.least(x)
	b.Energy, b.LoopError = e.At(x), m.LoopError(x)
	if s.drive.p != s.drive.q {
		b.Force = s.pull[s.rows-1] * s.unit / m.scale
	}
	return b
}

// minimiser is a solver with an energy; pull holds the force of every residual (its Lagrange multiplier).
type minimiser struct {
	*solver
	e       Energy
	unit    float64
	pull    []float64
	grad, k []float64
	far     []float64 // angles less rest
	arms    []Vec
	touch   []touch
}

func newMinimiser(m *Model, e Energy) *minimiser {
	s := &minimiser{solver: newSolver(m), e: e}
	for i := range s.n {
		s.unit = max(s.unit, e.K[i*s.n+i])
	}
	if !(s.unit > 0) {
		s.unit = 1
	}
	s.pull = make([]float64, s.rows)
	s.grad, s.k, s.far = make([]float64, s.n), make([]float64, s.n*s.n), make([]float64, s.n)
	s.arms = make([]Vec, s.n)
	return s
}

// least says whether the energy grows on every way from a balance that the loops and contacts leave.
func (s *minimiser) least(x []float64) bool {
	s.merit(x, stiffLoops)
	s.model(x, stiffLoops)
	_, ok := s.newton(x, 0)
	return ok
}

// merit returns energy, forces times residuals, and the residuals' own penalty; it leaves the residuals of x in r.
func (s *minimiser) merit(x []float64, stiff float64) float64 {
	s.measure(x)
	sum := s.stored(x)
	for i, r := range s.r {
		sum += s.pull[i]*r + stiff/2*r*r
	}
	return sum + s.measureTouch(stiff)
}

// stored returns the energy at x in units of the merit, the guide's with it.
func (s *minimiser) stored(x []float64) float64 {
	sum := s.e.At(x)
	for i, v := range x {
		if s.e.Guide != nil {
			sum += v * dot(s.e.Guide[i*s.n:(i+1)*s.n], x) / 2
		}
	}
	return sum / s.unit
}

// search takes Newton steps at one stiffness of the loops, and says whether it came to rest.
func (s *minimiser) search(ctx context.Context, x []float64, stiff float64, most int) bool {
	before, damping := s.merit(x, stiff), 0.0
	for range most {
		if ctx.Err() != nil {
			return false
		}
		s.model(x, stiff)
		longest, moved := 0.0, false
		if longest, damping, moved = s.tryStep(x, before, damping, stiff); !moved {
			s.merit(x, stiff)
			return false
		}
		residual := 0.0
		for i, r := range s.r {
			residual = max(residual, math.Abs(r))
			if longest < 0.05 {
				s.pull[i] += stiff * r
			}
		}
		if longest < balanced && residual < loopsMeet {
			return true
		}
		before = s.merit(x, stiff)
	}
	return false
}

// tryStep moves x by one Newton step, damped until it lowers the merit before; the residuals are those of the new x.
func (s *minimiser) tryStep(x []float64, before, damping, stiff float64) (longest, next float64, moved bool) {
	const tries = 30
	for range tries {
		ok := false
		if longest, ok = s.newton(x, damping); ok {
			shrink := min(1, maxStep/max(longest, 1e-300))
			for i := range x {
				s.trial[i] = min(max(x[i]+shrink*s.step[i], s.low[i]), s.high[i])
			}
			// Near the end what a step gains is lost in rounding: a short step is taken as it is.
			if after := s.merit(s.trial, stiff); after < before || longest < 1e-6 && after < before+1e-9 {
				copy(x, s.trial)
				if damping /= 16; damping < 1e-9 {
					damping = 0
				}
				return longest, damping, true
			}
		}
		damping = max(8*damping, 1e-6)
	}
	return longest, damping, false
}

// nudge moves x a little, to no side in particular.
func (s *minimiser) nudge(x []float64, try int) {
	for i := range x {
		x[i] = min(max(x[i]+nudge*math.Sin(float64(3*i+try+1)), s.low[i]), s.high[i])
	}
}

// model fills gradient and curvature of the merit at x, whose residuals and frames are there.
func (s *minimiser) model(x []float64, stiff float64) { s.bent(x, stiff, stiff) }

// bent is model with the loops' own curvature that of their forces, and of the penalty of another stiffness: with 0 a step
// on it is Newton's on the forces' balance.
func (s *minimiser) bent(x []float64, stiff, bend float64) {
	s.jacobian()
	n := s.n
	for i := range s.far {
		s.far[i] = x[i] - s.e.Rest[i]
	}
	for i := range n {
		sum := 0.0
		for j, v := range s.e.K[i*n : (i+1)*n] {
			s.k[i*n+j] = v / s.unit
			sum += v * s.far[j]
		}
		if s.e.Guide != nil {
			row := s.e.Guide[i*n : (i+1)*n]
			sum += dot(row, x)
			for j, v := range row {
				s.k[i*n+j] += v / s.unit
			}
		}
		s.grad[i] = sum / s.unit
	}
	s.bendLoops(bend)
	s.bendTouch(stiff, bend)
	for k := range s.rows {
		row := s.j[k*n : (k+1)*n]
		force := s.pull[k] + stiff*s.r[k]
		for i, v := range row {
			if v == 0 {
				continue
			}
			s.grad[i] += force * v
			out := s.k[i*n : i*n+i+1]
			for c := range out {
				out[c] += stiff * v * row[c]
			}
		}
	}
}

// newton computes the step at the model's curvature plus damping, over the angles that do not push against a bound. ok is
// false where the curvature is not positive.
func (s *minimiser) newton(x []float64, damping float64) (longest float64, ok bool) {
	n := s.n
	s.unbound(x)
	for range 5 {
		for i := range n {
			for j := range i + 1 {
				s.a[i*n+j] = 0
				if s.free[i] && s.free[j] {
					s.a[i*n+j] = s.k[i*n+j]
				}
			}
			s.a[i*n+i] += damping
			s.step[i] = -s.grad[i]
			if !s.free[i] {
				s.a[i*n+i], s.step[i] = 1, 0
			}
		}
		if !dense.Factor(s.a, n, 0) {
			return 0, false
		}
		dense.Solve(s.a, n, s.step)
		if !s.hinder(x) {
			break
		}
	}
	return s.longest(), true
}

// unbound frees the angles that do not push against a bound.
func (s *minimiser) unbound(x []float64) {
	for i := range s.free {
		s.free[i] = s.low[i] < s.high[i] && !(x[i] <= s.low[i] && s.grad[i] > 0) && !(x[i] >= s.high[i] && s.grad[i] < 0)
	}
}
