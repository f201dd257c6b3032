package pattern

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/recipe"

	"pgregory.net/rapid"
)

const head = `card "Test"
units mm
stock plain "plain card" 250 gsm, 0.3 mm
`

type tester interface {
	Helper()
	Fatalf(string, ...any)
}

func pieceOf(t tester, body string) *card.Piece {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(head+"piece sheet of plain\n"+body+"opens by itself\n"))
	if r == nil {
		t.Fatalf("recipe: %v\n%s", problems, body)
	}
	return &r.Card().Pieces[0]
}

// describe writes a pattern in one line a panel and a hinge.
func describe(p *Pattern) string {
	var b strings.Builder
	for _, q := range p.Panels {
		fmt.Fprintf(&b, "%s %.0f mm²\n", q.Label, q.Area()/1e12)
	}
	for _, h := range p.Hinges {
		fmt.Fprintf(&b, "%s|%s score %d %.1f mm %s\n", p.Panels[h.Left].Label, p.Panels[h.Right].Label, h.Score()+1, h.Length()/1e6, h.Sense)
	}
	return b.String()
}

func TestBuild(t *testing.T) {
	for _, c := range []struct{ name, body, want string }{
		{"one sheet", "  size 100 x 50\n", "panel 1 5000 mm²\n"},
		{"strip", "  size 100 x 50\n  score across at 30, 90\n  panels front, back, tab\n  fold m v\n  wedge tab 3\n",
			"front 1500 mm²\nback 3000 mm²\ntab 491 mm²\nfront|back score 1 50.0 mm mountain\nback|tab score 2 50.0 mm valley\n"},
		{"upright strip", "  size 50 x 100\n  score up at 30, 90\n  panels foot, wall, top\n",
			"foot 1500 mm²\nwall 3000 mm²\ntop 500 mm²\nfoot|wall score 1 50.0 mm either way\nwall|top score 2 50.0 mm either way\n"},
		{"repeated names", "  size 90 x 50\n  score across at 30, 60\n  panels leaf x3\n",
			"leaf (1) 1500 mm²\nleaf (2) 1500 mm²\nleaf (3) 1500 mm²\nleaf (1)|leaf (2) score 1 50.0 mm either way\nleaf (2)|leaf (3) score 2 50.0 mm either way\n"},
		{"window over a score", "  size 100 x 50\n  score across at 50\n  window rect 20 x 10 at (40, 20)\n",
			"panel 1 2400 mm²\npanel 2 2400 mm²\npanel 1|panel 2 score 1 40.0 mm either way\n"},
		{"window in a panel", "  size 100 x 50\n  score across at 50\n  window rect 20 x 10 at (10, 20)\n",
			"panel 1 2300 mm²\npanel 2 2500 mm²\npanel 1|panel 2 score 1 50.0 mm either way\n"},
		{"slit along a score", "  size 100 x 50\n  score across at 50\n  slit (50, 0) to (50, 20)\n",
			"panel 1 2500 mm²\npanel 2 2500 mm²\npanel 1|panel 2 score 1 30.0 mm either way\n"},
		{"crossing scores", "  size 100 x 50\n  score across at 50\n  score up at 25\n",
			"panel 1 1250 mm²\npanel 2 1250 mm²\npanel 3 1250 mm²\npanel 4 1250 mm²\n" +
				"panel 1|panel 2 score 1 25.0 mm either way\npanel 3|panel 4 score 1 25.0 mm either way\n" +
				"panel 3|panel 1 score 2 50.0 mm either way\npanel 4|panel 2 score 2 50.0 mm either way\n"},
		{"slanted scores from a corner", "  size 80 x 80\n  score (0, 80) to (40, 40)\n  score (40, 40) to (80, 0)\n  score (40, 40) to (80, 80)\n",
			"panel 1 3200 mm²\npanel 2 1600 mm²\npanel 3 1600 mm²\n" +
				"panel 3|panel 1 score 1 56.6 mm either way\npanel 2|panel 1 score 2 56.6 mm either way\npanel 3|panel 2 score 3 56.6 mm either way\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			p, problems := Build(pieceOf(t, c.body))
			if p == nil {
				t.Fatal(problems)
			}
			if got := describe(p); sortLines(got) != sortLines(c.want) {
				t.Errorf("got\n%swant\n%s", got, c.want)
			}
		})
	}
}

func sortLines(s string) string {
	lines := strings.Split(strings.TrimSpace(s), "\n")
	for i := range lines {
		// The side on which a hinge calls a panel left depends on how its line runs.
		if a, rest, ok := strings.Cut(lines[i], "|"); ok {
			b, tail, _ := strings.Cut(rest, " score")
			if b < a {
				a, b = b, a
			}
			lines[i] = a + "|" + b + " score" + tail
		}
		for k := i; k > 0 && lines[k] < lines[k-1]; k-- {
			lines[k], lines[k-1] = lines[k-1], lines[k]
		}
	}
	return strings.Join(lines, "\n")
}

func TestBuildProblems(t *testing.T) {
	for _, c := range []struct{ rule, body string }{
		{"score-loose-end", "  size 100 x 50\n  score (50, 0) to (50, 30)\n"},
		{"score-on-edge", "  size 100 x 50\n  window rect 20 x 20 at (10, 10)\n  score (10, 10) to (30, 10)\n"},
		{"score-twice", "  size 100 x 50\n  score across at 50\n  score (50, 0) to (50, 50)\n"},
		{"slits-cross", "  size 100 x 50\n  slit (10, 10) to (40, 40)\n  slit (10, 40) to (40, 10)\n"},
		{"slits-cross", "  size 100 x 50\n  slit (10, 10) to (40, 10)\n  slit (30, 10) to (60, 10)\n"},
		{"piece-falls-apart", "  size 100 x 50\n  slit (50, 0) to (50, 50)\n"},
		{"outline-crosses", "  outline (0, 0) (100, 50) (100, 0) (0, 50)\n"},
		{"window-outside", "  outline (0, 0) (100, 0) (0, 100)\n  window rect 30 x 30 at (60, 60)\n"},
		{"panel-names-need-points", "  size 100 x 50\n  score across at 50\n  slit (10, 10) to (10, 40)\n  score up at 25\n  panels a, b, c, d\n"},
		{"panel-named-twice", "  size 100 x 50\n  score across at 50\n  panel a at (10, 10)\n  panel b at (20, 20)\n"},
		{"panel-point", "  size 100 x 50\n  score across at 50\n  window rect 20 x 20 at (10, 10)\n  panel a at (20, 20)\n"},
		{"wedge-size", "  size 100 x 50\n  score across at 90\n  panel tab at (95, 40)\n  wedge tab 12\n"},
	} {
		t.Run(c.rule, func(t *testing.T) {
			_, problems := Build(pieceOf(t, c.body))
			for _, p := range problems {
				if p.Rule == c.rule {
					if p.Where.Line == 0 || p.Needs == "" {
						t.Errorf("no place, or nothing that would be right: %v", p)
					}
					return
				}
			}
			t.Errorf("got %v, want rule %s", problems, c.rule)
		})
	}
}

// TestPanelsSum: the panels of a strip sum to the piece exactly, whatever its scores.
func TestPanelsSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 20).Draw(t, "scores")
		at, x := []string{}, 0
		for range n {
			x += rapid.IntRange(1, 40).Draw(t, "width")
			at = append(at, fmt.Sprintf("%d/8 in", x))
		}
		w := x + rapid.IntRange(1, 40).Draw(t, "last")
		p, problems := Build(pieceOf(t, fmt.Sprintf("  size %d/8 in x 1 in\n  score across at %s\n", w, strings.Join(at, ", "))))
		if p == nil {
			t.Fatal(problems)
		}
		sum := length.Length(0)
		for _, q := range p.Panels {
			sum += q.Box.W()
		}
		if want := length.Length(w) * length.Inch / 8; sum != want || !p.Strip || len(p.Panels) != n+1 {
			t.Fatalf("%d panels sum to %d nm, want %d", len(p.Panels), sum, want)
		}
	})
}

// TestAreas: the panels of a sheet with random slanted scores fill it.
func TestAreas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		body := "  size 100 x 100\n"
		ends := rapid.SliceOfNDistinct(rapid.Custom(func(t *rapid.T) [2]int {
			return [2]int{rapid.IntRange(1, 99).Draw(t, "bottom"), rapid.IntRange(1, 99).Draw(t, "top")}
		}), 1, 6, func(e [2]int) [2]int { return e }).Draw(t, "scores")
		for _, e := range ends {
			body += fmt.Sprintf("  score (%d, 0) to (%d, 100)\n", e[0], e[1])
		}
		p, problems := Build(pieceOf(t, body))
		if p == nil {
			t.Fatal(problems)
		}
		sum := 0.0
		for i := range p.Panels {
			sum += p.Panels[i].Area()
		}
		if math.Abs(sum/1e12-1e4) > 1e-4 {
			t.Fatalf("panels sum to %.6f mm², want 10000", sum/1e12)
		}
	})
}

// TestPlace puts a tab on a panel in every way that a glue line can say.
func TestPlace(t *testing.T) {
	const text = head + `piece wall of plain
  size 100 x 60
  panels face
piece tab of plain
  size 30 x 10
  panels face
glue tab.face %s
opens by itself
`
	for _, c := range []struct {
		glue string
		// want is where the tab's corners (0,0) and (30,0) come to lie on the wall, seen on its outer face.
		want string
	}{
		{"inside wall.face, left, bottom", "(0,0) (30,0)"},
		{"inside wall.face", "(35,25) (65,25)"},
		{"outside wall.face, right, top", "(70,50) (100,50)"},
		{"inside wall.face, left, bottom, turned 90", "(10,0) (10,30)"},
		{"inside wall.face, left, bottom, turned 180", "(30,10) (0,10)"},
		{"inside wall.face, left, bottom, turned 270", "(0,30) (0,0)"},
		{"against wall.face, left, bottom", "(30,0) (0,0)"},
		{"facing wall.face, left, bottom, turned 90", "(10,30) (10,0)"},
		{"inside wall.face, left, bottom, over 5, up -3", "(5,-3) (35,-3)"},
	} {
		t.Run(c.glue, func(t *testing.T) {
			r, problems := recipe.Parse("test.card", fmt.Appendf(nil, text, c.glue))
			if r == nil {
				t.Fatal(problems)
			}
			a, problems := Assemble(r.Card())
			if a == nil {
				t.Fatal(problems)
			}
			tab := a.Panels[a.Joints[0].A].Outline
			got := a.Joints[0].Place.Point(tab[0]).String() + " " + a.Joints[0].Place.Point(tab[1]).String()
			if got != c.want {
				t.Errorf("got %s, want %s", got, c.want)
			}
		})
	}
}

func TestAssembleLoose(t *testing.T) {
	r, problems := recipe.Parse("test.card", []byte(head+"piece a of plain\n  size 10 x 10\npiece b of plain\n  size 10 x 10\nopens by itself\n"))
	if r == nil {
		t.Fatal(problems)
	}
	if _, problems := Assemble(r.Card()); len(problems) != 1 || problems[0].Rule != "piece-loose" {
		t.Errorf("got %v, want piece-loose", problems)
	}
}
