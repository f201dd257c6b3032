package card

import (
	"math"

	"foldwright/length"
	"foldwright/problem"
)

// panelKey is a panel of one copy, the number of a sole copy filled in.
type panelKey struct {
	piece string
	copy  int
	panel string
}

func keyOf(r PanelRef) panelKey { return panelKey{r.Piece, max(r.Copy, 1), r.Panel} }

func (a panelKey) less(b panelKey) bool {
	if a.piece != b.piece {
		return a.piece < b.piece
	}
	if a.copy != b.copy {
		return a.copy < b.copy
	}
	return a.panel < b.panel
}

func (k *checker) checkGlues() {
	first := map[[2]panelKey]problem.Place{}
	for _, g := range k.card.Glues {
		k.checkPlacing(g)
		a := k.findPanel(g.A, oneCopy)
		if b := k.findPanel(g.B, oneCopy); !a || !b {
			continue
		}
		pair := [2]panelKey{keyOf(g.A), keyOf(g.B)}
		if pair[0] == pair[1] {
			k.add("glue-to-itself", g.B.Where, "panel "+g.A.String()+" is glued to itself", "two different panels", "")
			continue
		}
		if pair[1].less(pair[0]) {
			pair[0], pair[1] = pair[1], pair[0]
		}
		if where, ok := first[pair]; ok {
			k.addNote("glue-twice", g.Where, g.A.String()+" and "+g.B.String()+" are glued together already", "one glue line for two panels", "",
				problem.Note{Where: where, What: "the first one is here"})
			continue
		}
		first[pair] = g.Where
	}
}

func (k *checker) checkPlacing(g Glue) {
	if !(g.TurnedDeg >= 0 && g.TurnedDeg < 360) {
		needs := "from 0 up to, but not, 360"
		if same := math.Mod(math.Mod(g.TurnedDeg, 360)+360, 360); same < 360 { // false for NaN and the infinities
			needs += ": turned " + number(same) + " is the same"
		}
		k.add("turned-range", g.TurnedWhere, "turned "+number(g.TurnedDeg)+" is not within one turn", needs, "")
	}
	for _, l := range []length.Length{g.Over, g.Up} {
		if l.Abs() > length.Max {
			k.add("too-long", g.Where, "a shift by "+k.n(l), "at most "+k.n(length.Max), "")
		}
	}
}

func (k *checker) checkOpening() {
	c, o := k.card, k.card.Opening
	switch o.Kind {
	case OpensUnsaid:
		if !k.gap("", "opens") {
			k.problems.Add(problem.Problem{Rule: "no-opens", Severity: problem.Warning, Where: c.Where, What: "nothing says how the card opens",
				Needs: "a line such as: opens by itself", Try: "opens by itself"})
		}
	case OpensAt:
		if p := k.findPiece(o.Piece.Piece, o.Piece.Where, copySuffix(o.Piece.Copy)+"."+number(float64(o.Score))); p != nil {
			if k.checkCopy(p, o.Piece.Copy, o.Piece.Where, "."+number(float64(o.Score)), oneCopy) {
				k.checkNumber(p.Piece, o.Score, o.Piece.Where)
			}
		}
		if !(o.ToDeg > 0 && o.ToDeg <= 180) {
			k.add("opens-range", o.ToWhere, "the card opens to "+number(o.ToDeg)+" deg", "above 0 (shut) and up to 180 (open flat)", "")
		}
	case OpensByPulling:
		a, b := k.findPieceRef(o.A), k.findPieceRef(o.B)
		if a && b && o.A.Piece == o.B.Piece && max(o.A.Copy, 1) == max(o.B.Copy, 1) {
			k.add("pull-itself", o.B.Where, "piece "+o.A.String()+" is pulled from itself", "two different pieces", "")
		}
	}
}

func (k *checker) findPieceRef(r PieceRef) bool {
	p := k.findPiece(r.Piece, r.Where, copySuffix(r.Copy))
	return p != nil && k.checkCopy(p, r.Copy, r.Where, "", oneCopy)
}

func (k *checker) checkKeeps() {
	for _, keep := range k.card.Keeps {
		if len(keep.Left.Terms)+len(keep.Right.Terms) == 0 {
			k.add("keep-empty", keep.Where, "this relation holds no measure of the card", "a panel such as wall.tab, or wall.width, wall.height, card.width, card.height", "")
		}
		for _, side := range []Linear{keep.Left, keep.Right} {
			for _, t := range side.Terms {
				k.checkTerm(t)
			}
		}
	}
}

func (k *checker) checkTerm(t Term) {
	if t.Num == 0 || t.Den <= 0 {
		k.add("keep-factor", t.Where, "a measure taken "+number(float64(t.Num))+"/"+number(float64(t.Den))+" times", "a factor that is not 0", "")
	}
	switch t.Kind {
	case PanelWidth:
		if p := k.findPiece(t.Piece, t.Where, "."+t.Panel); p != nil {
			k.checkPanelName(p, t.Panel, t.Where, func(s string) string { return t.Piece + "." + s })
		}
	case PieceWidth:
		k.findPiece(t.Piece, t.Where, ".width")
	case PieceHeight:
		k.findPiece(t.Piece, t.Where, ".height")
	}
}

func (k *checker) checkMats() {
	for _, m := range k.card.Mats {
		k.findStock(m.Stock, m.StockWhere)
		if m.Edge < 0 || m.Edge > length.Max {
			k.add("edge-range", m.EdgeWhere, "an edge of "+k.n(m.Edge), "0 or more: the mat is smaller than its panel by the edge on every side", "")
		}
		seen := map[PanelRef]bool{}
		for _, r := range m.Panels {
			if !k.findPanel(r, allCopies) {
				continue
			}
			where := r.Where
			r.Where = problem.Place{}
			if seen[r] {
				k.add("said-twice", where, "panel "+r.String()+" stands in this mat line twice", "each panel once; a second mat on it is a line of its own", "")
			}
			seen[r] = true
		}
	}
}

func (k *checker) checkToppers() {
	for _, t := range k.card.Toppers {
		k.findStock(t.Stock, t.StockWhere)
		k.findPanel(t.On, oneCopy)
		if t.Kind == Polygon {
			k.checkCorners(t.Points, t.SizeWhere, "topper")
		} else if k.positiveSize(t.Size, t.SizeWhere, "the topper") {
			k.checkRound(t.Kind, t.Size, t.SizeWhere)
		}
		if t.ThickGiven {
			k.positive(t.Thick, t.ThickWhere, "the thickness")
		}
	}
}
