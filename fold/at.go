package fold

import (
	"math"
	"slices"

	"foldwright/card"
)

// Sense returns the sign of a hinge's fold angle: that of the closed card, or for a score that is straight there the one
// way it may bend; 0 for one that may bend either way.
func (m *Model) Sense(hinge int) float64 {
	switch {
	case m.Shut[hinge] != 0:
		return math.Copysign(1, m.Shut[hinge])
	case m.High[hinge] == 0:
		return -1
	case m.Low[hinge] == 0:
		return 1
	}
	return 0
}

// Ajar returns the angles of the card opened by so many radians from shut: folded scores short of shut, straight ones bent
// as far the way of their sense. The loops need not meet there; it is where a search begins.
func (m *Model) Ajar(by float64) []float64 {
	x := m.closedPose()
	for i, shut := range x {
		x[i] = m.Sense(i) * by
		if shut != 0 {
			x[i] = shut - x[i]
		}
	}
	return x
}

// middles returns where the middle of every panel is at the given angles.
func (m *Model) middles(angles []float64) []Vec {
	frames := m.placed(angles)
	out := make([]Vec, len(frames))
	for i, f := range frames {
		out[i] = f.At(m.middle(i))
	}
	return out
}

// Apart returns the distance in millimetres between the middles of two panels at the given angles.
func (m *Model) Apart(angles []float64, panels [2]int) float64 {
	frames := m.placed(angles)
	p, q := panels[0], panels[1]
	return frames[p].At(m.middle(p)).Sub(frames[q].At(m.middle(q))).Norm()
}

// Parting returns the two panels whose middles move apart most from the closed card to the given angles, of several such
// pairs the first, of those by which a person would say how far the card is open: panels of a loop, where there is one. For
// a card that is pulled open the panels are the first ones of the two pieces.
func (m *Model) Parting(angles []float64) [2]int {
	a := m.Assembly
	if o := a.Card.Opening; o.Kind == card.OpensByPulling {
		p, ok1 := a.FindCopy(o.A)
		q, ok2 := a.FindCopy(o.B)
		if ok1 && ok2 {
			return [2]int{a.Copies[p].FirstPanel, a.Copies[q].FirstPanel}
		}
	}
	shut, open := m.middles(m.Shut), m.middles(angles)
	best, pair := 0.0, [2]int{}
	bound := m.bound()
	for i := range shut {
		if !bound[i] {
			continue
		}
		for j := range i {
			if !bound[j] {
				continue
			}
			grown := open[i].Sub(open[j]).Norm() - shut[i].Sub(shut[j]).Norm()
			if grown > best+1e-6 {
				best, pair = grown, [2]int{j, i}
			}
		}
	}
	return pair
}

// Standing returns the card at the given angles as a path of that one pose: how it stands in the room, and its size.
func (m *Model) Standing(angles []float64) *Opening {
	o := &Opening{Driver: m.Assembly.Card.Opening.Kind, Panels: m.Parting(angles)}
	p := m.pose(slices.Clone(angles))
	p.Drive = m.Apart(angles, o.Panels)
	o.Poses = []Pose{p}
	m.stand(o)
	return o
}
