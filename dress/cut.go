package dress

import (
	"cmp"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
)

// Cut is what is to be cut of one stock for the ornament of a card.
type Cut struct {
	Stock string
	Shape card.WindowKind
	// W lies across the panel that it is for, or for a topper across the closed card; H up. Of a polygon, the box round it.
	W, H  length.Length
	Count int
	// For names the panels.
	For []string
}

// Cuts lists what is to be cut for the mats and toppers of a card, by stock in the order of the card, the largest first.
func Cuts(closed *flat.Closed) []Cut {
	c := closed.Assembly.Card
	var out []Cut
	for _, d := range closed.Decorations() {
		cut := Cut{Stock: d.Stock, Shape: card.Rect}
		if d.Topper {
			t := c.Toppers[d.Index]
			box := plane.BoxOf(t.Points...)
			cut.Shape, cut.W, cut.H = t.Kind, t.Size.W, t.Size.H
			if t.Kind == card.Polygon {
				cut.W, cut.H = box.W(), box.H()
			}
		} else {
			box := plane.BoxOf(closed.At[d.Panel].Inverse().Points(d.Ring)...)
			cut.W, cut.H = box.W(), box.H()
		}
		i := slices.IndexFunc(out, func(o Cut) bool {
			return o.Stock == cut.Stock && o.Shape == cut.Shape && o.W == cut.W && o.H == cut.H && o.Shape != card.Polygon
		})
		if i < 0 {
			i, out = len(out), append(out, cut)
		}
		out[i].Count++
		out[i].For = append(out[i].For, closed.Assembly.Panels[d.Panel].Ref)
	}
	order := func(stock string) int {
		return slices.IndexFunc(c.Stocks, func(s card.Stock) bool { return s.Name == stock })
	}
	slices.SortStableFunc(out, func(a, b Cut) int {
		return cmp.Or(cmp.Compare(order(a.Stock), order(b.Stock)), cmp.Compare(max(b.W, b.H), max(a.W, a.H)), cmp.Compare(min(b.W, b.H), min(a.W, a.H)))
	})
	return out
}

// Dressed returns the closed card with ornament on it. Ornament changes neither which hinges are folded nor where panels lie.
func (w *Wardrobe) Dressed(d Dressing) *flat.Closed {
	assembly, closed := *w.closed.Assembly, *w.closed
	assembly.Card = d.On(assembly.Card)
	closed.Assembly = &assembly
	return &closed
}
