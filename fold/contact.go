package fold

import "math"

// Contact keeps a corner of one panel on one side of another one: card does not pass through card.
type Contact struct {
	// Panel has the corner, in its pattern in millimetres; On is the panel that it must not pass through. The plane of On
	// counts beyond its edges.
	Panel, On int
	Corner    Vec
	// Side is +1 where the corner lies on the side of On's outer face, else -1.
	Side float64
}

// touch is a contact while a balance is sought.
type touch struct {
	Contact
	path []sided // the hinges from Panel to On, each with +1 if it moves Panel and -1 if it moves On
	gap  float64 // height over On, in units of the scale; not below 0
	push float64 // what the contact pushes with, at least 0
	row  []float64
	v, z Vec // corner and normal in space, of the last measure
}

func (s *minimiser) touches(list []Contact) {
	for _, c := range list {
		t := touch{Contact: c, row: make([]float64, s.n)}
		var behind []sided
		for _, h := range s.m.between(c.On, c.Panel) {
			if h.sign > 0 {
				t.path = append(t.path, h)
			} else {
				behind = append([]sided{h}, behind...)
			}
		}
		t.path = append(t.path, behind...)
		s.touch = append(s.touch, t)
	}
}

// measureTouch finds the gaps for the frames of the last measure and returns what they add to the merit.
func (s *minimiser) measureTouch(stiff float64) float64 {
	sum := 0.0
	for i := range s.touch {
		t := &s.touch[i]
		on := s.frames[t.On]
		t.v, t.z = s.frames[t.Panel].At(t.Corner), on.Z.Scale(t.Side/s.m.scale)
		t.gap = t.v.Sub(on.O).Dot(t.z)
		if p := max(0, t.push-stiff*t.gap); p > 0 || t.push > 0 {
			sum += (p*p - t.push*t.push) / (2 * stiff)
		}
	}
	return sum
}

// bendTouch adds the contacts that push to gradient and curvature; the axes are those of the last jacobian.
func (s *minimiser) bendTouch(stiff float64) {
	n := s.n
	for i := range s.touch {
		t := &s.touch[i]
		push := max(0, t.push-stiff*t.gap)
		if push == 0 {
			continue
		}
		clear(t.row)
		for _, h := range t.path {
			t.row[h.hinge] += h.sign * t.z.Dot(s.axes[h.hinge].Cross(t.v.Sub(s.points[h.hinge])))
		}
		for k, far := range t.path {
			arm := s.axes[far.hinge].Cross(t.v.Sub(s.points[far.hinge])).Scale(far.sign)
			for _, near := range t.path[k:] {
				i, j := max(near.hinge, far.hinge), min(near.hinge, far.hinge)
				s.k[i*n+j] -= push * near.sign * t.z.Dot(s.axes[near.hinge].Cross(arm))
			}
		}
		for i, v := range t.row {
			if v == 0 {
				continue
			}
			s.grad[i] -= push * v
			for j := range i + 1 {
				s.k[i*n+j] += stiff * v * t.row[j]
			}
		}
	}
}

// settleTouch brings the pushes up to date and returns by how much a contact is broken or pushes without touching.
func (s *minimiser) settleTouch(stiff float64, update bool) float64 {
	worst := 0.0
	for i := range s.touch {
		t := &s.touch[i]
		worst = max(worst, math.Abs(min(t.gap, t.push/stiff)))
		if update {
			t.push = max(0, t.push-stiff*t.gap)
		}
	}
	return worst
}

// Touching returns contacts for the panels that pass through each other at the angles x but not at those of before: the
// corners that have gone through, each kept on the side where it was.
func (m *Model) Touching(crossings []Crossing, before, x []float64) []Contact {
	was, is := m.placed(before), m.placed(x)
	var out []Contact
	for _, c := range crossings {
		for _, pair := range [2][2]int{{c.A, c.B}, {c.B, c.A}} {
			box := m.Assembly.Panels[pair[1]].Box
			for _, corner := range m.Assembly.Panels[pair[0]].Outline {
				v := vec(corner)
				side := was[pair[1]].Inverse().At(was[pair[0]].At(v))[2]
				now := is[pair[1]].Inverse().At(is[pair[0]].At(v))
				on := now[0] > box.Min.X.MM()-edgeMargin && now[0] < box.Max.X.MM()+edgeMargin &&
					now[1] > box.Min.Y.MM()-edgeMargin && now[1] < box.Max.Y.MM()+edgeMargin
				if on && side*now[2] < 0 && math.Abs(side) > 1e-6 {
					out = append(out, Contact{Panel: pair[0], On: pair[1], Corner: v, Side: math.Copysign(1, side)})
				}
			}
		}
	}
	return out
}

// Gap returns how far the corner of a contact stands off at the given angles, in millimetres; below 0 it is through.
func (m *Model) Gap(c Contact, angles []float64) float64 {
	frames := m.placed(angles)
	return c.Side * frames[c.On].Inverse().At(frames[c.Panel].At(c.Corner))[2]
}
