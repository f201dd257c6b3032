package proof

import (
	"context"

	"foldwright/card"
	"foldwright/flat"
)

// mostPanels is how large a card may be for its cures to be proven one by one: that takes as long as a proof for each.
const mostPanels = 60

// explain looks for what keeps the card from lying flat, and puts the cures with which it is proven, and does not only lie
// flat, first.
func (r *Report) explain(ctx context.Context, proving bool) {
	if r.Stopped {
		return
	}
	r.Miss = flat.Explain(ctx, r.Assembly)
	if !proving || len(r.Assembly.Panels) > mostPanels {
		return
	}
	var cures [2][]flat.Cure // that prove, and that do not
	for _, c := range r.Miss.Cures {
		if r.provenWith(ctx, c) {
			cures[0] = append(cures[0], c)
		} else {
			cures[1] = append(cures[1], c)
		}
	}
	r.Proving = make([]bool, len(r.Miss.Cures))
	for i := range cures[0] {
		r.Proving[i] = true
	}
	r.Miss.Cures = append(cures[0], cures[1]...)
}

// provenWith says whether the card is proven once a cure is applied.
func (r *Report) provenWith(ctx context.Context, c flat.Cure) bool {
	changed := &Report{File: r.File, Card: c.Apply(r.Card)}
	if changed.Problems = card.Check(changed.Card); !changed.Problems.HasErrors() {
		changed.check(ctx, false)
	}
	return changed.Proven()
}
