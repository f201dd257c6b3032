package stance

import (
	"cmp"
	"math"
	"slices"
)

// merging is how near two contacts are one, in millimetres.
const merging = 1e-6

// hull returns the corners of the smallest convex polygon around points, counter-clockwise in x and z; one or two points
// where all lie on a point or a line. (Monotone chain; Andrew 1979, Information Processing Letters 9:216-219, from memory.)
func hull(points []vec) []vec {
	p := slices.Clone(points)
	slices.SortFunc(p, func(a, b vec) int { return cmp.Or(cmp.Compare(a.x, b.x), cmp.Compare(a.z, b.z)) })
	p = slices.CompactFunc(p, func(a, b vec) bool { return a.distance(b) <= merging })
	if len(p) < 3 {
		return p
	}
	half := func() []vec {
		var out []vec
		for _, q := range p {
			for n := len(out); n >= 2 && beyond(q, out[n-2], out[n-1]) >= -merging; n = len(out) {
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
