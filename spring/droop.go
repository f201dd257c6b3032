package spring

import (
	"fmt"
	"math"

	"foldwright/length"
	"foldwright/problem"
)

// gravity is the standard acceleration of free fall in m/s² (ISO 80000-3; exact by definition).
const gravity = 9.80665

// DroopTest is what was read of a strip that juts out over the edge of a table and bends under its own weight. The strip
// is cut along the direction in which it is to bend; its width does not matter, 20 to 40 mm is handy.
type DroopTest struct {
	// Overhang is the length of the strip beyond the edge, OverhangError one standard deviation of it.
	Overhang, OverhangError length.Length
	// Drops are how far the tip lies below the level of the table: once with either face up, for a sheet that is not quite
	// flat, and as often as one likes. DropError is one standard deviation of one reading.
	Drops     []length.Length
	DropError length.Length
	// Grammage is in g/m²; GrammageShare is one standard deviation as a share of it.
	Grammage, GrammageShare float64
}

// Errors of reading that are assumed where a person does not know better, one standard
// deviation: assumed, from what a steel rule and an eye can do.
const (
	ReadOverhang = length.Millimetre / 2
	ReadDrop     = length.Millimetre
	ReadFlap     = length.Millimetre / 2
	ReadGap      = length.Millimetre
	ReadGrammage = 0.03 // share; makers allow themselves about 4 to 5 % from the nominal grammage (from memory)
	ReadMass     = 0.02 // share; worn coins (assumed)
)

// Droop is the outcome of a droop test.
type Droop struct {
	// Stiffness is the bending stiffness per width in mN·m.
	Stiffness Measured
	// Length is the bending length (B/w)^(1/3) in millimetres, the length at which weight and stiffness are alike.
	Length Measured
	// Classic is the stiffness by Peirce's formula in mN·m, for comparison: too large where the strip hangs far.
	Classic float64
	// Chord is the angle of the line from the edge to the tip below the horizontal, in radians.
	Chord float64
}

// The share of the overhang by which the tip may drop for a reading that says something: below, the error of reading is
// too large a share of it; above, the strip hangs straight whatever its stiffness.
const (
	leastDrop = 0.02
	mostDrop  = 0.90
)

// Stiffness works out the bending stiffness from a droop test; errors of reading that are nought count as exact.
//
// Problems: bench-reading for lengths or a grammage out of range, bench-drop where the tip hangs too little or too far.
func (d DroopTest) Stiffness() (Droop, problem.List) {
	if p := d.check(); len(p) > 0 {
		return Droop{}, p
	}
	drops := make([]float64, len(d.Drops))
	for i, v := range d.Drops {
		drops[i] = v.MM()
	}
	readings := []reading{
		{d.Overhang.MM(), d.OverhangError.MM()}, mean(drops, d.DropError.MM()),
		{d.Grammage, d.Grammage * d.GrammageShare},
	}
	out := propagate(func(x []float64) []float64 {
		// mm, and g/m² times m/s² is mN/m²: so w L³ comes in mN·m once L is in metres.
		c := SagWhere(func(c Curve) float64 { return c.Drop }, min(x[1]/x[0], mostDrop+0.05))
		b := x[2] * gravity * math.Pow(x[0]/1000, 3) / c.Load
		return []float64{b, x[0] / math.Cbrt(c.Load), c.Chord}
	}, readings)
	chord := out[2].Value
	classic := readings[2].value * gravity * math.Pow(readings[0].value/1000*Peirce(chord), 3)
	return Droop{Stiffness: out[0], Length: out[1], Classic: classic, Chord: chord}, nil
}

func (d DroopTest) check() problem.List {
	var list problem.List
	reads := func(ok bool, what, needs string) {
		if !ok {
			list.Add(problem.Problem{Rule: "bench-reading", What: what, Needs: needs})
		}
	}
	reads(d.Overhang >= 20*length.Millimetre && d.Overhang <= length.Max,
		"the strip juts out by "+d.Overhang.Human(length.MM), "from 20 mm to 2000 mm beyond the edge of the table")
	reads(d.OverhangError >= 0 && d.DropError >= 0 && d.GrammageShare >= 0 && d.GrammageShare < 0.5,
		"an error of reading is below nought, or half of the grammage or more", "errors of 0 or more")
	reads(d.Grammage > 0 && d.Grammage <= 5000, fmt.Sprintf("the grammage is %g gsm", d.Grammage), "above 0 and at most 5000 gsm")
	reads(len(d.Drops) > 0, "no drop was read", "how far the tip lies below the table, best once with either face up")
	if len(list) > 0 {
		return list
	}
	sum := 0.0
	for _, v := range d.Drops {
		sum += v.MM()
	}
	share := sum / float64(len(d.Drops)) / d.Overhang.MM()
	advice := problem.Problem{Rule: "bench-drop", Needs: "a drop of 5 to 70 % of the length that juts out"}
	switch {
	case !(share >= leastDrop):
		advice.What = fmt.Sprintf("the tip drops by %.1f %% of the length that juts out, too little to be read well", 100*share)
		advice.Try = "let more of the strip jut out"
		list.Add(advice)
	case share > mostDrop:
		advice.What = fmt.Sprintf("the tip drops by %.1f %% of the length that juts out: the strip hangs straight down, whatever its stiffness", 100*share)
		advice.Try = "let less of the strip jut out"
		list.Add(advice)
	}
	return list
}

// GoodOverhang returns how far a strip should jut out to be read best: where it sags by a little more than a third of its
// length. stiffness is what is expected, in mN·m; grammage in g/m². The result is on whole centimetres.
// Range: both above 0.
func GoodOverhang(grammage, stiffness float64) length.Length {
	const ratio = 1.5 // length over bending length: the tip drops by 0.374 of the length, see testdata/check/droop_length.csv
	c := math.Cbrt(stiffness / (grammage * gravity))
	cm := math.Round(ratio * c * 100)
	return length.FromMM(10 * min(max(cm, 4), 100))
}
