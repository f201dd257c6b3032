package cutlist

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// resolver turns drafts into pieces.
type resolver struct {
	*parser
	h      *habit
	d      *draft
	w, hgt length.Length
	unit   length.Unit // of the size
}

// pieces returns the pieces of the drafts whose numbers could be read, with their drafts in the same order.
func (p *parser) pieces() ([]card.Piece, []*draft) {
	h := p.findHabit()
	var out []card.Piece
	var drafts []*draft
	for _, d := range p.drafts {
		r := &resolver{parser: p, h: h, d: d}
		if piece, ok := r.piece(); ok {
			out = append(out, piece)
			drafts = append(drafts, d)
			d.unit = r.unit
		}
	}
	if len(out) > 0 {
		p.measure(h)
	}
	return out, drafts
}

func (r *resolver) piece() (card.Piece, bool) {
	d := r.d
	r.unit = r.sizeUnit(r.h, d)
	a, okA := r.read(d.size.a, r.unit)
	b, okB := r.read(d.size.b, r.unit)
	if !okA || !okB {
		return card.Piece{}, false
	}
	r.mark(d.size.a)
	r.mark(d.size.b)
	r.w, r.hgt = a, b
	if d.size.swapped {
		r.w, r.hgt = b, a
	}
	r.compareSizes(a, b)
	at := r.place(min(d.size.a, d.size.b))
	p := card.Piece{Copies: 1, Size: card.Size{W: r.w, H: r.hgt}, Where: at, StockWhere: at, SizeWhere: at, CopiesWhere: at}
	r.copies(&p)
	r.scores(&p)
	return p, true
}

// mark says that the number of an item is in the card.
func (r *resolver) mark(k int) { r.items[k].used = true }

// read returns the length of an item; a number that has no length is reported.
func (r *resolver) read(k int, unit length.Unit) (length.Length, bool) {
	n := r.items[k].num
	if len(n.run) > 2 {
		r.fail("number", k, "of these numbers it is not clear which is the measurement", "one number with one decimal mark")
		return 0, false
	}
	if n.said {
		unit = n.unit
	}
	l, err := n.length(unit)
	if err != nil {
		r.refuse(k, err)
		return 0, false
	}
	r.compare(k, l)
	return l, true
}

// refuse reports a number that is no length.
func (r *resolver) refuse(k int, err error) {
	var inexact *length.NotExactError
	var long *length.RangeError
	rule, needs := "number", "a number such as 10, 10.5, 10 1/2 or 10½"
	switch {
	case errors.As(err, &inexact):
		rule, needs = "not-exact", "a length in whole millionths of a millimetre"
	case errors.As(err, &long):
		rule, needs = "too-long", "a shorter measurement"
	}
	r.fail(rule, k, err.Error(), needs)
}

// compare reports a length in brackets that is another one.
func (r *resolver) compare(k int, l length.Length) {
	o := r.items[k].num.other
	if o == nil || o.used {
		return
	}
	v, err := o.num.length(o.num.unit)
	if err == nil && near(l, v) {
		o.used = true
		return
	}
	r.problems.Add(problem.Problem{Rule: "two-lengths", Where: r.place(k),
		What:  fmt.Sprintf("two lengths are given for one measurement: %s, and %s %s", l.Both(r.items[k].num.unit), o.num.text, o.num.unit),
		Needs: "one of them; the first was read",
		Notes: []problem.Note{{Where: problem.Place{File: r.file, Line: o.line, Column: o.col}, What: "the other one is here"}}})
	o.used = true
	r.stray = append(r.stray, *o)
}

// compareSizes reports a size in brackets that is another one.
func (r *resolver) compareSizes(a, b length.Length) {
	s := r.d.other
	if s.a == nothing {
		return
	}
	unit, _ := r.saidIn(s)
	x, okX := r.read(s.a, unit)
	y, okY := r.read(s.b, unit)
	if okX && okY && near(a, x) && near(b, y) {
		r.mark(s.a)
		r.mark(s.b)
		return
	}
	r.fail("two-sizes", s.a, "the size in brackets is not the one before it", "one of them; the first was read")
}

// compareLists reports a list in brackets that is not the one before it.
func (r *resolver) compareLists(g *group, values []placed) {
	if len(g.other) == 0 || len(values) != len(g.other) {
		return
	}
	unit := r.items[g.other[len(g.other)-1]].num.unit
	for i, k := range g.other {
		n := r.items[k].num
		if n.said {
			unit = n.unit
		}
		l, err := n.length(unit)
		if err == nil && near(values[i].at, l) {
			r.mark(k)
			continue
		}
		r.fail("two-lengths", k, fmt.Sprintf("two lengths are given for one score: %s, and %s %s", values[i].at.Both(r.unit), n.text, unit), "one of them; the first was read")
	}
}

// copies works out how many are to be cut.
func (r *resolver) copies(p *card.Piece) {
	d := r.d
	count := func(k int) int {
		if r.items[k].num == nil {
			return 2 // a pair, twice
		}
		n, _ := r.items[k].num.count()
		return n
	}
	if d.count != nothing {
		p.Copies, p.CopiesWhere = count(d.count), r.place(d.count)
		r.mark(d.count)
	}
	if d.again != nothing {
		if n := count(d.again); n == p.Copies {
			r.mark(d.again)
		} else {
			r.fail("two-counts", d.again, fmt.Sprintf("this piece is to be cut %d times here, and %d times before", n, p.Copies), "one of them; the first was read")
		}
	}
}

// scores works out the scores of all groups.
func (r *resolver) scores(p *card.Piece) {
	sorted, last := true, direction{}
	for i := range r.d.groups {
		g := &r.d.groups[i]
		if g.dir.kind == unsaid && g.from == fromUnsaid {
			g.dir = last
		}
		for _, one := range ways(g) {
			found, kind := r.group(one)
			last = direction{kind: acrossPiece}
			if kind == card.Up {
				last.kind = upPiece
			}
			if !rises(found) {
				sorted = false
			}
			more := fresh(p.Scores, found, one)
			if len(g.list) == 1 && len(more) == 0 && i > 0 && r.d.groups[i-1].step > 0 {
				r.items[g.list[0]].used, r.items[g.list[0]].doubt = false, true // every 15, and 45: it was meant to change something
			}
			p.Scores = append(p.Scores, more...)
		}
	}
	if sorted {
		slices.SortStableFunc(p.Scores, func(a, b card.Score) int {
			return cmp.Or(cmp.Compare(a.Kind, b.Kind), cmp.Compare(a.At, b.At))
		})
	}
	if len(p.Scores) > card.MaxScores {
		r.fail("too-many", r.d.groups[0].at, fmt.Sprintf("the piece has %d scores", len(p.Scores)), fmt.Sprintf("at most %d scores", card.MaxScores))
	}
}

// ways returns a group once for every side that it counts along.
func ways(g *group) []*group {
	if g.dir.kind != eachWay && g.dir.kind != allSides {
		return []*group{g}
	}
	a, b := *g, *g
	a.dir.kind, b.dir.kind = acrossPiece, upPiece
	if g.dir.kind == allSides && len(g.list) > 0 {
		a.ends, a.list = g.list, nil
		b.ends, b.list = g.list, nil
	}
	return []*group{&a, &b}
}

// fresh leaves out the scores of a group that were said before, where the group counts them out and does not list them,
// or repeats them.
func fresh(have, found []card.Score, g *group) []card.Score {
	at := func(s card.Score) func(card.Score) bool {
		return func(o card.Score) bool { return o.Kind == s.Kind && o.At == s.At }
	}
	if len(have) == 0 || g.list != nil && len(found) > 1 {
		return found
	}
	var out []card.Score
	for _, s := range found {
		if !slices.ContainsFunc(have, at(s)) {
			out = append(out, s)
		}
	}
	return out
}

func rises(scores []card.Score) bool {
	for i := 1; i < len(scores); i++ {
		if scores[i].At <= scores[i-1].At {
			return false
		}
	}
	return true
}

// group returns the scores of one group and their kind.
func (r *resolver) group(g *group) ([]card.Score, card.ScoreKind) {
	values, kind := r.along(g)
	r.compareLists(g, values)
	side := r.side(kind)
	if g.from == fromRight || g.from == fromTop {
		for i := range values {
			values[i].at = side - values[i].at
		}
	}
	if len(values) > 1 && slices.IsSortedFunc(values, func(a, b placed) int { return cmp.Compare(b.at, a.at) }) && values[0].at != values[len(values)-1].at {
		slices.Reverse(values) // counted down from the far end
	}
	if g.lines != nothing {
		r.mark(g.lines)
		if n, _ := r.items[g.lines].num.count(); n != len(values) {
			r.warn("count-differs", g.lines, fmt.Sprintf("the text says %d scores and lists %d", n, len(values)), "as many scores as it says")
		}
	}
	out := make([]card.Score, len(values))
	for i, v := range values {
		out[i] = card.Score{Kind: kind, At: v.at, Where: v.where}
	}
	return out, kind
}

// placed is a score's distance and where it was said.
type placed struct {
	at    length.Length
	where problem.Place
}

func (r *resolver) side(kind card.ScoreKind) length.Length {
	if kind == card.Up {
		return r.hgt
	}
	return r.w
}

// names gives every piece a name of its own.
func names(pieces []card.Piece, drafts []*draft) {
	seen := map[string]bool{"card": true}
	for i := range pieces {
		name := clean(drafts[i].name)
		if pieces[i].Copies > 1 {
			name = singular(name)
		}
		if name == "" {
			name = "piece-" + strconv.Itoa(i+1)
		}
		base := name
		for n := 2; seen[name]; n++ {
			name = base + "-" + strconv.Itoa(n)
		}
		seen[name] = true
		pieces[i].Name = name
	}
}

// clean makes a name of what was written: letters, digits and hyphens, beginning with a letter.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		if card.IsName("a" + string(r)) {
			return r
		}
		return -1
	}, s)
	s = strings.TrimLeft(s, "-_0123456789")
	if r := []rune(s); len(r) > 30 {
		s = string(r[:30])
	}
	s = strings.TrimRight(s, "-_")
	if !card.IsName(s) {
		return ""
	}
	return s
}
