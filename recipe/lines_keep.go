package recipe

import (
	"math/big"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// keepLine is: keep spring.leaf <= spring.front / 2.
type keepLine struct {
	left, right []summand
	relation    card.Relation
	at          problem.Place
}

// summand is one term of a sum: a measure of the card taken Num/Den times, or a plain length.
type summand struct {
	term     card.Term // where measured
	measured bool
	constant length.Length
}

// mostSummands bounds one side of a relation; so bounded, the sum of the constants cannot overflow.
const mostSummands = 40

func readKeep(p *lineParser) statement {
	l := &keepLine{at: p.place(p.tok)}
	l.left = p.sum()
	switch {
	case p.failed:
	case p.acceptSign("="):
	case p.acceptSign("<="):
		l.relation = card.AtMost
	case p.acceptSign(">="):
		l.relation = card.AtLeast
	case p.tok.kind == sign && (p.tok.text == "<" || p.tok.text == ">"):
		p.wanted("=, <= or >=", p.inPlaceOf(p.tok, p.tok.text+"="))
	default:
		p.wanted("=, <= or >=", "")
	}
	l.right = p.sum()
	return l
}

// sum reads terms with + and - between them.
func (p *lineParser) sum() []summand {
	var out []summand
	negative := p.acceptSign("-")
	for {
		s := p.product(negative)
		if p.failed {
			return nil
		}
		if out = append(out, s); len(out) > mostSummands {
			p.fail("too-many", p.tok, "there are more than 40 terms on one side", "at most 40 terms", "")
			return nil
		}
		switch {
		case p.acceptSign("+"):
			negative = false
		case p.acceptSign("-"):
			negative = true
		default:
			return out
		}
	}
}

// product reads factors with * and / between them: at most one measure of the card, else a length.
func (p *lineParser) product(negative bool) summand {
	var s summand
	f := factors{value: big.NewRat(1, 1), first: p.tok}
	if negative {
		f.value.SetInt64(-1)
	}
	for divide := false; !p.failed; {
		switch {
		case p.tok.kind == word && !divide:
			if s.measured {
				p.fail("keep-form", p.tok, "two measures are multiplied here", "one measure of the card in each term", "")
			}
			s.term, s.measured = p.term(), true
		default:
			f.read(p, divide)
		}
		if divide = p.acceptSign("/"); !divide && !p.acceptSign("*") {
			break
		}
	}
	if p.failed {
		return s
	}
	if s.measured {
		f.intoTerm(p, &s.term)
	} else {
		s.constant = f.intoLength(p)
	}
	return s
}

// factors is the product of the numbers in a term.
type factors struct {
	value *big.Rat
	first token
	unit  length.Unit
	// unitAt is the unit that one of the numbers has, if any does.
	unitAt  token
	hasUnit bool
}

func (f *factors) read(p *lineParser, divide bool) {
	t := p.tok
	if t.kind != number {
		p.wanted("a number or a measure such as wall.tab", "")
		return
	}
	p.advance()
	p.noDecimalComma()
	if p.failed || p.tooManyDigits(t) || p.mixedWithMinus() {
		return
	}
	r, err := length.Number(t.text)
	if err != nil {
		p.fail("number", t, err.Error(), "a number such as 2, 0.5 or 1/3", "")
		return
	}
	if divide && r.Sign() == 0 {
		p.fail("number", t, "a division by zero", "a number that is not 0", "")
		return
	}
	if divide {
		r.Inv(r)
	}
	f.value.Mul(f.value, r)
	if most := 4096; f.value.Num().BitLen() > most || f.value.Denom().BitLen() > most {
		p.fail("keep-factor", t, "the numbers of this term multiply to something immense", "a plain factor", "")
		return
	}
	if u, ok := unitOf(p.tok.text); ok && p.tok.kind == word {
		if f.hasUnit || divide {
			p.fail("keep-form", p.tok, "a factor has a unit where the term has one already", "one length in each term", "")
			return
		}
		f.unit, f.hasUnit, f.unitAt = u, true, p.advance()
	}
}

// mixedWithMinus reports 10-1/2, which people write for ten and a half and which reads as a difference.
func (p *lineParser) mixedWithMinus() bool {
	t := p.tok
	if t.kind != sign || t.text != "-" || !t.glued || t.end >= len(p.sc.line) || !isDigit(p.sc.line[t.end]) {
		return false
	}
	p.fail("number", t, "a minus stands right between two numbers", "10 1/2 for ten and a half, 10 - 1/2 for a difference", "")
	return true
}

// intoTerm puts the factor into a term that measures the card.
func (f *factors) intoTerm(p *lineParser, t *card.Term) {
	const most = 1_000_000
	num, den := f.value.Num(), f.value.Denom()
	switch {
	case f.hasUnit:
		p.fail("keep-form", f.unitAt, "a measure is multiplied with a length", "a plain number beside the measure", "")
	case num.Sign() == 0:
		p.fail("keep-factor", f.first, "a measure taken 0 times says nothing", "a factor that is not 0", "")
	case !num.IsInt64() || !den.IsInt64() || abs(num.Int64()) > most || den.Int64() > most:
		p.fail("keep-factor", f.first, "the factor of this term is too fine", "a factor such as 2, 1/2 or 0.75", "")
	default:
		t.Num, t.Den = num.Int64(), den.Int64()
	}
}

func abs(n int64) int64 { return max(n, -n) }

// intoLength turns the product into a length; a bare number is in the card's unit.
func (f *factors) intoLength(p *lineParser) length.Length {
	unit := f.unit
	if !f.hasUnit {
		unit = p.r.unit
		if f.value.Sign() != 0 {
			p.r.sawBare(p.place(f.first), f.first.text)
		}
	}
	p.r.sawMeasure(p.place(f.first))
	nm := f.value.Mul(f.value, new(big.Rat).SetInt64(int64(unit.Size())))
	if new(big.Rat).Abs(nm).Cmp(new(big.Rat).SetInt64(int64(length.Max))) > 0 {
		p.fail("too-long", f.first, "a length of more than 2000 mm", "a shorter measurement", "")
		return 0
	}
	if !nm.IsInt() {
		below := length.Length(new(big.Int).Div(nm.Num(), nm.Denom()).Int64())
		p.fail("not-exact", f.first, "this length cannot be held exactly; the nearest that can are "+
			card.Bare(below, length.MM)+" mm and "+card.Bare(below+1, length.MM)+" mm", "a length in whole millionths of a millimetre", "")
		return 0
	}
	return length.Length(nm.Num().Int64())
}

// term reads wall.tab, wall.width, wall.height, card.width or card.height.
func (p *lineParser) term() card.Term {
	t := p.advance()
	c := card.Term{Where: p.place(t)}
	piece, measure, dot := strings.Cut(t.text, ".")
	name, copy, ok := splitCopy(piece)
	switch {
	case !ok || !dot || !card.IsName(measure):
		p.fail("ref-form", t, problem.Quote(t.text)+" is not a measure", "a panel such as wall.tab, or wall.width, wall.height, card.width, card.height", "")
	case copy != 0:
		p.fail("keep-form", t, "a keep line speaks of all copies of "+name+" at once", "no number of a copy", name+"."+measure)
	case name == "card" && measure == "width":
		c.Kind = card.CardWidth
	case name == "card" && measure == "height":
		c.Kind = card.CardHeight
	case name == "card":
		p.fail("ref-form", t, problem.Quote(t.text)+" is not a measure", "card.width or card.height", "")
	case measure == "width":
		c.Kind, c.Piece = card.PieceWidth, name
	case measure == "height":
		c.Kind, c.Piece = card.PieceHeight, name
	default:
		c.Piece, c.Panel = name, measure
	}
	return c
}

func (l *keepLine) build(b *builder) {
	b.card.Keeps = append(b.card.Keeps, card.Keep{Left: linear(l.left), Right: linear(l.right), Relation: l.relation, Where: l.at})
}

func linear(sum []summand) card.Linear {
	var out card.Linear
	for _, s := range sum {
		if s.measured {
			out.Terms = append(out.Terms, s.term)
		}
		out.Constant += s.constant
	}
	return out
}

func (l *keepLine) write(w *writer) {
	w.put("keep ")
	w.sum(l.left)
	w.put(" ", l.relation.String(), " ")
	w.sum(l.right)
}

func (w *writer) sum(sum []summand) {
	for i, s := range sum {
		negative := s.constant < 0 || s.measured && s.term.Num < 0
		switch {
		case i > 0 && negative:
			w.put(" - ")
		case i > 0:
			w.put(" + ")
		case negative:
			w.put("-")
		}
		if s.measured {
			w.term(s.term)
		} else {
			w.len(s.constant.Abs())
		}
	}
}

func (w *writer) term(t card.Term) {
	if n := abs(t.Num); n != 1 {
		w.int(int(n))
		w.put(" * ")
	}
	switch t.Kind {
	case card.PanelWidth:
		w.put(t.Piece, ".", t.Panel)
	case card.PieceWidth:
		w.put(t.Piece, ".width")
	case card.PieceHeight:
		w.put(t.Piece, ".height")
	case card.CardWidth:
		w.put("card.width")
	case card.CardHeight:
		w.put("card.height")
	}
	if t.Den > 1 {
		w.put(" / ")
		w.int(int(t.Den))
	}
}
