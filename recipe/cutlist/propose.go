package cutlist

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// builder makes a card of the pieces and of what the form that they are like says.
type builder struct {
	*parser
	pieces  []card.Piece
	drafts  []*draft
	unit    length.Unit
	marks   length.Length
	card    *card.Card
	matched *Match
	form    *card.Card
	pairs   []pair
	missing []string // what is to be looked at
	lacks   []string // pieces, scores and joints that are not there
	// standIns are the names of stocks that are not known in full.
	standIns []string
}

func (b *builder) build(catalogue []Form) {
	b.unit = b.mainUnit()
	b.marks = b.pitch()
	names(b.pieces, b.drafts)
	best, ok := b.bestForm(catalogue)
	if ok {
		b.form, b.pairs = catalogue[best.form].Card, best.pairs
		if b.split() {
			best.sure, best.pairs = b.again()
			b.pairs = best.pairs
		}
		b.rename()
		b.matched = &Match{Form: catalogue[best.form].Name, Sure: min(1, best.sure)}
	}
	at := problem.Place{File: b.file, Line: 1, Column: 1}
	b.card = &card.Card{Title: "From a cut list", Unit: b.unit, Marks: b.marks, Pieces: b.pieces, Where: at, FitWhere: at}
	if b.marks > 0 {
		b.card.MarksWhere = at
	}
	if b.title.text != "" {
		b.card.Title = strings.ReplaceAll(clip(b.title.text), `"`, "")
	}
	b.stocks()
	if ok {
		for _, p := range b.pairs {
			b.matched.Why = append(b.matched.Why, b.why(p, b.form))
			b.adopt(p, b.matched.Form)
		}
		b.glues()
		b.opening()
		b.decorations()
		b.unmatched()
	} else {
		b.decorations()
		b.nothingLike(catalogue, best)
	}
	b.tellStandIns()
	for _, q := range card.Check(b.card) {
		if q.Severity == problem.Error {
			b.problems.Add(q)
		}
	}
}

// mainUnit is the unit of most sizes.
func (b *builder) mainUnit() length.Unit {
	var n [3]int
	best := b.drafts[0].unit
	for _, d := range b.drafts {
		if n[d.unit]++; n[d.unit] > n[best] {
			best = d.unit
		}
	}
	return best
}

// pitch returns the coarsest marks of a common ruler that all measurements lie on, of one in the card's unit if there is
// one; 0 where none does, as in a list of whole centimetres and whole inches.
func (b *builder) pitch() length.Length {
	metric := []length.Length{length.Millimetre, length.Millimetre / 2}
	inches := []length.Length{length.Inch / 8, length.Inch / 16, length.Inch / 32, length.Inch / 64}
	rulers := slices.Concat(metric, inches)
	if b.unit == length.IN {
		rulers = slices.Concat(inches, metric)
	}
	for _, m := range rulers {
		if !slices.ContainsFunc(b.pieces, func(p card.Piece) bool {
			return !p.Size.W.OnMark(m) || !p.Size.H.OnMark(m) || slices.ContainsFunc(p.Scores, func(s card.Score) bool { return !s.At.OnMark(m) })
		}) {
			return m
		}
	}
	return 0
}

// rename gives pieces that the list does not name the names of the form's.
func (b *builder) rename() {
	taken := map[string]bool{"card": true}
	for i := range b.pieces {
		if clean(b.drafts[i].name) != "" {
			taken[b.pieces[i].Name] = true
		}
	}
	for _, p := range b.pairs {
		if name := b.form.Pieces[p.form].Name; clean(b.drafts[p.read].name) == "" && !taken[name] {
			b.pieces[p.read].Name = name
			taken[name] = true
		}
	}
}

// stocks makes the stocks of the card. What the list does not say comes from the form, or is a stand-in.
func (b *builder) stocks() {
	for i := range b.pieces {
		s, known := b.stockOf(b.drafts[i].stock, b.formStock(i))
		b.pieces[i].Stock = b.addStock(s, known, b.pieces[i].Where)
	}
}

// addStock adds a stock to the card, unless the same stands there, and returns its name.
func (b *builder) addStock(s card.Stock, known bool, at problem.Place) string {
	for _, o := range b.card.Stocks {
		if o.Name == s.Name && o.Grammage == s.Grammage && o.Caliper == s.Caliper {
			return o.Name
		}
	}
	base := s.Name
	for n := 2; b.card.StockNamed(s.Name) != nil; n++ {
		s.Name = fmt.Sprintf("%s-%d", base, n)
	}
	s.Where, s.GrammageWhere, s.CaliperWhere = at, at, at
	b.card.Stocks = append(b.card.Stocks, s)
	if !known {
		b.standIns = append(b.standIns, s.Name)
	}
	return s.Name
}

// tellStandIns says which stocks are not known in full.
func (b *builder) tellStandIns() {
	if len(b.standIns) == 0 {
		return
	}
	names := strings.Join(b.standIns, ", ")
	b.problems.Add(problem.Problem{Rule: "stock-stand-in", Severity: problem.Warning, Where: b.pieces[0].Where,
		What:  "the list does not say all of the stock " + names + "; the rest is a stand-in",
		Needs: "grammage and thickness as they are on the packet, or measured"})
	b.missing = append([]string{"measured thickness of " + names + ": what stands below is a stand-in"}, b.missing...)
}

// Stand-ins where a list says nothing: 250 gsm is common card for folding, and smooth uncoated card is about 1.2
// thousandths of a millimetre thick for each gsm (common practice; stock/data/caliper.csv gives 1.0 to 1.35).
const (
	usualGrammage = 250
	usualBulk     = 1200 * length.Nanometre
)

// stockOf returns the stock that is said, with what is not said from the stock f of the form, and whether all of it is known.
func (b *builder) stockOf(said stock, f *card.Stock) (card.Stock, bool) {
	s := card.Stock{Name: clean(said.name), Label: clip(said.label)}
	if said.gsm != nil {
		if v, ok := grammage(said.gsm.num); ok {
			s.Grammage = v
			said.gsm.used = true
		}
	}
	if f != nil && (s.Name == "" || s.Name == f.Name) && (s.Grammage == 0 || s.Grammage == f.Grammage) {
		label := s.Label
		s = *f
		if label != "" {
			s.Label = label
		}
		return s, true
	}
	if s.Name == "" {
		s.Name, s.Label = "plain", "card"
	}
	if s.Label == "" {
		s.Label = s.Name
	}
	if s.Grammage == 0 {
		s.Grammage = usualGrammage
	}
	s.Caliper, _ = (length.Length(s.Grammage) * usualBulk).Snap(10 * length.Micrometre)
	return s, false
}

// formStock returns the stock that the form uses for a piece.
func (b *builder) formStock(i int) *card.Stock {
	for _, p := range b.pairs {
		if p.read == i {
			return b.form.StockNamed(b.form.Pieces[p.form].Stock)
		}
	}
	return nil
}

// grammage returns grams per square metre, within what paper and card can be.
func grammage(n *numeral) (float64, bool) {
	if !n.whole || len(n.text) > 4 {
		return 0, false
	}
	v, err := strconv.Atoi(n.text)
	return float64(v), err == nil && v >= card.MinGrammage && v <= card.MaxGrammage
}

// adopt gives a piece the panels, senses and wedges of the form's.
func (b *builder) adopt(q pair, name string) {
	p, f := &b.pieces[q.read], &b.form.Pieces[q.form]
	mine, its := shapeOf(p, true), shapeOf(f, false)
	if !q.named {
		b.differs(p, f, mine, its, name)
		return
	}
	if len(f.Strip) == len(its.widths) {
		p.Strip = turnedRow(f.Strip, q.back)
		for i := range p.Strip {
			p.Strip[i].Where = p.Where
		}
		p.StripWhere = p.Where
	}
	order := turnedRow(its.order, q.back)
	for i, k := range mine.order {
		p.Scores[k].Sense = f.Scores[order[i]].Sense
	}
	p.FoldWhere = p.Where
	b.closed(p, f, mine, order)
	if len(f.Windows) > 0 {
		b.missing = append(b.missing, "windows of "+p.Name+", if you want them: "+name+" has "+problem.Count(len(f.Windows), "window"))
	}
	b.wedges(p, f, mine, its, q.back)
	b.pattern(p, mine, turnedRow(its.widths, q.back), name)
}

// closed takes over which scores are folded in the closed card, where the form says so.
func (b *builder) closed(p, f *card.Piece, mine shape, order []int) {
	if !f.ClosedFoldsSaid {
		return
	}
	p.ClosedFoldsSaid, p.ClosedWhere = true, p.Where
	for i, k := range order {
		if slices.Contains(f.ClosedFolds, k+1) {
			p.ClosedFolds = append(p.ClosedFolds, mine.order[i]+1)
		}
	}
}

// differs tells of a piece with another number of scores than in the form.
func (b *builder) differs(p, f *card.Piece, mine, its shape, name string) {
	if mine.strip && its.strip {
		b.problems.Add(problem.Problem{Rule: "score-missing", Severity: problem.Warning, Where: p.Where,
			What:  fmt.Sprintf("%s has %s, its like in %s has %d", p.Name, problem.Count(mine.scores, "score"), name, its.scores),
			Needs: problem.Count(its.scores, "score") + "; until then its panels have no names and are not glued"})
	}
	b.lacks = append(b.lacks, "panels, fold and glue of "+p.Name+", which is not scored as "+f.Name+" in "+name)
}

// wedges takes over wedges, in proportion and on a mark.
func (b *builder) wedges(p, f *card.Piece, mine, its shape, back bool) {
	widths, theirs := mine.widths, turnedRow(its.widths, back)
	for _, w := range f.Wedges {
		for i, s := range p.Strip {
			if s.Name != w.Panel || i != 0 && i != len(p.Strip)-1 || b.marks <= 0 || theirs[i] <= 0 {
				continue
			}
			d := length.FromMM(w.Depth.MM() * widths[i].MM() / theirs[i].MM())
			if d, _ = d.Snap(b.marks); d > 0 && d < widths[i] && 2*d < mine.cross {
				p.Wedges = append(p.Wedges, card.Wedge{Panel: w.Panel, Depth: d, Where: p.Where, DepthWhere: p.Where})
			}
			break
		}
	}
}

func (b *builder) bare(l length.Length) string { return card.Bare(l, b.unit) }
