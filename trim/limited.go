package trim

import (
	"cmp"
	"container/heap"
	"context"
	"slices"
)

// mostBlocks is how many blocks the exact search holds before it stops with a bound.
const mostBlocks = 1_500_000

// built is a rectangle of parts without a cut of its own left to make: two others side by side, or one item.
type built struct {
	w, h     int64 // in units
	worth    int64
	bound    int64 // worth with the most that can lie around
	one, two int32 // the two, or one < 0 and two the number of the item
	upright  bool  // side by side
	dead     bool  // another with the same parts is smaller
}

// search builds larger blocks out of smaller ones, the most promising first (Wang 1983; Viswanathan and Bagchi 1993; both
// from memory), so that the first sheet that is taken out is the best. A block is dropped only where another with the same
// parts in the same numbers fits in a smaller rectangle: with limited copies nothing else that looks worse is worse.
type search struct {
	g      *grid
	around [][]int64
	worth  []int64
	limit  []uint16
	dense  []int // parts, the worthiest for their area first
	blocks []built
	counts []uint16 // of block b: counts[b*len(limit):]
	open   []int32
	closed []int32
	seen   map[uint64][]int32
	best   int32 // -1: nothing
	value  int64
	upX    []int32 // index of the smallest point that is at least v
	upY    []int32
	most   int // blocks
	work   int // pairs of blocks that may still be looked at
}

// limited returns the best tree with at most limit[i] copies of part i, its worth and what no tree can beat. floor is a
// worth that is of no
// interest: only more is sought, and the tree is nil where there is no more.
func limited(ctx context.Context, t *table, limit []uint16, floor int64, most, work int) (tree *Cut, value, bound int64) {
	around := t.around(ctx)
	if around == nil {
		return nil, floor, max(floor, t.value())
	}
	s := &search{g: t.g, around: around, worth: t.worth, limit: limit, seen: map[uint64][]int32{},
		best: -1, value: floor, most: most, work: work}
	s.upX, s.upY = ups(&t.g.x, t.g.w), ups(&t.g.y, t.g.h)
	s.sortDense()
	s.begin()
	bound = s.run(ctx)
	if s.best < 0 {
		return nil, floor, max(floor, bound)
	}
	return s.block(s.best).within(s.g.sheet.W, s.g.sheet.H), s.value, max(s.value, bound)
}

func ups(a *axis, size int64) []int32 {
	out := make([]int32, size+1)
	for v := range out {
		out[v] = int32(a.up(int64(v)))
	}
	return out
}

func (s *search) sortDense() {
	for i := range s.limit {
		if s.limit[i] > 0 && s.worth[i] > 0 {
			s.dense = append(s.dense, i)
		}
	}
	slices.SortStableFunc(s.dense, func(a, b int) int { return cmp.Compare(s.perArea(b), s.perArea(a)) })
}

func (s *search) perArea(i int) float64 {
	return float64(s.worth[i]) / float64(area(s.g.parts[i].W, s.g.parts[i].H))
}

func (s *search) begin() {
	n := make([]uint16, len(s.limit))
	for i, it := range s.g.items {
		if s.limit[it.part] == 0 || s.worth[it.part] <= 0 || it.w > s.g.w || it.h > s.g.h {
			continue
		}
		n[it.part] = 1
		s.add(built{w: it.w, h: it.h, worth: s.worth[it.part], one: -1, two: int32(i)}, n)
		n[it.part] = 0
	}
}

// run empties the heap and returns the bound.
func (s *search) run(ctx context.Context) int64 {
	for len(s.open) > 0 {
		b := heap.Pop(s).(int32)
		top := &s.blocks[b]
		if top.dead {
			continue
		}
		if top.bound <= s.value {
			return s.value
		}
		if len(s.blocks) >= s.most || s.work <= 0 || ctx.Err() != nil {
			return top.bound
		}
		s.closed = append(s.closed, b)
		s.join(ctx, b)
	}
	return s.value
}

// join lays every closed block, b itself among them, beside and above b.
func (s *search) join(ctx context.Context, b int32) {
	m := len(s.limit)
	sum := make([]uint16, m)
	s.work -= len(s.closed)
	for k, c := range s.closed {
		if k&4095 == 4095 && ctx.Err() != nil {
			return
		}
		one, two := &s.blocks[b], &s.blocks[c]
		if two.dead {
			continue
		}
		beside := built{w: one.w + two.w, h: max(one.h, two.h), worth: one.worth + two.worth, one: b, two: c, upright: true}
		above := built{w: max(one.w, two.w), h: one.h + two.h, worth: beside.worth, one: b, two: c}
		goBeside, goAbove := s.promising(beside), s.promising(above)
		if !goBeside && !goAbove || !s.sum(sum, b, c) {
			continue
		}
		if goBeside {
			s.add(beside, sum)
		}
		if goAbove {
			s.add(above, sum)
		}
	}
}

func (s *search) promising(b built) bool {
	return b.w <= s.g.w && b.h <= s.g.h && b.worth+s.around[s.upX[b.w]][s.upY[b.h]] > s.value
}

// sum adds the counts of two blocks; false where that is more than the limit.
func (s *search) sum(to []uint16, b, c int32) bool {
	m := len(s.limit)
	one, two := s.counts[int(b)*m:][:m], s.counts[int(c)*m:][:m]
	for i := range to {
		to[i] = one[i] + two[i]
		if to[i] > s.limit[i] {
			return false
		}
	}
	return true
}

// add takes a block up, unless it cannot lead to more than the best or one with the same parts is smaller.
func (s *search) add(b built, n []uint16) {
	b.bound = b.worth + min(s.around[s.upX[b.w]][s.upY[b.h]], s.byArea(b, n))
	if b.bound <= s.value && b.worth <= s.value || s.known(b, n) {
		return
	}
	at := int32(len(s.blocks))
	s.blocks = append(s.blocks, b)
	s.counts = append(s.counts, n...)
	key := s.key(n)
	s.seen[key] = append(s.seen[key], at)
	if b.worth > s.value {
		s.value, s.best = b.worth, at
	}
	if b.bound > s.value {
		heap.Push(s, at)
	}
}

// byArea is the most that the copies still free can be worth in the area that is left, parts taken in fractions. One is
// added for what the floats lose.
func (s *search) byArea(b built, n []uint16) int64 {
	left := float64(area(s.g.sheet.W, s.g.sheet.H)) - float64(b.w)*float64(s.g.ux)*float64(b.h)*float64(s.g.uy)
	if s.g.coarse {
		left = float64(area(s.g.sheet.W, s.g.sheet.H)) // rounded sizes are larger than the parts
	}
	sum := 0.0
	for _, i := range s.dense {
		a := float64(area(s.g.parts[i].W, s.g.parts[i].H))
		free := float64(s.limit[i] - n[i])
		if a*free > left {
			return int64(sum+left*s.perArea(i)) + 1
		}
		left -= a * free
		sum += free * float64(s.worth[i])
	}
	return int64(sum) + 1
}

// key mixes the counts into one number (the multiplier of FNV-1a, from memory, and a shift); known compares the counts
// themselves.
func (s *search) key(n []uint16) uint64 {
	h := uint64(14695981039346656037)
	for _, v := range n {
		h = (h ^ uint64(v)) * 1099511628211
		h ^= h >> 29
	}
	return h
}

// known says whether a block with the same parts fits in b, and strikes those that b fits in.
func (s *search) known(b built, n []uint16) bool {
	m := len(s.limit)
	for _, k := range s.seen[s.key(n)] {
		o := &s.blocks[k]
		if !slices.Equal(s.counts[int(k)*m:][:m], n) {
			continue
		}
		if o.w <= b.w && o.h <= b.h {
			return true
		}
		if b.w <= o.w && b.h <= o.h {
			o.dead = true
		}
	}
	return false
}

func (s *search) block(b int32) block {
	c := s.blocks[b]
	if c.one < 0 {
		return s.g.leaf(s.g.items[c.two])
	}
	if c.upright {
		return s.block(c.one).beside(s.block(c.two))
	}
	return s.block(c.one).above(s.block(c.two))
}

// Len, Less, Swap, Push and Pop make search a heap of its open blocks, the largest bound first, then the most worth.

func (s *search) Len() int { return len(s.open) }
func (s *search) Less(i, j int) bool {
	a, b := &s.blocks[s.open[i]], &s.blocks[s.open[j]]
	if a.bound != b.bound {
		return a.bound > b.bound
	}
	if a.worth != b.worth {
		return a.worth > b.worth
	}
	return s.open[i] < s.open[j]
}
func (s *search) Swap(i, j int) { s.open[i], s.open[j] = s.open[j], s.open[i] }
func (s *search) Push(b any)    { s.open = append(s.open, b.(int32)) }
func (s *search) Pop() any {
	last := s.open[len(s.open)-1]
	s.open = s.open[:len(s.open)-1]
	return last
}
