package fold

import (
	"math"

	"foldwright/card"
)

// stand puts the poses into the room: the panel at the front of the card (see pattern.Assembly.Front) faces z and stands
// upright along y, as in the closed card. A card that is pulled open stands half-way between the two panels that part, so
// that both move alike. It also measures the open card.
func (m *Model) stand(o *Opening) {
	front := m.Assembly.Front()
	for k := range o.Poses {
		p := &o.Poses[k]
		z := p.Panels[front].Z.Scale(m.front(front))
		y := m.upward(p.Panels[front], front)
		if o.Driver == card.OpensByPulling {
			z, y = m.halfWay(p, o.Panels, z, y)
		}
		turn := Frame{X: y.Cross(z), Y: y, Z: z}.Inverse()
		for i := range p.Panels {
			p.Panels[i] = turn.After(p.Panels[i])
		}
		m.ground(p)
	}
	last := o.Poses[len(o.Poses)-1]
	low, high := m.bounds(&last)
	o.Width, o.Height, o.Depth = high[0]-low[0], high[1]-low[1], high[2]-low[2]
}

// halfWay returns the mean of the fronts and of the upward directions of two panels, or z and y where the two face away from
// each other.
func (m *Model) halfWay(p *Pose, panels [2]int, z, y Vec) (Vec, Vec) {
	var mz, my Vec
	for _, i := range panels {
		mz = mz.Add(p.Panels[i].Z.Scale(m.front(i) / 2))
		my = my.Add(m.upward(p.Panels[i], i).Scale(0.5))
	}
	mz = mz.Sub(my.Unit().Scale(my.Unit().Dot(mz)))
	if mz.Norm() < 0.2 || my.Norm() < 0.2 {
		return z, y
	}
	return mz.Unit(), my.Unit()
}

// front is +1 for a panel whose outer face shows at the front of the closed card, else -1.
func (m *Model) front(panel int) float64 {
	if m.up[panel] {
		return 1
	}
	return -1
}

// upward returns the direction that points up in the closed card.
func (m *Model) upward(f Frame, panel int) Vec {
	c := m.closedUp[panel]
	return f.Turn(c)
}

// ground moves a pose so that its middle is over the origin and its lowest point at height 0.
func (m *Model) ground(p *Pose) {
	low, high := m.bounds(p)
	shift := Vec{-(low[0] + high[0]) / 2, -low[1], -(low[2] + high[2]) / 2}
	for i := range p.Panels {
		p.Panels[i].O = p.Panels[i].O.Add(shift)
	}
}

// bounds returns the corners of the box around a pose.
func (m *Model) bounds(p *Pose) (low, high Vec) {
	low, high = Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for i, q := range m.Assembly.Panels {
		for _, c := range q.Outline {
			v := p.Panels[i].At(vec(c))
			for k := range 3 {
				low[k], high[k] = min(low[k], v[k]), max(high[k], v[k])
			}
		}
	}
	return low, high
}

// Reach returns how far the card at the given angles reaches before and behind its front panel, in millimetres.
func (m *Model) Reach(angles []float64) (before, behind float64) {
	frames := m.placed(angles)
	panel := m.Assembly.Front()
	f, front := &frames[panel], m.front(panel)
	for p, corners := range m.outlines {
		for _, c := range corners {
			h := front * frames[p].At(c).Sub(f.O).Dot(f.Z)
			before, behind = max(before, h), max(behind, -h)
		}
	}
	return before, behind
}
