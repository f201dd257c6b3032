package fold

// bendLoops adds to the lower half of k the second derivatives of all residuals, each times its force, that of its penalty
// in it: a hinge i nearer the root turns what hinge j moves, so a point p behind both has ∂²p/∂θi∂θj = ai × (aj × (p - oj)).
func (s *minimiser) bendLoops(stiff float64) {
	force := func(k int) float64 { return s.pull[k] + stiff*s.r[k] }
	for i := range s.m.loops {
		l := &s.m.loops[i]
		for c, mark := range l.marks {
			k := 9*i + 3*c
			w := Vec{force(k), force(k + 1), force(k + 2)}.Scale(1 / s.m.scale)
			s.bendSide(l.chain, +1, -1, s.frames[l.q].At(mark), w)
			s.bendSide(l.chain, -1, l.hinge, s.via[i].At(mark), w.Scale(-1)) // its hinge hangs in no tree: outside all others
		}
	}
	if s.drive.p != s.drive.q {
		s.bendDrive(force(s.rows - 1))
	}
}

// bendSide adds the second derivatives of w·p for a point p at the end of one side of a chain. outer is a hinge that lies
// outside all others of the side, or -1.
func (s *minimiser) bendSide(chain []sided, sign float64, outer int, p, w Vec) {
	n := s.n
	add := func(inner, outer int, arm Vec) {
		i, j := max(inner, outer), min(inner, outer)
		s.k[i*n+j] += w.Dot(s.axes[inner].Cross(arm))
	}
	if outer >= 0 {
		arm := s.axes[outer].Cross(p.Sub(s.points[outer]))
		add(outer, outer, arm)
		for _, h := range chain {
			if h.sign == sign {
				add(h.hinge, outer, arm)
			}
		}
	}
	for k, far := range chain { // outermost first
		if far.sign != sign {
			continue
		}
		arm := s.axes[far.hinge].Cross(p.Sub(s.points[far.hinge]))
		for _, near := range chain[k:] {
			if near.sign == sign {
				add(near.hinge, far.hinge, arm)
			}
		}
	}
}

// bendDrive adds the second derivatives of the distance that is held: |d| has the curvature (I - u uᵀ)/|d| across u.
func (s *minimiser) bendDrive(pull float64) {
	p, q := s.frames[s.drive.p].At(s.mids[0]), s.frames[s.drive.q].At(s.mids[1])
	d := q.Sub(p)
	far := d.Norm()
	if far == 0 {
		return
	}
	u, force, n := d.Unit(), pull/s.m.scale, s.n
	s.bendSide(s.chain, +1, -1, q, u.Scale(force))
	s.bendSide(s.chain, -1, -1, p, u.Scale(-force))
	for i, h := range s.chain {
		end := q
		if h.sign < 0 {
			end = p
		}
		arm := s.axes[h.hinge].Cross(end.Sub(s.points[h.hinge])).Scale(h.sign)
		s.arms[i] = arm.Sub(u.Scale(u.Dot(arm)))
	}
	for i, h := range s.chain {
		for j, g := range s.chain {
			if h.hinge >= g.hinge {
				s.k[h.hinge*n+g.hinge] += force / far * s.arms[i].Dot(s.arms[j])
			}
		}
	}
}
