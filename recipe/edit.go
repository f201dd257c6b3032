package recipe

import (
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// The Set methods change measurements and leave everything else of the text as it is: order, comments, blank lines.
// Nothing is checked: hand the written text to Parse, or the card to card.Check. A card got before stays as it was.
// Each returns an error where the recipe has no such statement, and then changes nothing.

// SetUnits changes the unit of bare numbers. No length changes; the numbers are written in the new unit.
func (r *Recipe) SetUnits(u length.Unit) {
	r.setOnce(func(s statement) bool {
		l, ok := s.(*unitsLine)
		if ok {
			l.unit = u
		}
		return ok
	}, &unitsLine{u})
}

// SetMarks changes the pitch of the ruler, written in unit; a recipe without marks gets them.
func (r *Recipe) SetMarks(pitch length.Length, unit length.Unit) {
	r.setOnce(func(s statement) bool {
		l, ok := s.(*marksLine)
		if ok {
			l.pitch = thickness{pitch, unit}
		}
		return ok
	}, &marksLine{pitch: thickness{pitch, unit}})
}

// SetFits changes the size that the closed card must stay within; a recipe without one gets it.
func (r *Recipe) SetFits(size card.Size) {
	r.setOnce(func(s statement) bool {
		l, ok := s.(*fitsLine)
		if ok {
			l.size = size
		}
		return ok
	}, &fitsLine{size: size})
}

// SetSize changes the size of a piece that is a rectangle.
func (r *Recipe) SetSize(piece string, size card.Size) error {
	return setIn(r, piece, "a size line", 1, func(l *sizeLine) { l.size = size })
}

// SetOutline changes the corners of a piece that has an outline.
func (r *Recipe) SetOutline(piece string, corners []plane.Point) error {
	return setIn(r, piece, "an outline", 1, func(l *outlineLine) { l.points = slices.Clone(corners) })
}

// SetScore moves score n of a piece, counted from 1 in the order in which the scores are written, to another distance
// from the left or the bottom edge.
func (r *Recipe) SetScore(piece string, n int, at length.Length) error {
	return r.set(piece, fmt.Sprintf("a level or upright score %d", n), func(s statement) bool {
		switch l := s.(type) {
		case *scoreLine:
			n--
		case *scoresLine:
			if n >= 1 && n <= len(l.scores) {
				l.scores[n-1].At = at
				return true
			}
			n -= len(l.scores)
		}
		return false
	})
}

// SetScoreEnds moves the two ends of score n of a piece, which is neither level nor upright by its form.
func (r *Recipe) SetScoreEnds(piece string, n int, from, to plane.Point) error {
	return r.set(piece, fmt.Sprintf("a score %d with two ends", n), func(s statement) bool {
		switch l := s.(type) {
		case *scoreLine:
			if n--; n == 0 {
				l.score.From, l.score.To = from, to
				return true
			}
		case *scoresLine:
			n -= len(l.scores)
		}
		return false
	})
}

// SetWedge changes how much is taken off the corners of a tab.
func (r *Recipe) SetWedge(piece, panel string, depth length.Length) error {
	return r.set(piece, "a wedge for "+panel, func(s statement) bool {
		l, ok := s.(*wedgeLine)
		if ok = ok && l.wedge.Panel == panel; ok {
			l.wedge.Depth = depth
		}
		return ok
	})
}

// SetShift changes how far the first panel of glue line n, counted from 1, is shifted from its place.
func (r *Recipe) SetShift(n int, over, up length.Length) error {
	return setNth(r, "glue line", n, func(l *glueLine) { l.shift(over, up) })
}

// shift puts how far the first panel is shifted; 0 is written where it was said before.
func (l *glueLine) shift(over, up length.Length) {
	l.glue.Over, l.over = over, l.over || over != 0
	l.glue.Up, l.up = up, l.up || up != 0
}

// SetKeep changes the length in keep line n, counted from 1, where one side is a plain length: keep wall.tab = 12.
func (r *Recipe) SetKeep(n int, l length.Length) error {
	plain := false
	err := setNth(r, "keep line", n, func(k *keepLine) {
		for _, side := range [][]summand{k.right, k.left} {
			if plain = len(side) == 1 && !side[0].measured; plain {
				side[0].constant = l
				return
			}
		}
	})
	if err == nil && !plain {
		return fmt.Errorf("keep line %d has no side that is a plain length", n)
	}
	return err
}

// SetMatEdge changes the edge of mat line n, counted from 1.
func (r *Recipe) SetMatEdge(n int, edge length.Length) error {
	return setNth(r, "mat line", n, func(l *matLine) { l.mat.Edge = edge })
}

// SetTopper changes size and height of topper n, counted from 1. The size of a polygon is left as it is: see
// SetTopperCorners; at has no meaning for a topper that is centred.
func (r *Recipe) SetTopper(n int, size card.Size, at length.Length) error {
	return setNth(r, "topper", n, func(l *topperLine) {
		if l.topper.Kind != card.Polygon {
			l.topper.Size = size
		}
		if l.topper.Place != card.TopperCentre {
			l.topper.At = at
		}
	})
}

// SetTopperCorners changes the corners of topper n, a polygon.
func (r *Recipe) SetTopperCorners(n int, corners []plane.Point) error {
	return setNth(r, "topper", n, func(l *topperLine) { l.topper.Points = slices.Clone(corners) })
}

// SetMeasured puts the measured values of a stock that are given (stiffness, crease, rest, scored) into the line of the stock
// of its name; the other values stay.
func (r *Recipe) SetMeasured(s card.Stock) error {
	for _, l := range r.lines {
		line, ok := l.statement.(*stockLine)
		if !ok || line.stock.Name != s.Name {
			continue
		}
		put := func(into *card.Number, n card.Number) {
			if n.Given {
				into.Value, into.Given = n.Value, true
			}
		}
		put(&line.stock.StiffnessMilliNm, s.StiffnessMilliNm)
		put(&line.stock.CreaseNPerRad, s.CreaseNPerRad)
		put(&line.stock.RestDeg, s.RestDeg)
		put(&line.stock.ScoredDeg, s.ScoredDeg)
		r.rebuild()
		return nil
	}
	return fmt.Errorf("there is no stock %q", s.Name)
}

// setNth changes the n-th statement of a kind, counted over the whole recipe.
func setNth[S statement](r *Recipe, what string, n int, change func(S)) error {
	count := 0
	for _, l := range r.lines {
		s, ok := l.statement.(S)
		if !ok {
			continue
		}
		if count++; count == n {
			change(s)
			r.rebuild()
			return nil
		}
	}
	return fmt.Errorf("there is no %s %d", what, n)
}

// setIn changes the n-th statement of a kind in a piece.
func setIn[S statement](r *Recipe, piece, what string, n int, change func(S)) error {
	return r.set(piece, what, func(s statement) bool {
		l, ok := s.(S)
		if !ok {
			return false
		}
		if n--; n == 0 {
			change(l)
		}
		return n == 0
	})
}

// set changes the first statement of a piece that change takes.
func (r *Recipe) set(piece, what string, change func(statement) bool) error {
	in, found := false, false
	for _, l := range r.lines {
		switch s := l.statement.(type) {
		case nil:
		case *pieceLine:
			in = s.name == piece
			found = found || in
		default:
			if in && l.inner && change(s) {
				r.rebuild()
				return nil
			}
		}
	}
	if !found {
		return fmt.Errorf("there is no piece %q", piece)
	}
	return fmt.Errorf("piece %s has no such line: %s", piece, what)
}

// setOnce changes a statement that may stand once at the head of a card, or puts a new one where it belongs: behind the
// last line that comes before it in the order of keywords.
func (r *Recipe) setOnce(change func(statement) bool, fresh statement) {
	at := 0
	for i, l := range r.lines {
		if l.statement != nil && change(l.statement) {
			r.rebuild()
			return
		}
		if rank := headRank(l.statement); rank > 0 && rank < headRank(fresh) {
			at = i + 1
		}
	}
	r.lines = append(r.lines[:at:at], append([]line{{statement: fresh}}, r.lines[at:]...)...)
	r.rebuild()
}

// headRank orders the lines at the head of a card.
func headRank(s statement) int {
	switch s.(type) {
	case *titleLine:
		return 1
	case *unitsLine:
		return 2
	case *marksLine:
		return 3
	case *fitsLine:
		return 4
	}
	return 0
}

// SetSlit moves the two ends of slit n of a piece, counted from 1.
func (r *Recipe) SetSlit(piece string, n int, from, to plane.Point) error {
	return setIn(r, piece, fmt.Sprintf("a slit %d", n), n, func(l *slitLine) { l.slit.From, l.slit.To = from, to })
}

// SetWindow changes size, place and corners of window n of a piece, counted from 1; its kind stays.
func (r *Recipe) SetWindow(piece string, n int, w card.Window) error {
	return setIn(r, piece, fmt.Sprintf("a window %d", n), n, func(l *windowLine) {
		l.window.Size, l.window.At, l.window.Points = w.Size, w.At, slices.Clone(w.Points)
	})
}

// SetPanelAt moves the point that names panel n of a piece, counted from 1 over its lines of that kind.
func (r *Recipe) SetPanelAt(piece string, n int, at plane.Point) error {
	return setIn(r, piece, fmt.Sprintf("a panel line %d", n), n, func(l *panelLine) { l.panel.At = at })
}

// SetGlue changes how glue line n, counted from 1, joins its two panels: the faces, the alignment, the turn and the shift.
func (r *Recipe) SetGlue(n int, g card.Glue) error {
	return setNth(r, "glue line", n, func(l *glueLine) {
		l.glue.Joint, l.glue.AlignX, l.glue.AlignY, l.glue.TurnedDeg = g.Joint, g.AlignX, g.AlignY, g.TurnedDeg
		l.saidX = l.saidX || g.AlignX != card.AlignMiddle
		l.saidY = l.saidY || g.AlignY != card.AlignMiddle
		l.saidTurned = l.saidTurned || g.TurnedDeg != 0
		l.shift(g.Over, g.Up)
	})
}
