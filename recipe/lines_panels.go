package recipe

import (
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/problem"
)

// panelsLine is: panels left, front, leaf x4, _.
type panelsLine struct {
	names []panelNames
	at    problem.Place
}

// panelNames is one name in the line, for so many panels in a row; "" leaves them unnamed.
type panelNames struct {
	name  string
	times int
	at    problem.Place
}

func readPanels(p *lineParser) statement {
	l := &panelsLine{at: p.place(p.tok)}
	for n := 0; ; {
		item := panelNames{times: 1, at: p.place(p.tok)}
		if !p.accept("_") {
			item.name, item.at = p.name("a panel")
		}
		p.times(&item)
		if n += item.times; p.failed || !p.room(n-2, "panels") {
			return nil
		}
		l.names = append(l.names, item)
		if !p.another(word) {
			return l
		}
	}
}

// times reads x4 behind a name.
func (p *lineParser) times(item *panelNames) {
	if p.failed {
		return
	}
	if p.accept("x", "X") || p.acceptSign("x") {
		n, t := p.whole("how many panels have the name")
		item.times = n
		p.checkTimes(n, t)
		return
	}
	if digits := strings.TrimLeft(p.tok.text, "xX"); p.tok.kind == word && len(digits) == len(p.tok.text)-1 && digits != "" && strings.Trim(digits, "0123456789") == "" {
		t := p.advance()
		n, err := strconv.Atoi(digits)
		if err != nil || len(digits) > 6 {
			n = 1e6
		}
		item.times = n
		p.checkTimes(n, t)
	}
}

func (p *lineParser) checkTimes(n int, t token) {
	if n < 1 {
		p.fail("number", t, "a name for "+strconv.Itoa(n)+" panels", "x2 or more", "")
	}
}

func (l *panelsLine) build(b *builder) {
	b.piece.StripWhere = l.at
	for _, item := range l.names {
		for range item.times {
			b.piece.Strip = append(b.piece.Strip, card.StripName{Name: item.name, Where: item.at})
		}
	}
}

func (l *panelsLine) write(w *writer) {
	w.put("panels ")
	for i, item := range l.names {
		if i > 0 {
			w.put(", ")
		}
		if item.name == "" {
			w.put("_")
		}
		w.put(item.name)
		if item.times > 1 {
			w.put(" x")
			w.int(item.times)
		}
	}
}

// panelLine is: panel beak at (40, 30).
type panelLine struct{ panel card.PanelAt }

func readPanel(p *lineParser) statement {
	name, where := p.name("a panel")
	p.expect("at")
	return &panelLine{card.PanelAt{Name: name, At: p.point(), Where: where}}
}

func (l *panelLine) build(b *builder) { b.piece.PanelsAt = append(b.piece.PanelsAt, l.panel) }

func (l *panelLine) write(w *writer) {
	w.put("panel ", l.panel.Name, " at ")
	w.point(l.panel.At)
}

// wedgeLine is: wedge tab 3.
type wedgeLine struct{ wedge card.Wedge }

func readWedge(p *lineParser) statement {
	name, where := p.name("a panel")
	depth, at := p.measure()
	return &wedgeLine{card.Wedge{Panel: name, Depth: depth.Length, Where: where, DepthWhere: at}}
}

func (l *wedgeLine) build(b *builder) { b.piece.Wedges = append(b.piece.Wedges, l.wedge) }

func (l *wedgeLine) write(w *writer) {
	w.put("wedge ", l.wedge.Panel, " ")
	w.len(l.wedge.Depth)
}
