package resize_test

import (
	"context"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/proof"
	. "foldwright/resize"
	"foldwright/stock"
)

// TestTrade holds what a maker checks with a ruler when a stand is brought to another card: common practice, no source.
func TestTrade(t *testing.T) {
	const mm, in = length.Millimetre, length.Inch
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	c6, _, err := Target("C6", table, true)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, form string
		q          Request
	}{
		{"6 x 6 in on eighths", "harbour-light-inches", Request{To: card.Size{W: 6 * in, H: 6 * in}, Marks: in / 8, MarksUnit: length.IN, Unit: length.IN}},
		{"C6 on millimetres", "harbour-light", Request{To: c6, Marks: mm, MarksUnit: length.MM, Unit: length.MM}},
		{"145 x 145 mm on 5 mm", "harbour-light", Millimetres(145, 145, 5)},
	} {
		t.Run(c.name, func(t *testing.T) {
			text, err := forms.Text(c.form)
			if err != nil {
				t.Fatal(err)
			}
			r, closed := Shut(t, string(text))
			got, err := Resize(context.Background(), r, closed, c.q)
			if err != nil || got.Status != flat.Solved {
				t.Fatalf("%v %v", got, err)
			}
			if len(got.Released) > 0 {
				t.Errorf("given up: %v", got.Released)
			}
			report := proof.Prove(context.Background(), "", got.Recipe.Format())
			if !report.Proven() {
				t.Fatalf("not proven: %v\n%s", report.Problems, got.Recipe.Format())
			}
			checkStand(t, report, c.q)
		})
	}
}

func checkStand(t *testing.T, r *proof.Report, q Request) {
	t.Helper()
	wall, roof, spring := widths(r.Card.Pieces[0]), widths(r.Card.Pieces[1]), widths(r.Card.Pieces[2])
	front, back := wall[0]+wall[1]+wall[2], wall[3]+wall[4]+wall[5]
	if front != back {
		t.Errorf("the halves of the wall are %v and %v wide", front, back)
	}
	if front > q.To.W || r.Closed.Box.W() > q.To.W {
		t.Errorf("closed it is %v wide, the card has %v", r.Closed.Box.W(), q.To.W)
	}
	for _, k := range []int{1, 2, 3, 4, 6, 7, 8, 9} {
		if 2*spring[k] > spring[0] {
			t.Errorf("leaf %d of the spring is %v, more than half of the middle, %v", k, spring[k], spring[0])
		}
	}
	// The slope of the roof stands above the wall.
	if high := r.Card.Pieces[0].Size.H + roof[1]; high > q.To.H || r.Closed.Box.H() != high {
		t.Errorf("closed it is %v high, wall and roof %v, the card has %v", r.Closed.Box.H(), high, q.To.H)
	}
	if roof[1] != roof[2] || roof[0] != roof[3] {
		t.Errorf("the roof is not even: %v", roof)
	}
	if r.Card.Pieces[1].Size.W != wall[1] || spring[0] != wall[1] {
		t.Errorf("roof %v, spring %v and front %v are not equally wide", r.Card.Pieces[1].Size.W, spring[0], wall[1])
	}
}

// widths returns the panels of a strip.
func widths(p card.Piece) (out []length.Length) {
	last := length.Length(0)
	end := p.Size.W
	for _, s := range p.Scores {
		if s.Kind == card.Up {
			end = p.Size.H
		}
		out, last = append(out, s.At-last), s.At
	}
	return append(out, end-last)
}
