package recipe

import (
	"cmp"
	"slices"
	"strings"
	"unicode"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// titleLine is: card "Harbour light".
type titleLine struct {
	title string
	at    problem.Place
}

func readTitle(p *lineParser) statement {
	at := p.place(p.tok)
	if p.tok.kind != quoted {
		try := ""
		if p.tok.kind == word {
			end := scanToEnd(p.sc.line)
			try = p.replaced(p.tok.off, end, `"`+p.sc.line[p.tok.off:end]+`"`)
		}
		p.wanted("the title between quotes", try)
		return nil
	}
	return &titleLine{p.text(), at}
}

// text passes over a text between quotes and returns it, tabs and the like in it turned into spaces.
func (p *lineParser) text() string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) {
			return ' '
		}
		return c
	}, p.advance().text)
}

func (l *titleLine) build(b *builder) { b.card.Title, b.card.Where = l.title, l.at }

func (l *titleLine) write(w *writer) {
	w.put("card ")
	w.quoted(l.title)
}

// unitsLine is: units mm.
type unitsLine struct{ unit length.Unit }

func readUnits(p *lineParser) statement {
	if p.tok.kind == word {
		if u, ok := unitOf(p.tok.text); ok {
			p.advance()
			p.r.unit = u
			return &unitsLine{u}
		}
		if meant := commonUnit(p.tok.text); meant != "" {
			p.fail("unit", p.tok, problem.Quote(p.tok.text)+" is not a unit of a recipe", "mm, cm or in", p.inPlaceOf(p.tok, meant))
			p.r.unit, _ = unitOf(meant) // the lines below mean it
			return nil
		}
	}
	p.expect("mm", "cm", "in")
	return nil
}

func (l *unitsLine) build(b *builder) { b.card.Unit = l.unit }
func (l *unitsLine) write(w *writer)  { w.put("units ", l.unit.String()) }

// marksLine is: marks 1/8 in.
type marksLine struct {
	pitch thickness
	at    problem.Place
}

func readMarks(p *lineParser) statement {
	p.marks = true
	pitch, at := p.measure()
	return &marksLine{pitch, at}
}

// nearestMarks returns the marks of a ruler that are most like a distance.
func nearestMarks(l length.Length) string {
	apart := func(text string) length.Length {
		m, _ := length.Parse(text, length.MM)
		return (m - l).Abs()
	}
	return slices.MinFunc(length.RulerMarks(), func(a, b string) int { return cmp.Compare(apart(a), apart(b)) })
}

func (l *marksLine) build(b *builder) { b.card.Marks, b.card.MarksWhere = l.pitch.Length, l.at }
func (l *marksLine) write(w *writer)  { w.put("marks ", l.pitch.text()) }

// fitsLine is: fits 120 x 168.
type fitsLine struct {
	size card.Size
	at   problem.Place
}

func readFits(p *lineParser) statement {
	size, at := p.size()
	return &fitsLine{size, at}
}

func (l *fitsLine) build(b *builder) {
	size := l.size
	b.card.Fits, b.card.FitWhere = &size, l.at
}

func (l *fitsLine) write(w *writer) {
	w.put("fits ")
	w.size(l.size)
}

// stockLine is: stock navy "navy card" 270 gsm, 0.36 mm, grain long.
type stockLine struct {
	stock card.Stock
	unit  length.Unit // in which the caliper is written
}

func readStock(p *lineParser) statement {
	l := &stockLine{}
	s := &l.stock
	s.Name, s.Where = p.name("a stock")
	if s.Name == "" {
		return nil
	}
	s.GrammageWhere, s.CaliperWhere = s.Where, s.Where // should the line break off before them
	if p.tok.kind == quoted {
		s.Label = p.text()
	}
	grams, at := p.decimal("the grammage")
	p.gsm()
	p.expectSign(",")
	caliper, where := p.measure()
	if !p.failed {
		s.Grammage, s.GrammageWhere = grams, at
		s.Caliper, s.CaliperWhere, l.unit = caliper.Length, where, caliper.unit
	}
	p.eachOption(nil, func(option string) {
		switch option {
		case "grain":
			s.Grain = grainOf(p.expect("long", "short", "unknown"))
		case "stiffness":
			s.StiffnessMilliNm = p.measured(p.milliNewtonMetre())
		case "crease":
			s.CreaseNPerRad = p.measured(p.newtonPerRad())
		case "rest":
			s.RestDeg = p.measured(p.degrees(true))
		case "scored":
			s.ScoredDeg = p.measured(p.degrees(true))
		}
	}, "grain", "stiffness", "crease", "rest", "scored")
	return l
}

// gsm passes over the unit of a grammage, and tells of the other ways in which a pack says it.
func (p *lineParser) gsm() {
	const lb = "the grammage in g/m2, such as 270 gsm (the pack says it): how many g/m2 a weight in lb is depends on the grade of the paper, such as cover, text or bond"
	t := p.tok
	if p.failed || t.kind != word {
		p.expect("gsm")
		return
	}
	switch strings.ToLower(t.text) {
	case "lb", "lbs", "pound", "pounds":
		p.fail("grammage-unit", t, "a paper's weight in "+problem.Quote(t.text)+" does not say how heavy it is", lb, "")
	case "g", "gr", "gram", "grams", "gramme", "grammes", "gsm":
		if t.text != "gsm" {
			p.fail("grammage-unit", t, problem.Quote(t.text)+" is not the unit of a grammage in a recipe", "gsm: grams for each square metre", p.replaced(t.off, p.gramsEnd(t), "gsm"))
		}
	}
	p.expect("gsm")
}

// gramsEnd returns where g, g/m2 or g/m² ends.
func (p *lineParser) gramsEnd(t token) int {
	for _, area := range []string{"/m2", "/m²", "/m^2", "/sqm", "/m"} {
		if strings.HasPrefix(p.sc.line[t.end:], area) {
			return t.end + len(area)
		}
	}
	return t.end
}

// measured makes a number of what was read; of what could not be read it makes none.
func (p *lineParser) measured(value float64, where problem.Place) card.Number {
	if p.failed {
		return card.Number{}
	}
	return card.Number{Value: value, Given: true, Where: where}
}

func grainOf(s string) card.Grain {
	switch s {
	case "long":
		return card.GrainLong
	case "short":
		return card.GrainShort
	case "unknown":
		return card.GrainUnknown
	case "across":
		return card.GrainAcross
	case "up":
		return card.GrainUp
	}
	return card.GrainUnsaid
}

func grainWord(g card.Grain) string {
	switch g {
	case card.GrainLong:
		return "long"
	case card.GrainShort:
		return "short"
	case card.GrainAcross:
		return "across"
	case card.GrainUp:
		return "up"
	}
	return "unknown"
}

func (l *stockLine) build(b *builder) { b.card.Stocks = append(b.card.Stocks, l.stock) }

func (l *stockLine) write(w *writer) {
	s := &l.stock
	w.put("stock ", s.Name, " ")
	if s.Label != "" {
		w.quoted(s.Label)
		w.put(" ")
	}
	w.num(s.Grammage)
	w.put(" gsm, ", thickness{s.Caliper, l.unit}.text())
	if s.Grain != card.GrainUnsaid {
		w.put(", grain ", grainWord(s.Grain))
	}
	w.measured(", stiffness ", s.StiffnessMilliNm, " mN.m")
	w.measured(", crease ", s.CreaseNPerRad, " N/rad")
	w.measured(", rest ", s.RestDeg, " deg")
	w.measured(", scored ", s.ScoredDeg, " deg")
}

func (w *writer) measured(before string, n card.Number, unit string) {
	if n.Given {
		w.put(before)
		w.num(n.Value)
		w.put(unit)
	}
}
