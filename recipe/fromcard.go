package recipe

import (
	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// FromCard makes a recipe of a card that a program made: the lines in their usual order, with blank lines between the
// head, the pieces and the rest. Reading what it writes gives the same card, save for the places. The card must pass
// [card.Check]; else what is written may not be readable.
func FromCard(c *card.Card) *Recipe {
	w := &lister{card: c}
	w.head()
	for i := range c.Pieces {
		w.blank()
		w.piece(&c.Pieces[i])
	}
	w.blank()
	for _, g := range c.Glues {
		w.add(&glueLine{glue: g, saidX: g.AlignX != 0, saidY: g.AlignY != 0, saidTurned: g.TurnedDeg != 0, up: g.Up != 0, over: g.Over != 0})
	}
	w.blank()
	if c.Opening.Kind != card.OpensUnsaid {
		w.add(&opensLine{c.Opening})
	}
	for _, k := range c.Keeps {
		w.add(&keepLine{left: summands(k.Left), right: summands(k.Right), relation: k.Relation})
	}
	w.blank()
	for _, m := range c.Mats {
		w.add(&matLine{m})
	}
	for _, t := range c.Toppers {
		w.add(&topperLine{topper: t, unit: thinUnit(t.Thick, c.Unit)})
	}
	if n := len(w.lines); n > 0 && w.lines[n-1].blank() {
		w.lines = w.lines[:n-1]
	}
	r := &Recipe{file: c.Where.File, lines: w.lines}
	r.rebuild()
	return r
}

// lister collects the lines of a card.
type lister struct {
	card  *card.Card
	lines []line
}

func (w *lister) add(s statement)   { w.lines = append(w.lines, line{statement: s}) }
func (w *lister) inner(s statement) { w.lines = append(w.lines, line{statement: s, inner: true}) }

func (w *lister) blank() {
	if n := len(w.lines); n > 0 && !w.lines[n-1].blank() {
		w.lines = append(w.lines, line{})
	}
}

func (w *lister) head() {
	c := w.card
	w.add(&titleLine{title: c.Title})
	w.add(&unitsLine{c.Unit})
	if c.Marks != 0 {
		w.add(&marksLine{pitch: thickness{c.Marks, thinUnit(c.Marks, c.Unit)}})
	}
	if c.Fits != nil {
		w.add(&fitsLine{size: *c.Fits})
	}
	w.blank()
	for _, s := range c.Stocks {
		w.add(&stockLine{s, thinUnit(s.Caliper, c.Unit)})
	}
}

// thinUnit is the unit in which a thickness is best written on a card in inches or millimetres: inches only where they
// are marks of an inch ruler or whole thousandths.
func thinUnit(l length.Length, card length.Unit) length.Unit {
	if card == length.IN && (l%(length.Inch/64) == 0 || l%(length.Inch/1000) == 0) {
		return length.IN
	}
	return length.MM
}

func (w *lister) piece(p *card.Piece) {
	w.add(&pieceLine{name: p.Name, stock: p.Stock, copies: p.Copies})
	if len(p.Outline) > 0 {
		w.inner(&outlineLine{points: p.Outline})
	} else {
		w.inner(&sizeLine{size: p.Size})
	}
	w.scores(p.Scores)
	for _, s := range p.Slits {
		w.inner(&slitLine{s})
	}
	for _, v := range p.Windows {
		w.inner(&windowLine{v})
	}
	w.strip(p.Strip)
	for _, a := range p.PanelsAt {
		w.inner(&panelLine{a})
	}
	w.fold(p.Scores)
	for _, v := range p.Rest {
		w.inner(&restLine{v})
	}
	for _, v := range p.Crease {
		w.inner(&creaseLine{v})
	}
	if p.Grain != card.GrainUnsaid {
		w.inner(&grainLine{p.Grain})
	}
	if p.ClosedFoldsSaid {
		w.inner(&closedLine{numbers: p.ClosedFolds})
	}
	for _, v := range p.Wedges {
		w.inner(&wedgeLine{v})
	}
}

// scores writes the scores that rise in one direction into one line.
func (w *lister) scores(scores []card.Score) {
	for i := 0; i < len(scores); {
		s := scores[i]
		if s.Kind == card.Slanted {
			w.inner(&scoreLine{s})
			i++
			continue
		}
		n := i + 1
		for n < len(scores) && scores[n].Kind == s.Kind && scores[n].At > scores[n-1].At {
			n++
		}
		w.inner(&scoresLine{s.Kind, append([]card.Score(nil), scores[i:n]...)})
		i = n
	}
}

func (w *lister) strip(names []card.StripName) {
	if len(names) == 0 {
		return
	}
	l := &panelsLine{}
	for _, n := range names {
		if last := len(l.names) - 1; last >= 0 && l.names[last].name == n.Name {
			l.names[last].times++
		} else {
			l.names = append(l.names, panelNames{n.Name, 1, problem.Place{}})
		}
	}
	w.inner(l)
}

func (w *lister) fold(scores []card.Score) {
	l, same, any := &foldLine{}, true, false
	for _, s := range scores {
		l.senses = append(l.senses, s.Sense)
		same = same && s.Sense == scores[0].Sense
		any = any || s.Sense != card.Either
	}
	if !any {
		return
	}
	if same {
		l.all, l.senses = true, l.senses[:1]
	}
	w.inner(l)
}

func summands(l card.Linear) []summand {
	var out []summand
	for _, t := range l.Terms {
		out = append(out, summand{term: t, measured: true})
	}
	if l.Constant != 0 || len(out) == 0 {
		out = append(out, summand{constant: l.Constant})
	}
	return out
}
