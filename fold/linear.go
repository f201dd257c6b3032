package fold

import "math"

// rank returns the number of independent rows of an m×n matrix by Gram-Schmidt with the largest remaining row first. A
// row counts as dependent once what is left of it is below tolerance times the largest row at the start. a is overwritten.
func rank(a []float64, m, n int, tolerance float64) int {
	norms := make([]float64, m)
	largest := 0.0
	for i := range m {
		norms[i] = norm2(a[i*n : (i+1)*n])
		largest = max(largest, norms[i])
	}
	if largest == 0 {
		return 0
	}
	limit := largest * tolerance * tolerance
	done := make([]bool, m)
	for r := 0; ; r++ {
		p := -1
		for i := range m {
			if !done[i] && (p < 0 || norms[i] > norms[p]) {
				p = i
			}
		}
		if p < 0 || norms[p] <= limit {
			return r
		}
		done[p] = true
		u := a[p*n : (p+1)*n]
		k := 1 / math.Sqrt(norms[p])
		for i := range u {
			u[i] *= k
		}
		for i := range m {
			if done[i] {
				continue
			}
			v := a[i*n : (i+1)*n]
			along := dot(u, v)
			for c := range n {
				v[c] -= along * u[c]
			}
			norms[i] = norm2(v)
		}
	}
}

func norm2(v []float64) float64 {
	return dot(v, v)
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// eliminate solves a x = b for any n×n matrix, in place of b (Gauss, largest entry of the column first); a is overwritten.
// It returns false where the matrix is singular to rounding.
func eliminate(a []float64, n int, b []float64) bool {
	for c := range n {
		p := c
		for i := c + 1; i < n; i++ {
			if math.Abs(a[i*n+c]) > math.Abs(a[p*n+c]) {
				p = i
			}
		}
		if !(math.Abs(a[p*n+c]) > 1e-300) { // written so that NaN is refused
			return false
		}
		if p != c {
			b[p], b[c] = b[c], b[p]
			for j := c; j < n; j++ {
				a[p*n+j], a[c*n+j] = a[c*n+j], a[p*n+j]
			}
		}
		top := a[c*n+c+1 : (c+1)*n]
		for i := c + 1; i < n; i++ {
			f := a[i*n+c] / a[c*n+c]
			if f == 0 {
				continue
			}
			row := a[i*n+c+1 : (i+1)*n]
			for j, v := range top {
				row[j] -= f * v
			}
			b[i] -= f * b[c]
		}
	}
	for i := n - 1; i >= 0; i-- {
		b[i] = (b[i] - dot(a[i*n+i+1:(i+1)*n], b[i+1:])) / a[i*n+i]
	}
	return true
}
