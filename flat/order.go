package flat

import (
	"slices"

	"foldwright/card"
	"foldwright/pattern"
	"foldwright/plane"
)

// The layer order is decided cell by cell of the overlay. For two panels in one cell there is one unknown: which of them
// is nearer the front. An edge between two cells hands the order on, unless one of the two sheets is cut there; so the
// unknowns of neighbouring cells become one (a union-find with a sign).
//
// What binds the unknowns:
//
//	fold of known sense    the panel whose outer face is up is in front (mountain) or behind (valley)
//	glue                   fixed by the faces; and no third panel lies between, unless it is glued on one of the two
//	sheet running past a   the sheet is in front of both panels of the fold or behind both
//	fold's edge
//	two folds on one edge  neither has one panel inside the other fold and one outside
//	three panels           no circle
//
// The first three are equal or opposite pairs and go into the union-find. The fourth is a parity of four unknowns (r is
// between p and q if it is in front of exactly one of them), the fifth a clause of three; they are propagated, and what
// stays open is searched.

// unknown names one "is nearer the front than" question, with a sign: odd means the answer is turned round.
type unknown int

func (u unknown) not() unknown { return u ^ 1 }

// Clash names two panels that every order runs into.
type Clash struct{ A, B int }

type orderer struct {
	a      *pattern.Assembly
	o      *Overlay
	up     []bool    // per panel
	base   []int     // per cell: first unknown (before the sign bit)
	parent []unknown // union-find over unknown>>1; parent[i] = i<<1 for a root
	value  []int8    // per root: 0 open, +1 true, -1 false
	clash  *Clash
	// gaveUp says that the search for an order was cut short.
	gaveUp bool
	owner  [][2]int // per unknown: the two panels it is about
	// clauses over roots
	clauses []clause
	watch   [][]int32 // per root: the clauses that it is in
}

// clause is a condition on three or four unknowns. A circle (n = 3) may not have all three equal; a parity (n = 4) has an
// even number of true ones.
type clause struct {
	n int8
	u [4]unknown
}

// order sorts the stacks of an overlay from the front. It returns the clash if there is no order; gaveUp says that the
// search was cut short or not begun, so that an order may exist all the same.
func order(a *pattern.Assembly, o *Overlay, at []plane.Motion, folded []bool) (clash *Clash, gaveUp bool) {
	return orderWith(a, o, at, folded, nil)
}

// orderWith is order with pairs of panels of which the first must lie in front wherever they lie on each other.
func orderWith(a *pattern.Assembly, o *Overlay, at []plane.Motion, folded []bool, front [][2]int) (clash *Clash, gaveUp bool) {
	for i := range o.Cells {
		slices.Sort(o.Cells[i].Stack)
	}
	s := &orderer{a: a, o: o, up: make([]bool, len(at))}
	for i, m := range at {
		s.up[i] = !m.Flips()
	}
	if s.number(); s.gaveUp {
		return nil, true
	}
	s.edges(folded)
	s.joints()
	for _, f := range front {
		for c := range o.Cells {
			if p, q := s.position(c, f[0]), s.position(c, f[1]); p >= 0 && q >= 0 {
				s.fix(s.ask(c, p, q), true)
			}
		}
	}
	if s.clash == nil {
		s.collect()
		s.solve()
	}
	if s.clash != nil {
		return s.clash, s.gaveUp
	}
	if s.gaveUp {
		return nil, true
	}
	for c := range o.Cells {
		s.sortCell(c)
	}
	return nil, false
}

// mostUnknowns and mostCircles bound the size of the problem that is taken on: a stand with two springs has about a
// thousand of each, and no card that can be folded by hand comes near.
const (
	mostUnknowns = 100_000
	mostCircles  = 400_000
)

// number gives every pair of every cell its unknown.
func (s *orderer) number() {
	n := 0
	s.base = make([]int, len(s.o.Cells))
	for c, cell := range s.o.Cells {
		s.base[c] = n
		k := len(cell.Stack)
		n += k * (k - 1) / 2
	}
	if n > mostUnknowns {
		s.gaveUp = true
		return
	}
	s.parent = make([]unknown, n)
	s.owner = make([][2]int, n)
	for i := range s.parent {
		s.parent[i] = unknown(i << 1)
	}
	s.value = make([]int8, n)
	for c, cell := range s.o.Cells {
		k := s.base[c]
		for j := 1; j < len(cell.Stack); j++ {
			for i := range j {
				s.owner[k] = [2]int{cell.Stack[i], cell.Stack[j]}
				k++
			}
		}
	}
}

// ask returns the unknown "panel at position i of the cell's stack is in front of the one at position j".
func (s *orderer) ask(c, i, j int) unknown {
	if i < j {
		return unknown(s.base[c]+j*(j-1)/2+i) << 1
	}
	return unknown(s.base[c]+i*(i-1)/2+j)<<1 | 1
}

// position returns where a panel stands in a cell's stack, -1 if it does not.
func (s *orderer) position(c, panel int) int {
	i, ok := slices.BinarySearch(s.o.Cells[c].Stack, panel)
	if !ok {
		return -1
	}
	return i
}

func (s *orderer) find(u unknown) unknown {
	sign := u & 1
	i := int(u >> 1)
	for s.parent[i]>>1 != unknown(i) {
		p := s.parent[i]
		// Halve the path: point past the parent.
		g := s.parent[p>>1]
		s.parent[i] = g ^ (p & 1)
		sign ^= s.parent[i] & 1
		i = int(s.parent[i] >> 1)
	}
	return unknown(i<<1) | sign
}

// equal makes two unknowns one. It notes a clash where they are opposite already.
func (s *orderer) equal(u, v unknown) {
	if s.clash != nil {
		return
	}
	x, y := s.find(u), s.find(v)
	if x>>1 == y>>1 {
		if x != y {
			s.fail(u)
		}
		return
	}
	vx, vy := s.valueOf(x), s.valueOf(y)
	if vx != 0 && vy != 0 && vx != vy {
		s.fail(u)
		return
	}
	s.parent[x>>1] = y ^ (x & 1)
	if vy == 0 && vx != 0 {
		s.put(y, vx)
	}
}

func (s *orderer) valueOf(root unknown) int8 {
	v := s.value[root>>1]
	if root&1 == 1 {
		return -v
	}
	return v
}

func (s *orderer) put(root unknown, v int8) {
	if root&1 == 1 {
		v = -v
	}
	s.value[root>>1] = v
}

// fix decides an unknown.
func (s *orderer) fix(u unknown, front bool) {
	if s.clash != nil {
		return
	}
	want := int8(-1)
	if front {
		want = 1
	}
	root := s.find(u)
	if v := s.valueOf(root); v == 0 {
		s.put(root, want)
	} else if v != want {
		s.fail(u)
	}
}

func (s *orderer) fail(u unknown) {
	if s.clash == nil {
		s.clash = &Clash{s.owner[u>>1][0], s.owner[u>>1][1]}
	}
}

// pass is a sheet that runs on across an edge: position i in the cell on one side, j on the other.
type pass struct{ i, j int }

// fold is two panels folded on each other along an edge, by their positions in the cell.
type fold struct{ p, q int }

// edges hands the order across every edge of the overlay and binds what is folded there.
func (s *orderer) edges(folded []bool) {
	panels := len(s.a.Panels)
	for _, e := range s.o.Sub.Edges {
		left, right := s.o.cellOf[e.Left], s.o.cellOf[e.Right]
		if left < 0 && right < 0 {
			continue
		}
		var passes []pass
		var folds [2][]fold
		if left >= 0 && right >= 0 {
			passes = s.sheets(e, left, right)
		}
		for _, t := range e.Tags {
			if t < panels {
				continue
			}
			h := s.a.Hinges[t-panels]
			for side, c := range [2]int{left, right} {
				if c < 0 {
					continue
				}
				p, q := s.position(c, h.A), s.position(c, h.B)
				if folded[t-panels] && p >= 0 && q >= 0 {
					folds[side] = append(folds[side], fold{p, q})
					s.senseOf(c, h, p, q)
				}
			}
			if !folded[t-panels] && left >= 0 && right >= 0 {
				if i, j := s.position(left, h.A), s.position(right, h.B); i >= 0 && j >= 0 {
					passes = append(passes, pass{i, j})
				} else if i, j := s.position(left, h.B), s.position(right, h.A); i >= 0 && j >= 0 {
					passes = append(passes, pass{i, j})
				}
			}
		}
		s.bind(left, right, passes, folds)
	}
}

// sheets lists the panels that lie on both sides of an edge and are not cut there.
func (s *orderer) sheets(e plane.Edge, left, right int) []pass {
	var passes []pass
	for i, p := range s.o.Cells[left].Stack {
		if j := s.position(right, p); j >= 0 && !slices.Contains(e.Tags, p) {
			passes = append(passes, pass{i, j})
		}
	}
	return passes
}

// senseOf fixes the order of two folded panels by the sense of their hinge.
func (s *orderer) senseOf(c int, h pattern.AtHinge, p, q int) {
	if h.Sense == card.Either || s.up[h.A] == s.up[h.B] {
		return
	}
	s.fix(s.ask(c, p, q), s.up[h.A] == (h.Sense == card.Mountain))
}

// bind applies the conditions of one edge.
func (s *orderer) bind(left, right int, passes []pass, folds [2][]fold) {
	for x := range passes {
		for y := range x {
			s.equal(s.ask(left, passes[x].i, passes[y].i), s.ask(right, passes[x].j, passes[y].j))
		}
	}
	for side, c := range [2]int{left, right} {
		for x, f := range folds[side] {
			for _, w := range passes {
				at := w.i
				if side == 1 {
					at = w.j
				}
				s.equal(s.ask(c, at, f.p), s.ask(c, at, f.q))
			}
			for _, g := range folds[side][:x] {
				if f.p == g.p || f.p == g.q || f.q == g.p || f.q == g.q {
					continue
				}
				s.clauses = append(s.clauses, clause{4, [4]unknown{
					s.ask(c, g.p, f.p), s.ask(c, g.p, f.q), s.ask(c, g.q, f.p), s.ask(c, g.q, f.q)}})
			}
		}
	}
}

// joints fixes the order of glued panels and keeps everything else from between them.
func (s *orderer) joints() {
	for _, j := range s.a.Joints {
		// Outside and Against put A on B's outer face, the others on its inner face.
		onOuter := j.Glue.Joint == card.Outside || j.Glue.Joint == card.Against
		front := onOuter == s.up[j.B]
		for c := range s.o.Cells {
			p, q := s.position(c, j.A), s.position(c, j.B)
			if p < 0 || q < 0 {
				continue
			}
			s.fix(s.ask(c, p, q), front)
			for r, panel := range s.o.Cells[c].Stack {
				// What is glued on the same panel, such as a lining over a tab, may lie between.
				if r != p && r != q && !s.glued(panel, j.A) && !s.glued(panel, j.B) {
					s.equal(s.ask(c, r, p), s.ask(c, r, q))
				}
			}
		}
	}
}

// glued says whether a joint joins two panels.
func (s *orderer) glued(p, q int) bool {
	return slices.ContainsFunc(s.a.Joints, func(j pattern.Joint) bool { return j.A == p && j.B == q || j.A == q && j.B == p })
}

// sortCell puts the panels of a cell into the order that was found, front first.
func (s *orderer) sortCell(c int) {
	stack := s.o.Cells[c].Stack
	behind := make([]int, len(stack)) // how many are in front of it
	for j := 1; j < len(stack); j++ {
		for i := range j {
			if s.valueOf(s.find(s.ask(c, i, j))) > 0 {
				behind[j]++
			} else {
				behind[i]++
			}
		}
	}
	sorted := make([]int, len(stack))
	for i, p := range stack {
		sorted[behind[i]] = p
	}
	s.o.Cells[c].Stack = sorted
}
