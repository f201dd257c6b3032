package view

import (
	"math"

	"foldwright/fold"
)

// betweenBoth returns, per pose, the motion that holds a card half way between its two driven panels: one has turned as far
// one way since the card was closed as the other has turned the other way. So the doors of a gate open alike, and what only
// moves apart does not turn at all. Turns are followed from pose to pose and may come to nearly a full one.
func betweenBoth(o *fold.Opening) []fold.Frame {
	out := make([]fold.Frame, len(o.Poses))
	a, b := o.Panels[0], o.Panels[1]
	first := &o.Poses[0]
	last := quaternion{1, 0, 0, 0}
	for i := range o.Poses {
		p := &o.Poses[i]
		ma := p.Panels[a].After(first.Panels[a].Inverse())
		mb := p.Panels[b].After(first.Panels[b].Inverse())
		q := rotation(ma.Inverse().After(mb))
		if q.dot(last) < 0 { // the same rotation, by the way that goes on from the last pose
			q = q.times(-1)
		}
		last = q
		mean := ma.After(q.half().frame())
		mean.O = fold.Vec{}
		out[i] = mean.Inverse()
	}
	return out
}

// quaternion is a rotation about an axis by an angle: the cosine of half the angle, then the axis times its sine. Its
// opposite turns to the same place the other way round.
type quaternion [4]float64

func (q quaternion) dot(r quaternion) float64 {
	return q[0]*r[0] + q[1]*r[1] + q[2]*r[2] + q[3]*r[3]
}

func (q quaternion) times(k float64) quaternion {
	return quaternion{k * q[0], k * q[1], k * q[2], k * q[3]}
}

// half turns half as far; a full turn has no half that one could tell, and stays.
func (q quaternion) half() quaternion {
	h := quaternion{q[0] + 1, q[1], q[2], q[3]}
	size := math.Sqrt(h.dot(h))
	if size < 1e-3 {
		return quaternion{1, 0, 0, 0}
	}
	return h.times(1 / size)
}

// rotation returns the rotation of a motion (from its matrix by the largest of the four numbers: Shepperd 1978, from memory).
func rotation(f fold.Frame) quaternion {
	x, y, z := f.X, f.Y, f.Z
	all := [4]quaternion{
		{1 + x[0] + y[1] + z[2], y[2] - z[1], z[0] - x[2], x[1] - y[0]},
		{y[2] - z[1], 1 + x[0] - y[1] - z[2], x[1] + y[0], z[0] + x[2]},
		{z[0] - x[2], x[1] + y[0], 1 - x[0] + y[1] - z[2], y[2] + z[1]},
		{x[1] - y[0], z[0] + x[2], y[2] + z[1], 1 - x[0] - y[1] + z[2]},
	}
	k := 0
	for i, q := range all {
		if q[i] > all[k][k] {
			k = i
		}
	}
	return all[k].times(1 / math.Sqrt(all[k].dot(all[k])))
}

// frame returns the rotation as a motion about the origin.
func (q quaternion) frame() fold.Frame {
	w, x, y, z := q[0], q[1], q[2], q[3]
	return fold.Frame{
		X: fold.Vec{1 - 2*(y*y+z*z), 2 * (x*y + w*z), 2 * (x*z - w*y)},
		Y: fold.Vec{2 * (x*y - w*z), 1 - 2*(x*x+z*z), 2 * (y*z + w*x)},
		Z: fold.Vec{2 * (x*z + w*y), 2 * (y*z - w*x), 1 - 2*(x*x+y*y)},
	}
}
