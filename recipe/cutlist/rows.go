package cutlist

import "strings"

// row reads one line of a table, and returns the item behind it.
func (p *parser) row(k int, r row) int {
	end := k
	for end < len(p.items) && p.items[end].start < r.end {
		end++
	}
	if r.columns == nil {
		p.use(k, end)
		return max(end, k+1)
	}
	p.sized, p.deco, p.side, p.inRow = false, false, direction{}, true
	defer func() { p.inRow = false }()
	p.sent, p.from, p.orn = sentence{size: true}, k, nil
	before := len(p.drafts)
	p.cells(r, k, end, func(c column) bool {
		return c.kind != scoreColumn && c.kind != sizeColumn && c.kind != widthColumn && c.kind != heightColumn
	})
	p.cells(r, k, end, func(c column) bool { return c.kind == sizeColumn })
	if len(p.drafts) == before {
		p.widthAndHeight(r, k, end)
	}
	if len(p.drafts) > before {
		p.cells(r, k, end, func(c column) bool { return c.kind == scoreColumn })
	} else {
		p.pending = pending{count: nothing}
		p.cur = nil
	}
	return max(end, k+1)
}

// cells reads the cells of a row that belong to some of its columns.
func (p *parser) cells(r row, k, end int, which func(column) bool) {
	for i, c := range r.columns {
		if r.starts[i] < 0 || !which(c) {
			continue
		}
		a, b := p.cell(r, i, k, end)
		if a < b {
			p.readCell(c, a, b)
		}
	}
}

// cell returns the items of cell i of a row.
func (p *parser) cell(r row, i, k, end int) (a, b int) {
	to := r.end
	for j := range r.starts {
		if at := r.starts[j]; at > r.starts[i] && at < to {
			to = at
		}
	}
	a = k
	for a < end && (p.items[a].start < r.starts[i] || p.items[a].kind == brk) {
		a++
	}
	b = a
	for b < end && p.items[b].end <= to {
		b++
	}
	for b > a && p.items[b-1].kind == brk {
		b--
	}
	return a, b
}

func (p *parser) readCell(c column, a, b int) {
	switch c.kind {
	case nameColumn:
		p.nameCell(a, b)
	case countColumn:
		if n := p.items[a].num; n != nil {
			if v, ok := n.count(); ok && v <= maxDrafts {
				p.pending.count = a
			}
		} else if p.items[a].text == "x" && p.at(a+1).num != nil {
			p.pending.count = a + 1
		}
	case stockColumn:
		p.stockCell(a, b)
	case sizeColumn:
		p.sizeCell(c, a, b)
	case scoreColumn:
		p.scoreCell(c, a, b)
	case otherColumn:
		for i := a; i < b; i++ {
			if d, next := p.directionAt(i); next > i && next <= b {
				p.side = d
				p.use(i, next)
			}
		}
	}
}

func (p *parser) nameCell(a, b int) {
	var names []string
	for i := a; i < b; i++ {
		t := p.items[i]
		switch {
		case t.kind == word && !nameless[t.text] && !paperWords[t.text]:
			names = append(names, t.text)
			p.use(i, i+1)
		case t.num != nil:
			if next := p.howMany(i); next == i && i > a {
				if _, ok := t.num.count(); ok {
					names = append(names, t.num.text)
					p.items[i].used = true
				}
			}
		}
	}
	if len(names) > 0 {
		p.pending.name, p.pending.label = strings.Join(names[:min(len(names), 4)], "-"), a
	}
}

func (p *parser) stockCell(a, b int) {
	name := ""
	for i := a; i < b; i++ {
		t := &p.items[i]
		switch {
		case t.num != nil && t.num.foreign == "gsm":
			p.pending.stock.gsm = t
		case t.kind == word && !shades[t.text] && !paperWords[t.text] && !nameless[t.text] && name == "":
			name = t.text
		}
		if t.kind == word {
			p.use(i, i+1)
		}
	}
	if name != "" {
		p.pending.stock.name, p.pending.stock.label = name, p.words(a, b)
	}
}

// words returns the words among the items from a up to b.
func (p *parser) words(a, b int) string {
	var out []string
	for i := a; i < b; i++ {
		if p.items[i].kind == word {
			out = append(out, p.items[i].text)
		}
	}
	return strings.Join(out, " ")
}

func (p *parser) sizeCell(c column, a, b int) {
	for i := a; i < b; {
		s, ok := p.sizeAt(i)
		if !ok || s.next > b {
			next := p.howMany(i)
			i = max(next, i+1)
			continue
		}
		before := len(p.drafts)
		i = p.size(i, s)
		if c.said && len(p.drafts) > before {
			u := c.unit
			p.cur.sizeUnit = &u
		}
	}
}

func (p *parser) scoreCell(c column, a, b int) {
	if p.cur == nil {
		return
	}
	if c.said {
		u := c.unit
		p.cur.scoreUnit = &u
	}
	s := &scorer{p: p, d: p.cur, open: true, k: a, from: a}
	for s.k < b && s.step() {
	}
	s.closeGroup()
	for i := range p.cur.groups {
		if g := &p.cur.groups[i]; g.dir.kind == unsaid {
			g.dir = p.side
		}
	}
}

// widthAndHeight makes a piece of two columns.
func (p *parser) widthAndHeight(r row, k, end int) {
	s := size{a: nothing, b: nothing}
	var said *column
	for i := range r.columns {
		c := &r.columns[i]
		if c.kind != widthColumn && c.kind != heightColumn || r.starts[i] < 0 {
			continue
		}
		a, b := p.cell(r, i, k, end)
		if a >= b || !p.numberAt(a) {
			return
		}
		if c.said {
			said = c
		}
		if c.kind == widthColumn {
			s.a = a
		} else {
			s.b = a
		}
	}
	if s.a == nothing || s.b == nothing {
		return
	}
	if len(p.drafts) >= maxDrafts {
		p.full(k)
		return
	}
	d := newDraft(s)
	if said != nil {
		u := said.unit
		d.sizeUnit = &u
	}
	p.start(d)
}
