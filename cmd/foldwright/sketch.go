package main

import (
	"math"
	"strings"

	"foldwright/fold"
	"foldwright/proof"
)

// A sketch is a drawing in characters: each holds two by four dots (Unicode, Braille Patterns). It shows the edges of the
// open card from above and to one side, hidden ones too, as a maker would scribble it beside a name in a list.

const (
	sketchWide = 22 // characters
	sketchHigh = 8
)

// sketch draws the open card of a report; nil where it does not open.
func sketch(r *proof.Report) []string {
	if !r.Opens() {
		return nil
	}
	pose := r.Opening.Poses[len(r.Opening.Poses)-1]
	var lines [][2][2]float64
	for i, p := range r.Assembly.Panels {
		for k, c := range p.Outline {
			d := p.Outline[(k+1)%len(p.Outline)]
			a, b := pose.Panels[i].At(fold.Vec{c.X.MM(), c.Y.MM()}), pose.Panels[i].At(fold.Vec{d.X.MM(), d.Y.MM()})
			lines = append(lines, [2][2]float64{slant(a), slant(b)})
		}
	}
	return plot(lines)
}

// slant looks at a point from 30 degrees to the right and 25 degrees above.
func slant(v fold.Vec) [2]float64 {
	const yaw, pitch = 30 * math.Pi / 180, 25 * math.Pi / 180
	x := v[0]*math.Cos(yaw) - v[2]*math.Sin(yaw)
	z := v[0]*math.Sin(yaw) + v[2]*math.Cos(yaw)
	return [2]float64{x, v[1]*math.Cos(pitch) - z*math.Sin(pitch)}
}

// plot draws lines into a field of dots, as large as they fit.
func plot(lines [][2][2]float64) []string {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, l := range lines {
		for _, p := range l {
			for k := range 2 {
				low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
			}
		}
	}
	const w, h = 2 * sketchWide, 4 * sketchHigh
	unit := min((w-1)/max(high[0]-low[0], 1e-9), (h-1)/max(high[1]-low[1], 1e-9))
	var dots [h][w]bool
	for _, l := range lines {
		x0, y0 := (l[0][0]-low[0])*unit, (high[1]-l[0][1])*unit
		x1, y1 := (l[1][0]-low[0])*unit, (high[1]-l[1][1])*unit
		steps := int(math.Ceil(max(math.Abs(x1-x0), math.Abs(y1-y0)))) + 1
		for s := range steps + 1 {
			t := float64(s) / float64(steps)
			dots[int(math.Round(y0+t*(y1-y0)))][int(math.Round(x0+t*(x1-x0)))] = true
		}
	}
	// The bits of the eight dots of a character, row by row.
	bits := [4][2]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}
	var out []string
	for row := 0; row < h; row += 4 {
		var b strings.Builder
		for col := 0; col < w; col += 2 {
			c := rune(0x2800)
			for y := range 4 {
				for x := range 2 {
					if dots[row+y][col+x] {
						c |= bits[y][x]
					}
				}
			}
			b.WriteRune(c)
		}
		if line := strings.TrimRight(b.String(), "⠀"); line != "" {
			out = append(out, line)
		}
	}
	return out
}
