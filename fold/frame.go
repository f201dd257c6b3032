package fold

import (
	"math"

	"foldwright/plane"
)

// Vec is a point or a direction in space, in millimetres.
type Vec [3]float64

// Add returns a + b.
func (a Vec) Add(b Vec) Vec { return Vec{a[0] + b[0], a[1] + b[1], a[2] + b[2]} }

// Sub returns a - b.
func (a Vec) Sub(b Vec) Vec { return Vec{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

// Scale returns a times k.
func (a Vec) Scale(k float64) Vec { return Vec{k * a[0], k * a[1], k * a[2]} }

// Dot returns the scalar product.
func (a Vec) Dot(b Vec) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// Cross returns the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a[1]*b[2] - a[2]*b[1], a[2]*b[0] - a[0]*b[2], a[0]*b[1] - a[1]*b[0]}
}

// Norm returns the length of a.
func (a Vec) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a scaled to length 1; a zero vector stays zero.
func (a Vec) Unit() Vec {
	if n := a.Norm(); n > 0 {
		return a.Scale(1 / n)
	}
	return a
}

// Frame is a rigid motion in space: p' = X p.x + Y p.y + Z p.z + O. X, Y and Z are at right angles and of length 1.
type Frame struct{ X, Y, Z, O Vec }

// Still returns the frame that moves nothing.
func Still() Frame { return Frame{X: Vec{1, 0, 0}, Y: Vec{0, 1, 0}, Z: Vec{0, 0, 1}} }

// At returns where the frame takes p.
func (f Frame) At(p Vec) Vec { return f.Turn(p).Add(f.O) }

// Turn returns the direction that the frame makes of d.
func (f Frame) Turn(d Vec) Vec {
	return Vec{
		f.X[0]*d[0] + f.Y[0]*d[1] + f.Z[0]*d[2],
		f.X[1]*d[0] + f.Y[1]*d[1] + f.Z[1]*d[2],
		f.X[2]*d[0] + f.Y[2]*d[1] + f.Z[2]*d[2],
	}
}

// After returns the frame that does g first and f after it.
func (f Frame) After(g Frame) Frame {
	return Frame{X: f.Turn(g.X), Y: f.Turn(g.Y), Z: f.Turn(g.Z), O: f.At(g.O)}
}

// Inverse returns the frame that undoes f.
func (f Frame) Inverse() Frame {
	g := Frame{X: Vec{f.X[0], f.Y[0], f.Z[0]}, Y: Vec{f.X[1], f.Y[1], f.Z[1]}, Z: Vec{f.X[2], f.Y[2], f.Z[2]}}
	g.O = g.Turn(f.O).Scale(-1)
	return g
}

// about returns the turn by angle about the line through o along the unit vector u, right-handed (Rodrigues' formula).
func about(o, u Vec, angle float64) Frame {
	s, c := math.Sincos(angle)
	k := 1 - c
	x, y, z := u[0], u[1], u[2]
	f := Frame{
		X: Vec{c + k*x*x, k*x*y + s*z, k*x*z - s*y},
		Y: Vec{k*x*y - s*z, c + k*y*y, k*y*z + s*x},
		Z: Vec{k*x*z + s*y, k*y*z - s*x, c + k*z*z},
	}
	f.O = o.Sub(f.Turn(o))
	return f
}

// lift turns a motion of the plane into one of space: one that flips turns the sheet over.
func lift(m plane.Motion) Frame {
	z := 1.0
	if m.Flips() {
		z = -1
	}
	return Frame{
		X: Vec{m.XX, m.YX, 0}, Y: Vec{m.XY, m.YY, 0}, Z: Vec{0, 0, z},
		O: Vec{m.TX * mmPerNM, m.TY * mmPerNM, 0},
	}
}

const mmPerNM = 1e-6

// vec returns a point of a pattern in millimetres.
func vec(p plane.Point) Vec { return Vec{p.X.MM(), p.Y.MM(), 0} }
