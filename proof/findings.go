package proof

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/problem"
)

// say prints a length in the card's unit and in the other one.
func (r *Report) say(l length.Length) string { return l.Both(r.Card.Unit) }

// notFlat explains a card that does not lie flat.
func (r *Report) notFlat() {
	if r.Stopped {
		r.Problems.Add(problem.Problem{
			Rule: "flat-stopped", Where: r.Card.Where,
			What:  "the search for the way this card folds shut was stopped before it came to an end",
			Needs: "more time (--limit), or fewer scores that may be folded or not: say in a piece which are folded in the closed card, with a line closed folds",
		})
		return
	}
	if c := r.Closed.Clash; c != nil && !r.Closed.OrderOK {
		r.clash(c)
		return
	}
	for _, g := range r.Miss.Gaps {
		r.gap(g)
	}
	if len(r.Miss.Gaps) == 0 {
		r.noWay()
	}
}

// clash reports panels that no order of layers keeps apart.
func (r *Report) clash(c *flat.Clash) {
	a, b := r.Assembly.Panels[c.A], r.Assembly.Panels[c.B]
	where := r.Assembly.Copies[a.Copy].Pattern.Piece.Where
	r.Problems.Add(problem.Problem{
		Rule: "layer-clash", Where: where,
		What:  fmt.Sprintf("the card cannot lie flat in any order of its layers: %s and %s are in each other's way", a.Ref, b.Ref),
		Needs: "folds and glue joints that leave every panel a place in front of or behind its neighbours",
		Try:   r.tryCure(),
	})
}

// gap reports a glue joint that does not meet.
func (r *Report) gap(g flat.Gap) {
	if g.Hinge >= 0 {
		h := r.Assembly.Hinges[g.Hinge]
		r.Problems.Add(problem.Problem{
			Rule: "gap", Where: r.Assembly.Copies[h.Copy].Pattern.Piece.Scores[h.Score()].Where,
			What: fmt.Sprintf("closed flat, %s does not meet itself at score %d: its two sides are %s apart",
				r.Assembly.Copies[h.Copy].Name, h.Score()+1, r.say(length.FromMM(math.Hypot(g.DX.MM(), g.DY.MM())))),
			Needs: "widths that add up on both sides of the slits",
			Try:   r.tryCure(),
		})
		return
	}
	j := r.Assembly.Joints[g.Joint]
	r.Problems.Add(problem.Problem{
		Rule: "gap", Where: j.Glue.Where,
		What: fmt.Sprintf("closed flat, %s misses its place on %s: it lands %s",
			r.Assembly.Panels[j.A].Ref, r.Assembly.Panels[j.B].Ref, r.offset(g.DX, g.DY)),
		Needs: "measurements with which it lands exactly",
		Try:   r.tryCure(),
		Notes: r.cureNote(),
	})
}

// offset says where something lies: "6.35 mm (1/4 in) too far right".
func (r *Report) offset(dx, dy length.Length) string {
	var parts []string
	add := func(d length.Length, plus, minus string) {
		switch {
		case d > 0:
			parts = append(parts, r.say(d)+" too "+plus)
		case d < 0:
			parts = append(parts, r.say(-d)+" too "+minus)
		}
	}
	add(dx, "far right", "far left")
	add(dy, "high", "low")
	return strings.Join(parts, " and ")
}

func (r *Report) tryCure() string {
	if r.Miss == nil || len(r.Miss.Cures) == 0 {
		return ""
	}
	return r.Say(r.Miss.Cures[0])
}

func (r *Report) cureNote() []problem.Note {
	if r.Miss == nil || len(r.Miss.Cures) == 0 {
		return nil
	}
	c := r.Miss.Cures[0]
	if c.Kind != flat.MoveScore {
		return nil
	}
	return []problem.Note{{Where: r.Card.Pieces[c.Piece].Scores[c.Score-1].Where, What: "that score is here"}}
}

// Say puts a cure into words that a maker can follow.
func (r *Report) Say(c flat.Cure) string {
	to, from := r.mark(c.To), r.mark(c.From)
	switch c.Kind {
	case flat.MoveScore:
		return fmt.Sprintf("score %d of %s at %s instead of %s", c.Score, r.Card.Pieces[c.Piece].Name, to, from)
	case flat.ShiftGlue:
		g := r.Card.Glues[c.Piece]
		way := "over"
		if c.Up {
			way = "up"
		}
		joint := refName(g.A) + " " + g.Joint.String() + " " + refName(g.B)
		if c.From != 0 {
			return fmt.Sprintf("glue %s with \"%s %s\" instead of \"%s %s\" in its line", joint, way, to, way, from)
		}
		return fmt.Sprintf("glue %s with a shift: add \", %s %s\" to its line", joint, way, to)
	case flat.MoveLine:
		way := "from the left"
		if c.Up {
			way = "from the bottom"
		}
		name := r.Card.Pieces[c.Piece].Name
		if c.Score > 0 {
			return fmt.Sprintf("score %d of %s, and what ends on its line, at %s %s instead of %s", c.Score, name, to, way, from)
		}
		return fmt.Sprintf("what ends on the line %s %s of %s at %s instead", from, way, name, to)
	case flat.Reglue:
		g := r.Card.Glues[c.Piece]
		return fmt.Sprintf("glue %s: %s", refName(g.A)+" "+g.Joint.String()+" "+refName(g.B), gluingWords(c.Was, c.Gluing))
	case flat.ResizePiece:
		return fmt.Sprintf("cut %s %s %s instead of %s", r.Card.Pieces[c.Piece].Name, to, axis(c.Up), from)
	}
	p := &r.Card.Pieces[c.Piece]
	size := p.Size.W
	if c.Up {
		size = p.Size.H
	}
	label := r.panelLabel(c.Piece, c.Panel)
	return fmt.Sprintf("panel %s of %s %s wide instead of %s: the scores behind it move by %s, and the piece is cut %s %s",
		label, p.Name, to, from, r.mark(c.Change().Abs()), r.mark(size+c.Change()), axis(c.Up))
}

// mark prints a measurement that is to be set on a ruler: in the card's unit where that is exact, else in millimetres.
func (r *Report) mark(l length.Length) string {
	if text, ok := l.Exact(r.Card.Unit); ok {
		return text + " " + r.Card.Unit.String()
	}
	text, _ := l.Exact(length.MM)
	return text + " mm"
}

// gluingWords says what changes in a glue line: "right instead of left".
func gluingWords(was, is flat.Gluing) string {
	across, upright := [...]string{"centre", "left", "right"}, [...]string{"middle", "bottom", "top"}
	switch {
	case was.Joint != is.Joint:
		return is.Joint.String() + " instead of " + was.Joint.String()
	case was.AlignX != is.AlignX:
		return across[is.AlignX] + " instead of " + across[was.AlignX]
	case was.AlignY != is.AlignY:
		return upright[is.AlignY] + " instead of " + upright[was.AlignY]
	}
	return fmt.Sprintf("turned %g instead of %g", is.TurnedDeg, was.TurnedDeg)
}

func refName(p card.PanelRef) string {
	if p.Copy > 0 {
		return fmt.Sprintf("%s#%d.%s", p.Piece, p.Copy, p.Panel)
	}
	return p.Piece + "." + p.Panel
}

func axis(up bool) string {
	if up {
		return "high"
	}
	return "wide"
}

func (r *Report) panelLabel(piece, panel int) string {
	for _, c := range r.Assembly.Copies {
		if c.Piece == piece {
			return c.Pattern.Panels[panel].Label
		}
	}
	return ""
}

// noWay reports a card for which no choice of folds comes near to closing.
func (r *Report) noWay() {
	if r.vertices() {
		return
	}
	if len(r.Miss.Joints) == 0 {
		r.Problems.Add(problem.Problem{
			Rule: "no-way-flat", Where: r.Card.Where,
			What:  "no choice of folds brings the glued panels together, and no single glue line is to blame",
			Needs: "glue lines that can all be met at once",
			Try:   r.tryCure(),
		})
		return
	}
	for _, i := range r.Miss.Joints {
		j := r.Assembly.Joints[i]
		r.Problems.Add(problem.Problem{
			Rule: "no-way-flat", Where: j.Glue.Where,
			What: fmt.Sprintf("no choice of folds brings %s onto %s as this line says; without this line the card would lie flat",
				r.Assembly.Panels[j.A].Ref, r.Assembly.Panels[j.B].Ref),
			Needs: "another face (inside, outside, against, facing) or another turn; no single measurement is within " + r.say(flat.Slack) + " of curing it",
			Try:   r.tryCure(),
		})
	}
}

// vertices names the points where scores meet that cannot fold as asked, and says whether there are any.
func (r *Report) vertices() bool {
	any := false
	for i, p := range r.Card.Pieces {
		c := slices.IndexFunc(r.Assembly.Copies, func(c pattern.Copy) bool { return c.Piece == i })
		if c < 0 {
			continue
		}
		pat := r.Assembly.Copies[c].Pattern
		for _, v := range flat.Vertices(pat) {
			var senses []card.Sense
			var must []bool
			for _, h := range v.Hinges {
				senses = append(senses, pat.Hinges[h].Sense)
				must = append(must, p.ClosedFoldsSaid && slices.Contains(p.ClosedFolds, pat.Hinges[h].Score()+1))
			}
			if some, _ := v.FoldsFlat(senses, must); some || !p.ClosedFoldsSaid {
				continue
			}
			any = true
			residual := flat.Kawasaki(v.Sectors) * 180 / math.Pi
			r.Problems.Add(problem.Problem{
				Rule: "vertex", Where: p.Where,
				What: fmt.Sprintf("piece %s: the %d scores that meet at (%s, %s) cannot fold flat together: every other angle sums to %.4g degrees",
					p.Name, len(v.Hinges), v.At.X.Human(r.Card.Unit), v.At.Y.Human(r.Card.Unit), 180+residual/2),
				Needs: "every other angle to sum to 180 degrees, and mountains and valleys that differ by two",
			})
		}
	}
	return any
}

// driverFolds reports a card that opens at a score which its `closed folds` line leaves straight.
func (r *Report) driverFolds() bool {
	o := r.Card.Opening
	if o.Kind != card.OpensAt {
		return true
	}
	for _, p := range r.Card.Pieces {
		if p.Name != o.Piece.Piece || !p.ClosedFoldsSaid || slices.Contains(p.ClosedFolds, o.Score) {
			continue
		}
		r.Problems.Add(problem.Problem{
			Rule: "opens-straight", Where: o.Where,
			What:  fmt.Sprintf("the card opens at score %d of %s, but its closed folds leave that score straight", o.Score, p.Name),
			Needs: fmt.Sprintf("score %d among the closed folds, or another score to open at", o.Score),
			Notes: []problem.Note{{Where: p.ClosedWhere, What: "the closed folds are said here"}},
		})
		return false
	}
	return true
}

// flatFindings judges a card that lies flat.
func (r *Report) flatFindings(ctx context.Context) {
	if f := r.Card.Fits; f != nil {
		b := r.Closed.Outline()
		if b.W() > f.W || b.H() > f.H {
			try := fmt.Sprintf("bring it to that size: foldwright resize %s --to %q", r.File, r.mark(f.W)+" x "+r.mark(f.H))
			if r.Shrinks = r.Closed.Shrink(ctx, f.W, f.H); len(r.Shrinks) > 0 {
				try = r.Say(r.Shrinks[0])
			}
			r.Problems.Add(problem.Problem{
				Rule: "fits", Where: r.Card.FitWhere,
				What:  fmt.Sprintf("closed, the card is %s by %s%s", r.say(b.W()), r.say(b.H()), r.withToppers()),
				Needs: fmt.Sprintf("at most %s by %s: it is too large by %s", r.say(f.W), r.say(f.H), r.excess(b.W()-f.W, b.H()-f.H)),
				Try:   try,
			})
		}
	}
	r.mats()
	if len(r.Slips) > 0 {
		r.slip(r.Slips[0])
	}
}

func (r *Report) withToppers() string {
	if r.Closed.Outline() == r.Closed.Box {
		return ""
	}
	return " with its toppers"
}

// mats reports mats that leave nothing of themselves, and those that lie over a window.
func (r *Report) mats() {
	for _, d := range r.Closed.MatTrouble() {
		p := r.Assembly.Panels[d.Panel]
		m := r.Card.Mats[d.Mat]
		if d.Gone {
			r.Problems.Add(problem.Problem{
				Rule: "mat-size", Where: m.Where,
				What:  fmt.Sprintf("an edge of %s leaves nothing of the mat on %s", r.say(m.Edge), p.Ref),
				Needs: "an edge of less than half the panel's width and height, or of the mat below it",
			})
			continue
		}
		r.Problems.Add(problem.Problem{
			Rule: "mat-window", Severity: problem.Warning, Where: m.Where,
			What:  fmt.Sprintf("the mat on %s lies over its window", p.Ref),
			Needs: "the same window cut in the mat",
		})
	}
}

// excess says by how much something is too large: "10 mm across".
func (r *Report) excess(across, up length.Length) string {
	var parts []string
	if across > 0 {
		parts = append(parts, r.say(across)+" across")
	}
	if up > 0 {
		parts = append(parts, r.say(up)+" up")
	}
	return strings.Join(parts, " and ")
}

func (r *Report) slip(s flat.Slip) {
	var straight []string
	for _, h := range s.Straight {
		n := fmt.Sprint(r.Assembly.Hinges[h].Score() + 1)
		if r.Assembly.Copies[r.Assembly.Hinges[h].Copy].Piece == s.Piece && !slices.Contains(straight, n) {
			straight = append(straight, n)
		}
	}
	p := r.Card.Pieces[s.Piece]
	where := p.Where
	if s.Kind == flat.MoveScore {
		where = p.Scores[s.Score-1].Where
	}
	r.Problems.Add(problem.Problem{
		Rule: "likely-slip", Severity: problem.Warning, Where: where,
		What:  fmt.Sprintf("the card lies flat only with scores %s of %s left straight", strings.Join(straight, ", "), p.Name),
		Needs: "if they are meant to fold shut, one measurement is off",
		Try:   r.Say(s.Cure),
	})
}

// openFindings judges the way from closed to open.
func (r *Report) openFindings() {
	o := r.Opening
	where := r.Card.Opening.Where
	if where.Line == 0 {
		where = r.Card.Where
	}
	if o.Outcome == fold.Locks {
		r.locks(where)
	}
	for i, x := range r.Passings {
		if i == 3 {
			break
		}
		r.Problems.Add(problem.Problem{
			Rule: "panels-cross", Where: where,
			What: fmt.Sprintf("to open, %s would have to pass through %s, which lies over it in the closed card",
				r.Assembly.Panels[x.Front].Ref, r.Assembly.Panels[x.Behind].Ref),
			Needs: "panels that clear each other from the very beginning: nothing that runs right round the card, and no panel held behind another",
		})
	}
	note := "on the only way open"
	if o.Freedom > 1 {
		note = "on the way that was followed (the card is loose, so another may be clear)"
	}
	for i, x := range r.Crossings {
		if i == 3 {
			break
		}
		r.Problems.Add(problem.Problem{
			Rule: "panels-cross", Where: where,
			What: fmt.Sprintf("%s and %s pass through each other %s, %s",
				r.Assembly.Panels[x.A].Ref, r.Assembly.Panels[x.B].Ref, note, r.moment(x.Pose)),
			Needs: "panels that clear each other: narrower, or cut back where they meet",
		})
	}
}

func (r *Report) locks(where problem.Place) {
	o := r.Opening
	if o.Driver == card.OpensAt && len(o.Poses) > 1 {
		reached := o.Poses[len(o.Poses)-1].Drive * 180 / math.Pi
		r.Problems.Add(problem.Problem{
			Rule: "opens-short", Where: where,
			What:  fmt.Sprintf("the card opens to %.0f degrees and locks there", reached),
			Needs: fmt.Sprintf("to open to %g degrees", r.Card.Opening.ToDeg),
			Try:   fmt.Sprintf("opens at %s.%d to %.0f", r.Card.Opening.Piece.Piece, r.Card.Opening.Score, max(1, math.Floor(reached))),
		})
		return
	}
	if o.Driver == card.OpensAt {
		r.Problems.Add(problem.Problem{
			Rule: "opens-not", Where: where,
			What:  fmt.Sprintf("score %d of %s cannot open: the other folds and joints hold it shut", r.Card.Opening.Score, r.Card.Opening.Piece.Piece),
			Needs: "a score that opens first, or joints that leave it a way to move",
		})
		return
	}
	r.Problems.Add(problem.Problem{
		Rule: "opens-not", Where: where,
		What:  "the closed card lies flat but is locked: nothing in it can open",
		Needs: "scores and joints that leave it a way to move",
	})
}

// moment says when on the way something happens.
func (r *Report) moment(pose int) string {
	p := r.Opening.Poses[pose]
	if r.Opening.Driver == card.OpensAt {
		return fmt.Sprintf("at %.0f degrees open (pose %d of %d)", p.Drive*180/math.Pi, pose+1, len(r.Opening.Poses))
	}
	return fmt.Sprintf("with %s and %s %.0f mm apart (pose %d of %d)", r.Assembly.Panels[r.Opening.Panels[0]].Ref,
		r.Assembly.Panels[r.Opening.Panels[1]].Ref, p.Drive, pose+1, len(r.Opening.Poses))
}
