package card

import (
	"strconv"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

func (k *checker) checkPieces() {
	c := k.card
	if len(c.Pieces) == 0 && !k.gap("", "piece") {
		k.add("no-pieces", c.Where, "the card has no piece", "at least one line such as: piece wall of navy", "")
	}
	total := 0
	for i := range c.Pieces {
		p := &c.Pieces[i]
		if first, ok := k.pieces[p.Name]; ok {
			k.addNote("duplicate-name", p.Where, "there is a piece "+problem.Quote(p.Name)+" already", "a name of its own for each piece", "",
				problem.Note{Where: first.Where, What: "the first one is here"})
		} else {
			k.pieces[p.Name] = newKnown(p)
			k.pieceNames = append(k.pieceNames, p.Name)
		}
		before := total
		total += min(max(p.Copies, 0), MaxPieces+1) // so bounded that the sum cannot overflow
		if before <= MaxPieces && total > MaxPieces {
			k.add("too-many", p.CopiesWhere, "with this one there are more than "+strconv.Itoa(MaxPieces)+" pieces to cut", "at most "+strconv.Itoa(MaxPieces)+" pieces, counting copies", "")
		}
		k.checkPiece(p)
	}
}

func (k *checker) checkPiece(p *Piece) {
	k.checkName(p.Name, p.Where)
	k.checkReserved(p.Name, p.Where, "card")
	k.findStock(p.Stock, p.StockWhere)
	if p.Copies < 1 {
		k.add("copy-range", p.CopiesWhere, "there are "+problem.Count(p.Copies, "copy")+" of "+p.Name, "at least 1 copy", "")
	}
	sized := k.checkSize(p)
	k.checkScores(p, sized)
	k.checkFoldCount(p)
	k.checkPanelCount(p)
	k.checkPanelNames(p, sized)
	k.checkScoreNumbers(p)
	k.checkOpenings(p, sized)
	k.checkWedges(p, sized)
}

// checkSize judges size and outline, and says whether the piece has a size that the rest can be measured against.
func (k *checker) checkSize(p *Piece) bool {
	if p.Size == (Size{}) && len(p.Outline) == 0 && p.SizeWhere.Line == 0 {
		if !k.gap(p.Name, "size", "outline") {
			k.add("no-size", p.Where, "piece "+p.Name+" has no size", "a line such as: size 252 x 72", "size "+k.n(100*length.Millimetre)+" x "+k.n(50*length.Millimetre))
		}
		return false
	}
	if len(p.Outline) > 0 {
		if box := plane.BoxOf(p.Outline...); !encloses(p.Outline) {
			k.add("outline-corners", p.SizeWhere, "the outline of "+p.Name+" encloses nothing", "at least 3 corners that do not lie in one line", "")
			return false
		} else if box.Min != (plane.Point{}) {
			k.add("outline-origin", p.SizeWhere, "the outline of "+p.Name+" begins at "+k.point(box.Min), "an outline that touches x = 0 on its left and y = 0 at its bottom", "")
		} else if p.Size != (Size{box.W(), box.H()}) {
			k.add("outline-size", p.SizeWhere, "the size of "+p.Name+" is not that of its outline", k.n(box.W())+" x "+k.n(box.H()), "")
		}
	}
	return k.positiveSize(p.Size, p.SizeWhere, "piece "+p.Name)
}

func (k *checker) point(p plane.Point) string { return "(" + k.n(p.X) + ", " + k.n(p.Y) + ")" }

// inBox says whether all points lie in the piece's bounding rectangle or on its sides.
func inBox(p *Piece, points ...plane.Point) bool {
	box := plane.BoxOf(plane.Point{}, plane.Point{X: p.Size.W, Y: p.Size.H})
	for _, q := range points {
		if !box.Contains(q) {
			return false
		}
	}
	return true
}

// inside says where a point may lie.
func (k *checker) inside(p *Piece) string {
	return "x from 0 to " + k.n(p.Size.W) + ", y from 0 to " + k.n(p.Size.H)
}

// checkOpenings judges slits and windows against the bounding rectangle; package pattern does so against the outline.
func (k *checker) checkOpenings(p *Piece, sized bool) {
	for _, s := range p.Slits {
		if s.From == s.To {
			k.add("no-length", s.Where, "the slit starts and ends at "+k.point(s.From), "two different points", "")
		} else if sized && !inBox(p, s.From, s.To) {
			k.add("slit-outside", s.Where, "the slit from "+k.point(s.From)+" to "+k.point(s.To)+" reaches outside the piece", k.inside(p), "")
		}
	}
	for _, w := range p.Windows {
		k.checkWindow(p, w, sized)
	}
}

func (k *checker) checkWindow(p *Piece, w Window, sized bool) {
	points := w.Points
	if w.Kind == Polygon {
		if !k.checkCorners(points, w.Where, "window") {
			return
		}
	} else {
		if !k.positiveSize(w.Size, w.Where, "the window") || !k.checkRound(w.Kind, w.Size, w.Where) {
			return
		}
		points = []plane.Point{w.At, w.At.Add(plane.Point{X: w.Size.W, Y: w.Size.H})}
	}
	if sized && !inBox(p, points...) {
		box := plane.BoxOf(points...)
		k.add("window-outside", w.Where, "the window from "+k.point(box.Min)+" to "+k.point(box.Max)+" reaches outside the piece", k.inside(p), "")
	}
}

// encloses says whether corners can enclose anything: 3 or more, neither on one level nor above each other.
func encloses(corners []plane.Point) bool {
	box := plane.BoxOf(corners...)
	return len(corners) >= 3 && box.W() > 0 && box.H() > 0
}

// checkCorners reports a polygon that encloses nothing.
func (k *checker) checkCorners(points []plane.Point, where problem.Place, what string) bool {
	if encloses(points) {
		return true
	}
	k.add("polygon-corners", where, "the "+what+" encloses nothing", "at least 3 corners that do not lie in one line", "")
	return false
}

func (k *checker) checkRound(kind WindowKind, s Size, where problem.Place) bool {
	if kind == Circle && s.W != s.H {
		k.add("circle-size", where, "a circle of "+k.n(s.W)+" x "+k.n(s.H)+" is an oval", "one diameter, or the word oval", "")
		return false
	}
	return true
}
