package cutlist

import (
	"fmt"
	"math/big"
	"strings"

	"foldwright/length"
)

// saidUnit is a unit and the item where it was said.
type saidUnit struct {
	at   int
	unit length.Unit
}

// habit is how a text writes its measurements.
type habit struct {
	said   []saidUnit // of the measurements of pieces, in order
	only   bool       // one unit is said, or none
	guess  length.Unit
	why    string // why that guess; "" where a unit is said
	commas bool   // some number can only have a decimal comma
	points bool   // some number has a decimal point
	told   bool   // the guess was told of
}

// saidIn returns the unit that is said in a size.
func (p *parser) saidIn(s size) (length.Unit, bool) {
	for _, i := range []int{s.b, s.a} {
		if n := p.items[i].num; n.said {
			return n.unit, true
		}
	}
	return 0, false
}

// numbers returns the items of all numbers of a draft, the size first.
func (d *draft) numbers() []int {
	out := []int{d.size.a, d.size.b}
	for _, g := range d.groups {
		out = append(append(out, g.list...), g.ends...)
		for _, i := range []int{g.step, g.lo, g.hi} {
			if i > 0 {
				out = append(out, i)
			}
		}
		if g.dir.kind == namedSide {
			out = append(out, g.dir.side)
		}
	}
	return out
}

// findHabit looks at all measurements of all pieces.
func (p *parser) findHabit() *habit {
	h := &habit{only: true}
	var numerals []*numeral
	add := func(at int, u length.Unit) {
		if len(h.said) > 0 && h.said[0].unit != u {
			h.only = false
		}
		h.said = append(h.said, saidUnit{at, u})
	}
	for _, d := range p.drafts {
		for _, u := range []*length.Unit{d.sizeUnit, d.scoreUnit} {
			if u != nil {
				add(d.size.a, *u)
			}
		}
		for _, i := range d.numbers() {
			n := p.items[i].num
			numerals = append(numerals, n)
			if n.said {
				add(i, n.unit)
			}
			h.points = h.points || strings.Contains(n.text, ".")
		}
		h.commas = h.commas || len(p.items[d.size.a].num.run) == 2 || len(p.items[d.size.b].num.run) == 2
	}
	if len(h.said) == 0 {
		h.guess, h.why = guess(numerals, h.commas)
	}
	return h
}

// guess says which unit numbers without one are in: fractions are inches, large numbers are millimetres, decimals other
// than eighths are centimetres.
func guess(numerals []*numeral, commas bool) (length.Unit, string) {
	most := new(big.Rat)
	frac, eighths, halves := false, true, true
	for _, n := range numerals {
		frac = frac || n.frac
		text := n.decimal()
		if len(text) > 20 {
			continue
		}
		if r, ok := new(big.Rat).SetString(text); ok {
			if r.Cmp(most) > 0 {
				most = r
			}
			if !new(big.Rat).Mul(r, big.NewRat(8, 1)).IsInt() {
				eighths = false
			}
			if !new(big.Rat).Mul(r, big.NewRat(2, 1)).IsInt() {
				halves = false
			}
		}
	}
	large, _ := most.Float64()
	switch {
	case frac:
		return length.IN, "it has fractions"
	case large > 45:
		return length.MM, fmt.Sprintf("its largest number is %v", large)
	case commas:
		return length.CM, "it has decimal commas and small numbers"
	case !eighths:
		return length.CM, "it has small numbers with decimals that are no eighths"
	case !halves:
		return length.IN, "its decimals are quarters and eighths"
	case large > 13:
		return length.CM, fmt.Sprintf("its largest number is %v", large)
	}
	return length.IN, fmt.Sprintf("its largest number is %v", large)
}

// standard returns the unit of a number at item k for which none is said near it, and whether that is a guess.
func (p *parser) standard(h *habit, k int) (u length.Unit, guessed bool) {
	if n := len(p.declared); n > 0 {
		for i := n - 1; i >= 0; i-- {
			if p.declared[i].at <= k {
				return p.declared[i].unit, false
			}
		}
		return p.declared[0].unit, false
	}
	if len(h.said) == 0 {
		return h.guess, true
	}
	u = h.said[0].unit
	for _, s := range h.said {
		if s.at > k {
			break
		}
		u = s.unit
	}
	return u, !h.only
}

// unitName returns the unit in full: "in" in a sentence reads as another word.
func unitName(u length.Unit) string {
	return [...]string{"millimetres", "centimetres", "inches"}[u]
}

// tellGuess warns that a unit was not said: once where the text says none at all.
func (p *parser) tellGuess(h *habit, k int, u length.Unit) {
	if h.why != "" {
		if !h.told {
			h.told = true
			p.warn("unit-guessed", k, "the text says no unit; it is read in "+unitName(u)+" because "+h.why, "a line such as: all sizes in "+unitName(u))
		}
		return
	}
	p.warn("unit-guessed", k, "no unit is said here, and the text has several; it is read in "+unitName(u), "the unit behind the number")
}

// sizeUnit returns the unit of a draft's size where it is not said in it.
func (p *parser) sizeUnit(h *habit, d *draft) length.Unit {
	if u, ok := p.saidIn(d.size); ok {
		return u
	}
	if d.sizeUnit != nil {
		return *d.sizeUnit
	}
	if p.inFractions(h, d) {
		p.tellGuess(h, d.size.a, length.IN)
		return length.IN
	}
	u, guessed := p.standard(h, d.size.a)
	if guessed && h.why == "" {
		for _, i := range d.numbers() {
			if n := p.items[i].num; n.said {
				return n.unit
			}
		}
	}
	if guessed {
		p.tellGuess(h, d.size.a, u)
	}
	return u
}

// inFractions says whether a draft is in inches because it has fractions, and no unit is said in it or for all the text,
// though the text has metric units elsewhere. Where it has no inches, halves are metric like the rest: makers write 9½ cm,
// and eighths and sixteenths only of an inch (common practice, no source).
func (p *parser) inFractions(h *habit, d *draft) bool {
	if len(p.declared) > 0 || len(h.said) == 0 || h.only && h.said[0].unit == length.IN {
		return false
	}
	fractions := false
	for _, i := range d.numbers() {
		n := p.items[i].num
		if n.said {
			return false
		}
		fractions = fractions || n.frac && (!h.only || n.fine())
	}
	return fractions
}

// fine says whether a number has a fraction other than a half.
func (n *numeral) fine() bool { return n.frac && !strings.HasSuffix(n.text, "1/2") }
