package fold

import (
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestRank compares the rank with the singular values that gonum finds, on random matrices made of a chosen number of
// independent rows.
func TestRank(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 12).Draw(t, "columns")
		k := rapid.IntRange(0, n).Draw(t, "independent")
		m := rapid.IntRange(max(k, 1), 15).Draw(t, "rows")
		entry := rapid.Float64Range(-1, 1)
		base := make([]float64, k*n)
		for i := range base {
			base[i] = entry.Draw(t, "base")
		}
		a := make([]float64, m*n)
		for i := range m {
			for r := range k {
				w := entry.Draw(t, "weight")
				for c := range n {
					a[i*n+c] += w * base[r*n+c]
				}
			}
		}
		var svd mat.SVD
		if !svd.Factorize(mat.NewDense(m, n, append([]float64{}, a...)), mat.SVDNone) {
			t.Fatal("gonum finds no singular values")
		}
		values := svd.Values(nil)
		want, unclear := 0, false
		for _, v := range values {
			if v > 1e-6*values[0] {
				want++
			}
			unclear = unclear || v > 1e-9*values[0] && v < 1e-3*values[0]
		}
		if unclear || values[0] < 1e-6 {
			return // neither dependent nor independent: either answer is right
		}
		if got := rank(a, m, n, rankTolerance); got != want {
			t.Fatalf("rank: got %d, want %d (singular values %v)", got, want, values)
		}
	})
}
