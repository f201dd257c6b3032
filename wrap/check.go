package wrap

import (
	"foldwright/length"
	"foldwright/problem"
)

// Limits of what paper can be folded round. Common practice, no source.
func least(u length.Unit) length.Length {
	if u == length.IN {
		return 3 * length.Inch / 4
	}
	return 20 * length.Millimetre
}

// check judges the job before anything is computed.
func (j Job) check() problem.List {
	var l problem.List
	add := func(rule, what, needs, try string) {
		l.Add(problem.Problem{Rule: rule, What: what, Needs: needs, Try: try})
	}
	small, most := least(j.Unit), j.mostMarks()
	for _, side := range [...]struct {
		name string
		l    length.Length
	}{{"wide", j.Size.W}, {"high", j.Size.H}} {
		switch {
		case side.l < small:
			add("wrap-size", "the closed card is "+side.l.Both(j.Unit)+" "+side.name, "at least "+small.Both(j.Unit)+", for flaps that can be folded and glued", "")
		case side.l > length.Max:
			add("wrap-size", "the closed card is "+side.l.Both(j.Unit)+" "+side.name, "at most "+length.Length(length.Max).Both(j.Unit), "")
		}
	}
	if j.Marks < 0 || j.Marks > most {
		add("wrap-marks", "the marks are "+j.Marks.Both(j.Unit)+" apart", "above 0 and at most "+most.Both(j.Unit), "")
	}
	if j.Room < 0 || j.Room > length.Max || j.Padding < 0 || j.Padding > length.Max {
		add("wrap-marks", "the room is "+j.Room.Both(j.Unit)+" and the padding "+j.Padding.Both(j.Unit),
			"neither below 0 nor above "+length.Length(length.Max).Both(j.Unit), "")
	}
	if l.HasErrors() {
		return l
	}
	return j.checkThick()
}

// mostMarks is the widest pitch on which flaps, tabs and tongues can be laid out.
func (j Job) mostMarks() length.Length {
	if j.Unit == length.IN {
		return length.Inch / 4
	}
	return 5 * length.Millimetre
}

// checkThick judges the thickness by what the kind can take.
func (j Job) checkThick() problem.List {
	most, _ := j.MostThick()
	if j.Thick > 0 && j.thick() <= most {
		return nil
	}
	p := problem.Problem{Rule: "wrap-thick", What: "the card is " + j.Thick.Both(j.Unit) + " thick"}
	if j.Padding > 0 {
		p.What += ", and " + j.thick().Both(j.Unit) + " with its padding"
	}
	switch {
	case j.Thick <= 0:
		p.Needs = "the thickness of the closed card, above 0"
	case j.Kind == Plain:
		p.Needs = "at most " + most.Both(j.Unit) + " for a plain envelope, which bulges and tears at its folds beyond that"
		p.Try = "a box instead, whose walls are as deep as the card is thick"
	default:
		p.Needs = "at most " + most.Both(j.Unit) + ", half the narrower side of the card: a deeper box is no longer an envelope, and its lids meet"
	}
	return problem.List{p}
}

// MostThick returns how thick a card, padding counted, this kind can take, and whether a box would take more.
// A plain envelope takes the usual room (common practice, no source); a box takes half the narrower side of the card.
func (j Job) MostThick() (most length.Length, boxTakesMore bool) {
	_, room := Usual(j.Unit)
	half := min(j.Size.W, j.Size.H) / 2
	if j.Kind == Box {
		return half, false
	}
	return min(room, half), half > room
}
