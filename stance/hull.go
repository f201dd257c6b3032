package stance

import (
	"cmp"
	"math"
	"slices"
)

// grid is the grid, in millimetres, to which contacts are put, so that what stands on one line does so in numbers too.
const grid = 1e-9

// hull returns the corners of the smallest convex polygon around points, counter-clockwise in x and z; one or two points
// where all lie on a point or a line. (Monotone chain; Andrew 1979, Information Processing Letters 9:216-219, from memory.)
func hull(points []vec) []vec {
	p := make([]vec, len(points))
	for i, q := range points {
		p[i] = vec{math.Round(q.x/grid) * grid, math.Round(q.z/grid) * grid}
	}
	slices.SortFunc(p, func(a, b vec) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.z, b.z)) })
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	half := func() []vec {
		var out []vec
		for _, q := range p {
			for n := len(out); n >= 2 && beyond(q, out[n-2], out[n-1]) >= -grid/1000; n = len(out) {
				out = out[:n-1]
			}
			out = append(out, q)
		}
		return out[:len(out)-1]
	}
	lower := half()
	slices.Reverse(p)
	return append(lower, half()...)
}

// distanceTo returns how far a point is from one point or from the stretch between two.
func distanceTo(ring []vec, p vec) float64 {
	switch len(ring) {
	case 0:
		return math.Inf(1)
	case 1:
		return p.distance(ring[0])
	}
	a, b := ring[0], ring[1]
	along := min(max(p.sub(a).dot(towards(a, b)), 0), a.distance(b))
	return p.distance(a.add(towards(a, b).scale(along)))
}
