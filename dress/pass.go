package dress

import (
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/pattern"
	"foldwright/plane"
)

// passes says what a topper on a panel would be in the way of: it is taken as a piece of card glued on the panel, for which
// the closed card must have a place among its layers, and which nothing may pass through on the way open. "" for nothing.
func (w *Wardrobe) passes(ctx context.Context, panel int, ring []plane.Point) string {
	if why := w.bends(panel, ring); why != "" {
		return why
	}
	a, problems := pattern.Assemble(w.solid(panel, ring))
	if a == nil {
		return "it cannot be laid there: " + problems[0].What
	}
	closed := flat.Close(ctx, a)
	if !closed.LiesFlat() || !slices.Equal(closed.Folded[:len(w.closed.Folded)], w.closed.Folded) {
		return "the closed card has no place for it among its layers"
	}
	topper := len(a.Panels) - 1
	j := a.Joints[len(a.Joints)-1]
	place := fold.Frame{X: fold.Vec{j.Place.XX, j.Place.YX}, Y: fold.Vec{j.Place.XY, j.Place.YY}, Z: fold.Vec{0, 0, 1}, O: fold.Vec{j.Place.TX * 1e-6, j.Place.TY * 1e-6}}
	o := *w.opening
	o.Poses = slices.Clone(o.Poses)
	for i := range o.Poses {
		frames := o.Poses[i].Panels
		o.Poses[i].Panels = append(slices.Clone(frames), frames[panel].After(place))
	}
	for _, x := range fold.New(closed).Crossings(ctx, &o) {
		if x.A == topper || x.B == topper {
			return a.Panels[x.A+x.B-topper].Ref + " would pass through it while the card opens"
		}
	}
	return ""
}

// bends says which score a topper would keep from opening: it reaches over one that is straight in the closed card onto a
// panel that then rises on its side.
func (w *Wardrobe) bends(panel int, ring []plane.Point) string {
	const rises = -math.Pi / 90 // radians; a valley is negative
	a := w.closed.Assembly
	own := w.closed.At[panel].Inverse().Points(ring)
	for i, h := range a.Hinges {
		if w.closed.Folded[i] || h.A != panel && h.B != panel || !shares(own, a.Panels[h.A+h.B-panel].Outline, true) {
			continue
		}
		if slices.ContainsFunc(w.opening.Poses, func(p fold.Pose) bool { return p.Angles[i] < rises }) {
			return fmt.Sprintf("it would lie across score %d of %s, which bends towards it as the card opens", h.Score()+1, a.Copies[h.Copy].Name)
		}
	}
	return ""
}

// solid returns the card without ornament, with a piece as large as a topper glued onto a panel.
func (w *Wardrobe) solid(panel int, ring []plane.Point) *card.Card {
	a := w.closed.Assembly
	c := a.Card.Clone()
	c.Mats, c.Toppers = nil, nil
	w.keepFolds(c)
	p := w.panel(panel)
	outline := w.closed.At[panel].Inverse().Points(ring)
	if plane.Area(outline) < 0 {
		slices.Reverse(outline)
	}
	box := plane.BoxOf(outline...)
	name := "topper"
	for slices.ContainsFunc(c.Pieces, func(q card.Piece) bool { return q.Name == name }) {
		name += "s"
	}
	host := a.Copies[p.Copy].Pattern.Piece
	piece := card.Piece{Name: name, Stock: host.Stock, Copies: 1, Size: card.Size{W: box.W(), H: box.H()}, Strip: []card.StripName{{Name: "face"}}}
	for _, q := range outline {
		piece.Outline = append(piece.Outline, q.Sub(box.Min))
	}
	c.Pieces = append(c.Pieces, piece)
	on := card.PanelRef{Piece: host.Name, Copy: a.Copies[p.Copy].Number, Panel: p.Name}
	c.Glues = append(c.Glues, card.Glue{A: card.PanelRef{Piece: name, Panel: "face"}, B: on, Joint: card.Outside,
		AlignX: card.AlignLow, AlignY: card.AlignLow, Over: box.Min.X - p.Box.Min.X, Up: box.Min.Y - p.Box.Min.Y})
	return c
}

// keepFolds says in a card, piece by piece, which scores are folded in the closed one, so that it is not folded in another
// way for being larger with a topper. A piece whose copies are folded in different ways, or a score that is folded for a
// part of its length, is left to the search.
func (w *Wardrobe) keepFolds(c *card.Card) {
	a := w.closed.Assembly
	for i := range c.Pieces {
		folded := map[int]bool{}
		sound := true
		for h, hinge := range a.Hinges {
			if a.Copies[hinge.Copy].Piece != i {
				continue
			}
			for _, s := range hinge.Scores {
				was, known := folded[s+1]
				sound = sound && (!known || was == w.closed.Folded[h])
				folded[s+1] = w.closed.Folded[h]
			}
		}
		if p := &c.Pieces[i]; sound && !p.ClosedFoldsSaid {
			p.ClosedFoldsSaid, p.ClosedFolds = true, nil
			for s := range p.Scores {
				if folded[s+1] {
					p.ClosedFolds = append(p.ClosedFolds, s+1)
				}
			}
		}
	}
}
