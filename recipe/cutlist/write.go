package cutlist

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"foldwright/problem"
	"foldwright/recipe"
)

// recipe writes the card as a recipe, with comments above it.
func (b *builder) recipe(left []Unplaced) string {
	var out strings.Builder
	comment := func(format string, args ...any) {
		out.WriteString("# " + oneLine(fmt.Sprintf(format, args...)) + "\n")
	}
	comment("Read from a cut list.")
	if m := b.matched; m != nil {
		comment("Like %s (%.0f %% alike); names of panels, senses, glue and opening are from there.", m.Form, 100*m.Sure)
		for _, w := range m.Why {
			comment("  %s", w)
		}
	}
	for _, m := range slices.Concat(b.lacks, b.missing) {
		comment("Missing: %s.", m)
	}
	for _, u := range left[:min(len(left), mostTold)] {
		comment("Not placed: line %d, %s", u.Line, clip(u.Text))
	}
	if n := len(left) - mostTold; n > 0 {
		comment("Not placed: %s more.", problem.Count(n, "part"))
	}
	out.Write(recipe.FromCard(b.card).Format())
	return out.String()
}

// mostTold is how many parts without a place the comments of a recipe repeat.
const mostTold = 40

// oneLine makes a comment of a text: what cannot be seen becomes a space.
func oneLine(s string) string {
	s = strings.Map(func(r rune) rune {
		if !unicode.IsGraphic(r) {
			return ' '
		}
		return r
	}, s)
	return strings.TrimRight(s, " ")
}
