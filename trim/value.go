package trim

import (
	"context"
	"math"

	"foldwright/problem"
)

// MostValue cuts one sheet up so that its parts are worth the most, each at most Most times; Count does not matter. With
// copies unlimited it is exact at once; with limited copies it searches until the best is proven, its memory is full
// (Feasible) or ctx ends (Stopped, with a plan that was found at once if there was no time for more). A sheet that has too
// many different places to cut at is taken on a coarser grid, and the result is then Feasible at best.
func MostValue(ctx context.Context, s Sheet, parts []Part) (Result, problem.List) {
	given := Job{Sheets: []Sheet{s}, Parts: parts}
	if l := given.Check(); l.HasErrors() {
		return Result{}, l
	}
	j := given.plain()
	s = j.Sheets[0]
	r, done := mostValue(ctx, newGrid(s, parts, manyPoints), mostBlocks)
	if !done {
		bound := min(r.Bound, byAreaAlone(s, parts))
		r, _ = mostValue(context.WithoutCancel(ctx), newGrid(s, parts, fewPoints), 2000)
		r.Bound = max(bound, r.Value)
		if r.Value < r.Bound {
			r.Status = Feasible
		}
	}
	if r.Status == Feasible && ctx.Err() != nil {
		r.Status = Stopped
	}
	r.Plan = tidied(j, r.Plan)
	return r, nil
}

// mostValue is MostValue on one grid; false where ctx ended before there was any plan.
func mostValue(ctx context.Context, g *grid, most int) (Result, bool) {
	worth, limit := make([]int64, len(g.parts)), make([]uint16, len(g.parts))
	for i, p := range g.parts {
		worth[i], limit[i] = p.Value, uint16(g.capOf(i))
	}
	t := fill(ctx, g, worth)
	if t == nil {
		return Result{Plan: oneSheet(nil), Bound: byAreaAlone(g.sheet, g.parts)}, false
	}
	tree, r := t.plan(), Result{Value: t.value(), Bound: t.value()}
	if !within(tree, limit) {
		tree, r.Value, r.Bound = limited(ctx, t, limit, 0, most, math.MaxInt)
	}
	r.Plan = oneSheet(tree)
	if g.coarse {
		r.Bound = byAreaAlone(g.sheet, g.parts)
	}
	if r.Value < r.Bound {
		r.Status = Feasible
	}
	return r, tree != nil || ctx.Err() == nil
}

func oneSheet(c *Cut) Plan { return Plan{[]Layout{{Sheet: 0, Times: 1, Root: c}}} }

// within says whether a tree keeps to the limit of every part.
func within(c *Cut, limit []uint16) bool {
	for i, n := range c.made(len(limit)) {
		if n > int(limit[i]) {
			return false
		}
	}
	return true
}

// made returns how many of each of so many parts a tree makes.
func (c *Cut) made(parts int) []int {
	n := make([]int, parts)
	c.count(n)
	return n
}

func (c *Cut) count(n []int) {
	switch {
	case c == nil || c.Kind == Rest:
	case c.Kind == IsPart:
		n[c.Part]++
	default:
		c.First.count(n)
		c.Second.count(n)
	}
}

// byAreaAlone is a bound that needs no search: the worthiest part for its area fills the sheet.
func byAreaAlone(s Sheet, parts []Part) int64 {
	best := 0.0
	for _, p := range parts {
		if p.Fits(s) && p.Most != 0 {
			best = max(best, float64(p.Value)/float64(area(p.W, p.H)))
		}
	}
	return int64(best*float64(area(s.W, s.H))*(1+1e-12)) + 1
}
