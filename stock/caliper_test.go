package stock

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/check"
	"foldwright/length"
)

func TestTable_Caliper(t *testing.T) {
	table := load(t)
	check.Each(t, "testdata/check/caliper.csv", func(t *testing.T, r check.Row) {
		c, err := table.Caliper(r.Text("material"), r.Float("gsm"))
		if err != nil {
			t.Fatal(err)
		}
		r.Near(c.Typical.MM())
	})
}

func TestTable_Caliper_between(t *testing.T) {
	table := load(t)
	c, err := table.Caliper("Uncoated  WOODFREE paper", 225) // half way from 200 (0.23 mm) to 250 (0.29 mm)
	if err != nil {
		t.Fatal(err)
	}
	if want := 260 * length.Micrometre; c.Typical != want || c.Status != Derived || c.Note != "between 200 and 250 gsm" {
		t.Errorf("got %v mm, %v, %q; want 0.26 mm, derived, between 200 and 250 gsm", c.Typical.MM(), c.Status, c.Note)
	}
}

func TestTable_Caliper_errors(t *testing.T) {
	table := load(t)
	for _, c := range []struct {
		material string
		grammage float64
		want     string
	}{
		{"patterned paper", 100, "patterned paper is listed from 120 to 190 gsm, not at 100; measure a stack of ten sheets and give the thickness of one"},
		{"patterned paper", 200, "patterned paper is listed from 120 to 190 gsm, not at 200; measure a stack of ten sheets and give the thickness of one"},
		{"patterned paper", math.NaN(), "patterned paper is listed from 120 to 190 gsm, not at NaN; measure a stack of ten sheets and give the thickness of one"},
		{"patterned paper", math.Inf(1), "patterned paper is listed from 120 to 190 gsm, not at +Inf; measure a stack of ten sheets and give the thickness of one"},
		{"chipboard 40 pt", 300, "chipboard 40 pt is listed by thickness, not by grammage"},
		{"chipbord 40 pt", 0, `there is no material "chipbord 40 pt"; did you mean "chipboard 40 pt"?`},
	} {
		if got, err := table.Caliper(c.material, c.grammage); fmt.Sprint(err) != c.want || got.Material != "" {
			t.Errorf("%s at %v: got %+v, %v; want %s", c.material, c.grammage, got, err, c.want)
		}
	}
}

// TestTable_Caliper_properties: for every material and grammage between its lowest and its highest row (1) low <= typical
// <= high, (2) the value lies between those of the two rows beside it, and (3) a heavier sheet of the built-in materials
// is not thinner.
func TestTable_Caliper_properties(t *testing.T) {
	table := load(t)
	rapid.Check(t, func(t *rapid.T) {
		m := rapid.SampledFrom(table.Materials()).Draw(t, "material")
		rows := rowsOf(table, m)
		g := rapid.Float64Range(rows[0].Grammage, rows[len(rows)-1].Grammage).Draw(t, "grammage")
		c, err := table.Caliper(m, g)
		if err != nil {
			t.Fatal(err)
		}
		if !(c.Low <= c.Typical && c.Typical <= c.High) {
			t.Errorf("(1) got %v, %v, %v", c.Low, c.Typical, c.High)
		}
		for i, r := range rows {
			if r.Grammage <= g && r.Typical > c.Typical || r.Grammage >= g && r.Typical < c.Typical {
				t.Errorf("(2) row %d: %v gsm %v mm; got %v gsm %v mm", i, r.Grammage, r.Typical.MM(), g, c.Typical.MM())
			}
		}
		heavier, err := table.Caliper(m, min(g*1.01, rows[len(rows)-1].Grammage))
		if err != nil || heavier.Typical < c.Typical {
			t.Errorf("(3) got %v, %v; want at least %v", heavier.Typical, err, c.Typical)
		}
	})
}

func rowsOf(table *Table, material string) []Caliper {
	var rows []Caliper
	for _, c := range table.Calipers() {
		if c.Material == material {
			rows = append(rows, c)
		}
	}
	return rows
}

// TestCalipers_bulk: bulk (thickness over grammage, ISO 534) of paper and board lies between that of a dense vellum and of
// a folding boxboard, 0.75 to 1.5 cm³/g; a slip of the decimal point would not. The bounds are from memory.
func TestCalipers_bulk(t *testing.T) {
	checked := 0
	for _, c := range load(t).Calipers() {
		if c.Grammage == 0 {
			continue
		}
		checked++
		for _, l := range []length.Length{c.Low, c.Typical, c.High} {
			if bulk := l.MM() * 1000 / c.Grammage; bulk < 0.74 || bulk > 1.5 {
				t.Errorf("%s at %v gsm: got %.3f cm³/g, want 0.74 to 1.5", c.Material, c.Grammage, bulk)
			}
		}
	}
	if checked != 35 {
		t.Errorf("got %d rows with a grammage, want 35", checked)
	}
}
