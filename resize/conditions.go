package resize

import (
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// group is a set of conditions that a person would name as one.
type group struct {
	words string
	// loose groups are given up when nothing fits with them.
	loose bool
	// keep says that it is a keep line.
	keep bool
}

// linear is a condition on the free numbers y of a problem: row · y >= at, or = at for an equation.
type linear struct {
	group int
	row   []int64
	at    int64
	equal bool
}

// conditions is everything that a new card must obey, in terms of whole numbers y: measures = basis y, in marks.
type conditions struct {
	s      *system
	basis  [][]int64 // per measure: its row over y
	n      int       // length of y
	groups []group
	lines  []linear
	// scale is into how many parts a mark is divided where the closed card is measured: 2 for level, upright and diagonal
	// folds, more where other slants swing panels over.
	scale int64
	// target is the size to stay within, in marks (not rounded).
	target [2]float64
	// notes are remarks for the person who asked.
	notes []string
}

// forms holds the closed card's geometry as linear forms over y, in parts of a mark (see conditions.scale).
type forms struct {
	// base is the closed card as it is.
	base *shape
	// x and y are the corners of all panels, one row each.
	x, y [][]int64
	miss [][2][]int64
	// cover holds, per joint and side (left, right, bottom, top), how far panel A stays inside panel B.
	cover [][4][]int64
}

// build collects the conditions for a target size.
func build(ctx context.Context, s *system, to card.Size) (*conditions, error) {
	p := &conditions{s: s, target: [2]float64{float64(to.W) / float64(s.marks), float64(to.H) / float64(s.marks)}}
	if err := p.tie(); err != nil {
		return nil, err
	}
	f, err := p.forms(ctx)
	if err != nil {
		return nil, err
	}
	p.positive()
	p.flat(f)
	p.size(f, to)
	p.equalWidths()
	p.equalExtents()
	p.covers(f)
	if err := p.keeps(to); err != nil {
		return nil, err
	}
	return p, nil
}

// tie finds the basis in which the measures are free: panels of one name are one measure, slanted scores keep their
// directions.
func (p *conditions) tie() error {
	n := len(p.s.measures)
	var rows []equation
	for i := range p.s.card.Pieces {
		pat := p.pattern(i)
		rows = append(rows, p.sameNames(i, pat, n)...)
		for _, h := range pat.Hinges {
			if slantedHinge(h) {
				rows = append(rows, p.direction(i, h, n))
			}
		}
	}
	_, basis, ok := solveWhole(n, rows)
	if !ok || len(basis) == 0 {
		return fmt.Errorf("the slanted scores leave nothing that could be resized")
	}
	p.n = len(basis)
	p.basis = make([][]int64, n)
	for k := range n {
		p.basis[k] = make([]int64, p.n)
		for j, b := range basis {
			p.basis[k][j] = b[k]
		}
	}
	return nil
}

func (p *conditions) pattern(piece int) *pattern.Pattern {
	return copyOf(p.s.closed, piece).Pattern
}

// extent returns the measures that make up a stretch of a piece, as a row over all measures.
func (s *system) extent(piece int, up bool, from, to length.Length) []int64 {
	row := make([]int64, len(s.measures))
	s.addExtent(row, piece, up, from, to, 1)
	return row
}

func (s *system) addExtent(row []int64, piece int, up bool, from, to length.Length, times int64) {
	way := s.grids[piece].across
	if up {
		way = s.grids[piece].up
	}
	if from > to {
		from, to, times = to, from, -times
	}
	for k := 1; k < len(way.at); k++ {
		if way.at[k-1] >= from && way.at[k] <= to {
			row[way.first+k-1] += times
		}
	}
}

// sameNames ties the panels of one name in a strip.
func (p *conditions) sameNames(i int, pat *pattern.Pattern, n int) []equation {
	if !pat.Strip || len(pat.Piece.Scores) == 0 {
		return nil
	}
	up := pat.Piece.Scores[0].Kind == card.Up
	first := map[string][]int64{}
	var rows []equation
	for _, q := range pat.Panels {
		if q.Name == "" {
			continue
		}
		row := p.s.extent(i, up, lowOf(q.Box, up), highOf(q.Box, up))
		if one, known := first[q.Name]; known {
			rows = append(rows, equation{row: minus(row, one)})
		} else {
			first[q.Name] = row
		}
	}
	return rows
}

func lowOf(b plane.Box, up bool) length.Length {
	if up {
		return b.Min.Y
	}
	return b.Min.X
}

func highOf(b plane.Box, up bool) length.Length {
	if up {
		return b.Max.Y
	}
	return b.Max.X
}

func minus(a, b []int64) []int64 {
	out := slices.Clone(a)
	for i, v := range b {
		out[i] -= v
	}
	return out
}

// direction ties the gaps under a slanted score so that rise and run keep their ratio.
func (p *conditions) direction(i int, h pattern.Hinge, n int) equation {
	d := h.To.Sub(h.From)
	g := gcd(int64(d.X), int64(d.Y))
	row := make([]int64, n)
	p.s.addExtent(row, i, false, h.From.X, h.To.X, int64(d.Y)/g)
	p.s.addExtent(row, i, true, h.From.Y, h.To.Y, -int64(d.X)/g)
	return equation{row: row}
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return abs(a)
}

// over turns a row over measures into one over y.
func (p *conditions) over(row []int64) []int64 {
	out := make([]int64, p.n)
	for k, v := range row {
		if v == 0 {
			continue
		}
		for j, b := range p.basis[k] {
			out[j] += v * b
		}
	}
	return out
}

func (p *conditions) group(words string, loose bool) int {
	p.groups = append(p.groups, group{words: words, loose: loose})
	return len(p.groups) - 1
}

func (p *conditions) add(g int, row []int64, at int64, equal bool) {
	if equal && !slices.ContainsFunc(row, func(v int64) bool { return v != 0 }) && at == 0 {
		return
	}
	p.lines = append(p.lines, linear{g, row, at, equal})
}

// forms finds the geometry of the closed card as linear forms, by laying the card out with one free number after the other
// moved a little: what is folded as before moves in proportion.
func (p *conditions) forms(ctx context.Context) (*forms, error) {
	base := p.s.shape(p.s.olds())
	if base == nil {
		return nil, fmt.Errorf("the card changes its panels when it is written by its measures")
	}
	before, changed := base.list(), fmt.Errorf("the card changes its panels when it is stretched")
	moves := make([][]float64, p.n) // per free number: by how many marks a mark moves everything
	for j := range p.n {
		if ctx.Err() != nil {
			return nil, ctx.Err()
		}
		values, move := p.moved(j)
		moved := p.s.shape(values)
		if moved == nil {
			return nil, changed
		}
		after := moved.list()
		if len(after) != len(before) {
			return nil, changed
		}
		for i, v := range before {
			moves[j] = append(moves[j], (after[i]-v)/float64(move))
		}
	}
	if p.scale = partsOf(moves); p.scale == 0 {
		return nil, fmt.Errorf("the slanted folds of this card swing its panels to places that no fraction of a mark describes")
	}
	return p.rows(base, moves), nil
}

// moved returns the measures with one free number moved a little, and how far in nanometres: an even number, so that
// halves of it are whole.
func (p *conditions) moved(j int) (values []length.Length, move length.Length) {
	largest := int64(1)
	for k := range p.basis {
		largest = max(largest, abs(p.basis[k][j]))
	}
	move = max(p.s.smallestGap()/16/length.Length(largest)/2*2, 2)
	values = p.s.olds()
	for k := range values {
		values[k] += move * length.Length(p.basis[k][j])
	}
	return values, move
}

// mostParts bounds the parts of a mark: the slants of a 3-4-5 triangle take 25, two kinds of slants their product.
const mostParts = 20_000

// partsOf finds the smallest even number of parts in which all numbers are whole; 0 where there is none.
func partsOf(moves [][]float64) int64 {
	parts := int64(2)
	for _, list := range moves {
		for _, v := range list {
			rest := v * float64(parts)
			k := int64(1)
			for ; parts*k <= mostParts; k++ {
				if f := rest * float64(k); math.Abs(f-math.Round(f)) < 1e-5 {
					break
				}
			}
			if parts *= k; parts > mostParts {
				return 0
			}
		}
	}
	return parts
}

// rows turns the moves into whole numbers of parts, each in its place.
func (p *conditions) rows(base *shape, moves [][]float64) *forms {
	at := 0
	next := func() []int64 {
		row := make([]int64, p.n)
		for j := range row {
			row[j] = int64(math.Round(moves[j][at] * float64(p.scale)))
		}
		at++
		return row
	}
	f := &forms{base: base}
	for range base.x {
		f.x, f.y = append(f.x, next()), append(f.y, next())
	}
	for range base.miss {
		f.miss = append(f.miss, [2][]int64{next(), next()})
	}
	for range base.cover {
		f.cover = append(f.cover, [4][]int64{next(), next(), next(), next()})
	}
	return f
}

func (s *system) smallestGap() length.Length {
	least := length.Length(length.Max)
	for _, m := range s.measures {
		if m.kind == gap {
			least = min(least, m.old)
		}
	}
	return least
}

// shape is the geometry of one layout, in nanometres.
type shape struct {
	x, y  []float64
	miss  [][2]float64
	cover [][4]float64
}

// list returns all numbers in the order of conditions.rows.
func (s *shape) list() []float64 {
	out := make([]float64, 0, 2*len(s.x)+2*len(s.miss)+4*len(s.cover))
	for i := range s.x {
		out = append(out, s.x[i], s.y[i])
	}
	for _, m := range s.miss {
		out = append(out, m[:]...)
	}
	for _, c := range s.cover {
		out = append(out, c[:]...)
	}
	return out
}

// shape lays out the card with other values, folded as the source; nil where its pieces are not sound.
func (s *system) shape(values []length.Length) *shape {
	a, _ := pattern.Assemble(s.apply(values))
	if a == nil || len(a.Hinges) != len(s.closed.Folded) {
		return nil
	}
	at := flat.Lay(a, s.closed.Folded)
	out := &shape{miss: flat.Misses(a, s.closed.Folded, at)}
	for i, p := range a.Panels {
		for _, c := range p.Outline {
			x, y := at[i].At(float64(c.X), float64(c.Y))
			out.x, out.y = append(out.x, x), append(out.y, y)
		}
	}
	for _, j := range a.Joints {
		low, high := boxThrough(j.Place, a.Panels[j.A].Box)
		b := a.Panels[j.B].Box
		out.cover = append(out.cover, [4]float64{
			low[0] - float64(b.Min.X), float64(b.Max.X) - high[0], low[1] - float64(b.Min.Y), float64(b.Max.Y) - high[1]})
	}
	return out
}

func boxThrough(m plane.Motion, b plane.Box) (low, high [2]float64) {
	low, high = [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, c := range plane.Rectangle(b) {
		x, y := m.At(float64(c.X), float64(c.Y))
		low, high = [2]float64{min(low[0], x), min(low[1], y)}, [2]float64{max(high[0], x), max(high[1], y)}
	}
	return low, high
}
