package cutlist

import (
	"strings"
	"testing"
)

// A sentence that says how many of each there are, before or behind the size of each, loses neither number.
func TestSeveralOfEach(t *testing.T) {
	for _, test := range []struct{ text, want string }{
		{"You need 4 panels and two springs: each spring is {w} x {h}, score at {at}.", "2 of spring"},
		{"You need 4 panels and two springs: each {w} x {h}, score at {at}.", "2 of spring"},
		{"You need 4 panels and 2 springs; each spring is {w} x {h}, score at {at}", "2 of spring"},
		{"You will need two springs. Each spring is {w} x {h}, score at {at}.", "2 of spring"},
		{"You will need two springs. Each is {w} x {h}. Score at {at}.", "2 of spring"},
		{"Two springs are needed. Each measures {w} x {h}, score at {at}.", "2 of spring"},
		{"Two springs are needed, each measures {w} x {h}. Score at {at}.", "2 of spring"},
		{"The springs: you need two. Each is {w} x {h}, score at {at}.", "2 of spring"},
		{"There are two springs: {w} x {h} each, score at {at}.", "2 of spring"},
		{"Cut two springs ({w} x {h} each). Score at {at}.", "2 of spring"},
		{"Two springs\nEach: {w} x {h}\nScore at {at}", "2 of spring"},
	} {
		for _, h := range unitHabits() {
			filled := h.fill(test.text)
			r := read(t, filled, nil)
			sound(t, filled, r)
			if r.Card == nil || len(r.Card.Pieces) != 1 {
				t.Errorf("%s: %q: no piece, or several:\n%s", h.name, filled, r.Recipe)
				continue
			}
			got := strings.Replace(measures(r.Card.Pieces[0]), " of ", " of "+r.Card.Pieces[0].Name+" of ", 1)
			_, rest, _ := strings.Cut(h.want.String(), " of")
			if got != test.want+" of"+rest {
				t.Errorf("%s: %q\n got %s\nwant %s", h.name, filled, got, test.want+" of"+rest)
			}
		}
	}
}

// The number that is not that of the piece is handed back, not lost.
func TestOtherTallyIsHandedBack(t *testing.T) {
	text := "You need 4 panels and two springs: each spring is 228 x 60 mm, score at 36 mm."
	r := read(t, text, nil)
	if len(r.Unplaced) != 1 || !strings.Contains(r.Unplaced[0].Text, "4 panels") {
		t.Errorf("not placed: %v", r.Unplaced)
	}
}
