package wrap

import (
	"foldwright/card"
	"foldwright/length"
)

// plain lays out an envelope: its scores are left, back, right and flap in the order of the sides.
//
// The back covers about three quarters of the front and is glued onto the side flaps; the closing flap covers the rest and
// half an inch of the back. Both are a mark narrower than the front on each side, so that neither catches on a fold.
func (j Job) plain(w *Wrap) sheet {
	long, short := j.inside()
	w.Inside = card.Size{W: long, H: short}
	seam := j.down(min(j.handy(20, 3*length.Inch/4), long/3))
	back := j.up(3 * short / 4)
	closing := j.up(short - back + j.handy(12, length.Inch/2))
	m := j.Marks
	s := sheet{body: w.Inside, names: []string{"front"}}
	s.flaps = [4][]flap{
		bottom: {{name: "back", from: m, to: long - m, depth: back}},
		right:  {{name: "right", from: 0, to: short, depth: seam, wedge: j.corner()}},
		top:    {{name: "flap", from: m, to: long - m, depth: closing, wedge: 2 * j.corner()}},
		left:   {{name: "left", from: 0, to: short, depth: seam, wedge: j.corner()}},
	}
	ref := func(panel string) card.PanelRef { return card.PanelRef{Piece: j.Kind.String(), Panel: panel} }
	s.glues = []card.Glue{
		{A: ref("left"), B: ref("back"), Joint: card.Inside, AlignX: card.AlignLow, AlignY: card.AlignHigh, TurnedDeg: 180, Over: -m},
		{A: ref("right"), B: ref("back"), Joint: card.Inside, AlignX: card.AlignHigh, AlignY: card.AlignHigh, TurnedDeg: 180, Over: m},
	}
	s.opens = card.Opening{Kind: card.OpensAt, Piece: card.PieceRef{Piece: j.Kind.String()}, Score: 3, ToDeg: 180}
	return s
}

// box lays out a sleeve with a lid at both ends of its back: scores 1 to 4 between its panels, then those of the ends.
//
// It lies flat folded at scores 2 and 4. Its ends are still straight then: nobody has folded them yet.
func (j Job) box(w *Wrap) sheet {
	long, short := j.inside()
	w.Inside = card.Size{W: short, H: long}
	// From score to score a wall is a caliper deeper than its inside.
	w.Wall = j.up(max(j.thick()+j.Stock.Caliper, j.handy(3, length.Inch/8)))
	tab, m := j.handy(12, length.Inch/2), j.Marks
	x := []length.Length{short, short + w.Wall, 2*short + w.Wall, 2*short + 2*w.Wall}
	s := sheet{
		body: card.Size{W: x[3] + tab, H: long}, across: x, names: []string{"front", "right", "back", "left", "tab"},
		folds: []int{2, 4}, wedges: []card.Wedge{{Panel: "tab", Depth: j.corner()}},
	}
	tongue := j.handy(15, 5*length.Inch/8)
	for _, side := range [...]int{bottom, top} {
		end := [...]string{bottom: "bottom", top: "top"}[side]
		lid := flap{name: end + "-lid", from: x[1] + m, to: x[2] - m, depth: w.Wall + tongue, tongue: end + "-tongue", tongueDepth: tongue, wedge: j.corner()}
		s.flaps[side] = []flap{lid}
		if w.Wall-2*m >= j.handy(6, length.Inch/4) { // a narrower wing cannot be folded
			wing := func(wall string, from length.Length) flap {
				return flap{name: end + "-" + wall + "-wing", from: from + m, to: from + w.Wall - m, depth: j.down(min(short/3, 2*tongue))}
			}
			s.flaps[side] = []flap{wing("right", x[0]), lid, wing("left", x[2])}
		}
	}
	for n := len(x) + 1; n <= len(x)+2*(len(s.flaps[bottom])+1); n++ {
		s.straight = append(s.straight, n)
	}
	s.glues = []card.Glue{{A: card.PanelRef{Piece: j.Kind.String(), Panel: "tab"}, B: card.PanelRef{Piece: j.Kind.String(), Panel: "front"},
		Joint: card.Inside, AlignX: card.AlignLow}}
	s.opens = card.Opening{Kind: card.OpensAt, Piece: card.PieceRef{Piece: j.Kind.String()}, Score: 2, ToDeg: 90}
	return s
}

// handy returns a length that hands are used to, in whole millimetres or in inches, brought up to a mark.
func (j Job) handy(mm int64, inches length.Length) length.Length {
	if j.Unit == length.IN {
		return j.up(inches)
	}
	return j.up(length.Length(mm) * length.Millimetre)
}

// corner returns what is taken off the outer corners of flaps and tabs.
func (j Job) corner() length.Length { return j.handy(3, length.Inch/8) }
