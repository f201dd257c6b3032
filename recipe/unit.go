package recipe

import (
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// unit reads the unit behind a number; without one the card's unit is meant, and said is false.
func (p *lineParser) unit(num token) (unit length.Unit, said bool) {
	t := p.tok
	if t.kind == sign && t.text == "-" && t.glued && strings.Contains(p.sc.line[t.end:min(t.end+4, len(p.sc.line))], "/") {
		p.fail("number", t, "a minus stands between a whole number and a fraction", "a space between them: 10 1/2", p.inPlaceOf(t, " "))
	}
	if t.kind != word {
		return p.r.unit, false
	}
	if u, ok := unitOf(t.text); ok {
		p.advance()
		return u, true
	}
	if meant := commonUnit(t.text); meant != "" {
		p.fail("unit", t, problem.Quote(t.text)+" is not a unit of a recipe", "mm, cm, in or \"", p.inPlaceOf(t, meant))
	} else if t.glued {
		p.fail("unit", t, problem.Quote(t.text)+" stands right behind a number and is not a unit", "mm, cm, in or \"; or a space before the next word", "")
	}
	return p.r.unit, false
}

func unitOf(s string) (length.Unit, bool) {
	switch s {
	case "mm":
		return length.MM, true
	case "cm":
		return length.CM, true
	case "in":
		return length.IN, true
	}
	return 0, false
}

// commonUnit returns the unit that a word stands for which people write and recipes do not, or strike instead of it: the
// neighbours of its letters on the keys. Units in which
// paper is measured as well, such as um, are left out.
func commonUnit(s string) string {
	switch strings.ToLower(s) {
	case "in", "inch", "inches", "ins", "in.", "inn", "iin", "ni", "un", "ib":
		return "in"
	case "mm", "millimetre", "millimetres", "millimeter", "millimeters", "mms", "mm.", "mmm", "mn", "nm", "nn":
		return "mm"
	case "cm", "centimetre", "centimetres", "centimeter", "centimeters", "cms", "cm.", "cmm", "ccm", "cn", "xm", "vm", "mc":
		return "cm"
	}
	return ""
}

// sawBare remembers the first measurement without a unit; 0 is the same in every one.
func (r *reader) sawBare(at problem.Place, text string) {
	if r.bare.Where.Line == 0 {
		r.bare = problem.Problem{Rule: "no-units", Severity: problem.Warning, Where: at,
			What:  text + " has no unit, and no units line says which one is meant: it is read in mm",
			Needs: "a line above all measurements that says it: units mm, units cm or units in", Try: "units mm"}
	}
}

// noUnits returns the warning for a text whose numbers have no unit and that does not say which one is meant.
func (r *reader) noUnits() problem.List {
	if r.bare.Where.Line == 0 || r.card.count["units"] > 0 || r.gaps[card.Gap{Word: "units"}] {
		return nil
	}
	return problem.List{r.bare}
}
