package cutlist

import (
	"strings"
	"testing"

	"foldwright/length"
)

// unitHabit is a way to write the measurements of one strip.
type unitHabit struct {
	name, w, h, at string
	want           strip
}

// unitHabits are inches with fractions, millimetres, and centimetres with a decimal point.
func unitHabits() []unitHabit {
	q, mm := length.Inch/4, length.Millimetre
	return []unitHabit{
		{"inches", `9 1/2"`, `2 1/2"`, `1 1/2", 2 1/4" and 3"`, strip{w: 38 * q, h: 10 * q, scores: []length.Length{6 * q, 9 * q, 12 * q}}},
		{"millimetres", "228 mm", "60 mm", "36, 54 and 72 mm", strip{w: 228 * mm, h: 60 * mm, scores: []length.Length{36 * mm, 54 * mm, 72 * mm}}},
		{"centimetres", "22.8 cm", "6 cm", "3.6, 5.4 and 7.2 cm", strip{w: 228 * mm, h: 60 * mm, scores: []length.Length{36 * mm, 54 * mm, 72 * mm}}},
	}
}

// fill puts the measurements of a habit into a text.
func (h unitHabit) fill(text string) string {
	return fill(text, "{w}", h.w, "{h}", h.h, "{at}", h.at)
}

func fill(text string, pairs ...string) string { return strings.NewReplacer(pairs...).Replace(text) }

// inHabits reads a text of one strip in every habit of units: it must be the strip, cut as often as said ("2 of"), and
// nothing may be left over.
func inHabits(t *testing.T, text, copies string) {
	t.Helper()
	for _, h := range unitHabits() {
		filled := h.fill(text)
		r := read(t, filled, nil)
		sound(t, filled, r)
		_, rest, _ := strings.Cut(h.want.String(), " of")
		if r.Card == nil || len(r.Card.Pieces) != 1 {
			t.Errorf("%s: %q: no piece, or several: %v", h.name, filled, r.Recipe)
			continue
		}
		if got := measures(r.Card.Pieces[0]); got != copies+rest {
			t.Errorf("%s: %q\n got %s\nwant %s", h.name, filled, got, copies+rest)
		}
		if len(r.Unplaced) > 0 || r.Problems.HasErrors() {
			t.Errorf("%s: %q: not placed %v, errors %v", h.name, filled, r.Unplaced, r.Problems.HasErrors())
		}
	}
}
