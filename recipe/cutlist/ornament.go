package cutlist

import (
	"foldwright/card"
	"foldwright/length"
)

// ornament is a mat or a topper as it was read: the fields of a draft that say how large, how many and of what, and the
// items of the words that stand around them.
type ornament struct {
	draft
	kind     ornamentKind
	shape    card.WindowKind
	heading  section // above it
	several  bool    // mats, each: as many as there are panels for them
	from, to int
	w, h     length.Length // filled when the numbers are worked out; 0 where they cannot be
}

type ornamentKind uint8

// What a word for a decoration makes of the sizes behind it: nothing that a recipe holds (an envelope, a ribbon), or a line.
const (
	otherOrnament ornamentKind = iota
	matOrnament
	topperOrnament
)

var ornamentWords = map[string]ornamentKind{
	"mat": matOrnament, "mats": matOrnament, "matt": matOrnament, "matted": matOrnament, "matting": matOrnament, "layer": matOrnament, "layers": matOrnament,
	"layered": matOrnament, "topper": topperOrnament, "toppers": topperOrnament, "sentiment": topperOrnament, "image": topperOrnament,
	"oval": topperOrnament, "ovals": topperOrnament, "circle": topperOrnament, "circles": topperOrnament,
}

// howWords say how a decoration is made, and not which.
var howWords = set{"die": true, "dies": true, "stamp": true, "stamped": true, "punch": true, "photo": true, "finished": true, "fits": true, "closed": true}

// mostOrnaments bounds how many are read; more are handed back as they stand.
const mostOrnaments = 200

// section is the words for decorations that hold for more than their sentence: a heading "Mats and toppers", a label "Mats:".
type section struct {
	kind     ornamentKind
	on       bool
	line     bool  // it ends with its line; else with the paragraph
	from, to int   // its items
	stock    stock // said in it: Mats, white
}

// decorate takes the word at k as one for a decoration.
func (p *parser) decorate(k int) {
	kind := ornamentWords[p.items[k].text]
	if p.deco && howWords[p.items[k].text] || p.section.on && p.section.from == p.from {
		return // an oval topper, stamped; the toppers of "Mats and toppers:" are each said again
	}
	p.deco, p.decoKind = true, kind
	end, heading := p.headingEnd(k)
	if heading || p.at(k+1).text == ":" {
		p.section = section{kind: kind, on: true, line: !heading, from: p.from, to: end}
	}
}

// headingEnd says whether the sentence of the decoration at k is a heading, which holds few words and ends with its line,
// and where it ends; the label of a line ends behind its colon.
func (p *parser) headingEnd(k int) (int, bool) {
	end := k + 1
	for p.at(end).kind != brk && end-p.from <= mostLabel {
		end++
	}
	if p.sent.size || p.sent.number || p.sent.score || p.at(end).text != "line" {
		return k + 1, false
	}
	return end, true
}

// leave ends a section at a break, and says what decoration the next sentence begins in.
func (p *parser) leave(t *item) {
	if s := &p.section; s.on && (t.text == "para" || s.line && t.text == "line") {
		*s = section{}
	}
	if t.text != "cell" {
		p.deco, p.decoKind, p.orn = p.section.on, p.section.kind, nil
	}
}

// ornament reads the size at k as one of a mat, a topper or another decoration.
func (p *parser) ornament(k int, s size) int {
	kind := p.decoKind
	if !p.deco || kind == otherOrnament {
		kind = p.kindBehind(s.next, kind)
	}
	p.deco, p.cur = true, nil
	n := p.pending
	p.pending = pending{count: nothing}
	if kind == otherOrnament || len(p.ornaments) >= mostOrnaments {
		p.orn = nil
		return s.next
	}
	o := &ornament{draft: *newDraft(s), kind: kind}
	o.count, o.pair, o.stock = n.count, n.pair, n.stock
	o.from = p.clauseStart(k, o.count)
	if p.section.on {
		o.heading = p.section
	}
	next := p.otherSize(&o.draft, p.third(&o.draft, s.next))
	o.to = p.clauseEnd(next)
	for i := o.from; i < o.to; i++ {
		switch w := p.items[i].text; {
		case w == "oval" || w == "ovals":
			o.shape = card.Oval
		case w == "circle" || w == "circles" || w == "round":
			o.shape = card.Circle
		case w == "each" || w == "every" || w == "all" || w == "mats" || w == "layers":
			o.several = true
		}
	}
	if o.shape != card.Rect {
		o.kind = topperOrnament
	}
	p.ornaments = append(p.ornaments, o)
	p.orn = o
	return next
}

// kindBehind returns the kind that a word behind a size says: 4 1/2 x 5 3/4 topper.
func (p *parser) kindBehind(k int, otherwise ornamentKind) ornamentKind {
	for i := k; i < k+8 && p.at(i).kind != brk && p.at(i).text != ";"; i++ {
		if kind := ornamentWords[p.at(i).text]; kind != otherOrnament && p.at(i).kind == word {
			return kind
		}
	}
	return otherwise
}

// clauseStart returns the first item of what is said of an ornament whose size begins at k, and of which there are as
// many as the item count says.
func (p *parser) clauseStart(k, count int) int {
	stop := p.from
	if p.orn != nil {
		stop = p.orn.to
	}
	i := k
	for ; i > stop && i > k-30; i-- {
		if t := p.at(i - 1); t.kind == brk || t.text == ";" || t.num != nil && i-1 != count && t.num.foreign != "gsm" {
			break
		}
	}
	for i < k && p.at(i).kind == sign {
		i++
	}
	return i
}

// clauseEnd returns the item behind what is said of an ornament whose size ends before k.
func (p *parser) clauseEnd(k int) int {
	depth := 0
	i := k
	for ; i < k+20 && p.at(i).kind != brk; i++ {
		t := p.at(i)
		switch {
		case t.text == "(":
			depth++
		case t.text == ")":
			depth--
		case depth > 0:
		case t.text == "," && p.goesOn(i+1):
		case t.text == ";", t.text == ",", p.isSize(i), t.num != nil && p.nextSize[i] != nothing && !p.timesAt(i-1), t.kind == word && p.isDecoNext(i):
			return i
		}
		if depth < 0 {
			return i
		}
	}
	return i
}

// goesOn says whether the word at k still tells of the ornament before the comma: 4 x 5, oval; 4 x 5, white; 4 x 5, for the front.
func (p *parser) goesOn(k int) bool {
	w := p.at(k).text
	return p.at(k).kind == word && p.nextSize[min(k, len(p.items)-1)] == nothing && (ornamentWords[w] == topperOrnament || w == "for" || w == "on" || colours[w] || shades[w])
}

// isDecoNext says whether the word at i begins what is said of the next decoration: and a topper 3 x 4.
func (p *parser) isDecoNext(i int) bool {
	return ornamentWords[p.items[i].text] != otherOrnament && p.nextSize[i] != nothing
}

// circleAt reads "a 60 mm circle" and "a circle of 60 mm" at k as a size.
func (p *parser) circleAt(k int) (size, bool) {
	isCircle := func(k int) bool {
		t := p.at(k)
		return t.kind == word && (t.text == "circle" || t.text == "circles")
	}
	switch {
	case p.numberAt(k) && isCircle(k+1):
		return size{a: k, b: k, next: k + 2}, true
	case isCircle(k):
		i := k + 1
		for range 2 {
			if w := p.at(i).text; w == "of" || w == ":" || w == "," {
				i++
			}
		}
		if by := p.at(i + 1); p.numberAt(i) && !p.isBy(i+1) && by.text != "circle" && by.text != "circles" && p.items[i].num.said {
			return size{a: i, b: i, next: i + 1}, true
		}
	}
	return size{}, false
}

// measure works out the sizes of the ornaments.
func (p *parser) measure(h *habit) {
	for _, o := range p.ornaments {
		if o.stock.name == "" {
			o.stock = o.heading.stock
		}
		unit := p.sizeUnit(h, &o.draft)
		of := func(k int) length.Length {
			n := p.items[k].num
			u := unit
			if n.said {
				u = n.unit
			}
			l, err := n.length(u)
			if err != nil || len(n.run) > 2 {
				return 0
			}
			return l
		}
		o.w, o.h = of(o.size.a), of(o.size.b)
		if o.size.swapped {
			o.w, o.h = o.h, o.w
		}
	}
}

// settle marks the words of an ornament as read where it is in the card, and hands all of them back where it is not.
func (p *parser) settle(o *ornament, placed bool) {
	for i := o.from; i < o.to; i++ {
		if p.items[i].kind != brk {
			p.items[i].used = placed
		}
	}
	if o.count != nothing {
		p.items[o.count].used = placed
	}
	for i := o.heading.from; placed && i < o.heading.to; i++ {
		p.items[i].used = true
	}
}
