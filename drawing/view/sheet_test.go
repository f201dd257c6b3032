package view

import (
	"context"
	"testing"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/internal/golden"
	"foldwright/length"
	"foldwright/trim"
)

// TestSheet: a sheet of A4 with parts of a small stand, in mm and in inches.
func TestSheet(t *testing.T) {
	mm := length.Millimetre
	j := trim.Job{
		Sheets: []trim.Sheet{{Name: "A4", W: 210 * mm, H: 297 * mm, Quantity: trim.Unlimited, Price: 1, Grain: card.GrainUp}},
		Parts: []trim.Part{
			{Name: "wall", W: 200 * mm, H: 60 * mm, Count: 2, Turn: true}, {Name: "roof", W: 30 * mm, H: 120 * mm, Count: 2, Turn: true},
			{Name: "mat on wall.left, wall.right", W: 34 * mm, H: 54 * mm, Count: 4, Turn: true}, {Name: "flag", W: 12 * mm, H: 9 * mm, Count: 3, Turn: true},
		},
	}
	r, problems := trim.Cheapest(context.Background(), j, nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	a, problems := trim.Audit(j, r.Plan)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, u := range []length.Unit{length.MM, length.IN} {
		d := Sheet("Small stand: navy, sheet 1", j, r.Plan, a, 0, u)
		if bad := drawing.Clashes(d, drawing.Edge, drawing.Cut); len(bad) > 0 {
			t.Errorf("%v", bad)
		}
		golden.Compare(t, "testdata/sheets/"+u.String()+".svg", []byte(write(t, d)))
	}
}
