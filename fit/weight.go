package fit

import (
	"fmt"
	"math"

	"foldwright/flat"
	"foldwright/plane"
	"foldwright/problem"
)

// Ornament is something on the card that its recipe does not name, by its weight.
type Ornament struct {
	Name  string
	Grams float64
}

// GlueGSM is what glue or tape weighs in g per m² of glued face where nobody says. Assumed: dry glue of 30 to 50, tape of
// some 100 g/m², which seldom covers the whole face (from memory).
const GlueGSM = 50.0

// Load is what Weigh adds to the paper.
type Load struct {
	Ornaments []Ornament
	// GlueGSM is what glue weighs, in g/m²; not more than 0 means the assumed GlueGSM.
	GlueGSM float64
}

// PartKind says what a part of a weight is.
type PartKind uint8

// The parts of a weight, in the order in which they are listed.
const (
	PieceWeight PartKind = iota
	MatWeight
	TopperWeight
	OrnamentWeight
	GlueWeight
	EnvelopeWeight
)

// String returns piece, mat, topper, ornament, glue or envelope.
func (k PartKind) String() string {
	return [...]string{"piece", "mat", "topper", "ornament", "glue", "envelope"}[k]
}

// Part is one part of a weight. Assumed says what was taken of it that nobody measured; may be empty.
type Part struct {
	Kind    PartKind
	Name    string
	Grams   float64
	Assumed string
}

// Weight is what a card weighs, part by part.
type Weight []Part

// Grams returns the sum.
func (w Weight) Grams() float64 {
	sum := 0.0
	for _, p := range w {
		sum += p.Grams
	}
	return sum
}

// Weigh weighs a card that lies flat: areas times grammages of its pieces less their windows, mats and toppers, the
// ornaments, and glue on the smaller face of every joint and under every mat and topper. A thick topper weighs what one
// layer of its stock weighs.
//
// Problems: ornament-weight, for an ornament whose weight is none; it then counts nothing.
func Weigh(c *flat.Closed, load Load) (Weight, problem.List) {
	var w Weight
	add := func(kind PartKind, name string, grams float64) {
		if n := len(w); n > 0 && w[n-1].Kind == kind && w[n-1].Name == name {
			w[n-1].Grams += grams
			return
		}
		w = append(w, Part{Kind: kind, Name: name, Grams: grams})
	}
	decorations := c.Decorations()
	glued := 0.0 // m²
	for _, t := range thingsOf(c) {
		kind := PieceWeight
		if t.decoration >= 0 {
			d := decorations[t.decoration]
			glued += squareMetres(plane.Area(d.Ring))
			if kind = MatWeight; d.Topper {
				kind = TopperWeight
			}
		}
		add(kind, t.name, t.grams)
	}
	var probs problem.List
	for _, o := range load.Ornaments {
		if !(o.Grams >= 0) || math.IsInf(o.Grams, 0) {
			probs.Add(problem.Problem{Rule: "ornament-weight", What: fmt.Sprintf("the ornament %s weighs %g g", problem.Quote(o.Name), o.Grams),
				Needs: "a weight of 0 g or more"})
			continue
		}
		add(OrnamentWeight, o.Name, o.Grams)
	}
	for _, j := range c.Assembly.Joints {
		glued += min(squareMetres(c.Assembly.Panels[j.A].Area()), squareMetres(c.Assembly.Panels[j.B].Area()))
	}
	glue := Part{Kind: GlueWeight, Name: "glue", Grams: glued * load.GlueGSM}
	if !(load.GlueGSM > 0) || math.IsInf(load.GlueGSM, 0) {
		glue.Grams, glue.Assumed = glued*GlueGSM, fmt.Sprintf("%g g per m² of glued face", GlueGSM)
	}
	return append(w, glue), probs
}
