package recipe

import (
	"slices"

	"foldwright/card"
	"foldwright/problem"
)

// foldLine is: fold all mountain, or fold m v m. In a list _ is a score that may fold either way.
type foldLine struct {
	all    bool
	senses []card.Sense // one where all
	at     problem.Place
}

func readFold(p *lineParser) statement {
	l := &foldLine{at: p.place(p.tok)}
	if p.accept("all") {
		l.all = true
		l.senses = []card.Sense{senseOf(p.expect("mountain", "valley", "m", "v"))}
		return l
	}
	for p.room(len(l.senses), "senses") {
		l.senses = append(l.senses, senseOf(p.expect("m", "v", "_", "mountain", "valley")))
		p.acceptSign(",")
		if p.failed || p.tok.kind == endOfLine {
			break
		}
	}
	return l
}

func senseOf(s string) card.Sense {
	switch s {
	case "m", "mountain":
		return card.Mountain
	case "v", "valley":
		return card.Valley
	}
	return card.Either
}

func (l *foldLine) build(b *builder) {
	b.piece.FoldWhere, b.fold = l.at, l
	if !l.all {
		b.piece.FoldNames = len(l.senses)
	}
}

// apply gives the scores of a piece their senses, as far as both go.
func (l *foldLine) apply(p *card.Piece) {
	for i := range p.Scores {
		switch {
		case l.all:
			p.Scores[i].Sense = l.senses[0]
		case i < len(l.senses):
			p.Scores[i].Sense = l.senses[i]
		}
	}
}

func (l *foldLine) write(w *writer) {
	if l.all {
		w.put("fold all ", l.senses[0].String())
		return
	}
	w.put("fold")
	for _, s := range l.senses {
		w.put(" ", [...]string{"_", "m", "v"}[s])
	}
}

// restLine is: rest 60 deg at 3, 8; creaseLine is: crease 0.15 N/rad at 1, 2.
type (
	restLine   struct{ value card.CreaseValue }
	creaseLine struct{ value card.CreaseValue }
)

func readRest(p *lineParser) statement {
	value, where := p.degrees(true)
	return &restLine{p.atScores(value, where)}
}

func readCrease(p *lineParser) statement {
	if p.isWord("across", "up", "at") || p.tok.kind == sign && p.tok.text == "(" {
		p.fail("line-form", p.tok, "a crease line says how stiff creases are", "the word score for a line to be scored",
			p.replaced(0, p.tok.off, "score "))
		return nil
	}
	value, where := p.newtonPerRad()
	return &creaseLine{p.atScores(value, where)}
}

// atScores reads the scores for which a value holds; none are all of them.
func (p *lineParser) atScores(value float64, where problem.Place) card.CreaseValue {
	v := card.CreaseValue{Value: value, Where: where}
	if p.accept("at") {
		v.Scores, v.Places = p.numbers()
	}
	return v
}

func cloneValue(v card.CreaseValue) card.CreaseValue {
	v.Scores, v.Places = slices.Clone(v.Scores), slices.Clone(v.Places)
	return v
}

func (l *restLine) build(b *builder)   { b.piece.Rest = append(b.piece.Rest, cloneValue(l.value)) }
func (l *creaseLine) build(b *builder) { b.piece.Crease = append(b.piece.Crease, cloneValue(l.value)) }

func (l *restLine) write(w *writer)   { w.atScores("rest ", l.value, " deg") }
func (l *creaseLine) write(w *writer) { w.atScores("crease ", l.value, " N/rad") }

func (w *writer) atScores(before string, v card.CreaseValue, unit string) {
	w.put(before)
	w.num(v.Value)
	w.put(unit)
	if len(v.Scores) > 0 {
		w.put(" at ")
		w.ints(v.Scores)
	}
}

// grainLine is: grain up.
type grainLine struct{ grain card.Grain }

func readGrain(p *lineParser) statement { return &grainLine{grainOf(p.expect("across", "up"))} }

func (l *grainLine) build(b *builder) { b.piece.Grain = l.grain }
func (l *grainLine) write(w *writer)  { w.put("grain ", grainWord(l.grain)) }

// closedLine is: closed folds 3, 6; or closed folds none.
type closedLine struct {
	numbers []int
	places  []problem.Place
	at      problem.Place
}

func readClosed(p *lineParser) statement {
	p.expect("folds")
	l := &closedLine{at: p.place(p.tok)}
	if !p.accept("none") {
		l.numbers, l.places = p.numbers()
	}
	return l
}

func (l *closedLine) build(b *builder) {
	b.piece.ClosedFoldsSaid, b.piece.ClosedWhere = true, l.at
	b.piece.ClosedFolds, b.piece.ClosedPlaces = slices.Clone(l.numbers), slices.Clone(l.places)
}

func (l *closedLine) write(w *writer) {
	w.put("closed folds ")
	if len(l.numbers) == 0 {
		w.put("none")
	}
	w.ints(l.numbers)
}
