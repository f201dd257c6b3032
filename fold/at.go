package fold

import "slices"

// Ajar returns the angles of the card opened by so many radians from shut: folded scores short of shut, straight ones bent
// as far the way of their sense. The loops need not meet there; it is where a search begins.
func (m *Model) Ajar(by float64) []float64 { return m.ajar(by) }

// Apart returns the distance in millimetres between the middles of two panels at the given angles.
func (m *Model) Apart(angles []float64, panels [2]int) float64 {
	return m.apart(newSolver(m), angles, panels)
}

// Parting returns the two panels whose middles move apart most from the closed card to the given angles, of those by
// which a person would say how far the card is open: panels of a loop, or for a card that is pulled open the first ones of
// the two pieces.
func (m *Model) Parting(angles []float64) [2]int { return m.farthest(newSolver(m), angles) }

// Standing returns the card at the given angles as a path of that one pose: how it stands in the room, and its size.
func (m *Model) Standing(angles []float64) *Opening {
	s := newSolver(m)
	o := &Opening{Driver: m.Assembly.Card.Opening.Kind, Panels: m.farthest(s, angles)}
	p := m.pose(s, slices.Clone(angles))
	p.Drive = m.apart(s, angles, o.Panels)
	o.Poses = []Pose{p}
	m.stand(o)
	return o
}
