package spring

import (
	"context"
	"slices"

	"foldwright/fold"
)

// follower goes from pose to pose and remembers which panels lean against each other.
type follower struct {
	s     *Model
	last  []float64 // the pose before
	touch []fold.Contact
}

// Contacts further apart than this, in millimetres, are forgotten; they are found again when they matter.
const farApart = 0.5

// to finds the balance near x, with panels that would pass through each other held on the sides where they were in the pose
// before. Where that has no balance the result is one without them, so that panels do cross there.
func (f *follower) to(ctx context.Context, e fold.Energy, x []float64, hold fold.Hold) fold.Balance {
	m := f.s.Fold
	hold.Touch = f.touch
	b := m.Minimise(ctx, e, x, hold)
	if !b.Found && len(f.touch) > 0 {
		hold.Touch = nil
		b = m.Minimise(ctx, e, x, hold)
	}
	const rounds = 12
	good := b
	for round := range rounds {
		// Where the card would go through itself the search may not settle at first; what it meets on the way counts as well.
		if !good.Found && (round > 0 || good.LoopError > 1) || ctx.Err() != nil {
			break
		}
		more := m.Touching(m.Crossings(ctx, m.Standing(good.Angles)), f.last, good.Angles)
		more = slices.DeleteFunc(more, func(c fold.Contact) bool { return slices.Contains(hold.Touch, c) })
		if len(more) == 0 {
			b = good
			break
		}
		hold.Touch = append(slices.Clone(hold.Touch), more...)
		good = m.Minimise(ctx, e, f.last, hold)
	}
	f.last = b.Angles
	f.touch = slices.DeleteFunc(slices.Clone(hold.Touch), func(c fold.Contact) bool { g := m.Gap(c, b.Angles); return g > farApart || g < -farApart })
	return b
}
