package length

import (
	"fmt"
	"math/big"
	"strconv"
)

// Length is a distance in whole nanometres. It may be negative: a difference of two measurements is a Length too.
type Length int64

// Units of length, all exact.
const (
	Nanometre  Length = 1
	Micrometre        = 1000 * Nanometre
	Millimetre        = 1000 * Micrometre
	Centimetre        = 10 * Millimetre
	Inch              = 25_400_000 * Nanometre
)

// Max is the longest measurement that is accepted. Up to it the orientation of three points is exact in plain int64
// arithmetic: the products of two differences stay below 2 * (2e9)² < 2⁶³.
const Max = 2000 * Millimetre

// Unit is a unit in which lengths are read and written.
type Unit uint8

// The units that a recipe may use.
const (
	MM Unit = iota
	CM
	IN
)

// Size returns how long one of the unit is.
func (u Unit) Size() Length {
	switch u {
	case CM:
		return Centimetre
	case IN:
		return Inch
	}
	return Millimetre
}

// String returns the unit's symbol: mm, cm or in.
func (u Unit) String() string {
	switch u {
	case CM:
		return "cm"
	case IN:
		return "in"
	}
	return "mm"
}

// Other returns the unit that stands in brackets behind u: inches behind metric units, millimetres behind inches.
func (u Unit) Other() Unit {
	if u == IN {
		return MM
	}
	return IN
}

// MM returns the length in millimetres, for poses and drawings only.
func (l Length) MM() float64 { return float64(l) / float64(Millimetre) }

// Abs returns the length without its sign.
func (l Length) Abs() Length {
	if l < 0 {
		return -l
	}
	return l
}

// FromMM returns the length nearest to a number of millimetres: one of the few places where a float becomes a
// measurement (a pose or a slanted point is left).
// Range: |mm| <= 9e12; beyond it and for NaN the result is 0.
func FromMM(mm float64) Length {
	nm := mm * float64(Millimetre)
	if !(nm > -9e18 && nm < 9e18) {
		return 0
	}
	if nm < 0 {
		return -Length(0.5 - nm)
	}
	return Length(nm + 0.5)
}

// Exact returns the length as a number in the unit, without the unit's symbol, and whether that number is exact.
// Inches are written as a fraction where the length lies on a 1/64 in mark ("10 1/2"), else as a decimal.
// Where no decimal of at most nine places is exact, Exact returns "" and false.
func (l Length) Exact(u Unit) (text string, ok bool) {
	if u == IN {
		if s, ok := l.fraction(64, plainFraction); ok {
			return s, true
		}
	}
	return l.decimal(u.Size())
}

// decimal writes l as a decimal multiple of unit.
func (l Length) decimal(unit Length) (string, bool) {
	r := big.NewRat(int64(l), int64(unit))
	n, exact := r.FloatPrec()
	if !exact || n > 9 {
		return "", false
	}
	return r.FloatString(n), true
}

// Human returns the length with its unit, rounded where it must be: inches to the nearest 1/16 (or the exact finer
// mark; below 1/32 in to a thousandth), metric units to 0.01 mm. A rounded number starts with "≈".
func (l Length) Human(u Unit) string { return l.text(u, plainFraction) + " " + u.String() }

// Typeset returns what Human returns, with typographic fractions ("10½ in"), for drawings and pages.
func (l Length) Typeset(u Unit) string { return l.text(u, typesetFraction) + " " + u.String() }

// Both returns the length in the unit and, in brackets, in the other one: "267 mm (≈ 10 1/2 in)".
func (l Length) Both(u Unit) string { return l.Human(u) + " (" + l.Human(u.Other()) + ")" }

func (l Length) text(u Unit, frac fractionStyle) string {
	if u == IN {
		if s, ok := l.fraction(64, frac); ok {
			return s
		}
		near, _ := l.Snap(Inch / 16)
		if near == 0 { // no ruler shows it; say at least how thick it is
			return "≈ " + strconv.FormatFloat(float64(l)/float64(Inch), 'f', 3, 64)
		}
		s, _ := near.fraction(16, frac)
		return "≈ " + s
	}
	step := 10 * Micrometre
	near, rest := l.Snap(step)
	s, _ := near.decimal(u.Size())
	if rest != 0 {
		return "≈ " + s
	}
	return s
}

type fractionStyle func(whole, num, den int64) string

// fraction writes l in inches over a power of two no larger than den; ok is false where l is not on such a mark.
func (l Length) fraction(den int64, style fractionStyle) (string, bool) {
	pitch := int64(Inch) / den
	if int64(l)%pitch != 0 {
		return "", false
	}
	sign := ""
	if l < 0 {
		sign, l = "-", -l
	}
	n := int64(l) / pitch
	whole, num := n/den, n%den
	for num != 0 && num%2 == 0 {
		num, den = num/2, den/2
	}
	return sign + style(whole, num, den), true
}

func plainFraction(whole, num, den int64) string {
	switch {
	case num == 0:
		return strconv.FormatInt(whole, 10)
	case whole == 0:
		return fmt.Sprintf("%d/%d", num, den)
	}
	return fmt.Sprintf("%d %d/%d", whole, num, den)
}

func typesetFraction(whole, num, den int64) string {
	head := strconv.FormatInt(whole, 10)
	if num == 0 {
		return head
	}
	if whole == 0 {
		head = ""
	}
	for r, v := range vulgar {
		if v == [2]int64{num, den} {
			return head + string(r)
		}
	}
	return head + shift(num, raised) + "⁄" + shift(den, lowered)
}

// Snap returns the multiple of pitch nearest to l (halves away from zero) and what is left: l = near + rest.
// Range: pitch > 0; a pitch of zero or less leaves l as it is.
func (l Length) Snap(pitch Length) (near, rest Length) {
	if pitch <= 0 {
		return l, 0
	}
	rest = l % pitch // has the sign of l
	near = l - rest
	switch half := pitch - pitch/2; {
	case rest >= half:
		near, rest = near+pitch, rest-pitch
	case rest <= -half:
		near, rest = near-pitch, rest+pitch
	}
	return near, rest
}

// RulerMarks returns the distances between marks that rulers have, as they are written (common practice, no source).
func RulerMarks() []string {
	return []string{"1 mm", "5 mm", "1/8 in", "1/16 in", "1/32 in", "1/64 in"}
}

// OnMark says whether l is a whole number of pitches; every length is on the marks of a ruler without a pitch (0).
func (l Length) OnMark(pitch Length) bool { return pitch <= 0 || l%pitch == 0 }
