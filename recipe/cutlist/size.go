package cutlist

import "foldwright/card"

// size is two numbers that say how large something is, by their items.
type size struct {
	a, b    int  // items
	swapped bool // the text says that the first is the height
	next    int  // the item behind it
}

// sides are words behind a number that say which side it measures.
var sides = map[string]uint8{
	"wide": wide, "width": wide, "across": wide, "w": wide, "high": high, "height": high, "tall": high, "h": high, "deep": high,
	"long": long, "length": long, "l": long,
}

const (
	wide uint8 = iota + 1
	high
	long
)

// numberAt says whether a number that may be a length stands at k.
func (p *parser) numberAt(k int) bool {
	n := p.at(k).num
	return n != nil && n.foreign == "" && !n.minus
}

// sideAt reads wide, (W) or "in height" at k; it returns 0 and k where none stands.
func (p *parser) sideAt(k int) (uint8, int) {
	t := p.at(k)
	switch {
	case t.kind == word && sides[t.text] > 0 && p.at(k+1).text != "side" && p.at(k+1).text != "edge":
		return sides[t.text], k + 1
	case t.text == "(" && t.kind == sign && p.at(k+1).kind == word && sides[p.at(k+1).text] > 0 && p.at(k+2).text == ")":
		return sides[p.at(k+1).text], k + 3
	case t.text == "in" && sides[p.at(k+1).text] > 0 && p.at(k+1).kind == word:
		return sides[p.at(k+1).text], k + 2
	}
	return 0, k
}

func (p *parser) isBy(k int) bool {
	t := p.at(k)
	return (t.kind == sign && t.text == "x" || t.kind == word && t.text == "by") && !t.first
}

// sizeAt reads the size that begins at k.
func (p *parser) sizeAt(k int) (size, bool) {
	if s, ok := p.circleAt(k); ok {
		return s, true
	}
	switch {
	case p.at(k).kind == word:
		return p.labelled(k)
	case !p.numberAt(k):
		return size{}, false
	}
	s := size{a: k}
	if p.timesAt(k+1) && p.endsList(k) {
		return s, false
	}
	if t := p.at(k + 1); t.kind == word && t.text == "square" {
		return size{a: k, b: k, next: k + 2}, true
	}
	first, k := p.sideAt(k + 1)
	by := p.isBy(k)
	if by {
		k++
	} else if first > 0 {
		for range 2 {
			if t := p.at(k); t.text == "," || t.text == "and" || t.text == "&" {
				k++
			}
		}
	}
	if !p.numberAt(k) || !by && first == 0 {
		return s, false
	}
	s.b = k
	second, k := p.sideAt(k + 1)
	if !by && second == 0 {
		return s, false
	}
	s.swapped = first == high && second != high || second == wide && first == 0
	s.next = k
	if t := p.at(k); t.kind == word && (t.text == "side" || t.text == "edge") && !by {
		return s, false
	}
	return s, true
}

// endsList says whether the number at k is the last of a list of scores: at 36, 54 and 72 ×2 says how many pieces.
func (p *parser) endsList(k int) bool {
	for i := k - 1; i > k-2*card.MaxScores; i-- {
		switch t := p.at(i); {
		case t.num != nil, t.kind == sign && t.text != "x" && t.text != "(" && t.text != ")", t.kind == word && (t.text == "and" || t.text == "then"):
		default:
			return i < k-1 && t.kind == word && (t.text == "at" || p.isScore(i))
		}
	}
	return false
}

// labelled reads "width 252, height 72" or "W: 252 H: 72".
func (p *parser) labelled(k int) (size, bool) {
	read := func(k int) (uint8, int, int) {
		t := p.at(k)
		side := sides[t.text]
		if t.kind != word || side == 0 {
			return 0, 0, k
		}
		k++
		for range 2 {
			if t := p.at(k); t.text == ":" || t.text == "=" || t.text == "of" || t.text == "is" {
				k++
			}
		}
		if !p.numberAt(k) {
			return 0, 0, k
		}
		return side, k, k + 1
	}
	first, a, next := read(k)
	if first == 0 {
		return size{}, false
	}
	for range 2 {
		if t := p.at(next); t.text == "," || t.text == "and" || t.text == "x" || t.text == ";" || t.text == "by" {
			next++
		}
	}
	second, b, next := read(next)
	if second == 0 || second == first {
		return size{}, false
	}
	return size{a: a, b: b, swapped: first == high, next: next}, true
}

// size reads the size at k as one of a new piece, or passes over one of a mat or an envelope.
func (p *parser) size(k int, s size) int {
	if p.isDeco(k, s) {
		return p.ornament(k, s)
	}
	if p.isSheet(k) || p.format > 0 && k == p.format {
		return s.next
	}
	if len(p.drafts) >= maxDrafts {
		p.full(k)
		return s.next
	}
	d := newDraft(s)
	k = p.third(d, s.next)
	k = p.otherSize(d, k)
	p.use(min(s.a, s.b), k)
	p.start(d)
	p.deco, p.section, p.orn = false, section{}, nil
	return p.bare(d, k)
}

// isSheet says whether a size in brackets is that of a sheet: an A4 sheet (210 x 297 mm).
func (p *parser) isSheet(k int) bool {
	if p.at(k-1).text != "(" {
		return false
	}
	for i := k - 2; i > k-8 && p.at(i).kind != brk; i-- {
		switch p.at(i).text {
		case "a2", "a3", "a4", "a5", "a6", "letter":
			return true
		}
	}
	return false
}

// isDeco says whether a size is that of a mat, an opening or an envelope: a word for one stands with it, and no score.
func (p *parser) isDeco(k int, s size) bool {
	if s.a == s.b && p.at(s.next-1).text != "square" {
		return true // a circle
	}
	if p.scoreIn(s.next) {
		return false
	}
	if p.deco {
		return true
	}
	for i, n := s.next, 0; n < 8; i, n = i+1, n+1 {
		t := p.at(i)
		if t.kind == brk || t.text == "," || t.text == ";" || i > s.next && p.nextSize[min(i, len(p.nextSize)-1)] == i {
			return false
		}
		if t.kind == word && decoWords[t.text] {
			return true
		}
	}
	return false
}

// scoreIn says whether scores follow k in this sentence before another size.
func (p *parser) scoreIn(k int) bool {
	if k >= len(p.items) {
		return false
	}
	score, size := p.nextScore[k], p.nextSize[k]
	return score != nothing && (size == nothing || score < size)
}

// third reads the third number of "2 x 10 x 3" or "10 x 3 x2": one of them says how many.
func (p *parser) third(d *draft, k int) int {
	if !p.isBy(k) || !p.numberAt(k+1) || d.size.a == d.size.b {
		return k
	}
	_, first := p.items[d.size.a].num.count()
	n, last := p.items[k+1].num.count()
	switch glued := p.items[k].gap && !p.items[k+1].gap && p.at(d.size.b).gap; {
	case last && (glued || !first):
		d.count = k + 1
	case first:
		if c, _ := p.items[d.size.a].num.count(); last && c > 6 && n <= 6 {
			d.count = k + 1
			break
		} else if last {
			p.warn("count-unclear", d.size.a, "of three numbers the first is taken as how many to cut", "the number of pieces apart from the size: 2 pieces 10 x 3")
		}
		d.count, d.size = d.size.a, size{a: d.size.b, b: k + 1}
	default:
		return k
	}
	return k + 2
}

// otherSize reads the same size in another unit: 10 1/2 x 3 in (26.7 x 7.6 cm).
func (p *parser) otherSize(d *draft, k int) int {
	open := p.at(k).kind == sign && p.at(k).text == "("
	if open && unitWords[p.at(k+1).text].said && p.at(k+1).kind == word && p.at(k+2).text == ")" {
		p.saySize(d, k+1)
		return k + 3
	}
	if !open && p.at(k).text != "/" && p.at(k).text != "=" && p.at(k).text != "≈" && p.at(k).text != "or" {
		return k
	}
	from := k + 1
	for range 2 {
		if t := p.at(from); t.text == "=" || t.text == "≈" || t.text == "about" || t.text == "approx" {
			from++
		}
	}
	s, ok := p.sizeAt(from)
	if !ok || open && p.at(s.next).text != ")" {
		return k
	}
	mine, said := p.saidIn(d.size)
	other, also := p.saidIn(s)
	if !also || said && mine == other || !said && !open {
		return k
	}
	d.other = s
	if open {
		return s.next + 1
	}
	return s.next
}

// saySize gives a size the unit that stands in brackets behind it.
func (p *parser) saySize(d *draft, k int) {
	for _, i := range []int{d.size.a, d.size.b} {
		if n := p.items[i].num; !n.said {
			n.unit, n.said = unitWords[p.items[k].text].unit, true
		}
	}
}

// bare takes numbers right behind a size as its scores where they can be nothing else: wall 252 x 72: 42, 78, 120.
func (p *parser) bare(d *draft, k int) int {
	from := k
	if p.inRow {
		return k
	}
	for t := p.at(from); t.kind == sign && (t.text == ":" || t.text == "-" || t.text == ";" || t.text == "," || t.text == "/") || t.kind == brk && t.text == "cell"; t = p.at(from) {
		from++
	}
	if from == k || !p.numberAt(from) || p.at(from).first && !p.isCell(k) || p.isSize(from) || p.isCount(from) {
		return k
	}
	list, next := p.list(from, false)
	if len(list) < 2 || p.at(next).kind != brk {
		return k
	}
	p.warn("scores-guessed", from, "the numbers behind the size are taken as its scores", "the word score before them")
	g := newGroup(from)
	g.list = list
	d.groups = append(d.groups, *g)
	p.use(from, next)
	return next
}

func (p *parser) isCell(k int) bool { return p.at(k).kind == brk && p.at(k).text == "cell" }
