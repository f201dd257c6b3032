package spring

import (
	"math"
	"slices"

	"foldwright/pattern"
	"foldwright/plane"
)

// body is panels that glue holds together: they move and bend as one. Its hinges are parallel, and it is taken for a beam
// across them.
type body struct {
	panels []int
	// motion takes a point of a panel's pattern to that of the body's first panel.
	motion map[int]plane.Motion
	ends   []end
	// dx, dy is the direction of bending in the pattern of the first panel, across the creases.
	dx, dy float64
}

// end is a hinge at a body: how far across it lies, in millimetres, and with which sign a turn of the body there adds to
// the fold.
type end struct {
	hinge   int
	x, sign float64
}

// bodies groups the panels by their glue joints.
func bodies(a *pattern.Assembly) []*body {
	of := make([]*body, len(a.Panels))
	var all []*body
	for first := range a.Panels {
		if of[first] != nil {
			continue
		}
		b := &body{panels: []int{first}, motion: map[int]plane.Motion{first: plane.Stay()}}
		for k := 0; k < len(b.panels); k++ {
			p := b.panels[k]
			of[p] = b
			for _, j := range a.Joints {
				other, m := j.A, j.Place.Then(b.motion[p])
				if j.A == p {
					other, m = j.B, j.Place.Inverse().Then(b.motion[p])
				} else if j.B != p {
					continue
				}
				if _, seen := b.motion[other]; !seen {
					b.motion[other] = m
					b.panels = append(b.panels, other)
				}
			}
		}
		all = append(all, b)
	}
	return all
}

// hang finds the hinges of a body; false where they are not parallel, or where there is nothing between them to bend.
func (b *body) hang(a *pattern.Assembly) bool {
	var cx, cy float64
	for i, h := range a.Hinges {
		for _, side := range [2]struct {
			panel int
			sign  float64
		}{{h.A, -1}, {h.B, +1}} {
			m, ok := b.motion[side.panel]
			if !ok {
				continue
			}
			x, y := m.At(float64(h.From.X), float64(h.From.Y))
			tx, ty := m.At(float64(h.To.X), float64(h.To.Y))
			l := math.Hypot(tx-x, ty-y)
			ux, uy := (tx-x)/l, (ty-y)/l
			if len(b.ends) == 0 {
				cx, cy = ux, uy
				b.dx, b.dy = uy, -ux
			}
			if math.Abs(cx*uy-cy*ux) > 1e-6 {
				return false
			}
			sign := side.sign * math.Copysign(1, cx*ux+cy*uy)
			b.ends = append(b.ends, end{i, (x*b.dx + y*b.dy) / 1e6, sign})
		}
	}
	slices.SortFunc(b.ends, func(p, q end) int { return cmpFloat(p.x, q.x) })
	return len(b.ends) > 1 && b.span() > 0
}

func cmpFloat(a, b float64) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

func (b *body) span() float64 { return b.ends[len(b.ends)-1].x - b.ends[0].x }

// plate is a stretch of a body's beam that one panel covers, with its bending stiffness times its height, in N·mm².
type plate struct{ from, to, stiff float64 }

// bendings returns the plates of a body. bend gives a panel's bending stiffness per width in mN·m in a direction of its
// pattern.
func (b *body) bendings(a *pattern.Assembly, bend func(panel int, dx, dy float64) float64) []plate {
	var out []plate
	for _, p := range b.panels {
		m := b.motion[p]
		from, to := math.Inf(1), math.Inf(-1)
		for _, c := range a.Panels[p].Outline {
			x, y := m.At(float64(c.X), float64(c.Y))
			at := (x*b.dx + y*b.dy) / 1e6
			from, to = min(from, at), max(to, at)
		}
		// The direction in the panel's own pattern: the motion's turn undone.
		dx, dy := m.XX*b.dx+m.YX*b.dy, m.XY*b.dx+m.YY*b.dy
		height := a.Panels[p].Area() / 1e12 / (to - from)
		out = append(out, plate{from, to, bend(p, dx, dy) * height})
	}
	return out
}

// flex returns the turns of the beam at its ends under unit torques there, against the chord between the outermost ones:
// entry i, j is ∫ mi mj / (B h) with mi the bending moment of a unit torque at end i, the beam resting on its outermost
// ends. A stretch that no panel covers counts as rigid. In radians per N·mm.
//
// For a single panel of width w this is w/(6 B h) · (2, -1; -1, 2), the inverse of the slope-deflection matrix of any text
// on structures (Maney 1915, from memory).
func (b *body) flex(plates []plate) []float64 {
	n, from, span := len(b.ends), b.ends[0].x, b.span()
	var cuts []float64
	for _, e := range b.ends {
		cuts = append(cuts, e.x)
	}
	for _, p := range plates {
		cuts = append(cuts, min(max(p.from, from), from+span), min(max(p.to, from), from+span))
	}
	slices.Sort(cuts)
	moment := func(e end, x, inside float64) float64 {
		if inside > e.x {
			return (x-from)/span - 1
		}
		return (x - from) / span
	}
	f := make([]float64, n*n)
	for k := 1; k < len(cuts); k++ {
		lo, hi := cuts[k-1], cuts[k]
		mid, stiff := (lo+hi)/2, 0.0
		for _, p := range plates {
			if p.from <= mid && mid <= p.to {
				stiff += p.stiff
			}
		}
		if hi-lo < 1e-9 || stiff == 0 {
			continue
		}
		for i, p := range b.ends {
			for j, q := range b.ends {
				// Both moments are straight lines: Simpson's rule is exact.
				at := func(x float64) float64 { return moment(p, x, mid) * moment(q, x, mid) }
				f[i*n+j] += (hi - lo) / 6 * (at(lo) + 4*at(mid) + at(hi)) / stiff
			}
		}
	}
	return f
}
