package card

import (
	"slices"

	"foldwright/length"
	"foldwright/problem"
)

// checkWedges judges the wedges at the ends of a row of panels; those of other pieces are judged by package pattern.
func (k *checker) checkWedges(p *Piece, sized bool) {
	n, seen := newKnown(p), map[string]problem.Place{}
	for _, w := range p.Wedges {
		if !k.checkPanelName(n, w.Panel, w.Where, func(s string) string { return s }) {
			continue
		}
		if first, ok := seen[w.Panel]; ok {
			k.addNote("said-twice", w.Where, "panel "+problem.Quote(w.Panel)+" has a wedge already", "one wedge line for each panel", "",
				problem.Note{Where: first, What: "the first one is here"})
			continue
		}
		seen[w.Panel] = w.Where
		if k.positive(w.Depth, w.DepthWhere, "the wedge") && !k.gap(p.Name, "score", "panels") && rowsOf(p) == inRow {
			k.checkWedge(p, w, sized)
		}
	}
}

func (k *checker) checkWedge(p *Piece, w Wedge, sized bool) {
	last := len(p.Strip) - 1
	if last != len(p.Scores) || last < 1 {
		if last == 0 && len(p.Scores) == 0 {
			k.add("wedge-place", w.Where, "panel "+problem.Quote(w.Panel)+" hangs on no score, so it has no outer corners", "a tab at one end of a row of panels", "")
		}
		return // otherwise the number of panels is reported
	}
	for i, s := range p.Strip {
		if s.Name != w.Panel {
			continue
		}
		if i != 0 && i != last {
			k.add("wedge-place", w.Where, "panel "+problem.Quote(w.Panel)+" lies between others, so it has no outer corners", "the first or the last panel of the row", "")
			return
		}
		if sized && !k.checkWedgeDepth(p, w, i == 0) {
			return
		}
	}
}

// checkWedgeDepth says whether something is left of the tab: less than half across it and less than its width come off.
func (k *checker) checkWedgeDepth(p *Piece, w Wedge, first bool) bool {
	var ats []length.Length
	for _, s := range p.Scores {
		ats = append(ats, s.At)
	}
	along, cross := p.Size.W, p.Size.H
	if p.Scores[0].Kind == Up {
		along, cross = cross, along
	}
	width := slices.Min(ats)
	if !first {
		width = along - slices.Max(ats)
	}
	most := min(cross/2, width)
	if most <= 0 || 2*w.Depth < cross && w.Depth < width {
		return true // a score outside the piece is reported where it stands
	}
	k.add("wedge-size", w.DepthWhere, "a wedge of "+k.n(w.Depth)+" leaves nothing of panel "+problem.Quote(w.Panel), "less than "+k.n(most), "")
	return false
}
