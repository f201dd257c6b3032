package plane

import (
	"math"

	"foldwright/length"
)

// Motion is a turn or a flip of the plane followed by a shift: q = M p + T, lengths in nanometres.
//
// Exact: every motion built from [Mirror] on level, upright or diagonal lines through whole nanometres, from [Turn] by
// whole quarter turns and from [Shift] has entries 0, 1 and -1 and whole shifts. A float64 holds whole numbers up to 2⁵³
// (9 million metres in nanometres), so such motions compose without any rounding.
// Approximate: mirrors on other lines, to about 1e-7 nm per step for pieces up to length.Max.
type Motion struct {
	// XX, XY, YX, YY: x' = XX x + XY y + TX, y' = YX x + YY y + TY.
	XX, XY, YX, YY float64
	TX, TY         float64
}

// Stay returns the motion that moves nothing.
func Stay() Motion { return Motion{XX: 1, YY: 1} }

// Shift returns the motion that moves everything by x and y.
func Shift(x, y length.Length) Motion {
	return Motion{XX: 1, YY: 1, TX: float64(x), TY: float64(y)}
}

// Turn returns the counter-clockwise turn about the origin by deg degrees.
func Turn(deg float64) Motion {
	s, c := math.Sincos(deg * math.Pi / 180)
	switch math.Mod(math.Mod(deg, 360)+360, 360) {
	case 0:
		s, c = 0, 1
	case 90:
		s, c = 1, 0
	case 180:
		s, c = 0, -1
	case 270:
		s, c = -1, 0
	}
	return Motion{XX: c, XY: -s, YX: s, YY: c}
}

// Mirror returns the reflection on the line through a and b. The points must differ.
func Mirror(a, b Point) Motion {
	dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
	var m Motion
	switch {
	case dx == 0:
		m = Motion{XX: -1, YY: 1}
	case dy == 0:
		m = Motion{XX: 1, YY: -1}
	case dx == dy:
		m = Motion{XY: 1, YX: 1}
	case dx == -dy:
		m = Motion{XY: -1, YX: -1}
	default:
		n := dx*dx + dy*dy
		m = Motion{XX: (dx*dx - dy*dy) / n, XY: 2 * dx * dy / n, YX: 2 * dx * dy / n, YY: (dy*dy - dx*dx) / n}
	}
	x, y := float64(a.X), float64(a.Y)
	m.TX = x - (m.XX*x + m.XY*y)
	m.TY = y - (m.YX*x + m.YY*y)
	return m
}

// Then returns the motion that does m first and n after it.
func (m Motion) Then(n Motion) Motion {
	return Motion{
		XX: n.XX*m.XX + n.XY*m.YX, XY: n.XX*m.XY + n.XY*m.YY,
		YX: n.YX*m.XX + n.YY*m.YX, YY: n.YX*m.XY + n.YY*m.YY,
		TX: n.XX*m.TX + n.XY*m.TY + n.TX, TY: n.YX*m.TX + n.YY*m.TY + n.TY,
	}
}

// Inverse returns the motion that undoes m.
func (m Motion) Inverse() Motion {
	return Motion{
		XX: m.XX, XY: m.YX, YX: m.XY, YY: m.YY,
		TX: -(m.XX*m.TX + m.YX*m.TY), TY: -(m.XY*m.TX + m.YY*m.TY),
	}
}

// Points returns where m takes points, each to the nearest nanometre.
func (m Motion) Points(points []Point) []Point {
	out := make([]Point, len(points))
	for i, p := range points {
		out[i] = m.Point(p)
	}
	return out
}

// Flips says whether m turns the plane over, so that a piece shows its other face.
func (m Motion) Flips() bool { return m.XX*m.YY-m.XY*m.YX < 0 }

// At returns where m takes the point (x, y), in nanometres.
func (m Motion) At(x, y float64) (float64, float64) {
	return m.XX*x + m.XY*y + m.TX, m.YX*x + m.YY*y + m.TY
}

// Point returns where m takes p, to the nearest nanometre.
func (m Motion) Point(p Point) Point {
	x, y := m.At(float64(p.X), float64(p.Y))
	return Point{length.Length(math.Round(x)), length.Length(math.Round(y))}
}
