package cutlist

import (
	"slices"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// A fraction without a unit is of an inch, also in a list that says centimetres or millimetres elsewhere, unless a unit is
// said with it or for all of the list; where it is a guess, that is told.
func TestFractionsAreInches(t *testing.T) {
	e, mm := length.Inch/8, length.Millimetre
	for _, test := range []struct {
		text  string // the second piece of a list whose first one is metric
		w, at length.Length
		told  bool
	}{
		{"Inlay 8.5 x 5.5, score the 8 1/2 side at 2 1/8", 68 * e, 17 * e, true},
		{"Inlay 8.5 x 5.5, score the long side at 2 1/8", 68 * e, 17 * e, true},
		{"Inlay 8 1/2 x 5 1/2, score at 4 1/4", 68 * e, 34 * e, true},
		{"Inlay 8½ x 5½, score at 2⅛", 68 * e, 17 * e, true},
		{"Inlay 8 1/2 x 5 1/2 in, score at 4 1/4", 68 * e, 34 * e, false},
		{`Inlay 8 1/2" x 5 1/2", score at 4`, 68 * e, 32 * e, false},
		{"Inlay 8 1/2 x 5 1/2 cm, score at 4", 85 * mm, 40 * mm, false},
		{"Inlay 85 x 55 mm, score at 2 1/8", 85 * mm, 17 * e, true},
		{"Inlay 8.5 x 5.5 cm, score at 2 1/8 cm", 85 * mm, 85 * mm / 4, false},
		{"All sizes are in cm.\nInlay 8 1/2 x 5, score at 4", 85 * mm, 40 * mm, false},
	} {
		for _, first := range []string{"Base 21 x 14.8 cm, score on the long side at 10.5 cm\n", "Base 210 x 148 mm, score on the long side at 105 mm\nBand 1 1/2\" x 9\"\n"} {
			text := first + test.text
			r := read(t, text, nil)
			sound(t, text, r)
			i := slices.IndexFunc(r.Card.Pieces, func(p card.Piece) bool { return p.Name == "inlay" })
			if i < 0 {
				t.Fatalf("%q: no inlay", text)
			}
			p := r.Card.Pieces[i]
			if p.Size.W != test.w || len(p.Scores) != 1 || p.Scores[0].At != test.at {
				t.Errorf("%q: %s", text, measures(p))
			}
			told := slices.ContainsFunc(r.Problems, func(q problem.Problem) bool { return q.Rule == "unit-guessed" })
			if told != test.told {
				t.Errorf("%q: %v", text, r.Problems)
			}
		}
	}
}

// Halves are metric in a list that is metric throughout.
func TestMetricHalves(t *testing.T) {
	r := read(t, "Base 21 x 14 cm\nInlay 9½ x 6½, score at 4½", nil)
	if p := r.Card.Pieces[1]; p.Size.W != 95*length.Millimetre || p.Scores[0].At != 45*length.Millimetre {
		t.Errorf("got %s", measures(p))
	}
}
