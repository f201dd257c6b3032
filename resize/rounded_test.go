package resize

import (
	"context"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
)

// TestRounded: a slanted score whose direction no millimetre marks keep at the new size goes to the nearest marks, and the
// result says so and is not called the nearest of all.
func TestRounded(t *testing.T) {
	const text = `card "Corner"
units mm
fits 100 x 100
stock plain "plain card" 250 gsm, 0.3 mm
piece page of plain
  size 100 x 100
  score (0, 70) to (37.1, 100)
  fold m
opens by itself
`
	r, problems := recipe.Parse("corner.card", []byte(text))
	if r == nil {
		t.Fatal(problems)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatal(problems)
	}
	to := card.Size{W: 150 * length.Millimetre, H: 150 * length.Millimetre}
	out, err := Resize(context.Background(), r, flat.Close(context.Background(), a), Request{To: to, Marks: length.Millimetre})
	if err != nil {
		t.Fatal(err)
	}
	if out.Status != flat.Solved || out.Proven || out.Recipe == nil {
		t.Fatalf("status %v, proven %v", out.Status, out.Proven)
	}
	if len(out.Notes) == 0 || !strings.Contains(out.Notes[0], "directions of the slanted scores") {
		t.Errorf("notes: %q", out.Notes)
	}
	// by hand: 37.1 * 1.5 = 55.65, to the nearest millimetre 56; 70 * 1.5 = 105
	if got := string(out.Recipe.Format()); !strings.Contains(got, "score (0, 105) to (56, 150)") {
		t.Errorf("got\n%s", got)
	}
}
