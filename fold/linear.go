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
			dot := 0.0
			for c := range n {
				dot += u[c] * v[c]
			}
			for c := range n {
				v[c] -= dot * u[c]
			}
			norms[i] = norm2(v)
		}
	}
}

func norm2(v []float64) float64 {
	s := 0.0
	for _, x := range v {
		s += x * x
	}
	return s
}
