package recipe

import (
	"slices"

	"foldwright/card"
	"foldwright/length"
)

// matLine is: mat wall.left, wall.right of white, edge 3.
type matLine struct{ mat card.Mat }

func readMat(p *lineParser) statement {
	l := &matLine{}
	m := &l.mat
	m.Where = p.place(p.tok)
	for p.room(len(m.Panels), "panels") {
		m.Panels = append(m.Panels, p.panelRef())
		if p.isWord("of") || !p.another(word) {
			break
		}
	}
	p.expect("of")
	m.Stock, m.StockWhere = p.name("a stock")
	p.expectSign(",")
	p.expect("edge")
	edge, where := p.measure()
	m.Edge, m.EdgeWhere = edge.Length, where
	return l
}

func (l *matLine) build(b *builder) {
	mat := l.mat
	mat.Panels = slices.Clone(mat.Panels)
	b.card.Mats = append(b.card.Mats, mat)
}

func (l *matLine) write(w *writer) {
	w.put("mat ")
	for i, r := range l.mat.Panels {
		if i > 0 {
			w.put(", ")
		}
		w.put(r.String())
	}
	w.put(" of ", l.mat.Stock, ", edge ")
	w.len(l.mat.Edge)
}

// topperLine is: topper oval 92 x 118 of white on roof.front-slope, top at 168, thick 3 mm.
type topperLine struct {
	topper    card.Topper
	saidPlace bool
	unit      length.Unit // in which the thickness is written
}

func readTopper(p *lineParser) statement {
	l := &topperLine{}
	t := &l.topper
	t.Where = p.place(p.tok)
	t.Kind, t.Size, t.Points, t.SizeWhere = p.shape()
	p.expect("of")
	t.Stock, t.StockWhere = p.name("a stock")
	p.expect("on")
	t.On = p.panelRef()
	p.eachOption(level, func(option string) {
		if option == "thick" {
			thick, where := p.measure()
			t.Thick, t.ThickWhere, l.unit, t.ThickGiven = thick.Length, where, thick.unit, true
			return
		}
		l.saidPlace = true
		switch option {
		case "top":
			t.Place = card.TopperTop
		case "bottom":
			t.Place = card.TopperBottom
		default:
			return
		}
		p.expect("at")
		t.At = p.length()
	}, "top", "bottom", "centre", "center", "thick")
	return l
}

// level names what a word says: top, bottom and centre exclude each other.
func level(option string) string {
	if option == "thick" {
		return option
	}
	return "level"
}

func (l *topperLine) build(b *builder) {
	topper := l.topper
	topper.Points = slices.Clone(topper.Points)
	b.card.Toppers = append(b.card.Toppers, topper)
}

func (l *topperLine) write(w *writer) {
	t := &l.topper
	w.put("topper ")
	w.shape(t.Kind, t.Size, t.Points)
	w.put(" of ", t.Stock, " on ", t.On.String())
	switch {
	case t.Place == card.TopperTop:
		w.put(", top at ")
		w.len(t.At)
	case t.Place == card.TopperBottom:
		w.put(", bottom at ")
		w.len(t.At)
	case l.saidPlace:
		w.put(", centre")
	}
	if t.ThickGiven {
		w.put(", thick ", thickness{t.Thick, l.unit}.text())
	}
}
