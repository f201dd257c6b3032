package flat

import (
	"math"

	"foldwright/pattern"
	"foldwright/plane"
)

// Lay puts the panels of an assembly where a choice of folds puts them: the first panel unmoved, copies placed by the first
// joints that reach them. Loops need not close; see [Misses].
func Lay(a *pattern.Assembly, folded []bool) []plane.Motion {
	s := &searcher{a: a}
	s.plan()
	return s.relay(a, folded)
}

// Misses returns how far, in nanometres, every joint of an assembly and then every hinge misses as it is laid out: a joint
// in the directions of the panel that it is glued on, a hinge in those of the closed card. What a layout was built from
// misses by nothing; what is turned the wrong way has no number (NaN).
func Misses(a *pattern.Assembly, folded []bool, at []plane.Motion) [][2]float64 {
	out := misses(a, at)
	for i, h := range a.Hinges {
		want := at[h.A]
		if folded[i] {
			want = plane.Mirror(h.From, h.To).Then(want)
		}
		dx, dy, ok := gapOf(want, at[h.B], a.Panels[h.B].Panel)
		if !ok {
			dx, dy = math.NaN(), math.NaN()
		}
		out = append(out, [2]float64{dx, dy})
	}
	return out
}
