package flat

import (
	"cmp"
	"slices"

	"foldwright/card"
	"foldwright/length"
)

// Gluing is how a glue line joins its panels, as far as a cure may change it.
type Gluing struct {
	Joint          card.Joint
	AlignX, AlignY card.Align
	TurnedDeg      float64
}

func gluingOf(g card.Glue) Gluing { return Gluing{g.Joint, g.AlignX, g.AlignY, g.TurnedDeg} }

// small is the largest change of a measurement that is taken for a slip of the ruler; a larger one is more likely to make
// up for a word that was mistaken.
const small = length.Inch / 8

// reglued tries other words in each glue line, one word at a time: another side, another face, another quarter turn.
func (s *searcher) reglued() []Cure {
	var found []Cure
	for i, g := range s.a.Card.Glues {
		for _, try := range otherGluings(gluingOf(g)) {
			if s.ctx.Err() != nil {
				return found
			}
			c := Cure{Kind: Reglue, Piece: i, Was: gluingOf(g), Gluing: try, Label: "glue line of " + g.A.String()}
			if closed := s.closing(c.Apply(s.a.Card)); closed != nil {
				c.spoils = len(closed.Peeks())
				found = append(found, c)
			}
		}
	}
	slices.SortStableFunc(found, func(x, y Cure) int { return cmp.Compare(x.spoils, y.spoils) })
	for i := range found {
		found[i].spoils = 0
	}
	return found[:min(len(found), cureMost)]
}

// otherGluings lists what one changed word makes of a glue line: sides first, then faces, then turns.
func otherGluings(g Gluing) []Gluing {
	var out []Gluing
	for _, a := range [3]card.Align{card.AlignLow, card.AlignMiddle, card.AlignHigh} {
		if a != g.AlignX {
			h := g
			h.AlignX = a
			out = append(out, h)
		}
	}
	for _, a := range [3]card.Align{card.AlignLow, card.AlignMiddle, card.AlignHigh} {
		if a != g.AlignY {
			h := g
			h.AlignY = a
			out = append(out, h)
		}
	}
	for _, j := range [4]card.Joint{card.Inside, card.Outside, card.Against, card.Facing} {
		if j != g.Joint {
			h := g
			h.Joint = j
			out = append(out, h)
		}
	}
	for _, turn := range [4]float64{0, 90, 180, 270} {
		if turn != g.TurnedDeg {
			h := g
			h.TurnedDeg = turn
			out = append(out, h)
		}
	}
	return out
}
