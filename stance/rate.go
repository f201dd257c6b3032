package stance

import (
	"math"

	"foldwright/fold"
)

// Mass is so many grams at a point in space, in millimetres.
type Mass struct {
	Grams float64
	At    fold.Vec
}

// Side is a side to which a card may tip.
type Side uint8

// The sides of a card, as one looks at its front.
const (
	Forwards Side = iota
	Backwards
	Left
	Right
)

// String returns forwards, backwards, to the left or to the right.
func (s Side) String() string {
	return [...]string{"forwards", "backwards", "to the left", "to the right"}[s]
}

func (s Side) direction() vec {
	return [...]vec{{0, 1}, {0, -1}, {-1, 0}, {1, 0}}[s]
}

// Stance is how a card stands.
type Stance struct {
	// Grams is the mass of all, Centre the centre of mass in millimetres.
	Grams  float64
	Centre fold.Vec
	// Feet is the polygon on which it stands, counter-clockwise seen from below (x, then z); fewer than three points where it
	// stands on a line or a point.
	Feet []fold.Vec
	// Margin is how far the centre of mass lies inside the polygon, in millimetres; negative outside. Tip is the
	// angle in radians at which the card tips where it is least: 0 for one that does not stand.
	Margin float64
	Tip    float64
	// Tips holds the angle for each side.
	Tips [4]float64
	// turn takes the pose as it was given to how the card stands.
	turn fold.Frame
}

// Lean returns by how much the card leans from its upright pose, in radians, and to which side.
func (s *Stance) Lean() (by float64, to Side) {
	up := s.turn.Y
	return math.Acos(min(up[1], 1)), nearest(flatten(up))
}

// Stands says whether the card stands by itself.
func (s *Stance) Stands() bool { return s.Margin > 0 }

// Span returns how wide and how deep the feet stand apart, in millimetres.
func (s *Stance) Span() (wide, deep float64) {
	for _, a := range s.Feet {
		for _, b := range s.Feet {
			wide, deep = max(wide, a[0]-b[0]), max(deep, a[2]-b[2])
		}
	}
	return wide, deep
}

// Weakest returns the side to which it tips first.
func (s *Stance) Weakest() Side {
	weakest := Forwards
	for i, t := range s.Tips {
		if t < s.Tips[weakest] {
			weakest = Side(i)
		}
	}
	return weakest
}

// Falls returns the side to which a card that does not stand falls.
func (s *Stance) Falls() Side {
	centre := flatten(s.Centre)
	var middle vec // of its feet
	for _, f := range s.Feet {
		middle = middle.add(flatten(f).scale(1 / float64(len(s.Feet))))
	}
	return nearest(centre.sub(middle))
}

// nearest returns the side to which a direction points.
func nearest(way vec) Side {
	best := Forwards
	for side := range Right + 1 {
		if way.dot(side.direction()) > way.dot(best.direction()) {
			best = side
		}
	}
	return best
}

// Rate says how masses stand on some points, which lie on the table.
func Rate(masses []Mass, contacts []fold.Vec) *Stance {
	s := &Stance{turn: fold.Still()}
	for _, m := range masses {
		s.Grams += m.Grams
		s.Centre = s.Centre.Add(m.At.Scale(m.Grams))
	}
	if s.Grams > 0 {
		s.Centre = s.Centre.Scale(1 / s.Grams)
	}
	table := 0.0
	var points []vec
	for _, c := range contacts {
		points = append(points, flatten(c))
		table = c[1]
	}
	ring := hull(points)
	for _, p := range ring {
		s.Feet = append(s.Feet, fold.Vec{p.x, table, p.z})
	}
	centre, height := flatten(s.Centre), s.Centre[1]-table
	if len(ring) < 3 {
		s.Margin = -distanceTo(ring, centre)
		return s
	}
	s.Margin = math.Inf(1)
	for i, a := range ring {
		s.Margin = min(s.Margin, -beyond(centre, a, ring[(i+1)%len(ring)]))
	}
	if s.Margin <= 0 {
		return s
	}
	s.Tip = math.Atan2(s.Margin, height)
	for side := range s.Tips {
		s.Tips[side] = math.Atan2(reach(ring, centre, Side(side).direction()), height)
	}
	return s
}

// reach returns how far it is from a point inside a ring to its border in a direction.
func reach(ring []vec, from, way vec) float64 {
	far := math.Inf(1)
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if speed := way.dot(outward(a, b)); speed > 0 {
			far = min(far, -beyond(from, a, b)/speed)
		}
	}
	return far
}

// Tipping returns the weight in grams that, fixed at a point of the pose, tips a standing card; ok is false where no weight
// does, since the point stands over the polygon.
func (s *Stance) Tipping(at fold.Vec) (grams float64, ok bool) {
	grams = math.Inf(1)
	centre, p := flatten(s.Centre), flatten(s.turn.At(at))
	for i := range s.Feet {
		a, b := flatten(s.Feet[i]), flatten(s.Feet[(i+1)%len(s.Feet)])
		if out := beyond(p, a, b); out > touching {
			grams, ok = min(grams, s.Grams*-beyond(centre, a, b)/out), true
		}
	}
	return grams, ok && s.Stands()
}
