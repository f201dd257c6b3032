package length

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"
	"unicode/utf8"
)

// The digits of fractions: on the line, above it and below it.
const (
	plain   = "0123456789"
	raised  = "⁰¹²³⁴⁵⁶⁷⁸⁹"
	lowered = "₀₁₂₃₄₅₆₇₈₉"
)

// vulgar lists the single-character fractions that a recipe may use and a drawing prints (Unicode, Number Forms).
var vulgar = map[rune][2]int64{
	'½': {1, 2}, '¼': {1, 4}, '¾': {3, 4}, '⅛': {1, 8}, '⅜': {3, 8}, '⅝': {5, 8}, '⅞': {7, 8},
	'⅓': {1, 3}, '⅔': {2, 3}, '⅕': {1, 5}, '⅖': {2, 5}, '⅗': {3, 5}, '⅘': {4, 5}, '⅙': {1, 6}, '⅚': {5, 6}, '⅒': {1, 10},
}

// Fraction returns the fraction that s begins with, written with plain digits ("3/16"), and how many bytes of s it is:
// plain digits (3/16), one character (½), raised and lowered digits (³⁄₁₆), or plain digits about a fraction slash (3⁄16).
// Where s begins otherwise, also with a whole number before a fraction, it returns "" and 0.
func Fraction(s string) (text string, size int) {
	first, n := utf8.DecodeRuneInString(s)
	if v, ok := vulgar[first]; ok {
		return fmt.Sprintf("%d/%d", v[0], v[1]), n
	}
	above, below := plain, plain
	if strings.ContainsRune(raised, first) {
		above, below = raised, lowered
		s = s[:min(len(s), 2*maxDigits*utf8.UTFMax)] // no measurement is longer, and a long row of such digits stays cheap
	}
	num, top := lineUp(s, above)
	slash, over := utf8.DecodeRuneInString(s[top:])
	den, bottom := lineUp(s[top+over:], below)
	if top == 0 || bottom == 0 || slash != '/' && slash != '⁄' && slash != '∕' {
		return "", 0
	}
	return num + "/" + den, top + over + bottom
}

// lineUp returns the digits of a set that s begins with as plain ones, and how many bytes of s they are.
func lineUp(s, set string) (digits string, size int) {
	size = len(s)
	if n := strings.IndexFunc(s, func(r rune) bool { return !strings.ContainsRune(set, r) }); n >= 0 {
		size = n
	}
	if set == plain {
		return s[:size], size
	}
	var b strings.Builder
	for _, r := range s[:size] {
		b.WriteByte(byte('0' + utf8.RuneCountInString(set[:strings.IndexRune(set, r)])))
	}
	return b.String(), size
}

// shift writes n with another set of ten digits.
func shift(n int64, set string) string {
	digits := []rune(set)
	var b strings.Builder
	for _, c := range strconv.FormatInt(n, 10) {
		b.WriteRune(digits[c-'0'])
	}
	return b.String()
}

// Number reads a number as Parse reads it, without sign and unit: 10, 10.5, 10 1/2, 10½, 10³⁄₁₆, 1/8.
//
// Errors: *SyntaxError.
func Number(text string) (*big.Rat, error) {
	r, why := parseNumber(strings.TrimSpace(text))
	if r == nil {
		return nil, &SyntaxError{Text: text, Why: why}
	}
	return r, nil
}

// parseNumber reads a whole number, a decimal, a fraction or a whole number followed by a fraction.
func parseNumber(s string) (*big.Rat, string) {
	if s == "" {
		return nil, " (no number)"
	}
	whole, rest := splitFraction(s)
	if rest == "" {
		return parseDecimal(whole)
	}
	text, n := Fraction(rest)
	if n != len(rest) {
		return nil, ""
	}
	f, why := parseFraction(text)
	if f == nil || whole == "" {
		return f, why
	}
	if !allDigits(whole) {
		return nil, " (a whole number stands before a fraction)"
	}
	w, why := parseDecimal(whole)
	if w == nil {
		return nil, why
	}
	return f.Add(w, f), ""
}

// splitFraction parts a whole number from the fraction behind it, which stands behind a space or is typeset.
func splitFraction(s string) (whole, fraction string) {
	fields := strings.Fields(s)
	if len(fields) > 1 {
		return fields[0], strings.TrimSpace(s[len(fields[0]):])
	}
	typeset := func(r rune) bool { _, one := vulgar[r]; return one || strings.ContainsRune(raised, r) }
	if i := strings.IndexFunc(s, typeset); i >= 0 {
		return s[:i], s[i:]
	}
	if strings.ContainsAny(s, "/⁄∕") {
		return "", s
	}
	return s, ""
}

// parseFraction reads a fraction of plain digits.
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
