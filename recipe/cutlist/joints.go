package cutlist

import (
	"fmt"
	"math"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// pairOf returns the pair of a piece of the form; nil where the list has none, or one with other panels.
func (b *builder) pairOf(form string) *pair {
	for i := range b.pairs {
		if b.form.Pieces[b.pairs[i].form].Name == form && b.pairs[i].named {
			return &b.pairs[i]
		}
	}
	return nil
}

// copyOf returns the copy that a copy of the form's piece becomes; false where the list has too few.
func (b *builder) copyOf(p *pair, copy int) (int, bool) {
	n := b.pieces[p.read].Copies
	if copy == 0 && n > 1 {
		return 1, true
	}
	return copy, max(copy, 1) <= n
}

// ref returns the panel of the list that a panel of the form becomes.
func (b *builder) ref(r card.PanelRef) (card.PanelRef, *pair, bool) {
	p := b.pairOf(r.Piece)
	if p == nil {
		return r, nil, false
	}
	copy, ok := b.copyOf(p, r.Copy)
	if !ok || b.panels(p, r.Panel) == 0 {
		return r, nil, false
	}
	mine := &b.pieces[p.read]
	return card.PanelRef{Piece: mine.Name, Copy: copy, Panel: r.Panel, Where: mine.Where}, p, true
}

// panels counts the panels of a name.
func (b *builder) panels(p *pair, name string) int {
	n := 0
	for _, s := range b.pieces[p.read].Strip {
		if s.Name == name {
			n++
		}
	}
	return n
}

// glues copies the glue lines of the form between pieces that the list has too.
func (b *builder) glues() {
	left := 0
	for _, g := range b.form.Glues {
		a, pa, okA := b.ref(g.A)
		c, pc, okB := b.ref(g.B)
		if !okA || !okB {
			left++
			continue
		}
		g.A, g.B, g.Where, g.TurnedWhere = a, c, a.Where, a.Where
		turn(&g, pa.turn, pc.turn)
		b.scale(&g, pc)
		b.card.Glues = append(b.card.Glues, g)
	}
	if left > 0 {
		b.lacks = append(b.lacks, fmt.Sprintf("%s of %s, for pieces that the list does not have so", problem.Count(left, "glue line"), b.matched.Form))
	}
}

// turn makes a glue line of the form hold for pieces that lie turned in the list: a and b are how far, counter-clockwise.
//
// The form lays A on B by turning it (after turning it over, where unlike faces meet); a piece that lies turned already
// is turned back first, which is the other way round where it is turned over as well.
func turn(g *card.Glue, a, b int) {
	if g.Joint == card.Against || g.Joint == card.Facing {
		a = -a
	}
	g.TurnedDeg = math.Mod(g.TurnedDeg-float64(a)+float64(b)+720, 360)
	for range b / 90 { // left becomes bottom, bottom becomes right
		g.AlignX, g.AlignY = opposite(g.AlignY), g.AlignX
		g.Over, g.Up = -g.Up, g.Over
	}
}

func opposite(a card.Align) card.Align {
	switch a {
	case card.AlignLow:
		return card.AlignHigh
	case card.AlignHigh:
		return card.AlignLow
	}
	return a
}

// scale makes the shifts of a glue line as large as the piece they are on, on a mark.
func (b *builder) scale(g *card.Glue, p *pair) {
	if g.Over == 0 && g.Up == 0 {
		return
	}
	mine, its := b.pieces[p.read].Size, b.form.Pieces[p.form].Size
	factor := max(mine.W, mine.H).MM() / max(its.W, its.H).MM()
	for _, l := range []*length.Length{&g.Over, &g.Up} {
		v := length.FromMM(l.MM() * factor)
		*l, _ = v.Snap(max(b.marks, 0))
	}
	b.missing = append(b.missing, fmt.Sprintf("a check of the shift in the glue line of %s, which is in proportion to %s", g.A, b.matched.Form))
}

// opening copies what drives the form.
func (b *builder) opening() {
	o := b.form.Opening
	piece := func(r card.PieceRef) (card.PieceRef, *pair) {
		p := b.pairOf(r.Piece)
		if p == nil {
			return r, nil
		}
		copy, ok := b.copyOf(p, r.Copy)
		if !ok {
			return r, nil
		}
		return card.PieceRef{Piece: b.pieces[p.read].Name, Copy: copy, Where: b.pieces[p.read].Where}, p
	}
	ok := true
	switch o.Kind {
	case card.OpensAt:
		var p *pair
		if o.Piece, p = piece(o.Piece); p != nil {
			o.Score, ok = b.score(p, o.Score)
		} else {
			ok = false
		}
	case card.OpensByPulling:
		var x, y *pair
		o.A, x = piece(o.A)
		o.B, y = piece(o.B)
		ok = x != nil && y != nil
	case card.OpensUnsaid:
		ok = false
	}
	if !ok {
		b.lacks = append(b.lacks, "how the card opens (opens)")
		return
	}
	o.Where = b.card.Where
	o.ToWhere = b.card.Where
	b.card.Opening = o
}

// score returns the number of the score that a score of the form becomes.
func (b *builder) score(p *pair, n int) (int, bool) {
	its, mine := shapeOf(&b.form.Pieces[p.form], false), shapeOf(&b.pieces[p.read], true)
	for i, k := range turnedRow(its.order, p.back) {
		if k == n-1 && i < len(mine.order) {
			return mine.order[i] + 1, true
		}
	}
	return n, false
}

// unmatched says which pieces only one of the two has.
func (b *builder) unmatched() {
	mine, its := map[int]bool{}, map[int]bool{}
	for _, p := range b.pairs {
		mine[p.read], its[p.form] = true, true
		if here, there := b.pieces[p.read].Copies, b.form.Pieces[p.form].Copies; here < there {
			b.lacks = append(b.lacks, fmt.Sprintf("%d more of %s: %s has %d of them", there-here, b.pieces[p.read].Name, b.matched.Form, there))
		}
	}
	for j := range b.form.Pieces {
		if p := &b.form.Pieces[j]; !its[j] {
			b.lacks = append(b.lacks, fmt.Sprintf("a piece like the %s of %s, with %s", p.Name, b.matched.Form, problem.Count(len(p.Scores), "score")))
		}
	}
	for i := range b.pieces {
		if !mine[i] {
			b.lacks = append(b.lacks, "what "+b.pieces[i].Name+" is for and where it is glued: "+b.matched.Form+" has nothing like it, so it is left loose")
		}
	}
	b.extras()
}

// extras says what the form has besides its pieces and joints, and the list does not.
func (b *builder) extras() {
	var has []string
	for _, e := range []struct {
		what        string
		mine, there int
	}{{"relations", 0, len(b.form.Keeps)}, {"mats", len(b.card.Mats), len(b.form.Mats)}, {"toppers", len(b.card.Toppers), len(b.form.Toppers)}} {
		if e.there > 0 && e.mine == 0 {
			has = append(has, e.what)
		}
	}
	if n := len(has) - 1; n >= 0 {
		what := has[n]
		if n > 0 {
			what = strings.Join(has[:n], ", ") + " and " + what
		}
		b.missing = append(b.missing, what+", if you want them: "+b.matched.Form+" has some")
	}
}

// nothingLike says that no form is like the pieces, and what is missing then.
func (b *builder) nothingLike(catalogue []Form, best compared) {
	b.lacks = append(b.lacks, "the names of the panels (panels), how the scores fold (fold)", "what is glued to what (glue), how the card opens (opens)")
	if len(catalogue) == 0 {
		return
	}
	what := "no card of the catalogue is like these pieces"
	if best.rank >= 0 {
		what += fmt.Sprintf("; the nearest is %s, %.0f %% alike", catalogue[best.form].Name, 100*best.sure)
	}
	b.warn("no-match", 0, what, "names, senses and glue by hand")
}
