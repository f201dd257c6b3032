package drawing

import (
	"strings"
	"unicode"
)

// Anchor tells which end of a text lies at its point.
type Anchor uint8

// A text begins at its point, has its middle there, or ends there.
const (
	Start Anchor = iota
	Middle
	End
)

// Level tells which level of a text lies at its point.
type Level uint8

// The baseline, half the height of the capitals, the top of the capitals, or the bottom of the letters that hang down.
const (
	Baseline Level = iota
	Centred
	Top
	Bottom
)

// Text is one line of words.
type Text struct {
	// Role gives the ink: TextPlain, TextQuiet or TextTrouble.
	Role Role
	Bold bool
	At   Point
	// Words is the line; fractions such as 10½ or ³⁄₁₆ are plain characters.
	Words string
	// Size is the font size (em) in mm; capitals and figures are 0.72 of it high.
	Size   float64
	Anchor Anchor
	Level  Level
	// TurnDeg turns the line about At, counter-clockwise.
	TurnDeg float64
}

// Heights above and depths below the baseline as parts of the size, from the Go fonts (regular and bold alike):
// capitals 1480/2048; letters that hang down 432/2048.
const (
	CapHeight = 1480.0 / 2048
	Descent   = 432.0 / 2048
)

// Origin returns the place on the baseline where Anchor holds: what a device needs, since it draws from the baseline.
func (t Text) Origin() Point { return t.At.Add(Point{0, t.drop()}.Turned(t.TurnDeg)) }

// Begin returns the place where the first letter starts on the baseline, measured with the Go fonts.
func (t Text) Begin() Point {
	back := 0.0
	switch t.Anchor {
	case Middle:
		back = t.Width() / 2
	case End:
		back = t.Width()
	}
	return t.At.Add(Point{-back, t.drop()}.Turned(t.TurnDeg))
}

// drop returns how far the baseline lies above (+) or below (-) At, in mm.
func (t Text) drop() float64 {
	switch t.Level {
	case Centred:
		return -CapHeight * t.Size / 2
	case Top:
		return -CapHeight * t.Size
	case Bottom:
		return Descent * t.Size
	}
	return 0
}

// Width returns the length of the line in mm, set in the Go font.
func (t Text) Width() float64 { return TextWidth(t.Words, t.Size, t.Bold) }

// Corners returns the corners of the rectangle that the line may fill, from the lower left in the text's own directions
// counter-clockwise: as long as [TextRoom], from the hanging letters to the top of the capitals.
func (t Text) Corners() [4]Point {
	room := TextRoom(t.Words, t.Size, t.Bold)
	left := 0.0
	switch t.Anchor {
	case Middle:
		left = -room / 2
	case End:
		left = -room
	}
	low, high := t.drop()-tail(t.Words, t.Size), t.drop()+CapHeight*t.Size
	var c [4]Point
	for i, p := range [4]Point{{left, low}, {left + room, low}, {left + room, high}, {left, high}} {
		c[i] = t.At.Add(p.Turned(t.TurnDeg))
	}
	return c
}

// tail returns how far a line hangs below its baseline, in mm: figures, and words of letters without tails, do not.
func tail(words string, size float64) float64 {
	if strings.ContainsAny(words, "gjpqyQ,;()[]{}|/_@§µ⁄") {
		return Descent * size
	}
	return 0
}

// Bounds returns the level box around the corners.
func (t Text) Bounds() Box {
	c := t.Corners()
	return BoxOf(c[:]...)
}

func (t Text) moved(by Point) Shape {
	t.At = t.At.Add(by)
	return t
}

// Lines returns lines of text below one another; t gives the style and the place of the first, leading the distance of
// the baselines in mm. Lines of a turned text follow in the text's own direction downwards.
func Lines(t Text, lines []string, leading float64) []Shape {
	out := make([]Shape, 0, len(lines))
	for i, words := range lines {
		l := t
		l.Words = words
		l.At = t.At.Add(Point{0, -leading * float64(i)}.Turned(t.TurnDeg))
		out = append(out, l)
	}
	return out
}

// Tied is a space at which [Wrap] does not break; in the lines it is a plain space.
const Tied = "\u00a0"

// Wrap breaks words into lines that need at most width mm of room. A single word longer than that has a line of its own.
func Wrap(words string, size float64, bold bool, width float64) []string {
	var lines []string
	line := ""
	for _, w := range strings.FieldsFunc(words, func(r rune) bool { return unicode.IsSpace(r) && string(r) != Tied }) {
		w = strings.ReplaceAll(w, Tied, " ")
		longer := strings.TrimSpace(line + " " + w)
		if line != "" && TextRoom(longer, size, bold) > width {
			lines = append(lines, line)
			longer = w
		}
		line = longer
	}
	if line != "" {
		lines = append(lines, line)
	}
	return lines
}
