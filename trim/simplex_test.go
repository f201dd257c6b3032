package trim

import (
	"context"
	"math"
	"testing"

	"pgregory.net/rapid"
)

// TestLinear. Property 5: the solution satisfies the rows, its prices satisfy the columns, and both cost the same (strong
// duality), which proves the optimum without another solver.
func TestLinear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		m, n := rapid.IntRange(1, 8).Draw(t, "rows"), rapid.IntRange(1, 12).Draw(t, "columns")
		rhs, atMost := make([]float64, m), make([]bool, m)
		for i := range rhs {
			rhs[i], atMost[i] = float64(rapid.IntRange(0, 9).Draw(t, "rhs")), rapid.IntRange(0, 3).Draw(t, "atMost") == 0
		}
		l := newLinear(rhs, atMost, 1000)
		for range n {
			var rows []int32
			var vals []float64
			for i := range m {
				if v := rapid.IntRange(0, 4).Draw(t, "a"); v > 0 {
					rows, vals = append(rows, int32(i)), append(vals, float64(v))
				}
			}
			l.add(float64(rapid.IntRange(0, 9).Draw(t, "cost")), rows, vals)
			if !l.solve(context.Background()) {
				t.Fatal("property 5: no end")
			}
		}
		x, cost := l.solution()
		row := make([]float64, m)
		dual := 0.0
		for j := range l.cost {
			d := l.cost[j]
			for k, i := range l.rows[j] {
				row[i] += x[j] * l.vals[j][k]
				d -= l.y[i] * l.vals[j][k]
			}
			if d < -1e-6 || x[j] < 0 {
				t.Fatalf("property 5: column %d could still save %v", j, d)
			}
		}
		for i := range row {
			dual += l.y[i] * rhs[i]
			if math.Abs(row[i]-rhs[i]) > 1e-6 { // the columns of missing, surplus and slack make every row an equation
				t.Fatalf("property 5: row %d is %v, wanted %v", i, row[i], rhs[i])
			}
		}
		if math.Abs(dual-cost) > 1e-6*(1+math.Abs(cost)) {
			t.Fatalf("property 5: cost %v, by the prices %v", cost, dual)
		}
	})
}

// TestProofs. Property 6: the least price is that of trying every number of sheets.
func TestProofs(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var p proofs
		kinds := rapid.IntRange(1, 3).Draw(t, "kinds")
		for range kinds {
			p.price = append(p.price, int64(rapid.IntRange(0, 9).Draw(t, "price")))
			p.quantity = append(p.quantity, int64(rapid.IntRange(0, 6).Draw(t, "quantity")))
		}
		for range rapid.IntRange(1, 3).Draw(t, "rows") {
			holds := make([]int64, kinds)
			for i := range holds {
				holds[i] = int64(rapid.IntRange(0, 9).Draw(t, "holds"))
			}
			p.add(holds, int64(rapid.IntRange(1, 40).Draw(t, "need")))
		}
		want := int64(-1)
		for n := range 7 * 7 * 7 {
			k, price, ok := [3]int64{int64(n % 7), int64(n / 7 % 7), int64(n / 49)}, int64(0), true
			for i := range kinds {
				price += k[i] * p.price[i]
				ok = ok && k[i] <= p.quantity[i]
			}
			for _, r := range p.rows {
				sum := int64(0)
				for i := range kinds {
					sum += k[i] * r.holds[i]
				}
				ok = ok && sum >= r.need
			}
			if ok && (want < 0 || price < want) {
				want = price
			}
		}
		got, ok := p.least(context.Background())
		if ok != (want >= 0) || ok && got != want {
			t.Fatalf("property 6: got %d %v, want %d", got, ok, want)
		}
	})
}
