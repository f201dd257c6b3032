package resize_test

import (
	"context"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	. "foldwright/resize"
)

// A card that does not serve is passed over for the next nearest; where none serves, the nearest of all is given, and not
// as the answer.
func TestResize_serves(t *testing.T) {
	text, err := forms.Text("square-lantern")
	if err != nil {
		t.Fatal(err)
	}
	r, closed := Shut(t, string(text))
	resized := func(serves func([]byte) bool) *Result {
		t.Helper()
		got, err := Resize(context.Background(), r, closed, Request{
			To: card.Size{W: 130 * length.Millimetre, H: 180 * length.Millimetre}, Marks: length.Millimetre, Serves: serves})
		if err != nil || got.Status != flat.Solved {
			t.Fatal(got.Status, err)
		}
		return got
	}
	nearest := resized(nil)
	seen := map[string]bool{}
	for refuse := range 5 {
		left := refuse
		got := resized(func(text []byte) bool {
			seen[string(text)] = true
			left--
			return left < 0
		})
		if got.Passed != refuse || !got.Proven || got.CostMarks2 < nearest.CostMarks2-1e-9 {
			t.Errorf("%d refused: %d passed over, proven %t, cost %g after %g", refuse, got.Passed, got.Proven, got.CostMarks2, nearest.CostMarks2)
		}
	}
	if len(seen) != 5 {
		t.Errorf("%d different cards were asked about, want 5", len(seen))
	}
	none := resized(func([]byte) bool { return false })
	if none.Proven || string(none.Recipe.Format()) != string(nearest.Recipe.Format()) {
		t.Errorf("where no card serves: proven %t\n%s", none.Proven, none.Recipe.Format())
	}
}
