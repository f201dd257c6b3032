package stock

import (
	"fmt"
	"slices"
	"strings"

	"foldwright/problem"
)

// Status says how sure a row is.
type Status uint8

// The words that stand in the column "status".
const (
	// Verified was seen in the named source; a size, in two that agree or on the publisher's own page.
	Verified Status = iota
	// Secondary was seen only where others repeat the source ("verified (secondary)").
	Secondary
	// Derived is worked out exactly or, where it is a thickness, between two rows.
	Derived
	// CommonPractice is what the trade does; no source is claimed.
	CommonPractice
	// FromMemory was not seen in a source.
	FromMemory
)

func statusWords() []string {
	return []string{"verified", "verified (secondary)", "derived", "common practice", "from memory"}
}

// String returns the word that stands in a table.
func (s Status) String() string { return statusWords()[s] }

// Source is a place where values were seen.
type Source struct {
	ID       string
	Kind     string
	Citation string
	// Address is where it was seen; may be empty.
	Address string
	// AsOf is the date of the source as far as it is known, in words.
	AsOf string
	Note string
}

// Origin says how sure a row is and where it comes from.
type Origin struct {
	Status Status
	// Note narrows the status down; may be empty.
	Note string
	// Sources holds ids for [Table.Source], at least one.
	Sources []string
	// Where the row stands in its table.
	Where problem.Place
}

// parser reads cells and collects what is wrong with them. Without sources (their table is not readable, which is a
// problem of its own) no id of a source is looked up.
type parser struct {
	sources map[string]Source
	probs   problem.List
}

func (p *parser) add(rule string, where problem.Place, needs, what string, args ...any) {
	p.probs.Add(problem.Problem{Rule: rule, Where: where, What: fmt.Sprintf(what, args...), Needs: needs})
}

// text reads a cell that must say something.
func (p *parser) text(r row, column string) string {
	c := r[column]
	if c.text == "" {
		p.add("table-cell", c.where, "a value in this column", "the cell %q is empty", column)
	}
	return c.text
}

// origin reads the columns status, note and source.
func (p *parser) origin(r row) Origin {
	o := Origin{Note: r["note"].text, Where: r["source"].where}
	o.Where.Column = 1
	status := r["status"]
	if i := slices.Index(statusWords(), status.text); i >= 0 {
		o.Status = Status(i)
	} else {
		p.add("table-cell", status.where, strings.Join(statusWords(), ", "),
			"%q is not a status%s", status.text, didYouMean(status.text, statusWords()))
	}
	for id := range strings.SplitSeq(p.text(r, "source"), ";") {
		id = strings.TrimSpace(id)
		if _, ok := p.sources[id]; !ok && id != "" && len(p.sources) > 0 {
			p.add("table-source", r["source"].where, "an id from the first column of sources.csv",
				"there is no source %q%s", id, didYouMean(id, sortedKeys(p.sources)))
		}
		o.Sources = append(o.Sources, id)
	}
	return o
}

func parseSources(g grid) (map[string]Source, problem.List) {
	p := &parser{}
	sources := map[string]Source{}
	for _, r := range g.rows {
		s := Source{ID: p.text(r, "id"), Kind: p.text(r, "kind"), Citation: p.text(r, "citation"),
			Address: r["address"].text, AsOf: p.text(r, "as_of"), Note: r["note"].text}
		if _, twice := sources[s.ID]; twice {
			p.add("table-name", r["id"].where, "an id of its own for each source", "the source %q is there twice", s.ID)
		}
		sources[s.ID] = s
	}
	return sources, p.probs
}

func sortedKeys[V any](m map[string]V) []string {
	keys := make([]string, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
