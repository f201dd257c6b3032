package stock

import (
	"foldwright/length"
	"foldwright/problem"
)

// Clearance is the room that a card wants in an envelope of a family, in all, both ways.
type Clearance struct {
	Unit length.Unit
	Room length.Length
	Origin
}

func parseClearances(g grid, sources map[string]Source) ([]Clearance, problem.List) {
	p := &parser{sources: sources}
	var out []Clearance
	for _, r := range g.rows {
		u := p.unit(r)
		out = append(out, Clearance{u, p.length(r, "clearance", u), p.origin(r)})
	}
	return out, p.probs
}

// Clearances returns the clearances.
func (t *Table) Clearances() []Clearance { return append([]Clearance(nil), t.clearances...) }

// Holds returns the largest flat card that goes into an envelope: its size less the clearance of its family. The envelope
// is measured outside; the clearance is meant to allow for that. A thick card wants its thickness besides.
func (t *Table) Holds(e Envelope) (short, long length.Length) {
	for _, c := range t.clearances {
		if c.Unit == e.Unit {
			return e.Short - c.Room, e.Long - c.Room
		}
	}
	return e.Short, e.Long
}
