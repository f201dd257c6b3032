package view

import (
	"slices"
	"strings"
	"testing"

	"foldwright/drawing"
)

// TestHatchLegend: the legend of a pattern names just the hatchings that the pattern shows; what each piece is glued with is
// read from its recipe.
func TestHatchLegend(t *testing.T) {
	const seen, behind, both = "glue area", "glue area on the inner face, behind", "glue area on both faces"
	for _, c := range []struct {
		card, piece string
		want        []string
	}{
		{"eight-lantern", "spring", []string{seen, behind, both}}, // its tab behind a panel that is glued to the wall
		{"lamp-box", "box", []string{seen, behind}},               // tabs and wings, each on a panel of its own
		{"swinging-buoy", "shutter", []string{behind}},            // glued with all of its inner face: no edge of an area shows
		{"swinging-buoy", "sheet", []string{seen}},
		{"harbour-gate", "leaf", []string{seen, behind, both}}, // all of it glued behind, and part of it in front
	} {
		words := linesOf(patternNamed(t, c.card, c.piece))
		for _, w := range []string{seen, behind, both} {
			if got, want := slices.Contains(words, w), slices.Contains(c.want, w); got != want {
				t.Errorf("%s, %s: the legend says %q: %t, want %t", c.card, c.piece, w, got, want)
			}
		}
	}
}

// TestHatchOffWords: hatching stays half a millimetre away from all words of a pattern.
func TestHatchOffWords(t *testing.T) {
	const away = 0.5
	for name, r := range cards(t) {
		for _, d := range Patterns(r.Assembly) {
			for _, s := range d.Group(drawing.GroupText) {
				words := s.(drawing.Text)
				c := words.Corners()
				middle := c[0].Add(c[2]).Times(0.5)
				wide, high := c[1].Sub(c[0]).Len(), c[3].Sub(c[0]).Len()
				var grown []drawing.Point
				for _, p := range []drawing.Point{{X: -1, Y: -1}, {X: 1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}} {
					grown = append(grown, middle.Add(drawing.Point{X: p.X * (wide/2 + away), Y: p.Y * (high/2 + away)}.Turned(words.TurnDeg)))
				}
				for _, h := range d.Group(drawing.GroupGlue) {
					if l := h.(drawing.Polyline); l.Line != drawing.Hidden && meet(grown, l.Points) {
						t.Errorf("%s, %s: hatching within %g mm of %q", name, d.Name, away, words.Words)
					}
				}
			}
		}
	}
}

// TestFaceUp: every pattern and template says which face is up, in the words of RECIPE.md.
func TestFaceUp(t *testing.T) {
	const words = "outer face towards you"
	for name, r := range cards(t) {
		for _, d := range Patterns(r.Assembly) {
			if !strings.Contains(strings.Join(linesOf(d), " "), words) || !strings.Contains(d.Desc, words) {
				t.Errorf("%s, %s does not say %q", name, d.Name, words)
			}
		}
		for _, d := range Templates(r.Assembly) {
			if !strings.Contains(d.Desc, words) {
				t.Errorf("%s, %s does not say %q", name, d.Name, words)
			}
		}
	}
}
