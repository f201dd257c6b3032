package view

import (
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
	// Walls side by side, turned, at the top; below them a column of roofs, mats and flags.
	part := func(n int, turned bool) *trim.Cut { return &trim.Cut{Kind: trim.IsPart, Part: n, Turned: turned} }
	x := func(at int, left, right *trim.Cut) *trim.Cut {
		return &trim.Cut{Kind: trim.AtX, At: length.Length(at) * mm, First: left, Second: right}
	}
	y := func(at int, lower, upper *trim.Cut) *trim.Cut {
		return &trim.Cut{Kind: trim.AtY, At: length.Length(at) * mm, First: lower, Second: upper}
	}
	rest := &trim.Cut{}
	flags := x(12, part(3, false), x(12, part(3, false), x(12, part(3, false), rest)))
	mats := x(34, part(2, false), x(34, part(2, false), x(34, part(2, false), x(34, part(2, false), rest))))
	roofs := x(120, part(1, true), rest)
	walls := x(60, part(0, true), x(60, part(0, true), rest))
	plan := trim.Plan{Layouts: []trim.Layout{{Times: 1, Root: y(9, flags, y(54, mats, y(30, roofs, y(200, walls, rest))))}}}
	for n := range j.Parts {
		j.Parts[n].Count = []int{2, 1, 4, 3}[n]
	}
	a, problems := trim.Audit(j, plan)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	for _, u := range []length.Unit{length.MM, length.IN} {
		d := Sheet("Small stand: navy, sheet 1", j, plan, a, 0, u)
		if bad := drawing.Clashes(d, drawing.Edge, drawing.Cut); len(bad) > 0 {
			t.Errorf("%v", bad)
		}
		golden.Compare(t, "testdata/sheets/"+u.String()+".svg", []byte(write(t, d)))
	}
}

// TestTicks: long lines are broken, long lists go on to further pages, and nothing overlaps.
func TestTicks(t *testing.T) {
	var lines []string
	for range 60 {
		lines = append(lines, "fence to 288 mm; 2 strips A of 288 mm by 304.8 mm, turned, the edge of 288 mm at the fence: cut 1 strip off each; that makes 2 strips B")
	}
	pages := Ticks("steps", "What to cut", lines)
	if len(pages) < 2 {
		t.Fatalf("%d pages for %d lines", len(pages), len(lines))
	}
	for _, p := range pages {
		if bad := drawing.Clashes(p); len(bad) > 0 {
			t.Error(bad)
		}
		if p.W > 195 || p.H > 265 {
			t.Errorf("a page is %.0f x %.0f mm", p.W, p.H)
		}
	}
	if Ticks("steps", "Nothing", nil) != nil {
		t.Error("a list without lines has pages")
	}
}
