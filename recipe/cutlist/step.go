package cutlist

// Words that say where the first or the last of scores that are counted out stands: first at 30, starting with 30, last at 150.
var (
	firstWords = set{"first": true, "starting": true, "starts": true, "start": true, "beginning": true, "begins": true, "begin": true}
	lastWords  = set{"last": true, "final": true, "ending": true, "ends": true, "end": true, "finishing": true}
)

// endLeads stand before those words, and endFill between them and their number: but with the first score being at 30.
var (
	endLeads = set{"but": true, "with": true, "the": true, "and": true, "only": true, "however": true, "though": true, ",": true, "(": true, "-": true}
	endFill  = set{
		"at": true, "with": true, "from": true, "one": true, "score": true, "line": true, "fold": true, "crease": true, "mark": true, "is": true, "being": true,
		"of": true, "them": true, "these": true, "comes": true, "stands": true, "goes": true, ":": true, "the": true, "on": true,
	}
)

// limits are words that make an exception of what follows: numbers behind them are no further scores.
var limits = set{
	"but": true, "except": true, "excepting": true, "excluding": true, "not": true, "never": true, "no": true, "without": true, "skip": true, "skipping": true,
	"omit": true, "omitting": true, "miss": true, "missing": true, "leave": true, "leaving": true, "unless": true, "instead": true, "minus": true,
	"less": true, "ignore": true, "ignoring": true, "avoid": true, "avoiding": true, "don't": true, "dont": true,
}

// afterWords behind a step say that it goes on from the score before it: at 30 and every 15 thereafter.
var afterWords = set{"after": true, "thereafter": true, "afterwards": true, "onward": true, "onwards": true, "hence": true}

// mostLead bounds the words of each kind in such a phrase.
const mostLead = 5

// endAt returns the number that words of ends lead to at k: but the first at 30; nothing where none stands.
func (p *parser) endAt(k int, ends set) int {
	to := k + mostLead
	for k < to && endLeads[p.at(k).text] {
		k++
	}
	if t := p.at(k); t.kind != word || !ends[t.text] {
		return nothing
	}
	for k, to = k+1, k+1+mostLead; k < to; k++ {
		t := p.at(k)
		switch one := t.num != nil && t.num.word && t.num.whole && t.text == "1" && !t.num.said; {
		case one && (p.numberAt(k+1) || endFill[p.at(k+1).text]): // the first one at 30
		case t.num != nil:
			if p.numberAt(k) && !p.isSize(k) {
				return k
			}
			return nothing
		case !endFill[t.text]:
			return nothing
		}
	}
	return nothing
}

// stepAt reads "every 15", "in steps of 15", "15 apart" at k, and returns the number and the item behind; it returns
// nothing and k where none stands.
func (p *parser) stepAt(k int) (int, int) {
	length := func(i int) bool { return p.numberAt(i) && !p.isSize(i) }
	switch t := p.at(k); {
	case t.num != nil:
		if next := p.at(k + 1); length(k) && next.kind == word && (next.text == "apart" && p.at(k+2).text != "from" || next.text == "steps" || next.text == "intervals") {
			return k, k + 2
		}
	case t.text == "every" && length(k+1):
		return k + 1, k + 2
	case (t.text == "steps" || t.text == "intervals" || t.text == "increments") && p.at(k+1).text == "of" && length(k+2):
		return k + 2, k + 3
	}
	return nothing, k
}

// stepBehind says whether a step follows at k, with nothing but words and an end before it: [first at 30] to 150, then every 15.
func (p *parser) stepBehind(k int) bool {
	for i := k; i < k+8; i++ {
		if n, _ := p.stepAt(i); n != nothing {
			return true
		}
		switch t := p.at(i); {
		case t.kind == brk, p.isScore(i), t.num != nil && !toWords[p.at(i-1).text], t.text == ";":
			return false
		}
	}
	return false
}

// toWords lead to the end of what is counted out.
var toWords = set{"to": true, "until": true, "till": true, "ending": true, "up": true, "-": true, "at": true}

// counting reads a step, or where it begins or ends, at k; it returns k where none stands.
func (s *scorer) counting() int {
	p, k, g := s.p, s.k, s.g
	if step, end := p.stepAt(k); step != nothing {
		from := nothing
		if g != nil && len(g.list) > 0 && (p.at(k-1).text == "then" || afterWords[p.at(end).text]) {
			from = g.list[len(g.list)-1] // at 30, then every 15
		}
		if afterWords[p.at(end).text] {
			end++
		}
		g = s.next()
		if g.step, s.open = step, false; from != nothing {
			g.lo = from
		}
		return end
	}
	stepped := g != nil && g.step > 0
	if first := p.endAt(k, firstWords); first != nothing {
		switch {
		case stepped && g.lo == nothing:
			g.lo, s.open = first, false
			return s.upTo(first + 1)
		case !stepped && p.stepBehind(first+1):
			s.next().lo = first
			return s.upTo(first + 1)
		case !stepped: // starting at 30, then 45 and 60: a list
			s.open = true
			return first
		}
	}
	if last := p.endAt(k, lastWords); last != nothing && stepped && g.hi == nothing {
		g.hi, s.open = last, false
		return last + 1
	}
	return k
}

// firstLater reads a sentence of its own that says where the scores counted out before it begin: The first at 30.
func (p *parser) firstLater(k int) int {
	if p.cur == nil || p.sized || len(p.cur.groups) == 0 {
		return k
	}
	g := &p.cur.groups[len(p.cur.groups)-1]
	first := p.endAt(k, firstWords)
	if first == nothing || g.step <= 0 || g.lo != nothing {
		return k
	}
	g.lo = first
	p.use(k, first)
	return first + 1
}

// limit says whether the word at k makes an exception of what follows in the phrase, which is then not read.
func (s *scorer) limit() bool {
	p, k := s.p, s.k
	if t := p.at(k); t.kind != word || !limits[t.text] || s.g == nil || s.g.empty() {
		return false
	}
	if next := p.at(k + 1); p.at(k).text == "but" && (p.isScore(k+1) || !p.numberBehind(k) && !limits[next.text]) {
		return false // but score the other side at; but lightly
	}
	p.items[k].doubt = true
	return true
}

// numberBehind says whether a number in digits follows k in its sentence.
func (p *parser) numberBehind(k int) bool {
	for i := k + 1; i < k+30 && p.at(i).kind != brk; i++ {
		if n := p.at(i).num; n != nil && !n.word {
			return true
		}
	}
	return false
}
