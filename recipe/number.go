package recipe

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"unicode/utf8"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// thickness is a length that is always written with its unit: a caliper, a thickness, the pitch of a ruler. It keeps the
// unit in which the maker thinks of it, whatever the card's unit is.
type thickness struct {
	length.Length
	unit length.Unit
}

// text writes the thickness in its unit, or in millimetres where that is not exact.
func (t thickness) text() string {
	if s, ok := t.Exact(t.unit); ok {
		return s + " " + t.unit.String()
	}
	return card.Bare(t.Length, length.MM) + " mm"
}

// length reads a measurement: a number with or without a unit, a minus before it.
func (p *lineParser) length() length.Length {
	l, _ := p.measure()
	return l.Length
}

// measure is length with the unit that was meant and the place of the number.
func (p *lineParser) measure() (thickness, problem.Place) { return p.measureIn(false) }

// measureIn is measure; in a list a comma without a space may follow the number.
func (p *lineParser) measureIn(list bool) (thickness, problem.Place) {
	if p.failed {
		return thickness{}, problem.Place{}
	}
	first, minus := p.tok, ""
	if p.acceptSign("-") {
		minus = "-"
	}
	if p.tok.kind != number {
		p.wanted("a measurement", "")
		return thickness{}, problem.Place{}
	}
	num := p.advance()
	if !list {
		p.noDecimalComma()
	}
	unit, said := p.unit(num)
	l := p.exact(first, num, minus, unit)
	p.r.sawMeasure(p.place(first))
	if !said && l != 0 {
		p.r.sawBare(p.place(num), num.text)
	}
	return thickness{l, unit}, p.place(first)
}

// exact turns a number into a length, or reports why it cannot be one.
func (p *lineParser) exact(first, num token, minus string, unit length.Unit) length.Length {
	if p.failed || p.tooManyDigits(num) {
		return 0
	}
	l, err := length.Parse(minus+num.text, unit)
	if err == nil {
		return l
	}
	var inexact *length.NotExactError
	var long *length.RangeError
	switch {
	case errors.As(err, &inexact):
		needs, meant := "a length in whole millionths of a millimetre", card.Bare(inexact.Below, length.MM)+" mm"
		if p.marks {
			needs, meant = "marks that a ruler has: "+strings.Join(length.RulerMarks(), ", "), nearestMarks(inexact.Below)
		}
		p.fail("not-exact", first, err.Error(), needs, p.replaced(first.off, p.lastMeasureEnd(num), meant))
	case errors.As(err, &long):
		p.fail("too-long", first, err.Error(), "a shorter measurement", "")
	default:
		p.fail("number", first, err.Error(), "a number such as 10, 10.5, 10 1/2 or 10½", "")
	}
	return 0
}

// lastMeasureEnd returns where a measurement ends, its unit included: the token before the next one.
func (p *lineParser) lastMeasureEnd(num token) int {
	s := newScanner(p.sc.line)
	s.off, s.col, s.lastEnd, s.last = num.end, num.col, num.end, number
	if t := s.next(); t.kind == word && isUnit(t.text) {
		return t.end
	}
	return num.end
}

func (p *lineParser) tooManyDigits(t token) bool {
	const most = 20 // of package length; holds every measurement
	if n := strings.IndexFunc(t.text, func(r rune) bool { return r == '/' || r == ' ' }); n > most || n < 0 && utf8.RuneCountInString(t.text) > most {
		p.fail("number", t, problem.Quote(t.text)+" has too many digits", "a number of at most 20 digits", "")
		return true
	}
	return false
}

// size reads W x H, and the place of W.
func (p *lineParser) size() (card.Size, problem.Place) {
	w, where := p.measureIn(true)
	p.by()
	return card.Size{W: w.Length, H: p.length()}, where
}

// by passes over the x between width and height.
func (p *lineParser) by() {
	if p.failed || p.acceptSign("x") {
		return
	}
	t := p.tok
	try := ""
	switch {
	case t.kind == sign && t.text == ",":
		if try = p.inPlaceOf(t, " x"); p.r.mended(try) == "" {
			p.noDecimalComma()
		}
	case t.kind == number:
		try = p.inPlaceOf(t, "x "+t.text)
	case t.kind == word || t.kind == sign:
		try = p.inPlaceOf(t, "x")
	}
	p.wanted(`"x" and the second side`, try)
}

// point reads (x, y).
func (p *lineParser) point() plane.Point {
	p.expectSign("(")
	x, _ := p.measureIn(true)
	comma, decimal := p.tok, p.atGluedComma()
	p.expectSign(",")
	y, _ := p.measureIn(true)
	if decimal && !p.failed && p.tok.text == "," { // a third number: the first comma was no comma between two
		p.decimalComma(comma, p.inPlaceOf(comma, "."))
	}
	p.noDecimalComma()
	p.expectSign(")")
	return plane.Point{X: x.Length, Y: y.Length}
}

// points reads one point after the other.
func (p *lineParser) points() []plane.Point {
	out := []plane.Point{p.point()}
	for !p.failed && p.tok.kind == sign && p.tok.text == "(" {
		if !p.room(len(out), "corners") {
			break
		}
		out = append(out, p.point())
	}
	return out
}

// room reports a list that is longer than any card needs.
func (p *lineParser) room(n int, what string) bool {
	const most = card.MaxScores
	if n < most {
		return true
	}
	p.fail("too-many", p.tok, fmt.Sprintf("there are more than %d %s in this line", most, what), fmt.Sprintf("at most %d %s", most, what), "")
	return false
}

// whole reads a whole number that counts something.
func (p *lineParser) whole(what string) (int, token) {
	t := p.tok
	if p.failed || t.kind != number {
		p.wanted(what, "")
		return 0, t
	}
	p.advance()
	n, err := strconv.Atoi(t.text)
	if err != nil || len(t.text) > 6 {
		p.fail("number", t, problem.Quote(t.text)+" is not "+what, "a whole number", "")
		return 0, t
	}
	return n, t
}

// numbers reads score numbers: 3, 8.
func (p *lineParser) numbers() (numbers []int, places []problem.Place) {
	for p.room(len(numbers), "scores") {
		n, t := p.whole("the number of a score")
		numbers, places = append(numbers, n), append(places, p.place(t))
		if !p.another(number) {
			break
		}
	}
	return numbers, places
}

// decimal reads a measured value: 10 or 10.5, a minus before it.
func (p *lineParser) decimal(what string) (float64, problem.Place) {
	first, minus := p.tok, ""
	if p.acceptSign("-") {
		minus = "-"
	}
	if p.failed || p.tok.kind != number {
		p.wanted(what, "")
		return 0, problem.Place{}
	}
	t := p.advance()
	p.noDecimalComma()
	if p.failed || p.tooManyDigits(t) {
		return 0, problem.Place{}
	}
	f, err := strconv.ParseFloat(minus+t.text, 64)
	if err != nil {
		p.fail("number", t, problem.Quote(t.text)+" is not "+what, "a number such as 10 or 10.5", "")
		return 0, problem.Place{}
	}
	return f, p.place(first)
}

// degrees reads an angle; the word deg or the sign ° may stand behind it, and must where strict.
func (p *lineParser) degrees(strict bool) (float64, problem.Place) {
	f, where := p.decimal("an angle in degrees")
	if p.acceptSign("°") || p.accept("deg") {
		return f, where
	}
	if strict {
		p.expect("deg")
	}
	return f, where
}

// milliNewtonMetre reads a bending stiffness per width: 4.1 mN.m.
func (p *lineParser) milliNewtonMetre() (float64, problem.Place) {
	f, where := p.decimal("a stiffness in mN.m")
	p.expect("mN.m", "mN·m", "mN⋅m")
	return f, where
}

// newtonPerRad reads a crease's stiffness: 0.2 N/rad.
func (p *lineParser) newtonPerRad() (float64, problem.Place) {
	f, where := p.decimal("a stiffness in N/rad")
	p.expect("N")
	p.expectSign("/")
	p.expect("rad")
	return f, where
}
