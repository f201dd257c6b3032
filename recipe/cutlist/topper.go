package cutlist

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// topper puts a topper, as often as the text says, where the form has one like it, else on the middle of a panel: one that
// the text names, or one that it fits on.
func (b *builder) topper(o *ornament, rooms []room) bool {
	named := b.namedIn(o, rooms)
	n, done := max(b.said(o), 1), 0
	for done < min(n, len(rooms)) && (b.asInForm(o, named) || b.onPanel(o, rooms, named)) {
		done++
	}
	switch {
	case done == 0:
		b.noRoom(o, rooms, "no panel of the card is large enough for this topper", "the name of the panel that it is for")
	case done < n:
		b.warn("count-differs", o.count, fmt.Sprintf("the text says %s, and %s of that size can be found", problem.Count(n, "topper"), problem.Count(done, "panel")), "as many toppers as panels for them")
	}
	return done > 0
}

// newTopper returns a topper of the list, without a panel.
func (b *builder) newTopper(o *ornament) card.Topper {
	at := b.place(o.size.a)
	t := card.Topper{Kind: o.shape, Size: card.Size{W: o.w, H: o.h}, Place: card.TopperCentre, Where: at, StockWhere: at, SizeWhere: at, ThickWhere: at}
	if t.Kind == card.Circle && o.w != o.h {
		t.Kind = card.Oval
	}
	return t
}

// asInForm puts a topper where the form has one of a like size; false where it has none left.
func (b *builder) asInForm(o *ornament, named []*room) bool {
	f := b.formTopper(o, named)
	if f == nil {
		return false
	}
	t := b.newTopper(o)
	ref, p, _ := b.ref(f.On)
	t.On, t.Place = ref, f.Place
	t.At = b.inProportion(f.At, p)
	if t.At != f.At {
		b.missing = append(b.missing, "a check of the level of the topper, which is in proportion to "+b.matched.Form)
	}
	t.Stock = b.ornamentStock(o, b.form.StockNamed(f.Stock))
	b.card.Toppers = append(b.card.Toppers, t)
	return true
}

// onPanel puts a topper on a panel that has none yet; false where there is no such panel.
func (b *builder) onPanel(o *ornament, rooms []room, named []*room) bool {
	free := func(r *room) bool { return !r.skipped && !b.hasTopper(r.ref) }
	fit := slices.DeleteFunc(slices.Clone(named), func(r *room) bool { return b.hasTopper(r.ref) })
	if len(named) == 0 {
		for i := range rooms {
			if r := &rooms[i]; free(r) && o.w <= r.w && o.h <= r.h {
				fit = append(fit, r)
			}
		}
		slices.SortStableFunc(fit, func(x, y *room) int { return cmp.Compare(x.rank, y.rank) })
		if len(fit) > 1 {
			b.warn("panel-guessed", o.size.a, fmt.Sprintf("the text does not say which of %s the topper is for; the first is taken", problem.Count(len(fit), "panel")), "the name of the panel: "+fit[0].name())
		}
	}
	if len(fit) == 0 {
		return false
	}
	t := b.newTopper(o)
	t.On = fit[0].take()
	t.Stock = b.ornamentStock(o, nil)
	b.card.Toppers = append(b.card.Toppers, t)
	return true
}

// hasTopper says whether a panel has a topper already.
func (b *builder) hasTopper(r card.PanelRef) bool {
	return r.Panel != "" && slices.ContainsFunc(b.card.Toppers, func(t card.Topper) bool { return t.On.Piece == r.Piece && t.On.Panel == r.Panel })
}

// formTopper returns the first topper of the form that is not taken, is about as large for its piece, and sits on one of
// the panels, or on any if none are named. A much smaller one at the height of the form's would hang in the air.
func (b *builder) formTopper(o *ornament, named []*room) *card.Topper {
	if b.form == nil {
		return nil
	}
	for i := range b.form.Toppers {
		f := &b.form.Toppers[i]
		ref, p, ok := b.ref(f.On)
		if !ok || b.hasTopper(ref) || !alike(o.w, b.inProportion(f.Size.W, p)) || !alike(o.h, b.inProportion(f.Size.H, p)) {
			continue
		}
		if len(named) == 0 || slices.ContainsFunc(named, func(r *room) bool { return r.ref.Piece == ref.Piece && r.ref.Panel == ref.Panel }) {
			return f
		}
	}
	return nil
}

// alike says whether of two lengths neither is more than half as long again as the other.
func alike(x, y length.Length) bool { return 2*x <= 3*y && 2*y <= 3*x }

// inProportion brings a length of the form to the size of a piece, on a mark.
func (b *builder) inProportion(l length.Length, p *pair) length.Length {
	mine, its := b.pieces[p.read].Size, b.form.Pieces[p.form].Size
	if mine == its || max(mine.W, mine.H) == max(its.W, its.H) {
		return l
	}
	out, _ := length.FromMM(l.MM() * max(mine.W, mine.H).MM() / max(its.W, its.H).MM()).Snap(max(b.marks, 0))
	return out
}
