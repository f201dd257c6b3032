package resize

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

func times(row, x []int64) (s int64) {
	for i, v := range row {
		s += v * x[i]
	}
	return s
}

func obeys(equations []equation, x []int64) bool {
	for _, e := range equations {
		if times(e.row, x) != e.at {
			return false
		}
	}
	return true
}

// TestSolveWhole: every whole solution in a box, found by trying all, is start + basis z with whole z; and where there is
// none, none is found.
func TestSolveWhole(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3).Draw(t, "n")
		var equations []equation
		for range rapid.IntRange(0, 3).Draw(t, "equations") {
			equations = append(equations, equation{
				rapid.SliceOfN(rapid.Int64Range(-4, 4), n, n).Draw(t, "row"), rapid.Int64Range(-8, 8).Draw(t, "at"),
			})
		}
		start, basis, ok := solveWhole(n, equations)
		var all [][]int64
		box(n, 9, func(x []int64) {
			if obeys(equations, x) {
				all = append(all, slices.Clone(x))
			}
		})
		if !ok {
			none++
			if len(all) > 0 {
				t.Fatalf("no solution of %v, but %v is one", equations, all[0])
			}
			return
		}
		found++
		if !obeys(equations, start) {
			t.Fatalf("%v is no solution of %v", start, equations)
		}
		for _, v := range basis {
			for _, e := range equations {
				if times(e.row, v) != 0 {
					t.Fatalf("the basis vector %v leaves %v", v, e)
				}
			}
		}
		for _, x := range all {
			if !reached(start, basis, x) {
				t.Fatalf("%v solves %v but is not %v + whole multiples of %v", x, equations, start, basis)
			}
		}
	})
	t.Logf("%d systems with a solution, %d without", found, none)
	if !testing.Short() && (found == 0 || none == 0) {
		t.Error("both kinds are to be tried")
	}
}

// box calls f with every whole point of the box from -r to r.
func box(n int, r int64, f func(x []int64)) {
	x := make([]int64, n)
	var walk func(int)
	walk = func(i int) {
		if i == n {
			f(x)
			return
		}
		for x[i] = -r; x[i] <= r; x[i]++ {
			walk(i + 1)
		}
	}
	walk(0)
}

// reached solves for z by least squares, rounds it and puts it in.
func reached(start []int64, basis [][]int64, x []int64) bool {
	rest := make([]int64, len(x))
	for i := range x {
		rest[i] = x[i] - start[i]
	}
	if len(basis) > 0 {
		a, b := mat.NewDense(len(x), len(basis), nil), mat.NewVecDense(len(x), nil)
		for i := range x {
			b.SetVec(i, float64(rest[i]))
			for k, v := range basis {
				a.Set(i, k, float64(v[i]))
			}
		}
		var z mat.VecDense
		if err := z.SolveVec(a, b); err != nil {
			return false
		}
		for k, v := range basis {
			n := int64(math.Round(z.AtVec(k)))
			for i := range rest {
				rest[i] -= n * v[i]
			}
		}
	}
	return !slices.ContainsFunc(rest, func(v int64) bool { return v != 0 })
}

func TestSolveWhole_table(t *testing.T) {
	for _, c := range []struct {
		name      string
		n         int
		equations []equation
		ok        bool
		free      int
	}{
		{"nothing asked", 3, nil, true, 3},
		{"halves of a tube", 4, []equation{{[]int64{1, 1, -1, -1}, 0}}, true, 3},
		{"an odd sum of even numbers", 2, []equation{{[]int64{2, 2}, 5}}, false, 0},
		{"the same twice", 2, []equation{{[]int64{1, 1}, 5}, {[]int64{2, 2}, 10}}, true, 1},
		{"the same twice, unlike", 2, []equation{{[]int64{1, 1}, 5}, {[]int64{2, 2}, 12}}, false, 0},
		{"nothing equals one", 2, []equation{{[]int64{0, 0}, 1}}, false, 0},
		{"nothing equals nothing", 2, []equation{{[]int64{0, 0}, 0}}, true, 2},
		{"everything decided", 2, []equation{{[]int64{1, 1}, 5}, {[]int64{1, -1}, 1}}, true, 0},
		{"too large to be sure", 2, []equation{{[]int64{1 << 41, 1 << 42}, 1 << 41}}, false, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			start, basis, ok := solveWhole(c.n, c.equations)
			if ok != c.ok || ok && (len(basis) != c.free || !obeys(c.equations, start)) {
				t.Errorf("got %v %v %v", start, basis, ok)
			}
		})
	}
}
