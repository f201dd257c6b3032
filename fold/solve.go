package fold

import (
	"math"
	"slices"

	"foldwright/dense"
)

// driver is what is held while a pose is sought: the angle of some hinges, or how far the middles of two panels stand
// apart. The zero driver holds nothing.
type driver struct {
	hinges []int
	angles []float64 // signed fold angles of the hinges
	p, q   int
	apart  float64 // millimetres; used if p != q
}

// solver finds poses of one model; it owns the arrays that it works in.
type solver struct {
	m      *Model
	n      int // angles
	rows   int
	frames []Frame
	via    []Frame // where the p side of every loop puts panel q
	axes   []Vec   // direction of every hinge in space, for the child's turn or that of a loop's p side
	points []Vec   // a point on every hinge in space
	r      []float64
	j      []float64
	a      []float64
	step   []float64
	free   []bool
	trial  []float64
	low    []float64
	high   []float64
	drive  driver
	mids   [2]Vec // of the panels whose distance is held, in their patterns
	chain  []sided
}

func newSolver(m *Model) *solver {
	n := len(m.Shut)
	rows := 9*len(m.loops) + 1
	return &solver{
		m: m, n: n, rows: rows,
		frames: make([]Frame, len(m.Assembly.Panels)), via: make([]Frame, len(m.loops)),
		axes: make([]Vec, n), points: make([]Vec, n),
		r: make([]float64, rows), j: make([]float64, rows*n), a: make([]float64, n*n),
		step: make([]float64, n), free: make([]bool, n), trial: make([]float64, n),
		low: slices.Clone(m.Low), high: slices.Clone(m.High),
	}
}

// hold sets the driver.
func (s *solver) hold(d driver) {
	s.drive = d
	copy(s.low, s.m.Low)
	copy(s.high, s.m.High)
	for i, h := range d.hinges {
		s.low[h], s.high[h] = d.angles[i], d.angles[i]
	}
	s.chain = s.chain[:0]
	if d.p == d.q {
		return
	}
	s.mids = [2]Vec{s.m.middle(d.p), s.m.middle(d.q)}
	s.chain = s.m.between(d.p, d.q)
}

// middle returns the middle of a panel in its pattern.
func (m *Model) middle(panel int) Vec {
	b := m.Assembly.Panels[panel].Box
	return Vec{(b.Min.X + b.Max.X).MM() / 2, (b.Min.Y + b.Max.Y).MM() / 2, 0}
}

// measure fills r with the residuals at the angles x, in units of the model's scale, and returns their square sum. It
// leaves the frames of x.
func (s *solver) measure(x []float64) float64 {
	s.m.frames(x, s.frames)
	k := 0
	for i := range s.m.loops {
		l := &s.m.loops[i]
		s.via[i] = s.m.through(l, x, s.frames)
		for _, c := range l.marks {
			d := s.frames[l.q].At(c).Sub(s.via[i].At(c))
			for a := range 3 {
				s.r[k] = d[a] / s.m.scale
				k++
			}
		}
	}
	s.r[k] = 0
	if s.drive.p != s.drive.q {
		d := s.frames[s.drive.q].At(s.mids[1]).Sub(s.frames[s.drive.p].At(s.mids[0]))
		s.r[k] = (d.Norm() - s.drive.apart) / s.m.scale
	}
	return norm2(s.r)
}

// place finds the axis of every hinge in space, signed so that a growing angle turns the child about it, or the p side of
// the loop that the hinge closes.
func (s *solver) place() {
	at := func(hinge, panel int) {
		o, u := s.m.axis(hinge)
		f := s.frames[panel]
		s.points[hinge], s.axes[hinge] = f.At(o), f.Turn(u)
	}
	for i := range s.m.loops {
		if l := &s.m.loops[i]; l.hinge >= 0 {
			at(l.hinge, l.p)
		}
	}
	for _, l := range s.m.tree {
		if l.hinge < 0 {
			continue
		}
		at(l.hinge, l.parent)
		if l.back {
			s.axes[l.hinge] = s.axes[l.hinge].Scale(-1)
		}
	}
}

// jacobian fills j for the frames of the last measure.
func (s *solver) jacobian() {
	clear(s.j)
	s.place()
	for i := range s.m.loops {
		l := &s.m.loops[i]
		for c, mark := range l.marks {
			row := s.j[(9*i+3*c)*s.n:]
			q, p := s.frames[l.q].At(mark), s.via[i].At(mark)
			for _, h := range l.chain {
				var d Vec
				if h.sign > 0 {
					d = s.axes[h.hinge].Cross(q.Sub(s.points[h.hinge]))
				} else {
					d = s.axes[h.hinge].Cross(p.Sub(s.points[h.hinge])).Scale(-1)
				}
				for a := range 3 {
					row[a*s.n+h.hinge] += d[a] / s.m.scale
				}
			}
		}
	}
	if s.drive.p == s.drive.q {
		return
	}
	row := s.j[9*len(s.m.loops)*s.n:]
	p, q := s.frames[s.drive.p].At(s.mids[0]), s.frames[s.drive.q].At(s.mids[1])
	u := q.Sub(p).Unit()
	for _, h := range s.chain {
		end := q
		if h.sign < 0 {
			end = p
		}
		row[h.hinge] += h.sign * u.Dot(s.axes[h.hinge].Cross(end.Sub(s.points[h.hinge]))) / s.m.scale
	}
}

// closedEnough is the residual, in units of the scale, at which the loops count as met: 1e-12 of a hundred millimetres
// is a ten-thousandth of a nanometre.
const closedEnough = 1e-12

// settle moves x to the nearest pose to target that keeps the bounds and the driver and closes the loops: first with the
// pull of the target, its weight falling, then without. It returns the remaining residual in units of the scale. pulls is
// the sequence of weights.
func (s *solver) settle(x, target []float64, pulls []float64) float64 {
	for i := range x {
		x[i] = min(max(x[i], s.low[i]), s.high[i])
	}
	if len(s.m.loops) == 0 && s.drive.p == s.drive.q {
		for i, t := range target { // nothing binds the angles
			x[i] = min(max(t, s.low[i]), s.high[i])
		}
		return 0
	}
	for _, pull := range pulls {
		s.descend(x, target, pull, 6)
	}
	sum := s.descend(x, nil, 1e-13, 40)
	return math.Sqrt(sum)
}

// descend takes up to most damped least-squares steps on |loops|² + pull |x - target|². Without a target the pull is on
// the step only. It returns the square sum of the loops' residuals.
func (s *solver) descend(x, target []float64, pull float64, most int) float64 {
	merit := func(sum float64, x []float64) float64 {
		for i, t := range target {
			sum += pull * (x[i] - t) * (x[i] - t)
		}
		return sum
	}
	sum := s.measure(x)
	damping := 0.0
	worth := worthwhile
	if target != nil {
		worth = worthwhilePulled
	}
	for range most {
		if target == nil && sum < closedEnough*closedEnough {
			return sum
		}
		s.jacobian()
		before := merit(sum, x)
		moved := false
		for range 8 {
			longest, ok := s.solveStep(x, target, pull+damping, pull)
			if ok {
				shrink := 1.0
				if longest > maxStep {
					shrink = maxStep / longest
				}
				for i := range x {
					s.trial[i] = min(max(x[i]+shrink*s.step[i], s.low[i]), s.high[i])
				}
				next := s.measure(s.trial)
				if after := merit(next, s.trial); after < before {
					moved = before-after > worth*before
					copy(x, s.trial)
					sum = next
					damping /= 8
					if damping < 1e-12 {
						damping = 0
					}
					break
				}
			}
			s.measure(x) // back to where the step started
			damping = max(8*damping, 1e-7)
		}
		if !moved {
			break
		}
	}
	return sum
}

// A step that lowers the merit by a smaller share than this is the last one. The pull towards a target only says which of
// many poses is meant, so it need not be followed to the end.
const (
	worthwhile       = 1e-9
	worthwhilePulled = 1e-4
)

// maxStep is how far, in radians, an angle may move in one step: the loops are far from linear beyond it.
const maxStep = 0.4

// solveStep computes the damped step at x: (JᵀJ + weight I) step = pull (target - x) - Jᵀ r, over the angles that are not
// held by a bound that they push against. It returns the largest change of an angle.
func (s *solver) solveStep(x, target []float64, weight, pull float64) (longest float64, ok bool) {
	for i := range s.free {
		s.free[i] = s.low[i] < s.high[i]
	}
	for range 4 {
		s.normal(x, target, weight, pull)
		if !dense.Factor(s.a, s.n, 0) {
			return 0, false
		}
		dense.Solve(s.a, s.n, s.step)
		if !s.hinder(x) {
			break
		}
	}
	return s.longest(), true
}

// hinder holds the angles that the step pushes against their bound, and says whether there are any.
func (s *solver) hinder(x []float64) bool {
	held := false
	for i, d := range s.step {
		if s.free[i] && ((x[i] <= s.low[i] && d < 0) || (x[i] >= s.high[i] && d > 0)) {
			s.free[i], held = false, true
		}
	}
	return held
}

// longest leaves only free angles in the step, and returns the largest change of one.
func (s *solver) longest() float64 {
	longest := 0.0
	for i, d := range s.step {
		if !s.free[i] {
			s.step[i] = 0
			continue
		}
		longest = max(longest, math.Abs(d))
	}
	return longest
}

// normal builds the normal equations for the free angles; the others get a step of zero.
func (s *solver) normal(x, target []float64, weight, pull float64) {
	n := s.n
	clear(s.a)
	clear(s.step)
	for k := range s.rows {
		row := s.j[k*n : (k+1)*n]
		for i, v := range row {
			if v == 0 || !s.free[i] {
				continue
			}
			s.step[i] -= v * s.r[k]
			out := s.a[i*n : i*n+i+1]
			for c := range out {
				if s.free[c] {
					out[c] += v * row[c]
				}
			}
		}
	}
	for i := range n {
		s.a[i*n+i] += weight
		if target != nil && s.free[i] {
			s.step[i] += pull * (target[i] - x[i])
		}
	}
}
