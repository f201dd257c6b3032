package card

import (
	"foldwright/length"
	"foldwright/problem"
)

// MinGrammage and MaxGrammage, in g/m², bound what paper and card can be: from tissue of 12 g/m² to board of 2000 g/m².
// The widest tables of card stock known to the writers run from 42 to 400 g/m² and 0.06 to 0.55 mm; the margin is for
// board and for several sheets glued together.
const (
	MinGrammage = 10.0
	MaxGrammage = 2000.0
)

const (
	minCaliper = 10 * length.Micrometre
	maxCaliper = 5 * length.Millimetre
)

func (k *checker) checkStocks() {
	for i := range k.card.Stocks {
		s := &k.card.Stocks[i]
		if first, ok := k.stocks[s.Name]; ok {
			k.addNote("duplicate-name", s.Where, "there is a stock "+problem.Quote(s.Name)+" already", "a name of its own for each stock", "",
				problem.Note{Where: first.Where, What: "the first one is here"})
		} else {
			k.stocks[s.Name] = s
			k.stockNames = append(k.stockNames, s.Name)
		}
		k.checkName(s.Name, s.Where)
		k.checkText(s.Label, s.Where, "label")
		k.checkStock(s)
	}
}

func (k *checker) checkStock(s *Stock) {
	if !(s.Grammage >= MinGrammage && s.Grammage <= MaxGrammage) { // so written that NaN is outside
		k.add("stock-range", s.GrammageWhere, "stock "+s.Name+" has "+number(s.Grammage)+" gsm",
			"from "+number(MinGrammage)+" to "+number(MaxGrammage)+" gsm", "")
	}
	if s.Caliper < minCaliper || s.Caliper > maxCaliper {
		k.add("stock-range", s.CaliperWhere, "one sheet of stock "+s.Name+" is "+s.Caliper.Both(length.MM)+" thick",
			"from "+Bare(minCaliper, length.MM)+" to "+Bare(maxCaliper, length.MM)+" mm", "")
	}
	k.checkStiffness(s.StiffnessMilliNm, "mN.m")
	k.checkStiffness(s.CreaseNPerRad, "N/rad")
	if s.RestDeg.Given {
		k.checkFoldAngle(s.RestDeg.Value, s.RestDeg.Where)
	}
	if s.ScoredDeg.Given {
		k.checkFoldAngle(s.ScoredDeg.Value, s.ScoredDeg.Where)
	}
}

func (k *checker) checkStiffness(n Number, unit string) {
	const most = 1e6 // far beyond steel sheet; keeps later arithmetic finite
	if n.Given && !(n.Value > 0 && n.Value <= most) {
		k.add("stiffness-range", n.Where, "a stiffness of "+number(n.Value)+" "+unit, "a stiffness above 0", "")
	}
}

func (k *checker) checkFoldAngle(deg float64, where problem.Place) {
	if !(deg >= 0 && deg <= 180) {
		k.add("fold-angle", where, "a fold angle of "+number(deg)+" deg", "from 0 deg (flat) to 180 deg (folded shut)", "")
	}
}

// checkName judges the form of a name: a reader refuses others, so this is for cards that a program made.
func (k *checker) checkName(name string, where problem.Place) {
	if !IsName(name) {
		k.add("name-form", where, problem.Quote(name)+" cannot be a name", "a letter, then letters, digits, - or _, at most 40 characters", "")
	}
}

// checkReserved reports a name that a keep line uses for something else.
func (k *checker) checkReserved(name string, where problem.Place, reserved ...string) {
	for _, r := range reserved {
		if name == r {
			k.add("reserved-name", where, problem.Quote(name)+" has a meaning of its own in keep lines", "another name", name+"-1")
		}
	}
}

// findStock reports a stock that does not exist.
func (k *checker) findStock(name string, where problem.Place) {
	if _, ok := k.stocks[name]; ok || k.gap("", "stock") {
		return
	}
	k.unknown("unknown-stock", "stock", name, name, where, k.stockNames, func(s string) string { return s })
}

// unknown reports a name that was not given, with the one that may be meant or the ones that there are. shown is the
// name as the message quotes it; as makes the text to write of the name that is meant.
func (k *checker) unknown(rule, kind, name, shown string, where problem.Place, names []string, as func(string) string) {
	what := "there is no " + kind + " " + problem.Quote(shown)
	needs := "a line that gives the " + kind
	if len(names) > 0 {
		needs = "one of " + list(names)
	}
	if meant, ok := problem.Suggest(name, names); ok {
		k.add(rule, where, what+"; did you mean "+problem.Quote(as(meant))+"?", needs, as(meant))
		return
	}
	k.add(rule, where, what, needs, "")
}
