package trim

import (
	"cmp"
	"encoding/binary"
	"slices"

	"foldwright/length"
)

// Steps returns what has to be done at the trimmer, one thing after the other, so that the plan comes out and the fence is
// moved seldom: whatever can be cut at one place of the fence is cut before it is moved. If apart, every layout is finished
// before the next is begun, which takes less room on the table and some more moves of the fence.
//
// It keeps to the cuts of the plan. Strips that are cut up alike lie on one pile, whatever sheet of the layout they come
// from. The plan must be right (see [Audit]).
func Steps(j Job, p Plan, apart bool) []Step {
	b := &bench{job: j, layers: j.Trimmer.Layers(j.Caliper)}
	for i, l := range p.Layouts {
		b.layout(i, l)
	}
	return b.work(apart)
}

// bench is a trimmer with the piles around it.
type bench struct {
	job    Job
	layers int
	piles  []*pile
	letter int
	fence  length.Length
	left   map[length.Length]int // steps that are still to be done at a place of the fence
}

// pile is a Pile of pieces that are cut up, and the steps that it takes.
type pile struct {
	Pile
	layout int
	tree   *Cut
	steps  []Step
	next   int
	makers int // steps still to be done before the pile is whole
	into   [][]*pile
	made   CutKind // how its pieces were cut last, 0 for sheets
}

// layout lays out the piles of a layout and their steps. A pile is larger in area than those that come out of it, so that
// its count is known when its turn comes.
func (b *bench) layout(i int, l Layout) {
	s := b.job.Sheets[l.Sheet]
	first := len(b.piles)
	known := map[string]*pile{}
	root := &pile{Pile: Pile{Kind: Sheets, Number: l.Sheet, W: s.W, H: s.H, Count: l.Times}, layout: i, tree: l.Root}
	todo := []*pile{root}
	for len(todo) > 0 {
		at := 0
		for k, p := range todo {
			if area(p.W, p.H) > area(todo[at].W, todo[at].H) {
				at = k
			}
		}
		p := todo[at]
		todo = slices.Delete(todo, at, at+1)
		if s.Edge > 0 && p == root {
			b.square(p, s.Edge)
		}
		todo = b.cutUp(p, known, todo)
		if len(p.steps) > 0 {
			b.piles = append(b.piles, p)
		}
	}
	for _, p := range b.piles[first:] {
		for _, into := range p.into {
			for _, q := range into {
				q.makers++
			}
		}
	}
}

// square adds the steps that cut the mill edges off a sheet. The sheet that is left is the one that the tree cuts up.
func (b *bench) square(p *pile, edge length.Length) {
	for _, way := range [2]CutKind{AtX, AtY} {
		for range 2 {
			rest := Pile{Kind: Leftover, W: edge, H: p.H, Count: p.Count}
			left := p.Pile
			if way == AtX {
				left.W -= edge
			} else {
				rest.W, rest.H = p.W, edge
				left.H -= edge
			}
			fence := left.W
			if way == AtY {
				fence = left.H
			}
			b.step(p, Step{Layout: p.layout, Fence: fence, Way: way, Take: p.Pile, Each: 1, Square: true, Out: []Pile{rest}, Left: left})
			p.Pile = left
		}
	}
	if c := p.tree; !c.cuts() { // the squared sheet is the part
		last := &p.steps[len(p.steps)-1]
		last.Left = Pile{}
		b.put(p, last, c, p.Pile, nil, nil, nil)
	}
}

func (b *bench) step(p *pile, s Step, into ...*pile) {
	p.steps, p.into = append(p.steps, s), append(p.into, into)
}

// cutUp adds the steps of a pile: of cuts one after the other at the same place of the fence, one step. It adds piles that
// have to be cut up further to todo.
func (b *bench) cutUp(p *pile, known map[string]*pile, todo []*pile) []*pile {
	c := p.tree
	in := p.Pile
	for c.cuts() {
		s := Step{Layout: p.layout, Fence: c.At, Way: c.Kind, Take: in}
		var into []*pile
		kind := c.Kind
		for c.cuts() && c.Kind == kind && c.At == s.Fence {
			one, two := in, in
			behind := c.At + b.job.Trimmer.Blade
			if kind == AtX {
				one.W, two.W = c.At, max(0, in.W-behind)
			} else {
				one.H, two.H = c.At, max(0, in.H-behind)
			}
			s.Each++
			todo = b.put(p, &s, c.First, one, known, todo, &into)
			in, c = two, c.Second
		}
		if c.cuts() && c.Kind == kind {
			s.Left = in
		} else {
			if in.W > 0 && in.H > 0 {
				todo = b.put(p, &s, c, in, known, todo, &into)
			}
			c = nil
		}
		b.step(p, s, into...)
	}
	return todo
}

// cuts says whether the piece is cut.
func (c *Cut) cuts() bool { return c != nil && (c.Kind == AtX || c.Kind == AtY) }

// put lays what comes off every piece of a pile where it belongs.
func (b *bench) put(from *pile, s *Step, c *Cut, size Pile, known map[string]*pile, todo []*pile, into *[]*pile) []*pile {
	out := Pile{Kind: Leftover, W: size.W, H: size.H, Count: from.Count}
	switch {
	case c.cuts():
		key := string(c.key(size.W, size.H, nil))
		p := known[key]
		if p == nil {
			p = &pile{Pile: out, layout: from.layout, tree: c, made: s.Way}
			p.Kind, p.Name, p.Count = Strips, b.name(), 0
			known[key], todo = p, append(todo, p)
		}
		p.Count += from.Count
		out.Kind, out.Name = Strips, p.Name
		*into = append(*into, p)
	case c != nil && c.Kind == IsPart:
		out.Kind, out.Number, out.Turned = Finished, c.Part, c.Turned
	}
	for i := range s.Out {
		o := &s.Out[i]
		if o.Kind == out.Kind && o.Name == out.Name && o.Number == out.Number && o.Turned == out.Turned && o.W == out.W && o.H == out.H {
			o.Count += out.Count
			return todo
		}
	}
	s.Out = append(s.Out, out)
	return todo
}

// name returns A, B … Z, AA, AB …
func (b *bench) name() string {
	var out []byte
	for n := b.letter; n >= 0; n = n/26 - 1 {
		out = append(out, byte('A'+n%26))
	}
	b.letter++
	slices.Reverse(out)
	return string(out)
}

// key is the same for pieces of one size that are cut alike.
func (c *Cut) key(w, h length.Length, to []byte) []byte {
	to = binary.AppendVarint(binary.AppendVarint(to, int64(w)), int64(h))
	return c.shape(to)
}

func (c *Cut) shape(to []byte) []byte {
	switch {
	case c == nil || c.Kind == Rest:
		return append(to, byte(Rest))
	case c.Kind == IsPart:
		turned := byte(0)
		if c.Turned {
			turned = 1
		}
		return append(binary.AppendVarint(append(to, byte(IsPart)), int64(c.Part)), turned)
	}
	return c.Second.shape(c.First.shape(binary.AppendVarint(append(to, byte(c.Kind)), int64(c.At))))
}

// work puts the steps of all piles in order.
func (b *bench) work(apart bool) []Step {
	var out []Step
	b.left = map[length.Length]int{}
	total := 0
	for _, p := range b.piles {
		total += len(p.steps)
		for _, s := range p.steps {
			b.left[s.Fence]++
		}
	}
	at := -1 // layout in work
	for len(out) < total {
		p := b.choose(apart, at)
		s := p.steps[p.next]
		s.Layers = min(b.layers, s.Take.Count)
		s.Moved = len(out) == 0 || s.Fence != b.fence
		s.Turned = p.made != 0 && p.made != s.Way
		b.fence, at = s.Fence, s.Layout
		b.left[s.Fence]--
		p.do(s.Way)
		out = append(out, s)
	}
	return out
}

func (p *pile) do(way CutKind) {
	for _, q := range p.into[p.next] {
		q.makers--
	}
	p.next, p.made = p.next+1, way
}

// ready says that the next step of the pile can be done.
func (p *pile) ready() bool { return p.next < len(p.steps) && p.makers == 0 }

// choose returns the pile to go on with: one for the fence as it stands, or else for the place where most can be done
// before the fence has to be moved, best of all everything that there is to do at that place.
func (b *bench) choose(apart bool, at int) *pile {
	var can []*pile
	for _, p := range b.piles {
		if p.ready() && (!apart || p.layout == at) {
			can = append(can, p)
		}
	}
	if len(can) == 0 { // the layout is done
		return b.choose(false, at)
	}
	if i := slices.IndexFunc(can, func(p *pile) bool { return p.steps[p.next].Fence == b.fence }); i >= 0 {
		return can[i]
	}
	return slices.MinFunc(can, func(p, q *pile) int {
		f, g := p.steps[p.next].Fence, q.steps[q.next].Fence
		if f == g {
			return cmp.Compare(p.layout, q.layout)
		}
		nf, ng := b.doable(f, apart, at), b.doable(g, apart, at)
		return cmp.Or(cmp.Compare(b.left[f]-nf, b.left[g]-ng), cmp.Compare(ng, nf), cmp.Compare(g, f))
	})
}

// doable is how many steps can be done with the fence at f, those counted that they make possible.
func (b *bench) doable(f length.Length, apart bool, at int) int {
	next, makers := map[*pile]int{}, map[*pile]int{}
	n := 0
	for more := true; more; {
		more = false
		for _, p := range b.piles {
			if apart && p.layout != at {
				continue
			}
			for k := p.next + next[p]; p.makers == makers[p] && k < len(p.steps) && p.steps[k].Fence == f; k++ {
				for _, q := range p.into[k] {
					makers[q]++
				}
				next[p]++
				n++
				more = true
			}
		}
	}
	return n
}
