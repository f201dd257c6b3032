package view

import (
	"strings"
	"testing"

	"foldwright/drawing"
)

// TestThicknessScale: the scale has just the tones of the picture, darker where it is thicker, and says every thickness that a
// part says.
func TestThicknessScale(t *testing.T) {
	for name, r := range cards(t) {
		d := Thickness(r.Closed)
		shown, explained := map[drawing.Style]bool{}, map[drawing.Style]bool{}
		for _, s := range d.Group(drawing.GroupPanel) {
			shown[s.(drawing.Polygon).Fill] = true
		}
		var says []string
		fields, grey := 0, 0.0
		for _, s := range d.Group(drawing.GroupLegend) {
			switch s := s.(type) {
			case drawing.Polygon:
				explained[s.Fill] = true
				fields++
				tone, _ := s.Fill.Colour()
				if tone.Luminance() < grey {
					t.Errorf("%s: field %d of the scale is darker than that of a thicker part", name, fields)
				}
				grey = tone.Luminance()
				if !shown[s.Fill] {
					t.Errorf("%s: the scale has a tone that the picture does not show", name)
				}
			case drawing.Text:
				if !s.Bold { // a bold one is the letter in a field
					says = append(says, s.Words)
				}
			}
		}
		if len(explained) != len(shown) || fields != len(says) {
			t.Errorf("%s: %d tones explained by %d fields with %d texts, the picture has %d", name, len(explained), fields, len(says), len(shown))
		}
		for _, s := range d.Group(drawing.GroupText) {
			words := s.(drawing.Text).Words
			if strings.HasSuffix(words, " mm") && !strings.Contains("\n"+strings.Join(says, "\n"), "\n"+words+" (") {
				t.Errorf("%s: a part is %s thick, the scale does not say so", name, words)
			}
		}
	}
}

// TestThicknessTold: every part tells its thickness, in figures or by the letter that the scale gives it; only parts too narrow for a
// letter go without, those in which no square of 4 mm lies.
func TestThicknessTold(t *testing.T) {
	letters := 0
	for name, r := range cards(t) {
		d := Thickness(r.Closed)
		scale := map[string]string{} // what the fields say, by their letters
		legend := d.Group(drawing.GroupLegend)
		for i, s := range legend {
			if w, ok := s.(drawing.Text); ok && w.Bold {
				scale[w.Words] = legend[i-1].(drawing.Text).Words
			}
		}
		for _, p := range d.Group(drawing.GroupPanel) {
			part := p.(drawing.Polygon)
			told := 0
			for _, s := range d.Group(drawing.GroupText) {
				w, _ := s.(drawing.Text)
				if w.Words == "" || strings.HasPrefix(w.Words, "thickest") || !covers([]drawing.Shape{part}, w.Bounds().Centre()) {
					continue
				}
				told++
				if strings.HasSuffix(w.Words, " mm") {
					continue
				}
				letters++
				if scale[w.Words] == "" {
					t.Errorf("%s: a part carries %q, which the scale does not explain", name, w.Words)
				}
			}
			if told == 0 && roomy(part, 4, d) {
				t.Errorf("%s: the part in %v does not tell its thickness", name, part.Bounds())
			}
		}
	}
	if letters == 0 {
		t.Error("no part of any card carries a letter: nothing was checked")
	}
}

// roomy says whether an upright square of some mm lies in a part, off every other word and line of the drawing.
func roomy(p drawing.Polygon, side float64, d *drawing.Drawing) bool {
	var r room
	r.line(d.Group(drawing.GroupOutline)...)
	r.line(d.Group(drawing.GroupMark)...)
	r.take(d.Group(drawing.GroupText)...)
	b := p.Bounds()
	for x := b.Min.X; x <= b.Max.X-side; x += side / 4 {
		for y := b.Min.Y; y <= b.Max.Y-side; y += side / 4 {
			low := drawing.Point{X: x, Y: y}
			q := [4]drawing.Point{low, {X: x + side, Y: y}, {X: x + side, Y: y + side}, {X: x, Y: y + side}}
			if within(p.Rings(), q) && r.free(q) {
				return true
			}
		}
	}
	return false
}
