package conform

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"foldwright/drawing"
)

func plain(d *drawing.Drawing, c color.Color) image.Image {
	im := image.NewRGBA(image.Rect(0, 0, int(math.Ceil(d.W*perMM)), int(math.Ceil(d.H*perMM))))
	draw.Draw(im, im.Bounds(), image.NewUniform(c), image.Point{}, draw.Src)
	return im
}

// TestFaults sees that no case is content with an empty or with a black sheet, or with a sheet of another size.
func TestFaults(t *testing.T) {
	names := map[string]bool{}
	for _, c := range Cases() {
		if names[c.Name] {
			t.Errorf("%q names two cases", c.Name)
		}
		names[c.Name] = true
		if err := drawing.Drawable(c.Drawing); err != nil {
			t.Errorf("%s: %v", c.Name, err)
		}
		for name, colour := range map[string]color.Color{"an empty": color.White, "a black": color.Black} {
			if got := (picture{plain(c.Drawing, colour), c.Drawing}).faults(c); len(got) == 0 {
				t.Errorf("%s is content with %s sheet", c.Name, name)
			}
		}
		other := *c.Drawing
		other.W += 3
		if got := (picture{plain(&other, color.White), c.Drawing}).faults(Case{Drawing: c.Drawing}); len(got) == 0 {
			t.Errorf("%s is content with a sheet that is 3 mm too wide", c.Name)
		}
	}
}

// TestEverything sees that the drawing has every role and no words that overlap.
func TestEverything(t *testing.T) {
	d := Everything()
	if err := drawing.Drawable(d); err != nil {
		t.Fatal(err)
	}
	for _, f := range drawing.Clashes(d, drawing.Roles()...) {
		t.Error(f)
	}
	used := map[drawing.Role]bool{}
	for _, k := range d.Kinds() {
		used[k.Role] = true
	}
	for _, s := range d.Shapes() {
		if text, ok := s.(drawing.Text); ok {
			used[text.Role] = true
		}
	}
	for _, r := range drawing.Roles() {
		if !used[r] {
			t.Errorf("%s is not drawn", r)
		}
	}
}

// TestStrips sees that no sample has words that overlap or lines through words.
func TestStrips(t *testing.T) {
	for _, s := range Strips() {
		d := s.Drawing()
		if l := drawing.Check(d); len(l) > 0 {
			t.Errorf("%s: %v", s.Name, l)
		}
		lines := []drawing.Role{
			drawing.Cut, drawing.ScoreMountain, drawing.ScoreValley, drawing.ScoreEither, drawing.ScoreStraight, drawing.Dimension,
			drawing.Frame, drawing.Glue, drawing.GlueBehind,
		}
		for _, f := range drawing.Clashes(d, lines...) {
			t.Errorf("%s: %s", s.Name, f)
		}
	}
}
