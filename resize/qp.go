package resize

import (
	"math"
	"slices"

	"foldwright/dense"
)

// quadratic is the problem: find z with |F z - f|² least under G z >= g. Rows of F and G have one entry per variable.
//
// It is solved by the dual active-set method of Goldfarb and Idnani (1983), A numerically stable dual method for solving
// strictly convex quadratic programs, Math. Programming 27:1-33: from the unconstrained minimum, one broken condition
// after the other is made to hold, while the multipliers of those that hold stay positive.
type quadratic struct {
	n int
	// h is FᵀF, c is Fᵀf, base |f|²: the cost is zᵀ h z - 2 cᵀ z + base.
	h    []float64
	c    []float64
	base float64
	// inv is the inverse of h.
	inv  []float64
	free []float64 // the minimum without conditions
}

// condition is a row of G z >= g.
type condition struct {
	row []float64
	// filled are the places of the row that are not zero: few are.
	filled []int
	at     float64
	// size is the sum of the row without signs.
	size float64
	// back is the row times the inverse of the cost (see quadratic.prepare); nil where it was not worked out.
	back []float64
}

func newCondition(row []float64, at float64) condition {
	c := condition{row: row, at: at}
	for i, v := range row {
		if v != 0 {
			c.filled = append(c.filled, i)
			c.size += math.Abs(v)
		}
	}
	return c
}

// times returns row · z.
func (c *condition) times(z []float64) float64 {
	s := 0.0
	for _, i := range c.filled {
		s += c.row[i] * z[i]
	}
	return s
}

// definiteEps is how much of a direction's own cost must be left, once the others are taken into account, for the cost to tell
// it from standing still: less is rounding.
const definiteEps = 1e-12

// newQuadratic prepares a problem; ok is false where the cost does not tell some direction from standing still.
func newQuadratic(n int, rows [][]float64, f []float64) (q *quadratic, ok bool) {
	q = &quadratic{n: n, h: make([]float64, n*n), c: make([]float64, n), free: make([]float64, n)}
	for k, row := range rows {
		q.base += f[k] * f[k]
		for i, a := range row {
			if a == 0 {
				continue
			}
			q.c[i] += a * f[k]
			for j, b := range row {
				q.h[i*n+j] += a * b
			}
		}
	}
	if q.inv, ok = dense.Inverse(q.h, n, definiteEps); !ok {
		return nil, false
	}
	for i := range q.free {
		q.free[i] = dot(q.inv[i*n:(i+1)*n], q.c)
	}
	return q, true
}

// prepare works out what a condition needs each time that it is made to hold, once.
func (q *quadratic) prepare(c *condition) {
	if c.back == nil {
		c.back = make([]float64, q.n)
		for i := range c.back {
			c.back[i] = c.times(q.inv[i*q.n : (i+1)*q.n])
		}
	}
}

// cost returns the cost at z.
func (q *quadratic) cost(z []float64) float64 {
	s := q.base
	for i, x := range z {
		s -= 2 * q.c[i] * x
		for j, y := range z {
			s += x * q.h[i*q.n+j] * y
		}
	}
	return s
}

// feasibilityEps is how far a condition may be broken by rounding; conditions are on whole marks, so anything below a
// small part of one is rounding.
const feasibilityEps = 1e-7

// minimise returns the minimum under the rows and the bounds; ok is false where they exclude each other, and then those that
// are active suffice for that. from is the outcome
// for the rows and the first of the bounds, from where it is not far; nil where there is none.
func (q *quadratic) minimise(rows, bounds []condition, from *activeSet) (s *activeSet, ok bool) {
	s = &activeSet{q: q, z: slices.Clone(q.free)}
	if from != nil {
		s = &activeSet{q, slices.Clone(from.z), slices.Clone(from.active), slices.Clone(from.rows), slices.Clone(from.u)}
	}
	many := len(rows) + len(bounds)
	at := func(i int) *condition {
		if i < len(rows) {
			return &rows[i]
		}
		return &bounds[i-len(rows)]
	}
	for range 50 * (many + q.n + 1) {
		worst, broken := -1, -feasibilityEps
		for i := range many {
			c := at(i)
			if d := c.times(s.z) - c.at; d < broken*(1+c.size) && !s.holds(i) {
				worst, broken = i, d/(1+c.size)
			}
		}
		if worst < 0 {
			return s, true
		}
		c := at(worst)
		q.prepare(c)
		if !s.add(worst, c) {
			s.active = append(s.active, worst)
			return s, false
		}
	}
	return s, true // rounding keeps it from settling: the point is as good as it gets
}

// activeSet is the state of the method: a point, the conditions that hold with equality, and their multipliers.
type activeSet struct {
	q      *quadratic
	z      []float64
	active []int
	rows   []*condition
	u      []float64
}

func (s *activeSet) holds(i int) bool { return slices.Contains(s.active, i) }

// add makes condition i hold, dropping others where their multipliers would become negative. It returns false where the
// conditions exclude each other.
func (s *activeSet) add(i int, c *condition) bool {
	up := 0.0 // multiplier of the new condition
	direction := make([]float64, s.q.n)
	for {
		// direction: step in z per unit of the new multiplier; r: how the other multipliers fall.
		copy(direction, c.back)
		r := s.fall(c)
		for k, row := range s.rows {
			for j := range direction {
				direction[j] -= r[k] * row.back[j]
			}
		}
		slope := c.times(direction)
		drop, partial := -1, math.Inf(1)
		for k := range s.rows {
			if r[k] > 1e-12 {
				if t := s.u[k] / r[k]; t < partial {
					drop, partial = k, t
				}
			}
		}
		full := math.Inf(1)
		if slope > 1e-12*(1+c.size) {
			full = (c.at - c.times(s.z)) / slope
		}
		step := math.Min(partial, full)
		if math.IsInf(step, 1) {
			return false
		}
		for k := range s.u {
			s.u[k] -= step * r[k]
		}
		up += step
		if !math.IsInf(full, 1) {
			for j := range s.z {
				s.z[j] += step * direction[j]
			}
		}
		if step == full {
			s.active, s.rows, s.u = append(s.active, i), append(s.rows, c), append(s.u, up)
			return true
		}
		s.active = append(s.active[:drop], s.active[drop+1:]...)
		s.rows = append(s.rows[:drop], s.rows[drop+1:]...)
		s.u = append(s.u[:drop], s.u[drop+1:]...)
	}
}

// fall solves (A inv Aᵀ) r = A inv row for the active rows A and the row of c.
func (s *activeSet) fall(c *condition) []float64 {
	m := len(s.rows)
	if m == 0 {
		return nil
	}
	a := make([]float64, m*m)
	b := make([]float64, m)
	for i, ri := range s.rows {
		for j, rj := range s.rows {
			a[i*m+j] = rj.times(ri.back)
		}
		b[i] = c.times(ri.back)
	}
	return solveDense(a, b, m)
}

func dot(a, b []float64) float64 {
	s := 0.0
	for i, x := range a {
		s += x * b[i]
	}
	return s
}

// solveDense solves a x = b by elimination with the largest pivot; a and b are overwritten. Where a is singular the
// variables without a pivot are zero.
func solveDense(a, b []float64, n int) []float64 {
	for k := range n {
		p := k
		for i := k + 1; i < n; i++ {
			if math.Abs(a[i*n+k]) > math.Abs(a[p*n+k]) {
				p = i
			}
		}
		if math.Abs(a[p*n+k]) < 1e-13 {
			continue
		}
		if p != k {
			for j := range n {
				a[p*n+j], a[k*n+j] = a[k*n+j], a[p*n+j]
			}
			b[p], b[k] = b[k], b[p]
		}
		for i := k + 1; i < n; i++ {
			f := a[i*n+k] / a[k*n+k]
			if f == 0 {
				continue
			}
			for j := k; j < n; j++ {
				a[i*n+j] -= f * a[k*n+j]
			}
			b[i] -= f * b[k]
		}
	}
	x := make([]float64, n)
	for k := n - 1; k >= 0; k-- {
		s := b[k]
		for j := k + 1; j < n; j++ {
			s -= a[k*n+j] * x[j]
		}
		if math.Abs(a[k*n+k]) >= 1e-13 {
			x[k] = s / a[k*n+k]
		}
	}
	return x
}
