package cutlist

import (
	"fmt"
	"testing"

	"foldwright/length"
)

// A sheet scored so far from all its edges has two scores each way, in whatever words.
func TestAllSides(t *testing.T) {
	mm := length.Millimetre
	for _, h := range []struct {
		side, at string
		a, d     length.Length
	}{
		{`8"`, `2"`, 8 * length.Inch, 2 * length.Inch},
		{`8 1/2"`, `1 3/4"`, 17 * length.Inch / 2, 7 * length.Inch / 4},
		{"200 mm", "50 mm", 200 * mm, 50 * mm},
		{"20 cm", "4.5 cm", 200 * mm, 45 * mm},
		{"20,5 cm", "4,5 cm", 205 * mm, 45 * mm},
	} {
		want := fmt.Sprintf("1 of %d x %d nm across %d up %d across %d up %d", h.a, h.a, h.d, h.d, h.a-h.d, h.a-h.d)
		for _, text := range []string{
			"Cut {s} x {s}, score all sides at {d}",
			"Cut {s} x {s}, score all four sides at {d}",
			"Cut {s} x {s}, score all 4 sides at {d}",
			"Cut {s} x {s}. Score on all sides at {d}.",
			"Cut {s} x {s}. Score at {d} on all sides.",
			"Cut {s} x {s}. Score at {d} on all four sides.",
			"Cut {s} x {s}. Score {d} in from all sides.",
			"Cut {s} x {s}. Score {d} from all four edges.",
			"Cut {s} x {s}. Score {d} from every edge.",
			"Cut {s} x {s}. Score {d} from each side all round.",
			"Cut {s} x {s}. Score {d} from each of the four sides.",
			"Cut {s} x {s}. Score each side at {d}.",
			"Cut {s} x {s}. Score every side at {d}.",
			"Cut {s} x {s}. Score each of the four sides at {d}.",
			"Cut {s} x {s}. Score all the way round at {d}.",
			"Cut {s} x {s}. Score all round at {d}.",
			"Cut {s} x {s}. Score all around, {d} from the edge.",
			"Cut {s} x {s}. Score {d} from the edge on all four sides.",
			"Cut a {s} square, score on each side at {d}, turn it and score again.",
			"Box base: {s} square. Score a border of {d} all around.",
		} {
			filled := fill(text, "{s}", h.side, "{d}", h.at)
			r := read(t, filled, nil)
			sound(t, filled, r)
			if r.Card == nil || len(r.Card.Pieces) != 1 || measures(r.Card.Pieces[0]) != want || len(r.Unplaced) > 0 {
				got := "nothing"
				if r.Card != nil {
					got = measures(r.Card.Pieces[0])
				}
				t.Errorf("%q\n got %s\nwant %s, not placed %v", filled, got, want, r.Unplaced)
			}
		}
	}
}

// Two distances from all edges are two frames of scores.
func TestAllSidesTwice(t *testing.T) {
	r := read(t, "Lid 20 cm x 16 cm, score at 2 and 4 cm on all four sides.", nil)
	want := "1 of 200000000 x 160000000 nm across 20000000 up 20000000 across 40000000 up 40000000 up 120000000 up 140000000 across 160000000 across 180000000"
	if r.Card == nil || measures(r.Card.Pieces[0]) != want {
		t.Errorf("got\n%s", r.Recipe)
	}
}
