package drawing

import (
	"math"
	"slices"
	"strings"
)

// The inks, as if printed on uncoated card: a blue-black, a plum, a pine green, an ochre and two greys. Every ink has a
// contrast of at least 4.5 to every face it may lie on (TestPalette).
var (
	inkBlack  = Colour{0x1f, 0x2a, 0x33}
	inkPlum   = Colour{0x74, 0x2c, 0x66}
	inkPine   = Colour{0x0f, 0x5a, 0x4a}
	inkSlate  = Colour{0x3b, 0x45, 0x4e}
	inkOchre  = Colour{0x6b, 0x4a, 0x12}
	inkRed    = Colour{0x8e, 0x10, 0x26}
	paperTone = Colour{0xfb, 0xf9, 0xf3}
	paleRed   = Colour{0xf6, 0xcf, 0xcb}
	white     = Colour{0xff, 0xff, 0xff}
)

// Tints is how many stocks can be told apart by tint.
const Tints = 7

// tints are the outer faces of stocks. White, the most common card, stands apart from all others in grey.
var tints = [Tints]Colour{
	{0xcc, 0xdd, 0xe2}, // sea mist
	{0xf5, 0xf0, 0xe4}, // chalk
	{0xd8, 0xd5, 0xb7}, // dune grass
	{0xf3, 0xdc, 0xcf}, // shell
	{0xd1, 0xce, 0xdd}, // heather
	{0xdb, 0xda, 0xd7}, // gull
	{0xcc, 0xdd, 0xc8}, // moss
}

// tintWords are the words for colours of card that each tint stands for: pale, so that every ink can be read on it.
var tintWords = [Tints][]string{
	{"blue", "navy", "sky", "indigo", "teal"},
	{"white", "ivory", "cream", "chalk", "natural"},
	{"sand", "yellow", "straw", "gold", "kraft", "brown", "tan"},
	{"red", "pink", "coral", "rose", "orange"},
	{"purple", "violet", "lilac", "plum", "heather"},
	{"grey", "gray", "silver", "slate", "stone", "black", "charcoal"},
	{"green", "moss", "sage", "pine", "olive"},
}

// TintOf returns the tint that comes nearest to the colour that a stock's name says, the last word first: "sea green card"
// is green; false if it says none.
func TintOf(name string) (int, bool) {
	words := strings.Fields(strings.ToLower(name))
	for _, w := range slices.Backward(words) {
		for n, list := range tintWords {
			if slices.Contains(list, w) {
				return n, true
			}
		}
	}
	return 0, false
}

// innerMix is how far an inner face is paler than the outer face; shadeMix how far the deepest shade goes towards ink.
const (
	innerMix = 0.62
	shadeMix = 0.16
)

// White and PaperTone are the grounds a picture may have: a white sheet, or the tone of uncoated paper.
func White() Colour     { return white }
func PaperTone() Colour { return paperTone }

// Widths of lines in mm, from the pen sizes of ISO 128 (0.25, 0.35, 0.5 …), wide : narrow = 2 : 1.
const (
	Wide   = 0.5
	Narrow = 0.25
)

// Pen is how a line is drawn: its ink, its width in mm and its dashes (dash, gap, … in mm; none for a continuous line).
// Lines end square at their end points (butt) and turn corners round.
type Pen struct {
	Ink   Colour
	Width float64
	Dash  []float64
}

// Pen returns the pen of a line role; false for None and for roles that are no lines.
//
// The dashes follow the order of ISO 128-2 (dash, gap, dot, gap) with lengths of our own: the standard's long dash of
// 24 line widths would leave a score of 12 mm with a single dot, and a dot of half a width vanishes in print.
func (r Role) Pen() (Pen, bool) {
	switch r {
	case Cut:
		return Pen{inkBlack, Wide, nil}, true
	case ScoreMountain:
		return Pen{inkPlum, Narrow, []float64{5, 1, 0.75, 1}}, true
	case ScoreValley:
		return Pen{inkPine, Narrow, []float64{2, 1.25}}, true
	case ScoreEither:
		return Pen{inkOchre, Narrow, nil}, true
	case ScoreStraight:
		return Pen{inkSlate, Narrow, []float64{7, 1}}, true
	case Frame, Dimension:
		return Pen{inkSlate, Narrow, nil}, true
	case Hidden:
		return Pen{inkSlate, Narrow, []float64{0.5, 0.75}}, true
	case Outline:
		return Pen{inkBlack, Wide, nil}, true
	case Edge:
		return Pen{inkBlack, Narrow, nil}, true
	case Mark: // broken, so that nobody takes it for a cut
		return Pen{inkSlate, Narrow, []float64{1, 0.8}}, true
	case Glue, GlueBehind:
		return Pen{inkSlate.Mixed(white, 0.35), Narrow, nil}, true
	case Trouble:
		return Pen{inkRed, Wide, nil}, true
	}
	return Pen{}, false
}

// Colour returns the colour of a fill; false for None and for roles that fill nothing.
func (s Style) Colour() (Colour, bool) {
	switch s.Role {
	case Paper:
		return white, true
	case FaceOuter:
		return s.shaded(s.tint()), true
	case FaceInner:
		return s.shaded(s.tint().Mixed(white, innerMix)), true
	case Solid:
		return inkBlack, true
	case Dimension:
		return inkSlate, true
	case TroubleArea:
		return paleRed, true
	}
	return Colour{}, false
}

func (s Style) tint() Colour { return tints[((s.Tint%Tints)+Tints)%Tints] }

func (s Style) shaded(c Colour) Colour {
	step := math.Round(min(1, max(0, s.Shade)) * 32)
	return c.Mixed(inkBlack, shadeMix*step/32)
}

// Ink returns the colour of a text role; false for roles that are no texts.
func (r Role) Ink() (Colour, bool) {
	switch r {
	case TextPlain:
		return inkBlack, true
	case TextQuiet:
		return inkSlate, true
	case TextTrouble:
		return inkRed, true
	}
	return Colour{}, false
}
