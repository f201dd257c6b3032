package cutlist

import "strings"

// title is the first line of a text where that names the whole card.
type title struct {
	text     string
	from, to int // its items
	// doubtful says that the line may also be the name of the piece below it.
	doubtful bool
}

// metaWords stand around a title and are no part of it: cut list for the harbour light.
var metaWords = set{
	"cut": true, "cutting": true, "list": true, "cutlist": true, "cut-list": true, "guide": true, "measurements": true, "sizes": true, "dimensions": true,
	"project": true, "title": true, "instructions": true, "supplies": true, "materials": true, "template": true,
}

// mostTitle is how many words a title has at most.
const mostTitle = 10

// findTitle reads the first line as a title where it can be one, and returns the item at which reading goes on.
func (p *parser) findTitle() int {
	a := p.lineWith(0, func(t *item) bool { return t.kind == word || t.kind == number || t.kind == digits || t.kind == part })
	b, end := a, a
	for ; p.at(end).kind != brk || p.at(end).text == "stop" && p.at(end+1).kind == brk && end+1 < len(p.items); end++ {
		if p.at(end).kind != brk {
			b = end + 1
		}
	}
	if end >= len(p.items) || p.rows[p.at(a).line].end > 0 || p.at(end).text == "stop" || p.at(end).text == "cell" {
		return 0
	}
	if open := p.asideAt(a, b); open < b {
		b, end = open, open // (fits 5 x 7) is read on its own
	}
	b = p.unitBehind(a, b)
	a, b = p.withoutMeta(a, b)
	if !p.isTitle(a, b, p.at(b).text == "stop") {
		return 0
	}
	t := title{from: a, to: b, doubtful: p.at(end).text == "line" && p.at(end+1).text != "para" && p.unnamedAt(end+1)}
	t.text = strings.Join(strings.Fields(p.text[p.items[a].start:p.items[b-1].end]), " ")
	p.title = t
	if p.titleUnit != nil {
		p.declared = append(p.declared, *p.titleUnit)
	}
	p.use(0, end)
	return end
}

// unitBehind takes a unit for all the text off the end of a title: Harbour light in inches, Harbour light (mm), Harbour
// light (metric).
func (p *parser) unitBehind(a, b int) int {
	last := b - 1
	if p.at(last).text == ")" {
		last--
	}
	t := p.at(last)
	switch {
	case t.kind != word || last <= a+1:
	case t.text == "metric" || t.text == "imperial":
		if p.at(last-1).text == "(" {
			return last - 1
		}
	case unitWords[t.text].said && (p.at(last-1).text == "in" || p.at(last-1).text == "(" || p.at(last-1).text == ","):
		p.titleUnit = &declared{last, unitWords[t.text].unit}
		return last - 1
	}
	return b
}

// asideAt returns the bracket in the items from a up to b that tells of an envelope or of the finished card; b where there
// is none.
func (p *parser) asideAt(a, b int) int {
	open := b
	for i := a + 1; i < b; i++ {
		switch t := p.at(i); {
		case t.text == "(" && open == b:
			open = i
		case open < b && (t.kind == word && decoWords[t.text] || p.isSize(i) && p.formatAt(i, b)):
			return open
		}
	}
	return b
}

// formatAt says whether the size at k, in the bracket that ends a title before b, is that of the whole card: Harbour light
// (5 x 7). It is not where the line below goes on with the same piece, or writes its size in brackets too.
func (p *parser) formatAt(k, b int) bool {
	s, _ := p.sizeAt(k)
	if s.next != b-1 || p.at(s.next).text != ")" || p.unnamedAt(b+1) {
		return false
	}
	for i := p.lineWith(b+1, func(t *item) bool { return t.kind != brk }); p.at(i).kind != brk; i++ {
		if p.isSize(i) {
			if p.at(i-1).text == "(" {
				return false
			}
			p.format = k
			return true
		}
	}
	return false
}

// lineWith returns the first item from k on that says something.
func (p *parser) lineWith(k int, says func(*item) bool) int {
	for k < len(p.items) && !says(&p.items[k]) {
		k++
	}
	return k
}

// withoutMeta narrows the items from a up to b to those of a title.
func (p *parser) withoutMeta(a, b int) (int, int) {
	outer := func(t *item) bool { return t.kind == sign && t.text != ")" || t.kind == word && metaWords[t.text] }
	meta := false // what to cut
	for b > a && (outer(&p.items[b-1]) || meta && (p.items[b-1].text == "to" || p.items[b-1].text == "what" || p.items[b-1].text == "and")) {
		b--
		meta = meta || p.items[b].kind == word
	}
	from := a
	for a < b && outer(&p.items[a]) {
		a++
	}
	for a > from && a < b && (p.items[a].text == "for" || p.items[a].text == "the" || p.items[a].text == "my" || p.items[a].text == "a") {
		a++
	}
	return a, b
}

// isTitle says whether the items from a up to b can name a card: no number, no instruction, no paper, no unit, no list.
func (p *parser) isTitle(a, b int, stop bool) bool {
	words, names := 0, 0
	for i := a; i < b; i++ {
		t := &p.items[i]
		switch {
		case t.kind == number && !(t.num.word && !t.num.said), t.kind == digits, t.kind == part, t.kind == brk, t.text == ":",
			measureWords[t.text], unitWords[t.text].said && t.text != "in":
			return false
		case t.kind == word:
			words++
			if !stopsName(t.text) && t.text != "everything" {
				names++
			}
		}
	}
	if names == 0 || p.items[a].num != nil || words > mostTitle || stop && words > mostTitle/2 {
		return false
	}
	first := p.items[a].text
	return p.items[a].kind != word || !makeWords[first] && !p.isScore(a) && (!instructions[first] || decoWords[first]) && !foldWords[first]
}

// unnamedAt says whether the line at k gives a size, or what a piece is cut from, and no name before it.
func (p *parser) unnamedAt(k int) bool {
	k = p.lineWith(k, func(t *item) bool { return t.kind != brk && t.kind != sign })
	for i := k; p.at(i).kind != brk; i++ {
		t := p.at(i)
		switch {
		case p.isSize(i), t.num != nil:
			return true
		case t.text == ":":
			return false
		case t.kind == word && colours[t.text] || paperWords[t.text] || scoreWords[t.text]:
			return true
		case t.kind == word && !nameless[t.text] && !makeWords[t.text] && !shades[t.text]:
			return false
		}
	}
	return false
}

// settleTitle decides, once all is read, whether a line that may be both is a title: it is the name of the first piece
// where all other pieces have names, and both where there is one piece only.
func (p *parser) settleTitle() {
	t := &p.title
	if !t.doubtful || len(p.drafts) == 0 || p.drafts[0].name != "" {
		return
	}
	for _, d := range p.drafts[1:] {
		if d.name == "" {
			return
		}
	}
	first := p.drafts[0]
	var names []string
	for i := t.from; i < t.to; i++ {
		if w := &p.items[i]; w.kind == word && !stopsName(w.text) {
			names = append(names, w.text)
		}
	}
	first.name, first.label = strings.Join(names, "-"), t.from
	if len(p.drafts) > 1 {
		t.text = ""
	}
}
