package cutlist

import (
	"strings"
)

// look finds what the sentence that begins at k holds.
func (p *parser) look(k int) sentence {
	s := sentence{units: nothing}
	for ; k < len(p.items) && p.items[k].kind != brk; k++ {
		t := &p.items[k]
		s.colon = t.text == ":"
		switch {
		case p.isSize(k):
			s.size = true
		case p.isScore(k):
			s.score = true
		case t.kind == number && !t.num.word && t.num.foreign == "":
			s.number = true
		case t.kind == word && (t.text == "first" || t.text == "second" && p.at(k-1).text == "the"):
			s.first = true
		case t.kind == word && backWords[t.text]:
			s.back = true
		case t.kind == word && (t.text == "all" || t.text == "everything"):
			s.all, s.unit = true, true
		case t.kind == word && measureWords[t.text]:
			s.unit = true
		case t.kind == word && unitWords[t.text].said && p.aloneUnit(k):
			s.units = k
		}
	}
	return s
}

// aloneUnit tells a unit that stands alone (in mm, (cm), in inches) from the preposition in.
func (p *parser) aloneUnit(k int) bool {
	if p.items[k].text != "in" {
		return true
	}
	next, prev := p.at(k+1), p.at(k-1)
	return next.kind == brk || next.text == ")" && prev.text == "("
}

// open reads what stands at the start of a sentence: a bullet, a number of a list, a unit for all, a name.
func (p *parser) open(k int) int {
	k = p.bullet(k)
	if p.at(k).kind == brk {
		return k
	}
	p.sized, p.from = false, k
	p.sent = p.look(k)
	if s := p.sent; s.units != nothing && !s.size && !s.score && (s.unit || !s.number) {
		p.declared = append(p.declared, declared{k, unitWords[p.items[s.units].text].unit})
		p.useSentence(k)
	}
	return p.name(k)
}

// useSentence marks the words of a sentence as read.
func (p *parser) useSentence(k int) {
	for ; k < len(p.items) && p.items[k].kind != brk; k++ {
		p.use(k, k+1)
	}
}

// bullet passes over the bullet or number of a list.
func (p *parser) bullet(k int) int {
	if t := p.at(k + 1); p.at(k).text == "step" && t.kind == number && t.num.whole && !t.num.said {
		p.use(k, k+1)
		t.used = true
		k += 2
		for p.at(k).text == ":" || p.at(k).text == "-" {
			k++
		}
		return k
	}
	if isBullet(p.items, k) {
		p.use(k, k+1)
		k++
		if p.at(k).text == "(" && p.at(k+2).text == ")" && p.at(k+1).kind == sign { // [ ] of a list to tick off
			k += 3
		}
	}
	if dot := p.at(k + 1); k < len(p.items) && isLetter(p.items, k) && (dot.text == "." || dot.text == ")") && !dot.gap && p.at(k+2).gap {
		p.use(k, k+2) // A. wall
		return k + 2
	}
	if !isMarker(p.items, k) {
		return k
	}
	i, next := k, k+2
	if p.items[k].text == "(" {
		i, next = k+1, k+3
	}
	n, ok := p.items[i].num.count()
	if !ok || n != 1 && n != p.marker+1 {
		return k
	}
	p.marker = n
	p.use(k, next)
	p.items[i].used = true
	return next
}

// mostLabel is how many words may stand before a colon or a size for one of them to be a name.
const mostLabel = 8

// name reads the name of a piece at the start of a sentence: "Wall:", "Roof strip –", "wall 252 x 72", or a heading.
func (p *parser) name(k int) int {
	if p.at(k).text == "for" {
		if next := p.purpose(k); next > k {
			return next
		}
	}
	var names []string
	end, at, words := k, nothing, 0
	for ; p.at(end).kind == word || p.isNamed(end); end++ {
		t := p.items[end]
		if words++; words > mostLabel || p.isScore(end) || t.kind == word && instructions[t.text] {
			return k
		}
		if t.kind == word && !stopsName(t.text) && p.at(end-1).text != "of" && p.at(end-1).text != "in" {
			if at == nothing {
				at = end
			}
			names = append(names, t.text)
		}
	}
	t := p.at(end)
	heading := t.kind == brk && !p.sent.number && words <= 4
	colon := t.kind == sign && (t.text == ":" || t.text == "-" && (t.gap || p.at(end+1).gap) || t.text == "(" || t.text == ",")
	times := t.kind == sign && t.text == "x" // wall x 2
	sized := p.sent.size && (p.isSize(end) || p.isCount(end) || times)
	heading = heading || times && words <= 4 && p.timesAt(end) && p.at(end+2).kind == brk
	if len(names) == 0 || len(names) > 3 || !(heading || colon && words <= 5 || sized) || t.text == "," && !p.sent.size {
		return k
	}
	return p.called(k, end, at, names)
}

// isNamed says whether a number belongs to a name: strip 2, piece 1.
func (p *parser) isNamed(k int) bool {
	t, prev, next := p.at(k), p.at(k-1), p.at(k+1)
	if t.kind != number || prev.kind != word || makeWords[prev.text] || t.num.word {
		return false
	}
	_, ok := t.num.count()
	return ok && (next.text == ":" || next.text == "-" && next.gap)
}

// called gives the name to the next piece, or goes back to the piece that has it already.
func (p *parser) called(k, end, at int, names []string) int {
	name := strings.Join(names, "-")
	if d := p.known(name); d != nil && !p.sent.size {
		p.cur = d
	} else {
		p.pending.name, p.pending.label = name, at
	}
	for i := k; i < end; i++ {
		t := &p.items[i]
		if t.num != nil || !colours[t.text] && !shades[t.text] && !paperWords[t.text] {
			t.used = true
		}
	}
	for i := k; i < end; i++ {
		if next := p.paper(i); next > i {
			i = next - 1
		} else if t := p.items[i]; t.text == "pair" || t.num != nil && !p.isNamed(i) {
			p.howMany(i)
		}
	}
	return end
}

// raw returns the words from a up to b as they stand in the text.
func (p *parser) raw(a, b int) string {
	var out []string
	for i := a; i < b; i++ {
		t := p.items[i].text
		if p.items[i].upper && len(t) > 0 {
			t = strings.ToUpper(t[:1]) + t[1:]
		}
		out = append(out, t)
	}
	return strings.Join(out, " ")
}

// known returns the piece that has a name already.
func (p *parser) known(name string) *draft {
	for _, d := range p.drafts {
		if d.name != "" && (d.name == name || singular(d.name) == singular(name)) {
			return d
		}
	}
	return nil
}

// purpose reads "for the spring" in a sentence that holds a size.
func (p *parser) purpose(k int) int {
	t := p.items[k]
	if t.kind != word || t.text != "for" || !p.sent.size {
		return k
	}
	var names []string
	at, end := nothing, k+1
	for n := 0; p.at(end).kind == word && n < 4 && !p.isScore(end); end, n = end+1, n+1 {
		w := p.items[end].text
		if len(names) > 0 && stopsName(w) {
			break
		}
		if !stopsName(w) {
			if at == nothing {
				at = end
			}
			names = append(names, w)
		}
	}
	if len(names) == 0 || len(names) > 2 {
		return k
	}
	name := strings.Join(names, "-")
	switch {
	case p.sized && p.cur != nil && p.cur.name == "" && p.cur.size.next == k: // 10 x 3 for the wall; 6 x 2 for the roof
		p.cur.name, p.cur.label = name, at
	case p.nextSize[k] != nothing:
		p.pending.name, p.pending.label = name, at
	case p.cur != nil && p.sized && p.cur.name == "":
		p.cur.name, p.cur.label = name, at
	default:
		return k
	}
	p.use(k, end)
	return end
}

// bracketed reads a name in brackets behind a size: 10 x 3 (wall).
func (p *parser) bracketed(k int) int {
	t := p.at(k + 1)
	if p.at(k).text != "(" || t.kind != word || p.at(k+2).text != ")" || !p.sized || p.cur == nil || p.cur.name != "" || stopsName(t.text) || sides[t.text] > 0 {
		return k
	}
	p.cur.name, p.cur.label = t.text, k+1
	p.use(k, k+3)
	return k + 3
}

// closes says whether a bracket is closed between two items.
func (p *parser) closes(a, b int) bool {
	for i := a + 1; i < b && i < a+20; i++ {
		switch p.items[i].text {
		case ")":
			return true
		case "(":
			return false
		}
	}
	return false
}

// paper reads a grammage or the name of a stock: 270 gsm navy card, of white, from sand card.
func (p *parser) paper(k int) int {
	t := &p.items[k]
	s := p.stockFor(k)
	if t.num != nil && t.num.foreign == "gsm" {
		if s != nil {
			s.gsm = t
		}
		return k + 1
	}
	if t.kind != word || s == nil {
		return k
	}
	end, name := k, ""
	for ; p.at(end).kind == word && end < k+4; end++ {
		w := p.items[end].text
		if !colours[w] && !shades[w] && !(name == "" && p.paperBehind(end)) {
			break
		}
		if name == "" && !shades[w] {
			name = w
		}
	}
	if paperWords[p.at(end).text] && end > k {
		end++
		if p.at(end).text == "stock" {
			end++
		}
	}
	if name == "" {
		return k
	}
	if s == &p.sticky {
		if p.stickyFrom == p.from && s.name != "" && s.name != name {
			*s, p.stickyMixed = stock{}, p.from // card: navy, white: neither is that of all pieces
			return k
		}
		p.stickyFrom = p.from
	}
	s.name, s.label = name, p.raw(k, end)
	p.use(k, end)
	if prev := p.at(k - 1); prev.text == "of" || prev.text == "from" || prev.text == "in" {
		p.use(k-1, k)
	}
	return end
}

// paperBehind says whether an unknown word names a stock: "of driftwood card".
func (p *parser) paperBehind(k int) bool {
	t, prev := p.items[k], p.at(k-1)
	return !nameless[t.text] && !paperWords[t.text] && !decoWords[t.text] && paperWords[p.at(k+1).text] &&
		(prev.text == "of" || prev.text == "from" || prev.text == "in" || prev.num != nil || shades[prev.text])
}

// stockFor returns the stock that a phrase at k is about: of the piece to come, of this one, or of all below.
func (p *parser) stockFor(k int) *stock {
	switch {
	case p.orn != nil && (p.nextSize[k] == nothing || k < p.orn.to):
		return &p.orn.stock
	case p.nextSize[k] != nothing:
		return &p.pending.stock
	case p.section.on:
		return &p.section.stock
	case p.sized && p.cur != nil:
		return &p.cur.stock
	case p.stickyMixed == p.from && p.from > 0:
		return nil
	case p.sent.all:
		return &p.sticky
	case p.sent.colon && !p.sent.size && !p.sent.score:
		return &p.sticky
	case p.deco:
		return nil
	case p.sent.back && p.cur != nil:
		return &p.cur.stock
	case p.sent.score && p.cur != nil:
		return nil
	case p.pending.count != nothing || p.pending.name != "":
		return &p.pending.stock
	}
	return &p.sticky
}
