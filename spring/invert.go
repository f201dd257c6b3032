package spring

import "foldwright/dense"

// invert returns the inverse of a symmetric positive definite n×n matrix, symmetric to the last bit; false where it is not
// one.
func invert(a []float64, n int) ([]float64, bool) {
	out, ok := dense.Inverse(a, n, 0)
	if !ok {
		return nil, false
	}
	for i := range n {
		for j := range i {
			v := (out[i*n+j] + out[j*n+i]) / 2
			out[i*n+j], out[j*n+i] = v, v
		}
	}
	return out, true
}
