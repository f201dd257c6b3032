package trim

import (
	"context"
	"math/rand/v2"
	"slices"
)

// used is a layout of the pool and how many sheets are cut up that way.
type used struct{ layout, times int }

// fewParts is the most parts still wanted for which layouts with limited copies are looked for.
const fewParts = 300

// dive turns the linear program into whole sheets: what it uses whole is taken, or, where nothing is, one sheet of the
// layout that it uses
// most, with a little chance from luck (nil: none); then the program of what is still wanted is solved again. If hard,
// every layout is searched for as for a proof. It returns false where ctx
// ended or the sheets do not suffice.
func (m *master) dive(ctx context.Context, want, left []int, luck *rand.Rand, hard bool, rounds int) ([]used, bool) {
	var to *proofs
	if hard {
		to = &proofs{} // looks harder for layouts; what it proves holds for this rest only
	}
	want, left = slices.Clone(want), slices.Clone(left)
	var out []used
	for sum(want) > 0 {
		r, ok := m.relax(ctx, want, left, sum(want) <= fewParts, to, rounds)
		if !ok {
			return nil, false
		}
		best, at, any := 0.0, -1, false
		for i, k := range r.layout {
			if n := m.apply(k, int(r.times[i]+1e-6), want, left); n > 0 {
				out, any = append(out, used{k, n}), true
			}
			score := r.times[i]
			if luck != nil {
				score += 0.5 * luck.Float64()
			}
			if score > best && left[m.pool[k].sheet] != 0 {
				best, at = score, k
			}
		}
		if any {
			continue
		}
		if at < 0 {
			return nil, false
		}
		n := m.apply(at, 1, want, left)
		if n == 0 {
			return nil, false
		}
		out = append(out, used{at, n})
	}
	return out, true
}

// apply takes layout k as often as times, as it helps and as there are sheets; it returns how often.
func (m *master) apply(k, times int, want, left []int) int {
	l := m.pool[k]
	helps := 0
	for i, n := range l.made {
		if n > 0 && want[i] > 0 {
			helps = max(helps, (want[i]+int(n)-1)/int(n))
		}
	}
	times = min(times, helps)
	if left[l.sheet] != Unlimited {
		times = min(times, left[l.sheet])
		left[l.sheet] -= times
	}
	for i, n := range l.made {
		want[i] = max(0, want[i]-times*int(n))
	}
	return times
}

func sum(n []int) (s int) {
	for _, v := range n {
		s += v
	}
	return s
}

func (m *master) price(plan []used) (p int64) {
	for _, u := range plan {
		p += int64(u.times) * m.job.Sheets[m.pool[u.layout].sheet].Price
	}
	return p
}

// merged adds up equal layouts.
func merged(plan []used) []used {
	var out []used
	at := map[int]int{}
	for _, u := range plan {
		if i, ok := at[u.layout]; ok {
			out[i].times += u.times
			continue
		}
		at[u.layout] = len(out)
		out = append(out, u)
	}
	return out
}

// again takes a few sheets out of a plan and cuts what they made anew: the new plan, never dearer, or false.
func (m *master) again(ctx context.Context, plan []used, luck *rand.Rand) ([]used, bool) {
	want, left := m.wants(), m.quantities()
	total := 0
	for _, u := range plan {
		total += u.times
	}
	keep := slices.Clone(plan)
	out := 2 + luck.IntN(6)
	if luck.IntN(2) == 0 {
		out = 2 + luck.IntN(6+total/8)
	}
	out = min(out, total)
	price := int64(0)
	for range out {
		k := luck.IntN(total)
		total--
		for i := range keep {
			if k -= keep[i].times; k < 0 {
				keep[i].times--
				price += m.job.Sheets[m.pool[keep[i].layout].sheet].Price
				break
			}
		}
	}
	keep = slices.DeleteFunc(keep, func(u used) bool { return u.times == 0 })
	for _, u := range keep {
		m.apply(u.layout, u.times, want, left)
	}
	rounds := 0 // no new layouts: many quick trials to one slow one
	if luck.IntN(8) == 0 {
		rounds = 30
	}
	more, ok := m.dive(ctx, want, left, luck, false, rounds)
	if !ok || m.price(more) > price {
		return nil, false
	}
	return merged(append(keep, more...)), true
}

func (m *master) wants() []int {
	out := make([]int, len(m.job.Parts))
	for i, p := range m.job.Parts {
		out[i] = p.Count
	}
	return out
}

func (m *master) quantities() []int {
	out := make([]int, len(m.job.Sheets))
	for i, s := range m.job.Sheets {
		out[i] = s.Quantity
	}
	return out
}

// coarse returns a grid of every kind of sheet with few places to cut at.
func (m *master) coarse() []*grid {
	grids := make([]*grid, len(m.job.Sheets))
	for i, s := range m.job.Sheets {
		grids[i] = newGrid(s, wanted(m.job.Parts), fewPoints)
	}
	return grids
}

// greedy fills one sheet after the other, the best area for its price first: a plan at once, or false where the
// sheets do not suffice that way. A part counts with its area times its weight; weights are then moved towards parts
// that came to lie
// on sheets with much waste, so that another run takes those earlier (sequential value correction, Mukhacheva, from
// memory).
func (m *master) greedy(grids []*grid, weight []float64, luck *rand.Rand) ([]used, bool) {
	want, left := m.wants(), m.quantities()
	var out []used
	for sum(want) > 0 {
		best, sheet, tree := -1.0, 0, (*Cut)(nil)
		for s, g := range grids {
			if left[s] == 0 {
				continue
			}
			found, value := g.greedy(m.job.Parts, want, weight, m.job.Sheets[s])
			if score := float64(value) / (float64(m.job.Sheets[s].Price) + 1e-3); value > 0 && score > best {
				best, sheet, tree = score, s, found
			}
		}
		if tree == nil {
			return nil, false
		}
		k, _ := m.take(sheet, tree)
		m.correct(k, weight, luck)
		n := m.apply(k, max(1, m.whole(k, want)), want, left)
		if n == 0 {
			return nil, false
		}
		out = append(out, used{k, n})
	}
	return merged(out), true
}

// correct moves the weights of the parts of layout k towards the sheet's area over theirs, with a little luck.
func (m *master) correct(k int, weight []float64, luck *rand.Rand) {
	l, full := m.pool[k], 0.0
	s := m.job.Sheets[l.sheet]
	for i, n := range l.made {
		full += float64(n) * float64(area(m.job.Parts[i].W, m.job.Parts[i].H))
	}
	for i, n := range l.made {
		if n > 0 {
			weight[i] = 0.6*weight[i] + 0.4*(0.9+0.2*luck.Float64())*float64(area(s.W, s.H))/full
		}
	}
}

// whole is how often layout k can be used without making more than is wanted.
func (m *master) whole(k int, want []int) int {
	n := MostParts
	for i, made := range m.pool[k].made {
		if made > 0 {
			n = min(n, want[i]/int(made))
		}
	}
	return n
}

// greedy returns a tree of parts that are still wanted, as the sheet can be cut, and their weighted area.
func (g *grid) greedy(parts []Part, want []int, weight []float64, s Sheet) (*Cut, int64) {
	worth := make([]int64, len(parts))
	whole := float64(area(g.sheet.W, g.sheet.H))
	for i, p := range parts {
		if want[i] > 0 {
			worth[i] = int64(weight[i]*float64(area(p.W, p.H))/whole*1e9) + 1
		}
	}
	t := fillFor(context.Background(), g, worth, s.trimmer)
	c, v := t.near(context.Background(), want)
	c, ok := s.brought(c)
	if !ok {
		c, v = s.single(t, want)
	}
	return c, int64(float64(v) * whole / 1e12)
}

// single returns the worthiest tree of one part that is still wanted: for a trimmer that cannot cut the better ones.
func (s Sheet) single(t *table, want []int) (best *Cut, value int64) {
	for _, it := range t.g.items {
		if want[it.part] <= 0 || t.worth[it.part] <= value {
			continue
		}
		if c, ok := s.brought(t.g.leaf(it).within(s.W, s.H)); ok {
			best, value = c, t.worth[it.part]
		}
	}
	return best, value
}
