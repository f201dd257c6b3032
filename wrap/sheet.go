package wrap

import (
	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// The sides of a body, in the order in which its outline runs round it.
const (
	bottom = iota
	right
	top
	left
)

// flap hangs on one side of a body, from From to To along that side.
type flap struct {
	name     string
	from, to length.Length
	depth    length.Length
	wedge    length.Length // what is taken off both outer corners; 0 for none
	// tongue is the name of what lies beyond a second score, at depth less tongueDepth; "" for none.
	tongue      string
	tongueDepth length.Length
}

// sheet is a blank: a body with upright scores across it, and flaps on its four sides, whose scores follow.
type sheet struct {
	body   card.Size
	across []length.Length // upright scores of the body
	names  []string        // of the body's panels, one more
	flaps  [4][]flap
	// folds and straight list the scores that are folded shut in the closed card, and those that nobody has folded yet when
	// the sheet is opened; counted from 1. No folds where the search finds them.
	folds, straight []int
	wedges          []card.Wedge
	glues           []card.Glue
	opens           card.Opening
}

// depth returns how far the flaps of a side reach.
func (s sheet) depth(side int) length.Length {
	most := length.Length(0)
	for _, f := range s.flaps[side] {
		most = max(most, f.depth)
	}
	return most
}

// place returns the point of a flap that lies along the side and out from it, in the body's axes.
func (s sheet) place(side int, along, out length.Length) plane.Point {
	switch side {
	case bottom:
		return at(along, -out)
	case right:
		return at(s.body.W+out, along)
	case top:
		return at(along, s.body.H+out)
	}
	return at(-out, along)
}

// piece lays the sheet out, its lower left corner at the origin.
func (s sheet) piece(name, stock string) card.Piece {
	p := card.Piece{Name: name, Stock: stock, Copies: 1, ClosedFolds: s.folds, ClosedFoldsSaid: len(s.folds) > 0, Wedges: s.wedges}
	off := at(s.depth(left), s.depth(bottom))
	p.Outline = s.outline(off)
	p.Size = card.Size{W: s.body.W + s.depth(left) + s.depth(right), H: s.body.H + s.depth(bottom) + s.depth(top)}
	score := func(a, b plane.Point) {
		p.Scores = append(p.Scores, card.Score{Kind: card.Slanted, From: a.Add(off), To: b.Add(off), Sense: card.Mountain})
	}
	call := func(name string, a, b plane.Point) {
		p.PanelsAt = append(p.PanelsAt, card.PanelAt{Name: name, At: at((a.X+b.X)/2, (a.Y+b.Y)/2).Add(off)})
	}
	for _, x := range s.across {
		score(at(x, 0), at(x, s.body.H))
	}
	ends := append(append([]length.Length{0}, s.across...), s.body.W)
	for i, n := range s.names {
		call(n, at(ends[i], 0), at(ends[i+1], s.body.H))
	}
	for side, flaps := range s.flaps {
		for _, f := range flaps {
			score(s.place(side, f.from, 0), s.place(side, f.to, 0))
			call(f.name, s.place(side, f.from, 0), s.place(side, f.to, f.depth-f.tongueDepth))
			if f.wedge > 0 {
				p.Wedges = append(p.Wedges, card.Wedge{Panel: last(f), Depth: f.wedge})
			}
			if f.tongue != "" {
				score(s.place(side, f.from, f.depth-f.tongueDepth), s.place(side, f.to, f.depth-f.tongueDepth))
				call(f.tongue, s.place(side, f.from, f.depth-f.tongueDepth), s.place(side, f.to, f.depth))
			}
		}
	}
	if len(s.straight) > 0 {
		p.Rest = []card.CreaseValue{{Value: 0, Scores: s.straight}}
	}
	return p
}

// last returns the name of the outermost panel of a flap.
func last(f flap) string {
	if f.tongue != "" {
		return f.tongue
	}
	return f.name
}

// outline returns the corners, moved by off. Flaps of one side are given from the low end to the high end.
func (s sheet) outline(off plane.Point) []plane.Point {
	body := [4]plane.Point{at(0, 0), at(s.body.W, 0), at(s.body.W, s.body.H), at(0, s.body.H)}
	var out []plane.Point
	add := func(q plane.Point) {
		if q = q.Add(off); len(out) == 0 || out[len(out)-1] != q {
			out = append(out, q)
		}
	}
	for side := range s.flaps {
		add(body[side])
		flaps := s.flaps[side]
		for i := range flaps {
			f := flaps[i]
			from, to := f.from, f.to
			if side == top || side == left { // the outline runs the other way there
				f = flaps[len(flaps)-1-i]
				from, to = f.to, f.from
			}
			add(s.place(side, from, 0))
			add(s.place(side, from, f.depth))
			add(s.place(side, to, f.depth))
			add(s.place(side, to, 0))
		}
	}
	if out[len(out)-1] == out[0] {
		out = out[:len(out)-1]
	}
	return corners(out)
}

// corners leaves out of a ring the points at which it does not turn.
func corners(ring []plane.Point) []plane.Point {
	var out []plane.Point
	n := len(ring)
	for i, q := range ring {
		if plane.Side(ring[(i+n-1)%n], q, ring[(i+1)%n]) != 0 {
			out = append(out, q)
		}
	}
	return out
}

// card makes a card of the sheet.
func (s sheet) card(j Job) *card.Card {
	c := &card.Card{Title: title(j), Unit: j.Unit, Marks: j.Marks, Stocks: []card.Stock{j.Stock}, Glues: s.glues, Opening: s.opens}
	c.Pieces = []card.Piece{s.piece(j.Kind.String(), j.Stock.Name)}
	return c
}

// title says what the wrap is for.
func title(j Job) string {
	name := "Envelope"
	if j.Kind == Box {
		name = "Box"
	}
	return name + " for a card of " + j.Size.W.Human(j.Unit) + " by " + j.Size.H.Human(j.Unit) + ", " + j.Thick.Human(j.Unit) + " thick"
}
