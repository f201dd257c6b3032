package drawing

import "math"

// arrowLength is the length of an arrow head in mm; it is a third as wide.
const arrowLength = 2.4

// DimensionLine draws the dimension of the stretch from → to: a line offset mm to the left of that direction (to the
// right, if negative) with lines that point at both ends, and its label, read along the line and never upside down. Long
// stretches have arrow heads, short ones slanting ticks. A label that does not fit stands beyond the end of the line.
// Two equal points give nothing, an empty label gives a line without words.
func DimensionLine(from, to Point, offset float64, l Label) []Shape {
	d := to.Sub(from)
	n := d.Len()
	if !(n > 0) {
		return nil
	}
	u := d.Times(1 / n)
	out := Point{-u.Y, u.X}.Times(offset)
	m := dimension{a: from.Add(out), b: to.Add(out), u: u, length: n}
	var shapes []Shape
	if offset != 0 {
		away := out.Times(1 / math.Abs(offset))
		for _, p := range [][2]Point{{from, m.a}, {to, m.b}} {
			shapes = append(shapes, Line(Dimension, p[0].Add(away.Times(edgeGap)), p[1].Add(away.Times(tick))))
		}
	}
	return append(append(shapes, m.ends()...), m.label(l)...)
}

// dimension is a dimension line from a to b; u is its direction.
type dimension struct {
	a, b, u Point
	length  float64
}

func (m dimension) ends() []Shape {
	if m.length < 4*arrowLength {
		s := m.u.Turned(45).Times(tick)
		return []Shape{
			Line(Dimension, m.a, m.b),
			Line(Dimension, m.a.Sub(s), m.a.Add(s)),
			Line(Dimension, m.b.Sub(s), m.b.Add(s)),
		}
	}
	return []Shape{
		Line(Dimension, m.a.Add(m.u.Times(arrowLength/2)), m.b.Sub(m.u.Times(arrowLength/2))), // the heads end pointed
		arrow(m.a, m.u.Times(-1)),
		arrow(m.b, m.u),
	}
}

// arrow is a filled head with its tip at a point, looking in direction u.
func arrow(tip, u Point) Polygon {
	base, half := tip.Sub(u.Times(arrowLength)), Point{-u.Y, u.X}.Times(arrowLength/6)
	return Polygon{Fill: Dimension.Fill(), Outer: []Point{tip, base.Add(half), base.Sub(half)}}
}

// label sets the two units on the two sides of the line, or beyond b where they are too long for it.
func (m dimension) label(l Label) []Shape {
	if l == (Label{}) {
		return nil
	}
	turn := math.Atan2(m.u.Y, m.u.X) * 180 / math.Pi
	flipped := turn > 90+1e-9 || turn <= -90+1e-9
	switch {
	case flipped && turn > 0:
		turn -= 180
	case flipped:
		turn += 180
	}
	up := Point{0, 1}.Turned(turn)
	at, anchor := m.a.Add(m.b).Times(0.5), Middle
	var shapes []Shape
	if room := l.width(); room+1 > m.length-2*arrowLength {
		shapes = append(shapes, Line(Dimension, m.b, m.b.Add(m.u.Times(room+2*tick))))
		at, anchor = m.b.Add(m.u.Times(2*tick)), Start
		if flipped {
			anchor = End
		}
	}
	main, sub := l.main(at.Add(up.Times(textGap)), anchor, Baseline), l.sub(at.Sub(up.Times(textGap)), anchor, Top)
	main.TurnDeg, sub.TurnDeg = turn, turn
	shapes = append(shapes, main)
	if l.Sub != "" {
		shapes = append(shapes, sub)
	}
	return shapes
}
