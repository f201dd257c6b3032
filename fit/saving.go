package fit

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/flat"
	"foldwright/length"
)

// Saving is what a card would be thinner and lighter by without one thing. It is not proven that the card lies flat and
// opens without it.
type Saving struct {
	// What is left out: "one spring", "the topper of gold on front.picture".
	What    string
	Thinner length.Length
	Grams   float64
}

// Savings says what a card would gain without one copy of a piece that is made more than once, with what is glued on it, or
// without a mat or a topper; what saves most thickness stands first, then most weight.
func Savings(c *flat.Closed) []Saving {
	things, regions := thingsOf(c), regionsOf(c)
	without := func(what string, left func(thing) bool) Saving {
		s := Saving{What: what}
		all, rest := length.Length(0), length.Length(0)
		for _, r := range regions {
			all, rest = max(all, thickOf(things, r, nil)), max(rest, thickOf(things, r, left))
		}
		s.Thinner = all - rest
		for _, t := range things {
			if left(t) {
				s.Grams += t.grams
			}
		}
		return s
	}
	var out []Saving
	for i, p := range c.Assembly.Card.Pieces {
		var best *Saving // of its copies
		for k, o := range c.Assembly.Copies {
			if o.Piece != i || p.Copies < 2 {
				continue
			}
			s := without("one "+p.Name, func(t thing) bool { return t.copy == k })
			if best == nil || compareSavings(s, *best) < 0 {
				best = &s
			}
		}
		if best != nil {
			out = append(out, *best)
		}
	}
	for _, t := range things {
		if t.decoration >= 0 {
			out = append(out, without("the "+t.name, func(o thing) bool { return o.decoration == t.decoration }))
		}
	}
	slices.SortStableFunc(out, compareSavings)
	return out
}

// compareSavings puts what saves most first.
func compareSavings(a, b Saving) int {
	return cmp.Or(cmp.Compare(b.Thinner, a.Thinner), cmp.Compare(b.Grams, a.Grams))
}

// Enough names the savings each of which alone makes all the changes: "without one spring". Changes of other dimensions than
// thickness and weight are made by none.
func Enough(changes []Change, savings []Saving) []string {
	var out []string
	for _, s := range savings {
		does := len(changes) > 0
		for _, c := range changes {
			switch {
			case c.Dim == Thickness && c.Less:
				does = does && s.Thinner >= c.Length
			case c.Dim == Mass && c.Less:
				does = does && s.Grams >= c.Grams
			default:
				does = false
			}
		}
		if does {
			out = append(out, fmt.Sprintf("without %s", s.What))
		}
	}
	return out
}
