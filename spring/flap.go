package spring

import (
	"fmt"
	"math"

	"foldwright/length"
	"foldwright/problem"
)

// FlapTest is what was read of a strip that is scored in the middle and folded as the card's folds are. One half lies on
// the table, held down; the other stands up by itself, and is read twice: alone, and with a known weight on it.
//
//	  /|         gap: from free edge to free edge, in a straight line
//	 / | gap     flap: length of each half, from the fold to its free edge
//	/__|         arm: from the fold to the middle of the weight
type FlapTest struct {
	// Flap is the length of each half from the fold, Width that of the strip along the fold.
	Flap, Width, FlapError length.Length
	// Alone and Loaded are the gaps between the two free edges, without and with the weight; GapError is one standard
	// deviation of either.
	Alone, Loaded, GapError length.Length
	// Mass is that of the weight in grams, MassShare one standard deviation as a share of it. Coins of one kind differ among
	// themselves, and worn ones weigh less than new ones.
	Mass, MassShare float64
	// Arm is the distance of the weight's middle from the fold.
	Arm, ArmError length.Length
	// Grammage is in g/m², GrammageShare as in [DroopTest].
	Grammage, GrammageShare float64
}

// Flap is the outcome of a flap test.
type Flap struct {
	// Stiffness is the torque per length and angle, in N/rad (N·m per metre of crease and radian).
	Stiffness Measured
	// Rest is the fold angle that the crease remembers, in radians: 0 a flat sheet, π folded shut.
	Rest Measured
}

// Crease works out stiffness and remembered angle of a fold from a flap test.
//
// Method: the torque of the crease holds the flap up, κ w (φ₀ - φ) = T cos φ, with T the weight of the flap at half its
// length and of the load at its arm and φ the angle between the halves; two readings give κ and φ₀. It takes the crease for
// linear between the two readings; creases of paper are so only roughly (Grey, Scarpa and Schenk 2020, Mech. Res. Commun.
// 103540), so choose a weight that bends the fold about as far as the card will.
//
// Problems: bench-reading for readings out of range, bench-flap where the weight does not press the flap down.
func (f FlapTest) Crease() (Flap, problem.List) {
	if p := f.check(); len(p) > 0 {
		return Flap{}, p
	}
	mm := func(l length.Length) float64 { return l.MM() }
	out := propagate(flapMoments, []reading{
		{mm(f.Flap), mm(f.FlapError)}, {mm(f.Width), mm(f.FlapError)}, {mm(f.Alone), mm(f.GapError)}, {mm(f.Loaded), mm(f.GapError)},
		{f.Mass, f.Mass * f.MassShare}, {mm(f.Arm), mm(f.ArmError)}, {f.Grammage, f.Grammage * f.GrammageShare},
	})
	if !(out[0].Value > 0) || !(out[1].Value >= 0) || math.IsInf(out[0].Value, 0) {
		return Flap{}, problem.List{{Rule: "bench-flap",
			What:  "no springy fold stands so: the two readings do not agree with one stiffness above 0 and one fold angle",
			Needs: "a gap that the weight makes smaller, with both readings below a right angle between the halves",
			Try:   "a heavier weight, or one further out"}}
	}
	return Flap{Stiffness: out[0], Rest: out[1]}, nil
}

// flapMoments returns κ in N/rad and the remembered fold angle from flap, width, gap alone, gap loaded (mm), mass (g), arm
// (mm) and grammage (g/m²).
func flapMoments(x []float64) []float64 {
	flap, width, arm := x[0]/1000, x[1]/1000, x[5]/1000
	angle := func(gap float64) float64 { return 2 * math.Asin(min(max(gap/(2*x[0]), 0), 1)) }
	p1, p2 := angle(x[2]), angle(x[3])
	t1 := x[6] / 1000 * flap * width * gravity * flap / 2
	t2 := t1 + x[4]/1000*gravity*arm
	k := (t2*math.Cos(p2) - t1*math.Cos(p1)) / (p1 - p2)
	return []float64{k / width, math.Pi - (p1 + t1*math.Cos(p1)/k)}
}

func (f FlapTest) check() problem.List {
	var list problem.List
	reads := func(ok bool, what, needs string) {
		if !ok {
			list.Add(problem.Problem{Rule: "bench-reading", What: what, Needs: needs})
		}
	}
	mm := length.Millimetre
	reads(f.Flap >= 5*mm && f.Flap <= length.Max, "the flap is "+f.Flap.Human(length.MM)+" long", "from 5 mm to 2000 mm from the fold to the free edge")
	reads(f.Width >= 5*mm && f.Width <= length.Max, "the strip is "+f.Width.Human(length.MM)+" wide along the fold", "from 5 mm to 2000 mm")
	reads(f.Mass > 0 && f.Mass <= 1e4, fmt.Sprintf("the weight is %g g", f.Mass), "above 0 and at most 10000 g")
	reads(f.Arm > 0 && f.Arm <= f.Flap, "the weight lies "+f.Arm.Human(length.MM)+" from the fold", "on the flap, which is "+f.Flap.Human(length.MM)+" long")
	reads(f.Grammage > 0 && f.Grammage <= 5000, fmt.Sprintf("the grammage is %g gsm", f.Grammage), "above 0 and at most 5000 gsm")
	reads(f.FlapError >= 0 && f.GapError >= 0 && f.ArmError >= 0 && f.MassShare >= 0 && f.GrammageShare >= 0, "an error of reading is below nought", "errors of 0 or more")
	reads(f.Loaded > 0 && f.Alone <= 2*f.Flap, "the gaps are "+f.Alone.Human(length.MM)+" and, with the weight, "+f.Loaded.Human(length.MM),
		"gaps above 0 and at most twice the flap, "+(2*f.Flap).Human(length.MM))
	if len(list) == 0 && f.Loaded >= f.Alone {
		list.Add(problem.Problem{Rule: "bench-flap",
			What:  "the gap is " + f.Alone.Human(length.MM) + " without the weight and " + f.Loaded.Human(length.MM) + " with it",
			Needs: "a smaller gap with the weight than without", Try: "a heavier weight, or one further out"})
	}
	return list
}
