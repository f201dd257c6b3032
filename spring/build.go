package spring

import (
	"context"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/pattern"
	"foldwright/problem"
)

// Build folds a card shut and makes it springy.
//
// Problems: those of [pattern.Assemble] that are errors; spring-flat (the card does not lie flat, so that there is no
// closed card to start from) and those of [Model.Check].
func Build(ctx context.Context, c *card.Card, a *Assumptions) (*Model, problem.List) {
	assembly, problems := pattern.Assemble(c)
	if assembly == nil {
		return nil, problems
	}
	closed := flat.Close(ctx, assembly)
	if !closed.LiesFlat() {
		return nil, problem.List{{Rule: "spring-flat", Where: c.Where, What: "the card does not lie flat, so it cannot be opened from there", Needs: "a card that lies flat: prove it first"}}
	}
	s := New(fold.New(closed), a)
	if problems := s.Check(); problems.HasErrors() {
		return nil, problems
	}
	return s, nil
}

// Bounds within which a stiffness is believed: from tissue to grey board.
const (
	leastBending, mostBending = 1e-3, 1e4 // mN·m
	leastPerLength, mostPer   = 1e-4, 100 // N/rad
)

// Check says what is wrong with the numbers that the card's springs would be worked out with.
//
// Problems: spring-stiffness (a stiffness that is nought, below it, no number, or beyond what any card has), spring-angle (a
// remembered angle that is no fold angle), spring-none (a warning: the card has no folds at all).
func (s *Model) Check() problem.List {
	var problems problem.List
	wrong := func(rule string, where problem.Place, what, needs string) {
		problems.Add(problem.Problem{Rule: rule, Where: where, What: what, Needs: needs})
	}
	stiff := func(n card.Number, what string, least, most float64, unit string) {
		if n.Given && !(n.Value >= least && n.Value <= most) { // written so that NaN is refused
			wrong("spring-stiffness", n.Where, fmt.Sprintf("the %s is %g %s", what, n.Value, unit), fmt.Sprintf("from %g to %g %s; leave it out where nobody measured it", least, most, unit))
		}
	}
	angle := func(v float64, where problem.Place, what string) {
		if !(v >= 0 && v <= 180) {
			wrong("spring-angle", where, fmt.Sprintf("%s is %g deg", what, v), "a fold angle from 0 (flat) to 180 deg (shut)")
		}
	}
	c := s.Fold.Assembly.Card
	for _, k := range c.Stocks {
		stiff(k.StiffnessMilliNm, "bending stiffness", leastBending, mostBending, "mN.m")
		stiff(k.CreaseNPerRad, "stiffness of a crease", leastPerLength, mostPer, "N/rad")
		angle(k.RestDeg.Value, k.RestDeg.Where, "what folds remember")
		angle(k.ScoredDeg.Value, k.ScoredDeg.Where, "what scores remember")
	}
	for _, p := range c.Pieces {
		for _, v := range p.Crease {
			stiff(card.Number{Value: v.Value, Given: true, Where: v.Where}, "stiffness of a crease", leastPerLength, mostPer, "N/rad")
		}
		for _, v := range p.Rest {
			angle(v.Value, v.Where, "what a fold remembers")
		}
	}
	if len(s.Stiffness) == 0 {
		problems.Add(problem.Problem{Rule: "spring-none", Severity: problem.Warning, Where: c.Where, What: "the card has no folds, so nothing springs"})
	}
	return problems.Sorted()
}

// outer returns the copy that the front panel belongs to: the piece whose shape the card has.
func (s *Model) outer() int {
	a := s.Fold.Assembly
	return a.Panels[a.Front()].Copy
}

// Springs lists the names of the pieces that are springs: pieces other than the outer one with folds both ways, as a zigzag
// has.
func (s *Model) Springs() []string {
	a := s.Fold.Assembly
	var names []string
	for i, c := range a.Copies {
		p := c.Pattern.Piece
		has := func(sense card.Sense) bool {
			return slices.ContainsFunc(p.Scores, func(k card.Score) bool { return k.Sense == sense })
		}
		if i != s.outer() && p.Name != a.Copies[s.outer()].Pattern.Piece.Name && has(card.Mountain) && has(card.Valley) && !slices.Contains(names, p.Name) {
			names = append(names, p.Name)
		}
	}
	return names
}

// Without returns the card without some of its pieces, and all that hangs on them.
func Without(c *card.Card, names ...string) *card.Card {
	out := c.Clone()
	gone := func(name string) bool { return slices.Contains(names, name) }
	out.Pieces = slices.DeleteFunc(out.Pieces, func(p card.Piece) bool { return gone(p.Name) })
	out.Glues = slices.DeleteFunc(out.Glues, func(g card.Glue) bool { return gone(g.A.Piece) || gone(g.B.Piece) })
	out.Mats, out.Toppers, out.Keeps = nil, nil, nil // they do not spring
	return out
}
