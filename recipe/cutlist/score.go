package cutlist

import "foldwright/card"

// direction says along which side of a piece scores are counted.
type direction struct {
	kind dirKind
	side int // the item of "the 3 in side"
}

type dirKind uint8

const (
	unsaid dirKind = iota
	longSide
	shortSide
	acrossPiece // upright lines
	upPiece     // level lines
	namedSide
	eachWay  // the same distances along both sides
	allSides // so far from all four edges
)

// fromSide says from which edge scores are measured.
type fromSide uint8

const (
	fromUnsaid fromSide = iota
	fromLeft
	fromRight
	fromTop
	fromBottom
)

// group is the scores that one phrase gives. Its numbers are items; nothing and nil where they are not said.
type group struct {
	at    int
	dir   direction
	from  fromSide
	list  []int
	ends  []int // so far from each end
	step  int   // every so far, from lo to hi
	lo    int
	hi    int
	half  bool
	lines int // how many there are said to be
	// other is the same list in another unit, in brackets behind it.
	other []int
}

func newGroup(at int) *group {
	return &group{at: at, step: nothing, lo: nothing, hi: nothing, lines: nothing}
}

func (g *group) empty() bool { return len(g.list)+len(g.ends) == 0 && g.step <= 0 && !g.half }

// shortScore are notes for score: wall 252 x 72 s 42 78 120.
var shortScore = set{"s": true, "sc": true}

// negations before a word for scores say where none is: do not score at 45.
var negations = set{"not": true, "don't": true, "dont": true, "never": true, "no": true}

// isScore says whether a phrase of scores begins at k.
func (p *parser) isScore(k int) bool {
	t := p.at(k)
	if t.kind != word {
		return false
	}
	switch {
	case negations[p.at(k-1).text] && p.numberBehind(k):
		return false
	case scoreWords[t.text]:
		return true
	case shortScore[t.text]:
		return p.numberAt(k+1) && (p.at(k-1).num != nil || p.at(k-1).kind == sign || p.at(k-1).kind == brk)
	}
	if !foldWords[t.text] {
		return false
	}
	for i := k + 1; i < k+4; i++ {
		switch n := p.at(i); {
		case n.kind == word && (n.text == "at" || n.text == "every"), n.text == "in" && p.at(i+1).text == "half":
			return true
		case n.kind != word || !scoreFill[n.text]:
			return false
		}
	}
	return false
}

// scorer reads one phrase of scores.
type scorer struct {
	p    *parser
	d    *draft
	g    *group // the group being read; nil before the first
	open bool   // a number may begin a list
	k    int
	from int // the first item
	// before says that the scores stand before the size of their piece: score at 3 and 6 on a 12 x 6 in strip.
	before bool
	idle   int // unknown words in a row
}

// scores reads the phrase of scores at k.
func (p *parser) scores(k int) int {
	s := &scorer{p: p, d: p.cur, open: true, k: k, from: k, before: p.sizeBehind(k)}
	for s.step() {
	}
	s.closeGroup()
	p.deco = false
	return max(s.k, k+1)
}

// sizeBehind says whether the scores at k are those of a piece whose size comes after them: "on a", "of a" stands before it.
func (p *parser) sizeBehind(k int) bool {
	size := p.nextSize[k]
	if p.sized || size == nothing {
		return false
	}
	for i := size - 1; i > size-5 && i > k; i-- {
		switch w := p.at(i).text; {
		case w == "on" || w == "of":
			return true
		case p.at(i).kind != word:
			return false
		}
	}
	return false
}

// take marks items as read, if there is a piece that they are about.
func (s *scorer) take(to int) bool {
	if s.d != nil || s.before {
		s.p.use(s.k, to)
	}
	s.k = to
	return true
}

// step reads the next item or phrase; false at the end.
func (s *scorer) step() bool {
	p, t := s.p, s.p.at(s.k)
	if t.kind == brk {
		return s.overBreak()
	}
	if t.num != nil {
		return s.number()
	}
	if d, next := p.directionAt(s.k); next > s.k {
		s.direct(d, next)
		s.counted(d, next)
		return s.take(next)
	}
	if from, next := p.fromAt(s.k); next > s.k {
		s.group().from = from
		s.open, s.idle = true, 0
		return s.take(next)
	}
	if next := s.special(); next > s.k {
		return s.take(next)
	}
	return s.plain(t)
}

// plain reads a word or sign that has no meaning of its own.
func (s *scorer) plain(t *item) bool {
	switch {
	case t.kind == sign && t.text == ":", t.text == "at", shortScore[t.text] && s.p.isScore(s.k), scoreWords[t.text] && t.kind == word:
		s.open, s.idle = true, 0
		return s.take(s.k + 1)
	case t.kind == sign && (t.text == "," || t.text == "(" || t.text == ")" || t.text == "-" || t.text == "&" || t.text == "/" || t.text == ";"):
		return s.take(s.k + 1)
	case t.kind != word || s.p.isCount(s.k) || s.limit():
		return false
	case scoreFill[t.text]:
		return s.take(s.k + 1)
	case makeWords[t.text] || decoWords[t.text] || instructions[t.text] || colours[t.text] || t.text == "for":
		return false
	}
	if d := s.p.known(t.text); d != nil {
		if s.g == nil {
			s.d = d
			s.p.cur = d
		}
		s.p.use(s.from, s.k)
		return s.take(s.k + 1)
	}
	s.open = false
	s.idle++
	s.k++
	return s.idle < 6
}

// overBreak goes on below a line that ends in "at:" where the numbers stand one to a line, or in the next cell.
func (s *scorer) overBreak() bool {
	t := s.p.at(s.k)
	prev := s.p.at(s.k - 1)
	if !s.open || s.g != nil && !s.g.empty() || t.text != "line" && t.text != "cell" || t.text == "line" && prev.text != ":" && prev.text != "at" && !scoreWords[prev.text] {
		return false
	}
	next := s.k + 1
	if t.text == "line" && isBullet(s.p.items, min(next, len(s.p.items)-1)) {
		next++
	}
	if !s.p.numberAt(next) || s.p.isSize(next) || t.text == "line" && isMarker(s.p.items, next) {
		return false
	}
	return s.take(next)
}

// group returns the group being read.
func (s *scorer) group() *group {
	if s.g == nil {
		s.g = newGroup(s.k)
	}
	return s.g
}

// next returns a group for new scores: the one being read if it holds none yet.
func (s *scorer) next() *group {
	if s.g != nil && !s.g.empty() {
		s.closeGroup()
	}
	g := s.group()
	g.at = s.k
	return g
}

// closeGroup puts the group into the piece.
func (s *scorer) closeGroup() {
	g := s.g
	s.g = nil
	switch {
	case g == nil || g.empty():
	case s.before:
		s.p.before = append(s.p.before, *g)
	case s.d == nil:
		s.p.fail("score-without-piece", g.at, "scores stand here, and no piece before them", "the size of the piece before its scores")
	default:
		s.d.groups = append(s.d.groups, *g)
	}
}

// direct takes a direction for the scores before it, or for those behind it where they begin at once.
func (s *scorer) direct(d direction, next int) {
	after := s.p.at(next).text == "at" || s.p.at(next).text == ":" || s.p.numberAt(next) && !s.p.isSize(next)
	if s.g != nil && !s.g.empty() && (s.g.dir.kind != unsaid || after) {
		s.closeGroup()
	}
	s.group().dir = d
	s.open, s.idle = true, 0
}

// counted marks the four of "all 4 sides" as read.
func (s *scorer) counted(d direction, next int) {
	for i := s.k + 1; i < next && s.d != nil && d.kind == allSides; i++ {
		s.p.items[i].used = true
	}
}

// number reads what a number begins: a list, so far from each end, how many lines.
func (s *scorer) number() bool {
	p, n := s.p, s.p.at(s.k).num
	next := p.at(s.k + 1)
	if d, end := p.directionAt(s.k); end > s.k {
		s.direct(d, end)
		return s.take(end)
	}
	if _, ok := n.count(); ok && next.kind == word && (next.text == "score" || next.text == "scores" || next.text == "lines" || next.text == "times" || next.text == "places" || next.text == "folds" || next.text == "points") {
		s.next().lines = s.k
		return s.take(s.k + 2)
	}
	if n.foreign != "" || p.isSize(s.k) || n.minus || n.word && p.isCount(s.k) {
		return false
	}
	if end := s.counting(); end > s.k { // 15 apart
		return s.take(end)
	}
	if end := p.endsAt(s.k); end > s.k {
		g := s.next()
		g.ends = append(g.ends, s.k)
		for i := s.k; i < end; i++ {
			switch p.at(i).text {
			case "top":
				g.dir.kind = upPiece
			case "left":
				g.dir.kind = acrossPiece
			case "every", "4":
				if i > s.k {
					g.dir.kind = allSides
				}
			}
		}
		s.counted(g.dir, end)
		return s.take(end)
	}
	if !s.open || p.isCount(s.k) {
		return false
	}
	vertical := p.at(s.k).first || s.k > 0 && isBullet(p.items, s.k-1)
	list, end := p.list(s.k, vertical)
	g := s.next()
	g.list = list
	if other, next := p.otherList(end, len(list)); next > end && (s.d != nil || s.before) {
		g.other, end = other, next
	}
	s.open = false
	return s.take(end)
}

// otherList reads a list of so many numbers in brackets at k whose unit is said: the list before it in another unit.
func (p *parser) otherList(k, n int) ([]int, int) {
	if p.at(k).text != "(" || !p.numberAt(k+1) || p.isSize(k+1) {
		return nil, k
	}
	list, end := p.list(k+1, false)
	if len(list) != n || n < 2 || p.at(end).text != ")" || !p.items[list[n-1]].num.said {
		return nil, k
	}
	return list, end + 1
}

// special reads "every 2 cm", "from 1 1/2 to 9", "in half", "down the middle"; it returns s.k where none stands. What counts
// scores out is read in counting.
func (s *scorer) special() int {
	p, k, t := s.p, s.k, s.p.at(s.k)
	if next := s.counting(); next > k {
		return next
	}
	switch t.text {
	case "from":
		if p.numberAt(k+1) && !p.isSize(k+1) {
			s.group().lo = k + 1
			return s.upTo(k + 2)
		}
	case "to", "until", "till":
		if g := s.g; g != nil && (g.step > 0 || g.lo > 0) && g.hi == nothing {
			return s.upTo(k)
		}
	case "half", "middle", "centre", "center", "halfway", "centrefold", "halves":
		if t.text == "halves" || p.at(k+1).text == "way" {
			break
		}
		if g := s.g; g != nil && g.half && g.dir.kind == unsaid {
			return k + 1 // in half, down the middle
		}
		g := s.next()
		g.half, s.open = true, false
		return k + 1
	}
	return k
}

// upTo reads "to 9" or "- 9" at k.
func (s *scorer) upTo(k int) int {
	i := k
	for range 3 {
		if w := s.p.at(i).text; w == "to" || w == "until" || w == "till" || w == "up" || w == "ending" || w == "at" || w == "-" {
			i++
		}
	}
	if i > k && s.p.numberAt(i) && !s.p.isSize(i) {
		s.group().hi = i
		return i + 1
	}
	return max(k, s.k)
}

// list reads numbers with commas, semicolons, slashes, dashes, "and", "&" or "then" between them, and returns their
// items and the item behind the last. vertical lists go on below, one number to a line.
func (p *parser) list(k int, vertical bool) ([]int, int) {
	list := []int{k}
	k++
	for len(list) <= card.MaxScores+1 {
		next := p.between(k)
		if next == nothing && vertical {
			next = p.below(k)
		}
		if next == nothing {
			return list, k
		}
		list = append(list, next)
		k = next + 1
	}
	return list, k
}

// between returns the number that goes on with a list behind the item before k; nothing where none does.
func (p *parser) between(k int) int {
	for range 4 {
		t := p.at(k)
		switch {
		case t.num != nil:
			if !p.numberAt(k) || p.isSize(k) || p.isCount(k) || p.endsAt(k) > k || t.num.word && p.at(k-1).kind == number {
				return nothing
			}
			if _, end := p.directionAt(k); end > k {
				return nothing
			}
			return k
		case t.kind == sign && (t.text == "," || t.text == ";" || t.text == "/" || t.text == "&" || t.text == "+" || t.text == "-" || t.text == "•"),
			t.kind == word && (t.text == "and" || t.text == "then" || t.text == "at" || t.text == "plus"):
			k++
		default:
			return nothing
		}
	}
	return nothing
}

// below returns the number that stands alone on the line below; nothing where none does.
func (p *parser) below(k int) int {
	if p.at(k).kind == sign && p.at(k).text == "," {
		k++
	}
	if p.at(k).kind != brk || p.at(k).text != "line" {
		return nothing
	}
	k++
	if k < len(p.items) && isBullet(p.items, k) {
		k++
	}
	if !p.numberAt(k) || p.isSize(k) {
		return nothing
	}
	switch next := p.at(k + 1); {
	case next.kind == brk, next.text == "," && p.at(k+2).kind == brk:
		return k
	}
	return nothing
}
