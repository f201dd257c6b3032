package trim

import "foldwright/length"

// CutKind says what happens to the piece in hand.
type CutKind uint8

// A piece in hand is waste or an off-cut, is a part as it is, or is cut in two from edge to edge.
const (
	Rest   CutKind = iota
	IsPart         // the piece has exactly the size of the part
	AtX            // an upright cut, At from the left edge: First is left of it, Second right
	AtY            // a level cut, At from the lower edge: First is below it, Second above
)

// Cut is what happens to one piece in hand; with First and Second it is the tree of all cuts of a sheet. The zero Cut is
// a rest.
type Cut struct {
	Kind          CutKind
	At            length.Length
	First, Second *Cut
	// Part is the number of the part in the job, from 0, and Turned whether it lies turned by 90 degrees.
	Part   int
	Turned bool
}

// Layout is one way to cut up a sheet, and how many sheets are cut up that way.
type Layout struct {
	// Sheet is the number of the sheet in the job, from 0.
	Sheet int
	Times int
	Root  *Cut
}

// Plan is a whole cutting plan.
type Plan struct {
	Layouts []Layout
}

// Status says how much is known of a plan.
type Status uint8

const (
	// Optimal: no plan is better, and that is proven.
	Optimal Status = iota
	// Feasible: the plan is right and the search has done what it does; Bound says how much better another could be.
	Feasible
	// Stopped: the caller ended the search; the plan is the best so far.
	Stopped
)

// String returns "optimal", "feasible" or "stopped".
func (s Status) String() string {
	switch s {
	case Optimal:
		return "optimal"
	case Feasible:
		return "feasible"
	}
	return "stopped"
}

// Result is a plan with what is known of it.
type Result struct {
	Plan   Plan
	Status Status
	// Value is what was sought: the price of the sheets ([Cheapest], to be small) or the value of the parts
	// ([MostValue], to be large).
	Value int64
	// Bound is what no plan can beat.
	Bound int64
}
