package view

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foldwright/fold"
)

// hung is a door turned about an upright axis.
func hung(deg float64) fold.Frame {
	s, c := math.Sincos(deg * math.Pi / 180)
	return fold.Frame{X: fold.Vec{c, 0, -s}, Y: fold.Vec{0, 1, 0}, Z: fold.Vec{s, 0, c}}
}

func far(f, g fold.Frame) float64 {
	return max(f.X.Sub(g.X).Norm(), f.Y.Sub(g.Y).Norm(), f.Z.Sub(g.Z).Norm())
}

// TestBetweenBoth: two doors that open by up to 170 degrees each, whichever of them the poses hold still, are held so that
// both have turned alike.
func TestBetweenBoth(t *testing.T) {
	for _, most := range []float64{40, 90, 150, 170} {
		for _, still := range []float64{0, 1, -1, 0.3} { // which share of the way the poses turn with the first door
			o := &fold.Opening{Panels: [2]int{0, 1}}
			for k := range 31 {
				a := most * float64(k) / 30
				o.Poses = append(o.Poses, fold.Pose{Panels: []fold.Frame{hung(-a + still*a), hung(180 + a + still*a)}})
			}
			for k, f := range betweenBoth(o) {
				a := most * float64(k) / 30
				p := o.Poses[k].Panels
				if d := max(far(f.After(p[0]), hung(-a)), far(f.After(p[1]), hung(180+a))); d > 1e-9 {
					t.Fatalf("doors open by %g, share %g: pose %d is %g off", most, still, k, d)
				}
			}
		}
	}
}

// TestRotation: a rotation becomes a quaternion and comes back; half of it twice is all of it.
func TestRotation(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var q quaternion
		for i := range q {
			q[i] = rapid.Float64Range(-1, 1).Draw(t, "q")
		}
		size := math.Sqrt(q.dot(q))
		if size < 0.1 {
			t.Skip("no direction")
		}
		f := q.times(1 / size).frame()
		if d := far(f, rotation(f).frame()); d > 1e-9 {
			t.Fatalf("comes back %g off", d)
		}
		if h := q.times(1 / size).half(); q[0]/size > -0.9 {
			if d := far(f, h.frame().After(h.frame())); d > 1e-9 {
				t.Fatalf("two halves are %g off", d)
			}
		}
	})
}
