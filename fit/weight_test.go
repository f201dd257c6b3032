package fit

import (
	"fmt"
	"math"
	"testing"

	"foldwright/flat"
	"foldwright/fold"
	"foldwright/internal/check"
	"foldwright/stance"
)

func TestWeigh_check(t *testing.T) {
	check.Each(t, "testdata/check/mass.csv", func(t *testing.T, r check.Row) {
		text := fmt.Sprintf("card \"Sheet\"\nunits %s\n\nstock white \"white\" %s gsm, 0.01 in\n\npiece sheet of white\n  size %s x %s\n",
			r.Text("unit_of_size"), r.Text("gsm"), r.Text("width"), r.Text("height"))
		w, probs := Weigh(shut(t, text), Load{})
		if len(probs) > 0 {
			t.Fatal(probs)
		}
		r.Near(w.Grams())
	})
}

// TestWeigh_forms: package stance sums the same masses on its own way to the centre of mass; only glue is not in its sum.
func TestWeigh_forms(t *testing.T) {
	eachForm(t, func(t *testing.T, _ string, c *flat.Closed) {
		frames := make([]fold.Frame, len(c.At))
		for i := range frames {
			frames[i] = fold.Still()
		}
		want := stance.Of(c, fold.Pose{Panels: frames}).Grams
		w, _ := Weigh(c, Load{})
		glue := 0.0
		for _, p := range w {
			if p.Kind == GlueWeight {
				glue += p.Grams
				if p.Assumed == "" {
					t.Error("the weight of glue is assumed, and not said to be")
				}
			}
		}
		if got := w.Grams() - glue; math.Abs(got-want) > 1e-9*want {
			t.Errorf("got %v g, want %v", got, want)
		}
		if glue <= 0 || glue > want {
			t.Errorf("got %v g of glue on %v g", glue, want)
		}
	})
}

// TestWeigh_glue: a leaf of 30 x 40 mm on a front of 100 x 150 mm, with a mat of 92 x 142 and a topper of 10 x 20, at 100 g/m².
func TestWeigh_glue(t *testing.T) {
	c := shut(t, `card "Leaf"
units mm

stock white "white" 250 gsm, 0.3 mm

piece front of white
  size 100 x 150
  panels face

piece leaf of white
  size 30 x 40
  panels back

glue leaf.back outside front.face

mat front.face of white, edge 4
topper rect 10 x 20 of white on front.face, bottom at 5
`)
	w, probs := Weigh(c, Load{Ornaments: []Ornament{{"shell", 2.5}, {"rope", math.NaN()}, {"", -1}}, GlueGSM: 100})
	want := []Part{{PieceWeight, "front", 3.75, ""}, {PieceWeight, "leaf", 0.3, ""}, {MatWeight, "mat of white on front.face", 3.266, ""},
		{TopperWeight, "topper of white on front.face", 0.05, ""}, {OrnamentWeight, "shell", 2.5, ""}, {GlueWeight, "glue", 0.1 * (1.2 + 13.064 + 0.2), ""}}
	if len(w) != len(want) {
		t.Fatalf("got %+v, want %+v", w, want)
	}
	for i, p := range w {
		if p.Kind != want[i].Kind || p.Name != want[i].Name || p.Assumed != "" || math.Abs(p.Grams-want[i].Grams) > 1e-9 {
			t.Errorf("got %+v, want %+v", p, want[i])
		}
	}
	if len(probs) != 2 || probs[0].String() != "the ornament \"rope\" weighs NaN g [ornament-weight]\n    needs: a weight of 0 g or more" {
		t.Errorf("got %v", probs)
	}
}
