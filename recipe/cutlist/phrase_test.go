package cutlist

import (
	"testing"

	"foldwright/length"
)

// A number behind the scores of a piece that a noun and then a size follow says how many of the next piece there are,
// whatever stands between the noun and the size; where no size of it follows, the number is a score.
func TestNextPiece(t *testing.T) {
	for _, test := range []struct {
		behind string // the last score, 5 of a piece 6 in long
		scores int    // of the first piece
		copies int    // of the second
	}{
		{", and two springs 9 1/2 by 2 1/2", 3, 2},
		{", and two springs, 9 1/2 by 2 1/2", 3, 2},
		{", and two springs, each 9 1/2 by 2 1/2", 3, 2},
		{", and 2 springs, each 9 1/2 by 2 1/2", 3, 2},
		{" and two white springs, both 9 1/2 by 2 1/2", 3, 2},
		{"; two springs in white, all measuring 9 1/2 by 2 1/2", 3, 2},
		{", plus 2 springs, which are 9 1/2 in wide by 2 1/2 in high", 3, 2},
		{", and two springs cut to 9 1/2 by 2 1/2", 3, 2},
		{", and two springs, each cut to 9 1/2 by 2 1/2", 3, 2},
		{", and two springs, each one 9 1/2 by 2 1/2", 3, 2},
		{", and two springs, each one of them measuring 9 1/2 by 2 1/2", 3, 2},
		{", and two springs from 240 gsm card, each 9 1/2 by 2 1/2", 3, 2},
		{", and 5 1/4, each on the front. A spring, 9 1/2 by 2 1/2", 4, 1},
		{" and 5 1/2, each a valley, and a spring 9 1/2 by 2 1/2", 4, 1},
		{", then 5.5 lightly, then a spring 9 1/2 by 2 1/2", 4, 1},
	} {
		text := "Cross piece 6 x 1 1/2 in, scored at 1/2, 3 and 5" + test.behind + "."
		r := read(t, text, nil)
		sound(t, text, r)
		if r.Card == nil || len(r.Card.Pieces) != 2 || r.Problems.HasErrors() {
			t.Errorf("%q: %v", test.behind, r.Problems)
			continue
		}
		first, second := r.Card.Pieces[0], r.Card.Pieces[1]
		if len(first.Scores) != test.scores || second.Copies != test.copies || second.Size.W != 19*length.Inch/2 || second.Size.H != 5*length.Inch/2 {
			t.Errorf("%q: %s; %s", test.behind, measures(first), measures(second))
		}
	}
}

// The one of "each one" is no number where it measures nothing; before a unit or "by" it is.
func TestEachOne(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"Cut two strips of white card, each one 9 by 2 in.", "2 of 228600000 x 50800000 nm"},
		{"Two strips, each one inch by three inches.", "2 of 25400000 x 76200000 nm"},
		{"Two strips, each one by three inches.", "2 of 25400000 x 76200000 nm"},
		{"Two strips, each one and a half by three inches.", "2 of 38100000 x 76200000 nm"},
		{"One strip 9 by 2 in.", "1 of 228600000 x 50800000 nm"},
	} {
		r := read(t, test.text, nil)
		sound(t, test.text, r)
		if r.Card == nil || len(r.Card.Pieces) != 1 || measures(r.Card.Pieces[0]) != test.want || r.Problems.HasErrors() || len(r.Unplaced) > 0 {
			t.Errorf("%q: %v, not placed %v, problems %v", test.text, r.Recipe, r.Unplaced, r.Problems)
		}
	}
}
