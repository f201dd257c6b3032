package spring

import (
	"math"

	"foldwright/card"
)

// Quantity is one number of a stock with its range.
type Quantity struct {
	Range
	// Measured says that the recipe gives it: then it wins, and its range is the number itself.
	Measured bool
	// Source says in words where it comes from.
	Source string
}

// Mechanics is what a stock does when it is bent and folded.
type Mechanics struct {
	// Along and Across are the bending stiffness per width in mN·m, of bending along the grain (the fibres are bent) and
	// across it.
	Along, Across Quantity
	// Crease is the stiffness of a crease per length in N/rad.
	Crease Quantity
	// Rest and Scored are the fold angles in radians that a fold remembers which is shut in the closed card, and a score
	// which is not.
	Rest, Scored Quantity
}

// Mechanics returns what is known of a stock: what its line of the recipe says, and for the rest what is assumed for its
// caliper. A stiffness that was measured counts along and across the grain: the strip of the bench test is cut in the
// direction in which the pieces bend.
//
// Range: the stock of a card that was read (package recipe): its numbers are above 0 there. A stock that is nil has the
// mechanics of 0.3 mm card.
//
// Method: bending stiffness is that of a plate ([PlateStiffness]); crease stiffness is the stiffness across the grain over
// a number of calipers (the length over which a panel is as soft as its crease), since most folds run with the grain. The
// ends of the ranges combine the ends of what goes in, so they are wide.
func (a *Assumptions) Mechanics(s *card.Stock) Mechanics {
	caliper := 0.3
	if s == nil {
		s = &card.Stock{}
	} else {
		caliper = s.Caliper.MM()
	}
	bend := func(row string) Quantity {
		if s.StiffnessMilliNm.Given {
			return said(s.StiffnessMilliNm.Value, 1)
		}
		q := a.rows[row]
		of := func(modulus float64) float64 { return PlateStiffness(modulus, caliper) }
		return Quantity{Range: Range{of(q.Low), of(q.Typical), of(q.High)}, Source: q.words("modulus of elasticity, " + row)}
	}
	angle := func(n card.Number, row string) Quantity {
		if n.Given {
			return said(n.Value, math.Pi/180)
		}
		q := a.rows[row]
		return Quantity{Range: q.Range.times(math.Pi / 180), Source: q.words("fold angle, " + row)}
	}
	m := Mechanics{Along: bend("modulus-along"), Across: bend("modulus-across"), Rest: angle(s.RestDeg, "rest"), Scored: angle(s.ScoredDeg, "scored")}
	if s.CreaseNPerRad.Given {
		m.Crease = said(s.CreaseNPerRad.Value, 1)
		return m
	}
	l := a.rows["crease-length"]
	m.Crease = Quantity{Source: l.words("crease-length") + "; " + m.Across.Source, Range: Range{
		Low: m.Across.Low / (l.High * caliper), Typical: m.Across.Typical / (l.Typical * caliper), High: m.Across.High / (l.Low * caliper),
	}}
	return m
}

// said is a number that the recipe gives, in units that are times what is wanted.
func said(v, times float64) Quantity {
	v *= times
	return Quantity{Range: Range{v, v, v}, Measured: true, Source: "said in the recipe"}
}

func (r Range) times(k float64) Range { return Range{r.Low * k, r.Typical * k, r.High * k} }

// words says where an assumed number comes from.
func (a Assumed) words(what string) string {
	s := what + ": " + a.Status
	if a.Source != "" && a.Source != "none" {
		s += ", " + a.Source
	}
	return s
}
