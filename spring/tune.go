package spring

import (
	"context"
	"math"

	"foldwright/length"
)

// Wish is what a tuned card shall have: a depth at rest, or a feel.
type Wish struct {
	// DepthMM is the depth in millimetres; 0 where a feel is wished.
	DepthMM float64
	Feel    Feel
}

// Knob is what may be turned to come near to a wish.
type Knob uint8

const (
	// LeafWidth turns the width of the leaves, in whole marks.
	LeafWidth Knob = iota
	// MiddlePress turns the angle that the folds between leaves remember, in steps of 5 degrees.
	MiddlePress
)

// Tuned is the card that comes nearest to a wish.
type Tuned struct {
	Cure
	// Met says that the wish is met: the feel is the one, or no other setting of the knob comes nearer to the depth, and
	// the depth is within half of what the next settings make of it.
	Met bool
	// Tried is the number of settings that were solved; Complete is false where ctx ended the search.
	Tried    int
	Complete bool
}

// Tune turns one knob of a card's springs until the card comes nearest to a wish. progress is called after each setting
// with how many of them are done; it may be nil. ok is false where the card has no springs that can be turned, or no
// setting has a rest pose.
//
// Method: every setting between what the bounds allow is solved, nearest to the present one first, since one change may
// make a card flip into another pose: the way is not smooth enough to be searched by halves.
func (s *Model) Tune(ctx context.Context, w Wish, k Knob, a *Assumptions, progress func(done, of int)) (best Tuned, ok bool) {
	list := s.settings(k)
	miss := math.Inf(1)
	var depths []float64
	best.Complete = true
	for i, ch := range list {
		if ctx.Err() != nil {
			best.Complete = false
			break
		}
		o, solved := Try(ctx, ch.Card, a)
		if progress != nil {
			progress(i+1, len(list))
		}
		best.Tried++
		if !solved {
			continue
		}
		depths = append(depths, o.DepthMM)
		if m := w.misses(o); m < miss {
			miss, ok = m, true
			best.Cure = Cure{ch.What, ch.Lines, o, ch.Card}
		}
		if miss == 0 {
			break // the nearest setting with the feel
		}
	}
	best.Met = ok && (w.DepthMM == 0 && miss == 0 || w.DepthMM > 0 && miss <= grid(depths, best.DepthMM)/2)
	return best, ok
}

// misses says how far an outcome is from a wish; 0 where it is met.
func (w Wish) misses(o Outcome) float64 {
	if w.DepthMM > 0 {
		return math.Abs(o.DepthMM - w.DepthMM)
	}
	return math.Abs(float64(o.Feel) - float64(w.Feel))
}

// grid returns the distance from a depth to the nearest other one.
func grid(depths []float64, at float64) float64 {
	least := math.Inf(1)
	for _, d := range depths {
		if gap := math.Abs(d - at); gap > 1e-9 {
			least = min(least, gap)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// mostSettings bounds how many settings of a knob are solved.
const mostSettings = 24

// settings lists the settings of a knob, the present one and its neighbours first.
func (s *Model) settings(k Knob) []Change {
	c := s.Fold.Assembly.Card
	springs := s.Springs()
	if len(springs) == 0 {
		return nil
	}
	name := springs[0] // one kind of spring is turned at a time
	out := []Change{{What: "as it is", Card: c}}
	switch k {
	case LeafWidth:
		for n := 1; n <= mostSettings/2; n++ {
			for _, sign := range []int{-1, 1} {
				if ch, ok := Leaves(c, name, pitch(c)*length.Length(sign*n)); ok {
					out = append(out, ch)
				}
			}
		}
	case MiddlePress:
		for deg := 50.0; deg <= 160; deg += 5 {
			if ch, ok := Press(c, name, Between(c, name), deg); ok {
				out = append(out, ch)
			}
		}
	}
	return out
}

// String names the knob.
func (k Knob) String() string { return [...]string{"leaf width", "press of the middle folds"}[k] }
