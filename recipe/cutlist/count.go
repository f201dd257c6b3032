package cutlist

// isCount says whether a number at k says how many pieces there are.
func (p *parser) isCount(k int) bool {
	n := p.at(k).num
	if n == nil {
		return false
	}
	v, ok := n.count()
	if !ok || v > maxDrafts {
		return false
	}
	next := p.at(k + 1)
	switch {
	case next.kind == word && countNouns[next.text], next.kind == sign && next.text == "x" && p.at(k+2).kind == word:
		return true
	case p.isSize(k):
		return false
	}
	return p.sizeFollows(k)
}

// sizeFollows says whether nothing but a few words stands between k and the next size: two white springs 9½ x 2½; two
// springs, each 9½ x 2½.
func (p *parser) sizeFollows(k int) bool {
	size := p.nextSize[min(k, len(p.items)-1)]
	if size == nothing || size-k > 8 {
		return false
	}
	for i := k + 1; i < size; i++ {
		t := p.items[i]
		switch {
		case t.num != nil && t.num.foreign != "gsm", p.isScore(i), t.text == "on",
			t.text == "at" && (i != k+1 || i != size-1),
			t.text == "to" && !(i == size-1 && makeWords[p.items[i-1].text]),
			t.text == "from" && p.numberAt(i+1),
			t.text == "," && !(p.leadsTo(k, i, size) && (i > k+1 || p.at(k-1).text == ":")),
			t.text == ":" && !(i == size-1 && p.items[k].num.word) && !(i < size-1 && p.leadsTo(k, i, size)):
			return false
		}
	}
	return true
}

// leadsTo says whether the comma or colon behind the number at count only sets off a size from what it is that of:
// springs, 9½ x 2½; springs: each spring is cut to 9½ x 2½.
func (p *parser) leadsTo(count, comma, size int) bool {
	noun, _ := p.nounBehind(count)
	for i := comma + 1; i < size; i++ {
		w := p.items[i].text
		if !sizeLeads[w] && !(i > comma+1 && (w == "to" || makeWords[w] || noun != "" && singular(w) == singular(noun))) {
			return false
		}
	}
	return true
}

// howMany reads "two pieces", "a pair of", "x2", "(cut 2)", "make four of these".
func (p *parser) howMany(k int) int {
	t := p.items[k]
	prev := p.at(k - 1)
	switch {
	case t.kind == word && (t.text == "pair" || t.text == "twice"):
		return p.counted(k, k+1, t.text == "twice")
	case p.oneMore(k):
		return p.counted(k, k+2, true)
	case t.num == nil:
		return k
	}
	v, ok := t.num.count()
	if !ok || v > maxDrafts {
		return k
	}
	p.tally(k)
	if p.timesBehind(k) {
		return p.counted(k, k+2, true)
	}
	next := p.at(k + 1)
	end := k + 1
	for p.at(end).kind == word && (countNouns[p.at(end).text] || p.at(end).text == "the") && end < k+4 {
		end++
	}
	back := backWords[p.at(end).text] || next.text == "off" || next.text == "times"
	made := prev.kind == word && makeWords[prev.text]
	byX := prev.kind == sign && prev.text == "x" && p.at(k-2).num == nil || prev.text == "x" && p.at(k-2).used && p.at(k-2).num != nil
	alone := prev.text == "(" && next.text == ")" || prev.text == ":" && makeWords[p.at(k-2).text]
	switch {
	case byX, p.timesAt(k - 1), made && (next.kind == brk || next.kind == sign && next.text != "x" || back || t.num.word && !next.gap), back, alone:
		return p.counted(k, end, true)
	case p.isCount(k):
		if next.kind == sign && next.text == "x" {
			end++
		}
		return p.counted(k, end, false)
	case made && !p.numberAt(k+1) && !t.num.said:
		return p.counted(k, end, p.sized)
	}
	return k
}

// timesBehind says whether a number with an x behind it and nothing that it multiplies stands at k: (2x), – 2x –.
func (p *parser) timesBehind(k int) bool {
	by, next := p.at(k+1), p.at(k+2)
	return by.kind == sign && by.text == "x" && (next.kind == sign || next.kind == brk)
}

// timesAt says whether an x with a number of pieces behind it, and nothing more to measure, stands at k: ×2; x 2).
func (p *parser) timesAt(k int) bool {
	n := p.at(k + 1).num
	if p.at(k).kind != sign || p.at(k).text != "x" || n == nil {
		return false
	}
	v, ok := n.count()
	next := p.at(k + 2)
	return ok && v <= maxDrafts && (next.kind == brk || next.text == ")" || next.text == "," || next.text == ";")
}

// oneMore reads "make another one", "repeat for a second one" about the piece before.
func (p *parser) oneMore(k int) bool {
	t := p.at(k)
	if t.kind != word || t.text != "another" && t.text != "second" || p.sized || p.sent.size || p.sent.score || p.cur == nil {
		return false
	}
	if next := p.at(k + 1); (next.num == nil || next.text != "1") && next.text != "piece" && next.text != "strip" {
		return false
	}
	prev := p.at(k - 1).text
	return makeWords[prev] || (prev == "a" || prev == "the") && (makeWords[p.at(k-2).text] || p.at(k-2).text == "for")
}

// counted gives the number at k to the piece that it is about: back says that it is likely the one before.
func (p *parser) counted(k, end int, back bool) int {
	size := p.nextSize[k]
	ahead := size != nothing && (!p.sized && p.orn == nil || !p.closes(k, size))
	if back && p.sized && p.scoreIn(k) {
		ahead = false // 10 x 3, cut 2, score at 5
	}
	switch {
	case ahead, !p.sized && p.orn == nil && (!back || p.pending.name != ""):
		if old := p.pending.count; old != nothing && old != k {
			p.handBack(old)
		}
		p.pending.count, p.pending.pair = k, p.items[k].num == nil
	case p.orn != nil && p.orn.count == nothing:
		p.orn.count, p.orn.pair = k, p.items[k].num == nil
	case p.cur == nil:
		return k + 1
	case p.cur.count != nothing:
		p.cur.again = k
		return end
	default:
		p.cur.count, p.cur.pair = k, p.items[k].num == nil
		p.items[k].used = true
	}
	if prev := p.at(k - 1); prev.text == "x" || prev.text == "(" || makeWords[prev.text] {
		p.use(k-1, k)
	}
	p.use(k+1, end)
	return end
}
