package cutlist

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// shape is a piece as a row of panels.
type shape struct {
	strip  bool
	kind   card.ScoreKind
	along  length.Length // the side that the scores count along
	cross  length.Length
	ats    []length.Length // in order
	widths []length.Length
	order  []int // the numbers of the scores in that order
	scores int
}

// shapeOf returns the shape of a piece. The scores of a list with a slip in it are out of order: there the order of the
// list counts, so that one wrong number spoils no more than the two panels beside it.
func shapeOf(p *card.Piece, listed bool) shape {
	s := shape{strip: len(p.Outline)+len(p.Slits) == 0, along: p.Size.W, cross: p.Size.H, scores: len(p.Scores)}
	for i, c := range p.Scores {
		if c.Kind == card.Slanted || c.Kind != p.Scores[0].Kind {
			s.strip = false
		}
		s.order = append(s.order, i)
	}
	if len(p.Scores) > 0 {
		if s.kind = p.Scores[0].Kind; s.kind == card.Up {
			s.along, s.cross = s.cross, s.along
		}
	}
	if !s.strip {
		return s
	}
	if !listed {
		slices.SortStableFunc(s.order, func(a, b int) int { return cmp.Compare(p.Scores[a].At, p.Scores[b].At) })
	}
	last := length.Length(0)
	for _, i := range s.order {
		at := p.Scores[i].At
		s.ats = append(s.ats, at)
		s.widths = append(s.widths, at-last)
		last = at
	}
	s.widths = append(s.widths, s.along-last)
	return s
}

// pair is a piece of the list and one of a form that are alike.
type pair struct {
	read, form int
	like       float64 // from 0 to 1
	named      bool    // they have the same panels, which can be named
	back       bool    // the panels run the other way
	turn       int     // the form's piece turned so far, counter-clockwise in degrees, lies as the list says
	off        int     // panels that are not as wide as those that they should equal
	aspect     float64
}

// compare says how like a piece is to one of a form.
func compare(read, form shape, copies, formCopies int) pair {
	out := pair{}
	if read.along <= 0 || read.cross <= 0 || form.along <= 0 || form.cross <= 0 {
		return out
	}
	switch {
	case (!read.strip || !form.strip) && read.scores == 0 && form.scores == 0: // a rectangle and an outline
	case !read.strip || !form.strip:
		if read.scores == form.scores && read.scores > 0 {
			out.like = 0.2
		}
		out.aspect = aspect(read, form)
		out.like += 0.3 * out.aspect
	case read.scores == 0 && form.scores == 0:
		out = blank(read, form)
	case read.scores == form.scores:
		out = bothWays(read, form)
	case read.scores-form.scores == 1 || form.scores-read.scores == 1:
		if read.scores > 1 && form.scores > 1 {
			out.aspect = aspect(read, form)
			out.like = 0.4 * out.aspect
		}
	}
	if out.aspect < leastAspect {
		return pair{}
	}
	if copies != formCopies {
		out.like *= 0.85
	}
	return out
}

// leastAspect is how like in proportion two pieces must be to be taken for each other: the sides of one may be half as long
// again for the other. A band round a card is no panel of it, though both have no scores.
const leastAspect = 0.6

// aspect says how like two pieces are in how long they are for their height.
func aspect(a, b shape) float64 {
	r := a.along.MM() / a.cross.MM() * b.cross.MM() / b.along.MM()
	return max(0, 1-math.Abs(math.Log(r)))
}

// blank compares two pieces without scores.
func blank(read, form shape) pair {
	straight := aspect(read, form)
	turned := form
	turned.along, turned.cross = form.cross, form.along
	out := pair{like: 0.9 * straight, named: true, aspect: straight}
	if a := aspect(read, turned); a > straight+0.1 {
		out = pair{like: 0.9 * a, named: true, turn: 90, aspect: a}
	}
	return out
}

// bothWays compares two rows of as many panels, both ways round.
func bothWays(read, form shape) pair {
	one := oneWay(read, form, false)
	if other := oneWay(read, form, true); other.like > one.like+0.02 {
		return other
	}
	return one
}

func oneWay(read, form shape, back bool) pair {
	u, v := read.widths, turnedRow(form.widths, back)
	out := pair{named: true, back: back, aspect: aspect(read, form)}
	switch {
	case read.kind == form.kind && back:
		out.turn = 180
	case read.kind != form.kind && (read.kind == card.Across) != back:
		out.turn = 270
	case read.kind != form.kind:
		out.turn = 90
	}
	e := evened(u, v)
	alike := agreement(u, e)
	for i := range u {
		if u[i] != e[i] {
			out.off++
		}
	}
	spread := 0.0
	for i := range u {
		// No panel counts for more: a score that is far off is one slip, however far.
		spread += min(0.15, math.Abs(e[i].MM()/read.along.MM()-v[i].MM()/form.along.MM()))
	}
	out.like = 0.4*alike + 0.35*max(0, 1-2.5*spread) + 0.25*out.aspect
	return out
}

func turnedRow[T any](s []T, back bool) []T {
	s = slices.Clone(s)
	if back {
		slices.Reverse(s)
	}
	return s
}

// evened returns the widths u with those that are equal in v made equal: to the width that most of them have, and of two
// as common to the one nearer to the proportions of v.
func evened(u, v []length.Length) []length.Length {
	var all, total float64
	for i := range u {
		all += u[i].MM()
		total += v[i].MM()
	}
	out := slices.Clone(u)
	for i := range v {
		best, most, away := u[i], 0, math.Inf(1)
		for j := range v {
			if v[j] != v[i] {
				continue
			}
			n := 0
			for k := range v {
				if v[k] == v[i] && u[k] == u[j] {
					n++
				}
			}
			d := math.Abs(u[j].MM()/all - v[i].MM()/total)
			if n > most || n == most && d < away {
				best, most, away = u[j], n, d
			}
		}
		out[i] = best
	}
	return out
}

// agreement is the share of panels that are as wide as they should be, or of scores that stand where they should: a
// single score that is off spoils two panels, a single panel that is off moves all scores behind it.
func agreement(u, e []length.Length) float64 {
	panels, scores := 0, 0
	var at, want length.Length
	for i := range u {
		at, want = at+u[i], want+e[i]
		if u[i] == e[i] {
			panels++
		}
		if at == want && i < len(u)-1 {
			scores++
		}
	}
	return max(float64(panels)/float64(len(u)), float64(scores)/float64(len(u)-1))
}

// mostCompared bounds the panels of a piece that is compared; more are in no form.
const mostCompared = 80

// sureEnough is how like a card must be to be proposed.
const sureEnough = 0.65

// lackCounts is how much a piece that the list lacks counts against a form: less than one that the form lacks, because
// people paste a part of a list.
const lackCounts = 0.6

// blankCounts is how much a piece without scores counts against a form that only one of both has: it says little of what
// card it is.
const blankCounts = 0.4

// compared is one form with its pairs.
type compared struct {
	form  int
	pairs []pair
	sure  float64
	rank  float64
}

// bestForm returns the form that the pieces are most like; false where none is like enough.
func (b *builder) bestForm(catalogue []Form) (compared, bool) {
	read := make([]shape, len(b.pieces))
	for i := range b.pieces {
		read[i] = shapeOf(&b.pieces[i], true)
	}
	best := compared{rank: -1}
	for i, f := range catalogue {
		if b.ctx.Err() != nil {
			break
		}
		if f.Card == nil || len(f.Card.Pieces) == 0 || len(f.Card.Pieces) > maxDrafts {
			continue
		}
		if c := b.compareForm(read, f.Card); c.rank > best.rank {
			c.form = i
			best = c
		}
	}
	return best, best.sure >= sureEnough
}

// compareForm finds which piece of a form each piece is.
func (b *builder) compareForm(read []shape, form *card.Card) compared {
	shapes := make([]shape, len(form.Pieces))
	var all []pair
	for j := range form.Pieces {
		shapes[j] = shapeOf(&form.Pieces[j], false)
		for i := range read {
			if len(read[i].widths) > mostCompared || len(shapes[j].widths) > mostCompared {
				continue
			}
			p := compare(read[i], shapes[j], b.pieces[i].Copies, form.Pieces[j].Copies)
			if p.like > 0.05 && singular(b.pieces[i].Name) == singular(form.Pieces[j].Name) {
				p.like = min(1, p.like+0.03)
			}
			p.read, p.form = i, j
			if p.like > 0.25 {
				all = append(all, p)
			}
		}
	}
	c := compared{pairs: choose(all, shapes)}
	weight := 0.0
	left, found := map[int]bool{}, map[int]bool{}
	scale := 0.0
	for _, p := range c.pairs {
		c.sure += p.like * (1 + float64(shapes[p.form].scores))
		scale += math.Abs(math.Log(read[p.read].along.MM() / shapes[p.form].along.MM()))
		left[p.read], found[p.form] = true, true
	}
	for j := range shapes {
		switch n := shapes[j].scores; {
		case found[j]:
			weight += 1 + float64(n)
		case n == 0:
			weight += blankCounts
		default:
			weight += lackCounts * (1 + float64(n))
		}
	}
	for i := range read {
		switch n := read[i].scores; {
		case left[i]:
		case n == 0:
			weight += blankCounts
		default:
			weight += 1 + float64(n)
		}
	}
	c.sure /= weight
	c.rank = c.sure - 0.02*min(1, scale/float64(max(len(c.pairs), 1)))
	if form.Unit != b.unit {
		c.rank -= 0.005
	}
	return c
}

// choose takes the best pairs so that every piece is in one at most, and swaps partners where that is better.
func choose(all []pair, shapes []shape) []pair {
	value := func(p pair) float64 { return p.like * (1 + float64(shapes[p.form].scores)) }
	slices.SortStableFunc(all, func(a, b pair) int { return cmp.Compare(value(b), value(a)) })
	at := map[[2]int]pair{}
	read, form := map[int]bool{}, map[int]bool{}
	var out []pair
	for _, p := range all {
		at[[2]int{p.read, p.form}] = p
		if !read[p.read] && !form[p.form] {
			read[p.read], form[p.form] = true, true
			out = append(out, p)
		}
	}
	for i := range out {
		for j := i + 1; j < len(out); j++ {
			a, okA := at[[2]int{out[i].read, out[j].form}]
			b, okB := at[[2]int{out[j].read, out[i].form}]
			if okA && okB && value(a)+value(b) > value(out[i])+value(out[j]) {
				out[i], out[j] = a, b
			}
		}
	}
	slices.SortFunc(out, func(a, b pair) int { return cmp.Compare(a.read, b.read) })
	return out
}

// why says in words how like a pair is.
func (b *builder) why(p pair, form *card.Card) string {
	mine, its := &b.pieces[p.read], &form.Pieces[p.form]
	head := mine.Name + " is like its " + its.Name + ": "
	n := len(mine.Scores) + 1
	if !p.named {
		return head + fmt.Sprintf("%s against %s, and sides in a like proportion", problem.Count(len(mine.Scores), "score"), problem.Count(len(its.Scores), "score"))
	}
	text := head + problem.Count(n, "panel")
	switch {
	case n == 1:
	case p.off == 0:
		text += ", equally wide where they are there"
	default:
		text += fmt.Sprintf(", %d of them not as wide as there", p.off)
	}
	if mine.Copies > 1 || its.Copies > 1 {
		text += fmt.Sprintf(", cut %d of %d times", mine.Copies, its.Copies)
	}
	text += fmt.Sprintf(", sides in proportion to %.0f %%", 100*p.aspect)
	if p.turn != 0 {
		text += fmt.Sprintf(", turned by %d degrees", p.turn)
	}
	return text
}
