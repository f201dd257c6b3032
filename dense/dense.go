package dense

import (
	"math"
	"slices"
)

// Factor factors a symmetric positive definite n×n matrix in place; only its lower triangle is read and written. It
// returns false, and leaves a half done, where the matrix is not positive definite: where what is left of a diagonal
// entry d is not above least·(1+d). With a least of 0 every matrix will do that rounding does not make singular.
func Factor(a []float64, n int, least float64) bool {
	for j := range n {
		row := a[j*n : j*n+j]
		d := a[j*n+j]
		limit := least * (1 + d)
		for _, v := range row {
			d -= v * v
		}
		if !(d > limit) || math.IsInf(d, 0) { // written so that NaN is refused
			return false
		}
		d = math.Sqrt(d)
		a[j*n+j] = d
		for i := j + 1; i < n; i++ {
			s := a[i*n+j]
			other := a[i*n : i*n+j]
			for k, v := range row {
				s -= v * other[k]
			}
			a[i*n+j] = s / d
		}
	}
	return true
}

// Solve solves L Lᵀ x = b in place of b, for the L that Factor made.
func Solve(l []float64, n int, b []float64) {
	for i := range n {
		s := b[i]
		for k := range i {
			s -= l[i*n+k] * b[k]
		}
		b[i] = s / l[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		s := b[i]
		for k := i + 1; k < n; k++ {
			s -= l[k*n+i] * b[k]
		}
		b[i] = s / l[i*n+i]
	}
}

// Inverse returns the inverse of a symmetric positive definite matrix, which it leaves as it is; ok and least are those of
// Factor. Rounding may make the two halves of the inverse differ in their last bits.
func Inverse(a []float64, n int, least float64) (inverse []float64, ok bool) {
	l := slices.Clone(a)
	if !Factor(l, n, least) {
		return nil, false
	}
	inverse = make([]float64, n*n)
	column := make([]float64, n)
	for c := range n {
		clear(column)
		column[c] = 1
		Solve(l, n, column)
		for i, v := range column {
			inverse[i*n+c] = v
		}
	}
	return inverse, true
}
