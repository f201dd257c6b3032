package recipe

import (
	"os"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// Each Set changes the lines that are named, and nothing else of the text.
func TestSet(t *testing.T) {
	const text = `# top
card "Gull"
units mm  # metric

stock white 240 gsm, 0.31 mm
# the wall
piece wall of white
  size 100 x 50  # as wide as a hand
  score across at 40, 70
  score (10, 0) to (20, 50)

  # last one
  score across at 90
  wedge tab 3
piece flag of white
  outline (0, 0) (9, 0) (0, 9)
  slit (1, 1) to (2, 1)
  slit (1, 2) to (2, 2)
  window rect 1 x 2 at (1, 3)
  panel cloth at (4, 1)
glue wall.tab inside wall.front, left
keep wall.tab = 10
keep wall.tab <= wall.front
mat wall.front of white, edge 3
topper circle 20 of white on wall.front, top at 40  # moon
topper polygon (0, 0) (9, 0) (0, 9) of white on wall.front
`
	tests := []struct {
		name string
		set  func(r *Recipe) error
		want []string // the changed lines; "+" before a new one
	}{
		{"size", func(r *Recipe) error { return r.SetSize("wall", card.Size{W: 96 * mm, H: 48 * mm}) }, []string{"  size 96 x 48  # as wide as a hand"}},
		{"score 2", func(r *Recipe) error { return r.SetScore("wall", 2, 66*mm) }, []string{"  score across at 40, 66"}},
		{"score 4", func(r *Recipe) error { return r.SetScore("wall", 4, 267*mm/10) }, []string{"  score across at 26.7"}},
		{"score ends", func(r *Recipe) error {
			return r.SetScoreEnds("wall", 3, plane.Point{X: mm}, plane.Point{X: 2 * mm, Y: 50 * mm})
		}, []string{"  score (1, 0) to (2, 50)"}},
		{"wedge", func(r *Recipe) error { return r.SetWedge("wall", "tab", 2*mm) }, []string{"  wedge tab 2"}},
		{"outline", func(r *Recipe) error { return r.SetOutline("flag", []plane.Point{{}, {X: 8 * mm}, {Y: 8 * mm}}) }, []string{"  outline (0, 0) (8, 0) (0, 8)"}},
		{"shift", func(r *Recipe) error { return r.SetShift(1, -mm, 0) }, []string{"glue wall.tab inside wall.front, left, over -1"}},
		{"keep", func(r *Recipe) error { return r.SetKeep(1, 9*mm) }, []string{"keep wall.tab = 9"}},
		{"mat", func(r *Recipe) error { return r.SetMatEdge(1, 2*mm) }, []string{"mat wall.front of white, edge 2"}},
		{"topper", func(r *Recipe) error { return r.SetTopper(1, card.Size{W: 18 * mm, H: 18 * mm}, 36*mm) }, []string{"topper circle 18 of white on wall.front, top at 36  # moon"}},
		{"corners", func(r *Recipe) error { return r.SetTopperCorners(2, []plane.Point{{}, {X: mm}, {Y: mm}}) }, []string{"topper polygon (0, 0) (1, 0) (0, 1) of white on wall.front"}},
		{"slit", func(r *Recipe) error { return r.SetSlit("flag", 2, plane.Point{X: mm}, plane.Point{X: 3 * mm}) }, []string{"  slit (1, 0) to (3, 0)"}},
		{"window", func(r *Recipe) error {
			return r.SetWindow("flag", 1, card.Window{Size: card.Size{W: mm, H: mm}, At: plane.Point{X: 2 * mm, Y: 4 * mm}})
		}, []string{"  window rect 1 x 1 at (2, 4)"}},
		{"panel", func(r *Recipe) error { return r.SetPanelAt("flag", 1, plane.Point{X: 5 * mm, Y: mm}) }, []string{"  panel cloth at (5, 1)"}},
		{"measured", func(r *Recipe) error {
			return r.SetMeasured(card.Stock{Name: "white", StiffnessMilliNm: card.Number{Value: 8.85, Given: true}, RestDeg: card.Number{Value: 126, Given: true}})
		}, []string{"stock white 240 gsm, 0.31 mm, stiffness 8.85 mN.m, rest 126 deg"}},
		{"no stock", func(r *Recipe) error { return r.SetMeasured(card.Stock{Name: "navy"}) }, nil},
		{"glue", func(r *Recipe) error {
			return r.SetGlue(1, card.Glue{Joint: card.Outside, AlignY: card.AlignHigh, TurnedDeg: 90, Up: mm})
		}, []string{"glue wall.tab outside wall.front, centre, top, turned 90, up 1"}},
		{"fits", func(r *Recipe) error { r.SetFits(card.Size{W: 90 * mm, H: 90 * mm}); return nil }, []string{"+fits 90 x 90"}},
		{"marks", func(r *Recipe) error { r.SetMarks(length.Inch/8, length.IN); return nil }, []string{"+marks 1/8 in"}},
		{"marks that the unit cannot hold", func(r *Recipe) error { r.SetMarks(mm, length.IN); return nil }, []string{"+marks 1 mm"}},
		{"no piece", func(r *Recipe) error { return r.SetSize("wal", card.Size{}) }, nil},
		{"no score", func(r *Recipe) error { return r.SetScore("wall", 5, mm) }, nil},
		{"score 0", func(r *Recipe) error { return r.SetScore("wall", 0, mm) }, nil},
		{"slanted score by one number", func(r *Recipe) error { return r.SetScore("wall", 3, mm) }, nil},
		{"level score by its ends", func(r *Recipe) error { return r.SetScoreEnds("wall", 1, plane.Point{}, plane.Point{}) }, nil},
		{"no size", func(r *Recipe) error { return r.SetSize("flag", card.Size{}) }, nil},
		{"no plain side", func(r *Recipe) error { return r.SetKeep(2, mm) }, nil},
		{"no slit", func(r *Recipe) error { return r.SetSlit("flag", 3, plane.Point{}, plane.Point{}) }, nil},
		{"slit 0", func(r *Recipe) error { return r.SetSlit("flag", 0, plane.Point{}, plane.Point{}) }, nil},
		{"no glue", func(r *Recipe) error { return r.SetGlue(2, card.Glue{}) }, nil},
		{"no mat", func(r *Recipe) error { return r.SetMatEdge(2, mm) }, nil},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) {
			r, problems := Read("gull.card", []byte(text))
			if len(problems) > 0 || string(r.Format()) != text {
				t.Fatalf("the text is not as Format writes it:\n%s%s", printed(problems), r.Format())
			}
			before, beforeFits := *r.Card(), r.Card().Fits
			err := test.set(r)
			if (err != nil) != (test.want == nil) {
				t.Fatalf("error: %v", err)
			}
			if got := changed(text, string(r.Format())); strings.Join(got, "|") != strings.Join(test.want, "|") {
				t.Errorf("changed lines: %q, want %q", got, test.want)
			}
			again, problems := Read("gull.card", r.Format())
			if len(problems) > 0 {
				t.Fatal(printed(problems))
			}
			sameCard(t, r.Card(), again.Card())
			old, _ := Read("gull.card", []byte(text))
			sameCard(t, old.Card(), &before)
			if before.Fits != beforeFits {
				t.Error("the card got before has changed")
			}
		})
	}
}

// changed returns the lines of b that are not in a, with + where there are more lines than before.
func changed(a, b string) []string {
	var out []string
	plus := ""
	if strings.Count(a, "\n") < strings.Count(b, "\n") {
		plus = "+"
	}
	for _, l := range strings.Split(b, "\n") {
		if !strings.Contains(a, l+"\n") && l != "" {
			out = append(out, plus+l)
		}
	}
	return out
}

// In other units the stand is the same card: lengths that the unit cannot hold stay in millimetres.
func TestStandInInches(t *testing.T) {
	text, err := os.ReadFile("testdata/canonical/harbour-light.card")
	if err != nil {
		t.Fatal(err)
	}
	r, _ := Parse("harbour-light.card", text)
	c := *r.Card()
	c.Unit = length.IN
	r.SetUnits(length.IN)
	for _, line := range []string{"units in\n", "  size 252 mm x 72 mm\n", "stock navy \"navy card\" 270 gsm, 0.36 mm\n", "marks 1 mm\n"} {
		if !strings.Contains(string(r.Format()), line) {
			t.Errorf("no line %q in\n%s", line, r.Format())
		}
	}
	sameCard(t, &c, r.Card())
	r.SetUnits(length.MM)
	if got := string(r.Format()); got != string(text) {
		t.Errorf("back in millimetres:\n%s", got)
	}
}

func TestCureLeavesInstructions(t *testing.T) {
	text := []byte("units mm\ncard \"Gull\"\n")
	_, problems := Parse("x.card", text)
	p, ok := find(problems, "title-first", "2:1")
	if !ok || p.Try == "" {
		t.Fatalf("no instruction in\n%s", printed(problems))
	}
	if got, ok := Cure(text, p); ok || string(got) != string(text) {
		t.Errorf("an instruction was put into the text:\n%s", got)
	}
}
