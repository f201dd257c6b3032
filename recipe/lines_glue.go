package recipe

import (
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/problem"
)

// glueLine is: glue wall.tab inside wall.left, left, turned 90. What is said is written again even where it says no more
// than silence would.
type glueLine struct {
	glue                               card.Glue
	saidX, saidY, saidTurned, up, over bool
}

func readGlue(p *lineParser) statement {
	l := &glueLine{}
	g := &l.glue
	g.Where = p.place(p.tok)
	g.A = p.panelRef()
	g.Joint = jointOf(p.expect("inside", "outside", "against", "facing"))
	g.B = p.panelRef()
	g.TurnedWhere = g.Where
	p.eachOption(alignment, func(option string) {
		switch option {
		case "turned":
			g.TurnedDeg, g.TurnedWhere = p.degrees(false)
			l.saidTurned = true
		case "up":
			g.Up, l.up = p.length(), true
		case "over":
			g.Over, l.over = p.length(), true
		case "left", "right", "centre", "center":
			g.AlignX, l.saidX = alignOf(option), true
		default:
			g.AlignY, l.saidY = alignOf(option), true
		}
	}, "left", "right", "centre", "center", "top", "bottom", "middle", "turned", "up", "over")
	return l
}

// alignment names what a word says: left, right and centre say the same kind of thing.
func alignment(option string) string {
	switch option {
	case "left", "right", "centre", "center":
		return "across"
	case "top", "bottom", "middle":
		return "level"
	}
	return option
}

func jointOf(s string) card.Joint {
	switch s {
	case "outside":
		return card.Outside
	case "against":
		return card.Against
	case "facing":
		return card.Facing
	}
	return card.Inside
}

func alignOf(s string) card.Align {
	switch s {
	case "left", "bottom":
		return card.AlignLow
	case "right", "top":
		return card.AlignHigh
	}
	return card.AlignMiddle
}

func (l *glueLine) build(b *builder) { b.card.Glues = append(b.card.Glues, l.glue) }

func (l *glueLine) write(w *writer) {
	g := &l.glue
	w.put("glue ", g.A.String(), " ", g.Joint.String(), " ", g.B.String())
	if l.saidX {
		w.put(", ", [...]string{"centre", "left", "right"}[g.AlignX])
	}
	if l.saidY {
		w.put(", ", [...]string{"middle", "bottom", "top"}[g.AlignY])
	}
	if l.saidTurned {
		w.put(", turned ")
		w.num(g.TurnedDeg)
	}
	if l.up {
		w.put(", up ")
		w.len(g.Up)
	}
	if l.over {
		w.put(", over ")
		w.len(g.Over)
	}
}

// opensLine is: opens by itself, opens at wall.2 to 180, opens by pulling slide from sleeve.
type opensLine struct{ opening card.Opening }

func readOpens(p *lineParser) statement {
	l := &opensLine{}
	o := &l.opening
	o.Where = p.place(p.tok)
	if p.expect("by", "at") == "at" {
		o.Kind = card.OpensAt
		o.Piece, o.Score = p.scoreRef()
		p.expect("to")
		o.ToDeg, o.ToWhere = p.degrees(false)
		return l
	}
	if p.expect("itself", "pulling") == "itself" {
		o.Kind = card.OpensByItself
		return l
	}
	o.Kind = card.OpensByPulling
	o.A = p.pieceRef()
	p.expect("from")
	o.B = p.pieceRef()
	return l
}

// scoreRef reads wall.2 or spring#1.2: a score by its number.
func (p *lineParser) scoreRef() (card.PieceRef, int) {
	t := p.tok
	if p.failed || t.kind != word {
		p.wanted("a score such as wall.2", "")
		return card.PieceRef{}, 0
	}
	p.advance()
	piece, digits, _ := strings.Cut(t.text, ".")
	name, copy, ok := splitCopy(piece)
	n, err := strconv.Atoi(digits)
	if !ok || err != nil || len(digits) > 6 {
		p.fail("ref-form", t, problem.Quote(t.text)+" does not name a score", "a piece, a dot and the number of a score: wall.2", "")
		return card.PieceRef{}, 0
	}
	return card.PieceRef{Piece: name, Copy: copy, Where: p.place(t)}, n
}

func (l *opensLine) build(b *builder) { b.card.Opening = l.opening }

func (l *opensLine) write(w *writer) {
	switch o := &l.opening; o.Kind {
	case card.OpensAt:
		w.put("opens at ", o.Piece.String(), ".")
		w.int(o.Score)
		w.put(" to ")
		w.num(o.ToDeg)
	case card.OpensByPulling:
		w.put("opens by pulling ", o.A.String(), " from ", o.B.String())
	default:
		w.put("opens by itself")
	}
}
