package view

import (
	"strings"
	"testing"

	"foldwright/drawing"
	"foldwright/length"
)

// TestFitsLine: the line of the size that a card is to fit, and its words in the legend, are there where the line is seen: not
// where the card fills that size to its corners, but where it fills only its box, or is less by a millimetre.
func TestFitsLine(t *testing.T) {
	mm := length.Millimetre
	for _, c := range []struct {
		card string
		less length.Length // by which the size it is to fit is made wider
		want bool
	}{
		{"rising-gull", 0, false}, // 105 x 148 within 105 x 148
		{"rising-gull", mm, true},
		{"rising-gull", mm / 5, false}, // a tenth of a millimetre on either side lies under the wide line
		{"harbour-steps", 0, true},     // its steps leave gaps in the edge
		{"gull-box", 0, true},          // 105 x 100 within 108 x 150
		{"harbour-light", 0, true},     // its round topper reaches the upper side, between corners that stay free
	} {
		closed := *cards(t)[c.card].Closed
		assembly, card := *closed.Assembly, *closed.Assembly.Card
		fits := *card.Fits
		fits.W += c.less
		card.Fits, assembly.Card, closed.Assembly = &fits, &card, &assembly
		for _, side := range []Side{Front, Back} {
			d := Closed(&closed, side)
			drawn, said := false, false
			for _, s := range d.Shapes() {
				switch s := s.(type) {
				case drawing.Polyline:
					drawn = drawn || s.Line == drawing.Hidden && len(s.Points) == 5
				case drawing.Text:
					said = said || strings.HasPrefix(s.Words, "the size it is to fit")
				}
			}
			if drawn != c.want || said != c.want {
				t.Errorf("%s, %s, %s wider: drawn %t, in the legend %t, want %t", c.card, side, c.less.Human(length.MM), drawn, said, c.want)
			}
		}
	}
}
