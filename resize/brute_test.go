package resize

import (
	"context"
	"math"
	"sort"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/recipe"

	"pgregory.net/rapid"
)

// brute looks at every card in whole marks that could be the answer, and judges each by folding it: it shares neither
// equations nor search with the package.
type brute struct {
	s      *Sample
	mark   int // mm
	to     card.Size
	closed *flat.Closed // of the source
	wish   []float64    // per part, in marks
	// classes are sets of parts that are one number; fixed is that number in marks, 0 where it is free.
	classes [][]int
	fixed   []int
	// most is the dearest card that is of interest, in marks².
	most    float64
	largest int // no measure is larger, in marks
	looks   int // cards folded
	best    float64
	values  []int
	gaveUp  bool
}

const (
	mostLooks = 4000
	mostSteps = 2_000_000
)

func newBrute(s *Sample, closed *flat.Closed, q Request, released map[string]bool) *brute {
	b := &brute{s: s, mark: int(q.Marks / length.Millimetre), to: q.To, closed: closed, best: math.Inf(1), most: math.Inf(1)}
	ratioX := float64(q.To.W) / float64(closed.Box.W())
	ratioY := float64(q.To.H) / float64(closed.Box.H())
	for _, p := range s.Parts {
		ratio := ratioX
		if p.Up {
			ratio = ratioY
		}
		b.wish = append(b.wish, float64(p.Old)*ratio/float64(b.mark))
	}
	// Every measure lies flat somewhere in the closed card, so none is longer than it.
	b.largest = int(max(q.To.W, q.To.H) / q.Marks)
	b.tie(released)
	return b
}

// tie puts parts together that stay equal: one name, or one width in one piece and direction.
func (b *brute) tie(released map[string]bool) {
	at := map[int]int{}
	for i, p := range b.s.Parts {
		found := -1
		for k := range i {
			o := b.s.Parts[k]
			sameName := p.Name == o.Name && p.Piece == o.Piece
			sameWidth := p.Old == o.Old && p.Piece == o.Piece && !released[p.Piece]
			if p.Piece != "" && (sameName || sameWidth) {
				found = at[k]
				break
			}
		}
		if found < 0 {
			found = len(b.classes)
			b.classes, b.fixed = append(b.classes, nil), append(b.fixed, 0)
		}
		b.classes[found] = append(b.classes[found], i)
		at[i] = found
		if p.Kept > 0 {
			b.fixed[found] = max(1, int(math.Floor(float64(p.Kept)/float64(b.mark)+0.5)))
		}
	}
}

// cost is what one class costs at a value, in marks²; what a keep line decides costs nothing.
func (b *brute) cost(class, v int) float64 {
	sum := 0.0
	if b.fixed[class] > 0 {
		return 0
	}
	for _, i := range b.classes[class] {
		sum += (float64(v) - b.wish[i]) * (float64(v) - b.wish[i])
	}
	return sum
}

// run tries every combination that costs at most b.most, cheapest numbers of each class first.
func (b *brute) run() {
	steps := 0
	v := make([]int, len(b.s.Parts))
	var walk func(class int, cost float64)
	walk = func(class int, cost float64) {
		if steps++; steps > mostSteps || b.looks > mostLooks {
			b.gaveUp = true
			return
		}
		if class == len(b.classes) {
			b.look(v, cost)
			return
		}
		for _, x := range b.choices(class) {
			c := cost + b.cost(class, x)
			if c > b.most+1e-9 || c > b.best+1e-9 {
				break
			}
			for _, i := range b.classes[class] {
				v[i] = x * b.mark
			}
			walk(class+1, c)
		}
	}
	walk(0, 0)
}

func (b *brute) choices(class int) []int {
	if b.fixed[class] > 0 {
		return []int{b.fixed[class]}
	}
	least := 1
	if b.s.Parts[b.classes[class][0]].Piece == "" {
		least = 0 // a shift may vanish
	}
	var list []int
	for x := least; x <= b.largest; x++ {
		list = append(list, x)
	}
	sort.Slice(list, func(i, k int) bool { return b.cost(class, list[i]) < b.cost(class, list[k]) })
	return list
}

// look folds one card and keeps it if it is a good one, and cheaper than the best.
func (b *brute) look(v []int, cost float64) {
	if cost >= b.best || !b.s.Quick(v) || b.s.Keeps != nil && !b.s.Keeps(v) {
		return
	}
	b.looks++
	if b.good(v) {
		b.best, b.values = cost, append([]int(nil), v...)
	}
}

// good judges a card by folding it as the source is folded.
func (b *brute) good(v []int) bool {
	r, problems := recipe.Parse("", []byte(b.s.Text(v)))
	if r == nil || problems.HasErrors() {
		return false
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil || problems.HasErrors() || len(a.Hinges) != len(b.closed.Folded) {
		return false
	}
	at := flat.Lay(a, b.closed.Folded)
	for _, m := range flat.Misses(a, b.closed.Folded, at) {
		if !(math.Abs(m[0]) < 1 && math.Abs(m[1]) < 1) {
			return false
		}
	}
	if w, h := extents(a, at); w > float64(b.to.W)+1 || h > float64(b.to.H)+1 {
		return false
	}
	if !b.gluedAlike(a) {
		return false
	}
	c := flat.Close(context.Background(), a)
	return c.LiesFlat() && c.Box.W() <= b.to.W && c.Box.H() <= b.to.H
}

// extents measures the closed card by the corners of its panels.
func extents(a *pattern.Assembly, at []plane.Motion) (w, h float64) {
	low, high := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for i, p := range a.Panels {
		for _, c := range p.Outline {
			x, y := at[i].At(float64(c.X), float64(c.Y))
			low = [2]float64{min(low[0], x), min(low[1], y)}
			high = [2]float64{max(high[0], x), max(high[1], y)}
		}
	}
	return high[0] - low[0], high[1] - low[1]
}

// gluedAlike says whether glued panels that were equally wide or high are so, and what lay within its panel on a side
// still does. No joint of a sample is turned by a quarter.
func (b *brute) gluedAlike(a *pattern.Assembly) bool {
	for i, j := range a.Joints {
		o := b.closed.Assembly.Joints[i]
		was, is := b.closed.Assembly.Panels, a.Panels
		if was[o.A].Box.W() == was[o.B].Box.W() && is[j.A].Box.W() != is[j.B].Box.W() ||
			was[o.A].Box.H() == was[o.B].Box.H() && is[j.A].Box.H() != is[j.B].Box.H() {
			return false
		}
		before, after := spare(o, was), spare(j, is)
		for k := range before {
			if before[k] > -1 && after[k] < -1 {
				return false
			}
		}
	}
	return true
}

// spare is how far panel A stays inside panel B on each side, in nanometres.
func spare(j pattern.Joint, panels []pattern.AtPanel) [4]float64 {
	box := panels[j.B].Box
	out := [4]float64{math.Inf(1), math.Inf(1), math.Inf(1), math.Inf(1)}
	for _, c := range plane.Rectangle(panels[j.A].Box) {
		x, y := j.Place.At(float64(c.X), float64(c.Y))
		out[0], out[1] = min(out[0], x-float64(box.Min.X)), min(out[1], float64(box.Max.X)-x)
		out[2], out[3] = min(out[2], y-float64(box.Min.Y)), min(out[3], float64(box.Max.Y)-y)
	}
	return out
}

// TestBrute compares the cost of Resize with that of the best of all cards.
func TestBrute(t *testing.T) {
	for _, shape := range shapes {
		t.Run(shape.name, func(t *testing.T) {
			seen := map[string]int{}
			rapid.Check(t, func(t *rapid.T) { bruteOnce(t, shape.draw(t), seen) })
			t.Logf("%v", seen)
			if seen["solved"] == 0 && !testing.Short() {
				t.Error("none was compared")
			}
		})
	}
}

func bruteOnce(t *rapid.T, s *Sample, seen map[string]int) {
	r, closed := Shut(t, s.Text(s.Old()))
	if !closed.LiesFlat() {
		t.Fatalf("this %s does not lie flat:\n%s", s.Kind, s.Text(s.Old()))
	}
	q := drawRequest(t, closed)
	got, err := Resize(context.Background(), r, closed, q)
	if err != nil {
		if q.Marks <= min(q.To.W, q.To.H) {
			t.Fatalf("%v\n%s", err, s.Text(s.Old()))
		}
		return
	}
	b := bestOf(s, closed, q, got)
	if b == nil {
		seen["too many to try"]++
		return
	}
	how := got.Status.String()
	if len(got.Released) > 0 {
		how = "given up"
	}
	seen[how]++
	compareBest(t, s, q, got, b)
}

// drawRequest draws a size between a third and one and a half of the card, on marks of 1 to 3 mm.
func drawRequest(t *rapid.T, closed *flat.Closed) Request {
	w, h := int(closed.Box.W()/length.Millimetre), int(closed.Box.H()/length.Millimetre)
	return Millimetres(mm(t, "to width", max(1, w/3), w*3/2), mm(t, "to height", max(1, h/3), h*3/2), mm(t, "marks", 1, 3))
}

// bestOf finds the best card with all ties, or else without those of one piece and direction, or else without any.
func bestOf(s *Sample, closed *flat.Closed, q Request, got *Result) *brute {
	try := func(released map[string]bool) *brute {
		b := newBrute(s, closed, q, released)
		// A card that is better than the answer lies within its cost.
		if got.Status == flat.Solved && (len(got.Released) > 0) == (len(released) > 0) {
			b.most = got.CostMarks2 + 1e-6
		}
		b.run()
		return b
	}
	b := try(nil)
	if b.gaveUp {
		return nil
	}
	if !math.IsInf(b.best, 1) || got.Status == flat.Solved && len(got.Released) == 0 {
		return b
	}
	all, best := map[string]bool{}, b
	for _, p := range s.Parts {
		if p.Piece == "" || all[p.Piece] {
			continue
		}
		all[p.Piece] = true
		one := try(map[string]bool{p.Piece: true})
		if one.gaveUp {
			return nil
		}
		if one.best < best.best {
			best = one
		}
	}
	if math.IsInf(best.best, 1) {
		if best = try(all); best.gaveUp {
			return nil
		}
	}
	return best
}

func compareBest(t *rapid.T, s *Sample, q Request, got *Result, b *brute) {
	show := func() string {
		text := s.Text(s.Old())
		if got.Recipe != nil {
			text += "\n# resized:\n" + string(got.Recipe.Format())
		}
		if b.values != nil {
			text += "\n# the best of all:\n" + s.Text(b.values)
		}
		return text + strings.Join(got.Conflict, "\n")
	}
	switch {
	case got.Status == flat.Contradictory && !math.IsInf(b.best, 1):
		t.Fatalf("%s to %v on %v: nothing fits, but a card of cost %.9g does\n%s", s.Kind, q.To, q.Marks, b.best, show())
	case got.Status == flat.Solved && math.Abs(got.CostMarks2-b.best) > 1e-6*(1+b.best):
		t.Fatalf("%s to %v on %v: cost %.9g (given up: %v), the best of all cards costs %.9g\n%s", s.Kind, q.To, q.Marks, got.CostMarks2, got.Released, b.best, show())
	case got.Status == flat.StoppedEarly:
		t.Fatalf("%s to %v: stopped after %d nodes", s.Kind, q.To, got.Nodes)
	}
}
