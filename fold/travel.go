package fold

import (
	"context"
	"math"

	"foldwright/dense"
)

// Bounds of travelling: the longest turn of a fold in one step, in radians; the step off a ridge; the step from which a
// balance is near.
const (
	stride  = 0.1
	offStep = 0.05
	arrived = 1e-3
)

// travel goes downhill along the loops until a balance is near: Newton steps on the curved surface that the loops leave, each
// followed by the way back onto it, each short, with a look whether panels met.
func (s *Seeker) travel(ctx context.Context, x []float64) bool {
	if !s.retract(x) {
		return false
	}
	s.estimate(x)
	s.height(x)
	s.meet()
	damping, reach := 0.0, stride
	for range mostFar {
		if ctx.Err() != nil {
			return false
		}
		before := s.height(x)
		s.merit(x, stiffLoops)
		s.model(x, stiffLoops)
		longest, ok := s.newton(x, damping)
		for !ok && damping < 1e6 {
			damping = max(4*damping, 1e-3)
			longest, ok = s.newton(x, damping)
		}
		if !ok {
			return false
		}
		if longest < arrived && damping == 0 {
			return true
		}
		if longest < arrived {
			longest = s.fall()
		}
		if reach, ok = s.walk(x, before, longest, reach); !ok {
			return false
		}
		if damping /= 4; damping < 1e-3 {
			damping = 0
		}
		s.height(x)
		s.meet()
	}
	return false
}

// height is energy and contacts at x, in the units of the merit.
func (s *Seeker) height(x []float64) float64 {
	s.measure(x)
	return s.stored(x) + s.measureTouch(stiffLoops)
}

// walk moves x along the step, as far as it leads downhill, and returns how far to reach next time.
func (s *Seeker) walk(x []float64, before, longest, reach float64) (next float64, ok bool) {
	step, trial := make([]float64, s.n), make([]float64, s.n)
	copy(step, s.step)
	s.foreseeLoops(step, stiffLoops)
	for range 12 {
		shrink := min(1, reach/max(longest, 1e-300))
		for i := range x {
			trial[i] = x[i] + shrink*step[i]
		}
		s.clip(trial)
		if s.retract(trial) && s.height(trial) < before {
			copy(x, trial)
			return min(16*reach, stride), true
		}
		reach = min(reach, longest) / 4
	}
	return reach, false
}

// retract brings x back onto the loops by the shortest way.
func (s *Seeker) retract(x []float64) bool {
	const most = 12
	return s.descend(x, nil, 1e-13, most) < 1e-20
}

// fall puts a step off a ridge in place of one that leads nowhere: along the least curvature, which repeated solving with
// the factor of the damped curvature brings out. It returns the largest change of an angle.
func (s *Seeker) fall() float64 {
	d := make([]float64, s.n)
	for i := range d {
		d[i] = math.Sin(float64(3*i + 1)) // to no side in particular
	}
	for range 12 {
		for i := range d {
			if !s.free[i] {
				d[i] = 0
			}
		}
		dense.Solve(s.a, s.n, d)
		size := math.Sqrt(norm2(d))
		for i := range d {
			d[i] /= size
		}
	}
	size := math.Copysign(offStep, -dot(d, s.grad))
	for i, v := range d {
		s.step[i] = size * v
	}
	return s.longest()
}
