package view

import (
	"math"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/fold"
)

// stance says how a card is held up to be looked at.
type stance uint8

const (
	// standing: as it stands by itself, its front towards you.
	standing stance = iota
	// pulled: it stands by itself, seen half way between the two panels that are drawn apart.
	pulled
	// upright: it opens at an upright score and stands like an open book, its inside towards you.
	upright
	// lying: it lies on the table like an open book; one page keeps still and the other one turns.
	lying
)

// flatOpen is the angle in degrees from which on a card that opens at a score lies rather than stands.
const flatOpen = 135

// camera looks along parallel lines: right, up and towards are the axes of the picture in space.
type camera struct{ right, up, towards fold.Vec }

// angles of the camera in degrees: how far to the right and how far above.
func (s stance) angles() (yaw, pitch float64) {
	switch s {
	case pulled:
		return 20, 18
	case upright:
		return 17, 22
	case lying:
		return 24, 38
	}
	return 30, 20
}

// cameraAt returns the camera in the axes of a staged card: x right, y up, z towards you.
func cameraAt(yawDeg, pitchDeg float64) camera {
	sy, cy := math.Sincos(yawDeg * math.Pi / 180)
	sp, cp := math.Sincos(pitchDeg * math.Pi / 180)
	return camera{
		right:   fold.Vec{cy, 0, -sy},
		up:      fold.Vec{-sy * sp, cp, -cy * sp},
		towards: fold.Vec{sy * cp, sp, cy * cp},
	}
}

// see returns where a point is seen, in mm.
func (c camera) see(p fold.Vec) drawing.Point {
	return drawing.Point{X: p.Dot(c.right), Y: p.Dot(c.up)}
}

// stage holds a card up in the axes of the table: x right, y up, z towards you.
type stage struct {
	closed *flat.Closed
	open   *fold.Opening
	stance stance
	hinge  int          // that the card opens at
	inward float64      // +1 if the outer faces of the two panels come to lie inside, else -1
	base   int          // the panel that lies still
	still  []fold.Frame // per pose, for a card that opens by pulling: see betweenBoth
}

func newStage(c *flat.Closed, o *fold.Opening) *stage {
	s := &stage{closed: c, open: o, hinge: -1}
	switch {
	case o.Driver == card.OpensByPulling:
		s.stance, s.still = pulled, betweenBoth(o)
		return s
	case o.Driver != card.OpensAt:
		return s
	}
	for i, h := range c.Assembly.Hinges {
		if h.A == o.Panels[0] && h.B == o.Panels[1] {
			s.hinge = i
		}
	}
	if s.hinge < 0 {
		return s
	}
	s.inward = -1
	if c.Sense(s.hinge) == card.Valley {
		s.inward = 1
	}
	last := &o.Poses[len(o.Poses)-1]
	s.stance = upright
	if !s.upright() || c.Assembly.Card.Opening.ToDeg > flatOpen {
		s.stance = lying
		s.base = s.lowPage(last)
	}
	return s
}

// axis returns a point on the score that the card opens at, and its direction.
func (s *stage) axis(p *fold.Pose) (o, u fold.Vec) {
	h := s.closed.Assembly.Hinges[s.hinge]
	f := p.Panels[h.A]
	o = f.At(vec(h.From.X, h.From.Y))
	return o, f.At(vec(h.To.X, h.To.Y)).Sub(o).Unit()
}

// upright says whether the score runs more up than across in the closed card.
func (s *stage) upright() bool {
	h := s.closed.Assembly.Hinges[s.hinge]
	at := s.closed.At[h.A]
	x0, y0 := at.At(float64(h.From.X), float64(h.From.Y))
	x1, y1 := at.At(float64(h.To.X), float64(h.To.Y))
	return math.Abs(y1-y0) >= math.Abs(x1-x0)
}

// upward returns the direction of a panel in a pose that points up in the closed card.
func (s *stage) upward(p *fold.Pose, panel int) fold.Vec {
	x, y := s.closed.At[panel].Inverse().At(0, 1)
	ox, oy := s.closed.At[panel].Inverse().At(0, 0)
	return p.Panels[panel].Turn(fold.Vec{x - ox, y - oy, 0}).Unit()
}

// page returns the direction from the score to the middle of a panel, at a right angle to the score.
func (s *stage) page(p *fold.Pose, panel int) fold.Vec {
	o, u := s.axis(p)
	b := s.closed.Assembly.Panels[panel].Box
	d := p.Panels[panel].At(vec((b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2)).Sub(o)
	return d.Sub(u.Scale(d.Dot(u))).Unit()
}

// lowPage returns the panel that lies still: the right one, so that the other turns like the cover of a book, or the near
// one where the score runs level.
func (s *stage) lowPage(p *fold.Pose) int {
	best, most := s.open.Panels[0], math.Inf(-1)
	for _, panel := range s.open.Panels {
		f := s.lyingFrame(p, panel)
		d := f.Turn(s.page(p, panel))
		if worth := d[0] + d[2]; worth > most+1e-9 {
			best, most = panel, worth
		}
	}
	return best
}

// lyingFrame returns the motion that lays a panel on the table, inside up, its upper edge away from you.
func (s *stage) lyingFrame(p *fold.Pose, panel int) fold.Frame {
	return axes(p.Panels[panel].Z.Scale(s.inward), s.upward(p, panel).Scale(-1))
}

// axes returns the motion that takes the directions up and towards to y and z.
func axes(up, towards fold.Vec) fold.Frame {
	up = up.Unit()
	towards = towards.Sub(up.Scale(towards.Dot(up))).Unit()
	return fold.Frame{X: up.Cross(towards), Y: up, Z: towards}.Inverse()
}

// frames returns where every panel is in a pose, in the axes of the table.
func (s *stage) frames(pose int) []fold.Frame {
	p := &s.open.Poses[pose]
	out := make([]fold.Frame, len(p.Panels))
	turn := fold.Still()
	switch s.stance {
	case pulled:
		turn = s.still[pose]
	case upright:
		a, b := s.open.Panels[0], s.open.Panels[1]
		inside := s.page(p, a).Add(s.page(p, b)).Add(p.Panels[a].Z.Add(p.Panels[b].Z).Scale(s.inward))
		turn = axes(s.upward(p, a).Add(s.upward(p, b)), inside)
		o, _ := s.axis(p)
		turn.O = turn.Turn(o).Scale(-1)
		turn.O[1] = 0
	case lying:
		turn = s.lyingFrame(p, s.base)
		o, _ := s.axis(p)
		turn.O = turn.Turn(o).Scale(-1)
	}
	for i, f := range p.Panels {
		out[i] = turn.After(f)
	}
	return out
}
