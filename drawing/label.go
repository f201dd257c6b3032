package drawing

import (
	"strings"

	"foldwright/length"
)

// Label is what stands at a dimension: a number in the card's unit and, smaller, the same length in the other unit.
// Sub may be empty.
type Label struct{ Main, Sub string }

// Sizes of text in mm. Print is read at arm's length on a work table: LabelSize gives figures 2.5 mm high, the least
// height that ISO 3098 lists (from memory); NoteSize is 8 pt.
const (
	LabelSize = 3.5
	SubSize   = 2.8
	NoteSize  = 2.8
	TitleSize = 4.5
)

// lineGap is the space between the two lines of a label, in mm.
const lineGap = 1.1

// Measure returns the label of a length: the number in u without its symbol, and the length in the other unit with its
// symbol ("42" over "≈ 1⅝ in"). A rounded number starts with "≈".
func Measure(l length.Length, u length.Unit) Label {
	if l == 0 {
		return Label{Main: "0"}
	}
	return Label{
		Main: strings.TrimSuffix(l.Typeset(u), " "+u.String()),
		Sub:  l.Typeset(u.Other()),
	}
}

// MeasureFull returns the label of a length with the symbol of both units: for a dimension that stands alone.
func MeasureFull(l length.Length, u length.Unit) Label {
	return Label{Main: l.Typeset(u), Sub: l.Typeset(u.Other())}
}

// width returns the room that the label needs across, in mm.
func (l Label) width() float64 {
	return max(TextRoom(l.Main, LabelSize, true), TextRoom(l.Sub, SubSize, false))
}

// height returns how high the label is, in mm, from the top of the figures to the lowest tail.
func (l Label) height() float64 {
	if l.Sub == "" {
		return CapHeight*LabelSize + tail(l.Main, LabelSize)
	}
	return CapHeight*(LabelSize+SubSize) + lineGap + tail(l.Sub, SubSize)
}

// stacked returns the label as two lines, the top of the figures at the given point.
func (l Label) stacked(top Point, a Anchor) []Shape {
	out := []Shape{l.main(top, a, Top)}
	if l.Sub != "" {
		out = append(out, l.sub(top.Sub(Point{0, CapHeight*LabelSize + lineGap}), a, Top))
	}
	return out
}

func (l Label) main(at Point, a Anchor, v Level) Text {
	return Text{Role: TextPlain, Bold: true, At: at, Words: l.Main, Size: LabelSize, Anchor: a, Level: v}
}

func (l Label) sub(at Point, a Anchor, v Level) Text {
	return Text{Role: TextQuiet, At: at, Words: l.Sub, Size: SubSize, Anchor: a, Level: v}
}
