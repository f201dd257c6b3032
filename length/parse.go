package length

import (
	"fmt"
	"math/big"
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
	return fmt.Sprintf("%s is too long: a measurement may be at most 2000 mm (about 78 11/16 in)", e.Text)
}

// SyntaxError says that a text is not a measurement.
type SyntaxError struct{ Text, Why string }

// Error says what a measurement looks like.
func (e *SyntaxError) Error() string {
	return fmt.Sprintf("%q is not a measurement%s; write 10, 10.5, 10 1/2, 10½ or 1/8, with mm, cm, in or \" if you like", e.Text, e.Why)
}

// maxDigits bounds the work that one number can cause; 20 digits hold every measurement up to Max with room to spare.
const maxDigits = 20

// Parse reads a measurement as makers write it: 10, 10.5, 10 1/2, 10½, 1/8, each with an optional unit mm, cm, in or
// ". A number without a unit is in bare. A leading minus is read; ranges are the caller's business below Max.
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
		return 0, &SyntaxError{Text: clip(text), Why: why}
	}
	nm := r.Mul(r, new(big.Rat).SetInt64(int64(unit.Size())))
	if nm.Cmp(new(big.Rat).SetInt64(int64(Max))) > 0 {
		return 0, &RangeError{Text: clip(text)}
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
	return 0, &NotExactError{Text: clip(typed), Unit: unit, Below: Length(below), Above: Length(below + 1)}
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

// parseNumber reads a whole number, a decimal, a fraction or a whole number followed by a fraction.
func parseNumber(s string) (*big.Rat, string) {
	if s == "" {
		return nil, " (no number)"
	}
	if i := strings.IndexFunc(s, func(r rune) bool { _, ok := vulgar[r]; return ok }); i >= 0 {
		return parseVulgar(s, i)
	}
	fields := strings.Fields(s)
	switch {
	case len(fields) == 1 && strings.Contains(s, "/"):
		return parseFraction(s)
	case len(fields) == 1:
		return parseDecimal(s)
	case len(fields) == 2 && strings.Contains(fields[1], "/"):
		return addWhole(fields[0], fields[1], parseFraction)
	}
	return nil, ""
}

func parseVulgar(s string, i int) (*big.Rat, string) {
	r := []rune(s[i:])
	if len(r) != 1 {
		return nil, ""
	}
	f := vulgar[r[0]]
	frac := big.NewRat(f[0], f[1])
	whole := strings.TrimSpace(s[:i])
	if whole == "" {
		return frac, ""
	}
	return addWhole(whole, "", func(string) (*big.Rat, string) { return frac, "" })
}

func addWhole(whole, rest string, parse func(string) (*big.Rat, string)) (*big.Rat, string) {
	if !allDigits(whole) {
		return nil, " (a whole number stands before a fraction)"
	}
	w, why := parseDecimal(whole)
	if w == nil {
		return nil, why
	}
	f, why := parse(rest)
	if f == nil {
		return nil, why
	}
	return w.Add(w, f), ""
}

func parseFraction(s string) (*big.Rat, string) {
	num, den, _ := strings.Cut(s, "/")
	if !allDigits(num) || !allDigits(den) {
		return nil, ""
	}
	if strings.Trim(den, "0") == "" {
		return nil, " (a fraction over zero)"
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, ""
	}
	return r, ""
}

func parseDecimal(s string) (*big.Rat, string) {
	whole, frac, point := strings.Cut(s, ".")
	if !allDigits(whole+frac) || (point && frac == "") {
		return nil, ""
	}
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		return nil, ""
	}
	return r, ""
}

func allDigits(s string) bool {
	if s == "" || len(s) > maxDigits {
		return false
	}
	return strings.IndexFunc(s, func(r rune) bool { return r < '0' || r > '9' }) < 0
}

// clip shortens a quoted text so that a message stays readable whatever was typed.
func clip(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}
