package resize

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
	"pgregory.net/rapid"
)

// TestMinimise compares the active-set method with trying every set of conditions as equations: the minimum under the
// conditions is the least of those minima that break none.
func TestMinimise(t *testing.T) {
	found, none := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 3).Draw(t, "n")
		number := rapid.IntRange(-5, 5)
		draw := func(name string, k int) []float64 {
			out := make([]float64, k)
			for i := range out {
				out[i] = float64(number.Draw(t, name))
			}
			return out
		}
		var rows [][]float64
		for i := range n { // the cost holds every number, as that of a card does
			row := make([]float64, n)
			row[i] = 1
			rows = append(rows, row)
		}
		for range rapid.IntRange(0, 2).Draw(t, "more costs") {
			rows = append(rows, draw("cost", n))
		}
		f := draw("wish", len(rows))
		var conditions []condition
		for range rapid.IntRange(0, 6).Draw(t, "conditions") {
			conditions = append(conditions, newCondition(draw("condition", n), float64(number.Draw(t, "at"))))
		}
		q, ok := newQuadratic(n, rows, f)
		if !ok {
			t.Fatalf("no problem was made of %v", rows)
		}
		half := len(conditions) / 2
		first, begun := q.minimise(conditions[:half], nil, nil)
		got, ok := q.minimise(conditions, nil, nil)
		want, possible := tryAll(rows, f, conditions)
		if ok != possible {
			t.Fatalf("solved: %v, possible: %v\n%v\n%v\n%v", ok, possible, rows, f, conditions)
		}
		if begun {
			if on, also := q.minimise(conditions[:half], conditions[half:], first); also != ok || ok && math.Abs(q.cost(on.z)-want) > 1e-6*(1+want) {
				t.Fatalf("going on from half of the conditions: %v, want the cost %v", on, want)
			}
		}
		if !ok {
			none++
			return
		}
		found++
		if cost := q.cost(got.z); math.Abs(cost-want) > 1e-6*(1+want) {
			t.Fatalf("cost %v at %v, want %v\n%v\n%v\n%v", cost, got.z, want, rows, f, conditions)
		}
		for _, c := range conditions {
			if dot(c.row, got.z) < c.at-1e-6 {
				t.Fatalf("%v breaks %v", got.z, c)
			}
		}
	})
	t.Logf("%d problems with a solution, %d without", found, none)
	if !testing.Short() && (found == 0 || none == 0) {
		t.Error("both kinds are to be tried")
	}
}

// tryAll returns the least cost under the conditions.
func tryAll(rows [][]float64, f []float64, conditions []condition) (best float64, ok bool) {
	best = math.Inf(1)
	for set := range 1 << len(conditions) {
		var equal []condition
		for i, c := range conditions {
			if set>>i&1 == 1 {
				equal = append(equal, c)
			}
		}
		z := equalMinimum(rows, f, equal)
		if z == nil {
			continue
		}
		broken := false
		for _, c := range conditions {
			broken = broken || dot(c.row, z) < c.at-1e-7
		}
		if !broken {
			best = min(best, costOf(rows, f, z))
		}
	}
	return best, !math.IsInf(best, 1)
}

func costOf(rows [][]float64, f, z []float64) (s float64) {
	for k, row := range rows {
		d := dot(row, z) - f[k]
		s += d * d
	}
	return s
}

// equalMinimum solves the equations of Lagrange; nil where they have no single solution.
func equalMinimum(rows [][]float64, f []float64, equal []condition) []float64 {
	n, m := len(rows[0]), len(equal)
	a, b := mat.NewDense(n+m, n+m, nil), mat.NewVecDense(n+m, nil)
	for k, row := range rows {
		for i := range n {
			b.SetVec(i, b.AtVec(i)+row[i]*f[k])
			for j := range n {
				a.Set(i, j, a.At(i, j)+row[i]*row[j])
			}
		}
	}
	for k, c := range equal {
		b.SetVec(n+k, c.at)
		for i, v := range c.row {
			a.Set(n+k, i, v)
			a.Set(i, n+k, v)
		}
	}
	var z mat.VecDense
	if err := z.SolveVec(a, b); err != nil {
		return nil
	}
	return z.RawVector().Data[:n]
}

func TestNewQuadratic_flat(t *testing.T) {
	if _, ok := newQuadratic(2, [][]float64{{1, 1}}, []float64{3}); ok {
		t.Error("a cost that leaves a direction free was taken")
	}
}
