package trim

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"foldwright/length"
)

// paper is one piece of paper on the table.
type paper struct{ w, h length.Length }

// workTable is what lies around a trimmer. It follows steps with pieces of paper and knows nothing of trees.
type workTable struct {
	t      rapid.TB
	job    Job
	piles  map[string][]paper // strips, by name
	sheets map[int][]paper    // by layout
	parts  []int
	rests  map[paper]int
	fence  length.Length
	moves  int
}

func (w *workTable) pile(s Step) []paper {
	if s.Take.Kind == Sheets {
		return w.sheets[s.Layout]
	}
	return w.piles[s.Take.Name]
}

func (w *workTable) put(s Step, left []paper) {
	if s.Take.Kind == Sheets {
		w.sheets[s.Layout] = left
	} else {
		w.piles[s.Take.Name] = left
	}
}

// do does one step.
func (w *workTable) do(n int, s Step) {
	take := w.pile(s)
	if len(take) != s.Take.Count || len(take) == 0 || s.Each < 1 || s.Layers < 1 {
		w.t.Fatalf("step %d takes %d pieces, %d lie there: %+v", n, s.Take.Count, len(take), s)
	}
	if s.Moved != (n == 0 || s.Fence != w.fence) {
		w.t.Fatalf("step %d: moved %v from %v to %v", n, s.Moved, w.fence, s.Fence)
	}
	if s.Moved {
		w.moves++
	}
	w.fence = s.Fence
	loose := map[paper]int{}
	var left []paper
	for _, p := range take {
		if (p != paper{s.Take.W, s.Take.H}) {
			w.t.Fatalf("step %d takes %v by %v, there lies %v", n, s.Take.W, s.Take.H, p)
		}
		for range s.Each {
			at, behind := p, p
			if s.Way == AtX {
				at.w, behind.w = s.Fence, p.w-s.Fence-w.job.Trimmer.Blade
			} else {
				at.h, behind.h = s.Fence, p.h-s.Fence-w.job.Trimmer.Blade
			}
			if s.Square {
				behind = paper{p.w - at.w, p.h}
				if s.Way == AtY {
					behind = paper{p.w, p.h - at.h}
				}
				at, behind = behind, at
			}
			loose[at]++
			p = behind
		}
		if s.Left.Count > 0 {
			left = append(left, p)
		} else if p.w > 0 && p.h > 0 {
			loose[p]++
		}
	}
	for _, p := range left {
		if (p != paper{s.Left.W, s.Left.H}) || s.Left.Name != s.Take.Name || s.Left.Count != len(left) {
			w.t.Fatalf("step %d leaves %v: %+v", n, p, s.Left)
		}
	}
	w.put(s, left)
	w.sort(n, s, loose)
}

// sort lays what came out where the step says.
func (w *workTable) sort(n int, s Step, loose map[paper]int) {
	for _, o := range s.Out {
		p := paper{o.W, o.H}
		if loose[p] -= o.Count; loose[p] < 0 || o.Count < 1 {
			w.t.Fatalf("step %d: %d of %v too few come out", n, -loose[p], p)
		}
		switch o.Kind {
		case Finished:
			pw, ph := w.job.Parts[o.Number].lying(o.Turned)
			if (p != paper{pw, ph}) {
				w.t.Fatalf("step %d: part %d is %v", n, o.Number, p)
			}
			w.parts[o.Number] += o.Count
		case Strips:
			for range o.Count {
				w.piles[o.Name] = append(w.piles[o.Name], p)
			}
		case Leftover:
			w.rests[p] += o.Count
		default:
			w.t.Fatalf("step %d: sheets come out", n)
		}
	}
	for p, n := range loose {
		if n != 0 {
			w.t.Fatalf("%d of %v are forgotten", n, p)
		}
	}
}

// follow does all the steps and compares what lies there with the audit. It returns how often the fence was moved.
func follow(t rapid.TB, j Job, p Plan, steps []Step) (moves int) {
	t.Helper()
	a, l := Audit(j, p)
	if len(l) != 0 {
		t.Fatalf("the plan is not right: %v", l)
	}
	w := &workTable{t: t, job: j, piles: map[string][]paper{}, sheets: map[int][]paper{}, parts: make([]int, len(j.Parts)), rests: map[paper]int{}}
	rests := map[paper]int{}
	for i, l := range p.Layouts {
		s := j.Sheets[l.Sheet]
		w.sheets[i] = slices.Repeat([]paper{{s.W, s.H}}, l.Times)
		if !l.Root.cuts() && s.Edge == 0 { // a sheet that is used whole
			w.sheets[i] = nil
			if l.Root != nil && l.Root.Kind == IsPart {
				w.parts[l.Root.Part] += l.Times
			} else {
				w.rests[paper{s.W, s.H}] += l.Times
			}
		}
		if s.Edge > 0 {
			rests[paper{s.Edge, s.H}] += 2 * l.Times
			rests[paper{s.W - 2*s.Edge, s.Edge}] += 2 * l.Times
		}
	}
	strokes := 0
	for n, s := range steps {
		w.do(n, s)
		strokes += s.Take.Count * s.Each
	}
	for _, o := range a.Offcuts {
		rests[paper{o.W, o.H}] += p.Layouts[o.Layout].Times
	}
	if !slices.Equal(w.parts, a.Made) || strokes != a.Cuts {
		t.Fatalf("parts %v, wanted %v; %d cuts, counted %d", w.parts, a.Made, strokes, a.Cuts)
	}
	if len(rests) != len(w.rests) {
		t.Fatalf("left over are %v, counted %v", w.rests, rests)
	}
	for p, n := range rests {
		if w.rests[p] != n {
			t.Fatalf("left over are %v, counted %v", w.rests, rests)
		}
	}
	for name, pile := range w.piles {
		if len(pile) > 0 {
			t.Fatalf("%d of %s are not cut up", len(pile), name)
		}
	}
	for i, pile := range w.sheets {
		if len(pile) > 0 {
			t.Fatalf("%d sheets of layout %d are not cut up", len(pile), i)
		}
	}
	return w.moves
}

// TestSteps. Property 10: who follows the steps of any plan with paper has exactly its parts and its off-cuts, whatever the
// edges and the dust. Every place of the fence is met at least once.
func TestSteps(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := Job{Sheets: []Sheet{{W: 9 * mm, H: 7 * mm, Quantity: Unlimited}, {W: 5 * mm, H: 8 * mm, Quantity: Unlimited}}}
		var p Plan
		for range rapid.IntRange(1, 4).Draw(t, "layouts") {
			k := rapid.IntRange(0, 1).Draw(t, "sheet")
			p.Layouts = append(p.Layouts, Layout{k, rapid.IntRange(1, 3).Draw(t, "times"), drawTree(t, j.Sheets[k].W, j.Sheets[k].H, 5, &j.Parts)})
		}
		if dust := mm / 4 * length.Length(rapid.IntRange(0, 1).Draw(t, "dust")); dust > 0 { // the same trees, dust between
			j.Trimmer.Blade = dust
			for i := range j.Sheets {
				j.Sheets[i].W, j.Sheets[i].H = j.Sheets[i].W-dust, j.Sheets[i].H-dust
			}
			for i := range j.Parts {
				j.Parts[i].W, j.Parts[i].H = j.Parts[i].W-dust, j.Parts[i].H-dust
			}
			p = j.real(p)
		}
		if edge := mm * length.Length(rapid.IntRange(0, 1).Draw(t, "edge")); edge > 0 {
			for i := range j.Sheets {
				j.Sheets[i].Edge, j.Sheets[i].W, j.Sheets[i].H = edge, j.Sheets[i].W+2*edge, j.Sheets[i].H+2*edge
			}
		}
		for _, apart := range []bool{false, true} {
			steps := Steps(j, p, apart)
			a, _ := Audit(j, p)
			if moves := follow(t, j, p, steps); moves < a.Fences {
				t.Fatalf("property 10: %d moves, %d places of the fence", moves, a.Fences)
			}
			for i, s := range steps {
				if apart && i > 0 && s.Layout != steps[i-1].Layout && slices.ContainsFunc(steps[i:], func(o Step) bool { return o.Layout == steps[i-1].Layout }) {
					t.Fatalf("property 10: layout %d is taken up again", steps[i-1].Layout)
				}
			}
		}
	})
}

// TestSteps_order: two layouts share the fence at 40 mm, so that it is moved there once.
func TestSteps_order(t *testing.T) {
	j := harbour()
	j.Caliper, j.Trimmer.Stack = mm/4, mm/2
	p := Plan{[]Layout{
		{0, 3, x(40, part(0, false), x(50, y(20, part(1, true), nil), nil))},
		{0, 1, x(40, part(0, false), x(40, part(0, false), y(50, part(1, false), nil)))},
	}}
	j.Sheets[0].Quantity = 4
	steps := Steps(j, p, false)
	if moves := follow(t, j, p, steps); moves != 3 {
		t.Errorf("the fence is moved %d times for 3 places", moves)
	}
	if moves := follow(t, j, p, Steps(j, p, true)); moves != 5 {
		t.Errorf("layout by layout the fence is moved %d times, wanted 5", moves)
	}
	first := steps[0]
	if first.Fence != 40*mm || first.Layers != 2 || first.Stacks() != 2 || first.Strokes() != 2 || !first.Moved || first.Turned {
		t.Errorf("got %+v", first)
	}
	pace := Pace{Fence: 60, Stack: 10, Stroke: 1}
	if got := pace.Time(steps[:1]); got != 82 {
		t.Errorf("the first step takes %v", got)
	}
}

func TestStep_Words(t *testing.T) {
	j := harbour()
	j.Caliper, j.Trimmer.Stack, j.Sheets[0].Edge = mm/4, mm/2, 2*mm
	j.Sheets[0].W, j.Sheets[0].H = 104*mm, 64*mm
	p := Plan{[]Layout{{0, 2, x(40, part(0, false), x(50, y(20, part(1, true), nil), nil))}}}
	want := []string{
		"fence to 102 mm; 2 × sheet blue of 104 mm by 64 mm, the edge of 64 mm at the fence, 2 at once: cut off the edge behind the blade, to have it square; then turn it half round",
		"fence to 100 mm; 2 × sheet blue of 102 mm by 64 mm, the edge of 64 mm at the fence, 2 at once: cut off the edge behind the blade, to have it square; then turn it half round",
		"fence to 62 mm; 2 × sheet blue of 100 mm by 64 mm, turned, the edge of 100 mm at the fence, 2 at once: cut off the edge behind the blade, to have it square; then turn it half round",
		"fence to 60 mm; 2 × sheet blue of 100 mm by 62 mm, the edge of 100 mm at the fence, 2 at once: cut off the edge behind the blade, to have it square; then turn it half round",
		"fence to 40 mm; 2 × sheet blue of 100 mm by 60 mm, turned, the edge of 60 mm at the fence, 2 at once: cut 1 strip off each; that makes 2 × part gull; 60 mm by 60 mm stay to be cut again",
		"fence to 50 mm; 2 × sheet blue of 60 mm by 60 mm, the edge of 60 mm at the fence, 2 at once: cut 1 strip off each; that makes 2 × strip A of 50 mm by 60 mm, 2 × off-cut of 10 mm by 60 mm",
		"fence to 20 mm; 2 × strip A of 50 mm by 60 mm, turned, the edge of 50 mm at the fence, 2 at once: cut 1 strip off each; that makes 2 × part wave, 2 × off-cut of 50 mm by 40 mm",
	}
	steps := Steps(j, p, false)
	follow(t, j, p, steps)
	for i, s := range steps {
		if i >= len(want) || s.Words(j, length.MM) != want[i] {
			t.Errorf("step %d: got %s", i, s.Words(j, length.MM))
		}
	}
	if len(steps) != len(want) {
		t.Errorf("%d steps, wanted %d", len(steps), len(want))
	}
}
