package spring

import "math"

// invert returns the inverse of a symmetric positive definite n×n matrix; false where it is not one. a is overwritten.
func invert(a []float64, n int) ([]float64, bool) {
	for j := range n {
		d := a[j*n+j]
		for k := range j {
			d -= a[j*n+k] * a[j*n+k]
		}
		if !(d > 0) || math.IsInf(d, 0) {
			return nil, false
		}
		d = math.Sqrt(d)
		a[j*n+j] = d
		for i := j + 1; i < n; i++ {
			s := a[i*n+j]
			for k := range j {
				s -= a[i*n+k] * a[j*n+k]
			}
			a[i*n+j] = s / d
		}
	}
	out := make([]float64, n*n)
	col := make([]float64, n)
	for c := range n {
		clear(col)
		col[c] = 1
		for i := c; i < n; i++ {
			s := col[i]
			for k := c; k < i; k++ {
				s -= a[i*n+k] * col[k]
			}
			col[i] = s / a[i*n+i]
		}
		for i := n - 1; i >= 0; i-- {
			s := col[i]
			for k := i + 1; k < n; k++ {
				s -= a[k*n+i] * col[k]
			}
			col[i] = s / a[i*n+i]
		}
		for i := range n {
			out[i*n+c] = col[i]
		}
	}
	for i := range n { // symmetric to the last bit
		for j := range i {
			v := (out[i*n+j] + out[j*n+i]) / 2
			out[i*n+j], out[j*n+i] = v, v
		}
	}
	return out, true
}
