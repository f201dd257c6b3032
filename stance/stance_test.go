package stance

import (
	"context"
	"math"
	"slices"
	"testing"

	"foldwright/flat"
	"foldwright/fold"
	"foldwright/forms"
	"foldwright/internal/check"
	"foldwright/pattern"
	"foldwright/recipe"

	"pgregory.net/rapid"
)

const degree = math.Pi / 180

// TestVee compares with worked examples of a V on a table, spine at the origin, opening towards x.
func TestVee(t *testing.T) {
	check.Each(t, "testdata/check/vee.csv", func(t *testing.T, r check.Row) {
		half := r.Float("opening_deg") / 2 * degree
		page, height, grams := r.Float("page_mm"), r.Float("height_mm"), r.Float("page_g")
		var bare []Mass
		contacts := []fold.Vec{{}}
		for _, side := range [2]float64{-1, 1} {
			way := fold.Vec{math.Cos(half), 0, side * math.Sin(half)}
			contacts = append(contacts, way.Scale(page))
			bare = append(bare, Mass{grams, way.Scale(page / 2).Add(fold.Vec{0, height / 2, 0})})
		}
		at := fold.Vec{r.Float("weight_x_mm"), r.Float("weight_y_mm"), 0}
		s := Rate(append(bare, Mass{r.Float("weight_g"), at}), contacts)
		most, _ := Rate(bare, contacts).Tipping(at)
		r.NearColumn("expected_centre_x_mm", s.Centre[0])
		r.NearColumn("expected_centre_y_mm", s.Centre[1])
		r.NearColumn("expected_margin_mm", s.Margin)
		r.NearColumn("expected_tip_deg", s.Tip/degree)
		r.NearColumn("expected_tipping_g", most)
		r.Done()
	})
}

func opened(t testing.TB, text string) (*flat.Closed, *fold.Opening) {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(text))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatal(problems)
	}
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatal("does not lie flat")
	}
	return closed, fold.New(closed).Path(context.Background(), 30)
}

const cover = `card "Cover"
units mm
stock white "white card" 300 gsm, 0.36 mm
piece cover of white
  size 200 x 150
  score across at 100
  panels back, front
  fold all mountain
opens at cover.1 to 60
`

// TestCover: a plain card opened to 60 degrees is the V of the worked examples without its weight. Its centre of mass lies
// half-way between spine and front edge, so the sides of the V, 30 degrees off, are the nearest.
func TestCover(t *testing.T) {
	closed, o := opened(t, cover)
	s := Of(closed, o.Poses[len(o.Poses)-1])
	if math.Abs(s.Grams-9) > 1e-9 {
		t.Errorf("it weighs %g g, want 9", s.Grams)
	}
	spine := 100 * math.Cos(30*degree) / 2
	if want := spine * math.Sin(30*degree); math.Abs(s.Margin-want) > 1e-6 {
		t.Errorf("the margin is %.6f mm, want %.6f", s.Margin, want)
	}
	if want := math.Atan(s.Margin / 75); math.Abs(s.Tip-want) > 1e-9 {
		t.Errorf("it tips at %g, want %g", s.Tip, want)
	}
	if len(s.Feet) != 3 || !s.Stands() {
		t.Errorf("it stands on %v", s.Feet)
	}
}

// TestLayers: a mat and a topper add their weight where they are, in front of the panel.
func TestLayers(t *testing.T) {
	closed, o := opened(t, cover+`mat cover.front of white, edge 10
topper rect 40 x 50 of white on cover.front, centre, thick 4 mm
`)
	b := newBody(closed, o.Poses[len(o.Poses)-1])
	grams := 0.0
	for _, m := range b.masses {
		grams += m.Grams
	}
	if want := 0.3 * (20*15 + 8*13 + 4*5) / 10; math.Abs(grams-want) > 1e-9 {
		t.Errorf("it weighs %g g, want %g", grams, want)
	}
	bare, _ := opened(t, cover)
	with, without := Of(closed, o.Poses[len(o.Poses)-1]), Of(bare, o.Poses[len(o.Poses)-1])
	if d := with.Centre.Sub(without.Centre).Norm(); d < 5 {
		t.Errorf("mat and topper move the centre of mass by %g mm only", d)
	}
}

// TestOpenedFlat: a cover opened to 180 degrees stands on a line, so it falls; on the way it stood.
func TestOpenedFlat(t *testing.T) {
	text := cover[:len(cover)-len("60\n")] + "180\n"
	closed, o := opened(t, text)
	if s := Of(closed, o.Poses[len(o.Poses)-1]); s.Stands() {
		t.Errorf("a flat card stands: %+v", s)
	}
	pose, s := Standing(closed, o)
	if pose < len(o.Poses)/2 || !s.Stands() {
		t.Errorf("pose %d, %+v", pose, s)
	}
}

// TestTipping: a little less than the tipping weight leaves a card standing, a little more does not.
func TestTipping(t *testing.T) {
	found := 0
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		closed, o := opened(t, string(text))
		pose, s := Standing(closed, o)
		if pose < 0 {
			continue
		}
		if lean, _ := s.Lean(); lean > 0 {
			continue // with a weight it may lean another way
		}
		bare := newBody(closed, o.Poses[pose])
		at := fold.Vec{0, 50, 300} // far in front
		grams, ok := s.Tipping(at)
		if !ok {
			t.Errorf("%s: no weight tips it", name)
			continue
		}
		found++
		with := func(share float64) bool {
			return Rate(append(slices.Clone(bare.masses), Mass{share * grams, at}), bare.contacts()).Stands()
		}
		if !with(0.999) || with(1.001) {
			t.Errorf("%s: %g g does not tip it", name, grams)
		}
	}
	if found < 10 {
		t.Errorf("only %d forms stand", found)
	}
}

// TestSides: turned about the upright, a body tips at the same angles to other sides; tilted towards a side, it holds at
// least as long as towards its weakest.
func TestSides(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		number := func(name string) float64 { return rapid.Float64Range(-100, 100).Draw(t, name) }
		var feet, turned []fold.Vec
		for range rapid.IntRange(0, 8).Draw(t, "feet") {
			f := fold.Vec{number("x"), 0, number("z")}
			feet, turned = append(feet, f), append(turned, fold.Vec{f[2], 0, -f[0]})
		}
		at := fold.Vec{number("x"), 50, number("z")}
		s := Rate([]Mass{{5, at}}, feet)
		q := Rate([]Mass{{5, fold.Vec{at[2], 50, -at[0]}}}, turned)
		if s.Stands() != q.Stands() && max(s.Margin, q.Margin) > 1e-5 || s.Stands() && q.Stands() && math.Abs(s.Margin-q.Margin) > 1e-5 {
			t.Fatalf("margin %g, turned %g", s.Margin, q.Margin)
		}
		if math.IsNaN(s.Margin) || s.Stands() && s.Margin > 1e3 {
			t.Fatalf("margin %g", s.Margin)
		}
		if !s.Stands() || !q.Stands() {
			return
		}
		// z becomes x: what is forwards becomes to the right.
		if math.Abs(s.Tips[Forwards]-q.Tips[Right]) > 1e-5 || math.Abs(s.Tips[Left]-q.Tips[Forwards]) > 1e-5 {
			t.Fatalf("%v, turned %v", s.Tips, q.Tips)
		}
		if s.Tips[s.Weakest()] < s.Tip-1e-6 {
			t.Fatalf("towards %s it tips at %g, before %g", s.Weakest(), s.Tips[s.Weakest()], s.Tip)
		}
	})
}

func BenchmarkOf(b *testing.B) {
	text, err := forms.Text("harbour-light")
	if err != nil {
		b.Fatal(err)
	}
	closed, o := opened(b, string(text))
	for b.Loop() {
		Of(closed, o.Poses[len(o.Poses)-1])
	}
}
