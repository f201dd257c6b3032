package flat

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Gap is a glue joint that does not meet.
type Gap struct {
	Joint int // of the assembly
	Name  string
	// DX and DY is where the glued panel lands less where its glue line wants it, in the directions of the panel that it is
	// glued on.
	DX, DY length.Length
}

// CureKind tells what a cure changes.
type CureKind uint8

// A cure moves one score, shifts one glue joint, changes the size of one piece without moving its scores, changes the
// width of one panel, so that all scores behind it and the end of the piece move along, or changes one word of a glue line.
const (
	MoveScore CureKind = iota
	ShiftGlue
	ResizePiece
	WidenPanel
	Reglue
)

// String returns the id that JSON uses.
func (k CureKind) String() string {
	return [...]string{"score", "glue", "size", "panel", "reglue"}[k]
}

// Cure is a change of a single measurement after which the card was proven to lie flat.
type Cure struct {
	Kind  CureKind
	Piece int // index in the card; for ShiftGlue and Reglue the index of the glue line
	Score int // from 1; for MoveScore
	Panel int // index in the pattern; for WidenPanel
	// Up says that a size or a shift is upwards, not across.
	Up       bool
	From, To length.Length
	// Was and Gluing are the old and the new words of the glue line, for Reglue.
	Was, Gluing Gluing
	// Label names what is measured: "wall: score 3", "wall: size across".
	Label string
	// spoils counts what shows that should be hidden, to order cures of one kind.
	spoils int
}

// Change returns how far the measurement moves.
func (c Cure) Change() length.Length { return c.To - c.From }

// Apply returns a copy of the card with the cure carried out.
func (c Cure) Apply(old *card.Card) *card.Card {
	return c.by(old, c.Change())
}

// by returns a copy of the card with the measurement moved by d.
func (c Cure) by(old *card.Card, d length.Length) *card.Card {
	out := old.Clone()
	switch c.Kind {
	case MoveScore:
		out.Pieces[c.Piece].Scores[c.Score-1].At += d
	case ShiftGlue:
		if c.Up {
			out.Glues[c.Piece].Up += d
		} else {
			out.Glues[c.Piece].Over += d
		}
	case Reglue:
		g := &out.Glues[c.Piece]
		g.Joint, g.AlignX, g.AlignY, g.TurnedDeg = c.Gluing.Joint, c.Gluing.AlignX, c.Gluing.AlignY, c.Gluing.TurnedDeg
	case ResizePiece:
		grow(&out.Pieces[c.Piece], c.Up, d)
	case WidenPanel:
		p := &out.Pieces[c.Piece]
		for i := range p.Scores {
			if i >= c.Panel {
				p.Scores[i].At += d
			}
		}
		grow(p, c.Up, d)
	}
	return out
}

func grow(p *card.Piece, up bool, d length.Length) {
	if up {
		p.Size.H += d
	} else {
		p.Size.W += d
	}
}

// Miss explains a card that does not close: the gaps of the way to fold it that comes nearest, and the cures.
type Miss struct {
	Gaps  []Gap
	Cures []Cure
	// Folded is the choice of folds that comes nearest, Box its outline.
	Folded []bool
	Box    plane.Box
	// Joints names the glue joints each of which alone is in the way, where nothing comes near.
	Joints []int
}

// Slack is how far a glue joint may miss for the way to fold to count as meant: a slip of the ruler is rarely more than
// half an inch.
const Slack = 13 * length.Millimetre

// Limits of the search for cures.
const (
	nearMisses = 60
	cureTries  = 30
	cureMost   = 6
	// cureWork bounds near misses times measurements times panels; a stand takes 120 000.
	cureWork = 2_000_000
)

// Explain looks for what keeps a card from lying flat. Call it where [Close] proved none of the choices of folds: what
// closes exactly is left aside here, for it is known to have no layer order.
func Explain(ctx context.Context, a *pattern.Assembly) *Miss {
	s := newSearcher(ctx, a, Slack)
	s.accept = func(c *candidate) bool { return c.miss > slanted }
	near := s.candidates()
	if len(near) == 0 {
		return &Miss{Joints: culprits(ctx, a), Cures: s.reglued()}
	}
	m := &Miss{}
	first := s.closed(near[0])
	m.Folded, m.Box = first.Folded, first.Box
	m.Gaps = gapsOf(a, first.At)
	m.Cures = s.cures(near)
	if len(m.Cures) == 0 || m.Cures[0].Change().Abs() > small {
		// The ruler is hardly to blame: a word of a glue line may be.
		m.Cures = append(s.reglued(), m.Cures...)
		m.Cures = m.Cures[:min(len(m.Cures), 2*cureMost)]
	}
	return m
}

// culprits returns the joints without any one of which the card would close.
func culprits(ctx context.Context, a *pattern.Assembly) []int {
	var found []int
	for i := range a.Joints {
		b := *a
		b.Joints = slices.Delete(slices.Clone(a.Joints), i, i+1)
		s := newSearcher(ctx, &b, 0)
		if len(s.order) == len(b.Copies) && len(s.candidates()) > 0 {
			found = append(found, i)
		}
	}
	return found
}

// gapsOf lists the joints that do not meet.
func gapsOf(a *pattern.Assembly, at []plane.Motion) []Gap {
	var gaps []Gap
	for i, v := range misses(a, at) {
		if math.Hypot(v[0], v[1]) > tolerance(at[a.Joints[i].A]) {
			gaps = append(gaps, Gap{Joint: i, Name: a.Name(i), DX: nearest(v[0]), DY: nearest(v[1])})
		}
	}
	return gaps
}

func nearest(v float64) length.Length { return length.Length(math.Round(v)) }

// misses returns, per joint, how far it misses in the directions of the panel that it is glued on; NaN where a panel is
// turned the wrong way.
func misses(a *pattern.Assembly, at []plane.Motion) [][2]float64 {
	out := make([][2]float64, len(a.Joints))
	for i, j := range a.Joints {
		dx, dy, ok := gapOf(j.Place.Then(at[j.B]), at[j.A], a.Panels[j.A].Panel)
		if !ok {
			out[i] = [2]float64{math.NaN(), math.NaN()}
			continue
		}
		b := at[j.B]
		out[i] = [2]float64{b.XX*dx + b.YX*dy, b.XY*dx + b.YY*dy}
	}
	return out
}

// cures tries every measurement on every near miss: the gaps depend on a measurement linearly, so one trial step tells the
// change that would close them all; what it promises is then proven on the changed card.
func (s *searcher) cures(near []*candidate) []Cure {
	trials := s.trials()
	near = near[:min(len(near), max(1, cureWork/(1+len(trials)*len(s.a.Panels))))]
	var found []Cure
	for _, c := range near {
		closed := s.closed(c)
		before := misses(s.a, closed.At)
		for _, t := range trials {
			if d, ok := closingStep(before, misses(t.changed, s.relay(t.changed, closed.Folded))); ok {
				cure := t.cure
				cure.To = cure.From + d
				found = append(found, cure)
			}
		}
		if s.ctx.Err() != nil {
			return nil
		}
	}
	marks := s.a.Card.Marks
	slices.SortStableFunc(found, func(x, y Cure) int {
		return cmp.Or(
			-compareBool(x.To.OnMark(marks), y.To.OnMark(marks)),
			cmp.Compare(x.Change().Abs(), y.Change().Abs()),
			cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Piece, y.Piece), cmp.Compare(x.Score, y.Score), cmp.Compare(x.Panel, y.Panel))
	})
	return s.proven(slices.Compact(found))
}

func compareBool(x, y bool) int {
	switch {
	case x == y:
		return 0
	case x:
		return 1
	}
	return -1
}

// proven keeps the cures after which the card does lie flat.
func (s *searcher) proven(cures []Cure) []Cure {
	var kept []Cure
	seen := make(map[Cure]bool)
	tries := 0
	for _, c := range cures {
		if seen[c] || len(kept) == cureMost || tries == cureTries || s.ctx.Err() != nil {
			continue
		}
		seen[c] = true
		tries++
		changed := c.Apply(s.a.Card)
		if a, problems := pattern.Assemble(changed); a != nil && !problems.HasErrors() && sameScores(s.a.Card, changed) && Close(s.ctx, a).LiesFlat() {
			kept = append(kept, c)
		}
	}
	return kept
}

// sameScores says whether level and upright scores still lie inside their pieces and follow each other as before.
func sameScores(old, c *card.Card) bool {
	for i := range c.Pieces {
		p := &c.Pieces[i]
		box := pattern.OutlineBox(p)
		for k, sc := range p.Scores {
			end := box.W()
			if sc.Kind == card.Up {
				end = box.H()
			}
			if sc.Kind != card.Slanted && (sc.At <= 0 || sc.At >= end) {
				return false
			}
			for n, other := range p.Scores[:k] {
				was := cmp.Compare(old.Pieces[i].Scores[n].At, old.Pieces[i].Scores[k].At)
				if other.Kind == sc.Kind && sc.Kind != card.Slanted && cmp.Compare(other.At, sc.At) != was {
					return false
				}
			}
		}
	}
	return true
}

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

// relay lays out a changed assembly with the same folds: copies by the joints that placed them in the search.
func (s *searcher) relay(a *pattern.Assembly, folded []bool) []plane.Motion {
	at := make([]plane.Motion, len(a.Panels))
	for k, c := range s.order {
		local := spread(a, c, folded)
		root := plane.Stay()
		first := a.Copies[c].FirstPanel
		if s.first[k] >= 0 {
			j := a.Joints[s.first[k]]
			if a.Panels[j.A].Copy == c {
				root = local[j.A-first].Inverse().Then(j.Place.Then(at[j.B]))
			} else {
				root = local[j.B-first].Inverse().Then(j.Place.Inverse().Then(at[j.A]))
			}
		}
		for i, m := range local {
			at[first+i] = m.Then(root)
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

// closingStep returns the change that closes all gaps at once, given the gaps before and after one trial step; ok is
// false where there is none.
func closingStep(before, after [][2]float64) (d length.Length, ok bool) {
	step := math.NaN()
	for i := range before {
		for x := range 2 {
			slope := (after[i][x] - before[i][x]) / float64(trialStep)
			if math.IsNaN(slope) {
				return 0, false
			}
			if math.Abs(slope) > 1e-9 && math.IsNaN(step) {
				step = -before[i][x] / slope
			}
		}
	}
	if math.IsNaN(step) || math.Abs(step) < 0.5 {
		return 0, false
	}
	for i := range before {
		for x := range 2 {
			slope := (after[i][x] - before[i][x]) / float64(trialStep)
			if math.Abs(before[i][x]+slope*step) > slanted {
				return 0, false
			}
		}
	}
	return nearest(step), true
}

// Slip is a measurement that looks mistaken although the card lies flat: changed, more scores could be folded shut.
type Slip struct {
	Cure
	// Straight lists the hinges of the assembly that are straight as written and would be folded shut.
	Straight []int
}

// slipMost is the largest change that is taken for a slip of the ruler, and slipGain the least share by which the pieces
// must fold up smaller for it.
const (
	slipMost = 7 * length.Millimetre
	slipGain = 0.05
)

// Slips looks for single measurements, to be put on a mark, after which the same folds and more could be shut and the
// pieces fold up smaller. It is meant for a card that lies flat only because some of its scores stay straight.
func (c *Closed) Slips(ctx context.Context) []Slip {
	s := newSearcher(ctx, c.Assembly, Slack)
	own := 0.0
	for i := range c.Assembly.Copies {
		own += c.ownArea(i)
	}
	s.accept = func(n *candidate) bool {
		return n.miss > slanted && n.own < (1-slipGain)*own && area(n.box) < area(c.Box)*1.0001 && s.foldsMore(n, c.Folded)
	}
	near := s.candidates()
	if len(near) == 0 {
		return nil
	}
	var out []Slip
	for _, cure := range s.cures(near) {
		if cure.Change().Abs() > slipMost || !cure.To.OnMark(c.Assembly.Card.Marks) {
			continue
		}
		a, _ := pattern.Assemble(cure.Apply(c.Assembly.Card))
		changed := Close(ctx, a)
		var straight []int
		for i, f := range changed.Folded {
			if f && !c.Folded[i] {
				straight = append(straight, i)
			}
		}
		if len(straight) > 0 {
			out = append(out, Slip{cure, straight})
		}
	}
	return out
}

// ownArea returns the area of the box of one folded copy in nm².
func (c *Closed) ownArea(copy int) float64 {
	at := c.Assembly.Copies[copy]
	var b plane.Box
	for i := range at.Pattern.Panels {
		m := c.At[at.FirstPanel+i]
		p := plane.BoxOf(moved(m, at.Pattern.Panels[i].Outline)...)
		if i == 0 {
			b = p
		}
		b = b.Union(p)
	}
	return area(b)
}

// foldsMore says whether a candidate folds all that is folded already.
func (s *searcher) foldsMore(n *candidate, folded []bool) bool {
	for i, o := range n.picks {
		first := s.a.Copies[i].FirstHinge
		for h, f := range o.folded {
			if folded[first+h] && !f {
				return false
			}
		}
	}
	return true
}
