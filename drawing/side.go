package drawing

// Side is the side of a piece on which its dimensions stand.
type Side uint8

// The four sides. Places along Below and Above count from the left, along Left and Right from the bottom.
const (
	Below Side = iota
	Above
	Left
	Right
)

// upright says whether the edge itself runs up.
func (s Side) upright() bool { return s == Left || s == Right }

// edge maps places along an edge (t) and distances away from the piece (out) to the drawing, both in mm.
type edge struct {
	side   Side
	origin Point
}

func (e edge) at(t, out float64) Point {
	switch e.side {
	case Above:
		return e.origin.Add(Point{t, out})
	case Left:
		return e.origin.Add(Point{-out, t})
	case Right:
		return e.origin.Add(Point{out, t})
	}
	return e.origin.Add(Point{t, -out})
}

// line draws from (t, out) to (u, far).
func (e edge) line(role Role, t, out, u, far float64) Polyline {
	return Line(role, e.at(t, out), e.at(u, far))
}

// along returns the room that a label needs along the edge, across the room that it needs away from it.
func (e edge) along(l Label) float64 {
	if e.side.upright() {
		return l.height()
	}
	return l.width()
}

func (e edge) across(l Label) float64 {
	if e.side.upright() {
		return l.width()
	}
	return l.height()
}

// label draws a label that fills the slot, in a row that starts out mm from the edge and is depth mm deep.
func (e edge) label(l Label, s slot, out, depth float64) []Shape {
	if e.side.upright() {
		a := Start
		if e.side == Left {
			a = End
		}
		return l.stacked(e.at(s.to, out), a)
	}
	t, a := (s.from+s.to)/2, Middle
	switch s.hang {
	case before:
		t, a = s.to, End
	case after:
		t, a = s.from, Start
	}
	if e.side == Above {
		out += depth // the top of the figures is the far side
	}
	return l.stacked(e.at(t, out), a)
}
