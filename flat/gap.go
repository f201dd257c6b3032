package flat

import (
	"math"

	"foldwright/pattern"
	"foldwright/plane"
)

// slanted is how far, in nanometres, a loop may miss that goes over slanted scores: their ends are on whole nanometres,
// so what is folded over them is off by a few times half a nanometre. Level, upright and diagonal scores get none of it.
const slanted = 10.0

// tolerance returns how far the loop through a panel may miss: a quarter of a nanometre, which no whole number reaches,
// where everything is exact.
func tolerance(m plane.Motion) float64 {
	for _, v := range [2]float64{m.XX, m.XY} {
		if v != 0 && v != 1 && v != -1 {
			return slanted
		}
	}
	return 0.25
}

// sameTurn says whether two motions turn and flip alike.
func sameTurn(m, n plane.Motion) bool {
	const eps = 1e-7
	return math.Abs(m.XX-n.XX) < eps && math.Abs(m.XY-n.XY) < eps && math.Abs(m.YX-n.YX) < eps && math.Abs(m.YY-n.YY) < eps
}

// gapOf returns how far the middle of panel p lands from where it should, in the directions of the closed card and in
// nanometres; ok is false where it is turned or faces the wrong way.
func gapOf(want, is plane.Motion, p *pattern.Panel) (dx, dy float64, ok bool) {
	if !sameTurn(want, is) {
		return 0, 0, false
	}
	x, y := (float64(p.Box.Min.X)+float64(p.Box.Max.X))/2, (float64(p.Box.Min.Y)+float64(p.Box.Max.Y))/2
	wx, wy := want.At(x, y)
	ix, iy := is.At(x, y)
	return ix - wx, iy - wy, true
}
