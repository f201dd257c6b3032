package trim

import (
	"context"
	"math"
)

// linear is a linear program: least cost·x with x ≥ 0 and rows that are at least (or, where atMost, at most) rhs. It is the
// primal simplex method with the inverse of the basis held whole (Dantzig's revised method, from memory; Chvátal, Linear
// Programming, ch. 7): columns come one after the other while layouts are found, and after each the old basis still
// serves. The programs have a row for every kind of part, so that a dense inverse is small. A solver of our own because it
// has to run in a browser and cgo is not to be had; every bound made of its numbers is checked in whole numbers (see
// bound).
//
// Rows that are at least rhs start with a column of their own that costs big for every unit that is missing.
type linear struct {
	rhs     []float64
	cost    []float64
	rows    [][]int32
	vals    [][]float64
	basis   []int32
	basic   []bool
	inverse [][]float64
	x       []float64 // of the basis
	y       []float64 // prices of the rows
	pivots  int
}

// Numbers below tiny count as 0 in a pivot; a column enters where it saves more than least.
const (
	tiny  = 1e-9
	least = 1e-9
)

// newLinear returns the program without columns; all rhs are at least 0.
func newLinear(rhs []float64, atMost []bool, big float64) *linear {
	l := &linear{rhs: rhs}
	for i := range rhs {
		c := big
		if atMost[i] {
			c = 0
		}
		l.basis = append(l.basis, int32(l.add(c, []int32{int32(i)}, []float64{1})))
		l.basic[i] = true
	}
	for i := range rhs {
		if !atMost[i] {
			l.add(0, []int32{int32(i)}, []float64{-1})
		}
	}
	l.refresh()
	return l
}

// add puts in a column and returns its number.
func (l *linear) add(cost float64, rows []int32, vals []float64) int {
	l.cost, l.rows, l.vals, l.basic = append(l.cost, cost), append(l.rows, rows), append(l.vals, vals), append(l.basic, false)
	return len(l.cost) - 1
}

// solve goes to the optimum; false where ctx ended or the numbers came to no end.
func (l *linear) solve(ctx context.Context) bool {
	still := 0 // pivots without a step
	for n := 0; n < 50_000; n++ {
		if n&31 == 31 && ctx.Err() != nil {
			return false
		}
		l.prices()
		j := l.enter(still > 40)
		if j < 0 {
			return true
		}
		u := l.column(j)
		r := l.leave(u, still > 40)
		if r < 0 {
			return false
		}
		if l.x[r]/u[r] > tiny {
			still = 0
		} else {
			still++
		}
		l.pivot(r, j, u)
	}
	return false
}

// prices works out y = cost of the basis times the inverse.
func (l *linear) prices() {
	l.y = make([]float64, len(l.rhs))
	for r, b := range l.basis {
		if c := l.cost[b]; c != 0 {
			for i, v := range l.inverse[r] {
				l.y[i] += c * v
			}
		}
	}
}

// enter returns the column that saves most, or the first that saves anything (Bland's rule, against going in circles).
func (l *linear) enter(first bool) int {
	best, at := -least, -1
	for j := range l.cost {
		if l.basic[j] {
			continue
		}
		d := l.cost[j]
		for k, i := range l.rows[j] {
			d -= l.y[i] * l.vals[j][k]
		}
		if d < best {
			best, at = d, j
			if first {
				return at
			}
		}
	}
	return at
}

func (l *linear) column(j int) []float64 {
	u := make([]float64, len(l.rhs))
	for r, row := range l.inverse {
		for k, i := range l.rows[j] {
			u[r] += row[i] * l.vals[j][k]
		}
	}
	return u
}

// leave returns the row whose column leaves the basis: of equals the one with the largest pivot, or the lowest number.
func (l *linear) leave(u []float64, first bool) int {
	best, at := math.Inf(1), -1
	for r, v := range u {
		if v <= tiny {
			continue
		}
		q := max(l.x[r], 0) / v
		better := at < 0 || q < best-tiny
		if !better && q <= best+tiny {
			better = first && l.basis[r] < l.basis[at] || !first && v > u[at]
		}
		if better {
			best, at = q, r
		}
	}
	return at
}

func (l *linear) pivot(r, j int, u []float64) {
	l.basic[l.basis[r]], l.basic[j] = false, true
	l.basis[r] = int32(j)
	if l.pivots++; l.pivots%60 == 0 {
		l.refresh()
		return
	}
	row := l.inverse[r]
	for i := range row {
		row[i] /= u[r]
	}
	l.x[r] = max(l.x[r], 0) / u[r]
	for k := range l.inverse {
		if f := u[k]; k != r && f != 0 {
			for i, v := range row {
				l.inverse[k][i] -= f * v
			}
			l.x[k] -= f * l.x[r]
		}
	}
}

// refresh works the inverse out anew (Gauss and Jordan with the largest pivot), which takes away what rounding has
// gathered.
func (l *linear) refresh() {
	m := len(l.rhs)
	a := make([][]float64, m)
	for i := range a {
		a[i] = make([]float64, 2*m)
		a[i][m+i] = 1
	}
	for r, b := range l.basis {
		for k, i := range l.rows[b] {
			a[i][r] = l.vals[b][k]
		}
	}
	for c := range m {
		p := c
		for i := c + 1; i < m; i++ {
			if math.Abs(a[i][c]) > math.Abs(a[p][c]) {
				p = i
			}
		}
		a[c], a[p] = a[p], a[c]
		eliminate(a, c)
	}
	l.inverse, l.x = make([][]float64, m), make([]float64, m)
	for r := range a {
		l.inverse[r] = a[r][m:]
		for i, v := range l.inverse[r] {
			l.x[r] += v * l.rhs[i]
		}
	}
}

// eliminate makes column c of a the c-th unit vector. A pivot of 0 cannot be in a basis and is left alone.
func eliminate(a [][]float64, c int) {
	d := a[c][c]
	if d == 0 {
		return
	}
	for i := range a[c] {
		a[c][i] /= d
	}
	for k := range a {
		if f := a[k][c]; k != c && f != 0 {
			for i := c; i < len(a[k]); i++ {
				a[k][i] -= f * a[c][i]
			}
		}
	}
}

// value of column j in the solution, and the cost of all.
func (l *linear) solution() (x []float64, cost float64) {
	x = make([]float64, len(l.cost))
	for r, b := range l.basis {
		x[b] = max(l.x[r], 0)
		cost += x[b] * l.cost[b]
	}
	return x, cost
}
