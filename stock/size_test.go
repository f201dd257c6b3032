package stock

import (
	"fmt"
	"math"
	"testing"

	"foldwright/internal/check"
	"foldwright/length"
)

// series returns the sides in whole millimetres of sheets or envelopes whose names are prefix and a number from first on.
func series(t *testing.T, prefix string, first int, find func(string) (short, long length.Length, err error)) [][2]int64 {
	t.Helper()
	var out [][2]int64
	for n := first; ; n++ {
		short, long, err := find(fmt.Sprintf("%s%d", prefix, n))
		if err != nil {
			return out
		}
		if short%length.Millimetre != 0 || long%length.Millimetre != 0 {
			t.Errorf("%s%d: got %v x %v mm, want whole millimetres", prefix, n, short.MM(), long.MM())
		}
		out = append(out, [2]int64{int64(short / length.Millimetre), int64(long / length.Millimetre)})
	}
}

func sheets(t *testing.T) func(string) (length.Length, length.Length, error) {
	table := load(t)
	return func(name string) (length.Length, length.Length, error) {
		s, err := table.Sheet(name)
		return s.Short, s.Long, err
	}
}

func envelopes(t *testing.T) func(string) (length.Length, length.Length, error) {
	table := load(t)
	return func(name string) (length.Length, length.Length, error) {
		e, err := table.Envelope(name)
		return e.Short, e.Long, err
	}
}

// TestSheets_halving: each sheet of a series is the one before it cut in half across its long side, the half millimetre
// dropped. Source: ISO 216:2007 (A and B), ISO 217 (RA and SRA), JIS P 0138 (B) and, for envelopes, ISO 269 (C), each as
// described in the public tables that sources.csv names; the standards' own texts were not seen.
func TestSheets_halving(t *testing.T) {
	for _, c := range []struct {
		prefix string
		first  int
		find   func(string) (length.Length, length.Length, error)
		count  int
	}{
		{"ISO A", 0, sheets(t), 11}, {"ISO B", 0, sheets(t), 11}, {"JIS B", 0, sheets(t), 11},
		{"RA", 0, sheets(t), 5}, {"SRA", 0, sheets(t), 5}, {"C", 3, envelopes(t), 5},
	} {
		s := series(t, c.prefix, c.first, c.find)
		if len(s) != c.count {
			t.Errorf("%s: got %d sizes, want %d", c.prefix, len(s), c.count)
		}
		for i := 1; i < len(s); i++ {
			if want := [2]int64{s[i-1][1] / 2, s[i-1][0]}; s[i] != want {
				t.Errorf("%s%d: got %v mm, want %v mm, half of %v", c.prefix, c.first+i, s[i], want, s[i-1])
			}
		}
	}
}

// TestSheets_root2: ISO 216 makes the sides of a sheet stand as 1 to √2, A0 one square metre and B0 one metre wide, and
// ISO 269 puts C between A and B; so the short side of size n is 2^(-1/4 - n/2), 2^(-n/2) and 2^(-1/8 - n/2) metres, and
// the long side √2 times that. Halving drops half millimetres and never adds: what is lost stays below 1 mm.
func TestSheets_root2(t *testing.T) {
	for _, c := range []struct {
		prefix string
		first  int
		find   func(string) (length.Length, length.Length, error)
		power  float64
	}{
		{"ISO A", 0, sheets(t), -1. / 4}, {"ISO B", 0, sheets(t), 0}, {"C", 3, envelopes(t), -1. / 8},
	} {
		for i, s := range series(t, c.prefix, c.first, c.find) {
			short := 1000 * math.Pow(2, c.power-float64(c.first+i)/2)
			for side, want := range []float64{short, short * math.Sqrt2} {
				// the sides of A0 and B0 are rounded, so the larger one may stand above the exact value by half a millimetre
				if got := float64(s[side]); got > want+0.5 || got < want-1 {
					t.Errorf("%s%d: got %v mm, want %.2f mm less at most 1 mm", c.prefix, c.first+i, got, want)
				}
			}
		}
	}
}

// TestSheets_area: the areas by which the largest sheet of each series is defined. A0 1 m² (ISO 216), RA0 1.05 m² and SRA0
// 1.15 m² (ISO 217), JIS B0 1.5 m² (JIS P 0138). RA and SRA are rounded to whole centimetres, which moves an area by
// less than 0.2 %; A0 and JIS B0 to whole millimetres, less than 0.1 %.
func TestSheets_area(t *testing.T) {
	for _, c := range []struct {
		name              string
		want, tolerancePC float64
	}{{"A0", 1, 0.1}, {"RA0", 1.05, 0.2}, {"SRA0", 1.15, 0.2}, {"JIS B0", 1.5, 0.1}} {
		s, err := load(t).Sheet(c.name)
		if err != nil {
			t.Fatal(err)
		}
		if got := s.Short.MM() * s.Long.MM() / 1e6; math.Abs(got-c.want) > c.want*c.tolerancePC/100 {
			t.Errorf("%s: got %.4f m², want %.4f m² within %v %%", c.name, got, c.want, c.tolerancePC)
		}
	}
}

// TestEnvelopes_between: a C envelope holds the A sheet of its number and goes into the B envelope of that number; its
// sides are the geometric means of theirs (ISO 269), within the 1 mm that halving drops.
func TestEnvelopes_between(t *testing.T) {
	a, b := series(t, "ISO A", 0, sheets(t)), series(t, "ISO B", 0, sheets(t))
	c := series(t, "C", 3, envelopes(t))
	if len(c) == 0 {
		t.Fatal("there are no C envelopes")
	}
	for i, s := range c {
		n := i + 3
		for side := range 2 {
			mean := math.Sqrt(float64(a[n][side] * b[n][side]))
			if got := float64(s[side]); math.Abs(got-mean) > 1 || s[side] <= a[n][side] || s[side] >= b[n][side] {
				t.Errorf("C%d: got %v mm, want %.2f mm within 1 mm, between %d and %d", n, got, mean, a[n][side], b[n][side])
			}
		}
	}
}

// TestSheets_inches: ANSI/ASME Y14.1 doubles the short side from one letter to the next (A 8.5 x 11 to E 34 x 44).
// From memory; the public media table in sources.csv gives the same numbers.
func TestSheets_inches(t *testing.T) {
	find := sheets(t)
	short, long, err := find("ANSI A")
	if err != nil || short != 17*length.Inch/2 || long != 11*length.Inch {
		t.Fatalf("got %v x %v mm, %v; want 8.5 x 11 in", short.MM(), long.MM(), err)
	}
	for _, name := range []string{"ANSI B", "ANSI C", "ANSI D", "ANSI E"} {
		s, l, err := find(name)
		if err != nil || s != long || l != 2*short {
			t.Errorf("%s: got %v x %v mm, %v; want %v x %v mm", name, s.MM(), l.MM(), err, long.MM(), 2*short.MM())
		}
		short, long = s, l
	}
}

// TestInserts: folding once halves one side of the sheet (an odd ISO side is listed without its half millimetre, see
// TestSheets_halving), and a card that is folded from a listed sheet is half of that one.
func TestInserts(t *testing.T) {
	table := load(t)
	for _, in := range table.Inserts() {
		one, other := in.FoldedShort, in.FoldedLong
		halved, kept := in.FlatLong, in.FlatShort
		if in.FlatLong == other { // long and narrow: the short side was doubled
			halved, kept = in.FlatShort, in.FlatLong
		}
		if lost := halved - 2*one; kept != other || lost != 0 && !(in.Unit == length.MM && lost == length.Millimetre) {
			t.Errorf("%s: got %v x %v mm flat, want %v mm doubled beside %v mm", in.ID, in.FlatShort.MM(), in.FlatLong.MM(), one.MM(), other.MM())
		}
	}
	for _, c := range []struct{ insert, sheet string }{{"A6 folded", "A5"}, {"A5 folded", "A4"}, {"A9 card", "Letter"}, {"A2 card", "Half letter"}} {
		in, err := table.Insert(c.insert)
		s, err2 := table.Sheet(c.sheet)
		if err != nil || err2 != nil || in.FlatShort != s.Short || in.FlatLong != s.Long {
			t.Errorf("%s: got %v x %v mm flat, want %v x %v mm, the sheet %s (%v, %v)", c.insert, in.FlatShort.MM(), in.FlatLong.MM(), s.Short.MM(), s.Long.MM(), c.sheet, err, err2)
		}
	}
}

// TestEnvelopes_aspect compares long over short side with ratios worked out by hand from published charts.
func TestEnvelopes_aspect(t *testing.T) {
	table := load(t)
	check.Each(t, "testdata/check/aspect.csv", func(t *testing.T, r check.Row) {
		e, err := table.Envelope(r.Text("envelope"))
		if err != nil {
			t.Fatal(err)
		}
		r.Near(e.Long.MM() / e.Short.MM())
	})
}

// TestSheets_print compares the size of sheets in other units with published numbers.
func TestSheets_print(t *testing.T) {
	table := load(t)
	check.Each(t, "testdata/check/points.csv", func(t *testing.T, r check.Row) {
		s, err := table.Sheet(r.Text("sheet"))
		if err != nil {
			t.Fatal(err)
		}
		r.NearColumn("expected_short_pt", float64(72*s.Short)/float64(length.Inch))
		r.NearColumn("expected_long_pt", float64(72*s.Long)/float64(length.Inch))
	})
}
