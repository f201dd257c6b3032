package dense

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// definite draws a positive definite matrix: the product of a random one with itself, and a tenth on the diagonal.
func definite(t *rapid.T) (a []float64, n int) {
	n = rapid.IntRange(1, 10).Draw(t, "n")
	j := make([]float64, n*n)
	for i := range j {
		j[i] = rapid.Float64Range(-1, 1).Draw(t, "entry")
	}
	a = make([]float64, n*n)
	for i := range n {
		for c := range n {
			for k := range n {
				a[i*n+c] += j[k*n+i] * j[k*n+c]
			}
		}
		a[i*n+i] += 0.1
	}
	return a, n
}

// TestCholesky compares solutions with gonum's.
func TestCholesky(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, n := definite(t)
		b := make([]float64, n)
		for i := range b {
			b[i] = rapid.Float64Range(-1, 1).Draw(t, "right")
		}
		var want mat.VecDense
		if err := want.SolveVec(mat.NewDense(n, n, slices.Clone(a)), mat.NewVecDense(n, slices.Clone(b))); err != nil {
			t.Skip("gonum calls it nearly singular")
		}
		if !Factor(a, n, 0) {
			t.Fatal("not positive definite")
		}
		Solve(a, n, b)
		for i, got := range b {
			if math.Abs(got-want.AtVec(i)) > 1e-9 {
				t.Fatalf("x[%d]: got %g, want %g", i, got, want.AtVec(i))
			}
		}
	})
}

// TestInverse compares inverses with gonum's, and sees that the matrix is left alone.
func TestInverse(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, n := definite(t)
		before := slices.Clone(a)
		var want mat.Dense
		if err := want.Inverse(mat.NewDense(n, n, slices.Clone(a))); err != nil {
			t.Skip("gonum calls it nearly singular")
		}
		got, ok := Inverse(a, n, 0)
		if !ok {
			t.Fatal("not positive definite")
		}
		for i, v := range got {
			if w := want.At(i/n, i%n); math.Abs(v-w) > 1e-9 {
				t.Fatalf("entry %d, %d: got %g, want %g", i/n, i%n, v, w)
			}
		}
		if !slices.Equal(a, before) {
			t.Fatal("the matrix has changed")
		}
	})
}

func TestRefuses(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	for _, test := range []struct {
		a     []float64
		least float64
		want  bool
	}{
		{[]float64{2, 1, 1, 2}, 0, true},
		{[]float64{1, 2, 2, 1}, 0, false},
		{[]float64{1, 1, 1, 1}, 0, false},
		{[]float64{0}, 0, false},
		{[]float64{-1}, 0, false},
		{[]float64{inf}, 0, false},
		{[]float64{nan}, 0, false},
		{[]float64{1e-13}, 0, true},
		{[]float64{1e-13}, 1e-12, false},
		{[]float64{1, 1, 1, 1 + 1e-12}, 0, true},
		{[]float64{1, 1, 1, 1 + 1e-12}, 1e-12, false},
		{nil, 0, true},
	} {
		n := int(math.Sqrt(float64(len(test.a))))
		if _, ok := Inverse(test.a, n, test.least); ok != test.want {
			t.Errorf("%v with least %g: got %v", test.a, test.least, ok)
		}
	}
}
