package cutlist

// tally is a number of things that stand in the text by their noun: two springs.
type tally struct {
	at   int // the item of the number
	noun string
	name int // the item of the noun
}

// mostTallies bounds how many are remembered, so that a long text stays cheap.
const mostTallies = 100

// tally remembers how many of a thing the number at k says there are.
func (p *parser) tally(k int) {
	if noun, at := p.nounBehind(k); noun != "" {
		if len(p.tallies) == mostTallies {
			p.tallies = p.tallies[1:]
		}
		p.tallies = append(p.tallies, tally{k, noun, at})
	}
}

// nounBehind returns the plural that the number at k counts, and its item: two (white) springs.
func (p *parser) nounBehind(k int) (string, int) {
	for i := k + 1; i < k+4; i++ {
		t := p.at(i)
		switch {
		case t.kind != word:
			return "", nothing
		case colours[t.text] || shades[t.text]:
			continue
		case singular(t.text) != t.text && !scoreWords[t.text] && !foldWords[t.text] && !decoWords[t.text] && !unitWords[t.text].said && !sidesOf[t.text]:
			return t.text, i
		case stopsName(t.text):
			return "", nothing
		}
	}
	return "", nothing
}

// sidesOf are plurals that are no pieces.
var sidesOf = set{"sides": true, "edges": true, "ends": true, "corners": true, "lines": true, "times": true, "places": true, "points": true}

// tallied returns the last tally of a name; nil where there is none.
func (p *parser) tallied(name string) *tally {
	for i := len(p.tallies) - 1; i >= 0 && name != ""; i-- {
		if t := &p.tallies[i]; singular(t.noun) == singular(name) {
			return t
		}
	}
	return nil
}

// claim gives a piece the number of a tally of its name, also where another number stands nearer: in "4 panels and two
// springs: each spring is" the two. A piece without a name takes it from what is counted.
func (p *parser) claim(d *draft) {
	t := p.tallied(d.name)
	if last := len(p.tallies) - 1; t == nil && d.name == "" && last >= 0 {
		if l := &p.tallies[last]; d.count == l.at || !p.items[l.at].used && p.eachBefore(d.size.a) {
			t = l
		}
	}
	if t == nil || d.count != nothing && !p.isTally(d.count) {
		return
	}
	if d.count == nothing && p.items[t.at].used {
		return // another piece of the same name has it
	}
	if d.count != nothing && d.count != t.at {
		p.handBack(d.count)
	}
	d.count, d.pair = t.at, false
	if d.name == "" && !stopsName(t.noun) && !countNouns[t.noun] {
		d.name, d.label = t.noun, t.name
	}
}

// handBack takes the words behind a number of pieces as not read, so that they are told of together with it.
func (p *parser) handBack(k int) {
	p.items[k].used = false
	for i := k + 1; i < len(p.items) && p.items[i].kind == word && countNouns[p.items[i].text]; i++ {
		p.items[i].used = false
	}
}

func (p *parser) isTally(k int) bool {
	for _, t := range p.tallies {
		if t.at == k {
			return true
		}
	}
	return false
}

// eachBefore says whether "each" leads to the size at k.
func (p *parser) eachBefore(k int) bool {
	for i := k - 1; i > k-5; i-- {
		switch t := p.at(i); {
		case t.text == "each":
			return true
		case t.kind == brk || t.kind == word && !sizeLeads[t.text]:
			return false
		}
	}
	return false
}

// eachOf reads "each spring" before a size: the springs were counted before.
func (p *parser) eachOf(k int) int {
	t := p.items[k]
	if t.kind != word || p.at(k-1).text != "each" || p.nextSize[k] == nothing || p.tallied(t.text) == nil {
		return k
	}
	p.pending.name, p.pending.label = t.text, k
	p.use(k, k+1)
	return k + 1
}
