package problem

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Place is where a problem stands in a text. Line and Column count from 1, Column in characters; a Line of 0 means the
// card as a whole.
type Place struct {
	File   string
	Line   int
	Column int
}

// String returns file:line:column, leaving out what is not known.
func (p Place) String() string {
	switch {
	case p.Line == 0:
		return p.File
	case p.File == "":
		return fmt.Sprintf("%d:%d", p.Line, p.Column)
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

// Severity says whether a problem stops a card from being proven.
type Severity uint8

const (
	// Error: the card is not proven.
	Error Severity = iota
	// Warning: worth a look; the card can still be proven.
	Warning
)

// String returns "error" or "warning".
func (s Severity) String() string {
	if s == Warning {
		return "warning"
	}
	return "error"
}

// Note points at a second place that takes part in a problem: "the panel it meets is here".
type Note struct {
	Where Place
	What  string
}

// Problem is one thing that is wrong.
type Problem struct {
	// Rule is the stable id of the check, such as "score-outside".
	Rule string
	// Severity is Error unless said otherwise.
	Severity Severity
	Where    Place
	// What is wrong, in the maker's words; lower case, no full stop.
	What string
	// Needs says what would be right; may be empty.
	Needs string
	// Try is text to put in the recipe that cures it, or a plain instruction; may be empty.
	Try   string
	Notes []Note
}

// String prints the problem as the command line shows it, over one or more lines, without a final newline.
func (p Problem) String() string {
	var b strings.Builder
	if where := p.Where.String(); where != "" {
		b.WriteString(where + "  ")
	}
	if p.Severity == Warning {
		b.WriteString("warning: ")
	}
	b.WriteString(p.What)
	fmt.Fprintf(&b, " [%s]", p.Rule)
	if p.Needs != "" {
		b.WriteString("\n    needs: " + p.Needs)
	}
	if p.Try != "" {
		b.WriteString("\n    try:   " + p.Try)
	}
	for _, n := range p.Notes {
		b.WriteString("\n    " + strings.TrimSpace(n.Where.String()+"  "+n.What))
	}
	return b.String()
}

// List is a collection of problems.
type List []Problem

// Add appends a problem.
func (l *List) Add(p Problem) { *l = append(*l, p) }

// HasErrors says whether any problem is an Error.
func (l List) HasErrors() bool {
	return slices.ContainsFunc(l, func(p Problem) bool { return p.Severity == Error })
}

// Sorted returns the problems in the order of their places, errors before warnings at one place, each only once.
func (l List) Sorted() List {
	s := slices.Clone(l)
	slices.SortStableFunc(s, func(a, b Problem) int {
		return cmp.Or(
			strings.Compare(a.Where.File, b.Where.File),
			cmp.Compare(a.Where.Line, b.Where.Line),
			cmp.Compare(a.Where.Column, b.Where.Column),
			cmp.Compare(a.Severity, b.Severity),
			strings.Compare(a.Rule, b.Rule),
			strings.Compare(a.What, b.What))
	})
	return slices.CompactFunc(s, func(a, b Problem) bool {
		return a.Rule == b.Rule && a.Where == b.Where && a.What == b.What
	})
}
