package cutlist

import (
	"slices"
	"strings"
	"testing"

	"foldwright/length"
)

// Scores that are counted out begin where the text says, in whatever words and order, and go on by the step.
func TestFirstAndStep(t *testing.T) {
	units := []struct {
		name, w, h, step, first, last string
		one                           length.Length // a sixth of the step
	}{
		{"millimetres", "190", "50mm", "15mm", "30", "150", 5 * length.Millimetre / 2},
		{"centimetres", "19 cm", "5 cm", "1.5 cm", "3 cm", "15 cm", 5 * length.Millimetre / 2},
		{"inches", `9 1/2"`, `2 1/2"`, `3/4"`, `1 1/2"`, `7 1/2"`, length.Inch / 8},
	}
	for _, test := range []struct {
		text  string
		until int // the last score, in steps; 0: as far as the piece is long
	}{
		{"Pleat: {w} x {h}, score every {s}, but first at {f}", 0},
		{"Pleat: {w} x {h}, score every {s}, the first at {f}", 0},
		{"Pleat: {w} x {h}, score every {s}, starting at {f}.", 0},
		{"Pleat: {w} x {h}; score every {s} beginning with {f}", 0},
		{"Pleat: {w} x {h}, scored every {s} (first one at {f})", 0},
		{"Pleat: {w} x {h}. Score every {s}, with the first score being at {f}.", 0},
		{"Pleat: {w} x {h}. Score every {s}. The first at {f}.", 0},
		{"Pleat: {w} x {h}. Score first at {f}, then every {s}.", 0},
		{"Pleat: {w} x {h}, score at {f}, then every {s}", 0},
		{"Pleat: {w} x {h}, score at {f} and every {s} thereafter", 0},
		{"Pleat: {w} x {h}, score in steps of {s}, starting at {f}", 0},
		{"Pleat: {w} x {h}, starting at {f}, score every {s}", -1},
		{"Pleat: {w} x {h}, scored {s} apart, first at {f}", 0},
		{"Pleat: {w} x {h}, score every {s}, first at {f}, last at {l}", 10},
		{"Pleat: {w} x {h}, score every {s} on the long side, but only beginning at {f} and ending at {l}", 10},
		{"Pleat: {w} x {h}, score starting at {f} to {l}, every {s}", 10},
	} {
		for _, u := range units {
			text := fill(test.text, "{w}", u.w, "{h}", u.h, "{s}", u.step, "{f}", u.first, "{l}", u.last)
			r := read(t, text, nil)
			sound(t, text, r)
			kept(t, text)
			if test.until < 0 { // not understood, so handed back
				if len(r.Unplaced) == 0 {
					t.Errorf("%s: %q: nothing handed back\n%s", u.name, text, r.Recipe)
				}
				continue
			}
			p := r.Card.Pieces[0]
			var want []length.Length
			for at := 12 * u.one; at < p.Size.W && (test.until == 0 || at <= length.Length(6*test.until)*u.one); at += 6 * u.one {
				want = append(want, at)
			}
			var got []length.Length
			for _, s := range p.Scores {
				got = append(got, s.At)
			}
			if !slices.Equal(got, want) || len(r.Unplaced) > 0 || len(want) < 9 {
				t.Errorf("%s: %q\n got %v\nwant %v\nnot placed %v", u.name, text, got, want, r.Unplaced)
			}
		}
	}
}

// An exception that is not understood is handed back with its numbers, its numbers are no scores, and the list is not
// taken as read whole.
func TestExceptions(t *testing.T) {
	for _, test := range []struct{ text, back string }{
		{"Pleat: 190 x 50 mm, score every 15 mm, but not at 45", "but not at 45"},
		{"Pleat: 19 x 5 cm, score every 1.5 cm except at 4.5 cm", "except at 4.5 cm"},
		{`Pleat: 9 1/2 x 2 1/2 in, score every 3/4", leaving out 2 1/4"`, `leaving out 2 1/4"`},
		{"Pleat: 190 x 50 mm, score at 15, 30 and 60 mm, without the 30 on the back", "without the 30 on the back"},
		{"Pleat: 19 x 5 cm, score at 1.5, 3 and 6 cm except the third", "except the third"},
		{"Pleat: 190 x 50 mm, score every 15 mm, and at 45", "45"},
	} {
		r := read(t, test.text, nil)
		sound(t, test.text, r)
		kept(t, test.text)
		said := slices.ContainsFunc(r.Lacks, func(l string) bool { return strings.Contains(l, "changes of the scores") })
		if len(r.Unplaced) != 1 || r.Unplaced[0].Text != test.back || !said {
			t.Errorf("%q: handed back %v, missing %q", test.text, r.Unplaced, r.Lacks)
		}
	}
	for _, text := range []string{"Pleat: 190 x 50 mm. Do not score at 45.", `Pleat: 9 x 2 in, don't score at 4 1/2"`, "Pleat: 19 x 5 cm; no scores at 4 cm"} {
		if r := read(t, text, nil); len(r.Card.Pieces[0].Scores) > 0 || len(r.Unplaced) != 1 {
			t.Errorf("%q: handed back %v\n%s", text, r.Unplaced, r.Recipe)
		}
	}
}
