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

// dive turns the linear program into whole sheets: what it uses whole is taken, or, where nothing is, one sheet of the layout that it uses
// most, with a little chance from luck (nil: none); then the program of what is still wanted is solved again. It returns false where ctx
// ended or the sheets do not suffice.
func (m *master) dive(ctx context.Context, want, left []int, luck *rand.Rand, rounds int) ([]used, bool) {
	want, left = slices.Clone(want), slices.Clone(left)
	var out []used
	for sum(want) > 0 {
		r, ok := m.relax(ctx, want, left, sum(want) <= fewParts, nil, rounds)
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
	out := min(total, 2+luck.IntN(6+total/8))
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
	more, ok := m.dive(ctx, want, left, luck, 30)
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

// greedy fills one sheet after the other, the best area for its price first, on a coarse grid: a plan at once, or false where the
// sheets do not suffice that way.
func (m *master) greedy() ([]used, bool) {
	want, left := m.wants(), m.quantities()
	grids := make([]*grid, len(left))
	for i, s := range m.job.Sheets {
		grids[i] = newGrid(s, wanted(m.job.Parts), fewPoints)
	}
	var out []used
	for sum(want) > 0 {
		best, at := -1.0, layout{}
		for s, g := range grids {
			if left[s] == 0 {
				continue
			}
			tree, value := g.greedy(m.job.Parts, want)
			if score := float64(value) / (float64(m.job.Sheets[s].Price) + 1e-3); value > 0 && score > best {
				best, at = score, layout{sheet: s, tree: tree}
			}
		}
		if at.tree == nil {
			return nil, false
		}
		before := len(m.pool)
		m.take(at.sheet, at.tree)
		k := before
		if k == len(m.pool) {
			k = m.find(at)
		}
		n := m.apply(k, max(1, m.whole(k, want)), want, left)
		if n == 0 {
			return nil, false
		}
		out = append(out, used{k, n})
	}
	return merged(out), true
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

// find returns the layout of the pool that makes the same out of the same sheet.
func (m *master) find(l layout) int {
	made := make([]int, len(m.job.Parts))
	count(l.tree, made, 1)
	return slices.IndexFunc(m.pool, func(o layout) bool {
		if o.sheet != l.sheet {
			return false
		}
		for i := range made {
			if int(o.made[i]) != made[i] {
				return false
			}
		}
		return true
	})
}

// greedy returns a tree of parts that are still wanted, and their area in units of the sheet's area / 10⁹.
func (g *grid) greedy(parts []Part, want []int) (*Cut, int64) {
	worth := make([]int64, len(parts))
	whole := float64(area(g.sheet.W, g.sheet.H))
	for i, p := range parts {
		if want[i] > 0 {
			worth[i] = int64(float64(area(p.W, p.H))/whole*1e9) + 1
		}
	}
	t := fill(context.Background(), g, worth)
	c, v := t.near(context.Background(), want)
	return c, int64(float64(v) * whole / 1e12)
}
