package cutlist

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// room is a panel that a mat or a topper can lie on. w and h are what is free: the panel, or the mat that lies on it.
type room struct {
	ref     card.PanelRef
	w, h    length.Length
	rank    int  // 0: the text names it; 1: the form has a mat on it; 2: neither
	skipped bool // hidden under another panel
	piece   *card.Piece
	at      int // the panel's number in its strip, from 0; it has no name yet where ref has none
}

// name returns the name of the panel in its piece, for messages.
func (r *room) name() string {
	if r.ref.Panel == "" {
		return fmt.Sprintf("panel %d of %s", r.at+1, r.ref.Piece)
	}
	return r.ref.Piece + "." + r.ref.Panel
}

// take returns the panel as a recipe refers to it. One without a name gets its number for a name.
func (r *room) take() card.PanelRef {
	if r.ref.Panel == "" {
		for len(r.piece.Strip) <= len(r.piece.Scores) {
			r.piece.Strip = append(r.piece.Strip, card.StripName{Where: r.piece.Where})
		}
		r.piece.StripWhere = r.piece.Where
		r.ref.Panel = fmt.Sprintf("panel-%d", r.at+1)
		r.piece.Strip[r.at].Name = r.ref.Panel
	}
	return r.ref
}

// decorations makes lines of the mats and toppers of the list; what has no panel is handed back.
func (b *builder) decorations() {
	rooms := b.rooms()
	order := slices.Clone(b.ornaments)
	slices.SortStableFunc(order, func(x, y *ornament) int { // a mat lies on a larger one
		return cmp.Or(cmp.Compare(x.kind, y.kind), cmp.Compare(y.w.MM()*y.h.MM(), x.w.MM()*x.h.MM()))
	})
	for _, o := range order {
		placed := false
		switch {
		case o.w <= 0 || o.h <= 0:
		case o.kind == matOrnament:
			placed = b.mat(o, rooms)
		default:
			placed = b.topper(o, rooms)
		}
		b.settle(o, placed)
	}
}

// rooms returns the panels of the pieces that are cut once; of panels that share a name none, as no line can tell them apart.
func (b *builder) rooms() []room {
	var out []room
	for i := range b.pieces {
		p := &b.pieces[i]
		s := shapeOf(p, true)
		if p.Copies > 1 || !s.strip || len(p.Strip) > 0 && len(p.Strip) != len(s.widths) {
			continue
		}
		for j, width := range s.widths {
			r := room{ref: card.PanelRef{Piece: p.Name, Where: p.Where}, w: width, h: s.cross, rank: 2, piece: p, at: j}
			if len(p.Strip) > 0 {
				r.ref.Panel = p.Strip[j].Name
			}
			if width <= 0 || r.ref.Panel != "" && b.countNamed(p, r.ref.Panel) > 1 {
				continue
			}
			if s.kind == card.Up && len(p.Scores) > 0 {
				r.w, r.h = r.h, r.w
			}
			r.skipped = slices.ContainsFunc(b.card.Glues, func(g card.Glue) bool { return g.A.Piece == p.Name && g.A.Panel == r.ref.Panel })
			if b.formMat(r.ref) != nil {
				r.rank, r.skipped = 1, false
			}
			out = append(out, r)
		}
	}
	return out
}

func (b *builder) countNamed(p *card.Piece, name string) int {
	n := 0
	for _, s := range p.Strip {
		if s.Name == name {
			n++
		}
	}
	return n
}

// formMat returns the mat that the form has on the panel that became this one; nil where there is none.
func (b *builder) formMat(mine card.PanelRef) *card.Mat {
	if b.form == nil {
		return nil
	}
	for i := range b.form.Mats {
		for _, r := range b.form.Mats[i].Panels {
			if got, _, ok := b.ref(r); ok && got.Piece == mine.Piece && got.Panel == mine.Panel {
				return &b.form.Mats[i]
			}
		}
	}
	return nil
}

// namedIn returns the panels that the words of an ornament name: front, or front slope; of the pieces that they name,
// where they name any; and all of those pieces where they name no panel.
func (b *builder) namedIn(o *ornament, rooms []room) []*room {
	var out []*room
	add := func(name string) (found bool) {
		for j := range rooms {
			if r := &rooms[j]; singular(name) == singular(r.ref.Panel) {
				found = true
				if !slices.Contains(out, r) {
					out = append(out, r)
				}
			}
		}
		return found
	}
	pieces := map[string]bool{}
	for i := o.from; i < o.to; i++ {
		t := &b.items[i]
		if t.kind != word {
			continue
		}
		pieces[singular(t.text)] = true
		if i+1 < o.to && b.items[i+1].kind == word && add(t.text+"-"+b.items[i+1].text) {
			i++
			continue
		}
		add(t.text)
	}
	if len(out) == 0 {
		for j := range rooms {
			out = append(out, &rooms[j])
		}
		return slices.DeleteFunc(out, func(r *room) bool { return !pieces[singular(r.ref.Piece)] })
	}
	of := slices.DeleteFunc(slices.Clone(out), func(r *room) bool { return !pieces[singular(r.ref.Piece)] })
	if len(of) > 0 {
		return of
	}
	return out
}

// mat puts a mat on the panels that are larger by the same edge all round.
func (b *builder) mat(o *ornament, rooms []room) bool {
	named := b.namedIn(o, rooms)
	var fit []*room
	for i := range rooms {
		r := &rooms[i]
		if e := edgeOf(o, r); e > 0 && (len(named) == 0 && !r.skipped || slices.Contains(named, r)) {
			fit = append(fit, r)
		}
	}
	if len(fit) == 0 {
		b.noRoom(o, rooms, "no panel of the card is larger than this mat by the same edge on every side", "a mat so much smaller than its panel, both in width and in height")
		return false
	}
	// Small edges first: a mat nearly fills its panel.
	slices.SortStableFunc(fit, func(x, y *room) int {
		return cmp.Or(cmp.Compare(x.rank, y.rank), cmp.Compare(edgeOf(o, x), edgeOf(o, y)))
	})
	n := b.howOften(o, fit)
	if n > len(fit) {
		b.warn("count-differs", o.count, fmt.Sprintf("the text says %s, and %s of that size can be found", problem.Count(n, "mat"), problem.Count(len(fit), "panel")), "as many mats as panels for them")
	} else if n < len(fit) && len(named) == 0 && fit[n].rank == fit[n-1].rank && edgeOf(o, fit[n]) == edgeOf(o, fit[n-1]) {
		b.warn("panel-guessed", o.size.a, fmt.Sprintf("the text does not say which of %s the mat is for; the first is taken", problem.Count(len(fit), "panel")), "the name of the panel: "+fit[n-1].name())
	}
	b.addMats(o, fit[:min(n, len(fit))])
	return true
}

// noRoom says why an ornament found no place, and how large the panel is that comes nearest.
func (b *builder) noRoom(o *ornament, rooms []room, what, needs string) {
	var best *room
	away := func(r *room) length.Length { return (r.w - o.w).Abs() + (r.h - o.h).Abs() }
	for i := range rooms {
		if r := &rooms[i]; !r.skipped && (best == nil || away(r) < away(best)) {
			best = r
		}
	}
	if best == nil {
		needs += "; the list gives no panel that can be told from others"
	} else {
		needs += fmt.Sprintf("; the nearest is %s, with %s x %s free", best.name(), best.w.Human(b.unit), best.h.Human(b.unit))
	}
	b.warn("ornament-place", o.size.a, what, needs)
}

// edgeOf returns the edge that a mat leaves on a panel, on whichever side it lies; 0 where it does not fit.
func edgeOf(o *ornament, r *room) length.Length {
	for _, s := range [][2]length.Length{{o.w, o.h}, {o.h, o.w}} {
		if dw, dh := r.w-s[0], r.h-s[1]; dw == dh && dw > 0 && dw%2 == 0 && dw < min(r.w, r.h)/2 {
			return dw / 2
		}
	}
	return 0
}

// said returns how many of an ornament the text says there are; 0 where it does not.
func (b *builder) said(o *ornament) int {
	switch {
	case o.pair:
		return 2
	case o.count != nothing:
		n, _ := b.items[o.count].num.count()
		return max(n, 1)
	}
	return 0
}

// howOften returns how many mats there are.
func (b *builder) howOften(o *ornament, fit []*room) int {
	if n := b.said(o); n > 0 {
		return n
	}
	switch {
	case o.several || fit[0].rank == 0:
		n := 1
		for n < len(fit) && fit[n].rank == fit[0].rank {
			n++
		}
		return n
	}
	return 1
}

// addMats adds a line for each edge.
func (b *builder) addMats(o *ornament, fit []*room) {
	at := b.place(o.size.a)
	for len(fit) > 0 {
		edge := edgeOf(o, fit[0])
		m := card.Mat{Edge: edge, Where: at, StockWhere: at, EdgeWhere: at}
		var rest []*room
		for _, r := range fit {
			if edgeOf(o, r) != edge {
				rest = append(rest, r)
				continue
			}
			m.Panels = append(m.Panels, r.take())
			r.w, r.h = r.w-2*edge, r.h-2*edge
		}
		var its *card.Stock
		if f := b.formMat(fit[0].ref); f != nil {
			its = b.form.StockNamed(f.Stock)
		}
		m.Stock = b.ornamentStock(o, its)
		slices.SortStableFunc(m.Panels, func(x, y card.PanelRef) int { return b.rankOf(x) - b.rankOf(y) })
		b.card.Mats = append(b.card.Mats, m)
		fit = rest
	}
}

// rankOf says where a panel stands in its piece.
func (b *builder) rankOf(r card.PanelRef) int {
	n := 0
	for i := range b.pieces {
		for _, s := range b.pieces[i].Strip {
			if n++; b.pieces[i].Name == r.Piece && s.Name == r.Panel {
				return n
			}
		}
	}
	return n
}

// ornamentStock returns the name of the stock of an ornament, and adds it to the card where it is new.
func (b *builder) ornamentStock(o *ornament, its *card.Stock) string {
	if name := clean(o.stock.name); name != "" {
		for _, s := range b.card.Stocks {
			if s.Name == name && o.stock.gsm == nil {
				return name
			}
		}
	}
	if its == nil && o.stock.name == "" && len(b.card.Stocks) > 0 {
		return b.card.Stocks[0].Name
	}
	s, known := b.stockOf(o.stock, its)
	return b.addStock(s, known, b.place(o.size.a))
}
