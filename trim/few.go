package trim

import (
	"cmp"
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"foldwright/length"
)

// How many of the likeliest layouts are tried at a step of a frugal plan, and how many of a layout's sheets a new fence
// weighs: as much as a number of sheets that is larger by so many per cent.
const (
	likely     = 16
	fenceWorth = 0.12
)

// frugal makes a plan of few layouts and few fence settings, or says that it did not find one. It takes one layout after the
// other, rather one that many sheets can be cut up by and that needs no new place of the fence, as long as the linear
// program of what is still wanted says that the rest can be had for what is left of the price. Where no layout allows that,
// it spends more, up to most.
func (m *master) frugal(ctx context.Context, price, most int64, luck *rand.Rand) ([]used, bool) {
	f := &frugal{master: m, want: m.wants(), left: m.quantities(), allowed: float64(price),
		fences: map[length.Length]bool{}, luck: luck}
	more := float64(most - price)
	for sum(f.want) > 0 {
		p, value, ok := m.rest(ctx, f.want, f.left, 0, 4)
		if !ok || value > f.money()+more+f.hair() {
			return nil, false
		}
		if f.step(ctx, p, value) {
			continue
		}
		if more <= 0 || ctx.Err() != nil {
			return nil, false
		}
		extra := min(more, max(1, math.Ceil(float64(most-price)/raises)))
		f.allowed, more = f.allowed+extra, more-extra
	}
	return merged(f.plan), true
}

// raises is in how many steps a frugal plan is allowed to get dearer.
const raises = 8

// money is what may still be spent.
func (f *frugal) money() float64 { return f.allowed - f.spent }

// hair is what rounding may make of a price.
func (f *frugal) hair() float64 { return 1e-6 * (f.allowed + 1) }

type frugal struct {
	*master
	want, left     []int
	allowed, spent float64
	plan           []used
	fences         map[length.Length]bool
	luck           *rand.Rand
}

// choice is a layout that could be next.
type choice struct {
	layout, times int
	score         float64
}

// rest solves the linear program of what is still wanted, and looks for more layouts as long as it costs more than enough;
// its value is in prices of the
// job.
func (m *master) rest(ctx context.Context, want, left []int, enough float64, rounds int) (*program, float64, bool) {
	p := m.program(want, left, sum(want) <= fewParts)
	for range rounds {
		if !p.solve(ctx) {
			return nil, 0, false
		}
		if _, v := p.solution(); v*m.unit <= enough {
			break
		}
		if found, ok := p.price(ctx, m.quickFor(want), nil); !ok || !found {
			break
		}
	}
	if !p.solve(ctx) {
		return nil, 0, false
	}
	_, v := p.solution()
	return p, v * m.unit, true
}

// step takes the next layout.
func (f *frugal) step(ctx context.Context, p *program, value float64) bool {
	f.repeat(ctx, p)
	choices := f.choices(p, f.money()-value)
	for _, c := range choices[:min(likely, len(choices))] {
		want, left := slices.Clone(f.want), slices.Clone(f.left)
		n := f.apply(c.layout, c.times, want, left)
		if n == 0 {
			continue
		}
		cost := float64(n) * float64(f.job.Sheets[f.pool[c.layout].sheet].Price)
		if cost > f.money()+f.hair() {
			continue
		}
		if sum(want) > 0 {
			if _, v, ok := f.rest(ctx, want, left, f.money()-cost, 2); !ok || v+cost > f.money()+f.hair() {
				continue
			}
		}
		f.want, f.left, f.spent = want, left, f.spent+cost
		f.plan = append(f.plan, used{c.layout, n})
		for _, at := range f.pool[c.layout].fences {
			f.fences[at] = true
		}
		return true
	}
	return false
}

// choices returns the layouts that could be next, and how often, without spending more than spare above what the rest costs,
// the best first.
func (f *frugal) choices(p *program, spare float64) []choice {
	x, _ := p.solution()
	var out []choice
	for c, k := range p.layouts {
		l, at := f.pool[k], p.first+c
		score := f.luck.Float64()
		for _, at := range l.fences {
			if !f.fences[at] {
				score -= fenceWorth
			}
		}
		for _, n := range f.often(l, int(x[at]+1e-6)) {
			if f.loss(p, l, n)*f.unit <= spare+f.hair() {
				out = append(out, choice{k, n, score + math.Log(float64(n)) + f.settled(l, n)})
			}
		}
	}
	slices.SortFunc(out, func(a, b choice) int {
		return cmp.Or(cmp.Compare(b.score, a.score), cmp.Compare(a.layout, b.layout), cmp.Compare(a.times, b.times))
	})
	return out
}

// loss is how much dearer the whole gets at least if layout l is used n times: what it costs, less what is worth of what
// it makes and is wanted.
func (f *frugal) loss(p *program, l layout, n int) float64 {
	loss := float64(n) * float64(f.job.Sheets[l.sheet].Price) / f.unit
	if r := p.sheetRow[l.sheet]; r >= 0 {
		loss -= float64(n) * p.y[r]
	}
	for i, made := range l.made {
		if r := p.row[i]; r >= 0 {
			loss -= p.y[r] * float64(min(n*int(made), f.want[i]))
		}
	}
	return loss
}

// often returns how often a layout could be used: so often that nothing is made for nothing, that exactly what is wanted of
// one part is made, or as the linear program does it.
func (f *frugal) often(l layout, times int) (out []int) {
	most := MostParts
	for i, n := range l.made {
		if n > 0 {
			most = min(most, f.want[i]/int(n))
		}
	}
	have := f.left[l.sheet]
	if have == 0 {
		return nil
	}
	if have != Unlimited {
		most = min(most, have)
	}
	out = append(out, max(1, most))
	if times > 1 && times < most {
		out = append(out, times)
	}
	for i, n := range l.made {
		if n := int(n); n > 0 && f.want[i]%n == 0 && f.want[i] > 0 && (have == Unlimited || f.want[i]/n <= have) {
			out = append(out, f.want[i]/n)
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// settled is a score for the parts of which nothing more is wanted after n sheets: what has fewer kinds of part left needs
// fewer layouts.
func (f *frugal) settled(l layout, n int) (score float64) {
	for i, made := range l.made {
		if made > 0 && f.want[i] > 0 && f.want[i] <= n*int(made) {
			score += 0.4
		}
	}
	return score
}

// repeat looks for good layouts that can be used many times: that hold no more of a part than its share of so many sheets.
func (f *frugal) repeat(ctx context.Context, p *program) {
	x, _ := p.solution()
	most := 0.0
	for c := range p.layouts {
		most = max(most, x[p.first+c])
	}
	worth, _ := p.worths()
	for i := range worth { // of layouts that are worth the same, another at every turn
		worth[i] += int64(float64(worth[i]) * 1e-4 * f.luck.Float64())
	}
	for s, g := range f.quickFor(f.want) {
		if f.left[s] == 0 {
			continue
		}
		t := fillFor(ctx, g, worth, f.job.Sheets[s].trimmer)
		if t == nil {
			return
		}
		times := int(most * (0.5 + f.luck.Float64()))
		for range 2 {
			if times < 2 {
				break
			}
			share := make([]int, len(f.want))
			for i, n := range f.want {
				share[i] = n / times
			}
			tree, v := t.near(ctx, share)
			if tree, ok := f.job.Sheets[s].brought(tree); ok && v > 0 {
				if k, fresh := f.take(s, tree); fresh {
					p.use(k)
				}
			}
			times /= 2
		}
	}
}

// surplus is how many settings are as bad as making twice of what is wanted.
const surplus = 20

// neatness is how easily a plan is cut: fewer is better, the first first.
type neatness struct {
	settings int // layouts and places of the fence, and some for what is made beyond what is wanted
	cuts     int
	offcut   int64 // the largest, less than 0
}

func (n neatness) compare(o neatness) int {
	return cmp.Or(cmp.Compare(n.settings, o.settings), cmp.Compare(n.cuts, o.cuts), cmp.Compare(n.offcut, o.offcut))
}

func (c *cheapest) neatness(plan []used) neatness {
	p := tidied(c.job, lean(c.job, c.planOf(plan)))
	a, _ := Audit(c.job, p)
	n := neatness{settings: len(p.Layouts) + a.Fences, cuts: a.Cuts}
	wanted, beyond := 0.0, 0.0
	for i, part := range c.job.Parts {
		wanted += float64(area(part.W, part.H)) * float64(part.Count)
		beyond += float64(area(part.W, part.H)) * float64(a.Made[i]-part.Count)
	}
	n.settings += int(beyond / wanted * surplus)
	for _, o := range a.Offcuts {
		n.offcut = min(n.offcut, -area(o.W, o.H))
	}
	return n
}

// inVain is how many tries without success end the search for neater plans.
const inVain = 12

// neaten looks for plans that are as cheap as the best, or cheaper, and easier to cut.
func (c *cheapest) neaten(ctx context.Context, tries int) {
	if c.best == nil {
		return
	}
	best := c.neatness(c.best)
	for vain := 0; tries > 0 && vain < inVain && ctx.Err() == nil; tries-- {
		vain++
		plan, ok := c.frugal(ctx, min(c.bound, c.price(c.best)), c.price(c.best), c.luck)
		if !ok {
			continue
		}
		neat := c.neatness(plan)
		switch dearer := c.price(plan) - c.price(c.best); {
		case dearer < 0:
			c.offer(plan)
		case dearer > 0 || neat.compare(best) >= 0:
			continue
		}
		c.best, best, vain = plan, neat, 0
	}
}
