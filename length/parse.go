package length

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"
)

// NotExactError says that a number cannot be held in whole nanometres. Below and Above are the two lengths beside it.
type NotExactError struct {
	Text         string
	Unit         Unit
	Below, Above Length
}

// Error says what would be right, in the unit that was typed where that is exact, else in millimetres.
func (e *NotExactError) Error() string {
	return fmt.Sprintf("%s %s cannot be held exactly; the nearest that can are %s mm and %s mm",
		e.Text, e.Unit, mustExact(e.Below), mustExact(e.Above))
}

func mustExact(l Length) string {
	s, _ := l.Exact(MM) // whole nanometres are exact in millimetres with six places
	return s
}

// RangeError says that a number is longer than Max.
type RangeError struct{ Text string }

// Error names the limit in both units.
func (e *RangeError) Error() string {
	return fmt.Sprintf("%.80s is too long: a measurement may be at most 2000 mm (about 78 11/16 in)", e.Text)
}

// decimalComma is a comma between two digits.
var decimalComma = regexp.MustCompile(`([0-9]),([0-9])`)

// SyntaxError says that a text is not a measurement.
type SyntaxError struct{ Text, Why string }

// Error says what a measurement looks like; of a long text it quotes the beginning.
func (e *SyntaxError) Error() string {
	if point := decimalComma.ReplaceAllString(e.Text, "$1.$2"); point != e.Text && len(point) < 40 {
		return fmt.Sprintf("%q is not a measurement: a decimal comma is written as a point, %q", e.Text, point)
	}
	return fmt.Sprintf("%.40q is not a measurement%s; write 10, 10.5, 10 1/2, 10½ or 1/8, with mm, cm, in or \" if you like", e.Text, e.Why)
}

// maxDigits bounds the work that one number can cause; 20 digits hold every measurement up to Max with room to spare.
const maxDigits = 20

// Parse reads a measurement as makers write it: 10, 10.5, 10 1/2, 10½, 1/8, each with an optional unit mm, cm, in or
// ", and as [Length.Typeset] prints it where it does not round: 10³⁄₁₆ in. A number without a unit is in bare. A leading minus is read; ranges are the caller's business below Max.
//
// Errors: *SyntaxError, *NotExactError, *RangeError.
func Parse(text string, bare Unit) (Length, error) {
	number, unit := splitUnit(strings.TrimSpace(text), bare)
	negative := false
	if rest, ok := cutAny(number, "-", "−"); ok {
		negative, number = true, rest
	}
	r, why := parseNumber(number)
	if r == nil {
		return 0, &SyntaxError{Text: text, Why: why}
	}
	nm := r.Mul(r, new(big.Rat).SetInt64(int64(unit.Size())))
	if nm.Cmp(new(big.Rat).SetInt64(int64(Max))) > 0 {
		return 0, &RangeError{Text: text}
	}
	if negative {
		nm.Neg(nm)
	}
	if nm.IsInt() {
		return Length(nm.Num().Int64()), nil
	}
	below := new(big.Int).Div(nm.Num(), nm.Denom()).Int64() // Euclidean: rounds down for a positive denominator
	typed := number
	if negative {
		typed = "-" + number
	}
	return 0, &NotExactError{Text: typed, Unit: unit, Below: Length(below), Above: Length(below + 1)}
}

func cutAny(s string, prefixes ...string) (string, bool) {
	for _, p := range prefixes {
		if rest, ok := strings.CutPrefix(s, p); ok {
			return strings.TrimSpace(rest), true
		}
	}
	return s, false
}

func splitUnit(s string, bare Unit) (number string, unit Unit) {
	for _, e := range []struct {
		suffix string
		unit   Unit
	}{{"mm", MM}, {"cm", CM}, {"in", IN}, {"\"", IN}, {"″", IN}, {"”", IN}} {
		if rest, ok := strings.CutSuffix(s, e.suffix); ok {
			return strings.TrimSpace(rest), e.unit
		}
	}
	return s, bare
}
