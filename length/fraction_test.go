package length

import (
	"strings"
	"testing"
)

func TestFraction(t *testing.T) {
	for _, test := range []struct {
		in, want string
		size     int
	}{
		{"½ in", "1/2", len("½")}, {"³⁄₁₆ in", "3/16", len("³⁄₁₆")}, {"¹⁰/₆₄x", "10/64", len("¹⁰/₆₄")}, {"1⁄8in", "1/8", len("1⁄8")}, {"3/16 in", "3/16", 4},
		{"1∕2", "1/2", len("1∕2")}, {"1/2/3", "1/2", 3}, {"½½", "1/2", len("½")}, {"1/0", "1/0", 3},
		{"", "", 0}, {"4", "", 0}, {"4³⁄₁₆", "", 0}, {"4 1/2", "", 0}, {"³", "", 0}, {"³⁄16", "", 0}, {"3/₁₆", "", 0}, {"/2", "", 0}, {"1/", "", 0}, {"1-2", "", 0}, {"\xff/2", "", 0},
		{strings.Repeat("¹", 1000) + "⁄₂", "", 0},
	} {
		if got, n := Fraction(test.in); got != test.want || n != test.size {
			t.Errorf("%q: got %q and %d bytes, want %q and %d", test.in, got, n, test.want, test.size)
		}
	}
}

// Every mark of a 1/64 in ruler reads back as it is printed, plainly and typeset, in both directions from zero.
func TestTypesetReadsBack(t *testing.T) {
	for l := -10 * Inch; l <= 10*Inch; l += Inch / 64 {
		for _, text := range []string{l.Typeset(IN), l.Human(IN), strings.ReplaceAll(l.Human(IN), "/", "⁄")} {
			if back, err := Parse(text, MM); err != nil || back != l {
				t.Fatalf("%d nm is printed as %q and read as %d nm (%v)", l, text, back, err)
			}
		}
	}
	last := Max - Max%(Inch/64)
	if back, err := Parse(last.Typeset(IN), MM); err != nil || back != last {
		t.Errorf("the last mark is printed as %q and read as %d nm (%v)", last.Typeset(IN), back, err)
	}
}

func TestNumber(t *testing.T) {
	for in, want := range map[string]string{"10": "10", "0.5": "1/2", " 10 1/2 ": "21/2", "4³⁄₁₆": "67/16", "⅓": "1/3"} {
		if got, err := Number(in); err != nil || got.RatString() != want {
			t.Errorf("%q: got %v (%v), want %s", in, got, err, want)
		}
	}
	for _, in := range []string{"", "1/0", "-1", "10 mm", "1,5"} {
		if got, err := Number(in); err == nil {
			t.Errorf("%q is read as %v", in, got)
		}
	}
}
