package view

import (
	"fmt"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/pattern"
)

// TemplateMargin is what a template keeps free round its piece, in mm; the ticks at the ends of scores stand there.
const TemplateMargin = 3.0

// Template draws one piece true to size for cutting: only the groups cut, score and mark, each line once and as few paths
// as can be, in a drawing that is larger than the piece by [TemplateMargin] on every side. The marks are names, ticks
// beyond the ends of scores, and the edges of glued areas. piece is the index in the card; out of range it returns nil.
func Template(a *pattern.Assembly, piece int) *drawing.Drawing {
	p := patternOf(a, piece)
	if p == nil {
		return nil
	}
	lines := newPieceLines(p)
	n := max(1, p.Piece.Copies)
	stock := a.Card.StockNamed(p.Piece.Stock)
	d := drawing.New(fileWord(p.Piece.Name)+"-template", fmt.Sprintf("%s, make %d of %s", p.Piece.Name, n, stockWords(stock)))
	d.Desc = fmt.Sprintf("True-to-size template of %s, outer face towards you: lines to cut, to score, and marks.", p.Piece.Name)
	d.Add(drawing.GroupCut, lines.cuts()...)
	d.Add(drawing.GroupScore, lines.scored()...)
	var r room
	r.line(d.Shapes()...)
	areas := glueAreas(a, piece)
	r.avoid = partGlued(p, areas)
	for _, g := range areas {
		if s := glueEdge(p, g, drawing.Mark); s != nil {
			d.Add(drawing.GroupMark, s...)
			r.line(s...)
		}
	}
	d.Add(drawing.GroupMark, ticks(p)...)
	names, _ := panelNames(p, &r, drawing.TextQuiet)
	d.Add(drawing.GroupMark, names...)
	low := drawing.Of(p.Box.Min)
	d.Move(drawing.Point{X: TemplateMargin, Y: TemplateMargin}.Sub(low))
	d.W, d.H = p.Box.W().MM()+2*TemplateMargin, p.Box.H().MM()+2*TemplateMargin
	return d
}

// Templates draws the template of every piece of the card, in its order.
func Templates(a *pattern.Assembly) []*drawing.Drawing {
	var out []*drawing.Drawing
	for i := range a.Card.Pieces {
		if d := Template(a, i); d != nil {
			out = append(out, d)
		}
	}
	return out
}

// ticks returns short lines beyond both ends of every whole score, where they lie off the piece.
func ticks(p *pattern.Pattern) []drawing.Shape {
	const from, to = 0.7, 2.7 // mm beyond the edge
	var out []drawing.Shape
	box := drawing.Box{Min: drawing.Of(p.Box.Min), Max: drawing.Of(p.Box.Max)}
	for _, s := range p.Piece.Scores {
		g := pattern.ScoreLine(p.Piece, s)
		a := drawing.Of(g.A)
		switch s.Kind {
		case card.Across:
			out = append(out,
				drawing.Line(drawing.Mark, drawing.Point{X: a.X, Y: box.Min.Y - from}, drawing.Point{X: a.X, Y: box.Min.Y - to}),
				drawing.Line(drawing.Mark, drawing.Point{X: a.X, Y: box.Max.Y + from}, drawing.Point{X: a.X, Y: box.Max.Y + to}))
		case card.Up:
			out = append(out,
				drawing.Line(drawing.Mark, drawing.Point{X: box.Min.X - from, Y: a.Y}, drawing.Point{X: box.Min.X - to, Y: a.Y}),
				drawing.Line(drawing.Mark, drawing.Point{X: box.Max.X + from, Y: a.Y}, drawing.Point{X: box.Max.X + to, Y: a.Y}))
		}
	}
	return out
}
