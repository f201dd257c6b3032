package trim

import (
	"context"
	"fmt"
	"math/rand/v2"

	"foldwright/problem"
)

// trials is how often a plan that may not be the best is cut anew in parts.
const trials = 1500

// Cheapest returns the plan that makes Count of every part at least, out of the sheets there are, for the least price, as
// far as it is found: Value is its price, Bound the price that no plan can beat, and Status is Optimal where the two are
// equal. It goes on until then, until it has tried enough, or until ctx ends; better, if not nil, is called with every
// plan that
// is better than the last. More than Count is made only where sheets are then cut up alike.
func Cheapest(ctx context.Context, j Job, better func(Result)) (Result, problem.List) {
	if l := j.Check(); l.HasErrors() {
		return Result{}, l
	}
	c := &cheapest{master: newMaster(j.plain()), given: j, better: better, luck: rand.New(rand.NewPCG(1, 2))}
	if sum(c.wants()) == 0 {
		return Result{}, nil
	}
	c.begin(ctx)
	c.prove(ctx)
	if c.enough {
		if c.done() || sum(c.wants()) > fewParts { // where much is wanted it finds cheaper plans too
			c.neaten(ctx, c.tries())
		}
		if !c.done() {
			neat := c.best
			c.improve(ctx)
			if neat != nil && c.price(neat) == c.price(c.best) && c.neatness(neat).compare(c.neatness(c.best)) < 0 {
				c.best = neat // plans that are as cheap were only a way to cheaper ones
			}
			c.neaten(ctx, c.tries()/2)
		}
	}
	if c.best == nil {
		return Result{Status: Stopped, Bound: c.bound}, problem.List{c.short(ctx)}
	}
	return c.result(ctx), nil
}

// beginnings is how many plans are made at once before anything is proven, where few parts are wanted out of one kind of
// sheet.
const beginnings = 15

// begin makes plans sheet by sheet, the first in any case, and the bound by areas.
func (c *cheapest) begin(ctx context.Context) {
	c.byAreas()
	c.settle(ctx)
	luck := rand.New(rand.NewPCG(3, 4))
	grids, weight := c.coarse(), make([]float64, len(c.job.Parts))
	for i := range weight {
		weight[i] = 1
	}
	for n := 0; n < beginnings && !c.done(); n++ {
		if plan, ok := c.greedy(grids, weight, luck); ok {
			c.offer(plan)
		}
		if ctx.Err() != nil || sum(c.wants()) > fewParts || len(c.job.Sheets) > 1 {
			return
		}
	}
}

type cheapest struct {
	*master
	given  Job // with edges and dust
	better func(Result)
	luck   *rand.Rand
	best   []used
	bound  int64
	enough bool // not proven that the sheets do not suffice
}

func (c *cheapest) offer(plan []used) {
	if c.best != nil && c.price(plan) >= c.price(c.best) {
		return
	}
	c.best = merged(plan)
	if c.better != nil {
		c.better(c.result(context.Background()))
	}
}

func (c *cheapest) done() bool { return c.best != nil && c.price(c.best) <= c.bound }

// prove finds layouts and the bound: by the linear program, and by the one with limited copies.
func (c *cheapest) prove(ctx context.Context) {
	want, left := c.wants(), c.quantities()
	if !c.enough || c.done() {
		return
	}
	if plan, ok := c.dive(ctx, want, left, nil, false, 200); ok {
		c.offer(plan)
	}
	if c.done() {
		return
	}
	r, _ := c.relax(ctx, want, left, false, &c.proofs, 3000)
	c.core = r.layout
	c.settle(ctx)
	if !c.enough || c.done() {
		return
	}
	if plan, ok := c.dive(ctx, want, left, nil, false, 60); ok {
		c.offer(plan)
	}
	if sum(want) <= fewParts && !c.done() {
		c.relax(ctx, want, left, true, &c.proofs, 300)
		c.settle(ctx)
		if plan, ok := c.dive(ctx, want, left, nil, true, 60); ok && !c.done() {
			c.offer(plan)
		}
	}
}

func (c *cheapest) settle(ctx context.Context) {
	v, ok := c.proofs.least(context.WithoutCancel(ctx))
	c.bound, c.enough = max(c.bound, v), ok
}

// byAreas is the proof of areas: a sheet holds no more area than it has; in units of the largest sheet's area / 2³⁰.
func (c *cheapest) byAreas() {
	whole := 0.0
	for _, s := range c.job.Sheets {
		whole = max(whole, float64(area(s.W, s.H)))
	}
	need := 0.0
	for _, p := range c.job.Parts {
		need += float64(area(p.W, p.H)) * float64(p.Count)
	}
	holds := make([]int64, len(c.job.Sheets))
	for i, s := range c.job.Sheets {
		holds[i] = int64(float64(area(s.W, s.H))/whole*(1<<30)*(1+1e-12)) + 1
	}
	if need/whole < 1<<31 {
		c.proofs.add(holds, int64(need/whole*(1<<30)*(1-1e-12)))
	}
}

// improve dives with some luck and cuts parts of the best plan anew.
func (c *cheapest) improve(ctx context.Context) {
	for range trials {
		if ctx.Err() != nil || c.done() {
			return
		}
		if c.best == nil {
			if plan, ok := c.dive(ctx, c.wants(), c.quantities(), c.luck, false, 60); ok {
				c.offer(plan)
			}
			continue
		}
		plan, ok := c.again(ctx, c.best, c.luck)
		if !ok {
			continue
		}
		if c.price(plan) < c.price(c.best) {
			c.offer(plan)
		} else if len(plan) <= len(c.best) {
			c.best = plan // as cheap, and no more ways to cut: somewhere else to go on from
		}
	}
}

func (c *cheapest) result(ctx context.Context) Result {
	r := Result{Value: c.price(c.best), Bound: c.bound, Status: Feasible}
	r.Plan = c.given.real(tidied(c.job, lean(c.job, c.planOf(c.best))))
	switch {
	case r.Value <= r.Bound:
		r.Status = Optimal
	case ctx.Err() != nil:
		r.Status = Stopped
	}
	return r
}

// tries is how often an easier plan is looked for: seldom where there are many kinds of part, and the linear programs large.
func (c *cheapest) tries() int {
	kinds := 1
	for _, p := range c.job.Parts {
		if p.Count > 0 {
			kinds++
		}
	}
	return min(40, 4000/(kinds*kinds))
}

// planOf writes out a plan over layouts of the pool.
func (m *master) planOf(plan []used) (p Plan) {
	for _, u := range plan {
		l := m.pool[u.layout]
		p.Layouts = append(p.Layouts, Layout{Sheet: l.sheet, Times: u.times, Root: l.tree})
	}
	return p
}

// short says that the sheets do not suffice, or that it is not known how they could.
func (c *cheapest) short(ctx context.Context) problem.Problem {
	p := problem.Problem{Rule: "trim-too-few-sheets", What: fmt.Sprintf("no plan was found that makes all %d parts out of the sheets there are", sum(c.wants())),
		Needs: "more sheets, or fewer parts", Try: "let one kind of sheet be bought without limit"}
	if !c.enough {
		p.What = fmt.Sprintf("the sheets there are do not hold all %d parts", sum(c.wants()))
	} else if ctx.Err() != nil {
		p.Needs = "more time, more sheets, or fewer parts"
	}
	return p
}
