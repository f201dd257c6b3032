package spring

import (
	"math"
	"os"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/internal/check"
)

func assume(t testing.TB) *Assumptions {
	t.Helper()
	a, problems := Assume()
	if a == nil {
		t.Fatal(problems)
	}
	return a
}

func TestPlateStiffness(t *testing.T) {
	check.Each(t, "testdata/check/plate.csv", func(t *testing.T, r check.Row) {
		r.NearColumn("expected_mNm", PlateStiffness(r.Float("modulus_GPa"), r.Float("caliper_mm")))
	})
}

// TestMechanics: what was measured wins, and what is assumed says so.
func TestMechanics(t *testing.T) {
	a := assume(t)
	s := &card.Stock{Name: "navy", Grammage: 270, Caliper: mm(0.36)}
	m := a.Mechanics(s)
	for name, q := range map[string]Quantity{"along": m.Along, "across": m.Across, "crease": m.Crease, "rest": m.Rest, "scored": m.Scored} {
		if q.Measured || !(q.Low < q.Typical && q.Typical < q.High) || !strings.Contains(q.Source, "assumed") && !strings.Contains(q.Source, "from memory") {
			t.Errorf("%s: %+v", name, q)
		}
	}
	if got, want := m.Along.Typical, 5.0*0.36*0.36*0.36/12*1000; math.Abs(got-want) > 1e-9 {
		t.Errorf("along the grain: got %g, want %g mN·m", got, want)
	}
	given := func(v float64) card.Number { return card.Number{Value: v, Given: true} }
	s.StiffnessMilliNm, s.CreaseNPerRad, s.RestDeg, s.ScoredDeg = given(4.1), given(0.2), given(90), given(0)
	m = a.Mechanics(s)
	for name, c := range map[string]struct {
		got  Quantity
		want float64
	}{"along": {m.Along, 4.1}, "across": {m.Across, 4.1}, "crease": {m.Crease, 0.2}, "rest": {m.Rest, math.Pi / 2}, "scored": {m.Scored, 0}} {
		if !c.got.Measured || math.Abs(c.got.Typical-c.want) > 1e-12 || c.got.Low != c.got.High {
			t.Errorf("%s: got %+v, want %g", name, c.got, c.want)
		}
	}
	// A measured stiffness also says more of the crease: B/κ is 50 calipers.
	s.CreaseNPerRad = card.Number{}
	if got := a.Mechanics(s).Crease.Typical; math.Abs(got-4.1/(50*0.36)) > 1e-12 {
		t.Errorf("crease from a measured stiffness: %g", got)
	}
}

// TestAssumptions_recipe: RECIPE.md names the angles that are taken where the stock does not say.
func TestAssumptions_recipe(t *testing.T) {
	text, err := os.ReadFile("../RECIPE.md")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(text), "110 degrees") || !strings.Contains(string(text), "25 for the others") {
		t.Error("RECIPE.md names other angles than 110 and 25 degrees")
	}
	m := assume(t).Mechanics(nil)
	if math.Abs(m.Rest.Typical-110*degree) > 1e-12 || math.Abs(m.Scored.Typical-25*degree) > 1e-12 {
		t.Errorf("got %g and %g degrees", m.Rest.Typical/degree, m.Scored.Typical/degree)
	}
}

// TestAssumptions_order: a fold that is pressed harder remembers a larger angle.
func TestAssumptions_order(t *testing.T) {
	a, last := assume(t), 0.0
	for _, q := range []string{"scored", "rest-barely", "rest", "rest-hard"} {
		v, ok := a.Of(q)
		if !ok || v.Typical <= last {
			t.Errorf("%s: %g degrees, more than %g is wanted", q, v.Typical, last)
		}
		last = v.Typical
	}
	if _, ok := a.Of("sound"); ok {
		t.Error("there is a quantity called sound")
	}
}

func TestReadAssumptions_problems(t *testing.T) {
	good := string(builtIn)
	for _, c := range []struct{ from, to, want string }{
		{"quantity,", "quality,", "mechanics.csv:1:1  the table does not start with its columns [table-row]"},
		{"rest,80,110,140,deg", "rest,80,70,140,deg", "low, typical and high are 80, 70 and 140 [table-cell]"},
		{"rest,80,110,140,deg", "rest,80,110,190,deg", "low, typical and high are 80, 110 and 190 [table-cell]"},
		{"rest,80,110,140,deg", "rest,NaN,110,140,deg", `the number is "NaN" [table-cell]`},
		{"rest,80,110,140,deg", "rest,80,110,140,rad", `the unit is "rad" [table-cell]`},
		{"rest-hard,", "rest-soft,", `the quantity "rest-soft" is unknown or there twice [table-name]`},
		{"crease-length,25", "crease-length,0", "low, typical and high are 0, 50 and 100 [table-cell]"},
		{"scored,5,25,45,deg,assumed,\"fold angle of a score that was bent by its tool and never folded shut\",none\n", "", "the quantity scored is not there [table-name]"},
	} {
		text := strings.Replace(good, c.from, c.to, 1)
		if text == good {
			t.Fatalf("%q is not in the table", c.from)
		}
		a, p := ReadAssumptions("mechanics.csv", []byte(text))
		if a != nil || len(p) == 0 || !strings.Contains(p[0].String(), c.want) {
			t.Errorf("got %v, want %q", p, c.want)
		}
	}
}

func FuzzReadAssumptions(f *testing.F) {
	f.Add(string(builtIn))
	f.Add(columns + "\nrest,1,2,3,deg,a,b,c\n")
	f.Add("# nothing\n\"")
	f.Fuzz(func(t *testing.T, text string) {
		a, p := ReadAssumptions("f", []byte(text))
		if (a == nil) == (len(p) == 0) {
			t.Fatalf("%v with %v", a, p)
		}
	})
}
