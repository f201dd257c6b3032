package card

import (
	"foldwright/length"
	"foldwright/plane"
)

// MoveLine moves all of a piece that lies on an upright line (or, up, on a level one) by d: scores, the ends of slanted
// scores and slits, corners of windows and of the outline, and the far edge, with the size that goes with it.
func (p *Piece) MoveLine(up bool, from, d length.Length) {
	point := func(q *plane.Point) {
		if up && q.Y == from {
			q.Y += d
		}
		if !up && q.X == from {
			q.X += d
		}
	}
	for i := range p.Outline {
		point(&p.Outline[i])
	}
	for i := range p.Scores {
		s := &p.Scores[i]
		point(&s.From)
		point(&s.To)
		if s.At == from && (s.Kind == Up) == up && s.Kind != Slanted {
			s.At += d
		}
	}
	for i := range p.Slits {
		point(&p.Slits[i].From)
		point(&p.Slits[i].To)
	}
	for i := range p.Windows {
		for k := range p.Windows[i].Points {
			point(&p.Windows[i].Points[k])
		}
	}
	corner := plane.Point{X: p.Size.W, Y: p.Size.H}
	if point(&corner); len(p.Outline) > 0 {
		corner = plane.BoxOf(p.Outline...).Max
	}
	p.Size = Size{W: corner.X, H: corner.Y}
}
