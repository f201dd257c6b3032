package flat

import (
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// trial is a card with one measurement moved by trialStep.
type trial struct {
	cure    Cure
	changed *pattern.Assembly
}

const trialStep = length.Millimetre

// trials lists every measurement that might be off.
func (s *searcher) trials() []trial {
	var out []trial
	add := func(c Cure) {
		if a, problems := pattern.Assemble(c.by(s.a.Card, trialStep)); a != nil && !problems.HasErrors() &&
			len(a.Panels) == len(s.a.Panels) && len(a.Hinges) == len(s.a.Hinges) {
			out = append(out, trial{c, a})
		}
	}
	for i := range s.a.Card.Pieces {
		s.pieceTrials(i, add)
	}
	for i, g := range s.a.Card.Glues {
		label := "glue " + g.A.Panel + " " + g.Joint.String() + " " + g.B.Panel
		add(Cure{Kind: ShiftGlue, Piece: i, From: g.Over, Label: label + ": over"})
		add(Cure{Kind: ShiftGlue, Piece: i, Up: true, From: g.Up, Label: label + ": up"})
	}
	return out
}

func (s *searcher) pieceTrials(i int, add func(Cure)) {
	p := &s.a.Card.Pieces[i]
	if len(p.Slits) > 0 || slices.ContainsFunc(p.Scores, func(sc card.Score) bool { return sc.Kind == card.Slanted }) {
		s.lineTrials(i, p, add)
	}
	for k, sc := range p.Scores {
		if sc.Kind != card.Slanted {
			add(Cure{Kind: MoveScore, Piece: i, Score: k + 1, From: sc.At, Label: fmt.Sprintf("%s: score %d", p.Name, k+1)})
		}
	}
	if len(p.Outline) > 0 {
		return
	}
	add(Cure{Kind: ResizePiece, Piece: i, From: p.Size.W, Label: p.Name + ": size across"})
	add(Cure{Kind: ResizePiece, Piece: i, Up: true, From: p.Size.H, Label: p.Name + ": size up"})
	pat := s.a.Copies[s.copyOf(i)].Pattern
	if !pat.Strip || len(p.Scores) == 0 || len(p.Slits)+len(p.Windows) > 0 {
		return
	}
	up := p.Scores[0].Kind == card.Up
	for k := range len(pat.Panels) - 1 {
		box := pat.Panels[k].Box
		from := box.W()
		if up {
			from = box.H()
		}
		add(Cure{Kind: WidenPanel, Piece: i, Panel: k, Up: up, From: from, Label: p.Name + ": width of " + pat.Panels[k].Label})
	}
}

// lineTrials lists the lines of a piece on which scores by points or slits end.
func (s *searcher) lineTrials(i int, p *card.Piece, add func(Cure)) {
	box := pattern.OutlineBox(p)
	var seen [2][]length.Length
	line := func(up bool, at length.Length, score int) {
		k, end, way := 0, box.W(), "across"
		if up {
			k, end, way = 1, box.H(), "up"
		}
		if at <= 0 || at >= end || slices.Contains(seen[k], at) {
			return
		}
		seen[k] = append(seen[k], at)
		add(Cure{Kind: MoveLine, Piece: i, Score: score, Up: up, From: at, Label: p.Name + ": line " + way})
	}
	for k, sc := range p.Scores {
		if sc.Kind != card.Slanted {
			line(sc.Kind == card.Up, sc.At, k+1)
			continue
		}
		if sc.From.X == sc.To.X {
			line(false, sc.From.X, k+1)
		}
		if sc.From.Y == sc.To.Y {
			line(true, sc.From.Y, k+1)
		}
	}
	for _, t := range p.Slits {
		for _, q := range [2]plane.Point{t.From, t.To} {
			line(false, q.X, 0)
			line(true, q.Y, 0)
		}
	}
}

// relay lays out a changed assembly with the same folds: copies by the joints that placed them in the search.
func (s *searcher) relay(a *pattern.Assembly, folded []bool) []plane.Motion {
	at := make([]plane.Motion, len(a.Panels))
	for k, c := range s.order {
		local := spread(a, c, folded)
		root := s.rootIn(a, k, local, func(panel int) plane.Motion { return at[panel] })
		for i, m := range local {
			at[a.Copies[c].FirstPanel+i] = m.Then(root)
		}
	}
	return at
}

// spread lays out one copy with its first panel unmoved.
func spread(a *pattern.Assembly, c int, folded []bool) []plane.Motion {
	at := a.Copies[c]
	local := make([]plane.Motion, len(at.Pattern.Panels))
	placed := make([]bool, len(local))
	local[0], placed[0] = plane.Stay(), true
	for changed := true; changed; {
		changed = false
		for i, h := range at.Pattern.Hinges {
			if placed[h.Left] == placed[h.Right] {
				continue
			}
			from, to := h.Left, h.Right
			if placed[to] {
				from, to = to, from
			}
			local[to] = local[from]
			if folded[at.FirstHinge+i] {
				local[to] = plane.Mirror(h.From, h.To).Then(local[from])
			}
			placed[to], changed = true, true
		}
	}
	return local
}
