package cutlist

import (
	"errors"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// typed is one number of a list with its unit and place.
type typed struct {
	text  string
	unit  length.Unit
	item  int
	col   int // columns behind the start of the item
	minus bool
}

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
			p.Scores = append(p.Scores, fresh(p.Scores, found, one)...)
		}
	}
	if sorted {
		slices.SortStableFunc(p.Scores, func(a, b card.Score) int {
			if a.Kind != b.Kind {
				return int(a.Kind) - int(b.Kind)
			}
			return int(min(max(a.At-b.At, -1), 1))
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
		a.ends, a.list = g.list[:1], nil
		b.ends, b.list = g.list[:1], nil
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
	side := r.side(kind)
	if g.from == fromRight || g.from == fromTop {
		for i := range values {
			values[i].at = side - values[i].at
		}
	}
	if len(values) > 1 && slices.IsSortedFunc(values, func(a, b placed) int { return int(min(max(b.at-a.at, -1), 1)) }) && values[0].at != values[len(values)-1].at {
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

// along finds the side along which a group counts, and its values.
func (r *resolver) along(g *group) ([]placed, card.ScoreKind) {
	long, short := card.Across, card.Up
	if r.hgt > r.w {
		long, short = card.Up, card.Across
	}
	kind := long
	switch g.dir.kind {
	case longSide:
	case shortSide:
		kind = short
	case acrossPiece:
		kind = card.Across
	case upPiece:
		kind = card.Up
	case namedSide:
		kind = r.named(g, long)
	default:
		switch g.from {
		case fromLeft, fromRight:
			kind = card.Across
		case fromTop, fromBottom:
			kind = card.Up
		default:
			return r.eitherSide(g, long, short)
		}
	}
	_, pick := r.values(g, r.side(kind))
	return pick(), kind
}

// named finds the side that "along the 3 in side" means.
func (r *resolver) named(g *group, long card.ScoreKind) card.ScoreKind {
	k := g.dir.side
	unit := r.unit
	if n := r.items[k].num; n.said {
		unit = n.unit
	}
	l, err := r.items[k].num.length(unit)
	r.mark(k)
	switch {
	case err == nil && l == r.w:
		return card.Across
	case err == nil && l == r.hgt:
		return card.Up
	}
	r.items[k].used = false
	r.warn("side-unclear", k, "the piece has no such side", "one of "+card.Bare(r.w, r.unit)+" and "+card.Bare(r.hgt, r.unit))
	return long
}

// eitherSide chooses the side that fits the scores; the long one where both do.
func (r *resolver) eitherSide(g *group, long, short card.ScoreKind) ([]placed, card.ScoreKind) {
	badLong, pick := r.values(g, r.side(long))
	badShort, other := r.values(g, r.side(short))
	if badShort < badLong {
		return other(), short
	}
	if badShort == badLong && r.w != r.hgt && (len(g.list) > 0 || g.half || len(g.ends) > 0) {
		r.warn("direction-guessed", g.at, "these scores fit both sides of the piece; they are put along the long one", "on the long side, or on the short side")
	}
	return pick(), long
}

// values works out the distances of a group along a side. bad counts what is out of order or outside; pick returns the
// distances, tells what is to be told, and marks the numbers as read.
func (r *resolver) values(g *group, side length.Length) (bad int, pick func() []placed) {
	switch {
	case g.half:
		return 0, func() []placed { return r.half(g, side) }
	case len(g.ends) > 0:
		return r.ends(g, side)
	case g.step > 0:
		return r.every(g, side)
	}
	return r.listed(g, side)
}

func (r *resolver) half(g *group, side length.Length) []placed {
	if side%2 != 0 {
		r.fail("not-exact", g.at, "half of the side is no whole nanometre", "a side that can be halved")
		return nil
	}
	return []placed{{side / 2, r.place(g.at)}}
}

func (r *resolver) ends(g *group, side length.Length) (int, func() []placed) {
	k := g.ends[0]
	peek, err := r.items[k].num.length(r.unitOf(k, side))
	bad := 0
	if err == nil && 2*peek >= side {
		bad = 1
	}
	return bad, func() []placed {
		l, ok := r.read(k, r.unitOf(k, side))
		if !ok {
			return nil
		}
		r.mark(k)
		at := r.place(k)
		return []placed{{min(l, side-l), at}, {max(l, side-l), at}}
	}
}

// unitOf returns the unit of a single number of a group.
func (r *resolver) unitOf(k int, side length.Length) length.Unit {
	n := r.items[k].num
	if n.said {
		return n.unit
	}
	us := r.candidates(k)
	for _, u := range us {
		if l, err := n.length(u); err == nil && l < side {
			return u
		}
	}
	return us[0]
}

// candidates returns the units that a number without one may be in, the likeliest first.
func (r *resolver) candidates(k int) []length.Unit {
	var out []length.Unit
	add := func(u length.Unit) {
		if !slices.Contains(out, u) {
			out = append(out, u)
		}
	}
	if r.d.scoreUnit != nil {
		return []length.Unit{*r.d.scoreUnit}
	}
	add(r.unit)
	for _, d := range r.declared {
		add(d.unit)
	}
	for _, s := range r.h.said {
		if len(out) == 3 {
			break
		}
		add(s.unit)
	}
	return out
}

func (r *resolver) every(g *group, side length.Length) (int, func() []placed) {
	value := func(k int, otherwise length.Length) length.Length {
		if k <= 0 {
			return otherwise
		}
		n := r.items[k].num
		u := r.unitOf(k, side+1)
		if step := r.items[g.step].num; !n.said && step.said {
			u = step.unit
		}
		if l, err := n.length(u); err == nil {
			return l
		}
		return 0
	}
	step := value(g.step, 0)
	lo, hi := value(g.lo, step), value(g.hi, side-1)
	n := length.Length(0)
	if step > 0 && lo > 0 {
		n = (min(hi, side-1)-lo)/step + 1
	}
	bad := 0
	if n < 1 || hi > side {
		bad = 1
	}
	return bad, func() []placed {
		if step <= 0 || lo <= 0 || n > card.MaxScores {
			r.fail("number", g.at, "these scores cannot be counted out", fmt.Sprintf("at most %d scores, at distances above 0", card.MaxScores))
			return nil
		}
		for _, k := range []int{g.step, g.lo, g.hi} {
			if k > 0 {
				r.compare(k, value(k, 0))
				r.mark(k)
			}
		}
		var out []placed
		for i := range max(n, 0) {
			out = append(out, placed{lo + i*step, r.place(g.at)})
		}
		return out
	}
}

// listed works out a list: which unit, and which commas are decimal marks.
func (r *resolver) listed(g *group, side length.Length) (int, func() []placed) {
	best, bestBad := []typed(nil), -1
	us, spread := r.listUnits(g)
	runs := slices.ContainsFunc(g.list, func(k int) bool { return r.items[k].num.run != nil })
	unclear := false
	for _, u := range us {
		apart := r.typed(g, u, spread, false)
		bad := disorder(apart, side)
		pick := apart
		if joined := r.typed(g, u, spread, true); runs && joined != nil {
			b := disorder(joined, side)
			tie := b == bad
			small := joined[0].unit == length.CM // millimetres are mostly whole, centimetres are not
			if b < bad || tie && (r.h.commas || !r.h.points && (small || len(g.list) > 1)) {
				pick, bad = joined, b
			}
			if tie && !r.h.commas && !r.h.points && len(g.list) == 1 && best == nil {
				unclear = true
			}
		}
		if bestBad < 0 || bad < bestBad {
			best, bestBad = pick, bad
		}
	}
	chosen := best
	first := us[0]
	return bestBad, func() []placed {
		if unclear {
			how := "the latter"
			if strings.Contains(chosen[0].text, ".") {
				how = "the former"
			}
			r.warn("comma-unclear", g.list[0], "the comma may be a decimal mark or stand between two numbers; it is read as "+how, "a space behind a comma between two numbers")
		}
		if len(chosen) > 0 && len(us) > 1 && !r.items[chosen[0].item].num.said && chosen[0].unit != first && !spread[chosen[0].item].said {
			r.tellGuess(r.h, chosen[0].item, chosen[0].unit)
		}
		return r.exact(chosen)
	}
}

// spreadUnit is the unit that a number of a list takes from its neighbours.
type spreadUnit struct {
	unit length.Unit
	said bool
}

// listUnits returns the units to try for a list, and those that its numbers take from each other: "4, 8 and 12 cm".
func (r *resolver) listUnits(g *group) ([]length.Unit, map[int]spreadUnit) {
	spread := map[int]spreadUnit{}
	var last spreadUnit
	for _, k := range g.list {
		if n := r.items[k].num; n.said {
			last = spreadUnit{n.unit, true}
		}
		spread[k] = last
	}
	last = spreadUnit{}
	for _, k := range slices.Backward(g.list) {
		if n := r.items[k].num; n.said {
			last = spreadUnit{n.unit, true}
		}
		if last.said {
			spread[k] = last
		}
	}
	return r.candidates(g.list[0]), spread
}

// typed returns the numbers of a list; joined says that commas without a space are decimal marks. It is nil where they
// cannot be.
func (r *resolver) typed(g *group, u length.Unit, spread map[int]spreadUnit, joined bool) []typed {
	var out []typed
	for _, k := range g.list {
		n, unit := r.items[k].num, u
		if s := spread[k]; s.said {
			unit = s.unit
		}
		if last := len(out) - 1; last >= 0 && n.frac && !strings.Contains(n.text, " ") && r.items[k].first && r.items[out[last].item].num.whole && !r.items[out[last].item].num.said {
			out[last].text += " " + n.text // the line ends between 8 and 1/4
			r.also(out[last].item, k)
			continue
		}
		switch {
		case n.run == nil:
			out = append(out, typed{text: n.text, unit: unit, item: k, minus: n.minus})
		case joined && len(n.run)%2 != 0:
			return nil
		default:
			out = append(out, parts(n.run, unit, k, joined)...)
		}
	}
	return out
}

// also remembers that item k belongs to the number of another item.
func (r *resolver) also(item, k int) {
	if r.d.tails == nil {
		r.d.tails = map[int]int{}
	}
	r.d.tails[item] = k
}

func parts(run []string, unit length.Unit, k int, joined bool) []typed {
	var out []typed
	col := 0
	for i := 0; i < len(run); i++ {
		t := typed{text: run[i], unit: unit, item: k, col: col}
		col += len(run[i]) + 1
		if joined {
			t.text += "." + run[i+1]
			col += len(run[i+1]) + 1
			i++
		}
		out = append(out, t)
	}
	return out
}

// disorder counts what is out of order or outside the side.
func disorder(list []typed, side length.Length) int {
	bad, up, down := 0, 0, 0
	last := length.Length(0)
	for i, t := range list {
		l, err := length.Parse(t.text, t.unit)
		if err != nil || l <= 0 || l >= side || t.minus {
			bad++
			continue
		}
		if i > 0 && l <= last {
			up++
		}
		if i > 0 && l >= last {
			down++
		}
		last = l
	}
	if down == 0 {
		return bad // counted down from the far end
	}
	return bad + up
}

// exact returns the lengths of a list, and marks its numbers as read.
func (r *resolver) exact(list []typed) []placed {
	var out []placed
	for _, t := range list {
		l, err := length.Parse(t.text, t.unit)
		if err != nil {
			r.refuse(t.item, err)
			r.items[t.item].used = false
			r.d.refused = append(r.d.refused, t.item)
			continue
		}
		at := r.place(t.item)
		at.Column += t.col
		if !slices.Contains(r.d.refused, t.item) {
			r.mark(t.item)
		}
		if k, ok := r.d.tails[t.item]; ok {
			r.mark(k)
		}
		r.compare(t.item, l)
		out = append(out, placed{l, at})
	}
	return out
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
