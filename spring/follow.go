package spring

import (
	"context"
	"math"

	"foldwright/fold"
)

// follower goes from balance to balance as one number grows or falls: a distance that is held, or a share of the
// remembered angles.
type follower struct {
	seek *fold.Seeker
	// at says what is asked at a number.
	at func(t float64) (fold.Energy, fold.Hold)
	// ts and xs are the last poses, the newest last; stable is that of the newest.
	ts     []float64
	xs     [][]float64
	stable bool
	// reach is how far the next step leads, most its bound.
	reach, most float64
	// falls counts how often there was no straight way on, so that the card came to another pose.
	falls int
}

// follow sets a follower on a pose at a number; its steps lead at most as far as a share of the span.
func (s *Model) follow(at func(t float64) (fold.Energy, fold.Hold), t float64, x []float64, span, fewest float64) *follower {
	most := math.Abs(span) / fewest
	return &follower{seek: s.Fold.Seek(s.Energy), at: at, ts: []float64{t}, xs: [][]float64{x}, stable: true, reach: most, most: most}
}

// Poses count as going on from each other where a step ends no further, in radians, from where it was expected than
// offTheWay; below onTheWay the next step is longer. Steps are halved so often before the card falls, and fall so often.
const (
	offTheWay = 0.08
	onTheWay  = 0.02
	halvings  = 9
	mostFalls = 12
)

// to goes on to a number, straight, in as many steps as that takes, and returns the balance there. Where there is no
// straight way on, the card falls to the balance that it finds downhill. The result is not Found where it finds none.
func (f *follower) to(ctx context.Context, t float64) fold.Balance {
	b := fold.Balance{Angles: f.xs[len(f.xs)-1]}
	for ctx.Err() == nil {
		last := f.ts[len(f.ts)-1]
		next := last + min(max(t-last, -f.reach), f.reach)
		guess := f.guess(next)
		e, hold := f.at(next)
		f.seek.Change(e)
		b = f.seek.Straight(ctx, guess, hold)
		off := mostTurned(b.Angles, guess)
		if len(f.ts) < 2 {
			off /= 3 // nothing is known of the way yet
		}
		if !b.Found || b.LoopError > loopError || off > offTheWay {
			if f.reach = math.Abs(next-last) / 2; f.reach*float64(int(1)<<halvings) > f.most {
				continue
			}
			if b = f.fall(ctx, next, hold); !b.Found {
				return b
			}
		} else {
			f.note(next, b)
			if off < onTheWay {
				f.reach = min(2*f.reach, f.most)
			}
		}
		if next == t {
			return b
		}
	}
	b.Found, b.Stable = false, false
	return b
}

// fall goes downhill from the last pose.
func (f *follower) fall(ctx context.Context, t float64, hold fold.Hold) fold.Balance {
	f.falls++
	b := f.seek.Least(ctx, f.xs[len(f.xs)-1], hold)
	if b.LoopError > loopError || f.falls > mostFalls {
		b.Found, b.Stable = false, false
	}
	if b.Found {
		if mostTurned(b.Angles, f.xs[len(f.xs)-1]) > offTheWay {
			f.ts, f.xs = nil, nil
		}
		f.note(t, b)
		f.reach = f.most / 4
	}
	return b
}

// note adds a pose to those that the next one goes on from.
func (f *follower) note(t float64, b fold.Balance) {
	f.ts, f.xs, f.stable = append(f.ts, t), append(f.xs, b.Angles), b.Stable
	if n := len(f.ts); n > 3 {
		f.ts, f.xs = f.ts[n-3:], f.xs[n-3:]
	}
}

// guess continues the last poses to a number: by the parabola through three of them, the line through two.
func (f *follower) guess(t float64) []float64 {
	x := make([]float64, len(f.xs[0]))
	for i, ti := range f.ts {
		weight := 1.0
		for j, tj := range f.ts {
			if j != i {
				weight *= (t - tj) / (ti - tj)
			}
		}
		for k, v := range f.xs[i] {
			x[k] += weight * v
		}
	}
	return x
}

// mostTurned returns by how much the fold that turned most differs between two poses.
func mostTurned(x, y []float64) float64 {
	most := 0.0
	for i := range x {
		most = max(most, math.Abs(x[i]-y[i]))
	}
	return most
}
