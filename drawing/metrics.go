package drawing

import (
	_ "embed"
	"strconv"
	"strings"
	"sync"
	"unicode"
)

// advances.csv lists how far each character of the Go fonts moves the pen, in 1/2048 em. A table of 10 kB stands here
// for two fonts of 150 kB each, which the browser build need not carry; TestAdvances compares it with the fonts.
//
//go:embed advances.csv
var advancesCSV string

const unitsPerEm = 2048

type advance struct{ regular, bold int }

// advances reads the table once; it never changes afterwards.
var advances = sync.OnceValue(func() map[rune]advance {
	table := map[rune]advance{}
	for line := range strings.Lines(advancesCSV) {
		f := strings.Split(strings.TrimSpace(line), ",")
		if len(f) < 3 {
			continue
		}
		code, err := strconv.ParseInt(f[0], 16, 32)
		if err != nil {
			continue // the comment and the head line
		}
		r, _ := strconv.Atoi(f[1])
		b, _ := strconv.Atoi(f[2])
		table[rune(code)] = advance{r, b}
	}
	return table
})

// TextWidth returns the length of a line in mm, set in the Go font (regular or bold) at size mm. The fonts have no
// kerning, so it is the sum of the advances; exact but for float rounding.
func TextWidth(words string, size float64, bold bool) float64 {
	table := advances()
	sum := 0
	for _, r := range Printable(words) {
		a := table[r]
		if bold {
			sum += a.bold
		} else {
			sum += a.regular
		}
	}
	return float64(sum) * size / unitsPerEm
}

// What other sans-serif fonts need more than the Go fonts: words of the widest common one (figures 0.636 em, bold 0.696,
// against 0.556 here) are up to 1.16 times as long, bold ones up to 1.26, and its arithmetic signs are 0.84 em wide in
// both (measured with the fonts of the build machine; the conformance test of the SVG device shows that it holds there).
const (
	roomFactor     = 1.16
	roomFactorBold = 1.26
	signWide       = 0.84
	wideSigns      = "≈×±−+=<>≤≥"
)

// TextRoom returns how long a line may become in a reader's own sans-serif font, in mm: layouts keep this much free. A
// character that the Go fonts lack counts as wide as it is high.
func TextRoom(words string, size float64, bold bool) float64 {
	table := advances()
	factor := roomFactor
	if bold {
		factor = roomFactorBold
	}
	ems := 0.0
	for _, r := range words {
		a := table[r]
		switch {
		case a == advance{}:
			ems++
		case strings.ContainsRune(wideSigns, r):
			ems += signWide
		case bold:
			ems += factor * float64(a.bold) / unitsPerEm
		default:
			ems += factor * float64(a.regular) / unitsPerEm
		}
	}
	return ems * size
}

// missing stands in print for a character that the fonts lack.
const missing = '□'

// Printable returns the line as the PDF and PNG devices can print it: control characters become spaces, fractions that
// the Go fonts lack are composed (⅓ as ¹⁄₃), and each other character that they lack becomes □.
func Printable(words string) string {
	table := advances()
	var b strings.Builder
	for _, r := range words {
		switch composed, ok := composedFraction(r); {
		case unicode.IsControl(r):
			b.WriteRune(' ')
		case ok:
			b.WriteString(composed)
		case table[r] == advance{}:
			b.WriteRune(missing)
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}

// composedFraction writes the fractions that a recipe may use but the fonts lack with raised and lowered figures.
func composedFraction(r rune) (string, bool) {
	switch r {
	case '⅓':
		return "¹⁄₃", true
	case '⅔':
		return "²⁄₃", true
	case '⅕':
		return "¹⁄₅", true
	case '⅖':
		return "²⁄₅", true
	case '⅗':
		return "³⁄₅", true
	case '⅘':
		return "⁴⁄₅", true
	}
	return "", false
}

// unprintable returns the characters of a line that print as □, each once.
func unprintable(words string) string {
	table := advances()
	var b strings.Builder
	for _, r := range words {
		_, composed := composedFraction(r)
		if !composed && !unicode.IsControl(r) && table[r] == (advance{}) && !strings.ContainsRune(b.String(), r) {
			b.WriteRune(r)
		}
	}
	return b.String()
}
