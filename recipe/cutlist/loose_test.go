package cutlist

import (
	"slices"
	"strings"
	"testing"
)

// A piece without scores is only taken for one of a catalogue card in a like proportion; else it is left unglued, and that
// is said.
func TestUnlikePieceIsLoose(t *testing.T) {
	catalogue := wholeCatalogue(t)
	for _, unit := range []struct{ name, gate, leaf, band, square string }{
		{"millimetres", "Gate 208 x 150 mm, score at 52 and 156", "Doorleaf 44 x 142 mm, cut 2", "Sash 38 x 230 mm", "Sash 100 x 98 mm"},
		{"centimetres", "Gate 20.8 x 15 cm, score at 5.2 and 15.6", "Doorleaf 4.4 x 14.2 cm, cut 2", "Sash 3.8 x 23 cm", "Sash 10 x 9.8 cm"},
		{"inches", "Gate 8 1/2 x 5 1/2 in, score at 2 1/8 and 6 3/8", "Doorleaf 1 7/8 x 5 1/4 in, cut 2", `Sash 1 1/2" x 9"`, "Sash 4 x 3 7/8 in"},
	} {
		for _, test := range []struct {
			text, piece string
			glued       bool
		}{
			{unit.gate + "\n" + unit.leaf, "doorleaf", true},
			{unit.gate + "\n" + unit.band, "sash", false},
			{unit.gate + "\n" + unit.square, "sash", false},
			{unit.gate + "\n" + unit.leaf + "\n" + unit.band, "sash", false},
		} {
			r := read(t, test.text, catalogue)
			sound(t, test.text, r)
			if r.Matched == nil || !strings.HasPrefix(r.Matched.Form, "harbour-gate") {
				t.Errorf("%s: %q: matched %+v", unit.name, test.text, r.Matched)
				continue
			}
			glued := strings.Contains(r.Recipe, "glue "+test.piece)
			loose := slices.ContainsFunc(r.Lacks, func(l string) bool {
				return strings.Contains(l, test.piece+" is for") && strings.Contains(l, "loose")
			})
			if glued != test.glued || loose == test.glued {
				t.Errorf("%s: %q: glued %v, missing %q\n%s", unit.name, test.text, glued, r.Lacks, r.Recipe)
			}
		}
	}
}
