package resize

import (
	"context"
	"math"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
)

// rounded is the way for slanted scores whose directions no marks keep: the whole card is scaled, slanted pieces by the
// smaller ratio, and every coordinate goes to the nearest mark. Angles then hold only nearly. If the card lies flat all
// the same it is the answer, though nothing says that it is the nearest; if not, the notes say by how much it misses.
func (s *system) rounded(ctx context.Context, r *recipe.Recipe, q Request, found *Result) *Result {
	values := s.roundedValues()
	c := s.apply(values)
	p := &conditions{s: s}
	p.dress(c, q)
	a, problems := pattern.Assemble(c)
	if a == nil || problems.HasErrors() {
		return found
	}
	closed := flat.Close(ctx, a)
	p.note("no marks of %s keep the directions of the slanted scores, so their ends went to the nearest marks", p.say(s.marks))
	if closed.LiesFlat() && closed.Box.W() <= q.To.W && closed.Box.H() <= q.To.H {
		marks := make([]int64, len(values))
		for i, v := range values {
			marks[i] = int64(v / s.marks)
		}
		return &Result{
			Status: flat.Solved, Card: c, Closed: closed, Changes: append(p.changes(marks), p.toppers(c, q)...), CostMarks2: s.cost(marks),
			Notes: p.notes, Recipe: rewrite(r, s.card, c, q),
		}
	}
	if closed.LiesFlat() {
		p.note("closed it would then be %s wide and %s high", p.say(closed.Box.W()), p.say(closed.Box.H()))
	} else if miss := flat.Explain(ctx, a); len(miss.Gaps) > 0 {
		g := miss.Gaps[0]
		p.note("%s would then miss by %s across and %s up: finer marks come nearer", g.Name, g.DX.Abs().Human(length.MM), g.DY.Abs().Human(length.MM))
	} else {
		p.note("the card would then not lie flat; finer marks come nearer")
	}
	found.Notes = append(found.Notes, p.notes...)
	return found
}

// hasSlanted says whether any piece has slanted scores.
func (s *system) hasSlanted() bool {
	for _, g := range s.grids {
		if g.slanted {
			return true
		}
	}
	return false
}

// roundedValues scales all measures by themselves to the nearest mark; in slanted pieces it is the coordinates that are
// rounded, so that what is parallel stays nearly so.
func (s *system) roundedValues() []length.Length {
	values := make([]length.Length, len(s.measures))
	for k, m := range s.measures {
		values[k] = max(length.Length(math.Round(m.wish)), 1) * s.marks
		if m.kind == shift {
			values[k] = length.Length(math.Round(m.wish)) * s.marks
		}
	}
	for _, g := range s.grids {
		if !g.slanted {
			continue
		}
		for _, c := range g.ways() {
			at, last := 0.0, length.Length(0)
			for k := c.first; k < c.first+len(c.at)-1; k++ {
				at += s.measures[k].wish
				next := length.Length(math.Round(at)) * s.marks
				values[k] = next - last
				last = next
			}
		}
	}
	return values
}

// cost is the square of how far the measures are from their wishes, in marks².
func (s *system) cost(values []int64) float64 {
	sum := 0.0
	for k, m := range s.measures {
		d := float64(values[k]) - m.wish
		sum += d * d
	}
	return sum
}
