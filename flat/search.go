package flat

import (
	"cmp"
	"context"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// candidate is one option for every copy, all loops between copies closed (or nearly, where there is slack).
type candidate struct {
	picks []*option
	// groups holds, per copy, the options that could stand in for its pick.
	groups [][]*option
	roots  []plane.Motion
	box    plane.Box
	miss   float64
	own    float64
	folds  int
	offTab int
}

// searcher finds the ways to fold a whole card shut.
type searcher struct {
	ctx    context.Context
	a      *pattern.Assembly
	slack  length.Length
	order  []int   // copies as the joints reach them
	first  []int   // per position in order: the joint that places the copy, -1 for the first
	checks [][]int // per position in order: the other joints to copies placed before
	groups [][][]*option
	picks  []*option
	chosen [][]*option
	roots  []plane.Motion
	found  []*candidate
	leaves int
	// accept, if set, says which near misses are of interest.
	accept func(*candidate) bool
	// alone remembers which options have a layer order without the rest of the card.
	alone   map[*option]bool
	stopped bool
	// clash is what was in the way of the candidate looked at last.
	clash *Clash
	// dropped says that some ways to fold a copy were not kept, since many others fold up smaller.
	dropped bool
}

// leafLimit bounds how many combinations of groups are kept.
const leafLimit = 3000

func newSearcher(ctx context.Context, a *pattern.Assembly, slack length.Length) *searcher {
	s := &searcher{ctx: ctx, a: a, slack: slack}
	s.plan()
	s.enumerate()
	return s
}

// plan puts the copies into the order in which joints reach them from the first.
func (s *searcher) plan() {
	placed := make([]bool, len(s.a.Copies))
	used := make([]bool, len(s.a.Joints))
	place := func(c, by int) {
		placed[c] = true
		s.order, s.first = append(s.order, c), append(s.first, by)
		var checks []int
		for i, j := range s.a.Joints {
			if p, q := s.a.Panels[j.A].Copy, s.a.Panels[j.B].Copy; !used[i] && p != q && placed[p] && placed[q] && i != by {
				used[i] = true
				checks = append(checks, i)
			}
		}
		s.checks = append(s.checks, checks)
	}
	place(0, -1)
	for len(s.order) < len(s.a.Copies) {
		next := slices.IndexFunc(s.a.Joints, func(j pattern.Joint) bool {
			return placed[s.a.Panels[j.A].Copy] != placed[s.a.Panels[j.B].Copy]
		})
		if next < 0 {
			return // Assemble has reported the loose copy
		}
		used[next] = true
		c := s.a.Panels[s.a.Joints[next].A].Copy
		if placed[c] {
			c = s.a.Panels[s.a.Joints[next].B].Copy
		}
		place(c, next)
	}
}

// enumerate finds the options of every copy; copies of one piece with the same ports share them.
func (s *searcher) enumerate() {
	type shared struct {
		piece  int
		ports  []int
		joints []*selfJoint
		must   []int8
		opts   [][]*option
	}
	var known []shared
	s.groups = make([][][]*option, len(s.a.Copies))
	for i, c := range s.a.Copies {
		ports, joints := s.portsOf(i)
		must := s.must(i)
		hit := slices.IndexFunc(known, func(k shared) bool {
			return k.piece == c.Piece && slices.Equal(k.ports, ports) && slices.Equal(k.must, must) && slices.EqualFunc(k.joints, joints, sameJoint)
		})
		if hit >= 0 {
			s.groups[i] = known[hit].opts
			continue
		}
		f := newFolder(s.ctx, c.Pattern, ports, joints, must, s.tabs(i))
		f.slack = s.slack
		f.run()
		s.stopped = s.stopped || f.stopped
		s.dropped = s.dropped || f.dropped
		for _, key := range f.order {
			s.groups[i] = append(s.groups[i], f.found[key])
		}
		known = append(known, shared{c.Piece, ports, joints, must, s.groups[i]})
	}
}

func (s *searcher) copyOf(piece int) int {
	return slices.IndexFunc(s.a.Copies, func(c pattern.Copy) bool { return c.Piece == piece })
}

func sameJoint(x, y *selfJoint) bool { return *x == *y }

// portsOf returns the panels of a copy that other copies are glued to, and the joints within it.
func (s *searcher) portsOf(c int) (ports []int, joints []*selfJoint) {
	first := s.a.Copies[c].FirstPanel
	for _, j := range s.a.Joints {
		p, q := s.a.Panels[j.A].Copy == c, s.a.Panels[j.B].Copy == c
		switch {
		case p && q:
		case p:
			ports = append(ports, j.A-first)
		case q:
			ports = append(ports, j.B-first)
		}
	}
	slices.Sort(ports)
	return slices.Compact(ports), s.selfJoints(c)
}

func (s *searcher) selfJoints(c int) []*selfJoint {
	var joints []*selfJoint
	at := s.a.Copies[c]
	for _, j := range s.a.Joints {
		if s.a.Panels[j.A].Copy != c || s.a.Panels[j.B].Copy != c {
			continue
		}
		x := &selfJoint{a: j.A - at.FirstPanel, b: j.B - at.FirstPanel, place: j.Place}
		x.from, x.to = min(x.a, x.b), max(x.a, x.b)
		x.turn = at.Pattern.Strip && !j.Place.Flips() && len(at.Pattern.Hinges)+1 == len(at.Pattern.Panels)
		for _, h := range at.Pattern.Hinges {
			x.turn = x.turn && h.Sense != card.Either
		}
		joints = append(joints, x)
	}
	return joints
}

// must says which hinges of a copy the recipe folds in the closed card: those of a `closed folds` line, and the score
// that the card opens at.
func (s *searcher) must(c int) []int8 {
	at := s.a.Copies[c]
	must := make([]int8, len(at.Pattern.Hinges))
	if at.Pattern.Piece.ClosedFoldsSaid {
		for i, h := range at.Pattern.Hinges {
			must[i] = -1
			for _, k := range h.Scores {
				if slices.Contains(at.Pattern.Piece.ClosedFolds, k+1) {
					must[i] = 1
				}
			}
		}
	}
	if o := s.a.Card.Opening; o.Kind == card.OpensAt {
		if d, ok := s.a.FindCopy(o.Piece); ok && d == c {
			for _, h := range s.a.HingesOf(c, o.Score) {
				must[h-at.FirstHinge] = 1
			}
		}
	}
	return must
}

// tabs returns the hinges that glued tabs hang on: panels with a single hinge that are glued onto their own piece.
func (s *searcher) tabs(c int) []int {
	at := s.a.Copies[c]
	var tabs []int
	for _, j := range s.a.Joints {
		if s.a.Panels[j.A].Copy != c || s.a.Panels[j.B].Copy != c {
			continue
		}
		var on []int
		for i, h := range at.Pattern.Hinges {
			if h.Left == j.A-at.FirstPanel || h.Right == j.A-at.FirstPanel {
				on = append(on, i)
			}
		}
		if len(on) == 1 {
			tabs = append(tabs, on[0])
		}
	}
	return tabs
}

// candidates combines the groups of all copies, best first.
func (s *searcher) candidates() []*candidate {
	s.picks = make([]*option, len(s.a.Copies))
	s.chosen = make([][]*option, len(s.a.Copies))
	s.roots = make([]plane.Motion, len(s.a.Copies))
	s.combine(0, 0)
	if s.slack == 0 {
		slices.SortStableFunc(s.found, smaller)
	}
	return s.found
}

// smaller orders candidates: nearest to closing, smallest outline, smallest pieces, fewest folds, most folds at tabs.
func smaller(x, y *candidate) int {
	return cmp.Or(
		compareClose(x.miss, y.miss),
		compareClose(area(x.box), area(y.box)),
		compareClose(x.own, y.own),
		cmp.Compare(x.folds, y.folds),
		cmp.Compare(x.offTab, y.offTab))
}

// take keeps a candidate: all of those that close, the nearest of those that nearly do.
func (s *searcher) take(c *candidate) {
	if s.slack == 0 {
		s.found = append(s.found, c)
		return
	}
	if s.accept != nil && !s.accept(c) {
		return
	}
	i, _ := slices.BinarySearchFunc(s.found, c, smaller)
	s.found = slices.Insert(s.found, i, c)
	s.found = s.found[:min(len(s.found), nearMisses)]
}

// combine chooses a group for the copy at position k of the order and goes on to the next.
func (s *searcher) combine(k int, miss float64) {
	if s.leaves >= leafLimit || s.ctx.Err() != nil {
		s.stopped = true
		return
	}
	if k == len(s.order) {
		s.leaves++
		s.take(s.candidate(miss))
		return
	}
	if s.slack > 0 && len(s.found) >= nearMisses && miss > s.found[nearMisses-1].miss {
		return
	}
	c := s.order[k]
	for _, group := range s.groups[c] {
		picks := group[:1]
		if s.slack > 0 {
			picks = group
		}
		for _, o := range picks {
			s.picks[c], s.chosen[c] = o, group
			s.roots[c] = s.root(k, o)
			if m, ok := s.fits(k); ok {
				s.combine(k+1, miss+m+o.miss)
			}
		}
	}
}

// at returns where a panel lies with the options chosen so far.
func (s *searcher) at(panel int) plane.Motion {
	c := s.a.Panels[panel].Copy
	return s.picks[c].at[panel-s.a.Copies[c].FirstPanel].Then(s.roots[c])
}

// root returns where option o puts the copy at position k, so that the joint that places it closes.
func (s *searcher) root(k int, o *option) plane.Motion { return s.rootIn(s.a, k, o.at, s.at) }

// rootIn is root in an assembly of the same copies and joints: local holds where the panels of the copy lie with the first
// unmoved, at tells where a panel of the copies before it lies.
func (s *searcher) rootIn(a *pattern.Assembly, k int, local []plane.Motion, at func(panel int) plane.Motion) plane.Motion {
	if s.first[k] < 0 {
		return plane.Stay()
	}
	j := a.Joints[s.first[k]]
	c := s.order[k]
	first := a.Copies[c].FirstPanel
	if a.Panels[j.A].Copy == c {
		return local[j.A-first].Inverse().Then(j.Place.Then(at(j.B)))
	}
	return local[j.B-first].Inverse().Then(j.Place.Inverse().Then(at(j.A)))
}

// fits says whether the other joints of the copy at position k close, and by how much they miss in all.
func (s *searcher) fits(k int) (miss float64, ok bool) {
	for _, i := range s.checks[k] {
		j := s.a.Joints[i]
		dx, dy, ok := gapOf(j.Place.Then(s.at(j.B)), s.at(j.A), s.a.Panels[j.A].Panel)
		if !ok {
			return 0, false
		}
		d := math.Hypot(dx, dy)
		if d > float64(s.slack)+tolerance(s.at(j.A)) {
			return 0, false
		}
		if s.slack > 0 {
			miss += d
		}
	}
	return miss, true
}

func (s *searcher) candidate(miss float64) *candidate {
	c := &candidate{picks: slices.Clone(s.picks), groups: slices.Clone(s.chosen), roots: slices.Clone(s.roots), miss: miss}
	if s.slack == 0 {
		c.miss = 0
	}
	s.measure(c)
	return c
}

// measure works out the outline and the tie-breakers of a candidate.
func (s *searcher) measure(c *candidate) {
	c.box, c.own, c.folds, c.offTab = plane.Box{}, 0, 0, 0
	for i, o := range c.picks {
		c.own += o.own
		c.folds += o.folds
		c.offTab += o.offTab
		for p, m := range o.at {
			m = m.Then(c.roots[i])
			b := plane.BoxOf(moved(m, s.a.Copies[i].Pattern.Panels[p].Outline)...)
			if i == 0 && p == 0 {
				c.box = b
			}
			c.box = c.box.Union(b)
		}
	}
}
