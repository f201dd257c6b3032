package fold

import (
	"context"
	"slices"

	"foldwright/card"
)

// Pose is the card at one moment of its opening.
type Pose struct {
	// Angles holds the fold angle of every hinge in radians.
	Angles []float64
	// Panels holds the frame of every panel; the card stands as Opening says.
	Panels []Frame
	// LoopError is the largest distance in millimetres by which a loop fails to meet itself.
	LoopError float64
	// Drive is how far the driver has gone: the angle in radians between the panels of the score that the card opens at, or
	// the distance in millimetres between the two panels that part.
	Drive float64
}

// Outcome says how far a card opens.
type Outcome uint8

const (
	// Opens: the path leads from the closed card to the open one.
	Opens Outcome = iota
	// Locks: the card cannot be opened at all, or only a part of the way; see Opening.Poses.
	Locks
	// Stopped: the context ended the search.
	Stopped
)

// Opening is the way from closed to open.
type Opening struct {
	Outcome Outcome
	// Poses leads from the closed card (first) to the open one (last).
	Poses []Pose
	// Freedom is the number of independent ways in which the open card can move: 0 locked, 1 one way, more loose.
	Freedom int
	// Driver says what drives the path; Panels are the two panels that part, or that the score joins.
	Driver card.OpeningKind
	Panels [2]int
	// Width, Depth and Height are those of the open card in millimetres: x, z and y of its poses.
	Width, Depth, Height float64
}

// LoopError returns the largest loop error of all poses.
func (o *Opening) LoopError() float64 {
	worst := 0.0
	for _, p := range o.Poses {
		worst = max(worst, p.LoopError)
	}
	return worst
}

// The search pulls towards its target with these weights in turn, first along a path and then from a warm start.
var (
	coldPulls = [...]float64{1, 1e-2, 1e-4, 1e-6}
	warmPulls = [...]float64{1e-6}
)

// found is the residual, in units of the scale, up to which a pose counts as found; see Pose.LoopError for the rest.
const found = 1e-9

// Path follows the card from closed to open in the given number of poses (at least 2).
//
// A card that opens at a score is driven by the angle between its two panels. A card that opens by itself, or by pulling,
// is driven by the distance of the two panels that part most, towards the pose in which every fold stands as near as the
// loops let it to what its stock remembers. Poses of a path that was not found are left out: the last one is as far as
// the card opens.
func (m *Model) Path(ctx context.Context, poses int) *Opening {
	poses = max(poses, 2)
	var o *Opening
	if kind := m.Assembly.Card.Opening.Kind; kind == card.OpensAt {
		o = m.turn(ctx, poses)
	} else {
		o = m.part(ctx, poses)
	}
	m.stand(o)
	o.Freedom = m.freedom(o)
	if ctx.Err() != nil {
		o.Outcome = Stopped
	}
	return o
}

// closedPose returns the closed card as a pose.
func (m *Model) closedPose() []float64 { return slices.Clone(m.Shut) }

// pose completes a pose from its angles.
func (m *Model) pose(x []float64) Pose {
	frames := m.placed(x)
	return Pose{Angles: x, Panels: frames, LoopError: m.loopError(x, frames)}
}
