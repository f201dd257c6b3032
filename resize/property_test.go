package resize_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/proof"
	"foldwright/recipe"
	. "foldwright/resize"

	"pgregory.net/rapid"
)

// TestProperties holds what must be true of every answer.
func TestProperties(t *testing.T) {
	seen := map[flat.Status]int{}
	rapid.Check(t, func(t *rapid.T) {
		s := Draw(t)
		text := commented(t, s.Text(s.Old()))
		r, closed := Shut(t, text)
		q := drawTarget(t, closed, 4)
		got, err := Resize(context.Background(), r, closed, q)
		if err != nil {
			return // the marks are coarser than the card: see TestResize_refuses
		}
		seen[got.Status]++
		switch got.Status {
		case flat.Solved:
			checkSolved(t, text, q, got)
			larger := q
			larger.To.W += length.Length(rapid.IntRange(0, 40).Draw(t, "wider")) * length.Millimetre
			larger.To.H += length.Length(rapid.IntRange(0, 40).Draw(t, "higher")) * length.Millimetre
			if more, err := Resize(context.Background(), r, closed, larger); err != nil || more.Status != flat.Solved {
				t.Fatalf("fits %v but not %v: %v %v\n%s", q.To, larger.To, err, more, text)
			}
		case flat.Contradictory:
			if len(got.Conflict) == 0 {
				t.Fatalf("nothing fits %v and nothing says why\n%s", q.To, text)
			}
		}
	})
	if seen[flat.Solved] == 0 {
		t.Error("no card was resized")
	}
	t.Logf("%v", seen)
}

// drawTarget draws a size from a fraction of the card to twice of it, on marks of 1 to 4 mm.
func drawTarget(t *rapid.T, closed *flat.Closed, fraction int) Request {
	side := func(name string, l length.Length) int {
		n := int(l / length.Millimetre)
		return rapid.IntRange(max(1, n/fraction), 2*n).Draw(t, name)
	}
	return Millimetres(side("to width", closed.Box.W()), side("to height", closed.Box.H()), rapid.IntRange(1, 4).Draw(t, "marks"))
}

// commented puts comments and empty lines between the lines of a recipe.
func commented(t *rapid.T, text string) string {
	var out []string
	for i, line := range strings.Split(strings.TrimRight(text, "\n"), "\n") {
		if rapid.IntRange(0, 3).Draw(t, "comment") == 0 {
			out = append(out, fmt.Sprintf("# Note %d: 42 x 7, marks 3 mm", i))
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n") + "\n"
}

func checkSolved(t *rapid.T, text string, q Request, got *Result) {
	written := string(got.Recipe.Format())
	report := proof.ProveFlat(context.Background(), "", []byte(written))
	if report.Closed == nil || !report.Closed.LiesFlat() {
		t.Fatalf("what was written does not lie flat: %v\n%s", report.Problems, written)
	}
	if box := report.Closed.Box; box.W() > q.To.W || box.H() > q.To.H || box != got.Closed.Box {
		t.Fatalf("the closed card is %v, asked for %v, said %v\n%s", box, q.To, got.Closed.Box, written)
	}
	if off := offMarks(report.Card, q.Marks); off != "" {
		t.Fatalf("%s is not on a mark of %v\n%s", off, q.Marks, written)
	}
	if f := report.Card.Fits; f == nil || *f != q.To || report.Card.Marks != q.Marks {
		t.Fatalf("fits and marks are not those asked for\n%s", written)
	}
	if a, b := skeleton(text), skeleton(written); !slices.Equal(a, b) {
		t.Fatalf("comments or order changed:\n%s\n---\n%s", text, written)
	}
	if !got.Proven || got.CostMarks2 < 0 {
		t.Fatalf("proven %v, cost %v", got.Proven, got.CostMarks2)
	}
}

// skeleton keeps the comments whole and of every other line its first word; what the size adds is left out.
func skeleton(text string) (out []string) {
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		switch word, _, _ := strings.Cut(line, " "); {
		case strings.HasPrefix(line, "#"):
			out = append(out, line)
		case word != "" && word != "fits" && word != "marks" && word != "units":
			out = append(out, word)
		}
	}
	return out
}

// offMarks names a measure of a card that is not on a mark, or nothing.
func offMarks(c *card.Card, mark length.Length) string {
	on := func(list ...length.Length) bool {
		return !slices.ContainsFunc(list, func(l length.Length) bool { return !l.OnMark(mark) })
	}
	points := func(list ...plane.Point) bool {
		return !slices.ContainsFunc(list, func(p plane.Point) bool { return !on(p.X, p.Y) })
	}
	for _, p := range c.Pieces {
		if !points(pattern.Outline(&p)...) {
			return "the outline of " + p.Name
		}
		for k, s := range p.Scores {
			if !on(s.At) || !points(s.From, s.To) {
				return fmt.Sprintf("score %d of %s", k+1, p.Name)
			}
		}
		for k, s := range p.Slits {
			if !points(s.From, s.To) {
				return fmt.Sprintf("slit %d of %s", k+1, p.Name)
			}
		}
		for k, w := range p.Windows {
			if !points(append(w.Points, w.At)...) || !on(w.Size.W, w.Size.H) {
				return fmt.Sprintf("window %d of %s", k+1, p.Name)
			}
		}
	}
	for k, g := range c.Glues {
		if !on(g.Over, g.Up) {
			return fmt.Sprintf("the shift of glue line %d", k+1)
		}
	}
	return ""
}

// TestOwnSize: brought to the size that it has, on the marks that it has, a card stays as it is.
func TestOwnSize(t *testing.T) {
	for _, name := range forms.Names() {
		t.Run(name, func(t *testing.T) {
			text, err := forms.Text(name)
			if err != nil {
				t.Fatal(err)
			}
			r, closed := Shut(t, string(text))
			c := r.Card()
			got, err := Resize(context.Background(), r, closed, Request{To: *c.Fits, Marks: c.Marks, MarksUnit: c.Unit, Unit: c.Unit})
			if err != nil {
				t.Fatal(err)
			}
			if got.Status != flat.Solved || got.CostMarks2 > 1e-9 {
				t.Fatalf("%v, cost %v", got.Status, got.CostMarks2)
			}
			if written := string(got.Recipe.Format()); written != string(text) {
				t.Errorf("changed:\n%s", differing(string(text), written))
			}
			if len(got.Because)+len(got.Released)+len(got.Notes) > 0 {
				t.Errorf("reasons for nothing: %v %v %v", got.Because, got.Released, got.Notes)
			}
		})
	}
	rapid.Check(t, func(t *rapid.T) {
		s := Draw(t)
		text := s.Text(s.Old())
		r, closed := Shut(t, text)
		q := Millimetres(1, 1, 1)
		q.To = card.Size{W: closed.Box.W(), H: closed.Box.H()}
		got, err := Resize(context.Background(), r, closed, q)
		if err != nil || got.Status != flat.Solved || got.CostMarks2 > 1e-9 {
			t.Fatalf("%v %v\n%s", got, err, text)
		}
		for _, c := range got.Changes {
			if c.From != c.To {
				t.Fatalf("%s went from %v to %v\n%s", c.Name, c.From, c.To, text)
			}
		}
	})
}

func differing(a, b string) string {
	x, y := strings.Split(a, "\n"), strings.Split(b, "\n")
	var out []string
	for i := range min(len(x), len(y)) {
		if x[i] != y[i] {
			out = append(out, "was "+x[i], "is  "+y[i])
		}
	}
	return strings.Join(out, "\n")
}

// TestForms: every form brought to any size is written with every measure on a mark, its comments and its order.
func TestForms(t *testing.T) {
	names := forms.Names()
	rapid.Check(t, func(t *rapid.T) {
		name := rapid.SampledFrom(names).Draw(t, "form")
		text, err := forms.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		r, closed := Shut(t, string(text))
		q := Millimetres(rapid.IntRange(60, 250).Draw(t, "width"), rapid.IntRange(60, 250).Draw(t, "height"), 1)
		q.Marks = rapid.SampledFrom([]length.Length{length.Millimetre, 2 * length.Millimetre, length.Inch / 8, length.Inch / 16}).Draw(t, "marks")
		if q.Marks%(length.Inch/16) == 0 {
			q.Unit, q.MarksUnit = length.IN, length.IN
		}
		got, err := Resize(context.Background(), r, closed, q)
		if err != nil {
			t.Fatal(err)
		}
		switch got.Status {
		case flat.Solved:
			checkSolved(t, string(text), q, got)
		case flat.Contradictory:
			if len(got.Conflict) == 0 {
				t.Fatalf("%s to %v on %v: nothing says why nothing fits", name, q.To, q.Marks)
			}
		default:
			t.Fatalf("%s to %v on %v: %v after %d nodes", name, q.To, q.Marks, got.Status, got.Nodes)
		}
	})
}

// TestResize_refuses: what makes no sense is refused with words that say what would.
func TestResize_refuses(t *testing.T) {
	text, err := forms.Text("harbour-light")
	if err != nil {
		t.Fatal(err)
	}
	r, closed := Shut(t, string(text))
	kilometre := 1_000_000 * length.Millimetre
	for _, c := range []struct {
		name string
		q    Request
		says string
	}{
		{"zero", Millimetres(0, 100, 1), "must be above zero"},
		{"negative", Millimetres(100, -5, 1), "must be above zero"},
		{"a kilometre", Request{To: card.Size{W: kilometre, H: kilometre}, Marks: length.Millimetre}, "at most 2000 mm"},
		{"no marks", Millimetres(100, 100, 0), "above zero"},
		{"marks coarser than the card", Millimetres(100, 100, 101), "coarser than the card"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, err := Resize(context.Background(), r, closed, c.q); err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("got %v, %v, want an error that says %q", got, err, c.says)
			}
		})
	}
	wrong, open := Shut(t, strings.Replace(string(text), "42, 78", "43, 78", 1))
	if _, err := Resize(context.Background(), wrong, open, Millimetres(100, 100, 1)); err == nil || !strings.Contains(err.Error(), "does not lie flat") {
		t.Errorf("a card that does not lie flat: %v", err)
	}
}

// TestResize_conflicts: where nothing fits, the conditions that exclude each other are named.
func TestResize_conflicts(t *testing.T) {
	text, err := forms.Text("harbour-light")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		keep string // added
		q    Request
		says []string
	}{
		{"thinner than a tab", "", Millimetres(10, 100, 1), []string{"the closed card is at most 10 mm wide", ".tab = 12 mm"}},
		{"marks coarser than a panel", "", Millimetres(100, 100, 60), []string{".tab = 60 mm", "at most 100 mm wide"}},
		{"a keep that cannot hold", "keep wall.left >= 80\nkeep wall.front >= 50", Millimetres(100, 100, 1), []string{"keep wall.left >= 80 mm", "at most 100 mm wide"}},
		{"two keeps against each other", "keep wall.left >= 30\nkeep wall.left <= 20", Millimetres(150, 150, 1), []string{"keep wall.left >= 30 mm", "keep wall.left <= 20 mm"}},
		{"larger than the longest that is accepted", "keep wall.left >= 1999", Millimetres(120, 168, 1), []string{"keep wall.left >= 1999 mm"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, closed := Shut(t, string(text)+c.keep+"\n")
			got, err := Resize(context.Background(), r, closed, c.q)
			if err != nil {
				t.Fatal(err)
			}
			if got.Status != flat.Contradictory || got.Recipe != nil {
				t.Fatalf("got %v", got.Status)
			}
			all := strings.Join(got.Conflict, "\n")
			for _, s := range c.says {
				if !strings.Contains(all, s) {
					t.Errorf("%q is not named in\n%s", s, all)
				}
			}
		})
	}
}

// TestResize_keeps: inequalities hold to the nanometre, numbers of equations go to the nearest mark and are written so.
func TestResize_keeps(t *testing.T) {
	text := `card "Plate"
units mm
marks 1 mm
fits 40 x 60

stock white "smooth white" 240 gsm, 0.31 mm

piece page of white
  size 80 x 60
  score across at 40
  panels left, right
  fold all mountain

piece plate of white
  size 20 x 30
  panels plate

glue plate.plate facing page.right, left, bottom
opens at page.1 to 180
`
	for _, c := range []struct {
		keep   string
		q      Request
		plate  string // size line
		notes  int
		writes string
	}{
		// Half of 60.9 is 30.45: 30 would break the line.
		{"keep plate.height >= card.height / 2", Request{To: card.Size{W: 40 * length.Millimetre, H: 609 * length.Millimetre / 10}, Marks: length.Millimetre}, "size 20 x 31", 0, "card.height / 2"},
		{"keep plate.width <= 19.5", Millimetres(40, 60, 1), "size 19 x 30", 0, "<= 19.5"},
		{"keep plate.width = 17.6", Millimetres(40, 60, 1), "size 18 x 30", 1, "= 18"},
		{"keep plate.width = 1", Millimetres(40, 60, 4), "size 4 x 28", 1, "= 4"},
		{"keep 2 * plate.width = page.left", Millimetres(50, 60, 1), "size 25 x 30", 0, "2 * plate.width"},
		{"keep page.left / 2 = plate.width / 3 + 10", Millimetres(40, 60, 1), "size 24 x 30", 0, "plate.width / 3 + 10"},
		{"keep page.left / 4 >= plate.width", Millimetres(40, 60, 1), "size 10 x 30", 0, "page.left / 4"},
		{"keep page.left = card.width", Millimetres(50, 60, 1), "size 25 x 30", 0, "card.width"},
	} {
		t.Run(c.keep, func(t *testing.T) {
			r, closed := Shut(t, text+c.keep+"\n")
			got, err := Resize(context.Background(), r, closed, c.q)
			if err != nil || got.Status != flat.Solved {
				t.Fatalf("%v %v", got, err)
			}
			written := string(got.Recipe.Format())
			if !strings.Contains(written, c.plate) || !strings.Contains(written, c.writes) || len(got.Notes) != c.notes {
				t.Errorf("want %q, %q and %d notes; got %q and\n%s", c.plate, c.writes, c.notes, got.Notes, written)
			}
		})
	}
}

// TestResize_stopped: a limit that has passed is no contradiction.
func TestResize_stopped(t *testing.T) {
	text, err := forms.Text("harbour-light")
	if err != nil {
		t.Fatal(err)
	}
	r, closed := Shut(t, string(text))
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	got, err := Resize(ctx, r, closed, Millimetres(105, 148, 1))
	if err != nil || got.Status != flat.StoppedEarly || got.Recipe != nil {
		t.Errorf("got %v, %v", got, err)
	}
}

// TestResize_again: the source stays as it was, and the same question has the same answer.
func TestResize_again(t *testing.T) {
	text, err := forms.Text("gull-box")
	if err != nil {
		t.Fatal(err)
	}
	r, closed := Shut(t, string(text))
	answers := map[string]bool{}
	for range 5 {
		got, err := Resize(context.Background(), r, closed, Millimetres(97, 133, 1))
		if err != nil {
			t.Fatal(err)
		}
		answers[string(got.Recipe.Format())+strings.Join(got.Because, "\n")] = true
	}
	if len(answers) != 1 {
		t.Errorf("%d answers to one question", len(answers))
	}
	if now, _ := recipe.Read("", r.Format()); string(now.Format()) != string(text) || r.Card().Fits.W != 108*length.Millimetre {
		t.Error("the source changed")
	}
}
