package fit

import (
	"fmt"
	"math"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// Item is a card in its envelope as a mail service sees it.
type Item struct {
	// Long, Short and Thick are measured outside.
	Long, Short, Thick length.Length
	Grams              float64
	// Bump is how much thicker than usual its thickest place is.
	Bump length.Length
	// Rigid says that it does not bend: a box, or something stiff on the card.
	Rigid bool
}

// check says what is wrong with an item, as problems of rule item-size.
func (i Item) check() problem.List {
	if i.Long > 0 && i.Short > 0 && i.Thick > 0 && i.Bump >= 0 && i.Grams > 0 && !math.IsInf(i.Grams, 0) {
		return nil
	}
	return problem.List{{Rule: "item-size", What: fmt.Sprintf("the letter is %s x %s, %s thick and %g g", i.Long.Human(length.MM),
		i.Short.Human(length.MM), i.Thick.Human(length.MM), i.Grams), Needs: "two sides, a thickness and a weight above 0"}}
}

// Wrapping is an envelope round a card, measured outside. Assumed says, a clause each, what of it nobody measured.
type Wrapping struct {
	Long, Short length.Length
	// Thick is what it adds to the card's thickness.
	Thick   length.Length
	Grams   float64
	Assumed []string
}

// wrap is what is assumed of a kind of envelope where nobody says. All from memory, without a source.
type wrap struct {
	// gsm is the grammage of its walls; with seams and flap they are so many sheets of the size of its face.
	gsm, sheets float64
	// thick is what its walls add to the thickness, wider how much larger than the inside it is outside, in all.
	thick, wider length.Length
}

// wraps returns what is assumed of plain, padded and box envelopes: 100 g/m² paper in three layers where the seam lies; paper
// with a cushion of air, which presses together; card of 300 g/m² in four layers.
func wraps() [3]wrap {
	const tenth = 100 * length.Micrometre
	return [3]wrap{
		stock.PlainEnvelope:  {gsm: 100, sheets: 2.4, thick: 4 * tenth, wider: 3 * length.Millimetre},
		stock.PaddedEnvelope: {gsm: 140, sheets: 2.3, thick: 40 * tenth, wider: 20 * length.Millimetre},
		stock.BoxEnvelope:    {gsm: 300, sheets: 2.4, thick: 16 * tenth, wider: 2 * length.Millimetre},
	}
}

// Wrap returns the outside of an envelope, with what nobody measured assumed. Lengths in the words are in unit.
func Wrap(e Envelope, unit length.Unit) Wrapping {
	a := wraps()[e.Kind]
	w := Wrapping{Long: max(e.OutLong, e.OutShort), Short: min(e.OutLong, e.OutShort), Thick: a.thick, Grams: e.Grams}
	assume := func(format string, args ...any) { w.Assumed = append(w.Assumed, fmt.Sprintf(format, args...)) }
	if w.Short <= 0 {
		w.Long, w.Short = max(e.Long, e.Short)+a.wider, min(e.Long, e.Short)+a.wider
		assume("the envelope is %s larger outside than inside", a.wider.Human(unit))
	}
	assume("the envelope adds %s to the thickness", thin(a.thick, unit))
	if w.Grams <= 0 {
		face := float64(w.Long) * float64(w.Short)
		sides := 2 * float64(w.Long+w.Short) * float64(e.Depth)
		w.Grams = squareMetres(a.sheets*face+sides) * a.gsm
		assume("the envelope is of %g gsm and weighs %s", a.gsm, grams(w.Grams, unit))
	}
	return w
}
