package stance

import (
	"math"

	"foldwright/fold"
)

// vec is a point of the table in millimetres: x to the right, z towards the viewer.
type vec struct{ x, z float64 }

func flatten(v fold.Vec) vec { return vec{v[0], v[2]} }

func (a vec) add(b vec) vec          { return vec{a.x + b.x, a.z + b.z} }
func (a vec) sub(b vec) vec          { return vec{a.x - b.x, a.z - b.z} }
func (a vec) dot(b vec) float64      { return a.x*b.x + a.z*b.z }
func (a vec) cross(b vec) float64    { return a.x*b.z - a.z*b.x }
func (a vec) scale(k float64) vec    { return vec{k * a.x, k * a.z} }
func (a vec) norm() float64          { return math.Hypot(a.x, a.z) }
func (a vec) distance(b vec) float64 { return a.sub(b).norm() }

// towards is the direction from a to b, which must differ.
func towards(a, b vec) vec { return b.sub(a).scale(1 / a.distance(b)) }

// beyond says how far p lies to the right of the line from a to b: outside a ring that runs counter-clockwise.
func beyond(p, a, b vec) float64 { return -towards(a, b).cross(p.sub(a)) }

// outward is the direction to the right of the line from a to b.
func outward(a, b vec) vec {
	d := towards(a, b)
	return vec{d.z, -d.x}
}
