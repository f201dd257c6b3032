package spring

import (
	"context"
	"math"
	"math/rand/v2"
	"slices"

	"foldwright/fold"
)

// Others searches for poses besides known in which the card could also stay, from so many starts that follow from the
// seed: the same seed gives the same poses. They come with the least energy first, each once.
//
// A pose in which panels pass through each other is left out: card cannot get there. Poses in which panels lean against
// each other are not found, since the search does not know that they touch. More starts may find more; ok is false where
// ctx ended the search.
func (s *Model) Others(ctx context.Context, known Rest, starts int, seed uint64) (others []Rest, ok bool) {
	random := rand.New(rand.NewPCG(seed, 0))
	for range starts {
		x := s.start(random, known.Angles)
		b := s.Fold.Minimise(ctx, s.Energy, x, fold.Hold{})
		if ctx.Err() != nil {
			return others, false
		}
		if !b.Found || !b.Stable || b.LoopError > loopError || same(b.Angles, known.Angles) ||
			slices.ContainsFunc(others, func(r Rest) bool { return same(r.Angles, b.Angles) }) {
			continue
		}
		standing := s.Fold.Standing(b.Angles)
		if len(s.Fold.Crossings(ctx, standing)) > 0 {
			continue
		}
		others = append(others, Rest{Balance: b, Standing: standing})
	}
	slices.SortStableFunc(others, func(p, q Rest) int { return cmpFloat(p.Energy, q.Energy) })
	return others, true
}

// loopError is the largest error of a loop in millimetres with which a pose counts as one.
const loopError = 1e-6

// start returns angles to search from. Half of them lie anywhere between the bounds and the pose that is known, the other
// half are that pose with some of its folds turned far: cards that stand in two ways mostly differ in a few folds.
func (s *Model) start(random *rand.Rand, known []float64) []float64 {
	m := s.Fold
	x := slices.Clone(known)
	wild := random.IntN(2) == 0
	for i := range x {
		if wild || random.IntN(4) == 0 {
			x[i] = m.Low[i] + random.Float64()*(m.High[i]-m.Low[i])
		}
		if wild {
			x[i] = (x[i] + known[i]) / 2
		}
	}
	return x
}

// same says whether two poses are one: no fold differs by more than a hundredth of a degree.
func same(x, y []float64) bool { return mostTurned(x, y) <= 0.01*math.Pi/180 }
