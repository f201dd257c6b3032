package resize

import (
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
)

// say prints a length in the unit of the new ruler.
func (p *conditions) say(l length.Length) string {
	u := length.MM
	if p.s.marks%(length.Inch/64) == 0 {
		u = length.IN
	}
	return l.Human(u)
}

// positive: every gap is a mark at least, every shift is not reversed.
func (p *conditions) positive() {
	g := p.group("every panel and every gap is at least one mark ("+p.say(p.s.marks)+") wide", false)
	for k, m := range p.s.measures {
		least := int64(1)
		if m.kind == shift {
			least = 0
		}
		p.add(g, p.basis[k], least, false)
	}
}

// flat: every joint and every hinge meets in the closed card.
func (p *conditions) flat(f *forms) {
	a := p.s.closed.Assembly
	for i, m := range f.miss {
		words := "the piece folds flat round its slits and corners"
		if i < len(a.Joints) {
			words = a.Name(i) + " meets when the card is folded flat"
		}
		g := p.group(words, false)
		p.add(g, m[0], 0, true)
		p.add(g, m[1], 0, true)
	}
}

// size: the closed card stays within the target.
func (p *conditions) size(f *forms, to card.Size) {
	// Where the measures only grow with the free numbers, none of these is below nought.
	grow := !slices.ContainsFunc(p.basis, func(b []int64) bool { return slices.ContainsFunc(b, func(v int64) bool { return v < 0 }) })
	for up, rows := range [2][][]int64{f.x, f.y} {
		limit, words := to.W, "the closed card is at most "+p.say(to.W)+" wide"
		if up == 1 {
			limit, words = to.H, "the closed card is at most "+p.say(to.H)+" high"
		}
		g := p.group(words, false)
		unique := distinct(rows)
		var extents [][]int64
		for _, hi := range unique {
			for _, lo := range unique {
				extents = append(extents, minus(hi, lo))
			}
		}
		extents = distinct(extents)
		most := p.scale * int64(limit) / int64(p.s.marks)
		for _, e := range extents {
			if grow && neverPositive(e) {
				continue
			}
			p.add(g, negative(e), -most, false)
		}
	}
}

// neverPositive says whether a row has no number above nought, so that it comes to nought at most.
func neverPositive(row []int64) bool {
	return !slices.ContainsFunc(row, func(v int64) bool { return v > 0 })
}

func negative(row []int64) []int64 {
	out := make([]int64, len(row))
	for i, v := range row {
		out[i] = -v
	}
	return out
}

func distinct(rows [][]int64) [][]int64 {
	sorted := slices.Clone(rows)
	slices.SortFunc(sorted, slices.Compare[[]int64])
	return slices.CompactFunc(sorted, slices.Equal[[]int64])
}

// equalWidths: gaps of a piece that are equal stay so.
func (p *conditions) equalWidths() {
	for i, piece := range p.s.card.Pieces {
		grid := &p.s.grids[i]
		if grid.slanted {
			continue
		}
		for _, c := range grid.ways() {
			seen := map[length.Length]int{}
			g := -1
			for k := c.first; k < c.first+len(c.at)-1; k++ {
				w := p.s.measures[k].old
				one, known := seen[w]
				if !known {
					seen[w] = k
					continue
				}
				if g < 0 {
					g = p.group("equal widths of "+piece.Name+" stay equal", true)
				}
				p.add(g, minus(p.basis[k], p.basis[one]), 0, true)
			}
		}
	}
}

// equalExtents: glued panels that are equally wide or high stay so.
func (p *conditions) equalExtents() {
	a := p.s.closed.Assembly
	for _, j := range a.Joints {
		q, r := a.Panels[j.A], a.Panels[j.B]
		if p.s.grids[a.Copies[q.Copy].Piece].slanted || p.s.grids[a.Copies[r.Copy].Piece].slanted {
			continue
		}
		g := p.group(q.Ref+" and "+r.Ref+" stay equally wide and high where they are", false)
		turned := math.Abs(j.Place.XX) < 0.5
		for _, up := range [2]bool{false, true} {
			// up is a direction of B; A's own is the other one if it is turned by a quarter.
			upA := up != turned
			if highOf(q.Box, upA)-lowOf(q.Box, upA) != highOf(r.Box, up)-lowOf(r.Box, up) {
				continue
			}
			rowA := p.s.extent(a.Copies[q.Copy].Piece, upA, lowOf(q.Box, upA), highOf(q.Box, upA))
			rowB := p.s.extent(a.Copies[r.Copy].Piece, up, lowOf(r.Box, up), highOf(r.Box, up))
			p.add(g, p.over(minus(rowA, rowB)), 0, true)
		}
	}
}

// covers: a panel that lay within the one that it is glued on still does.
func (p *conditions) covers(f *forms) {
	for i, c := range f.cover {
		j := p.s.closed.Assembly.Joints[i]
		g := p.group(p.s.closed.Assembly.Panels[j.A].Ref+" stays within "+p.s.closed.Assembly.Panels[j.B].Ref, false)
		for k := range 4 {
			if f.base.cover[i][k] >= -1 {
				p.add(g, c[k], 0, false)
			}
		}
	}
}

// keeps: what the keep lines say. In an equation a number goes to the nearest mark, and the size of the card to the mark
// below: nothing else could be met. Inequalities are taken as they are.
func (p *conditions) keeps(to card.Size) error {
	for _, k := range p.s.card.Keeps {
		onMarks := k.Relation == card.Equal
		left, err := p.linear(k.Left, to, onMarks)
		if err != nil {
			return err
		}
		right, err := p.linear(k.Right, to, onMarks)
		if err != nil {
			return err
		}
		row, at := left.minus(right)
		g := p.group(p.keepWords(k), false)
		p.groups[g].keep = true
		mark := int64(p.s.marks)
		switch k.Relation {
		case card.Equal:
			p.remark(k)
			p.add(g, row, at/mark, true)
		case card.AtLeast:
			p.add(g, row, upTo(at, mark), false)
		case card.AtMost:
			p.add(g, negative(row), upTo(-at, mark), false)
		}
	}
	return nil
}

// upTo divides and rounds up.
func upTo(a, b int64) int64 {
	q := a / b
	if a%b > 0 {
		q++
	}
	return q
}

// remark notes a plain number of a keep line that is not on the new marks.
func (p *conditions) remark(k card.Keep) {
	for _, side := range [2]card.Linear{k.Left, k.Right} {
		if near := p.onMark(side.Constant); near != side.Constant {
			p.note("line %d keeps %s; on these marks it is %s", k.Where.Line, p.sayOld(side.Constant), p.say(near))
		}
	}
}

// onMark brings a plain number of a keep line to the nearest mark, and to one at least: nothing is kept at zero.
func (p *conditions) onMark(l length.Length) length.Length {
	near, _ := l.Snap(p.s.marks)
	if near == 0 && l > 0 {
		return p.s.marks
	}
	return near
}

// sum is a side of a keep line: (row · y marks + constant nanometres) / den.
type sum struct {
	row      []int64
	constant int64
	den      int64
}

// minus brings left - right to whole numbers: row · y marks compared with at nanometres.
func (l sum) minus(r sum) (row []int64, at int64) {
	row = make([]int64, len(l.row))
	for i := range row {
		row[i] = l.row[i]*r.den - r.row[i]*l.den
	}
	return row, r.constant*l.den - l.constant*r.den
}

func (p *conditions) linear(l card.Linear, to card.Size, onMarks bool) (sum, error) {
	number := l.Constant
	if onMarks {
		number = p.onMark(number)
		to = card.Size{W: to.W - to.W%p.s.marks, H: to.H - to.H%p.s.marks}
	}
	out := sum{row: make([]int64, p.n), constant: int64(number), den: 1}
	for _, t := range l.Terms {
		row := make([]int64, len(p.s.measures))
		constant := int64(0)
		switch t.Kind {
		case card.CardWidth:
			constant = int64(to.W)
		case card.CardHeight:
			constant = int64(to.H)
		default:
			if !p.termRow(row, t) {
				return out, fmt.Errorf("keep: %s.%s is not a width that can be resized", t.Piece, t.Panel)
			}
		}
		y := p.over(row)
		// out = out.row/den + num/tden * y
		for i := range out.row {
			out.row[i] = out.row[i]*t.Den + y[i]*t.Num*out.den
		}
		out.constant = out.constant*t.Den + constant*t.Num*out.den
		out.den *= t.Den
	}
	return out, nil
}

// termRow adds the measures that a term of a keep line names.
func (p *conditions) termRow(row []int64, t card.Term) bool {
	i := pieceIndex(p.s.card, t.Piece)
	if i < 0 {
		return false
	}
	pat := p.pattern(i)
	switch t.Kind {
	case card.PieceWidth:
		p.s.addExtent(row, i, false, pat.Box.Min.X, pat.Box.Max.X, 1)
		return true
	case card.PieceHeight:
		p.s.addExtent(row, i, true, pat.Box.Min.Y, pat.Box.Max.Y, 1)
		return true
	}
	found := pat.PanelNamed(t.Panel)
	if len(found) == 0 {
		return false
	}
	up := len(pat.Piece.Scores) > 0 && pat.Piece.Scores[0].Kind == card.Up
	b := pat.Panels[found[0]].Box
	p.s.addExtent(row, i, up, lowOf(b, up), highOf(b, up), 1)
	return true
}

func (p *conditions) keepWords(k card.Keep) string {
	say := p.say
	if k.Relation == card.Equal {
		say = func(l length.Length) string { return p.say(p.onMark(l)) }
	}
	return fmt.Sprintf("line %d: keep %s %s %s", k.Where.Line, linearWords(k.Left, say), k.Relation, linearWords(k.Right, say))
}

func linearWords(l card.Linear, say func(length.Length) string) string {
	text := ""
	for _, t := range l.Terms {
		name := map[card.TermKind]string{card.PanelWidth: t.Piece + "." + t.Panel, card.PieceWidth: t.Piece + ".width",
			card.PieceHeight: t.Piece + ".height", card.CardWidth: "card.width", card.CardHeight: "card.height"}[t.Kind]
		switch {
		case t.Num < 0:
			text += " - "
		case text != "":
			text += " + "
		}
		if n := abs(t.Num); n != 1 {
			text += fmt.Sprintf("%d * ", n)
		}
		text += name
		if t.Den != 1 {
			text += fmt.Sprintf(" / %d", t.Den)
		}
	}
	if l.Constant != 0 || text == "" {
		if text != "" {
			text += " + "
		}
		text += say(l.Constant)
	}
	return text
}
