package card

import (
	"strings"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// offMarks collects, line by line of the recipe, the measurements that do not lie on the marks of the ruler.
type offMarks struct {
	k     *checker
	piece *Piece
	lines []offLine
}

type offLine struct {
	where problem.Place // of the first one
	off   []length.Length
}

// checkMarks warns of cuts and scores that do not lie on the ruler's marks, once for each line of the recipe; a piece
// without places counts as one line. Mats and toppers are not measured with the ruler of the card.
func (k *checker) checkMarks() {
	if k.card.Marks <= 0 {
		return
	}
	for i := range k.card.Pieces {
		o := offMarks{k: k, piece: &k.card.Pieces[i]}
		o.collect()
		for _, l := range o.lines {
			o.report(l)
		}
	}
}

func (o *offMarks) collect() {
	p := o.piece
	if len(p.Outline) > 0 {
		o.see(p.SizeWhere, flat(p.Outline)...)
	} else {
		o.see(p.SizeWhere, p.Size.W, p.Size.H)
	}
	for _, s := range p.Scores {
		if s.Kind == Slanted {
			o.see(s.Where, flat([]plane.Point{s.From, s.To})...)
		} else {
			o.see(s.Where, s.At)
		}
	}
	for _, s := range p.Slits {
		o.see(s.Where, flat([]plane.Point{s.From, s.To})...)
	}
	for _, w := range p.Windows {
		if w.Kind == Polygon {
			o.see(w.Where, flat(w.Points)...)
		} else {
			o.see(w.Where, w.Size.W, w.Size.H, w.At.X, w.At.Y)
		}
	}
	for _, w := range p.Wedges {
		o.see(w.DepthWhere, w.Depth)
	}
}

func flat(points []plane.Point) []length.Length {
	var out []length.Length
	for _, p := range points {
		out = append(out, p.X, p.Y)
	}
	return out
}

func (o *offMarks) see(where problem.Place, lengths ...length.Length) {
	for _, l := range lengths {
		if l.OnMark(o.k.card.Marks) {
			continue
		}
		if n := len(o.lines); n > 0 && o.lines[n-1].where.Line == where.Line {
			o.lines[n-1].off = append(o.lines[n-1].off, l)
		} else {
			o.lines = append(o.lines, offLine{where, []length.Length{l}})
		}
	}
}

// report names what is off and the marks beside it. There is no Try: a card whose scores are moved one by one need not
// lie flat any more.
func (o *offMarks) report(l offLine) {
	const most = 12 // measurements that a message names
	k, pitch := o.k, o.k.card.Marks
	var off, near []string
	for _, v := range l.off[:min(len(l.off), most)] {
		mark, _ := v.Snap(pitch)
		off = append(off, k.n(v))
		near = append(near, k.n(mark))
	}
	rest := ""
	if n := len(l.off) - most; n > 0 {
		rest = " and " + problem.Count(n, "other")
	}
	verb := " is"
	if len(l.off) > 1 {
		verb = " are"
	}
	k.problems.Add(problem.Problem{
		Rule: "off-marks", Severity: problem.Warning, Where: l.where,
		What:  strings.Join(off, ", ") + rest + verb + " not on the marks, which are " + k.n(pitch) + " " + bareUnit(pitch, k.card.Unit) + "apart",
		Needs: "the nearest marks: " + strings.Join(near, ", "),
	})
}

// bareUnit returns the unit that Bare left out, and a space.
func bareUnit(l length.Length, unit length.Unit) string {
	if _, ok := l.Exact(unit); ok {
		return unit.String() + " "
	}
	return ""
}
