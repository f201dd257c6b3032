package stock

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"foldwright/length"
	"foldwright/problem"
)

// Caliper is the thickness of one sheet of a material.
type Caliper struct {
	Material string
	// Grammage is in g/m² (ISO 536); 0 for a material that is sold by thickness.
	Grammage           float64
	Unit               length.Unit
	Low, Typical, High length.Length
	Origin
}

// GrammageError says that a material is not listed near a grammage. Lowest and Highest bound what is listed, in g/m².
type GrammageError struct {
	Material                  string
	Grammage, Lowest, Highest float64
}

// Error names the range and the way to know better.
func (e *GrammageError) Error() string {
	if e.Highest == 0 {
		return fmt.Sprintf("%s is listed by thickness, not by grammage", e.Material)
	}
	return fmt.Sprintf("%s is listed from %g to %g gsm, not at %g; measure a stack of ten sheets and give the thickness of one",
		e.Material, e.Lowest, e.Highest, e.Grammage)
}

func parseCalipers(g grid, sources map[string]Source) ([]Caliper, problem.List) {
	p := &parser{sources: sources}
	type key struct {
		material string
		grammage float64
	}
	first := map[key]problem.Place{}
	var calipers []Caliper
	for _, r := range g.rows {
		u := p.unit(r)
		t := p.ascending(r, u, "low", "typical", "high")
		c := Caliper{p.text(r, "material"), p.grammage(r), u, t[0], t[1], t[2], p.origin(r)}
		k := key{fold(c.Material), c.Grammage}
		if before, twice := first[k]; twice {
			p.probs.Add(problem.Problem{Rule: "table-name", Where: c.Where,
				What: fmt.Sprintf("%s of this grammage is there twice", c.Material), Needs: "each grammage of a material once",
				Notes: []problem.Note{{Where: before, What: "the first row is here"}}})
		} else {
			first[k] = c.Where
		}
		calipers = append(calipers, c)
	}
	return calipers, p.probs
}

// grammage reads the column gsm; an empty cell is 0.
func (p *parser) grammage(r row) float64 {
	c := r["gsm"]
	if c.text == "" {
		return 0
	}
	g, err := strconv.ParseFloat(c.text, 64)
	if err != nil || !(g > 0 && g <= 5000) { // written so that NaN is refused
		p.add("table-cell", c.where, "a number above 0 and at most 5000, or nothing", "the grammage is %q", c.text)
		return 0
	}
	return g
}

// Caliper returns the thickness of a material at a grammage in g/m²: the row of the table or, between two rows, a value
// worked out on the straight line between them, rounded to the nearest nanometre and marked [Derived]. A material that is sold by
// thickness has the grammage 0. Upper and lower case and spaces in the name do not matter.
//
// Range: 0 <= grammage. Errors: *UnknownError, *GrammageError.
func (t *Table) Caliper(material string, grammage float64) (Caliper, error) {
	var rows []Caliper
	for _, c := range t.calipers {
		if fold(c.Material) == fold(material) {
			rows = append(rows, c)
		}
	}
	if len(rows) == 0 {
		near, _ := problem.Suggest(material, t.Materials())
		return Caliper{}, &UnknownError{Kind: "material", Name: material, Near: near}
	}
	slices.SortFunc(rows, func(a, b Caliper) int { return cmp.Compare(a.Grammage, b.Grammage) })
	i := slices.IndexFunc(rows, func(c Caliper) bool { return c.Grammage >= grammage })
	switch {
	case i >= 0 && rows[i].Grammage == grammage:
		return rows[i], nil
	case i <= 0 || rows[i-1].Grammage == 0 || math.IsNaN(grammage):
		return Caliper{}, outside(rows, grammage)
	}
	return between(rows[i-1], rows[i], grammage), nil
}

// outside says between which grammages a material is listed. rows is sorted and not empty.
func outside(rows []Caliper, grammage float64) error {
	e := &GrammageError{Material: rows[0].Material, Grammage: grammage, Highest: rows[len(rows)-1].Grammage}
	for _, r := range rows {
		if r.Grammage > 0 {
			e.Lowest = r.Grammage
			break
		}
	}
	return e
}

// between returns the row at grammage on the straight line from a to b; a.Grammage < grammage < b.Grammage.
func between(a, b Caliper, grammage float64) Caliper {
	share := (grammage - a.Grammage) / (b.Grammage - a.Grammage)
	mix := func(x, y length.Length) length.Length {
		return length.FromMM(x.MM() + share*(y-x).MM())
	}
	c := Caliper{a.Material, grammage, a.Unit, mix(a.Low, b.Low), mix(a.Typical, b.Typical), mix(a.High, b.High), a.Origin}
	c.Status = Derived
	c.Note = fmt.Sprintf("between %g and %g gsm", a.Grammage, b.Grammage)
	c.Sources = slices.Clone(a.Sources)
	for _, s := range b.Sources {
		if !slices.Contains(c.Sources, s) {
			c.Sources = append(c.Sources, s)
		}
	}
	return c
}
