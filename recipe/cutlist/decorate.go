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

// rooms returns the named panels of the pieces that are cut once.
func (b *builder) rooms() []room {
	var out []room
	for i := range b.pieces {
		p := &b.pieces[i]
		s := shapeOf(p, true)
		if p.Copies > 1 || !s.strip || len(p.Strip) != len(s.widths) {
			continue
		}
		for j, n := range p.Strip {
			if s.widths[j] <= 0 || n.Name == "" || b.countNamed(p, n.Name) > 1 {
				continue
			}
			r := room{ref: card.PanelRef{Piece: p.Name, Panel: n.Name, Where: p.Where}, w: s.widths[j], h: s.cross, rank: 2}
			if s.kind == card.Up && len(p.Scores) > 0 {
				r.w, r.h = r.h, r.w
			}
			r.skipped = slices.ContainsFunc(b.card.Glues, func(g card.Glue) bool { return g.A.Piece == p.Name && g.A.Panel == n.Name })
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
// where they name any.
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
		b.warn("ornament-place", o.size.a, "no panel of the card is larger than this mat by the same edge on every side", "a mat so much smaller than its panel, both in width and in height")
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
		b.warn("panel-guessed", o.size.a, fmt.Sprintf("the text does not say which of %s the mat is for; the first is taken", problem.Count(len(fit), "panel")), "the name of the panel: "+fit[n-1].ref.Panel)
	}
	b.addMats(o, fit[:min(n, len(fit))])
	return true
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

// howOften returns how many mats there are.
func (b *builder) howOften(o *ornament, fit []*room) int {
	switch {
	case o.pair:
		return 2
	case o.count != nothing:
		n, _ := b.items[o.count].num.count()
		return max(n, 1)
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
			m.Panels = append(m.Panels, r.ref)
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

// topper puts a topper on the panel that the text names, else where the form has one.
func (b *builder) topper(o *ornament, rooms []room) bool {
	at := b.place(o.size.a)
	t := card.Topper{Kind: o.shape, Size: card.Size{W: o.w, H: o.h}, Where: at, StockWhere: at, SizeWhere: at, ThickWhere: at}
	if t.Kind == card.Circle && o.w != o.h {
		t.Kind = card.Oval
	}
	var its *card.Stock
	named := b.namedIn(o, rooms)
	f := b.formTopper(named)
	switch {
	case f != nil:
		ref, p, _ := b.ref(f.On)
		t.On, t.Place = ref, f.Place
		t.At = b.inProportion(f.At, p)
		its = b.form.StockNamed(f.Stock)
		if t.At != f.At {
			b.missing = append(b.missing, "a check of the level of the topper, which is in proportion to "+b.matched.Form)
		}
	case len(named) > 0:
		t.On, t.Place = named[0].ref, card.TopperCentre
	default:
		b.warn("ornament-place", o.size.a, "the text does not say which panel the topper is for", "the name of its panel")
		return false
	}
	t.Stock = b.ornamentStock(o, its)
	b.card.Toppers = append(b.card.Toppers, t)
	return true
}

// formTopper returns the first topper of the form that is not taken and sits on one of the panels, or on any if none are named.
func (b *builder) formTopper(named []*room) *card.Topper {
	for i := range b.form.Toppers {
		f := &b.form.Toppers[i]
		ref, _, ok := b.ref(f.On)
		if !ok || slices.ContainsFunc(b.card.Toppers, func(t card.Topper) bool { return t.On.Piece == ref.Piece && t.On.Panel == ref.Panel }) {
			continue
		}
		if len(named) == 0 || slices.ContainsFunc(named, func(r *room) bool { return r.ref.Piece == ref.Piece && r.ref.Panel == ref.Panel }) {
			return f
		}
	}
	return nil
}

// inProportion brings a length of the form to the size of a piece, on a mark.
func (b *builder) inProportion(l length.Length, p *pair) length.Length {
	mine, its := b.pieces[p.read].Size, b.form.Pieces[p.form].Size
	if mine == its || max(mine.W, mine.H) == max(its.W, its.H) {
		return l
	}
	out, _ := length.FromMM(l.MM() * max(mine.W, mine.H).MM() / max(its.W, its.H).MM()).Snap(max(b.marks, 0))
	return out
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
