package pattern

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/plane"
	"foldwright/problem"
)

// What a segment of the subdivision is; the tag is kind + index*kinds.
const (
	isOutline = iota
	isWindow
	isSlit
	isScore
	kinds
)

func tag(kind, index int) int { return kind + index*kinds }

// MaxPanels is the largest number of panels that a card may have, all copies counted. A stand with two springs has 33.
const MaxPanels = 300

// Build cuts a piece up into panels and hinges.
//
// Problems come with the places of the lines at fault; the pattern is nil if any of them is an error.
// Range: a piece that card.Check accepts; then time is below a second for the largest.
func Build(p *card.Piece) (*Pattern, problem.List) {
	b := &builder{piece: p, outline: Outline(p), out: &Pattern{Piece: p, Box: OutlineBox(p)}}
	for _, w := range p.Windows {
		b.windows = append(b.windows, WindowShape(w))
	}
	b.checkOutline()
	b.checkWindows()
	b.checkSlits()
	if b.problems.HasErrors() {
		return nil, b.problems.Sorted()
	}
	b.sub = plane.Subdivide(b.segments(), 0)
	b.panels()
	if len(b.out.Panels) > MaxPanels {
		b.report("too-many-panels", b.piece.Where, fmt.Sprintf("its scores make %d panels", len(b.out.Panels)),
			fmt.Sprintf("at most %d panels in a whole card", MaxPanels), "")
		return nil, b.problems.Sorted()
	}
	b.hinges()
	b.name()
	b.checkJoined()
	b.out.label()
	if b.problems.HasErrors() {
		return nil, b.problems.Sorted()
	}
	b.wedges()
	if b.problems.HasErrors() {
		return nil, b.problems.Sorted()
	}
	return b.out, b.problems.Sorted()
}

type builder struct {
	piece    *card.Piece
	outline  []plane.Point
	windows  [][]plane.Point
	sub      *plane.Subdivision
	panelOf  []int // per face of sub, -1 where it is no card
	out      *Pattern
	problems problem.List
}

func (b *builder) report(rule string, where problem.Place, what, needs, try string) {
	b.problems.Add(problem.Problem{Rule: rule, Where: where, What: "piece " + b.piece.Name + ": " + what, Needs: needs, Try: try})
}

// segments lists everything that cuts the plane.
func (b *builder) segments() []plane.Segment {
	var s []plane.Segment
	ring := func(points []plane.Point, t int) {
		for i, p := range points {
			s = append(s, plane.Segment{A: p, B: points[(i+1)%len(points)], Tag: t})
		}
	}
	ring(b.outline, tag(isOutline, 0))
	for i, w := range b.windows {
		ring(w, tag(isWindow, i))
	}
	for i, t := range b.piece.Slits {
		s = append(s, plane.Segment{A: t.From, B: t.To, Tag: tag(isSlit, i)})
	}
	for i, c := range b.piece.Scores {
		g := ScoreLine(b.piece, c)
		g.Tag = tag(isScore, i)
		s = append(s, g)
	}
	return s
}

// panels keeps the faces that are card, in reading order: from left to right along an upright score, upwards along a
// level one, else by height and then from the left.
func (b *builder) panels() {
	b.panelOf = make([]int, len(b.sub.Faces))
	type found struct {
		face  int
		panel Panel
	}
	var all []found
	for f, face := range b.sub.Faces {
		b.panelOf[f] = -1
		if len(all) > 100*MaxPanels {
			continue // far too many already
		}
		if x, y, ok := b.sub.InnerPoint(f); ok && b.isCard(x, y) {
			ring := b.sub.Ring(face.Outer)
			all = append(all, found{f, Panel{Outline: straighten(ring), Box: plane.BoxOf(ring...), InX: x, InY: y}})
		}
	}
	order := b.readingOrder()
	slices.SortStableFunc(all, func(p, q found) int { return order(p.panel.Box, q.panel.Box) })
	for i, p := range all {
		b.panelOf[p.face] = i
		for _, h := range b.sub.Faces[p.face].Holes {
			p.panel.Holes = append(p.panel.Holes, straighten(b.sub.Ring(h)))
		}
		b.out.Panels = append(b.out.Panels, p.panel)
	}
	b.out.Strip = b.parallel() && len(all) == len(b.piece.Scores)+1
}

func (b *builder) isCard(x, y float64) bool {
	return plane.InPolygon(b.outline, x, y) &&
		!slices.ContainsFunc(b.windows, func(w []plane.Point) bool { return plane.InPolygon(w, x, y) })
}

// straighten leaves out corners at which a ring runs straight on.
func straighten(ring []plane.Point) []plane.Point {
	var out []plane.Point
	n := len(ring)
	for i, c := range ring {
		before, after := ring[(i+n-1)%n], ring[(i+1)%n]
		u, v := c.Sub(before), after.Sub(c)
		ahead := float64(u.X)*float64(v.X)+float64(u.Y)*float64(v.Y) > 0
		if plane.Side(before, c, after) != 0 || !ahead {
			out = append(out, c)
		}
	}
	return out
}

// parallel says whether all scores run the same way, level or upright.
func (b *builder) parallel() bool {
	for _, s := range b.piece.Scores {
		if s.Kind == card.Slanted || s.Kind != b.piece.Scores[0].Kind {
			return false
		}
	}
	return true
}

func (b *builder) readingOrder() func(x, y plane.Box) int {
	across := func(x, y plane.Box) int { return cmp.Compare(x.Min.X, y.Min.X) }
	up := func(x, y plane.Box) int { return cmp.Compare(x.Min.Y, y.Min.Y) }
	if b.parallel() && len(b.piece.Scores) > 0 && b.piece.Scores[0].Kind == card.Across {
		return func(x, y plane.Box) int { return cmp.Or(across(x, y), up(x, y)) }
	}
	return func(x, y plane.Box) int { return cmp.Or(up(x, y), across(x, y)) }
}

// hinges collects the scored edges between two panels, and reports scores that are none.
func (b *builder) hinges() {
	used := make([]bool, len(b.piece.Scores))
	loose := make([]bool, len(b.piece.Scores))
	for _, e := range b.sub.Edges {
		scores, cut := b.tags(e)
		if len(scores) == 0 {
			continue
		}
		if len(scores) > 1 {
			b.scoreTwice(scores)
		}
		left, right := b.panelOf[e.Left], b.panelOf[e.Right]
		switch {
		case left < 0 || right < 0 || cut:
		case left == right:
			loose[scores[0]] = true
		default:
			used[scores[0]] = true
			b.addHinge(e, scores[0], left, right)
		}
	}
	for i, s := range b.piece.Scores {
		if loose[i] {
			b.report("score-loose-end", s.Where, fmt.Sprintf("score %d ends in the middle of a panel", i+1),
				"a score that runs from one edge, slit, window or other score to another", "")
		} else if !used[i] {
			b.report("score-on-edge", s.Where, fmt.Sprintf("score %d folds nothing: it runs along a cut or outside the piece", i+1),
				"a score that lies between two panels", "")
		}
	}
	slices.SortStableFunc(b.out.Hinges, func(g, h Hinge) int { return cmp.Compare(g.Scores[0], h.Scores[0]) })
	for i := range b.out.Hinges {
		b.out.Hinges[i].stretch()
	}
}

func (b *builder) tags(e plane.Edge) (scores []int, cut bool) {
	for _, t := range e.Tags {
		if t%kinds == isScore {
			scores = append(scores, t/kinds)
		} else {
			cut = true
		}
	}
	return scores, cut
}

func (b *builder) scoreTwice(scores []int) {
	first, second := b.piece.Scores[scores[0]], b.piece.Scores[scores[1]]
	b.problems.Add(problem.Problem{
		Rule: "score-twice", Where: second.Where,
		What:  fmt.Sprintf("piece %s: score %d runs along score %d", b.piece.Name, scores[1]+1, scores[0]+1),
		Needs: "each line scored once",
		Notes: []problem.Note{{Where: first.Where, What: "the first one is here"}},
	})
}

// addHinge adds an edge to the hinge that it continues, or starts one.
func (b *builder) addHinge(e plane.Edge, score, left, right int) {
	from, to := b.sub.Points[e.A], b.sub.Points[e.B]
	sense := b.piece.Scores[score].Sense
	for i := range b.out.Hinges {
		h := &b.out.Hinges[i]
		same := h.Left == left && h.Right == right
		other := h.Left == right && h.Right == left
		if !(same || other) || h.Sense != sense || plane.Side(h.From, h.To, from) != 0 || plane.Side(h.From, h.To, to) != 0 {
			continue
		}
		if other {
			from, to = to, from
		}
		h.Parts = append(h.Parts, plane.Segment{A: from, B: to})
		if !slices.Contains(h.Scores, score) {
			h.Scores = append(h.Scores, score)
		}
		return
	}
	b.out.Hinges = append(b.out.Hinges, Hinge{
		Scores: []int{score}, Left: left, Right: right, From: from, To: to, Sense: sense,
		Parts: []plane.Segment{{A: from, B: to}},
	})
}

// stretch sets From and To to the outermost ends of the parts and sorts the parts between them.
func (h *Hinge) stretch() {
	d := h.To.Sub(h.From)
	along := func(p plane.Point) float64 { return float64(d.X)*float64(p.X) + float64(d.Y)*float64(p.Y) }
	slices.SortFunc(h.Parts, func(a, b plane.Segment) int { return cmp.Compare(along(a.A), along(b.A)) })
	merged := h.Parts[:1]
	for _, p := range h.Parts[1:] {
		if last := &merged[len(merged)-1]; last.B == p.A {
			last.B = p.B
		} else {
			merged = append(merged, p)
		}
	}
	h.Parts = merged
	h.From, h.To = merged[0].A, merged[len(merged)-1].B
}

func distance(a, b plane.Point) float64 {
	d := b.Sub(a)
	return math.Hypot(float64(d.X), float64(d.Y))
}
