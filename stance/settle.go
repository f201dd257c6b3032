package stance

import (
	"math"

	"foldwright/fold"
)

// A card that does not stand upright as it is posed tilts until something else of it touches the table, as an easel leans
// back on its strut: about the edge over which it falls, point after point. Beyond mostLean it has fallen over: a display easel leans
// by 15 to 30 degrees (common practice, no source).
const (
	mostLean  = 35 * math.Pi / 180
	mostFalls = 12
	merging   = 1e-6 // how near, in millimetres, two points are one
)

// settle lets the body tilt until it stands. It returns the stance of the upright body where it falls over.
func (b *body) settle() *Stance {
	upright := Rate(b.masses, b.contacts())
	s := upright
	for range mostFalls {
		if s.Stands() {
			return s
		}
		next, ok := b.fall(s)
		if !ok {
			return upright
		}
		turn := next.After(s.turn)
		if lean := math.Acos(min(turn.Y[1], 1)); lean > mostLean {
			return upright
		}
		b.move(next)
		s = Rate(b.masses, b.contacts())
		s.turn = turn
	}
	return upright
}

// fall returns the turn by which a body that does not stand comes down on its next point; ok is false where there is none.
func (b *body) fall(s *Stance) (turn fold.Frame, ok bool) {
	foot, way := s.edge()
	at, n := fold.Vec{foot.x, s.Feet[0][1], foot.z}, fold.Vec{way.x, 0, way.z}
	least := math.Inf(1)
	for _, c := range b.corners {
		d := c.Sub(at)
		if out := d.Dot(n); out > merging {
			least = min(least, math.Atan2(d[1], out))
		}
	}
	if math.IsInf(least, 1) {
		return turn, false
	}
	sin, cos := math.Sincos(least)
	axis := fold.Vec{0, 1, 0}.Cross(n)
	// n goes down and up goes over to n; axis stays.
	fn, fy := n.Scale(cos).Add(fold.Vec{0, -sin, 0}), n.Scale(sin).Add(fold.Vec{0, cos, 0})
	image := func(v fold.Vec) fold.Vec {
		return fn.Scale(v.Dot(n)).Add(fy.Scale(v[1])).Add(axis.Scale(v.Dot(axis)))
	}
	turn = fold.Frame{X: image(fold.Vec{1, 0, 0}), Y: image(fold.Vec{0, 1, 0}), Z: image(fold.Vec{0, 0, 1})}
	turn.O = at.Sub(turn.At(at))
	return turn, true
}

// edge returns a point of the edge over which a card that does not stand falls, and the level direction in which it does:
// backwards where it balances.
func (s *Stance) edge() (foot, way vec) {
	centre, balanced := flatten(s.Centre), vec{0, -1}
	a := flatten(s.Feet[0])
	switch len(s.Feet) {
	case 1:
		if centre.distance(a) > merging {
			return a, towards(a, centre)
		}
		return a, balanced
	case 2:
		b := flatten(s.Feet[1])
		way = outward(a, b)
		if off := beyond(centre, a, b); off < -merging || math.Abs(off) <= merging && way.dot(balanced) < 0 {
			way = way.scale(-1)
		}
		return a, way
	}
	worst := math.Inf(-1)
	for i := range s.Feet {
		p, q := flatten(s.Feet[i]), flatten(s.Feet[(i+1)%len(s.Feet)])
		if off := beyond(centre, p, q); off > worst {
			worst, foot, way = off, p, outward(p, q)
		}
	}
	return foot, way
}

// move turns the whole body.
func (b *body) move(f fold.Frame) {
	for i := range b.masses {
		b.masses[i].At = f.At(b.masses[i].At)
	}
	for i := range b.corners {
		b.corners[i] = f.At(b.corners[i])
	}
}
