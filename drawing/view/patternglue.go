package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// degrees returns the direction of a vector.
func degrees(u drawing.Point) float64 { return math.Atan2(u.Y, u.X) * 180 / math.Pi }

// glue hatches the glued areas and says what is glued there, in the area where there is room, else by a letter.
func (w *patternView) glue() {
	var signed, named []string
	for i, g := range w.areas {
		words := glueWords(g)
		area := g.region.rings()
		near := drawing.BoxOf(area[0]...).Centre()
		set, ok := w.room.put(area, near, glueBlocks(words, turnsOf(area[0]))...)
		if !ok {
			sign := letter(len(signed))
			set, ok = w.room.put(area, near, signBlocks(sign)...)
			if ok {
				w.areas[i].sign = sign
				signed = append(signed, sign+"  "+words)
			} else { // too small for a letter: the words below say which panel they mean
				named = append(named, "on "+w.p.Panels[g.panel].Label+", "+words)
			}
		}
		w.d.Add(drawing.GroupText, set...)
	}
	w.keys = append(append(w.keys, signed...), named...)
	for _, g := range w.areas {
		hatch, edge := drawing.Glue, drawing.Glue
		if g.inner {
			hatch, edge = drawing.GlueBehind, drawing.Hidden
		}
		area := g.region.rings()
		w.d.Add(drawing.GroupGlue, without(drawing.HatchGlue(hatch, area[0], area[1:]), w.boxes())...)
		w.d.Add(drawing.GroupGlue, glueEdge(w.p, g, edge)...)
	}
}

// signBlocks returns the ways to set a letter, the largest first.
func signBlocks(sign string) []block {
	var out []block
	for _, size := range []float64{2.5, 2.1, 1.8} {
		out = append(out, block{role: drawing.TextPlain, bold: true, lines: []string{sign}, size: size, turns: []float64{0}})
	}
	return out
}

func letter(i int) string {
	if i < 26 {
		return string(rune('A' + i))
	}
	return fmt.Sprintf("A%d", i-25)
}

func glueWords(g glueArea) string {
	if g.inner {
		return "glue behind: " + strings.Join(g.words, "; ")
	}
	return "glue: " + strings.Join(g.words, "; ")
}

// glueBlocks returns the ways to set words about glue: in one line, then in more and narrower ones.
func glueBlocks(words string, turns []float64) []block {
	var out []block
	for _, size := range []float64{2.5, 2.1} {
		full := drawing.TextRoom(words, size, false)
		for n := 1; n <= 5; n++ {
			lines := drawing.Wrap(words, size, false, full/float64(n)*1.08)
			if n > 1 && len(lines) == 1 {
				continue
			}
			out = append(out, block{role: drawing.TextQuiet, lines: lines, size: size, turns: turns})
		}
	}
	slices.SortStableFunc(out, func(a, b block) int { // larger words first, then fewer lines
		if a.size != b.size {
			return int(math.Copysign(1, b.size-a.size))
		}
		return len(a.lines) - len(b.lines)
	})
	return out
}

// stops collects the places that are measured along one direction, and the ends of whole scores among them.
type stops struct {
	all, whole []length.Length
}

func (s *stops) add(l ...length.Length) { s.all = append(s.all, l...) }

func (s *stops) tidy(low, high length.Length) {
	s.add(low, high)
	slices.Sort(s.all)
	s.all = slices.Compact(s.all)
	if len(s.whole) > 0 {
		s.whole = append(s.whole, low, high)
		slices.Sort(s.whole)
		s.whole = slices.Compact(s.whole)
	}
}

// measured returns what is measured across and up: scores, corners of the outline, ends of slits.
func measured(p *pattern.Pattern) (x, y stops) {
	for _, s := range p.Piece.Scores {
		g := pattern.ScoreLine(p.Piece, s)
		switch s.Kind {
		case card.Across:
			x.add(g.A.X)
			x.whole = append(x.whole, g.A.X)
		case card.Up:
			y.add(g.A.Y)
			y.whole = append(y.whole, g.A.Y)
		default:
			x.add(g.A.X, g.B.X)
			y.add(g.A.Y, g.B.Y)
		}
	}
	corner := func(c plane.Point) { x.add(c.X); y.add(c.Y) }
	for _, c := range p.Piece.Outline {
		corner(c)
	}
	for _, s := range p.Piece.Slits {
		corner(s.From)
		corner(s.To)
	}
	x.tidy(p.Box.Min.X, p.Box.Max.X)
	y.tidy(p.Box.Min.Y, p.Box.Max.Y)
	return x, y
}

// chains draws the ruler marks along the lower edge and, where something lies level, along the left one.
func (w *patternView) chains() {
	x, y := measured(w.p)
	for _, c := range []struct {
		side drawing.Side
		s    stops
	}{{drawing.Below, x}, {drawing.Left, y}} {
		chain := drawing.Chain{Side: c.side, Origin: drawing.Of(w.p.Box.Min)}
		ends := []length.Length{c.s.all[0], c.s.all[len(c.s.all)-1]}
		if len(c.s.all) > 2 {
			chain.Marks, chain.MarksNote = drawing.RulerMarks(c.s.all, w.unit), drawing.RulerNote(c.side, w.unit)
		}
		switch {
		case len(c.s.whole) > 0:
			chain.Spans, chain.SpansNote = drawing.Widths(c.s.whole, w.unit), drawing.WidthsNote(w.unit)
			if c.side == drawing.Left {
				chain.SpansNote = "panel heights, " + w.unit.String()
			}
		case len(chain.Marks) == 0:
			chain.Spans = []drawing.Span{{To: (ends[1] - ends[0]).MM(), Label: drawing.MeasureFull(ends[1]-ends[0], w.unit)}}
		}
		w.d.Add(drawing.GroupDimension, chain.Lay().Shapes...)
	}
}

// coordinates lists the ends of the lines that ruler marks alone do not place.
func (w *patternView) coordinates() []string {
	p, u := w.p.Piece, w.unit
	var out []string
	ends := func(name string, a, b plane.Point) {
		out = append(out, name+": from "+points(u, " to ", a, b))
	}
	if w.listed() {
		out = append(out, "across and up from the lower left corner:")
		for i, s := range p.Scores {
			if s.Kind == card.Slanted {
				ends(scoreName(i), s.From, s.To)
			}
		}
		for i, s := range p.Slits {
			ends(fmt.Sprintf("slit %d", i+1), s.From, s.To)
		}
	}
	for i, v := range p.Windows {
		out = append(out, fmt.Sprintf("window %d: %s", i+1, windowWords(v, u)))
	}
	if n := len(p.Wedges); n > 0 {
		for _, g := range p.Wedges {
			out = append(out, fmt.Sprintf("%s: both outer corners off, %s", g.Panel, both(g.Depth, u)))
		}
	}
	return out
}

func windowWords(v card.Window, u length.Unit) string {
	if v.Kind == card.Polygon {
		return "corners " + points(u, " ", v.Points...)
	}
	corner := "lower left corner of the rectangle around it"
	if v.Kind == card.Rect {
		corner = "lower left corner"
	}
	return fmt.Sprintf("%s %s, %s at %s", v.Kind, size(v.Size.W, v.Size.H, u), corner, points(u, "", v.At))
}

// layers lists the mats and toppers that go on the piece, with their sizes: they are cut too.
func (w *patternView) layers() []string {
	var out []string
	for _, m := range w.mats {
		out = append(out, fmt.Sprintf("mat on %s: %s of %s", w.p.Panels[m.panel].Label, size(m.box.W(), m.box.H(), w.unit), stockLabel(w.a.Card, m.stock)))
	}
	for _, t := range w.a.Card.Toppers {
		if t.On.Piece != w.p.Piece.Name {
			continue
		}
		wide, high := t.Size.W, t.Size.H
		if t.Kind == card.Polygon {
			b := plane.BoxOf(t.Points...)
			wide, high = b.W(), b.H()
		}
		out = append(out, fmt.Sprintf("topper on %s: %s %s of %s, %s", t.On.Panel, t.Kind, size(wide, high, w.unit),
			stockLabel(w.a.Card, t.Stock), topperWords(t, w.unit)))
	}
	return out
}

// topperWords says how high a topper sits.
func topperWords(t card.Topper, u length.Unit) string {
	const above = " above the lowest edge of the closed card"
	switch t.Place {
	case card.TopperTop:
		return "its top " + both(t.At, u) + above
	case card.TopperBottom:
		return "its bottom " + both(t.At, u) + above
	}
	return "in the middle of the panel"
}
