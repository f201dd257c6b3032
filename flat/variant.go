package flat

import (
	"iter"
	"slices"

	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// variantLimit bounds how many combinations of options of the same groups are tried for one candidate.
const variantLimit = 64

// variantSteps bounds the choosing itself, which on a card of many copies takes longer than what is chosen.
const variantSteps = 20_000

// variantKeep is how many options of one group enter the combinations, variantScan how many are looked at for them.
const (
	variantKeep = 8
	variantScan = 64
)

// variants yields a candidate and then those in which copies use other options of the same groups, which close as well
// but lie in other layers. Options that have no order even on their own are left out of these.
func (s *searcher) variants(base *candidate) iter.Seq[*candidate] {
	return func(yield func(*candidate) bool) {
		if !yield(base) {
			return
		}
		left, steps := variantLimit, variantSteps
		most := 0
		for _, g := range base.groups {
			most += min(len(g), variantKeep) - 1
		}
		// The copies that were in each other's way first, then few copies away from their best option.
		if c := s.clash; c != nil {
			for _, copy := range [2]int{s.a.Panels[c.A].Copy, s.a.Panels[c.B].Copy} {
				picks := slices.Clone(base.picks)
				if picks[copy] = s.orderable(copy, base.groups[copy], 1); picks[copy] != nil && !yield(s.with(base, picks)) {
					return
				}
			}
		}
		for away := 0; away <= most; away++ {
			picks := make([]*option, len(base.groups))
			if !s.vary(base, picks, 0, away, &left, &steps, yield) {
				return
			}
		}
	}
}

// vary chooses options for the copies from number c on that are away places from the best in all, and yields what they
// make. It returns false when that is enough.
func (s *searcher) vary(base *candidate, picks []*option, c, away int, left, steps *int, yield func(*candidate) bool) bool {
	if *steps--; *steps < 0 || s.ctx.Err() != nil {
		s.stopped = true
		return false
	}
	if c == len(picks) {
		if away > 0 {
			return true
		}
		*left--
		if slices.Equal(picks, base.picks) {
			return *left > 0
		}
		return yield(s.with(base, slices.Clone(picks))) && *left > 0
	}
	group := base.groups[c]
	for n := range min(len(group), variantKeep, away+1) {
		if picks[c] = s.orderable(c, group, n); picks[c] == nil {
			return true // this copy has no further options; others may
		}
		if !s.vary(base, picks, c+1, away-n, left, steps, yield) {
			return false
		}
	}
	return true
}

// with returns a candidate with other options of the same groups.
func (s *searcher) with(base *candidate, picks []*option) *candidate {
	v := &candidate{picks: picks, groups: base.groups, roots: slices.Clone(base.roots), miss: base.miss}
	s.picks, s.roots = v.picks, v.roots
	for k, c := range s.order {
		v.roots[c] = s.root(k, v.picks[c])
	}
	s.measure(v)
	return v
}

// orderable returns the nth of the options of a copy that have a layer order at least without the rest of the card, nil
// if there are not so many.
func (s *searcher) orderable(c int, group []*option, n int) *option {
	if s.alone == nil {
		s.alone = make(map[*option]bool)
	}
	for _, o := range group[:min(len(group), variantScan)] {
		ok, known := s.alone[o]
		if !known {
			alone := lone(s.a, c)
			clash, gaveUp := order(alone, newOverlay(alone, o.at, dust(o.at)), o.at, o.folded)
			ok = clash == nil && !gaveUp
			s.alone[o] = ok
		}
		if !ok {
			continue
		}
		if n == 0 {
			return o
		}
		n--
	}
	return nil
}

// dust returns how near points must lie to count as one when panels are overlaid: nothing where all is exact, else a
// micrometre, far above rounding and far below what a hand can cut.
func dust(at []plane.Motion) length.Length {
	for _, m := range at {
		if tolerance(m) == slanted {
			return length.Micrometre
		}
	}
	return 0
}

// lone returns the assembly of a single copy with the joints that it has with itself.
func lone(a *pattern.Assembly, c int) *pattern.Assembly {
	at := a.Copies[c]
	panels, hinges := len(at.Pattern.Panels), len(at.Pattern.Hinges)
	out := &pattern.Assembly{
		Card:   a.Card,
		Copies: []pattern.Copy{at},
		Panels: slices.Clone(a.Panels[at.FirstPanel : at.FirstPanel+panels]),
		Hinges: slices.Clone(a.Hinges[at.FirstHinge : at.FirstHinge+hinges]),
	}
	out.Copies[0].FirstPanel, out.Copies[0].FirstHinge = 0, 0
	for i := range out.Panels {
		out.Panels[i].Copy = 0
	}
	for i := range out.Hinges {
		h := &out.Hinges[i]
		h.Copy, h.A, h.B = 0, h.A-at.FirstPanel, h.B-at.FirstPanel
	}
	for _, j := range a.Joints {
		if a.Panels[j.A].Copy == c && a.Panels[j.B].Copy == c {
			j.A, j.B = j.A-at.FirstPanel, j.B-at.FirstPanel
			out.Joints = append(out.Joints, j)
		}
	}
	return out
}
