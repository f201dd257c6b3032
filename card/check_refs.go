package card

import (
	"fmt"
	"strconv"

	"foldwright/problem"
)

// newKnown counts the names of a piece's panels. A name that stands both in the row of panels and at a point is taken to
// be the same panel; package pattern finds out.
func newKnown(p *Piece) *known {
	n := &known{Piece: p, panels: map[string]int{}}
	see := func(m map[string]int, name string) {
		if name == "" {
			return
		}
		if n.panels[name] == 0 && m[name] == 0 {
			n.names = append(n.names, name)
		}
		m[name]++
	}
	for _, s := range p.Strip {
		see(n.panels, s.Name)
	}
	points := map[string]int{}
	for _, at := range p.PanelsAt {
		see(points, at.Name)
	}
	for name, c := range points {
		n.panels[name] = max(n.panels[name], c)
	}
	return n
}

// findPiece returns the piece with a name, and reports one that does not exist. rest is what stands behind the name.
func (k *checker) findPiece(name string, where problem.Place, rest string) *known {
	p, ok := k.pieces[name]
	if ok {
		return p
	}
	if !k.gap("", "piece") {
		k.unknown("unknown-piece", "piece", name, name, where, k.pieceNames, func(s string) string { return s + rest })
	}
	return nil
}

// copyUse says what a missing copy number means.
type copyUse bool

const (
	oneCopy   copyUse = false // one copy is meant: the number may be left out only where there is one
	allCopies copyUse = true  // all copies are meant
)

// checkCopy reports a copy number that does not exist, or is missing where one is needed. rest stands behind the piece.
func (k *checker) checkCopy(p *known, copy int, where problem.Place, rest string, use copyUse) bool {
	n := p.Copies
	if n < 1 || k.gap(p.Name, "piece") {
		return copy >= 0
	}
	nth := func(i int) string { return copyName(p.Name, i) + rest }
	all := nth(1)
	switch {
	case n == 2:
		all += " or " + nth(2)
	case n > 2:
		all += " … " + nth(n)
	}
	switch {
	case copy < 0 || copy > n:
		k.add("copy-range", where, p.Name+" has "+problem.Count(n, "copy")+", so there is no "+copyName(p.Name, copy), all, nth(min(max(copy, 1), n)))
	case copy == 0 && n > 1 && use == oneCopy:
		k.add("copy-needed", where, p.Name+" has "+problem.Count(n, "copy")+": write "+all, "one of the copies", nth(1))
	default:
		return true
	}
	return false
}

// findPanel reports a panel that does not exist, or of which there are several where one is needed, and says whether the
// reference is sound.
func (k *checker) findPanel(r PanelRef, use copyUse) bool {
	p := k.findPiece(r.Piece, r.Where, copySuffix(r.Copy)+"."+r.Panel)
	if p == nil || !k.checkPanelName(p, r.Panel, r.Where, func(s string) string { return PanelRef{r.Piece, r.Copy, s, r.Where}.String() }) {
		return false
	}
	if !k.checkCopy(p, r.Copy, r.Where, "."+r.Panel, use) {
		return false
	}
	if n := p.panels[r.Panel]; n > 1 && use == oneCopy {
		k.addNote("panel-ambiguous", r.Where, fmt.Sprintf("%s has %d panels called %s, and one is needed here", r.Piece, n, problem.Quote(r.Panel)),
			"a name of its own for the panel that is meant", "",
			problem.Note{Where: p.StripWhere, What: "the panels are named here"})
		return false
	}
	return true
}

func copySuffix(copy int) string {
	if copy == 0 {
		return ""
	}
	return "#" + strconv.Itoa(copy)
}

// checkPanelName reports a panel that the piece does not have. as makes the text to write of the name that is meant.
func (k *checker) checkPanelName(p *known, panel string, where problem.Place, as func(string) string) bool {
	if p.panels[panel] > 0 {
		return true
	}
	if !k.gap(p.Name, "panels", "panel") {
		k.unknown("unknown-panel", "panel", panel, as(panel), where, p.names, as)
	}
	return false
}
