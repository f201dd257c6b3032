package length

import (
	"errors"
	"strings"
	"testing"
)

func TestParse(t *testing.T) {
	const in = Inch
	for _, test := range []struct {
		text string
		bare Unit
		want Length
	}{
		{"10", MM, 10 * Millimetre}, {"10", CM, 100 * Millimetre}, {"10", IN, 10 * in},
		{"10.5", MM, 10500 * Micrometre}, {".5", IN, in / 2}, {"0.5", CM, 5 * Millimetre}, {"007", MM, 7 * Millimetre},
		{"10 1/2", IN, 21 * in / 2}, {"10½", IN, 21 * in / 2}, {"10 ½", IN, 21 * in / 2}, {"½", MM, Millimetre / 2},
		{"1/8", IN, in / 8}, {"1/64 in", MM, in / 64}, {"3/3", MM, Millimetre}, {"⅝", IN, 5 * in / 8}, {"⅕", MM, Millimetre / 5},
		{"10 mm", IN, 10 * Millimetre}, {"10mm", IN, 10 * Millimetre}, {"2.54 cm", IN, in}, {"1 in", MM, in}, {`1"`, MM, in}, {"1″", MM, in}, {"1”", MM, in},
		{"0.000001", MM, 1}, {"0.0000001 cm", MM, 1}, {"0.000005 in", MM, 127}, {"0", IN, 0}, {"0/5", IN, 0},
		{"10³⁄₁₆", IN, 163 * in / 16}, {"10 ³⁄₁₆ in", MM, 163 * in / 16}, {"⁵⁵⁄₆₄″", MM, 55 * in / 64}, {"³/₁₆", IN, 3 * in / 16}, {"-³∕₁₆", IN, -3 * in / 16},
		{"4 1⁄8", IN, 33 * in / 8}, {"1⁄8 in", MM, in / 8}, {"10 3∕4", IN, 43 * in / 4}, {"⅒", IN, in / 10},
		{"-10", MM, -10 * Millimetre}, {"−1/2 in", MM, -in / 2}, {"- 3", MM, -3 * Millimetre}, {" 3 ", MM, 3 * Millimetre},
		{"10\u00a01/2", IN, 21 * in / 2}, {"2000", MM, Max}, {"-2000", MM, -Max}, {"78 11/16", IN, 1259 * in / 16},
		{"12345678901234567890/12345678901234567890", MM, Millimetre}, {"0.1000000000000000000", MM, Millimetre / 10},
	} {
		if got, err := Parse(test.text, test.bare); err != nil || got != test.want {
			t.Errorf("%q in %v: got %d nm (%v), want %d", test.text, test.bare, got, err, test.want)
		}
	}
}

func TestParseErrors(t *testing.T) {
	for _, text := range []string{"", " ", "in", "mm", "-", "x", "10 20", "10 1 / 2", "1/0", "1/", "/2", "1/2/3", "1/2 1/2", "10.", ".", "1.2.3", "1,5", "+3",
		"1e3", "1e400", "NaN", "Inf", "0x10", "1_000", "½ 1", "½½", "1½½", "1.5½", "1.5 1/2", "-1/-2", "--1", "10 feet", "10 mmm", "10 in in",
		"٣", "１", "1/0 in", "123456789012345678901", "0.12345678901234567890123", "1\x00", "\xff", "25.4/1",
		"³", "10³", "₁₆", "³⁄", "⁄₁₆", "³⁄16", "3⁄₁₆", "³⁄₁₆⁄₂", "³⁄₁₆ 1", "1.5³⁄₁₆", "³⁄₀", "³³⁄₁₆½", "≈ 4 in", strings.Repeat("¹", 21) + "⁄₂"} {
		var want *SyntaxError
		if l, err := Parse(text, MM); !errors.As(err, &want) || l != 0 {
			t.Errorf("%q: got %d nm and %v, want a SyntaxError", text, l, err)
		}
	}
	for _, text := range []string{"2000.000001", "-2000.1", "99999999999999999999", "200.1 cm", "78 7/8 in", "-99999999999999999999/1"} {
		var want *RangeError
		if l, err := Parse(text, MM); !errors.As(err, &want) || l != 0 {
			t.Errorf("%q: got %d nm and %v, want a RangeError", text, l, err)
		}
	}
	long := strings.Repeat("9", 1_000_000)
	if _, err := Parse(long, MM); err == nil || len(err.Error()) > 300 {
		t.Errorf("a million digits give an error of %d bytes", len(err.Error()))
	}
}

// The marks of a ruler can be read, and each is another one.
func TestRulerMarks(t *testing.T) {
	seen := map[Length]bool{}
	for _, text := range RulerMarks() {
		l, err := Parse(text, MM)
		if err != nil || l <= 0 || seen[l] {
			t.Errorf("%q: %d nm (%v)", text, l, err)
		}
		seen[l] = true
	}
	if !seen[Millimetre] || !seen[Inch/64] {
		t.Errorf("the finest marks are not among %v", RulerMarks())
	}
}

// What cannot be held exactly is refused with the two lengths beside it.
func TestParseNeighbours(t *testing.T) {
	for _, test := range []struct {
		text  string
		bare  Unit
		below Length
		says  string
	}{
		{"1/3", IN, 8466666, "1/3 in cannot be held exactly; the nearest that can are 8.466666 mm and 8.466667 mm"},
		{"-1/3 in", MM, -8466667, "-1/3 in cannot be held exactly; the nearest that can are -8.466667 mm and -8.466666 mm"},
		{"1/128", IN, 198437, "1/128 in cannot be held exactly; the nearest that can are 0.198437 mm and 0.198438 mm"},
		{"⅓", MM, 333333, "⅓ mm cannot be held exactly; the nearest that can are 0.333333 mm and 0.333334 mm"},
		{"0.0000001", MM, 0, "0.0000001 mm cannot be held exactly; the nearest that can are 0 mm and 0.000001 mm"},
		{"-0.0000001", MM, -1, "-0.0000001 mm cannot be held exactly; the nearest that can are -0.000001 mm and 0 mm"},
	} {
		_, err := Parse(test.text, test.bare)
		var got *NotExactError
		if !errors.As(err, &got) {
			t.Errorf("%q: got %v, want a NotExactError", test.text, err)
			continue
		}
		if got.Below != test.below || got.Above != test.below+1 || got.Error() != test.says {
			t.Errorf("%q: %d and %d nm, %v; want %d nm, %s", test.text, got.Below, got.Above, got, test.below, test.says)
		}
	}
}

// Whatever is read is at most Max, and what Exact prints of it reads as the same length.
func FuzzParse(f *testing.F) {
	for _, text := range []string{"10", "10.5", "10 1/2", "10½", "10³⁄₁₆ in", "4 1⁄8", "1/8 in", `3"`, "-2.5 cm", "1/3", "1e400", "2001", "", "½½", "\xff", "1/0", "0.000001 mm"} {
		for unit := range 3 {
			f.Add(text, uint8(unit))
		}
	}
	f.Fuzz(func(t *testing.T, text string, unit uint8) {
		bare := Unit(unit % 3)
		l, err := Parse(text, bare)
		if err != nil {
			var inexact *NotExactError
			if l != 0 || err.Error() == "" || errors.As(err, &inexact) && inexact.Above != inexact.Below+1 {
				t.Errorf("%q: %d nm and %v", text, l, err)
			}
			return
		}
		if l.Abs() > Max {
			t.Errorf("%q is %d nm", text, l)
		}
		for _, u := range []Unit{MM, CM, IN} {
			if s, ok := l.Exact(u); ok {
				if back, err := Parse(s, u); err != nil || back != l {
					t.Errorf("%q is %d nm, printed as %q %v, read back as %d nm (%v)", text, l, s, u, back, err)
				}
			}
			if s := l.Typeset(u); !strings.HasPrefix(s, "≈") {
				if back, err := Parse(s, u); err != nil || back != l {
					t.Errorf("%q is %d nm, typeset as %q, read back as %d nm (%v)", text, l, s, back, err)
				}
			}
		}
	})
}
