package trim

import (
	"context"
	"math"
)

// scale turns prices of the linear program, in units of the dearest sheet, into whole numbers.
const scale = 1 << 34

// proofs are what the linear programs have taught about how many sheets are needed. Give every part a worth, any worth:
// a sheet holds at most V of it (found exactly, in whole numbers), the demand is worth D, so sheets counted k must have
// Σ k·V ≥ D. The cheapest whole k that satisfies every such row is a price that no plan can beat; it is often above the
// optimum of the linear
// program, since sheets come in whole numbers (a Chvátal cut where there is one kind of sheet).
type proofs struct {
	price, quantity []int64 // of every kind of sheet; quantity -1: unlimited
	rows            []proof
}

type proof struct {
	holds []int64 // by one sheet of every kind
	need  int64
}

// mostProofs is how many rows are kept; the first, areas, stays.
const mostProofs = 60

func (p *proofs) add(holds []int64, need int64) {
	if need <= 0 {
		return
	}
	if len(p.rows) >= mostProofs {
		copy(p.rows[1:], p.rows[2:])
		p.rows = p.rows[:len(p.rows)-1]
	}
	p.rows = append(p.rows, proof{append([]int64(nil), holds...), need})
}

// least returns the bound; false where no number of sheets satisfies the rows, so that there are not enough. Branch and
// bound over the few kinds of sheet; a limit of nodes ends it with the bound of what is open. Floats are rounded so that
// the bound stays one:
// relative 10⁻⁷.
func (p *proofs) least(ctx context.Context) (int64, bool) {
	if len(p.price) == 1 {
		return p.oneKind()
	}
	low, high := make([]int64, len(p.price)), append([]int64(nil), p.quantity...)
	s := &cover{proofs: p, best: math.Inf(1), open: math.Inf(1), nodes: 300}
	s.branch(ctx, low, high)
	if v := min(s.best, s.open); !math.IsInf(v, 1) {
		return int64(math.Ceil(v*(1-1e-7) - 1e-6)), true
	}
	return 0, false
}

func (p *proofs) oneKind() (int64, bool) {
	k := int64(0)
	for _, r := range p.rows {
		if r.holds[0] <= 0 {
			return 0, false
		}
		k = max(k, (r.need+r.holds[0]-1)/r.holds[0])
	}
	return k * p.price[0], p.quantity[0] < 0 || k <= p.quantity[0]
}

type cover struct {
	*proofs
	best, open float64
	nodes      int
}

func (s *cover) branch(ctx context.Context, low, high []int64) {
	k, v, ok := s.relax(ctx, low, high)
	if !ok {
		return // no sheets satisfy the rows
	}
	if math.Ceil(v*(1-1e-7)-1e-6) >= s.best {
		return
	}
	at, far := -1, 1e-6
	for i, x := range k {
		if f := math.Abs(x - math.Round(x)); f > far {
			at, far = i, f
		}
	}
	if s.nodes--; s.nodes < 0 || ctx.Err() != nil {
		s.open = min(s.open, v)
		return
	}
	if at < 0 {
		s.best = min(s.best, v)
		return
	}
	up := append([]int64(nil), low...)
	up[at] = int64(math.Ceil(k[at]))
	down := append([]int64(nil), high...)
	down[at] = int64(math.Floor(k[at]))
	s.branch(ctx, up, high)
	s.branch(ctx, low, down)
}

// relax is the linear program over k between low and high. Where ctx ends it returns the price of low, which is a bound.
func (s *cover) relax(ctx context.Context, low, high []int64) ([]float64, float64, bool) {
	base := 0.0
	for i := range low {
		base += float64(low[i] * s.price[i])
	}
	var rhs []float64
	var atMost []bool
	cols := make([][]int32, len(low))
	vals := make([][]float64, len(low))
	for _, r := range s.rows {
		need := float64(r.need) * (1 - 1e-9)
		for i, h := range r.holds {
			need -= float64(h) * float64(low[i])
		}
		if need <= 0 {
			continue
		}
		for i, h := range r.holds {
			if h > 0 {
				cols[i], vals[i] = append(cols[i], int32(len(rhs))), append(vals[i], float64(h)/need)
			}
		}
		rhs, atMost = append(rhs, 1), append(atMost, false)
	}
	for i, h := range high {
		if h < low[i] && h >= 0 {
			return nil, 0, false
		}
		if h >= 0 {
			cols[i], vals[i] = append(cols[i], int32(len(rhs))), append(vals[i], 1)
			rhs, atMost = append(rhs, float64(h-low[i])), append(atMost, true)
		}
	}
	total := 1.0
	for i := range s.price {
		total += float64(s.price[i]) * 1e7
	}
	l := newLinear(rhs, atMost, total)
	from := len(l.cost)
	for i := range cols {
		l.add(float64(s.price[i]), cols[i], vals[i])
	}
	if !l.solve(ctx) {
		s.nodes = 0
		return nil, base, true
	}
	x, v := l.solution()
	for j := range rhs {
		if !atMost[j] && x[j] > 1e-7 {
			return nil, 0, false
		}
	}
	k := x[from:]
	for i := range k {
		k[i] += float64(low[i])
	}
	return k, v + base, true
}
