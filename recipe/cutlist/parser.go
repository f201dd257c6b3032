package cutlist

import (
	"context"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// nothing is the number of an item that is not there.
const nothing = -1

// maxDrafts bounds the pieces that are read: no card has more.
const maxDrafts = card.MaxPieces

// draft is a piece as it was read. Its fields are numbers of items.
type draft struct {
	size   size
	other  size // the same size in another unit; a is nothing where none is said
	count  int
	again  int // a second number of pieces
	pair   bool
	name   string
	label  int // where the name stands
	stock  stock
	groups []group
	// columns of a table may say units.
	sizeUnit, scoreUnit *length.Unit

	// Filled when the numbers are worked out.
	unit    length.Unit
	tails   map[int]int // fractions on the line below their whole number
	refused []int       // items with a number that is no length
}

func newDraft(s size) *draft {
	return &draft{size: s, count: nothing, again: nothing, other: size{a: nothing}}
}

// stock is what is said of the card that a piece is cut from.
type stock struct {
	name, label string
	gsm         *item
}

// pending is what was said of the piece that comes next.
type pending struct {
	count int
	pair  bool
	name  string
	label int
	stock stock
}

// sentence is what a sentence holds, found before it is read.
type sentence struct {
	size, score, back, all, unit, number, colon bool
	first                                       bool // it tells of the first or second of several
	units                                       int  // the item of a unit that stands alone
}

// parser reads the items of a text into drafts.
type parser struct {
	ctx   context.Context
	file  string
	text  string
	items []item
	rows  map[int]row
	// nextSize and nextScore hold, for every item, the next size or score of its sentence; nothing where none comes.
	nextSize, nextScore []int

	drafts      []*draft
	ornaments   []*ornament
	cur         *draft
	pending     pending
	before      []group // scores said before the size of their piece
	sticky      stock   // of all pieces below
	stickyFrom  int     // the sentence that says it
	stickyMixed int     // the last sentence that says several
	deco        bool    // a word for a decoration stands before in this sentence
	decoKind    ornamentKind
	section     section
	orn         *ornament // the last one of this sentence
	sized       bool      // a size was read in this sentence
	sent        sentence
	from        int // its first item
	marker      int // the last number of a numbered list
	title       title
	format      int       // the item of the size of the whole card, in the title; 0 where there is none
	titleUnit   *declared // said behind the title
	tallies     []tally
	inRow       bool      // a row of a table is being read
	side        direction // that a table gives for the scores of a row
	stray       []item    // lengths in brackets that contradict the one before
	declared    []declared
	problems    problem.List
	tooMany     bool
}

// declared is a unit said for all the text.
type declared struct {
	at   int
	unit length.Unit
}

func newParser(ctx context.Context, file, text string) *parser {
	p := &parser{ctx: ctx, file: file, text: text, pending: pending{count: nothing}}
	var cells []int
	p.rows, cells = tables(text)
	p.items = numerals(soften(scan(text, cells), p.rows))
	stops(p.items)
	p.spell()
	p.lookAhead()
	return p
}

// dropLabel forgets a label at the break k where its line measures something else: Date: 3 May.
func (p *parser) dropLabel(k int) {
	if s := p.sent; p.pending.name == "" || p.pending.label < p.from || p.pending.count != nothing || !s.number || s.size || s.score || s.unit {
		return
	}
	for i := p.from; i < k; i++ {
		if t := &p.items[i]; t.num != nil && !t.used && t.num.foreign == "" {
			p.pending.name = ""
			return
		}
	}
}

// lookAhead fills nextSize and nextScore, from the end.
func (p *parser) lookAhead() {
	n := len(p.items)
	p.nextSize, p.nextScore = make([]int, n), make([]int, n)
	size, score := nothing, nothing
	for i := n - 1; i >= 0; i-- {
		switch {
		case p.items[i].kind == brk:
			size, score = nothing, nothing
		case p.isScore(i):
			score = i
		default:
			if _, ok := p.sizeAt(i); ok {
				size = i
			}
		}
		p.nextSize[i], p.nextScore[i] = size, score
	}
}

func (p *parser) at(k int) *item {
	if k >= 0 && k < len(p.items) {
		return &p.items[k]
	}
	return &item{kind: brk, text: "para"}
}

func (p *parser) isSize(k int) bool { return k < len(p.items) && p.nextSize[k] == k }

// use marks the items from a up to b as read; numbers only count as read when they have become lengths.
func (p *parser) use(a, b int) {
	for i := max(a, 0); i < min(b, len(p.items)); i++ {
		if p.items[i].num == nil {
			p.items[i].used = true
		}
	}
}

func (p *parser) place(k int) problem.Place {
	t := p.at(k)
	return problem.Place{File: p.file, Line: max(t.line, 1), Column: max(t.col, 1)}
}

func (p *parser) warn(rule string, k int, what, needs string) {
	p.problems.Add(problem.Problem{Rule: rule, Severity: problem.Warning, Where: p.place(k), What: what, Needs: needs})
}

func (p *parser) fail(rule string, k int, what, needs string) {
	p.problems.Add(problem.Problem{Rule: rule, Where: p.place(k), What: what, Needs: needs})
}

func (p *parser) full(k int) {
	if !p.tooMany {
		p.fail("too-many", k, "from here on there are more pieces than in any card", "at most 60 pieces")
	}
	p.tooMany, p.cur = true, nil
}

// start makes a draft the current piece, and gives it what was said before it.
func (p *parser) start(d *draft) {
	n := p.pending
	if d.count == nothing {
		d.count, d.pair = n.count, n.pair
	}
	if p.sent.first && n.count != nothing && n.count < p.from {
		p.handBack(n.count) // two pieces: the first is 10 x 3
		d.count = nothing
	}
	d.name, d.label, d.stock = n.name, n.label, n.stock
	p.claim(d)
	if d.count != nothing {
		p.items[d.count].used = true
	}
	if d.stock.name == "" {
		d.stock.name, d.stock.label = p.sticky.name, p.sticky.label
	}
	if d.stock.gsm == nil {
		d.stock.gsm = p.sticky.gsm
	}
	p.pending = pending{count: nothing}
	p.drafts = append(p.drafts, d)
	d.groups, p.before = p.before, nil
	p.cur, p.sized = d, true
}

// parse reads all items.
func (p *parser) parse() {
	defer p.settleTitle()
	for k, fresh := p.findTitle(), true; k < len(p.items); {
		t := p.items[k]
		switch {
		case t.kind == brk:
			k, fresh = k+1, true
			p.leave(&t)
			p.dropLabel(k)
			continue
		case t.first && p.rows[t.line].end > 0:
			if p.ctx.Err() != nil {
				return
			}
			k = p.row(k, p.rows[t.line])
			continue
		case fresh:
			if p.ctx.Err() != nil {
				return
			}
			k, fresh = p.open(k), false
			continue
		}
		k = p.phrase(k)
	}
}

// phrase reads what begins at k, at least one item.
func (p *parser) phrase(k int) int {
	if p.isSize(k) {
		s, _ := p.sizeAt(k)
		return p.size(k, s)
	}
	if p.isScore(k) {
		return p.scores(k)
	}
	if next := p.firstLater(k); next > k {
		return next
	}
	if next := p.howMany(k); next > k {
		return next
	}
	if next := p.paper(k); next > k {
		return next
	}
	if next := p.purpose(k); next > k {
		return next
	}
	if next := p.eachOf(k); next > k {
		return next
	}
	if next := p.bracketed(k); next > k {
		return next
	}
	if t := p.items[k]; t.kind == word && decoWords[t.text] {
		p.decorate(k)
	}
	return k + 1
}
