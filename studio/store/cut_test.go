package store

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/kit"
)

// navy is a move of the drawer of TestMove: two sheets go, four off-cuts come.
func navy() Move {
	return Move{Take: []kit.Paper{sheet("navy card", 210, 297, card.GrainUp, 2)},
		Put: []kit.Paper{{Stock: "navy card", W: 90 * mm, H: 40 * mm, Grain: card.GrainUp, OnHand: 4, Note: OffcutNote}}}
}

// standing returns which cuts stand, the newest first.
func standing(t *testing.T, s *Store) []bool {
	t.Helper()
	cuts, err := s.Cuts(ctx)
	if err != nil {
		t.Fatal(err)
	}
	var out []bool
	for _, c := range cuts {
		out = append(out, c.Stands)
	}
	return out
}

// TestCut: a cut is one step of the papers, kept with its plan; whatever brings the papers to a state from before it takes it
// back, and whatever brings them to a state behind it makes it stand again.
func TestCut(t *testing.T) {
	s := opened(t, place(t))
	r := must(s.Save(ctx, Papers, 1, drawer, "the drawer"))(t)
	r = must(s.Cut(ctx, r.Number, navy(), "plan 1", "cut 2 lights"))(t)
	if !strings.Contains(r.Text, "navy card,210,297,up,3,50") || !strings.Contains(r.Text, "navy card,90,40,up,4,,,off-cut") {
		t.Errorf("the papers are\n%s", r.Text)
	}
	cuts, err := s.Cuts(ctx)
	if err != nil || len(cuts) != 1 || cuts[0].Plan != "plan 1" || cuts[0].What != "cut 2 lights" || cuts[0].Revision != 3 || !cuts[0].Made.Equal(r.Made) {
		t.Fatalf("got %+v, %v", cuts, err)
	}
	if m, want := cuts[0].Move, navy(); len(m.Take) != 1 || len(m.Put) != 1 || m.Take[0] != want.Take[0] || m.Put[0] != want.Put[0] {
		t.Errorf("kept %+v, want %+v", m, want)
	}
	for i, c := range []struct {
		do   func(base int) (Revision, error)
		want []bool
	}{
		{func(b int) (Revision, error) { return s.Undo(ctx, Papers, b) }, []bool{false}},
		{func(b int) (Revision, error) { return s.Redo(ctx, Papers, b) }, []bool{true}},
		{func(b int) (Revision, error) { return s.Return(ctx, Papers, b, 2) }, []bool{false}},
		{func(b int) (Revision, error) { return s.Undo(ctx, Papers, b) }, []bool{true}},
		{func(b int) (Revision, error) { return s.Return(ctx, Papers, b, 4) }, []bool{false}}, // 4 was the undo of the cut
		{func(b int) (Revision, error) { return s.Return(ctx, Papers, b, 3) }, []bool{true}},
		{func(b int) (Revision, error) { return s.Cut(ctx, b, navy(), "plan 2", "cut 2 more") }, []bool{true, true}},
		{func(b int) (Revision, error) { return s.Uncut(ctx, b, 1) }, []bool{true, false}},
		{func(b int) (Revision, error) { return s.Undo(ctx, Papers, b) }, []bool{true, true}},
		{func(b int) (Revision, error) { return s.Undo(ctx, Papers, b) }, []bool{false, true}},
	} {
		r = must(c.do(r.Number))(t)
		if got := standing(t, s); !slices.Equal(got, c.want) {
			t.Fatalf("step %d, %s: %v stand, want %v\n%s", i, r.What, got, c.want, r.Text)
		}
	}
}

// TestUncut: a cut can be taken back though the papers were changed since, and only once.
func TestUncut(t *testing.T) {
	s := opened(t, place(t))
	r := must(s.Save(ctx, Papers, 1, drawer, "the drawer"))(t)
	r = must(s.Cut(ctx, r.Number, navy(), "plan", "cut 2 lights"))(t)
	r = must(s.Save(ctx, Papers, r.Number, r.Text+"grey,50,50,,7\n", "grey came in"))(t)
	r = must(s.Uncut(ctx, r.Number, 1))(t)
	if r.What != "taken back: cut 2 lights" || !strings.Contains(r.Text, "navy card,210,297,up,5,50") || strings.Contains(r.Text, "90,40") || !strings.Contains(r.Text, "grey,50,50,,7") {
		t.Errorf("%s left\n%s", r.What, r.Text)
	}
	_, err := s.Uncut(ctx, r.Number, 1)
	wantFault(t, err, Refused, `"cut 2 lights" was taken back already`)
	_, err = s.Uncut(ctx, r.Number, 99)
	wantFault(t, err, Missing, "no cut 99")

	// off-cuts that are used up cannot be taken out again
	r = must(s.Cut(ctx, r.Number, navy(), "plan", "cut again"))(t)
	r = must(s.Save(ctx, Papers, r.Number, strings.Replace(r.Text, "90,40,up,4", "90,40,up,1", 1), "used three"))(t)
	_, err = s.Uncut(ctx, r.Number, 3)
	wantFault(t, err, Refused, "holds 1 of", "4 are to be taken")
	if now := must(s.Newest(ctx, Papers))(t); now.Number != r.Number || now.Text != r.Text {
		t.Errorf("the refused step left %+v", now)
	}
}

// TestCut_refused: a cut that cannot be made leaves neither a revision nor a trace of itself.
func TestCut_refused(t *testing.T) {
	s := opened(t, place(t))
	r := must(s.Save(ctx, Papers, 1, drawer, "the drawer"))(t)
	_, err := s.Cut(ctx, 1, navy(), "plan", "cut")
	var c *Conflict
	if !errors.As(err, &c) || c.Doc != Papers {
		t.Errorf("on an old revision: %v", err)
	}
	few := navy()
	few.Take[0].OnHand = 6
	_, err = s.Cut(ctx, r.Number, few, "plan", "cut")
	wantFault(t, err, Refused, "holds 5")
	_, err = s.Cut(ctx, r.Number, Move{}, "plan", "cut")
	wantFault(t, err, Refused, "moves no sheets")
	white := []kit.Paper{sheet("white", 100, 80, card.GrainAcross, 2)}
	_, err = s.Cut(ctx, r.Number, Move{Take: white, Put: white}, "plan", "cut")
	wantFault(t, err, Refused, "takes out what it puts in")
	_, err = s.Cut(ctx, r.Number, navy(), strings.Repeat("x", mostPlan+1), "cut")
	wantFault(t, err, Refused, "at most")
	_, err = s.Cut(ctx, r.Number, navy(), "plan", " ")
	wantFault(t, err, Refused, "no name")
	if got := standing(t, s); len(got) != 0 {
		t.Errorf("%d cuts are kept", len(got))
	}
	if now := must(s.Newest(ctx, Papers))(t); now.Number != r.Number {
		t.Errorf("the refused cuts left %+v", now)
	}
}
