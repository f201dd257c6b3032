package resize

import (
	"context"

	"foldwright/flat"
)

// because lists the conditions that kept the card from its scaled measures: those without any one of which a cheaper card
// would fit. Only conditions that the card meets narrowly can be among them.
func (p *conditions) because(ctx context.Context, a answer, released []int) []string {
	if a.cost < costEps {
		return nil
	}
	out := []string{"every cut and score lies on a mark of " + p.say(p.s.marks)}
	y := p.free(a.values)
	if y == nil {
		return out
	}
	dropped := func(g int) bool {
		for _, r := range released {
			if r == g {
				return true
			}
		}
		return false
	}
	for g := range p.groups {
		if dropped(g) || !p.narrow(g, y) || ctx.Err() != nil {
			continue
		}
		without := func(k int) bool { return k != g && !dropped(k) }
		if p.some(ctx, without, a.cost-1e-6*(1+a.cost)) == flat.Solved {
			out = append(out, p.groups[g].words)
		}
	}
	return out
}

// narrow says whether a group has an inequality with less than two marks to spare.
func (p *conditions) narrow(g int, y []int64) bool {
	for _, l := range p.lines {
		if l.group != g || l.equal {
			continue
		}
		sum := int64(0)
		for i, v := range l.row {
			sum += v * y[i]
		}
		if sum-l.at < 2*p.scale { // rows may be in parts of a mark
			return true
		}
	}
	return false
}

// free returns the free numbers that give the measures; nil where there are none.
func (p *conditions) free(values []int64) []int64 {
	var equations []equation
	for k, row := range p.basis {
		equations = append(equations, equation{row, values[k]})
	}
	y, _, ok := solveWhole(p.n, equations)
	if !ok {
		return nil
	}
	return y
}
