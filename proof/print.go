package proof

import (
	"fmt"
	"io"
	"strings"

	"foldwright/card"
	"foldwright/fold"
	"foldwright/length"
	"foldwright/problem"
)

// Print writes the report for people: the verdict, what was found, every problem with its place and its cure. Lengths come
// in the card's own unit with the other one in brackets.
func (r *Report) Print(w io.Writer) error {
	p := &printer{w: w}
	p.line("%s", r.Verdict())
	if r.Closed != nil && r.Closed.LiesFlat() {
		r.printClosed(p)
	}
	if r.Opening != nil {
		r.printOpen(p)
	}
	if len(r.Problems) > 0 {
		p.line("")
		p.line("%s:", counted(r.Problems))
	}
	last := ""
	for _, q := range r.Problems {
		if q.Try != "" && q.Try == last {
			q.Try, q.Notes = "", nil // the same cure again
		} else {
			last = q.Try
		}
		p.line("%s", q.String())
	}
	if r.Miss != nil && len(r.Miss.Cures) > 1 {
		p.line("")
		p.line("any one of these changes makes it lie flat (each was tried):")
		for i, c := range r.Miss.Cures {
			but := ""
			if r.Proving != nil && !r.Proving[i] {
				but = " (it then lies flat, but is not proven)"
			}
			p.line("    %s%s", r.Say(c), but)
		}
	}
	return p.err
}

// printer writes lines and keeps the first error.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func (p *printer) fact(name, format string, args ...any) {
	p.line("  %-9s %s", name, fmt.Sprintf(format, args...))
}

// Verdict returns the outcome in one line.
func (r *Report) Verdict() string {
	name := r.File
	if r.Card != nil && r.Card.Title != "" {
		name = r.Card.Title
	}
	switch {
	case r.Proven():
		return name + ": proven. It lies flat and it opens."
	case r.Stopped:
		return name + ": not proven. The work was stopped before it came to an end."
	case r.Closed == nil:
		return name + ": not proven. The recipe cannot be folded yet."
	case !r.Closed.LiesFlat():
		return name + ": not proven. It does not lie flat."
	case !r.Opens():
		return name + ": not proven. It lies flat, but it does not open as it should."
	}
	return name + ": not proven. It lies flat and opens, but something else is wrong."
}

func counted(list problem.List) string {
	errors := 0
	for _, p := range list {
		if p.Severity == problem.Error {
			errors++
		}
	}
	var parts []string
	if errors > 0 {
		parts = append(parts, problem.Count(errors, "problem"))
	}
	if n := len(list) - errors; n > 0 {
		parts = append(parts, problem.Count(n, "warning"))
	}
	return strings.Join(parts, " and ")
}

func (r *Report) printClosed(p *printer) {
	c := r.Closed
	p.fact("closed", "%s wide, %s high", r.say(c.Box.W()), r.say(c.Box.H()))
	if o := c.Outline(); o != c.Box {
		p.fact("", "%s wide, %s high with its toppers", r.say(o.W()), r.say(o.H()))
	}
	if f := r.Card.Fits; f != nil && c.Outline().W() <= f.W && c.Outline().H() <= f.H {
		p.fact("fits", "within %s by %s", r.say(f.W), r.say(f.H))
	}
	p.fact("thickest", "%s, %s deep with mats and toppers, sheets only laid on each other (more when it springs back)",
		r.thick(r.Thickness.Max), problem.Count(len(r.Thickness.Stack), "panel"))
	if words := r.foldedWords(c.Folded); words != "" {
		p.fact("folded", "%s", words)
	}
	for _, k := range r.Peeks {
		p.fact("shows", "%s", k.String(r.Assembly))
	}
	for _, o := range r.Others {
		p.fact("also", "lies flat %s wide, %s high: %s", r.say(o.Box.W()), r.say(o.Box.H()), r.foldedWords(o.Folded))
	}
}

// thick prints a thickness: a sixteenth of an inch is too coarse for it.
func (r *Report) thick(l length.Length) string {
	inches := fmt.Sprintf("%.3f in", float64(l)/float64(length.Inch))
	if r.Card.Unit == length.IN {
		return inches + " (" + l.Human(length.MM) + ")"
	}
	return l.Human(r.Card.Unit) + " (" + inches + ")"
}

// foldedWords says which scores are folded shut: "wall at 3, 6; roof at 2; spring#1 at all 10".
func (r *Report) foldedWords(folded []bool) string {
	scores := r.Folded(folded)
	var parts []string
	for _, c := range r.Assembly.Copies {
		n, total := scores[c.Name], len(c.Pattern.Piece.Scores)
		switch {
		case total == 0:
		case len(n) == 0:
			parts = append(parts, c.Name+" at none")
		case len(n) == total && total > 2:
			parts = append(parts, fmt.Sprintf("%s at all %d scores", c.Name, total))
		default:
			parts = append(parts, c.Name+" at "+strings.Trim(strings.Join(strings.Fields(fmt.Sprint(n)), ", "), "[]"))
		}
	}
	return strings.Join(parts, "; ")
}

func (r *Report) printOpen(p *printer) {
	o := r.Opening
	if o.Outcome == fold.Opens {
		mm := func(v float64) string {
			l, _ := length.FromMM(v).Snap(length.Millimetre / 10)
			return strings.ReplaceAll(l.Both(r.Card.Unit), "≈ ", approx(o))
		}
		p.fact("open", "%s%s wide, %s deep, %s high", about(o), mm(o.Width), mm(o.Depth), mm(o.Height))
		p.fact("opens", "%s: followed in %d poses, every joint meeting in each", r.driverWords(), len(o.Poses))
	}
	if o.Outcome != fold.Stopped {
		p.fact("moves", "%s", r.freedomWords())
	}
	if r.Spring != nil {
		p.fact("springs", "%s", r.SpringWords())
	}
	if r.Seat != nil {
		p.fact("envelope", "%s: %s", r.Seat.Envelope.Name, r.Seat.Words(r.Card.Unit))
	}
	if r.Stance != nil {
		p.fact("stands", "%s", r.StandWords())
	}
	if r.Hand != nil {
		name := "by hand"
		for _, words := range append(r.gapWords(), r.careWords()) {
			p.fact(name, "%s", words)
			name = ""
		}
	}
}

// approx is the sign of a rounded length, which "about" says already.
func approx(o *fold.Opening) string {
	if about(o) != "" {
		return ""
	}
	return "≈ "
}

// about marks sizes that rest on how far folds are taken to spring open.
func about(o *fold.Opening) string {
	if o.Driver == card.OpensAt {
		return ""
	}
	return "about "
}

func (r *Report) driverWords() string {
	o := r.Opening
	first, second := r.Assembly.Panels[o.Panels[0]].Ref, r.Assembly.Panels[o.Panels[1]].Ref
	switch o.Driver {
	case card.OpensAt:
		return fmt.Sprintf("at %s.%d to %g degrees", r.Card.Opening.Piece.Piece, r.Card.Opening.Score, r.Card.Opening.ToDeg)
	case card.OpensByPulling:
		return fmt.Sprintf("by pulling %s from %s", first, second)
	}
	return fmt.Sprintf("by itself as %s and %s move apart (shape without springs: from the angles that its folds remember)", first, second)
}

func (r *Report) freedomWords() string {
	switch n := r.Opening.Freedom; {
	case n == 0:
		return "locked: nothing can move"
	case n == 1:
		return "one way: one fold decides all the others"
	default:
		return fmt.Sprintf("loose in %d ways: only springs or a hand hold it in one shape", n)
	}
}
