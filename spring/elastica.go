package spring

import "math"

// Curve is a strip that is held level at one end and hangs free at the other, bent however far. All is relative to the
// length of the strip, so that it holds for every strip of its Load.
type Curve struct {
	// Load is what bends the strip over what resists: w L³/B for its own weight w per area, P L²/B for a force P per width
	// at the tip; L is the length, B the bending stiffness per width.
	Load float64
	// Drop and Reach are how far the tip lies below the edge and out from it, over the length.
	Drop, Reach float64
	// Tip is the slope at the tip below the horizontal, Chord that of the line from the edge to the tip, in radians.
	Tip, Chord float64
}

// steepest is the largest slope of a tip that is computed, in radians: a strip that hangs straight down says nothing of its
// stiffness.
const steepest = 89.9 * math.Pi / 180

// Sag returns the curve of a strip that bends under its own weight until its tip slopes by tip radians.
// Range: 0 < tip <= 89.9 degrees; what is outside is brought to the nearest end.
// Source: the elastica with its weight as load, B θ″ = -w s cos θ with s from the free end; integrated, so exact up to
// about nine digits.
func Sag(tip float64) Curve { return hang(tip, func(s float64) float64 { return s }, 3) }

// TipLoaded returns the curve of a weightless strip that a dead load at its tip bends until the tip slopes by tip radians.
// Range and accuracy as for [Sag].
// Source: Bisshopp and Drucker 1945, Q. Appl. Math. 3, Large deflection of cantilever beams: B θ″ = -P cos θ.
func TipLoaded(tip float64) Curve { return hang(tip, func(float64) float64 { return 1 }, 2) }

// state is the strip at one place: its slope, its curvature, and how far one has come out and down from the free end.
type state struct{ slope, bend, out, down float64 }

// hang integrates θ″ = -load(s) cos θ from the free end to where the strip is level. In these units of length the load
// over the stiffness is the power of the length that is given.
func hang(tip float64, load func(s float64) float64, power float64) Curve {
	const steps = 300
	tip = min(max(tip, 1e-9), steepest)
	// A little slope is tip·(1 - (s/L)^power), with L^power = power·(power-1)·tip.
	h := math.Pow(power*(power-1)*tip, 1/power) / steps
	at, s := state{slope: tip}, 0.0
	for {
		next := at.step(s, h, load)
		if next.slope <= 0 {
			break
		}
		at, s = next, s+h
	}
	// The last, shorter step ends where the slope is nought: Newton's method on its length.
	part := 0.0
	end := at
	for range 20 {
		change := -end.slope / end.bend
		part += change
		end = at.step(s, part, load)
		if math.Abs(change) < 1e-15*s {
			break
		}
	}
	l := s + part
	return Curve{Load: math.Pow(l, power), Drop: end.down / l, Reach: end.out / l, Tip: tip, Chord: math.Atan2(end.down, end.out)}
}

// step goes on by h with the classic Runge-Kutta formula of fourth order.
func (a state) step(s, h float64, load func(float64) float64) state {
	rate := func(at state, s float64) state {
		sin, cos := math.Sincos(at.slope)
		return state{at.bend, -load(s) * cos, cos, sin}
	}
	k1 := rate(a, s)
	k2 := rate(a.plus(k1, h/2), s+h/2)
	k3 := rate(a.plus(k2, h/2), s+h/2)
	k4 := rate(a.plus(k3, h), s+h)
	return a.plus(k1, h/6).plus(k2, h/3).plus(k3, h/3).plus(k4, h/6)
}

func (a state) plus(r state, h float64) state {
	return state{a.slope + h*r.slope, a.bend + h*r.bend, a.out + h*r.out, a.down + h*r.down}
}

// SagWhere returns the curve of a strip under its own weight for which measure takes a value; measure must grow with the
// slope of the tip, as Load, Drop and Chord do. Values beyond those of the steepest tip give the steepest curve.
func SagWhere(measure func(Curve) float64, value float64) Curve { return where(Sag, measure, value) }

// TipLoadedWhere is SagWhere for a strip with a load at its tip.
func TipLoadedWhere(measure func(Curve) float64, value float64) Curve {
	return where(TipLoaded, measure, value)
}

// where finds the slope of the tip by false position, halving the weight of an end that stays (the Illinois rule).
func where(curve func(float64) Curve, measure func(Curve) float64, value float64) Curve {
	lo, hi := 1e-9, steepest
	cl, ch := curve(lo), curve(hi)
	fl, fh := measure(cl)-value, measure(ch)-value
	switch {
	case !(fl < 0):
		return cl
	case !(fh > 0):
		return ch
	}
	side := 0
	for range 200 {
		mid := (lo*fh - hi*fl) / (fh - fl)
		c := curve(mid)
		f := measure(c) - value
		if hi-lo < 1e-14*hi || math.Abs(f) < 1e-14*math.Abs(value) {
			return c
		}
		if f < 0 {
			lo, fl = mid, f
			if side < 0 {
				fh /= 2
			}
			side = -1
		} else {
			hi, fh = mid, f
			if side > 0 {
				fl /= 2
			}
			side = 1
		}
	}
	return curve((lo + hi) / 2)
}

// Peirce returns the bending length over the length of a strip whose chord slopes by so many radians, by the classic
// formula (cos(θ/2) / (8 tan θ))^(1/3). It is a little too large, by 1.9 % at the usual 41.5 degrees; see [Sag].
// Source: Peirce 1930, J. Textile Inst. 21 T377, as ASTM D1388 and ISO 9073-7 use it; not seen itself, formula as printed
// by later authors.
func Peirce(chord float64) float64 { return math.Cbrt(math.Cos(chord/2) / (8 * math.Tan(chord))) }
