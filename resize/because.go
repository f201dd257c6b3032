package resize

import (
	"context"
	"slices"

	"foldwright/flat"
)

// because lists the conditions that kept the card from its scaled measures: those without any one of which a cheaper card
// would fit. Only conditions that held the search back can be among them.
func (p *conditions) because(ctx context.Context, a answer, released []int) []string {
	if a.cost < costEps {
		return nil
	}
	out := []string{"every cut and score lies on a mark of " + p.say(p.s.marks)}
	for g := range p.groups {
		if !a.used[g] || slices.Contains(released, g) || ctx.Err() != nil {
			continue
		}
		without := func(k int) bool { return k != g && !slices.Contains(released, k) }
		if p.some(ctx, without, a.cost-1e-6*(1+a.cost)) == flat.Solved {
			out = append(out, p.groups[g].words)
		}
	}
	return out
}
