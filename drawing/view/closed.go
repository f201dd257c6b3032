package view

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
)

// Side is the side from which the closed card is seen.
type Side uint8

// The front is the side on which the first panel of the first piece shows its outer face; the back is seen from behind,
// so that left and right change places.
const (
	Front Side = iota
	Back
)

// String returns front or back.
func (s Side) String() string {
	if s == Back {
		return "back"
	}
	return "front"
}

// Closed draws the closed card as it lies, seen from one side, true to size: what shows of each panel, mat and topper, their
// names where there is room, the overall size and the size that the card is to fit. c must lie flat (flat.Closed.LiesFlat);
// otherwise it returns nil.
func Closed(c *flat.Closed, side Side) *drawing.Drawing {
	if c == nil || !c.LiesFlat() {
		return nil
	}
	card := c.Assembly.Card
	d := drawing.New("closed-"+side.String(), fmt.Sprintf("%s, closed, from the %s", card.Title, side))
	v := &closedView{d: d, a: newArrangement(c), side: side}
	v.label = v.a.top(side)
	v.faces()
	own := v.frame()
	v.edges()
	v.names()
	legend(d, d.Entries(legendWords(card, own)))
	head(d, card.Title, "closed, from the "+side.String(), v.sizeWords())
	d.Desc = "The closed card from the " + side.String() + ": " + v.sizeWords() + "."
	d.Fit(margin)
	return d
}

type closedView struct {
	d     *drawing.Drawing
	a     *arrangement
	side  Side
	label []int
	parts []region
}

// seen mirrors what is seen from behind.
func (v *closedView) seen(points []drawing.Point) []drawing.Point {
	if v.side == Front {
		return points
	}
	out := make([]drawing.Point, len(points))
	for i, p := range points {
		out[i] = drawing.Point{X: -p.X, Y: p.Y}
	}
	return out
}

func (v *closedView) polygon(r region, fill drawing.Style) drawing.Polygon {
	p := r.polygon(fill, drawing.None)
	p.Outer = v.seen(p.Outer)
	for i := range p.Holes {
		p.Holes[i] = v.seen(p.Holes[i])
	}
	return p
}

// faces paints what shows of every layer.
func (v *closedView) faces() {
	v.parts = regions(v.a.sub, v.label)
	for _, r := range v.parts {
		v.d.Add(drawing.GroupPanel, v.polygon(r, v.fill(r.label)))
	}
}

// fill returns the face that a layer shows.
func (v *closedView) fill(layer int) drawing.Style {
	panel, _ := v.a.host(layer)
	n := tint(v.a.closed.Assembly.Card, v.a.stock(layer))
	if v.a.closed.At[panel].Flips() == (v.side == Front) {
		return drawing.Inner(n)
	}
	return drawing.Outer(n)
}

// edges draws the outside, the edges between layers, and folds and slits within what shows.
func (v *closedView) edges() {
	byRole := map[drawing.Role][]link{}
	for _, e := range v.a.sub.Edges {
		l, r := v.label[e.Left], v.label[e.Right]
		role := drawing.None
		switch {
		case l == none && r == none:
		case l == none || r == none:
			role = drawing.Outline
		case l != r && v.fold(l, r):
			role = drawing.ScoreStraight
		case l != r || slices.Contains(e.Tags, l):
			role = drawing.Edge
		}
		if role != drawing.None {
			byRole[role] = append(byRole[role], link{e.A, e.B})
		}
	}
	for _, role := range []drawing.Role{drawing.Edge, drawing.ScoreStraight, drawing.Outline} {
		for _, s := range stroke(role, v.a.sub.Points, byRole[role]) {
			switch s := s.(type) {
			case drawing.Polyline:
				s.Points = v.seen(s.Points)
				v.d.Add(drawing.GroupOutline, s)
			case drawing.Polygon:
				s.Outer = v.seen(s.Outer)
				v.d.Add(drawing.GroupOutline, s)
			}
		}
	}
}

// fold says whether two layers are panels on the two sides of a score that stays straight.
func (v *closedView) fold(l, r int) bool {
	c := v.a.closed
	for i, h := range c.Assembly.Hinges {
		if !c.Folded[i] && (h.A == l && h.B == r || h.A == r && h.B == l) {
			return true
		}
	}
	return false
}

// box returns a box of the closed card as it is seen.
func (v *closedView) box(b plane.Box) drawing.Box {
	return drawing.BoxOf(v.seen([]drawing.Point{drawing.Of(b.Min), drawing.Of(b.Max)})...)
}

// frame draws the size that the card is to fit, and the dimensions of the card; it returns what the legend says of them.
func (v *closedView) frame() map[drawing.Role]string {
	c := v.a.closed
	card, out := c.Assembly.Card, c.Outline()
	b := v.box(out)
	low := b.Min
	var own map[drawing.Role]string
	if f := card.Fits; f != nil {
		half := drawing.Point{X: f.W.MM() / 2, Y: f.H.MM() / 2}
		limit := drawing.Box{Min: b.Centre().Sub(half), Max: b.Centre().Add(half)}
		low = drawing.Point{X: min(low.X, limit.Min.X), Y: min(low.Y, limit.Min.Y)}
		if r := drawing.Rect(drawing.Style{}, drawing.None, limit.Min, limit.Max).Outer; !v.underEdge(r) {
			v.d.Add(drawing.GroupOutline, drawing.Polyline{Line: drawing.Hidden, Points: append(r, r[0])})
			own = map[drawing.Role]string{drawing.Hidden: "the size it is to fit: " + size(f.W, f.H, card.Unit)}
		}
	}
	span := func(l length.Length) []drawing.Span {
		return []drawing.Span{{To: l.MM(), Label: drawing.MeasureFull(l, card.Unit)}}
	}
	below := drawing.Chain{Side: drawing.Below, Origin: drawing.Point{X: b.Min.X, Y: low.Y}, Spans: span(out.W())}
	left := drawing.Chain{Side: drawing.Left, Origin: drawing.Point{X: low.X, Y: b.Min.Y}, Spans: span(out.H())}
	v.d.Add(drawing.GroupDimension, below.Lay().Shapes...)
	v.d.Add(drawing.GroupDimension, left.Lay().Shapes...)
	return own
}

// outside lists the edges of the subdivision beyond which there is no card.
func (v *closedView) outside() []link {
	var out []link
	for _, e := range v.a.sub.Edges {
		if (v.label[e.Left] == none) != (v.label[e.Right] == none) {
			out = append(out, link{e.A, e.B})
		}
	}
	return out
}

// underEdge says whether a narrow line round a level rectangle lies hidden under the wide one round the card.
func (v *closedView) underEdge(ring []drawing.Point) bool {
	const hidden = (drawing.Wide - drawing.Narrow) / 2
	around, covered := 0.0, 0.0
	edges := v.outside()
	for i, a := range ring {
		u := ring[(i+1)%len(ring)].Sub(a)
		long := u.Len()
		around += long
		for _, e := range edges {
			ends := v.seen([]drawing.Point{drawing.Of(v.a.sub.Points[e.a]), drawing.Of(v.a.sub.Points[e.b])})
			p, q := ends[0].Sub(a), ends[1].Sub(a)
			off := max(math.Abs(u.X*p.Y-u.Y*p.X), math.Abs(u.X*q.Y-u.Y*q.X)) / long
			from, to := (u.X*p.X+u.Y*p.Y)/long, (u.X*q.X+u.Y*q.Y)/long
			if off <= hidden {
				covered += max(0, min(long, max(from, to))-max(0, min(from, to)))
			}
		}
	}
	return covered >= around-8*hidden // at each end of a side the card may fall short by as much
}

// sizeWords says how large the closed card is.
func (v *closedView) sizeWords() string {
	c := v.a.closed
	out := c.Outline()
	words := size(out.W(), out.H(), c.Assembly.Card.Unit)
	if f := c.Assembly.Card.Fits; f != nil {
		verdict := "fits"
		if out.W() > f.W || out.H() > f.H {
			verdict = "does not fit"
		}
		words += "; it " + verdict + " " + size(f.W, f.H, c.Assembly.Card.Unit)
	}
	return words
}

// names writes the name of every panel, mat and topper that shows, once, on the largest part of it, where there is room.
func (v *closedView) names() {
	r := room{tight: true}
	r.line(v.d.Group(drawing.GroupOutline)...)
	largest := map[int]region{}
	for _, p := range v.parts {
		if old, ok := largest[p.label]; !ok || p.area() > old.area() {
			largest[p.label] = p
		}
	}
	order := make([]int, 0, len(largest))
	for l := range largest {
		order = append(order, l)
	}
	slices.SortFunc(order, func(k, l int) int {
		return cmp.Or(cmp.Compare(largest[l].area(), largest[k].area()), cmp.Compare(k, l))
	})
	for _, l := range order {
		area := v.polygon(largest[l], drawing.Style{}).Rings()
		role, words := drawing.TextPlain, v.a.name(l)
		if _, decoration := v.a.host(l); decoration >= 0 {
			role = drawing.TextQuiet
		}
		level := block{role: role, lines: []string{words}, size: 3, turns: []float64{0}}
		small, turned := level, level
		small.size, turned.turns = 2.5, turnsOf(area[0])
		last := turned
		last.size = 2.5
		if set, ok := r.put(area, drawing.BoxOf(area[0]...).Centre(), level, small, turned, last); ok {
			v.d.Add(drawing.GroupText, set...)
		}
	}
}

// name returns a layer in the maker's words: "wall.left", "mat on wall.left".
func (a *arrangement) name(layer int) string {
	panel, decoration := a.host(layer)
	ref := a.closed.Assembly.Panels[panel].Ref
	switch {
	case decoration < 0:
		return ref
	case a.decorations[decoration].Topper:
		return "topper on " + ref
	}
	return "mat on " + ref
}
