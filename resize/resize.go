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
	"foldwright/recipe"
)

// Request says what a card is to be brought to.
type Request struct {
	// To is the size that the closed card must stay within.
	To card.Size
	// Marks is the pitch of the ruler, MarksUnit the unit in which it is written.
	Marks     length.Length
	MarksUnit length.Unit
	// Unit is the unit of the new recipe's bare numbers.
	Unit length.Unit
	// Serves says of a new card that lies flat, given as its recipe, whether it does all else that is wanted of it, such as
	// to open. A card that does not serve is passed over for the next nearest one. nil takes every card.
	Serves func(recipe []byte) bool
}

// Change is a measure that was changed.
type Change struct {
	// Name is wall.left, spring.height or the like.
	Name     string
	From, To length.Length
	// Scaled is the old value brought to the new size without regard to marks and conditions, in nanometres.
	Scaled float64
}

// Result is the outcome of a resizing.
type Result struct {
	Status flat.Status
	// CostMarks2 is the cost in marks².
	CostMarks2 float64
	// Proven says that no other card on these marks costs less and serves. It is false, with Status Solved, where slanted
	// scores keep their directions only nearly (see Notes), or where no card that was tried serves.
	Proven bool
	// Passed is how many nearer cards lie flat but do not serve.
	Passed  int
	Changes []Change
	// Because lists the conditions that held the card back from its scaled measures.
	Because []string
	// Released lists what was given up because nothing fitted with it.
	Released []string
	// Conflict is the smallest set of conditions that exclude each other, for Contradictory.
	Conflict []string
	// Notes are remarks on numbers that went to the nearest mark.
	Notes []string
	// Recipe and Card are the new ones; nil unless Solved (or StoppedEarly with a card that lies flat).
	Recipe *recipe.Recipe
	Card   *card.Card
	Closed *flat.Closed
	// Nodes is how many branches were looked at.
	Nodes int
}

// retries bounds how many solutions are taken back because the layers of the new card clash, or because it does not serve.
const retries = 40

// Resize brings a card that lies flat to another size. closed is its proof (see flat.Close).
//
// Errors: a request that makes no sense, or a card whose measures cannot be told apart; that no card fits is no error but
// shows in the Status.
func Resize(ctx context.Context, r *recipe.Recipe, closed *flat.Closed, q Request) (*Result, error) {
	if err := q.check(); err != nil {
		return nil, err
	}
	if !closed.LiesFlat() {
		return nil, fmt.Errorf("the card does not lie flat as it is; mend it before it is resized")
	}
	s := newSystem(closed, q.Marks)
	old := oldSize(closed)
	s.wishes(float64(q.To.W)/float64(old.W), float64(q.To.H)/float64(old.H))
	p, err := build(ctx, s, q.To)
	if ctx.Err() != nil {
		return &Result{Status: flat.StoppedEarly}, nil
	}
	if err != nil {
		if s.hasSlanted() {
			return s.rounded(ctx, r, q, &Result{Status: flat.Contradictory, Conflict: []string{err.Error()}}), nil
		}
		return nil, err
	}
	out := p.finish(ctx, r, q)
	if out.Status == flat.Contradictory && s.hasSlanted() {
		out = s.rounded(ctx, r, q, out)
	}
	return out, nil
}

func (q Request) check() error {
	switch {
	case q.To.W <= 0 || q.To.H <= 0:
		return fmt.Errorf("a size of %s by %s is no card; both must be above zero", q.To.W.Human(length.MM), q.To.H.Human(length.MM))
	case q.To.W > length.Max || q.To.H > length.Max:
		return fmt.Errorf("a card may be at most %s wide and high", length.Length(length.Max).Human(length.MM))
	case q.Marks <= 0:
		return fmt.Errorf("the marks of the ruler must be above zero")
	case q.Marks > min(q.To.W, q.To.H):
		return fmt.Errorf("marks of %s are coarser than the card of %s by %s", q.Marks.Human(q.MarksUnit), q.To.W.Human(q.Unit), q.To.H.Human(q.Unit))
	}
	return nil
}

func (q Request) serves(out *Result) bool { return q.Serves == nil || q.Serves(out.Recipe.Format()) }

// oldSize is what the new size is measured against: what the card is to fit, or its closed size.
func oldSize(c *flat.Closed) card.Size {
	if f := c.Assembly.Card.Fits; f != nil {
		return *f
	}
	return card.Size{W: c.Box.W(), H: c.Box.H()}
}

// finish searches with all conditions, then without those that may be given up, and writes the result.
func (p *conditions) finish(ctx context.Context, r *recipe.Recipe, q Request) *Result {
	all := func(int) bool { return true }
	var refused [][]int64
	var nearest *Result // of the cards that lie flat and do not serve
	var near answer
	passed := 0
	for range retries {
		a := p.solve(ctx, all, refused)
		if a.status == flat.Contradictory || a.values == nil && nearest != nil {
			break
		}
		if a.values == nil {
			return &Result{Status: a.status, Nodes: a.nodes}
		}
		if out := p.result(ctx, r, q, a, nil); out != nil {
			if q.serves(out) {
				out.Passed, out.Because = passed, p.because(ctx, a, nil)
				return out
			}
			if passed++; nearest == nil {
				nearest, near = out, a
			}
		}
		refused = append(refused, a.values)
	}
	if out := p.release(ctx, r, q); out != nil {
		return out
	}
	if nearest != nil {
		nearest.Proven, nearest.Because = false, p.because(ctx, near, nil)
		return nearest
	}
	conflict := p.conflict(ctx)
	if ctx.Err() != nil || len(refused) == retries {
		return &Result{Status: flat.StoppedEarly}
	}
	return &Result{Status: flat.Contradictory, Conflict: conflict}
}

// release gives up equal widths, as few groups of them as serve: first each alone, then all of them.
func (p *conditions) release(ctx context.Context, r *recipe.Recipe, q Request) *Result {
	var loose []int
	for g := range p.groups {
		if p.groups[g].loose {
			loose = append(loose, g)
		}
	}
	sets := [][]int{}
	for _, g := range loose {
		sets = append(sets, []int{g})
	}
	if len(loose) > 1 {
		sets = append(sets, loose)
	}
	var best *Result
	var least answer
	var without []int
	for _, set := range sets {
		if best != nil && len(set) > 1 {
			break
		}
		a := p.solve(ctx, func(g int) bool { return !slices.Contains(set, g) }, nil)
		if a.values == nil {
			continue
		}
		if out := p.result(ctx, r, q, a, set); out != nil && q.serves(out) && (best == nil || out.CostMarks2 < best.CostMarks2) {
			best, least, without = out, a, set
		}
	}
	if best != nil {
		best.Because = p.because(ctx, least, without)
	}
	return best
}

// result makes the new card and proves that it lies flat within the size; nil where it does not. Because, which takes a
// search for every condition, is left to whoever takes the card.
func (p *conditions) result(ctx context.Context, r *recipe.Recipe, q Request, a answer, released []int) *Result {
	values := lengths(a.values, q.Marks)
	c := p.s.apply(values)
	p.dress(c, q)
	out := &Result{Status: flat.Solved, Proven: a.status == flat.Solved, CostMarks2: a.cost, Card: c, Nodes: a.nodes}
	if !out.Proven {
		out.Status = flat.StoppedEarly
	}
	assembly, problems := pattern.Assemble(c)
	if assembly == nil || problems.HasErrors() {
		return nil
	}
	out.Closed = flat.Close(ctx, assembly)
	if !out.Closed.LiesFlat() || out.Closed.Box.W() > q.To.W || out.Closed.Box.H() > q.To.H {
		return nil
	}
	out.Changes = append(p.changes(a.values), p.toppers(c, q)...)
	for _, g := range released {
		out.Released = append(out.Released, p.groups[g].words)
	}
	out.Notes = p.notes
	out.Recipe = rewrite(r, p.s.card, c, q)
	return out
}

// changes lists the measures by name, those with one name once.
func (p *conditions) changes(values []int64) []Change {
	var out []Change
	seen := map[string]bool{}
	for k, m := range p.s.measures {
		name := p.name(m)
		if seen[name] {
			continue
		}
		seen[name] = true
		to := length.Length(values[k]) * p.s.marks
		out = append(out, Change{Name: name, From: m.old, To: to, Scaled: m.wish * float64(p.s.marks)})
	}
	return out
}

// toppers lists what became of the toppers, which take no part in the search: they are scaled and rounded down.
func (p *conditions) toppers(c *card.Card, q Request) []Change {
	was := oldSize(p.s.closed)
	ratio := min(float64(q.To.W)/float64(was.W), float64(q.To.H)/float64(was.H))
	var out []Change
	for i, t := range c.Toppers {
		old := p.s.card.Toppers[i]
		name := "topper on " + t.On.String()
		for _, side := range [2]struct {
			name     string
			from, to length.Length
		}{{" width", old.Size.W, t.Size.W}, {" height", old.Size.H, t.Size.H}} {
			if side.from > 0 { // a polygon has corners instead
				out = append(out, Change{Name: name + side.name, From: side.from, To: side.to, Scaled: ratio * float64(side.from)})
			}
		}
	}
	return out
}

// name calls a measure by the panel or piece that it is the width of.
func (p *conditions) name(m measure) string {
	if m.kind == shift {
		g := p.s.card.Glues[m.glue]
		way := "over"
		if m.up {
			way = "up"
		}
		return g.A.String() + " glued " + way
	}
	piece := &p.s.card.Pieces[m.piece]
	pat := p.pattern(m.piece)
	list, extent, way := p.s.grids[m.piece].across.at, "width", "across"
	if m.up {
		list, extent, way = p.s.grids[m.piece].up.at, "height", "up"
	}
	if len(list) == 2 {
		return piece.Name + "." + extent
	}
	for _, q := range pat.Panels {
		if lowOf(q.Box, m.up) != list[m.index] || highOf(q.Box, m.up) != list[m.index+1] {
			continue
		}
		switch {
		case pat.Strip && q.Name != "":
			return piece.Name + "." + q.Name
		case pat.Strip:
			return piece.Name + " " + q.Label
		case q.Name != "":
			return piece.Name + "." + q.Name + " " + extent
		}
	}
	return fmt.Sprintf("%s %s from %s to %s", piece.Name, way, p.sayOld(list[m.index]), p.sayOld(list[m.index+1]))
}

func (p *conditions) sayOld(l length.Length) string { return l.Human(p.s.card.Unit) }

// conflict finds the smallest set of groups that exclude each other: what can be left out without anything coming to fit
// is left out.
func (p *conditions) conflict(ctx context.Context) []string {
	in := make([]bool, len(p.groups))
	for g := range in {
		in[g] = !p.groups[g].loose && slices.ContainsFunc(p.lines, func(l linear) bool { return l.group == g })
	}
	contradict := func() bool {
		return p.some(ctx, func(k int) bool { return in[k] }, math.Inf(1)) == flat.Contradictory
	}
	if !contradict() {
		return []string{"measures would fit, but no card with them lies flat"}
	}
	for g := range in {
		if !in[g] || ctx.Err() != nil {
			continue
		}
		in[g] = false
		in[g] = !contradict()
	}
	var words []string
	for g, ok := range in {
		if ok {
			words = append(words, p.groups[g].words)
		}
	}
	return words
}
