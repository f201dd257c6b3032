package resize

import (
	"context"
	"math"
	"slices"

	"foldwright/flat"
	"foldwright/length"
)

// answer is the outcome of a search over whole numbers.
type answer struct {
	status flat.Status
	// values are the measures, in marks.
	values []int64
	cost   float64
	nodes  int
	used   []bool // per group: whether its inequalities held the search back
}

// nodeLimit bounds the branches that are looked at; the stand takes a few dozen.
const nodeLimit = 50_000

// costEps is how much two costs may differ by rounding and still count as equal, relative to 1 + cost.
const costEps = 1e-9

// solve finds the best whole solution of the problem with the groups that are in use.
func (p *conditions) solve(ctx context.Context, use func(g int) bool, refused [][]int64) answer {
	b := p.branch(ctx, use)
	if b == nil {
		return answer{status: flat.Contradictory}
	}
	b.refused = refused
	b.run()
	return b.answer()
}

// some says whether there is any whole solution that costs less than a limit, which is found out sooner than the best one.
func (p *conditions) some(ctx context.Context, use func(g int) bool, below float64) flat.Status {
	b := p.branch(ctx, use)
	if b == nil {
		return flat.Contradictory
	}
	b.best, b.anyServes = below, true
	b.run()
	switch {
	case len(b.found) > 0:
		return flat.Solved
	case b.stopped:
		return flat.StoppedEarly
	}
	return flat.Contradictory
}

// branch sets the search up with the groups that are in use; nil where already the equations exclude each other.
func (p *conditions) branch(ctx context.Context, use func(g int) bool) *branch {
	var equations []equation
	for _, l := range p.lines {
		if l.equal && use(l.group) {
			equations = append(equations, equation{l.row, l.at})
		}
	}
	start, basis, ok := solveWhole(p.n, equations)
	if !ok {
		return nil
	}
	b := &branch{ctx: ctx, p: p, use: use, start: start, basis: basis, best: math.Inf(1), used: make([]bool, len(p.groups))}
	if !b.constrain() || !b.costs() {
		return nil
	}
	return b
}

func (b *branch) run() {
	if len(b.basis) == 0 {
		b.take(nil)
	} else {
		b.descend(nil, nil)
	}
}

// branch is the state of a branch and bound over z, y = start + basis z.
type branch struct {
	ctx    context.Context
	p      *conditions
	use    func(group int) bool
	start  []int64
	basis  [][]int64 // per free number a vector over y
	rows   []condition
	groups []int // per row
	q      *quadratic
	// costed lists the measures that cost.
	costed []int
	// best is the cost of what was found, or what it must not exceed.
	best float64
	// anyServes says that the first solution ends the search.
	anyServes bool
	// used says, per group, whether its inequalities held the search back anywhere: without any other group the search would
	// take the same course.
	used    []bool
	found   [][]int64 // solutions of the best cost, as measures
	refused [][]int64
	nodes   int
	stopped bool
}

// constrain turns the inequalities into rows over z, each row once with its tightest side; false where one without any z
// is broken.
func (b *branch) constrain() bool {
	type key string
	index := map[key]int{}
	for _, l := range b.p.lines {
		if l.equal || !b.use(l.group) {
			continue
		}
		row := make([]float64, len(b.basis))
		at := float64(l.at - product(l.row, b.start))
		zero := true
		text := make([]byte, 0, 8*len(row))
		for j, vec := range b.basis {
			s := product(l.row, vec)
			row[j] = float64(s)
			zero = zero && s == 0
			for k := range 8 {
				text = append(text, byte(s>>(8*k)))
			}
		}
		if zero {
			if at > 0 {
				return false
			}
			continue
		}
		if i, known := index[key(text)]; known {
			if at > b.rows[i].at {
				b.rows[i].at, b.groups[i] = at, l.group
			}
			continue
		}
		index[key(text)] = len(b.rows)
		b.rows, b.groups = append(b.rows, newCondition(row, at)), append(b.groups, l.group)
	}
	return true
}

// kept says which measures the keep lines decide, together with the equal widths: they cost nothing.
func (b *branch) kept() []bool {
	var equations []equation
	for _, l := range b.p.lines {
		if g := b.p.groups[l.group]; l.equal && (g.keep || g.loose) && b.use(l.group) {
			equations = append(equations, equation{l.row, l.at})
		}
	}
	out := make([]bool, len(b.p.s.measures))
	_, basis, ok := solveWhole(b.p.n, equations)
	if !ok {
		return out
	}
	for k := range out {
		out[k] = !slices.ContainsFunc(basis, func(vec []int64) bool { return product(b.p.basis[k], vec) != 0 })
	}
	return out
}

// costs sets up the quadratic cost over z.
func (b *branch) costs() bool {
	var rows [][]float64
	var f []float64
	kept := b.kept()
	for k, m := range b.p.s.measures {
		if kept[k] {
			continue
		}
		row := make([]float64, len(b.basis))
		for j, vec := range b.basis {
			row[j] = float64(product(b.p.basis[k], vec))
		}
		b.costed = append(b.costed, k)
		rows, f = append(rows, row), append(f, m.wish-float64(product(b.p.basis[k], b.start)))
	}
	q, ok := newQuadratic(len(b.basis), rows, f)
	if b.q = q; !ok {
		return false
	}
	for i := range b.rows {
		q.prepare(&b.rows[i])
	}
	return true
}

// descend solves the relaxation under the bounds so far and branches on the free number that is furthest from whole.
// parent is the relaxation without the last bound.
func (b *branch) descend(bounds []condition, parent *activeSet) {
	if b.nodes++; b.nodes > nodeLimit || b.nodes%256 == 0 && b.ctx.Err() != nil {
		b.stopped = true
		return
	}
	relaxed, ok := b.q.minimise(b.rows, bounds, parent)
	for _, i := range relaxed.active {
		if i < len(b.rows) {
			b.used[b.groups[i]] = true
		}
	}
	if !ok {
		return
	}
	z := relaxed.z
	if b.q.cost(z) > b.best+costEps*(1+b.best) {
		return
	}
	worst, far := -1, 1e-6
	for i, v := range z {
		if d := math.Abs(v - math.Round(v)); d > far {
			worst, far = i, d
		}
	}
	if worst < 0 {
		b.whole(relaxed, bounds)
		return
	}
	low, high := bound(len(z), worst, -1, -math.Floor(z[worst])), bound(len(z), worst, 1, math.Ceil(z[worst]))
	first, second := low, high
	if z[worst]-math.Floor(z[worst]) > 0.5 {
		first, second = high, low
	}
	b.descend(append(slices.Clone(bounds), first), relaxed)
	if b.stopped {
		return
	}
	b.descend(append(slices.Clone(bounds), second), relaxed)
}

// whole takes a whole point. The cost is strictly convex, so every other point of this branch costs more; only where the
// point was refused are the others looked at.
func (b *branch) whole(relaxed *activeSet, bounds []condition) {
	z := relaxed.z
	if b.take(z) {
		return
	}
	for i := range z {
		v := math.Round(z[i])
		for _, side := range [2]condition{bound(len(z), i, -1, -(v - 1)), bound(len(z), i, 1, v+1)} {
			if b.stopped {
				return
			}
			b.descend(append(slices.Clone(bounds), side), relaxed)
		}
		// What follows keeps this number: every other value was just looked at.
		bounds = append(slices.Clone(bounds), bound(len(z), i, 1, v), bound(len(z), i, -1, -v))
	}
}

// bound is the condition sign * z[i] >= at.
func bound(n, i int, sign, at float64) condition {
	row := make([]float64, n)
	row[i] = sign
	return newCondition(row, at)
}

// take keeps a whole point if none better is known. It returns false where the point is refused.
func (b *branch) take(z []float64) bool {
	y := slices.Clone(b.start)
	for j, vec := range b.basis {
		v := int64(math.Round(z[j]))
		for i := range y {
			y[i] += v * vec[i]
		}
	}
	if !b.obeys(y) {
		return false
	}
	values := b.p.measuresAt(y)
	if slices.ContainsFunc(b.refused, func(r []int64) bool { return slices.Equal(r, values) }) {
		return false
	}
	cost := 0.0
	for _, k := range b.costed {
		d := float64(values[k]) - b.p.s.measures[k].wish
		cost += d * d
	}
	switch {
	case len(b.found) == 0 || cost < b.best-costEps*(1+b.best):
		b.best, b.found = cost, nil
	case cost > b.best+costEps*(1+b.best):
		return true
	}
	if !slices.ContainsFunc(b.found, func(v []int64) bool { return slices.Equal(v, values) }) {
		b.found = append(b.found, values)
	}
	b.stopped = b.stopped || b.anyServes
	return true
}

// obeys checks the inequalities in whole numbers: the relaxation is only good to its rounding.
func (b *branch) obeys(y []int64) bool {
	for _, l := range b.p.lines {
		if l.equal || !b.use(l.group) {
			continue
		}
		if product(l.row, y) < l.at {
			return false
		}
	}
	return true
}

// measuresAt returns the measures for given y.
func (p *conditions) measuresAt(y []int64) []int64 {
	values := make([]int64, len(p.basis))
	for k, row := range p.basis {
		values[k] = product(row, y)
	}
	return values
}

// product returns row · y.
func product(row, y []int64) int64 {
	sum := int64(0)
	for i, v := range row {
		sum += v * y[i]
	}
	return sum
}

func (b *branch) answer() answer {
	a := answer{nodes: b.nodes, status: flat.Solved, used: b.used}
	if len(b.found) == 0 {
		a.status = flat.Contradictory
		if b.stopped {
			a.status = flat.StoppedEarly
		}
		return a
	}
	if b.stopped {
		a.status = flat.StoppedEarly
	}
	slices.SortFunc(b.found, b.p.prefer)
	a.values, a.cost = b.found[0], b.best
	return a
}

// prefer orders solutions of one cost: nearest to the target size, then the least movement of scores, then the smaller first
// measures.
func (p *conditions) prefer(x, y []int64) int {
	if c := compare(p.offTarget(x), p.offTarget(y)); c != 0 {
		return c
	}
	if c := compare(p.movement(x), p.movement(y)); c != 0 {
		return c
	}
	return slices.Compare(x, y)
}

func compare(a, b float64) int {
	switch {
	case a < b-1e-9:
		return -1
	case a > b+1e-9:
		return 1
	}
	return 0
}

// offTarget is the square of how far the closed card stays below the target size, in marks².
func (p *conditions) offTarget(values []int64) float64 {
	w, h := p.closedSize(values)
	return (p.target[0]-w)*(p.target[0]-w) + (p.target[1]-h)*(p.target[1]-h)
}

// closedSize returns the extents of the closed card in marks.
func (p *conditions) closedSize(values []int64) (w, h float64) {
	shape := p.s.shape(lengths(values, p.s.marks))
	if shape == nil {
		return 0, 0
	}
	m := float64(p.s.marks)
	return (slices.Max(shape.x) - slices.Min(shape.x)) / m, (slices.Max(shape.y) - slices.Min(shape.y)) / m
}

// movement is how far the coordinates of all pieces move in all, in marks.
func (p *conditions) movement(values []int64) float64 {
	total := 0.0
	for _, g := range p.s.grids {
		for _, c := range g.ways() {
			at := 0.0
			for k := 1; k < len(c.at); k++ {
				at += float64(values[c.first+k-1])
				total += math.Abs(at - float64(c.at[k]-c.at[0])/float64(p.s.marks))
			}
		}
	}
	return total
}

func lengths(values []int64, mark length.Length) []length.Length {
	out := make([]length.Length, len(values))
	for i, v := range values {
		out[i] = length.Length(v) * mark
	}
	return out
}
