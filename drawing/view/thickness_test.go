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
				says = append(says, s.Words)
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
