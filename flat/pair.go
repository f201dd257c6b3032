package flat

import (
	"cmp"
	"context"
	"math"
	"slices"

	"foldwright/pattern"
)

// Limits of the search for pairs.
const (
	pairMisses = 12
	pairTries  = 60
	pairMost   = 6
)

// Pairs looks for two measurements whose change together makes the card lie flat, both on marks of the ruler, smallest
// changes first; each pair was proven. Call it where [Explain] found no single one.
func Pairs(ctx context.Context, a *pattern.Assembly) [][2]Cure {
	s := newSearcher(ctx, a, Slack)
	s.accept = func(c *candidate) bool { return c.miss > slanted }
	near := s.candidates()
	near = near[:min(len(near), pairMisses)]
	trials := s.trials()
	var found [][2]Cure
	for _, c := range near {
		if ctx.Err() != nil {
			return nil
		}
		found = append(found, s.pairs(s.foldedOf(c), trials)...)
	}
	slices.SortStableFunc(found, func(x, y [2]Cure) int {
		return cmp.Or(
			cmp.Compare(x[0].Change().Abs()+x[1].Change().Abs(), y[0].Change().Abs()+y[1].Change().Abs()),
			cmp.Compare(x[0].Kind+x[1].Kind, y[0].Kind+y[1].Kind))
	})
	return s.provenPairs(found)
}

// pairs solves for the changes of every two measurements on one near miss.
func (s *searcher) pairs(folded []bool, trials []trial) [][2]Cure {
	before := flatten(Misses(s.a, folded, s.relay(s.a, folded)))
	if before == nil {
		return nil
	}
	slopes := make([][]float64, len(trials))
	for i, t := range trials {
		after := flatten(Misses(t.changed, folded, s.relay(t.changed, folded)))
		if after == nil {
			continue
		}
		for k := range after {
			after[k] = (after[k] - before[k]) / float64(trialStep)
		}
		slopes[i] = after
	}
	var out [][2]Cure
	marks := s.a.Card.Marks
	for i := range trials {
		for j := range i {
			if slopes[i] == nil || slopes[j] == nil {
				continue
			}
			d, e, ok := closingPair(before, slopes[i], slopes[j])
			if !ok {
				continue
			}
			x, y := trials[j].cure, trials[i].cure
			x.To, y.To = x.From+nearest(e), y.From+nearest(d)
			small := x.Change().Abs() <= Slack && y.Change().Abs() <= Slack
			if small && x.To.OnMark(marks) && y.To.OnMark(marks) {
				out = append(out, [2]Cure{x, y})
			}
		}
	}
	return out
}

// flatten lists the misses of all joints, across and up; nil where one is turned the wrong way.
func flatten(m [][2]float64) []float64 {
	var out []float64
	for _, v := range m {
		if math.IsNaN(v[0]) || math.IsNaN(v[1]) {
			return nil
		}
		out = append(out, v[0], v[1])
	}
	return out
}

// closingPair solves gap + d s + e t = 0 by least squares; ok where that closes every gap and both changes are needed.
func closingPair(gap, s, t []float64) (d, e float64, ok bool) {
	var ss, st, tt, gs, gt float64
	for k := range gap {
		ss += s[k] * s[k]
		st += s[k] * t[k]
		tt += t[k] * t[k]
		gs += gap[k] * s[k]
		gt += gap[k] * t[k]
	}
	det := ss*tt - st*st
	if det < 1e-9*(1+ss*tt) {
		return 0, 0, false
	}
	d, e = (-gs*tt+gt*st)/det, (-gt*ss+gs*st)/det
	if math.Abs(d) < 0.5 || math.Abs(e) < 0.5 {
		return 0, 0, false
	}
	for k := range gap {
		if math.Abs(gap[k]+d*s[k]+e*t[k]) > slanted {
			return 0, 0, false
		}
	}
	return d, e, true
}

func (s *searcher) provenPairs(pairs [][2]Cure) [][2]Cure {
	var kept [][2]Cure
	seen := make(map[[2]Cure]bool)
	tries := 0
	for _, p := range pairs {
		if len(kept) == pairMost || tries == pairTries || s.ctx.Err() != nil {
			break
		}
		if seen[p] {
			continue // another near miss asked for the same
		}
		seen[p] = true
		tries++
		if s.closing(p[1].Apply(p[0].Apply(s.a.Card))) != nil {
			kept = append(kept, p)
		}
	}
	return kept
}
