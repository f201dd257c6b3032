package drawing

import (
	"math"
	"slices"
)

// Hatch returns parallel lines across a polygon with holes (even-odd), spacing mm apart, turned by angleDeg from level.
// The lines lie on one grid through the origin, so that neighbouring areas match.
// Range: spacing > 0 and not so small that more than 10 000 lines would be drawn; otherwise no lines.
func Hatch(role Role, outer []Point, holes [][]Point, angleDeg, spacing float64) []Shape {
	rings := append([][]Point{outer}, holes...)
	turned := make([][]Point, len(rings))
	for i, ring := range rings {
		for _, p := range ring {
			turned[i] = append(turned[i], p.Turned(-angleDeg))
		}
	}
	box := BoxOf(turned[0]...)
	if !(spacing > 0) || !(box.H()/spacing < 10_000) {
		return nil
	}
	var out []Shape
	for k := math.Ceil(box.Min.Y / spacing); k*spacing < box.Max.Y; k++ {
		y := k * spacing
		x := Crossings(turned, y)
		for i := 0; i+1 < len(x); i += 2 {
			if x[i+1]-x[i] > 0.05 { // shorter than its own width: a speck
				out = append(out, Line(role, Point{x[i], y}.Turned(angleDeg), Point{x[i+1], y}.Turned(angleDeg)))
			}
		}
	}
	return out
}

// hatches says whether a role is that of a hatching.
func (r Role) hatches() bool { return r == Glue || r == GlueBehind }

// HatchGlue returns the hatching of a glued area: close lines that rise where it is on the face that is seen (Glue), wide
// ones that fall where it is behind (GlueBehind). They slant by 45 degrees, or less or more where a side of the area would
// run along them: a line just beside a side looks like one more side.
func HatchGlue(role Role, outer []Point, holes [][]Point) []Shape {
	spacing, sign := 2.0, 1.0
	if role == GlueBehind {
		spacing, sign = 4, -1
	}
	angle := 45.0
	for _, try := range []float64{45, 60, 30} {
		if !slantsAs(outer, sign*try) {
			angle = try
			break
		}
	}
	return Hatch(role, outer, holes, sign*angle, spacing)
}

// slantsAs says whether a side of a ring runs along a direction, to within ten degrees; sides of a few mm do not count.
func slantsAs(ring []Point, deg float64) bool {
	for i, a := range ring {
		d := ring[(i+1)%len(ring)].Sub(a).Turned(-deg)
		if d.Len() > 8 && math.Abs(d.Y) < math.Sin(math.Pi/18)*d.Len() {
			return true
		}
	}
	return false
}

// Crossings returns where the level line at y crosses the rings, in rising order. A corner counts for the side above it.
func Crossings(rings [][]Point, y float64) []float64 {
	var x []float64
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			if (a.Y > y) != (b.Y > y) {
				x = append(x, a.X+(y-a.Y)*(b.X-a.X)/(b.Y-a.Y))
			}
		}
	}
	slices.Sort(x)
	return x
}
