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
	// Helped says that the card is only so straight with a hand that keeps the two halves of each spring alike: free, they
	// would not be.
	Helped bool
	// guide keeps folds alike that are alike (see guides).
	guide []float64
}

// Rest follows the card from closed to where its folds are in balance: the remembered angles grow from those of the closed
// card, at which nothing is stored, to their own, and the pose goes straight on with them. Panels that would pass through
// each other lean against each other instead. Of several poses in which the card could stay it is the one that it comes to
// when it is let go slowly and guided straight.
//
// The result is not Found where ctx ends the search or nothing balances. It is not Stable where a nudge would move the card
// on, as a row of springs may lean to one side: [Model.Lean] finds where to.
func (s *Model) Rest(ctx context.Context) Rest {
	const start = 0.05
	b := s.Fold.Minimise(ctx, s.grown(start), s.Fold.Ajar(0.05), fold.Hold{})
	if !b.Found {
		b = s.Fold.Seek(s.grown(start)).Least(ctx, s.Fold.Ajar(0.05), fold.Hold{})
	}
	if !b.Found {
		return s.standing(ctx, b, s.Fold.Seek(s.Energy))
	}
	var r Rest
	for _, try := range s.tries(b.Angles) {
		f := s.follow(func(share float64) (fold.Energy, fold.Hold) {
			e := s.grown(share)
			e.Guide = try.guide
			return e, fold.Hold{}
		}, start, b.Angles, 1, 12)
		r = s.standing(ctx, f.to(ctx, 1), f.seek)
		r.guide = try.guide
		stray := s.stray(r.guide, r.Angles)
		if r.Helped = stray > straight; r.Found && stray <= try.most && f.falls <= try.falls {
			break
		}
	}
	return r
}

// try is a guide, with what it may have to do at most (see stray) and how often the card may fall on its way.
type try struct {
	guide []float64
	most  float64
	falls int
}

// What a guide does where it has nothing to do, by rounding; what it may do for a row of springs that leans on the wall
// beside it, which pushes the halves of a spring unequally.
const (
	straight = 1e-3
	helped   = 0.3
)

// tries lists the guides to be tried one after the other, until one leads to rest: by place in the card; none, if the card
// does not fall; by place in the piece; none.
func (s *Model) tries(x []float64) []try {
	return []try{{s.guides(x, false), straight, mostFalls}, {}, {s.guides(x, true), helped, mostFalls}, {falls: mostFalls}}
}

// stray returns the largest torque of a guide on a fold in a pose, as a share of the largest of a fold in the closed card.
func (s *Model) stray(guide, x []float64) float64 {
	if guide == nil {
		return 0
	}
	n, most, all := len(x), 0.0, 0.0
	for i := range n {
		torque, guided := 0.0, 0.0
		for j := range n {
			torque += s.Energy.K[i*n+j] * (s.Fold.Shut[j] - s.Energy.Rest[j])
			guided += guide[i*n+j] * x[j]
		}
		most, all = max(most, math.Abs(guided)), max(all, math.Abs(torque))
	}
	return most / all
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

// grown returns the energy with the remembered angles grown from those of the closed card, at which nothing is stored, to
// their own: all at the same pace, so that the last to grow are the springs of folds that were barely pressed, when the
// rest of the card already has its shape. share 1 is where all have come to their own.
func (s *Model) grown(share float64) fold.Energy {
	e := fold.Energy{K: s.Energy.K, Rest: slices.Clone(s.Fold.Shut)}
	most := 0.0
	for i, r := range s.Energy.Rest {
		most = max(most, math.Abs(r-e.Rest[i]))
	}
	for i, r := range s.Energy.Rest {
		way := r - e.Rest[i]
		e.Rest[i] += math.Copysign(min(share*most, math.Abs(way)), way)
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
