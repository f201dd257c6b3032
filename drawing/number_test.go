package drawing

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/length"
)

func TestNumber(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{0, "0"}, {42, "42"}, {-42, "-42"}, {10.5, "10.5"}, {0.05, "0.05"}, {-0.25, "-0.25"}, {1.2344, "1.234"},
		{1.5875, "1.588"},                                    // 1/16 in: a tie
		{-1.5875, "-1.588"},                                  // away from zero
		{1.5875 - 1e-12, "1.588"}, {1.5875 + 1e-12, "1.588"}, // float noise does not decide
		{0.396875, "0.397"}, {0.0004, "0"}, {-0.0004, "0"}, {0.0005, "0.001"}, {999.9996, "1000"},
		{100_000, "100000"}, {1e12, "0"}, {math.NaN(), "0"}, {math.Inf(1), "0"}, {math.Inf(-1), "0"},
	} {
		if got := Number(c.v); got != c.want {
			t.Errorf("Number(%v) = %q, want %q", c.v, got, c.want)
		}
	}
}

// TestNumber_Reads asserts: (1) what is printed reads back within half a micrometre; (2) it is a plain decimal without
// trailing zeros; (3) a whole number of micrometres is printed exactly.
func TestNumber_Reads(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := length.Length(rapid.Int64Range(-int64(length.Max), int64(length.Max)).Draw(t, "nm"))
		s := Number(l.MM())
		back, err := strconv.ParseFloat(s, 64)
		if err != nil || math.Abs(back-l.MM()) > 0.0005+1e-9 {
			t.Errorf("Number(%v) = %q, read back as %v (%v)", l.MM(), s, back, err)
		}
		if strings.ContainsAny(s, "eE+") || strings.Contains(s, ".") && strings.HasSuffix(s, "0") {
			t.Errorf("Number(%v) = %q is no plain decimal", l.MM(), s)
		}
		if exact, ok := l.Exact(length.MM); ok && l%length.Micrometre == 0 && s != exact {
			t.Errorf("Number(%v) = %q, want %q", l.MM(), s, exact)
		}
	})
}

// TestFitDash asserts: (1) a line begins and ends with a full first dash; (2) at least one whole period is shown; (3) on a
// line of at least two periods the pattern changes by no more than a third.
func TestFitDash(t *testing.T) {
	patterns := [][]float64{{5, 1, 0.75, 1}, {2, 1.25}, {0.5, 0.75}, {7, 1}}
	rapid.Check(t, func(t *rapid.T) {
		pattern := rapid.SampledFrom(patterns).Draw(t, "pattern")
		long := rapid.Float64Range(0.5, 400).Draw(t, "length")
		fitted := FitDash(pattern, long)
		period := 0.0
		for _, v := range fitted {
			period += v
		}
		n := (long - fitted[0]) / period
		if math.Abs(n-math.Round(n)) > 1e-6 || math.Round(n) < 1 {
			t.Errorf("%g mm hold %g periods and a dash", long, n)
		}
		if k := fitted[0] / pattern[0]; long > 2*period/k+pattern[0] && (k < 0.75 || k > 4.0/3) {
			t.Errorf("the dashes of a line of %g mm are %g times as long as they should be", long, k)
		}
	})
	for _, c := range []struct {
		pattern []float64
		long    float64
	}{{nil, 10}, {[]float64{1}, 10}, {[]float64{2, 1}, 0}, {[]float64{0, 0}, 5}, {[]float64{2, 1}, math.NaN()}} {
		if got := FitDash(c.pattern, c.long); got != nil {
			t.Errorf("FitDash(%v, %g) = %v, want none", c.pattern, c.long, got)
		}
	}
}

func TestPolyline_Dash(t *testing.T) {
	straight := Line(ScoreValley, Point{0, 0}, Point{0, 20})
	if got, want := straight.Dash(), FitDash([]float64{2, 1.25}, 20); len(got) != 2 || got[0] != want[0] {
		t.Errorf("a straight valley has the dashes %v, want %v", got, want)
	}
	bent := Polyline{Line: ScoreValley, Points: []Point{{0, 0}, {5, 0}, {5, 5}}}
	if got := bent.Dash(); len(got) != 2 || got[0] != 2 {
		t.Errorf("a bent valley has the dashes %v, want them unfitted", got)
	}
	if got := Line(Cut, Point{0, 0}, Point{9, 0}).Dash(); got != nil {
		t.Errorf("a cut has the dashes %v", got)
	}
}
