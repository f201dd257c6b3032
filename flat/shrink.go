package flat

import (
	"cmp"
	"context"
	"math"
	"slices"

	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Shrink looks for single measurements by which a card that lies flat, but too large, comes within a width and a height,
// toppers counted. Each cure was proven; the smallest change comes first.
func (c *Closed) Shrink(ctx context.Context, width, height length.Length) []Cure {
	if c.search == nil {
		return nil
	}
	s := *c.search
	s.ctx = ctx
	outline := c.Outline()
	need := [2]float64{float64(max(0, outline.W()-width)), float64(max(0, outline.H()-height))}
	before := boxAt(s.a, s.relay(s.a, c.Folded))
	var found []Cure
	for _, t := range s.trials() {
		at := s.relay(t.changed, c.Folded)
		if !closes(Misses(t.changed, c.Folded, at)) {
			continue
		}
		after := boxAt(t.changed, at)
		if d, ok := shrinkingStep(need, before, after); ok {
			cure := t.cure
			cure.To = onMarkBeyond(cure.From+d, d, s.a.Card.Marks)
			found = append(found, cure)
		}
	}
	slices.SortStableFunc(found, func(x, y Cure) int {
		return cmp.Or(cmp.Compare(x.Change().Abs(), y.Change().Abs()), cmp.Compare(x.Kind, y.Kind))
	})
	var kept []Cure
	for i, cure := range found {
		if len(kept) == cureMost || i == cureTries || ctx.Err() != nil {
			break
		}
		if closed := s.closing(cure.Apply(s.a.Card)); closed != nil {
			if o := closed.Outline(); o.W() <= width && o.H() <= height {
				kept = append(kept, cure)
			}
		}
	}
	return kept
}

func boxAt(a *pattern.Assembly, at []plane.Motion) plane.Box {
	b := plane.BoxOf(moved(at[0], a.Panels[0].Outline)...)
	for i, p := range a.Panels {
		b = b.Union(plane.BoxOf(moved(at[i], p.Outline)...))
	}
	return b
}

func closes(misses [][2]float64) bool {
	return !slices.ContainsFunc(misses, func(v [2]float64) bool { return !(math.Hypot(v[0], v[1]) <= slanted) })
}

// shrinkingStep returns the change that takes off what is needed both ways, given the boxes before and after one trial step.
func shrinkingStep(need [2]float64, before, after plane.Box) (d length.Length, ok bool) {
	slopes := [2]float64{float64(after.W()-before.W()) / float64(trialStep), float64(after.H()-before.H()) / float64(trialStep)}
	step := 0.0
	for k := range 2 {
		if need[k] == 0 {
			continue
		}
		if slopes[k] == 0 {
			return 0, false
		}
		by := -need[k] / slopes[k]
		if step != 0 && (by > 0) != (step > 0) {
			return 0, false
		}
		if math.Abs(by) > math.Abs(step) {
			step = by
		}
	}
	return nearest(step), step != 0
}

// onMarkBeyond puts a length on a mark, in the direction of the change that led to it.
func onMarkBeyond(l, change, marks length.Length) length.Length {
	near, rest := l.Snap(marks)
	switch {
	case rest == 0:
		return l
	case change > 0 && rest > 0:
		return near + marks
	case change < 0 && rest < 0:
		return near - marks
	}
	return near
}
