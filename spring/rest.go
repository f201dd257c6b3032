package spring

import (
	"context"
	"math"
	"slices"

	"foldwright/fold"
)

// Rest is a pose in which the card stays by itself.
type Rest struct {
	fold.Balance
	// Standing is the pose as it stands in the room, with its size in millimetres.
	Standing *fold.Opening
	// Crossings lists panels that pass through each other in the pose all the same.
	Crossings []fold.Crossing
	// Touching lists the pairs of panels that lean against each other.
	Touching [][2]int
}

// Rest follows the card from closed to where its folds are in balance: the remembered angles grow from those of the closed
// card, at which nothing is stored, to their own, and the pose goes straight on with them. Panels that would pass through
// each other lean against each other instead. Of several poses in which the card could stay it is the one that it comes to
// when it is let go slowly and guided straight.
//
// The result is not Found where ctx ends the search or nothing balances. It is not Stable where a nudge would move the card
// on, as a row of springs may lean to one side: [Model.Lean] finds where to.
func (s *Model) Rest(ctx context.Context) Rest {
	const start = 0.02
	b := s.Fold.Minimise(ctx, s.grown(start), s.Fold.Ajar(0.05), fold.Hold{})
	if !b.Found {
		b = s.Fold.Seek(s.grown(start)).Least(ctx, s.Fold.Ajar(0.05), fold.Hold{})
	}
	f := s.follow(func(share float64) (fold.Energy, fold.Hold) { return s.grown(share), fold.Hold{} }, start, b.Angles, 1, 12)
	if b.Found {
		b = f.to(ctx, 1)
	}
	return s.standing(ctx, b, f.seek)
}

// standing completes a pose; it is not found once ctx is done.
func (s *Model) standing(ctx context.Context, b fold.Balance, seek *fold.Seeker) Rest {
	if ctx.Err() != nil || b.LoopError > loopError {
		b.Found, b.Stable = false, false
	}
	r := Rest{Balance: b, Standing: s.Fold.Standing(b.Angles), Touching: seek.Touching()}
	r.Crossings = s.Fold.Crossings(ctx, r.Standing)
	return r
}

// Lean finds where the card goes from a rest pose that is not Stable when it is nudged; found is false where nothing near
// balances, and for one that is Stable.
func (s *Model) Lean(ctx context.Context, rest Rest) (lean Rest, found bool) {
	if rest.Stable || !rest.Found {
		return lean, false
	}
	seek := s.Fold.Seek(s.Energy)
	seek.Straight(ctx, rest.Angles, fold.Hold{})
	lean = s.standing(ctx, seek.Least(ctx, rest.Angles, fold.Hold{}), seek)
	return lean, lean.Found && len(lean.Crossings) == 0
}

// grown returns the energy with the remembered angles grown by a share of the way from those of the closed card, at which
// nothing is stored, to their own.
func (s *Model) grown(share float64) fold.Energy {
	e := fold.Energy{K: s.Energy.K, Rest: slices.Clone(s.Fold.Shut)}
	for i, r := range s.Energy.Rest {
		e.Rest[i] += share * (r - e.Rest[i])
	}
	return e
}

// Held returns the balance with the middles of two panels held a distance apart, in millimetres, reached from a pose in
// small steps; its Force is what the card pushes them apart with, in N.
func (s *Model) Held(ctx context.Context, from []float64, panels [2]int, apart float64) fold.Balance {
	const step = 2 // millimetres
	at := s.Fold.Apart(from, panels)
	b := fold.Balance{Angles: slices.Clone(from)}
	n := int(max(1, math.Abs(apart-at)/step+1))
	for k := 1; k <= n; k++ {
		b = s.Fold.Minimise(ctx, s.Energy, b.Angles, fold.Hold{Panels: panels, Apart: at + (apart-at)*float64(k)/float64(n)})
	}
	return b
}
