package care

import (
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// Line is a line of one piece that a hand cuts or scores.
type Line struct {
	Piece int
	// Up says that it is level, At above the lower edge; else it is upright, At from the left edge.
	Up  bool
	At  length.Length
	Cut bool // else scored
	// Score is the number, from 1, of the first score on it; 0 for a cut.
	Score int
}

// Name says what the line is: "score 3 of wall, at 120 mm", "width of wall, 252 mm".
func (l Line) Name(c *card.Card) string {
	piece := &c.Pieces[l.Piece]
	at := l.At.Human(c.Unit)
	switch {
	case l.Score > 0:
		return fmt.Sprintf("score %d of %s, at %s", l.Score, piece.Name, at)
	case l.Cut && l.Up && l.At == piece.Size.H:
		return fmt.Sprintf("height of %s, %s", piece.Name, at)
	case l.Cut && !l.Up && l.At == piece.Size.W:
		return fmt.Sprintf("width of %s, %s", piece.Name, at)
	case l.Up:
		return fmt.Sprintf("what lies %s up in %s", at, piece.Name)
	}
	return fmt.Sprintf("what lies %s across in %s", at, piece.Name)
}

// linesOf lists the lines of a piece, but for the two edges from which it is measured.
func linesOf(c *card.Card, piece int) []Line {
	p := &c.Pieces[piece]
	var out []Line
	add := func(l Line) {
		if l.Piece = piece; l.At > 0 && !slices.ContainsFunc(out, func(o Line) bool { return o.Up == l.Up && o.At == l.At }) {
			out = append(out, l)
		}
	}
	point := func(q plane.Point, cut bool, score int) {
		add(Line{At: q.X, Cut: cut, Score: score})
		add(Line{Up: true, At: q.Y, Cut: cut, Score: score})
	}
	for _, q := range p.Outline {
		point(q, true, 0)
	}
	add(Line{At: p.Size.W, Cut: true})
	add(Line{Up: true, At: p.Size.H, Cut: true})
	for i, s := range p.Scores {
		if s.Kind == card.Slanted {
			point(s.From, false, i+1)
			point(s.To, false, i+1)
			continue
		}
		add(Line{Up: s.Kind == card.Up, At: s.At, Score: i + 1})
	}
	for _, s := range p.Slits {
		point(s.From, true, 0)
		point(s.To, true, 0)
	}
	return out
}

// apart returns the card with every copy of a piece as a piece of its own, since each copy is cut with errors of its own.
// from holds the piece that each was.
func apart(old *card.Card) (c *card.Card, from []int) {
	c = old.Clone()
	c.Pieces = nil
	copies := map[string]int{}
	for i := range old.Pieces {
		p := &old.Pieces[i]
		copies[p.Name] = p.Copies
		for n := range p.Copies {
			one := old.Clone().Pieces[i]
			one.Name, one.Copies = alone(p.Name, n+1, p.Copies), 1
			c.Pieces, from = append(c.Pieces, one), append(from, i)
		}
	}
	rename := func(r *card.PanelRef) {
		if copies[r.Piece] > 1 && r.Copy > 0 {
			r.Piece, r.Copy = alone(r.Piece, r.Copy, copies[r.Piece]), 0
		}
	}
	for i := range c.Glues {
		rename(&c.Glues[i].A)
		rename(&c.Glues[i].B)
	}
	c.Mats, c.Toppers = nil, nil
	return c, from
}

func alone(name string, number, copies int) string {
	if copies == 1 {
		return name
	}
	return fmt.Sprintf("%s#%d", name, number)
}
