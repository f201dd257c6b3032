package trim

import (
	"context"
	"encoding/binary"
	"slices"

	"foldwright/length"
)

// layout is a tree that has been found, with how many it makes of every part.
type layout struct {
	sheet int
	made  []int32
	tree  *Cut
	// fences are the places at which the tree, tidied, is cut.
	fences []length.Length
}

// master knows a job and every layout that has been found for it.
type master struct {
	job    Job
	grids  []*grid // exact, unless there are too many places to cut at
	quick  []*grid // with few places, for layouts that need not be the best
	unit   float64 // the price that counts as 1 in the linear programs: that of the dearest sheet
	pool   []layout
	known  map[string]int // number in the pool, by sheet and what is made
	proofs proofs
	core   []int              // layouts of the pool that are used in linear programs for ever
	fewer  map[string][]*grid // quick for fewer parts, by which of them are wanted
}

// How many blocks the search for a layout with limited copies may hold, and how many pairs of blocks it may look at: for
// a proof, and for a layout only.
const (
	smallSearch = 15_000
	proofWork   = 20_000_000
	layoutWork  = 200_000
)

func newMaster(j Job) *master {
	m := &master{job: j, unit: 1, known: map[string]int{}, fewer: map[string][]*grid{}}
	for _, s := range j.Sheets {
		exact := newGrid(s, wanted(j.Parts), somePoints)
		quick := exact
		if exact.points() > quickPoints {
			quick = newGrid(s, wanted(j.Parts), quickPoints/2)
		}
		m.grids, m.quick = append(m.grids, exact), append(m.quick, quick)
		m.proofs.price, m.proofs.quantity = append(m.proofs.price, s.Price), append(m.proofs.quantity, int64(s.Quantity))
		m.unit = max(m.unit, float64(s.Price))
	}
	return m
}

// wanted returns the parts with those that nobody wants made too large for any sheet, so that they add no places to cut at.
func wanted(parts []Part) []Part {
	out := slices.Clone(parts)
	for i := range out {
		if out[i].Count == 0 {
			out[i].W, out[i].H = 1<<62, 1<<62
		}
	}
	return out
}

// quickFor returns quick for what is still wanted: the places to cut at grow fewer with the kinds of part.
func (m *master) quickFor(want []int) []*grid {
	key := make([]byte, len(want))
	parts := slices.Clone(m.job.Parts)
	for i, n := range want {
		parts[i].Count = min(n, 1)
		key[i] = byte(parts[i].Count)
	}
	grids, known := m.fewer[string(key)]
	if !known {
		for _, g := range m.quick {
			if g.points() > tinyPoints {
				g = newGrid(g.sheet, wanted(parts), max(len(g.x.pts), len(g.y.pts)))
			}
			grids = append(grids, g)
		}
		if len(m.fewer) > mostFewer {
			clear(m.fewer)
		}
		m.fewer[string(key)] = grids
	}
	return grids
}

// tinyPoints is how many places to cut at, across and up together, are too few to be worth a grid with fewer, and mostFewer
// how many such grids are kept.
const (
	tinyPoints = 60
	mostFewer  = 200
)

// quickPoints is how many places to cut at, across and up together, a grid may have to be gone through at every turn.
const quickPoints = 500

// searchPoints is the same for a grid that is searched for layouts with limited copies at every turn.
const searchPoints = 250

func (g *grid) points() int { return len(g.x.pts) + len(g.y.pts) }

// take puts a layout into the pool, unless one that makes the same is there, and returns its number.
func (m *master) take(sheet int, tree *Cut) (k int, fresh bool) {
	l := layout{sheet: sheet, tree: tree}
	key := binary.AppendVarint(nil, int64(sheet))
	for _, n := range tree.made(len(m.job.Parts)) {
		l.made = append(l.made, int32(n))
		key = binary.AppendVarint(key, int64(n))
	}
	k, known := m.known[string(key)]
	if !known {
		k = len(m.pool)
		m.known[string(key)] = k
		l.fences = fencesOf(m.job.Trimmer.stripOf(tree, m.job.Sheets[sheet].W, m.job.Sheets[sheet].H), nil)
		m.pool = append(m.pool, l)
	}
	return k, !known
}

// relaxed is an optimum of the linear program over layouts: how many sheets of every layout of the pool.
type relaxed struct {
	layout []int
	times  []float64
}

// program builds the linear program of what is still wanted and the sheets that are left, over the core and the newest
// layouts of the pool. If copies are limited, a layout counts only as much of a part as is wanted.
func (m *master) program(want, left []int, copies bool) *program {
	p := &program{m: m, want: want, left: left, copies: copies, row: make([]int32, len(want)), sheetRow: make([]int32, len(left))}
	var rhs []float64
	var atMost []bool
	for i, n := range want {
		if p.row[i] = -1; n > 0 {
			p.row[i] = int32(len(rhs))
			rhs, atMost = append(rhs, float64(n)), append(atMost, false)
		}
	}
	for i, n := range left {
		if p.sheetRow[i] = -1; n > 0 {
			p.sheetRow[i] = int32(len(rhs))
			rhs, atMost = append(rhs, float64(n)), append(atMost, true)
		}
	}
	p.linear = newLinear(rhs, atMost, 1000)
	p.first = len(p.cost)
	from := max(0, len(m.pool)-newest)
	for _, k := range m.core {
		if k < from {
			p.use(k)
		}
	}
	for k := from; k < len(m.pool); k++ {
		p.use(k)
	}
	return p
}

// newest is how many layouts of the pool a linear program starts with.
const newest = 1500

type program struct {
	*linear
	m          *master
	want, left []int
	copies     bool
	row        []int32 // of every part, or -1
	sheetRow   []int32 // of every kind of sheet, or -1
	first      int     // column of the first layout
	layouts    []int
}

// use adds layout k of the pool as a column, if it makes anything that is wanted.
func (p *program) use(k int) {
	l := p.m.pool[k]
	if p.left[l.sheet] == 0 {
		return
	}
	var rows []int32
	var vals []float64
	for i, n := range l.made {
		if n > 0 && p.row[i] >= 0 {
			if p.copies {
				n = int32(min(int(n), p.want[i]))
			}
			rows, vals = append(rows, p.row[i]), append(vals, float64(n))
		}
	}
	if len(rows) == 0 {
		return
	}
	if r := p.sheetRow[l.sheet]; r >= 0 {
		rows, vals = append(rows, r), append(vals, 1)
	}
	p.add(float64(p.m.job.Sheets[l.sheet].Price)/p.m.unit, rows, vals)
	p.layouts = append(p.layouts, k)
}

// relax solves the linear program over all layouts there can be: after each solution the prices of the parts are worth
// values, and a layout worth more than its sheet costs is added (Gilmore and Gomory 1965). If copies are limited, no layout
// makes more of a part than is wanted, which is nearer to the truth where little is wanted. Layouts are looked for with few
// places to cut at as long as that finds any. Every exact round leaves a proof in to; if to is nil there are none.
// rounds bounds how often.
func (m *master) relax(ctx context.Context, want, left []int, copies bool, to *proofs, rounds int) (relaxed, bool) {
	p := m.program(want, left, copies)
	for ; rounds > 0; rounds-- {
		if !p.solve(ctx) {
			return relaxed{}, false
		}
		found, ok := p.price(ctx, m.quickFor(want), nil)
		if ok && !found && to != nil {
			found, ok = p.price(ctx, p.m.grids, to)
		}
		if !ok {
			return relaxed{}, false
		}
		if !found {
			break
		}
	}
	if rounds == 0 && !p.solve(ctx) {
		return relaxed{}, false
	}
	x, _ := p.solution()
	var out relaxed
	for c, k := range p.layouts {
		if v := x[p.first+c]; v > 1e-7 {
			out.layout, out.times = append(out.layout, k), append(out.times, v)
		}
	}
	return out, true
}

// price looks for a layout of every kind of sheet that is worth more than it costs; false where ctx ended.
func (p *program) price(ctx context.Context, grids []*grid, to *proofs) (found, ok bool) {
	worth, need := p.worths()
	holds := make([]int64, len(p.left))
	for s, n := range p.left {
		if n == 0 {
			continue
		}
		cost := float64(p.m.job.Sheets[s].Price) / p.m.unit
		if r := p.sheetRow[s]; r >= 0 {
			cost -= p.y[r]
		}
		t := fill(ctx, grids[s], worth)
		if t == nil {
			return false, false
		}
		floor := int64((cost + 1e-7) * scale)
		tree, most := p.layout(ctx, t, floor, to != nil)
		if holds[s] = most; grids[s].coarse {
			holds[s] = p.m.worthByArea(s, worth)
		}
		if tree = p.cuttable(ctx, t, s, tree, floor); tree != nil {
			if k, fresh := p.m.take(s, tree); fresh {
				p.use(k)
				found = true
			}
		}
	}
	if to != nil && need < 1<<62 {
		to.add(holds, need)
	}
	return found, true
}

// cuttable returns the layout as the trimmer can cut it, or, where it cannot, another that is worth more than floor, or nil.
// The proof is not touched by that: with every trimmer no layout is worth more.
func (p *program) cuttable(ctx context.Context, t *table, s int, tree *Cut, floor int64) *Cut {
	sheet := p.m.job.Sheets[s]
	if tree == nil || sheet.trimmer == (Trimmer{}) {
		return tree
	}
	if tree, ok := sheet.brought(tree); ok {
		return tree
	}
	if t = fillFor(ctx, t.g, t.worth, sheet.trimmer); t == nil || t.value() <= floor {
		return nil
	}
	tree = t.plan()
	if p.copies {
		tree, _ = t.near(ctx, p.want)
	}
	if tree, ok := sheet.brought(tree); ok && t.worthOf(tree) > floor {
		return tree
	}
	return nil
}

// worths turns the prices of the rows into whole numbers, rounded down: a proof holds for any worth.
func (p *program) worths() (worth []int64, need int64) {
	worth = make([]int64, len(p.want))
	sum := 0.0
	for i, r := range p.row {
		if r >= 0 && p.y[r] > 0 {
			worth[i] = int64(p.y[r] * scale)
			sum += float64(worth[i]) * float64(p.want[i])
			need += worth[i] * int64(p.want[i])
		}
	}
	if sum > 1<<61 {
		need = 1 << 62 // too large to add up
	}
	return worth, need
}

// layout returns a tree worth more than floor, or nil, and the most that any is worth; for a proof it looks harder.
func (p *program) layout(ctx context.Context, t *table, floor int64, proof bool) (*Cut, int64) {
	if t.value() <= floor {
		return nil, t.value()
	}
	tree := t.plan()
	if !p.copies {
		return tree, t.value()
	}
	limit := make([]uint16, len(p.want))
	for i, n := range p.want {
		limit[i] = uint16(min(n, 60_000))
	}
	if within(tree, limit) {
		return tree, t.value()
	}
	near, v := t.near(ctx, p.want)
	if !proof && (v > floor || t.g.points() > searchPoints) {
		if v <= floor {
			near = nil
		}
		return near, t.value()
	}
	work := layoutWork
	if proof {
		work = proofWork
	}
	better, _, most := limited(ctx, t, limit, max(v, floor), smallSearch, work)
	if better == nil && v > floor {
		better = near
	}
	return better, most
}

func (t *table) worthOf(c *Cut) (v int64) {
	for i, n := range c.made(len(t.worth)) {
		v += int64(n) * t.worth[i]
	}
	return v
}

// worthByArea is how much a sheet can hold at most where only the areas are looked at.
func (m *master) worthByArea(s int, worth []int64) int64 {
	parts := slices.Clone(m.job.Parts)
	for i := range parts {
		parts[i].Value, parts[i].Most = worth[i], Unlimited
	}
	return byAreaAlone(m.job.Sheets[s], parts)
}
