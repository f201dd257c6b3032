package flat

import (
	"foldwright/card"
	"foldwright/length"
)

// CureKind tells what a cure changes.
type CureKind uint8

// A cure moves one score, shifts one glue joint, changes the size of one piece without moving its scores, changes the
// width of one panel, so that all scores behind it and the end of the piece move along, changes one word of a glue line, or
// moves a whole line of a piece with slits: every score, slit and window that ends on it.
const (
	MoveScore CureKind = iota
	ShiftGlue
	ResizePiece
	WidenPanel
	Reglue
	MoveLine
)

// String returns the id that JSON uses.
func (k CureKind) String() string {
	return [...]string{"score", "glue", "size", "panel", "reglue", "line"}[k]
}

// Cure is a change of a single measurement after which the card was proven to lie flat.
type Cure struct {
	Kind  CureKind
	Piece int // index in the card; for ShiftGlue and Reglue the index of the glue line
	Score int // from 1; for MoveScore, and the first score on the line for MoveLine (0 if none is)
	Panel int // index in the pattern; for WidenPanel
	// Up says that a size or a shift is upwards, not across.
	Up       bool
	From, To length.Length
	// Was and Gluing are the old and the new words of the glue line, for Reglue.
	Was, Gluing Gluing
	// Label names what is measured: "wall: score 3", "wall: size across".
	Label string
	// spoils counts what shows that should be hidden, to order cures of one kind.
	spoils int
}

// Change returns how far the measurement moves.
func (c Cure) Change() length.Length { return c.To - c.From }

// Apply returns a copy of the card with the cure carried out.
func (c Cure) Apply(old *card.Card) *card.Card {
	return c.by(old, c.Change())
}

// by returns a copy of the card with the measurement moved by d.
func (c Cure) by(old *card.Card, d length.Length) *card.Card {
	out := old.Clone()
	switch c.Kind {
	case MoveScore:
		out.Pieces[c.Piece].Scores[c.Score-1].At += d
	case ShiftGlue:
		if c.Up {
			out.Glues[c.Piece].Up += d
		} else {
			out.Glues[c.Piece].Over += d
		}
	case Reglue:
		g := &out.Glues[c.Piece]
		g.Joint, g.AlignX, g.AlignY, g.TurnedDeg = c.Gluing.Joint, c.Gluing.AlignX, c.Gluing.AlignY, c.Gluing.TurnedDeg
	case MoveLine:
		out.Pieces[c.Piece].MoveLine(c.Up, c.From, d)
	case ResizePiece:
		grow(&out.Pieces[c.Piece], c.Up, d)
	case WidenPanel:
		p := &out.Pieces[c.Piece]
		for i := range p.Scores {
			if i >= c.Panel {
				p.Scores[i].At += d
			}
		}
		grow(p, c.Up, d)
	}
	return out
}

func grow(p *card.Piece, up bool, d length.Length) {
	if up {
		p.Size.H += d
	} else {
		p.Size.W += d
	}
}
