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
	// Off moves the plane by so many millimetres to the other side; see Hold.Plates.
	Off float64
}

// touch is a contact while a balance is sought.
type touch struct {
	Contact
	path []sided // the hinges from Panel to On, each with +1 if it moves Panel and -1 if it moves On
	gap  float64 // height over On, in units of the scale; not below 0
	push float64 // what the contact pushes with, at least 0
	row  []float64
	// plate says that it is not On that is touched but a plate beside it.
	plate bool
	v, z  Vec // corner and normal in space, of the last measure
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

// yield is how card gives way where a corner leans on it, in N/mm: some tenths of a millimetre under the force of a spring,
// which is what card of 0.3 mm does. Plates do not give way.
const yield = 20.0

// soft returns the yield in units of the merit.
func (s *minimiser) soft() float64 { return yield * s.m.scale * s.m.scale / s.unit }

// measureTouch finds the gaps for the frames of the last measure and returns what they add to the merit.
func (s *minimiser) measureTouch(stiff float64) float64 {
	sum, soft := 0.0, s.soft()
	for i := range s.touch {
		t := &s.touch[i]
		on := s.frames[t.On]
		t.v, t.z = s.frames[t.Panel].At(t.Corner), on.Z.Scale(t.Side/s.m.scale)
		t.gap = t.v.Sub(on.O).Dot(t.z) + t.Off/s.m.scale
		if !t.plate {
			t.push = soft * max(0, -t.gap)
			sum += t.push * t.push / (2 * soft)
		} else if p := max(0, t.push-stiff*t.gap); p > 0 || t.push > 0 {
			sum += (p*p - t.push*t.push) / (2 * stiff)
		}
	}
	return sum
}

// bendTouch adds the contacts that push to gradient and curvature; the axes are those of the last jacobian.
func (s *minimiser) bendTouch(stiff, bend float64) {
	n := s.n
	for i := range s.touch {
		t := &s.touch[i]
		stiff, push, curved := stiff, t.push-stiff*t.gap, max(0, t.push-bend*t.gap)
		if !t.plate {
			stiff, push, curved = s.soft(), t.push, t.push
		}
		if bend > 0 && push <= 0 || !t.closed() { // a step on the forces' balance keeps a plate until its force is gone
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
				s.k[i*n+j] -= curved * near.sign * t.z.Dot(s.axes[near.hinge].Cross(arm))
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

// closed says whether a contact pushes or is through.
func (t *touch) closed() bool { return t.push > 0 || t.gap < 0 }

// settleTouch returns by how much a plate is broken or pushes without touching; above 0, stiff brings the pushes up to
// date.
func (s *minimiser) settleTouch(stiff float64) float64 {
	worst := 0.0
	for i := range s.touch {
		t := &s.touch[i]
		if !t.plate {
			continue
		}
		if t.push > 0 {
			worst = max(worst, math.Abs(t.gap))
		} else {
			worst = max(worst, -t.gap)
		}
		t.push = max(0, t.push-stiff*t.gap)
	}
	return worst
}
