package pdf

import (
	"slices"
	"strconv"

	"foldwright/drawing"
)

// seam is the middle of the overlap of two tiles, in the turned drawing; crosses stand on it.
type seam struct {
	a, b    drawing.Point
	crosses []cross
}

// cross is a register mark. Both tiles that meet at the seam show the same number at the same place of the drawing.
type cross struct {
	at     drawing.Point
	number int
}

// seams returns all seams of a drawing that is cut into tiles. Each tile that meets a seam has two crosses on
// it, near a quarter and three quarters of the tile's length, beside the words of the drawing where that can be done.
func seams(d *drawing.Drawing, turned bool, g *grid) []seam {
	words := wordBoxes(d, turned)
	var out []seam
	number := 0
	add := func(at func(along float64) drawing.Point, length float64, across []float64) {
		s := seam{a: at(0), b: at(length)}
		for k := range len(across) + 1 {
			from, to := tileSpan(across, length, k)
			for _, part := range []float64{0.25, 0.75} {
				number++
				s.crosses = append(s.crosses, cross{clearPlace(at, from, to, part, words), number})
			}
		}
		out = append(out, s)
	}
	for _, x := range g.across {
		add(func(y float64) drawing.Point { return drawing.Point{X: x, Y: y} }, g.h, g.up)
	}
	for _, y := range g.up {
		add(func(x float64) drawing.Point { return drawing.Point{X: x, Y: y} }, g.w, g.across)
	}
	return out
}

// wordBoxes returns the boxes of all texts, in the turned drawing.
func wordBoxes(d *drawing.Drawing, turned bool) []drawing.Box {
	f := frame{turned: turned, height: d.H}
	var boxes []drawing.Box
	for _, s := range d.Shapes() {
		if t, ok := s.(drawing.Text); ok {
			c := t.Corners()
			for i := range c {
				c[i] = f.turn(c[i])
			}
			boxes = append(boxes, drawing.BoxOf(c[:]...))
		}
	}
	return boxes
}

// clearPlace returns the place of a cross between from and to on a seam: at the given part of the way, or as near to it
// as no words lie under the cross or its number; at the given part if there is no such place.
func clearPlace(at func(float64) drawing.Point, from, to, part float64, words []drawing.Box) drawing.Point {
	const step, most = 0.02, 0.2
	first := at(from + (to-from)*part)
	for shift := 0.0; shift <= most; shift += step {
		for _, s := range []float64{shift, -shift} {
			if p := at(from + (to-from)*(part+s)); clearOf(p, words) {
				return p
			}
		}
	}
	return first
}

func clearOf(p drawing.Point, words []drawing.Box) bool {
	const number = 3.5 // the room of the number, up and to the right of the cross
	mark := drawing.Box{
		Min: p.Sub(drawing.Point{X: crossArm, Y: crossArm}),
		Max: p.Add(drawing.Point{X: crossArm + number, Y: crossArm + number}),
	}
	return !slices.ContainsFunc(words, mark.Meets)
}

// crossArm is half the length of a cross in mm: within the overlap on both sides.
const crossArm = 4

// shapes returns the seam's dotted line and its crosses with their numbers, in the turned drawing.
func (s seam) shapes() []drawing.Shape {
	out := []drawing.Shape{drawing.Line(drawing.Hidden, s.a, s.b)}
	for _, c := range s.crosses {
		level, up := drawing.Point{X: crossArm}, drawing.Point{Y: crossArm}
		out = append(out,
			drawing.Circle(drawing.Style{}, drawing.Mark, c.at, crossArm/2),
			drawing.Line(drawing.Mark, c.at.Sub(level), c.at.Add(level)),
			drawing.Line(drawing.Mark, c.at.Sub(up), c.at.Add(up)),
			drawing.Text{
				Role: drawing.TextPlain, Bold: true, Words: strconv.Itoa(c.number), Size: drawing.NoteSize,
				At: c.at.Add(drawing.Point{X: crossArm / 2, Y: crossArm / 2}),
			})
	}
	return out
}
