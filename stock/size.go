package stock

import (
	"foldwright/length"
	"foldwright/problem"
)

// Entry is what every named size has.
type Entry struct {
	// ID is the stable name for programs, such as na-letter.
	ID string
	// Name is the name for people; Also are others under which it is found.
	Name string
	Also []string
	Origin
}

// Sheet is paper as it is sold.
type Sheet struct {
	Entry
	// System is the standard or the trade that defines the size.
	System string
	// Unit is the one in which the system defines the size.
	Unit        length.Unit
	Short, Long length.Length
}

// Envelope is an envelope by its outside, finished size.
type Envelope struct {
	Entry
	// Family is the standard or the trade that defines the size.
	Family      string
	Unit        length.Unit
	Short, Long length.Length
}

// Insert is a folded card, the sheet it is folded from and the envelope it is made for.
type Insert struct {
	Entry
	Unit                    length.Unit
	FoldedShort, FoldedLong length.Length
	FlatShort, FlatLong     length.Length
	// Envelope is the ID of the envelope.
	Envelope string
}

func (p *parser) entry(r row) Entry {
	return Entry{ID: p.text(r, "id"), Name: p.text(r, "name"), Also: several(r["also"].text), Origin: p.origin(r)}
}

// unit reads the column unit.
func (p *parser) unit(r row) length.Unit {
	for _, u := range []length.Unit{length.MM, length.CM, length.IN} {
		if r["unit"].text == u.String() {
			return u
		}
	}
	p.add("table-cell", r["unit"].where, "mm, cm or in", "%q is not a unit", r["unit"].text)
	return length.MM
}

// length reads a measurement above zero in the row's unit.
func (p *parser) length(r row, column string, unit length.Unit) length.Length {
	c := r[column]
	l, err := length.Parse(c.text, unit)
	switch {
	case err != nil:
		p.add("table-cell", c.where, "", "%s: %v", column, err)
	case l <= 0:
		p.add("table-cell", c.where, "a measurement above 0", "%s is %s", column, c.text)
	default:
		return l
	}
	return 0
}

// ascending reads columns whose measurements must not fall from left to right.
func (p *parser) ascending(r row, unit length.Unit, columns ...string) []length.Length {
	out := make([]length.Length, len(columns))
	for i, column := range columns {
		out[i] = p.length(r, column, unit)
		if i > 0 && out[i] > 0 && out[i] < out[i-1] {
			p.add("table-order", r[column].where, columns[i-1]+" at most as long as "+column,
				"%s is %s, which is shorter than %s, %s", column, r[column].text, columns[i-1], r[columns[i-1]].text)
		}
	}
	return out
}

func parseSheets(g grid, sources map[string]Source) ([]Sheet, problem.List) {
	p := &parser{sources: sources}
	var sheets []Sheet
	for _, r := range g.rows {
		u := p.unit(r)
		size := p.ascending(r, u, "short", "long")
		sheets = append(sheets, Sheet{p.entry(r), p.text(r, "system"), u, size[0], size[1]})
	}
	return sheets, p.probs
}

func parseEnvelopes(g grid, sources map[string]Source) ([]Envelope, problem.List) {
	p := &parser{sources: sources}
	var envelopes []Envelope
	for _, r := range g.rows {
		u := p.unit(r)
		size := p.ascending(r, u, "short", "long")
		envelopes = append(envelopes, Envelope{p.entry(r), p.text(r, "family"), u, size[0], size[1]})
	}
	return envelopes, p.probs
}

func parseInserts(g grid, sources map[string]Source, envelopes []Envelope) ([]Insert, problem.List) {
	p := &parser{sources: sources}
	byID := map[string]Envelope{}
	for _, e := range envelopes {
		byID[e.ID] = e
	}
	var inserts []Insert
	for _, r := range g.rows {
		u := p.unit(r)
		folded := p.ascending(r, u, "folded_short", "folded_long")
		flat := p.ascending(r, u, "flat_short", "flat_long")
		in := Insert{p.entry(r), u, folded[0], folded[1], flat[0], flat[1], p.text(r, "envelope")}
		if e, ok := byID[in.Envelope]; !ok && len(byID) > 0 {
			p.add("table-name", r["envelope"].where, "an id from the first column of envelopes.csv",
				"there is no envelope %q%s", in.Envelope, didYouMean(in.Envelope, sortedKeys(byID)))
		} else if ok && (in.FoldedShort > e.Short || in.FoldedLong > e.Long) {
			p.add("table-order", r["envelope"].where, "a folded size within the envelope's",
				"the card is larger than the envelope %s, which is %s x %s", e.Name, e.Short.Human(u), e.Long.Human(u))
		}
		inserts = append(inserts, in)
	}
	return inserts, p.probs
}
