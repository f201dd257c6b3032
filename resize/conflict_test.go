package resize

import (
	"context"
	"slices"
	"strings"
	"testing"

	"foldwright/flat"

	"pgregory.net/rapid"
)

// TestConflict: the conditions that are named exclude each other, and any one of them left out lets a card fit.
func TestConflict(t *testing.T) {
	conflicts := 0
	rapid.Check(t, func(t *rapid.T) {
		s := Draw(t)
		_, closed := Shut(t, s.Text(s.Old()))
		w, h := int(closed.Box.W()/1_000_000), int(closed.Box.H()/1_000_000)
		q := Millimetres(rapid.IntRange(1, max(1, w/2)).Draw(t, "w"), rapid.IntRange(1, max(1, h)).Draw(t, "h"), rapid.IntRange(1, 4).Draw(t, "marks"))
		sys := newSystem(closed, q.Marks)
		sys.wishes(float64(q.To.W)/float64(closed.Box.W()), float64(q.To.H)/float64(closed.Box.H()))
		p, err := build(context.Background(), sys, q.To)
		if err != nil {
			t.Fatal(err)
		}
		strict := func(g int) bool { return !p.groups[g].loose }
		if p.solve(context.Background(), strict, nil).status != flat.Contradictory {
			return
		}
		conflicts++
		named := p.conflict(context.Background())
		if len(named) == 0 {
			t.Fatalf("nothing is named\n%s", s.Text(s.Old()))
		}
		status := func(without string) flat.Status {
			return p.solve(context.Background(), func(g int) bool {
				words := p.groups[g].words
				return strict(g) && words != without && slices.Contains(named, words)
			}, nil).status
		}
		if got := status(""); got != flat.Contradictory {
			t.Fatalf("together: %v\n%s\n%s", got, strings.Join(named, "\n"), s.Text(s.Old()))
		}
		for _, one := range named {
			if got := status(one); got != flat.Solved {
				t.Fatalf("without %q: %v\n%s\n%s", one, got, strings.Join(named, "\n"), s.Text(s.Old()))
			}
		}
	})
	if conflicts == 0 {
		t.Error("no conflict was drawn")
	}
	t.Logf("%d conflicts", conflicts)
}

// TestBecause: the reasons are exactly the conditions without any one of which a cheaper card would fit.
func TestBecause(t *testing.T) {
	reasons := 0
	rapid.Check(t, func(t *rapid.T) {
		s := Draw(t)
		_, closed := Shut(t, s.Text(s.Old()))
		w, h := int(closed.Box.W()/1_000_000), int(closed.Box.H()/1_000_000)
		q := Millimetres(rapid.IntRange(max(1, w/2), 2*w).Draw(t, "w"), rapid.IntRange(max(1, h/2), 2*h).Draw(t, "h"), rapid.IntRange(1, 3).Draw(t, "marks"))
		sys := newSystem(closed, q.Marks)
		sys.wishes(float64(q.To.W)/float64(closed.Box.W()), float64(q.To.H)/float64(closed.Box.H()))
		p, err := build(context.Background(), sys, q.To)
		if err != nil {
			t.Fatal(err)
		}
		a := p.solve(context.Background(), func(int) bool { return true }, nil)
		if a.status != flat.Solved || a.cost < 1e-6 {
			return
		}
		var want []string
		for g := range p.groups {
			if slices.ContainsFunc(p.lines, func(l linear) bool { return l.group == g && l.equal }) {
				continue // equations are not named as reasons
			}
			without := p.solve(context.Background(), func(k int) bool { return k != g }, nil)
			if without.status == flat.Solved && without.cost < a.cost-1e-6*(1+a.cost) {
				want = append(want, p.groups[g].words)
			}
		}
		reasons += len(want)
		if got := p.because(context.Background(), a, nil)[1:]; !slices.Equal(got, want) {
			t.Fatalf("got\n%s\nwant\n%s\n%v\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"), q.To, s.Text(s.Old()))
		}
	})
	if reasons == 0 {
		t.Error("no reason was drawn")
	}
	t.Logf("%d reasons", reasons)
}
