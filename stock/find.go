package stock

import (
	"slices"
	"strings"

	"foldwright/problem"
)

// named is what can be found by name.
type named interface{ entry() Entry }

func (e Entry) entry() Entry { return e }

// names returns every name under which the entry is found.
func (e Entry) names() []string { return append([]string{e.Name, e.ID}, e.Also...) }

func entriesOf[T named](list []T) []Entry {
	out := make([]Entry, len(list))
	for i, x := range list {
		out[i] = x.entry()
	}
	return out
}

// fold makes names that a person would call the same equal: case and spaces do not matter, × is x.
func fold(name string) string {
	return strings.ToLower(strings.ReplaceAll(strings.Join(strings.Fields(name), ""), "×", "x"))
}

// lookup returns the index of the entry with this name, or -1.
func lookup(entries []Entry, name string) int {
	return slices.IndexFunc(entries, func(e Entry) bool {
		return slices.ContainsFunc(e.names(), func(n string) bool { return fold(n) == fold(name) })
	})
}

// find returns the item with this name. kind is the word for the list in the message.
func find[T named](t *Table, list []T, kind, name string) (T, error) {
	entries := entriesOf(list)
	if i := lookup(entries, name); i >= 0 {
		return list[i], nil
	}
	unknown := &UnknownError{Kind: kind, Name: name}
	for _, other := range []struct {
		kind    string
		entries []Entry
	}{{"sheet", entriesOf(t.sheets)}, {"envelope", entriesOf(t.envelopes)}, {"folded card", entriesOf(t.inserts)}} {
		if lookup(other.entries, name) >= 0 {
			unknown.Elsewhere = other.kind
		}
	}
	var known []string
	for _, e := range entries {
		known = append(append(known, e.Name), e.Also...)
	}
	unknown.Near, _ = problem.Suggest(name, known)
	var none T
	return none, unknown
}

// Sheet returns the sheet with this name, id or other name: "A4", "Letter". Upper and lower case and spaces do not matter.
// Errors: *UnknownError.
func (t *Table) Sheet(name string) (Sheet, error) { return find(t, t.sheets, "sheet", name) }

// Envelope returns the envelope with this name, id or other name: "C6", "A7", "#10". Errors: *UnknownError.
func (t *Table) Envelope(name string) (Envelope, error) {
	return find(t, t.envelopes, "envelope", name)
}

// Insert returns the folded card with this name, id or other name: "A7 card". Errors: *UnknownError.
func (t *Table) Insert(name string) (Insert, error) { return find(t, t.inserts, "folded card", name) }

// Source returns the source with this id. Errors: *UnknownError.
func (t *Table) Source(id string) (Source, error) {
	if s, ok := t.sources[id]; ok {
		return s, nil
	}
	near, _ := problem.Suggest(id, sortedKeys(t.sources))
	return Source{}, &UnknownError{Kind: "source", Name: id, Near: near}
}

// Sheets returns every sheet in the order of its table.
func (t *Table) Sheets() []Sheet { return slices.Clone(t.sheets) }

// Envelopes returns every envelope in the order of its table.
func (t *Table) Envelopes() []Envelope { return slices.Clone(t.envelopes) }

// Inserts returns every folded card in the order of its table.
func (t *Table) Inserts() []Insert { return slices.Clone(t.inserts) }

// Calipers returns every thickness in the order of its table.
func (t *Table) Calipers() []Caliper { return slices.Clone(t.calipers) }

// Materials returns the name of every material once, in the order of its table.
func (t *Table) Materials() []string {
	var out []string
	for _, c := range t.calipers {
		if !slices.Contains(out, c.Material) {
			out = append(out, c.Material)
		}
	}
	return out
}
