package trim

import (
	"cmp"
	"slices"

	"foldwright/length"
)

// tidied returns a plan that makes the same parts out of the same sheets with fewer cuts, fence settings and layouts where
// that can be had for nothing: layouts that are cut alike are one, strips that are alike are cut one after the other, and
// of strips that fill a piece one that needs a fence of its own comes last, where it is what remains. Layouts of one sheet
// follow each other, those of most sheets first.
//
// It is for plans of a plain job.
func tidied(j Job, p Plan) Plan {
	type layoutKey struct {
		sheet int
		strip string
	}
	at := map[layoutKey]int{}
	var out Plan
	var strips []*strip
	for _, l := range p.Layouts {
		s := j.Trimmer.stripOf(l.Root, j.Sheets[l.Sheet].W, j.Sheets[l.Sheet].H)
		s.sort()
		key := layoutKey{l.Sheet, string(s.key(nil))}
		if i, ok := at[key]; ok {
			out.Layouts[i].Times += l.Times
			continue
		}
		at[key] = len(out.Layouts)
		out.Layouts, strips = append(out.Layouts, l), append(strips, s)
	}
	settle(strips)
	for i, s := range strips {
		if c := s.tree(); j.Trimmer.cuttable(c, s.w, s.h) {
			out.Layouts[i].Root = c
		}
	}
	slices.SortStableFunc(out.Layouts, func(a, b Layout) int {
		return cmp.Or(cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(b.Times, a.Times))
	})
	return out
}

// ending is a piece that its strips fill, so that the last of them needs no cut; single are its strips that are as wide as
// no other of them.
type ending struct {
	of     *strip
	single []length.Length
	last   length.Length // or 0
}

// settle chooses the last strip of every piece that is filled, so that few fences are needed over all.
func settle(strips []*strip) {
	need := map[length.Length]int{} // by how many pieces
	var ends []*ending
	for _, s := range strips {
		ends = s.endings(need, ends)
	}
	for range 4 { // it hardly ever goes on longer
		for _, e := range ends {
			if e.last > 0 {
				need[e.last]++
			}
			e.last = slices.MinFunc(e.single, func(a, b length.Length) int {
				return cmp.Or(cmp.Compare(need[a], need[b]), cmp.Compare(b, a))
			})
			need[e.last]--
		}
	}
	for _, e := range ends {
		i := slices.IndexFunc(e.of.kids, func(k *strip) bool { return k.along(e.of.kind) == e.last })
		k := e.of.kids[i]
		e.of.kids = append(slices.Delete(e.of.kids, i, i+1), k)
	}
}

// endings counts the fences that the piece and its strips need if no strip comes last, and adds the pieces that have a
// choice to the list.
func (s *strip) endings(need map[length.Length]int, to []*ending) []*ending {
	widths := map[length.Length]int{}
	for _, k := range s.kids {
		to = k.endings(need, to)
		widths[k.along(s.kind)]++
	}
	e := &ending{of: s}
	for _, k := range s.kids {
		w := k.along(s.kind)
		if widths[w] == 1 && s.rest == 0 {
			e.single = append(e.single, w)
		}
		if widths[w] > 0 { // not counted yet
			need[w], widths[w] = need[w]+1, 0
		}
	}
	if len(e.single) > 0 {
		to = append(to, e)
	}
	return to
}

// lean leaves out of a plan what is made beyond the counts of the job, as far as that leaves sheets that are cut alike alike:
// an off-cut is worth more than a part that nobody wants, and takes fewer cuts.
func lean(j Job, p Plan) Plan {
	spare := make([]int, len(j.Parts))
	for i, w := range j.Parts {
		spare[i] = -w.Count
	}
	made := make([][]int, len(p.Layouts))
	for k, l := range p.Layouts {
		made[k] = l.Root.made(len(spare))
		for i, n := range made[k] {
			spare[i] += n * l.Times
		}
	}
	out := Plan{slices.Clone(p.Layouts)}
	for k := range out.Layouts {
		l := &out.Layouts[k]
		less := false
		for i, n := range made[k] {
			drop := min(n, spare[i]/l.Times)
			if drop > 0 {
				made[k][i], spare[i], less = n-drop, spare[i]-drop*l.Times, true
			}
		}
		if less {
			l.Root = clip(l.Root, made[k])
		}
	}
	return out
}

// fencesOf adds the widths of all strips to the list, each once.
func fencesOf(s *strip, to []length.Length) []length.Length {
	for i, k := range s.kids {
		if w := k.along(s.kind); !slices.Contains(to, w) && (i < len(s.kids)-1 || s.rest > 0) {
			to = append(to, w)
		}
		to = fencesOf(k, to)
	}
	return to
}
