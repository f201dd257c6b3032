package length

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"foldwright/internal/check"

	"pgregory.net/rapid"
)

// The marks of inch and millimetre rulers, against their definitions.
func TestMarks(t *testing.T) {
	check.Each(t, "testdata/check/lengths.csv", func(t *testing.T, r check.Row) {
		l, err := Parse(r.Name(), MM)
		if err != nil {
			t.Fatal(err)
		}
		r.NearColumn("expected_nm", float64(l))
		if mm, err := Parse(r.Text("mm"), MM); err != nil || mm != l {
			t.Errorf("%s mm is %d nm (%v), want %d", r.Text("mm"), mm, err, l)
		}
		if in, want := float64(l)/float64(Inch), r.Float("in"); math.Abs(in-want) > 0.5e-6 { // the table has six places
			t.Errorf("%v in, want %v", in, want)
		}
		number, unit, _ := strings.Cut(r.Name(), " ")
		u := MM
		if unit == "in" {
			u = IN
		}
		if got, ok := l.Exact(u); !ok || got != number {
			t.Errorf("printed as %q (%v), want %q", got, ok, number)
		}
	})
}

func TestExact(t *testing.T) {
	for _, test := range []struct {
		l    Length
		unit Unit
		want string // "" where no number is exact
	}{
		{0, MM, "0"}, {0, IN, "0"}, {1, MM, "0.000001"}, {1, CM, "0.0000001"}, {1, IN, ""}, {127, IN, "0.000005"},
		{252 * Millimetre, MM, "252"}, {252 * Millimetre, CM, "25.2"}, {267 * Millimetre, IN, ""},
		{21 * Inch / 2, IN, "10 1/2"}, {Inch / 64, IN, "1/64"}, {Inch + Inch/64, IN, "1 1/64"}, {63 * Inch / 64, IN, "63/64"},
		{3 * Inch / 10, IN, "0.3"}, {Inch / 1000, IN, "0.001"},
		{-Inch / 2, IN, "-1/2"}, {-3 * Inch / 2, IN, "-1 1/2"}, {-Millimetre / 2, MM, "-0.5"}, {Inch, MM, "25.4"},
	} {
		got, ok := test.l.Exact(test.unit)
		if got != test.want || ok != (test.want != "") {
			t.Errorf("%d nm in %v: got %q (%v), want %q", test.l, test.unit, got, ok, test.want)
		}
	}
}

func TestForPeople(t *testing.T) {
	for _, test := range []struct {
		l                    Length
		unit                 Unit
		human, typeset, both string
	}{
		{21 * Inch / 2, IN, "10 1/2 in", "10½ in", "10 1/2 in (266.7 mm)"},
		{267 * Millimetre, MM, "267 mm", "267 mm", "267 mm (≈ 10 1/2 in)"},
		{267 * Millimetre, IN, "≈ 10 1/2 in", "≈ 10½ in", "≈ 10 1/2 in (267 mm)"},
		{Inch / 64, IN, "1/64 in", "¹⁄₆₄ in", "1/64 in (≈ 0.4 mm)"},
		{35 * Inch / 16, IN, "2 3/16 in", "2³⁄₁₆ in", "2 3/16 in (≈ 55.56 mm)"},
		{12345 * Micrometre, MM, "≈ 12.35 mm", "≈ 12.35 mm", "≈ 12.35 mm (≈ 1/2 in)"},
		{-Inch / 4, IN, "-1/4 in", "-¼ in", "-1/4 in (-6.35 mm)"},
		{15 * Millimetre, CM, "1.5 cm", "1.5 cm", "1.5 cm (≈ 9/16 in)"},
		{0, MM, "0 mm", "0 mm", "0 mm (0 in)"},
	} {
		if got := test.l.Human(test.unit); got != test.human {
			t.Errorf("%d nm: Human is %q, want %q", test.l, got, test.human)
		}
		if got := test.l.Typeset(test.unit); got != test.typeset {
			t.Errorf("%d nm: Typeset is %q, want %q", test.l, got, test.typeset)
		}
		if got := test.l.Both(test.unit); got != test.both {
			t.Errorf("%d nm: Both is %q, want %q", test.l, got, test.both)
		}
	}
}

func TestUnits(t *testing.T) {
	for _, test := range []struct {
		unit  Unit
		text  string
		size  Length
		other Unit
	}{{MM, "mm", 1_000_000, IN}, {CM, "cm", 10_000_000, IN}, {IN, "in", 25_400_000, MM}} {
		if test.unit.String() != test.text || test.unit.Size() != test.size || test.unit.Other() != test.other {
			t.Errorf("%v is %d nm, beside it stands %v", test.unit, test.unit.Size(), test.unit.Other())
		}
	}
}

func TestFromMM(t *testing.T) {
	for _, test := range []struct {
		mm   float64
		want Length
	}{
		{0, 0}, {25.4, Inch}, {-25.4, -Inch}, {0.0000015, 2}, {-0.0000015, -2}, {0.0000014, 1}, {1.0 / 3, 333333},
		{math.NaN(), 0}, {math.Inf(1), 0}, {math.Inf(-1), 0}, {1e13, 0}, {-1e300, 0}, {8e12, 8_000_000_000_000_000_000},
	} {
		if got := FromMM(test.mm); got != test.want {
			t.Errorf("%v mm: got %d nm, want %d", test.mm, got, test.want)
		}
	}
	if got := (Inch / 8).MM(); got != 3.175 {
		t.Errorf("1/8 in is %v mm", got)
	}
}

func TestSnap(t *testing.T) {
	for _, test := range []struct{ l, pitch, near, rest Length }{
		{10 * Millimetre, Millimetre, 10 * Millimetre, 0},
		{10_499_999, Millimetre, 10 * Millimetre, 499_999},
		{10_500_000, Millimetre, 11 * Millimetre, -500_000}, // halves go away from zero
		{-10_500_000, Millimetre, -11 * Millimetre, 500_000},
		{267 * Millimetre, Inch / 16, 21 * Inch / 2, 300 * Micrometre},
		{5, 0, 5, 0}, {5, -1, 5, 0}, {0, Inch, 0, 0}, {4, 3, 3, 1}, {5, 3, 6, -1},
	} {
		if near, rest := test.l.Snap(test.pitch); near != test.near || rest != test.rest {
			t.Errorf("%d on marks of %d: got %d and %d, want %d and %d", test.l, test.pitch, near, rest, test.near, test.rest)
		}
	}
}

func drawLength(t *rapid.T) Length {
	return Length(rapid.Int64Range(-int64(Max), int64(Max)).Draw(t, "nm"))
}

// The nearest mark is a mark, is never further than half a pitch, and nothing of the length is lost.
func TestSnapProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(t)
		pitch := Length(rapid.Int64Range(1, int64(Inch)).Draw(t, "pitch"))
		near, rest := l.Snap(pitch)
		if near+rest != l || !near.OnMark(pitch) || 2*rest.Abs() > pitch {
			t.Fatalf("%d on marks of %d: %d and %d", l, pitch, near, rest)
		}
		if again, left := near.Snap(pitch); again != near || left != 0 {
			t.Fatalf("the mark %d is moved to %d", near, again)
		}
		if minus, _ := (-l).Snap(pitch); minus != -near {
			t.Fatalf("%d goes to %d, but its opposite to %d", l, near, minus)
		}
		if l.OnMark(pitch) != (rest == 0) || !l.OnMark(0) {
			t.Fatalf("%d on marks of %d: OnMark says %v", l, pitch, l.OnMark(pitch))
		}
	})
}

// Whatever is printed as exact reads as the same length; millimetres are exact always.
func TestExactProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(t)
		if rapid.Bool().Draw(t, "ruler") {
			l, _ = l.Snap(Inch / 64)
		}
		for _, u := range []Unit{MM, CM, IN} {
			s, ok := l.Exact(u)
			if !ok {
				if u != IN {
					t.Fatalf("%d nm is not exact in %v", l, u)
				}
				continue
			}
			if back, err := Parse(s+" "+u.String(), MM); err != nil || back != l {
				t.Fatalf("%d nm is printed as %q and read as %d nm (%v)", l, s, back, err)
			}
		}
	})
}

// A rounded number says so, and is no further off than it may be: 1/32 in, or 0.005 mm.
func TestHumanProperty(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := drawLength(t) * 9 / 10 // what is rounded up must not be too long to be read again
		for u, most := range map[Unit]Length{MM: 5 * Micrometre, CM: 5 * Micrometre, IN: Inch / 32} {
			s, rounded := strings.CutPrefix(l.Human(u), "≈ ")
			back, err := Parse(s, MM)
			if err != nil {
				t.Fatal(err)
			}
			if (back == l) == rounded || (back-l).Abs() > most {
				t.Fatalf("%d nm is printed as %q, which is %d nm", l, l.Human(u), back)
			}
		}
	})
}

// Every single-character fraction stands for what its name in the Unicode standard says (Number Forms, U+2150 on, and
// Latin-1); here they are spelled out again, from that standard.
func TestVulgarFractions(t *testing.T) {
	spelled := map[rune]string{'½': "1/2", '¼': "1/4", '¾': "3/4", '⅛': "1/8", '⅜': "3/8", '⅝': "5/8", '⅞': "7/8",
		'⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5",
		'⅙': "1/6", '⅚': "5/6", '⅒': "1/10"}
	if len(spelled) != len(vulgar) {
		t.Errorf("%d fractions are read, %d are tested", len(vulgar), len(spelled))
	}
	for r, text := range spelled {
		num, den, _ := strings.Cut(text, "/")
		n, _ := strconv.ParseInt(num, 10, 64)
		d, _ := strconv.ParseInt(den, 10, 64)
		if vulgar[r] != [2]int64{n, d} {
			t.Errorf("%c is %v", r, vulgar[r])
		}
	}
}
