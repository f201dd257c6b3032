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

// option is one way to fold one copy shut.
type option struct {
	folded []bool
	// at holds where the panels of the copy lie, its first panel unmoved.
	at []plane.Motion
	// own is the area of the folded copy's own box in nm², folds how many scores are folded shut, offTab how many glued
	// tabs do not fold at their score, miss the sum of the gaps of its own loops in nanometres.
	own    float64
	folds  int
	offTab int
	miss   float64
	weight float64
}

// weigh sets the first criterion of an option: nothing where all loops close, else the own outline made larger by how far
// it misses, so that both what nearly closes and what folds up small are kept.
func (o *option) weigh(slack length.Length) {
	o.weight = 0
	if slack > 0 {
		o.weight = o.own * (1 + o.miss/float64(slack))
	}
}

// better orders options: smaller weight, smaller own outline, fewer folds, more folds at tabs, then the way that is straight at the
// earlier scores.
func better(a, b *option) int {
	return cmp.Or(
		compareClose(a.weight, b.weight),
		compareClose(a.own, b.own),
		cmp.Compare(a.folds, b.folds),
		cmp.Compare(a.offTab, b.offTab),
		slices.CompareFunc(a.folded, b.folded, compareBool))
}

// compareClose compares two measures that may differ by rounding only.
func compareClose(a, b float64) int {
	if math.Abs(a-b) <= 1e-9*(math.Abs(a)+math.Abs(b)) {
		return 0
	}
	return cmp.Compare(a, b)
}

// step is one thing to do while a copy is folded panel by panel: put panel To beside From over a hinge, or, once both
// lie, see whether a hinge or a joint that closes a loop does so.
type step struct {
	hinge    int // index in the pattern, -1 for a joint
	from, to int // panels of the pattern
	closes   bool
	joint    *selfJoint
}

// selfJoint is a joint between two panels of one copy, as pattern indices.
type selfJoint struct {
	a, b  int
	place plane.Motion
	// turn is set for strips whose senses are all known: the folded mountains less the folded valleys on the way from b
	// to a must be ±2, since the strip goes once round.
	turn     bool
	from, to int // hinges from..to-1 lie between the panels
}

// folder enumerates the options of one copy.
type folder struct {
	ctx    context.Context
	p      *pattern.Pattern
	steps  []step
	mirror []plane.Motion // per hinge
	// must holds, per hinge, +1 folded, -1 straight, 0 free.
	must []int8
	tabs []int // hinges at glued tabs
	// slack is how far a loop may miss, 0 for an exact search.
	slack length.Length
	// most is how many options are kept per group of equal ports.
	most  int
	ports []int
	// work left, in steps
	budget  int
	stopped bool
	// dropped says that options were left out for others that fold up smaller; fewest keeps, per group, the one with the
	// fewest folds all the same, for it is the likeliest to have a layer order.
	dropped bool
	fewest  map[string]*option

	folded []bool
	at     []plane.Motion
	boxes  []plane.Box // box of the panels placed so far, per depth
	miss   float64
	found  map[string][]*option
	order  []string
}

// stepBudget bounds the work on one copy; a spring of ten scores takes about 2000 steps.
const stepBudget = 400_000

func newFolder(ctx context.Context, p *pattern.Pattern, ports []int, joints []*selfJoint, must []int8, tabs []int) *folder {
	f := &folder{
		ctx: ctx, p: p, ports: ports, must: must, tabs: tabs, most: 48, budget: stepBudget,
		folded: make([]bool, len(p.Hinges)), at: make([]plane.Motion, len(p.Panels)), found: map[string][]*option{}, fewest: map[string]*option{},
	}
	for _, h := range p.Hinges {
		f.mirror = append(f.mirror, plane.Mirror(h.From, h.To))
	}
	f.plan(joints)
	return f
}

// plan lists the steps: panels in the order in which hinges reach them, every loop as soon as it can be judged.
func (f *folder) plan(joints []*selfJoint) {
	placed := make([]bool, len(f.p.Panels))
	used := make([]bool, len(f.p.Hinges))
	judged := make([]bool, len(joints))
	placed[0] = true
	for {
		for i, h := range f.p.Hinges {
			if !used[i] && placed[h.Left] && placed[h.Right] {
				used[i] = true
				f.steps = append(f.steps, step{hinge: i, from: h.Left, to: h.Right, closes: true})
			}
		}
		for i, j := range joints {
			if !judged[i] && placed[j.a] && placed[j.b] {
				judged[i] = true
				f.steps = append(f.steps, step{hinge: -1, from: j.b, to: j.a, closes: true, joint: j})
			}
		}
		next := slices.IndexFunc(f.p.Hinges, func(h pattern.Hinge) bool { return placed[h.Left] != placed[h.Right] })
		if next < 0 {
			return
		}
		h := f.p.Hinges[next]
		s := step{hinge: next, from: h.Left, to: h.Right}
		if placed[h.Right] {
			s.from, s.to = h.Right, h.Left
		}
		placed[s.to], used[next] = true, true
		f.steps = append(f.steps, s)
	}
}

// run enumerates the options, at first those of small outline.
func (f *folder) run() {
	f.at[0] = plane.Stay()
	f.boxes = make([]plane.Box, len(f.steps)+1)
	f.boxes[0] = plane.BoxOf(f.p.Panels[0].Outline...)
	f.miss = 0
	f.walk(0)
	if f.dropped {
		f.walkStraight()
	}
	for _, key := range f.order {
		if o := f.fewest[key]; !slices.ContainsFunc(f.found[key], func(p *option) bool { return slices.Equal(p.folded, o.folded) }) {
			f.found[key] = append(f.found[key], o)
		}
	}
}

// walkStraight looks besides at the way that leaves straight whatever may be left so: large, but seldom without an order.
func (f *folder) walkStraight() {
	free := f.must
	f.must = slices.Clone(free)
	for i, m := range f.must {
		if m == 0 {
			f.must[i] = -1
		}
	}
	most := f.most
	f.most = math.MaxInt // nothing is hopeless now
	f.walk(0)
	f.must, f.most = free, most
}

func (f *folder) walk(k int) {
	f.budget--
	if f.stopped = f.stopped || f.budget < 0 || f.budget%4096 == 0 && f.ctx.Err() != nil; f.stopped {
		return
	}
	if k == len(f.steps) {
		f.keep(k)
		return
	}
	s := f.steps[k]
	switch {
	case s.joint != nil:
		f.judgeJoint(k, s)
	case s.closes:
		f.judgeHinge(k, s)
	default:
		if f.must[s.hinge] >= 0 {
			f.place(k, s, true)
		}
		if f.must[s.hinge] <= 0 {
			f.place(k, s, false)
		}
	}
}

// place lays panel s.to beside s.from, folded over or straight.
func (f *folder) place(k int, s step, shut bool) {
	m := f.at[s.from]
	if shut {
		m = f.mirror[s.hinge].Then(m)
	}
	f.at[s.to], f.folded[s.hinge] = m, shut
	f.boxes[k+1] = f.boxes[k].Union(plane.BoxOf(moved(m, f.p.Panels[s.to].Outline)...))
	if f.hopeless(f.boxes[k+1]) {
		f.dropped = true
		return
	}
	f.walk(k + 1)
}

// hopeless says that enough options are kept whose outlines are no larger than this part of one already is. It applies
// to copies with a single group of options only; with several, a large outline may be the only one that fits the rest.
func (f *folder) hopeless(b plane.Box) bool {
	if len(f.ports) > 1 || len(f.order) == 0 {
		return false
	}
	kept := f.found[f.order[0]]
	return len(kept) >= f.most && area(b) >= kept[len(kept)-1].own && f.slack == 0
}

func area(b plane.Box) float64 { return float64(b.W()) * float64(b.H()) }

// judgeHinge goes on if the two panels beside a hinge, both placed, lie as that hinge allows, or nearly so where there is
// slack.
func (f *folder) judgeHinge(k int, s step) {
	f.boxes[k+1] = f.boxes[k]
	before := f.miss
	for _, shut := range [2]bool{true, false} {
		want := f.at[s.from]
		if shut {
			want = f.mirror[s.hinge].Then(want)
		}
		if must := f.must[s.hinge]; (must < 0 && shut) || (must > 0 && !shut) {
			continue
		}
		dx, dy, ok := gapOf(want, f.at[s.to], &f.p.Panels[s.to])
		miss := math.Hypot(dx, dy)
		if !ok || miss > float64(f.slack)+max(tolerance(want), tolerance(f.at[s.to])) {
			continue
		}
		f.folded[s.hinge] = shut
		if f.slack > 0 {
			f.miss = before + miss
		}
		f.walk(k + 1)
		f.miss = before
		return
	}
}

// judgeJoint goes on if a joint within the copy closes, or nearly does where there is slack.
func (f *folder) judgeJoint(k int, s step) {
	f.boxes[k+1] = f.boxes[k]
	j := s.joint
	if j.turn && !f.goesRoundOnce(j) {
		return
	}
	dx, dy, ok := gapOf(j.place.Then(f.at[j.b]), f.at[j.a], &f.p.Panels[j.a])
	if !ok {
		return
	}
	miss := math.Hypot(dx, dy)
	if miss > float64(f.slack)+tolerance(f.at[j.a]) {
		return
	}
	before := f.miss
	f.miss += miss
	f.walk(k + 1)
	f.miss = before
}

func (f *folder) goesRoundOnce(j *selfJoint) bool {
	turns := 0
	for h := j.from; h < j.to; h++ {
		if !f.folded[h] {
			continue
		}
		if f.p.Hinges[h].Sense == card.Mountain {
			turns++
		} else {
			turns--
		}
	}
	return turns == 2 || turns == -2
}

// keep stores the option that has just been completed, if it is among the best of its group.
func (f *folder) keep(k int) {
	o := &option{own: area(f.boxes[k]), miss: f.miss}
	for _, b := range f.folded {
		if b {
			o.folds++
		}
	}
	for _, t := range f.tabs {
		if !f.folded[t] {
			o.offTab++
		}
	}
	key := f.key()
	list, known := f.found[key]
	if !known {
		f.order = append(f.order, key)
	}
	o.weigh(f.slack)
	few := f.fewest[key] == nil || o.folds < f.fewest[key].folds
	full := len(list) >= f.most
	if full {
		f.dropped = true
		last := list[len(list)-1]
		if compareClose(o.weight, last.weight) >= 0 && compareClose(o.own, last.own) >= 0 && !few {
			return
		}
	}
	o.folded, o.at = slices.Clone(f.folded), slices.Clone(f.at)
	if few {
		f.fewest[key] = o
	}
	i, _ := slices.BinarySearchFunc(list, o, better)
	list = slices.Insert(list, i, o)
	f.found[key] = list[:min(len(list), f.most)]
}

// key tells groups apart: where the ports lie, seen from the first of them.
func (f *folder) key() string {
	if len(f.ports) < 2 || f.slack > 0 {
		return "" // near misses are kept apart only by how far they miss; one group will do
	}
	var b []byte
	back := f.at[f.ports[0]].Inverse()
	for _, p := range f.ports[1:] {
		m := f.at[p].Then(back)
		for _, v := range [6]float64{m.XX * 1e6, m.XY * 1e6, m.YX * 1e6, m.YY * 1e6, m.TX / 16, m.TY / 16} {
			n := int64(math.Round(v))
			for range 8 {
				b = append(b, byte(n))
				n >>= 8
			}
		}
	}
	return string(b)
}
