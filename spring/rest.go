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
	// Crossings lists panels that pass through each other in the pose all the same: real ones lean against each other there,
	// so that the card stands otherwise than said.
	Crossings []fold.Crossing
}

// Rest follows the card from closed to where its folds are in balance: the remembered angles grow from those of the closed
// card, at which nothing is stored, to their own, and the pose of least energy goes with them. Panels that would
// pass through each other lean against each other instead. Of several poses in which
// the card could stay it is the one that it comes to when it is let go slowly.
//
// The result is not Found where ctx ends the search or nothing balances, and not Stable where a nudge would move the card
// on.
func (s *Model) Rest(ctx context.Context) Rest {
	m := s.Fold
	b := fold.Balance{Angles: m.Ajar(0.05)}
	f := &follower{s: s, last: b.Angles}
	const steps = 12
	for k := 1; k <= steps; k++ {
		if ctx.Err() != nil {
			break
		}
		b = f.to(ctx, s.grown(float64(k)/steps), b.Angles, fold.Hold{})
	}
	if ctx.Err() != nil {
		b.Found, b.Stable = false, false
	}
	r := Rest{Balance: b, Standing: m.Standing(b.Angles)}
	r.Crossings = m.Crossings(ctx, r.Standing)
	return r
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
