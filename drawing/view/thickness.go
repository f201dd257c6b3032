package view

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/length"
)

// Thickness draws how thick the closed card is, seen from the front, true to size: darker where it is thicker, with a scale,
// each part with its thickness where there is room, else with the letter that its thickness has in the scale, and the thickest
// place marked. Values are the sum of the calipers, as
// flat.Closed.Thickness says. c must lie flat; otherwise it returns nil.
func Thickness(c *flat.Closed) *drawing.Drawing {
	if c == nil || !c.LiesFlat() {
		return nil
	}
	title := c.Assembly.Card.Title
	d := drawing.New("thickness", title+", how thick the closed card is")
	a := newArrangement(c)
	t := &thicknessView{d: d, a: a}
	t.level()
	t.faces()
	most := c.Thickness()
	t.names(most)
	t.scale()
	words := "thickest: " + thickBoth(most.Max)
	head(d, title, "how thick the closed card is, from the front", words, "the sum of the sheets; folds and glue add to it")
	d.Desc = "Map of the thickness of the closed card. " + words + "."
	d.Fit(margin)
	return d
}

// thickWords returns a thickness in mm, to a hundredth.
func thickWords(l length.Length) string { return l.Typeset(length.MM) }

// thickBoth returns a thickness in both units; in inches as a decimal, since calipers lie between the marks of a ruler.
func thickBoth(l length.Length) string {
	return fmt.Sprintf("%s (≈ %.3f in)", thickWords(l), float64(l)/float64(length.Inch))
}

type thicknessView struct {
	d     *drawing.Drawing
	a     *arrangement
	label []int           // per face of the subdivision: index of its thickness in thick
	thick []length.Length // rising
	parts []region
	// signed says that a part carries the letter of its thickness.
	signed bool
}

// sign returns the letter of a thickness: A is the thickest.
func (t *thicknessView) sign(level int) string { return letter(len(t.thick) - 1 - level) }

// level numbers the different thicknesses.
func (t *thicknessView) level() {
	per := t.a.thick()
	for f, s := range t.a.stacks {
		if len(s) > 0 {
			t.thick = append(t.thick, per[f])
		}
	}
	slices.Sort(t.thick)
	t.thick = slices.Compact(t.thick)
	t.label = make([]int, len(per))
	for f, s := range t.a.stacks {
		t.label[f] = none
		if len(s) > 0 {
			t.label[f], _ = slices.BinarySearch(t.thick, per[f])
		}
	}
}

// fill returns the tone of a thickness: even steps of grey from the palest face to the darkest that words can be read on.
func (t *thicknessView) fill(level int) drawing.Style {
	part := float64(t.thick[level]) / float64(t.thick[len(t.thick)-1])
	const tones = 0.35 // below this part of the maximum the inner face's tones serve, above it the outer face's
	if part < tones {
		return drawing.Inner(0).Shaded(part / tones * 0.6)
	}
	return drawing.Outer(0).Shaded((part - tones) / (1 - tones))
}

func (t *thicknessView) faces() {
	t.parts = regions(t.a.sub, t.label)
	for _, r := range t.parts {
		t.d.Add(drawing.GroupPanel, r.polygon(t.fill(r.label), drawing.None))
	}
	byRole := map[drawing.Role][]link{}
	for _, e := range t.a.sub.Edges {
		l, r := t.label[e.Left], t.label[e.Right]
		switch {
		case l == r:
		case l == none || r == none:
			byRole[drawing.Outline] = append(byRole[drawing.Outline], link{e.A, e.B})
		default:
			byRole[drawing.Edge] = append(byRole[drawing.Edge], link{e.A, e.B})
		}
	}
	for _, role := range []drawing.Role{drawing.Edge, drawing.Outline} {
		t.d.Add(drawing.GroupOutline, stroke(role, t.a.sub.Points, byRole[role])...)
	}
}

// names writes the maximum at its place, then the thickness of the other parts, the largest first.
func (t *thicknessView) names(most flat.Thickness) {
	r := room{tight: true}
	r.line(t.d.Group(drawing.GroupOutline)...)
	at := drawing.Of(most.At)
	t.d.Add(drawing.GroupMark, drawing.Circle(drawing.Solid.Fill(), drawing.None, at, 0.8))
	dot := drawing.Rect(drawing.Style{}, drawing.None, at.Sub(drawing.Point{X: 1, Y: 1}), at.Add(drawing.Point{X: 1, Y: 1}))
	r.line(dot)
	box := drawing.BoundsOf(t.d.Shapes()).Grown(60)
	all := [][]drawing.Point{drawing.Rect(drawing.Style{}, drawing.None, box.Min, box.Max).Outer}
	words := "thickest: " + thickBoth(most.Max)
	set, ok := r.put(all, at, block{role: drawing.TextPlain, bold: true, lines: []string{words}, size: 3, turns: []float64{0, 90}},
		block{role: drawing.TextPlain, bold: true, lines: drawing.Wrap(words, 3, true, 20), size: 3, turns: []float64{0}})
	if ok {
		t.d.Add(drawing.GroupText, set...)
		b := drawing.BoundsOf(set).Grown(wordsClear)
		end := drawing.Point{X: min(max(at.X, b.Min.X), b.Max.X), Y: min(max(at.Y, b.Min.Y), b.Max.Y)}
		leader := drawing.Line(drawing.Frame, at, end)
		t.d.Add(drawing.GroupMark, leader)
		r.line(leader)
	}
	t.values(&r)
}

// values writes into every part its thickness or, where there is no room for it, the letter that it has in the scale: the
// tones of two thicknesses may be too close to be told apart.
func (t *thicknessView) values(r *room) {
	slices.SortStableFunc(t.parts, func(p, q region) int { return cmp.Compare(q.area(), p.area()) })
	for _, p := range t.parts {
		value := block{role: drawing.TextPlain, lines: []string{thickWords(t.thick[p.label])}, size: 2.8, turns: []float64{0, 90}}
		small := value
		small.size = 2.2
		near := drawing.BoxOf(p.rings()[0]...).Centre()
		set, ok := r.squeeze(p.rings(), near, value, small)
		if !ok {
			tiny := block{role: drawing.TextPlain, bold: true, lines: []string{t.sign(p.label)}, size: 1.6, turns: []float64{0}}
			set, ok = r.squeeze(p.rings(), near, append(signBlocks(t.sign(p.label)), tiny)...)
			t.signed = t.signed || ok
		}
		t.d.Add(drawing.GroupText, set...)
	}
}

// oneColumn is how many fields of the scale stand in one column; more go side by side as the width allows.
const oneColumn = 8

// scale draws one field for every thickness in the picture, the thickest first, with its thickness in both units, and with its
// letter if parts carry letters.
func (t *thicknessView) scale() {
	const wide, high, row, gap = 12.0, 4.2, 5.4, 2.5
	b := t.d.Bounds()
	n := len(t.thick)
	down, column := n, 0.0
	for _, l := range t.thick {
		column = max(column, wide+2*gap+drawing.TextRoom(thickBoth(l), drawing.NoteSize, false))
	}
	if n > oneColumn {
		across := max(1, int((max(b.W(), leastWide)+gap)/column))
		down = (n + across - 1) / across
	}
	for i := range n {
		level := n - 1 - i
		low := drawing.Point{X: b.Min.X + column*float64(i/down), Y: b.Min.Y - partGap - high - row*float64(i%down)}
		t.d.Add(drawing.GroupLegend,
			drawing.Rect(t.fill(level), drawing.Frame, low, low.Add(drawing.Point{X: wide, Y: high})),
			drawing.Text{Role: drawing.TextPlain, Words: thickBoth(t.thick[level]), Size: drawing.NoteSize, Level: drawing.Centred,
				At: low.Add(drawing.Point{X: wide + gap, Y: high / 2})})
		if t.signed {
			t.d.Add(drawing.GroupLegend, drawing.Text{Role: drawing.TextPlain, Bold: true, Words: t.sign(level), Size: 2.5, Anchor: drawing.Middle,
				Level: drawing.Centred, At: low.Add(drawing.Point{X: wide / 2, Y: high / 2})})
		}
	}
}
