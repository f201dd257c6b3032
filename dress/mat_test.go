package dress_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/dress"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/recipe"
)

const (
	mm   = length.Millimetre
	inch = length.Inch
)

// wardrobe looks at a card of the catalogue, its own ornament taken off where bare.
func wardrobe(t testing.TB, name string, bare bool) (*dress.Wardrobe, *proof.Report) {
	t.Helper()
	text, err := forms.Text(name)
	if err != nil {
		t.Fatal(err)
	}
	return look(t, name, text, bare)
}

func look(t testing.TB, name string, text []byte, bare bool) (*dress.Wardrobe, *proof.Report) {
	t.Helper()
	r, problems := recipe.Parse(name, text)
	if r == nil {
		t.Fatal(problems)
	}
	c := r.Card().Clone()
	if bare {
		c.Mats, c.Toppers = nil, nil
	}
	report := proof.Prove(context.Background(), name, recipe.FromCard(c).Format())
	if !report.Proven() {
		t.Fatalf("%s: %v", name, report.Problems)
	}
	return dress.New(report.Closed, report.Opening), report
}

func paper(name string) card.Stock {
	return card.Stock{Name: name, Label: name, Grammage: 240, Caliper: 300 * length.Micrometre}
}

// angle is a card of two panels that stand at a right angle when it is open.
func angle(unit, widths, height, sense string) []byte {
	left, _, _ := strings.Cut(widths, " + ")
	return fmt.Appendf(nil, "card \"Pier\"\nunits %s\n\nstock white 240 gsm, 0.3 mm\n\npiece pier of white\n  size %s x %s\n  score across at %s\n  panels left, right\n  fold %s\n\nopens at pier.1 to 90\n",
		unit, widths[strings.Index(widths, "= ")+2:], height, left, sense)
}

func cutWords(cuts []dress.Cut, u length.Unit) string {
	var out []string
	for _, c := range cuts {
		out = append(out, fmt.Sprintf("%d %s %s %s x %s", c.Count, c.Stock, c.Shape, c.W.Human(u), c.H.Human(u)))
	}
	return strings.Join(out, "; ")
}

// Common practice, no source: a panel of 1 3/4 x 3 in takes a mat of 1 1/2 x 2 3/4 and then one of 1 1/4 x 2 1/2; a panel of
// 1 1/2 x 3 in takes 1 1/4 x 2 3/4 and then 1 x 2 1/2.
func TestTradeMats(t *testing.T) {
	w, _ := look(t, "pier.card", angle("in", "1 3/4 + 1 1/2 = 3 1/4", "3", "m"), false)
	m, problems := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: paper("navy")}, {Stock: paper("sand")}}})
	if m == nil || len(m.Bare)+len(m.Room) > 0 {
		t.Fatal(problems, m)
	}
	want := "1 navy rect 1 1/2 in x 2 3/4 in; 1 navy rect 1 1/4 in x 2 3/4 in; 1 sand rect 1 1/4 in x 2 1/2 in; 1 sand rect 1 in x 2 1/2 in"
	if got := cutWords(dress.Cuts(w.Dressed(m.Dressing)), length.IN); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
}

// The same in the measures of a metric ruler, with another paper on the side that is turned away.
func TestFrontAndBack(t *testing.T) {
	w, r := wardrobe(t, "harbour-light", true)
	m, problems := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: paper("sand")}, {Stock: paper("foam")}}, Back: []dress.Layer{{Stock: card.Stock{Name: "navy"}}}})
	if m == nil {
		t.Fatal(problems)
	}
	text := string(recipe.FromCard(m.On(r.Card)).Format())
	for _, want := range []string{
		"mat wall.left, wall.right, roof.front-slope of sand, edge 3\n",
		"mat wall.back-right, wall.back-left, roof.back-slope of navy, edge 3\n",
		"mat wall.left, wall.right, roof.front-slope of foam, edge 3\n",
		"topper rect 30 x 54 of sand on wall.front, bottom at 3\n", // the foot of the roof is glued on above it
		"topper rect 24 x 48 of foam on wall.front, bottom at 6\n",
		"topper rect 30 x 54 of navy on wall.back, bottom at 3\n",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no %q in\n%s", want, text)
		}
	}
	if strings.Contains(text, "spring.") && strings.Contains(text[strings.Index(text, "mat "):], "spring") {
		t.Error("the spring inside is dressed")
	}
	if len(m.Stocks) != 2 { // navy is the card's own
		t.Errorf("new stocks: %v", m.Stocks)
	}
	if i := slices.IndexFunc(m.Room, func(r dress.Room) bool {
		return r.Strip && r.Edge == 15*mm && strings.Contains(r.Why, "roof.front-foot")
	}); i < 0 {
		t.Errorf("the room below the roof's foot is not told: %+v", m.Room)
	}
}

// sound checks a dressed card against its panels and glue lines, by areas and not as the package does: no mat or strip
// beyond its panel, over a window or under what is glued on the panel, and each layer smaller than the one below.
func sound(t *testing.T, name string, c *flat.Closed) (layers int) {
	t.Helper()
	below := map[int]plane.Box{}
	for _, d := range c.Decorations() {
		p := c.Assembly.Panels[d.Panel]
		ring := make([]plane.Point, len(d.Ring))
		for i, q := range d.Ring {
			ring[i] = c.At[d.Panel].Inverse().Point(q)
		}
		box := plane.BoxOf(ring...)
		if box.W() <= 0 || box.H() <= 0 {
			t.Errorf("%s: nothing is left of layer %d on %s", name, d.Layer, p.Ref)
		}
		if b, ok := below[d.Panel]; ok && (box.Min.X <= b.Min.X || box.Max.X >= b.Max.X || box.Min.Y <= b.Min.Y || box.Max.Y >= b.Max.Y) {
			t.Errorf("%s: layer %d on %s does not lie within the one below", name, d.Layer, p.Ref)
		}
		below[d.Panel] = box
		covered := glueOn(c.Assembly, d.Panel)
		const n = 60
		for i := range n * n {
			x := float64(box.Min.X) + (float64(i%n)+0.5)/n*float64(box.W())
			y := float64(box.Min.Y) + (float64(i/n)+0.5)/n*float64(box.H())
			if !p.Contains(x, y) {
				t.Errorf("%s: a layer on %s lies beyond it or over its window", name, p.Ref)
				break
			}
			if slices.ContainsFunc(covered, func(has func(x, y float64) bool) bool { return has(x, y) }) {
				t.Errorf("%s: a layer on %s lies under glue", name, p.Ref)
				break
			}
		}
		layers++
	}
	return layers
}

// glueOn returns, for what is glued on the outer face of a panel, whether a point lies on it.
func glueOn(a *pattern.Assembly, panel int) []func(x, y float64) bool {
	var out []func(x, y float64) bool
	for _, j := range a.Joints {
		other, place := -1, plane.Stay()
		switch how := j.Glue.Joint; {
		case j.A == panel && (how == card.Inside || how == card.Against):
			other, place = j.B, j.Place
		case j.B == panel && (how == card.Outside || how == card.Against):
			other, place = j.A, j.Place.Inverse()
		default:
			continue
		}
		out = append(out, func(x, y float64) bool {
			x, y = place.At(x, y)
			return a.Panels[other].Contains(x, y)
		})
	}
	return out
}

// Whatever the reveal and however many layers, the mats of every form are sound, the dressed text is the old one and new
// lines, and the dressed card is proven as the bare one is.
func TestForms(t *testing.T) {
	total := 0
	for _, name := range forms.Names() {
		for k, reveals := range [][]length.Length{{0}, {0, 0}, {2, 1, 1}, {1, 4}} {
			w, r := wardrobe(t, name, true)
			marks := r.Card.Marks
			job := dress.MatJob{}
			for i, n := range reveals {
				job.Front = append(job.Front, dress.Layer{Stock: paper(fmt.Sprint("layer-", i)), Reveal: n * marks})
			}
			m, problems := w.Mats(job)
			if m == nil {
				if len(problems) != 1 || problems[0].Rule != "dress-reveal" {
					t.Errorf("%s, %v: %v", name, reveals, problems)
				}
				continue
			}
			total += sound(t, name, w.Dressed(m.Dressing))
			for _, c := range dress.Cuts(w.Dressed(m.Dressing)) {
				if onMarks(r.Assembly, c.For, marks) && (!c.W.OnMark(marks) || !c.H.OnMark(marks)) {
					t.Errorf("%s: a layer of %v x %v is off the marks", name, c.W, c.H)
				}
			}
			before := string(r.Recipe.Format())
			m.Write(r.Recipe)
			after := r.Recipe.Format()
			kept(t, name, before, string(after))
			if k > 0 {
				continue
			}
			proven := proof.ProveBare(context.Background(), name, after)
			if !proven.Proven() || len(proven.Problems) > len(r.Problems) {
				t.Errorf("%s: dressed it is not proven: %v", name, proven.Problems)
			}
		}
	}
	t.Logf("%d layers", total)
	if total < 200 {
		t.Errorf("only %d layers on all forms", total)
	}
}

// onMarks says whether the panels named are rectangles on marks.
func onMarks(a *pattern.Assembly, refs []string, marks length.Length) bool {
	for _, p := range a.Panels {
		b := p.Box
		if slices.Contains(refs, p.Ref) && !(len(p.Outline) == 4 && b.W().OnMark(marks) && b.H().OnMark(marks)) {
			return false
		}
	}
	return true
}

// kept checks that every line of a text stands in another one, in the same order.
func kept(t *testing.T, name, before, after string) {
	t.Helper()
	rest := strings.Split(after, "\n")
	for line := range strings.SplitSeq(before, "\n") {
		i := slices.Index(rest, line)
		if i < 0 {
			t.Errorf("%s: the line %q is gone", name, line)
			return
		}
		rest = rest[i+1:]
	}
}

// The usual reveal goes to the mark next to it.
func TestUsualReveal(t *testing.T) {
	w, _ := look(t, "pier.card", angle("mm", "60 + 60 = 120", "80", "m"), false)
	for marks, want := range map[length.Length]length.Length{mm: 3 * mm, 2 * mm: 4 * mm, 5 * mm: 5 * mm, inch / 8: inch / 8, inch / 16: inch / 8, 20 * mm: 20 * mm} {
		m, problems := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: paper("sand")}}, Marks: marks})
		if m == nil || m.Mats[0].Edge != want {
			t.Errorf("marks %v: got %+v, %v", marks, m, problems)
		}
	}
}

// A fold that shuts with the outer faces together wants twice what lies between them: 2 x (1.5 + 1.5) mm of foam (common
// practice, no source). A fold that shuts with them outside wants nothing.
func TestBinding(t *testing.T) {
	foam := card.Stock{Name: "foam", Label: "foam", Grammage: 100, Caliper: 3 * mm / 2}
	for sense, want := range map[string]length.Length{"v": 6 * mm, "m": 3 * mm} {
		w, _ := look(t, "pier.card", angle("mm", "60 + 60 = 120", "80", sense), false)
		m, problems := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: foam}}})
		if m == nil || len(m.Mats) != 1 || m.Mats[0].Edge != want {
			t.Fatalf("%s: %v %+v", sense, problems, m)
		}
		if told := len(m.Room) == 2 && strings.Contains(m.Room[0].Why, "score 1 of pier shuts with the outer faces together: 3 mm"); told != (sense == "v") {
			t.Errorf("%s: told %+v", sense, m.Room)
		}
	}
}

func TestMatsRefused(t *testing.T) {
	w, _ := wardrobe(t, "harbour-light", true)
	dressed, _ := wardrobe(t, "lamp-box", false)
	good := dress.Layer{Stock: paper("sand")}
	for _, test := range []struct {
		name, rule, says string
		w                *dress.Wardrobe
		job              dress.MatJob
	}{
		{"no layers", "dress-none", "no layer", w, dress.MatJob{}},
		{"unknown stock", "dress-stock", "nvy", w, dress.MatJob{Front: []dress.Layer{{Stock: card.Stock{Name: "nvy"}}}}},
		{"nothing left", "dress-reveal", "leaves less than 10 mm", w, dress.MatJob{Front: []dress.Layer{{Stock: good.Stock, Reveal: 60 * mm}}}},
		{"negative", "dress-reveal", "-3 mm", w, dress.MatJob{Front: []dress.Layer{{Stock: good.Stock, Reveal: -3 * mm}}}},
		{"off marks", "dress-reveal", "the nearest mark: 3 mm", w, dress.MatJob{Front: []dress.Layer{{Stock: good.Stock, Reveal: 5 * mm / 2}}}},
		{"marks", "dress-marks", "-1 mm", w, dress.MatJob{Front: []dress.Layer{good}, Marks: -mm}},
		{"fine marks", "dress-marks", "at least 0.1 mm", w, dress.MatJob{Front: []dress.Layer{good}, Marks: 1}},
	} {
		m, problems := test.w.Mats(test.job)
		if text := fmt.Sprint(problems); m != nil || !slices.ContainsFunc(problems, func(p problem.Problem) bool { return p.Rule == test.rule }) || !strings.Contains(text, test.says) {
			t.Errorf("%s: got %v", test.name, text)
		}
	}
	// Faces that have a mat stay as they are, and the rest is dressed.
	m, problems := dressed.Mats(dress.MatJob{Front: []dress.Layer{good}})
	if m == nil {
		t.Fatal(problems)
	}
	for _, l := range m.Mats {
		for _, p := range l.Panels {
			if p.Panel == "front" || p.Panel == "left" {
				t.Errorf("%v has a mat already, and gets another", p)
			}
		}
	}
	if !slices.ContainsFunc(m.Bare, func(b dress.Bare) bool { return b.Why == "it has 1 mat already" }) {
		t.Errorf("not told: %+v", m.Bare)
	}
	// The stock that is advised is one of the card.
	_, problems = w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: card.Stock{Name: "nvy"}}}})
	if m, again := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: card.Stock{Name: problems[0].Try}}}}); m == nil {
		t.Errorf("%q does not help: %v", problems[0].Try, again)
	}
}

// What shows: the six walls and the roof of a stand, not the spring in it nor the tab behind a wall. The outer faces of a
// card that opens to a right angle show where the score is a mountain, and where it is a valley.
func TestFaces(t *testing.T) {
	w, r := wardrobe(t, "harbour-light", true)
	var front, back []string
	for _, f := range w.Faces() {
		if name := r.Assembly.Panels[f.Panel].Ref; f.Front {
			front = append(front, name)
		} else {
			back = append(back, name)
		}
	}
	if got, want := strings.Join(front, " "), "wall.left wall.front wall.right roof.front-foot roof.front-slope"; got != want {
		t.Errorf("front: got %s, want %s", got, want)
	}
	if got, want := strings.Join(back, " "), "wall.back-right wall.back wall.back-left roof.back-slope roof.back-foot"; got != want {
		t.Errorf("back: got %s, want %s", got, want)
	}
}
