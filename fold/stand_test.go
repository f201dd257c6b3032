package fold

import (
	"context"
	"os"
	"testing"

	"foldwright/flat"
	"foldwright/pattern"
	"foldwright/recipe"
)

func load(t testing.TB, path string) *Model {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	r, problems := recipe.Parse(path, text)
	if r == nil {
		t.Fatal(problems)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatal(problems)
	}
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatal("not flat")
	}
	return New(closed)
}

func TestStand(t *testing.T) {
	m := load(t, "../forms/harbour-light.card")
	o := m.Path(context.Background(), 60)
	t.Log(o.Outcome, len(o.Poses), o.LoopError(), o.Freedom, o.Width, o.Height, o.Depth, m.Assembly.Panels[o.Panels[0]].Ref, m.Assembly.Panels[o.Panels[1]].Ref)
	for k, p := range o.Poses {
		if k%6 == 0 || k > 57 || k < 4 {
			t.Logf("%d err %.2g drive %.3f", k, p.LoopError, p.Drive)
			s := ""
			for i, a := range p.Angles {
				s += " " + trim(a*57.2957795)
				if i == 5 || i == 8 || i == 18 {
					s += " |"
				}
			}
			t.Log(s)
		}
	}
}

func BenchmarkPath(b *testing.B) {
	m := load(b, "../forms/harbour-light.card")
	for b.Loop() {
		m.Path(context.Background(), 60)
	}
}
