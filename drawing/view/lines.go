package view

import (
	"slices"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/pattern"
	"foldwright/plane"
)

// pieceLines is every line of one piece, each once: what is cut and what is scored.
type pieceLines struct {
	points []plane.Point
	// border holds the rings of the outline (first the outer ones) and of the windows.
	border  []region
	windows []card.Window
	slits   []link
	scores  map[card.Sense][]link
}

// tags of the subdivision of a piece; hinges count up from firstHinge.
const (
	tagEdge = iota
	firstHinge
)

// newPieceLines finds the lines of a piece from its panels, so that wedges count and lines that two panels share come once.
func newPieceLines(p *pattern.Pattern) pieceLines {
	var segments []plane.Segment
	for i := range p.Panels {
		for _, ring := range p.Panels[i].Rings() {
			segments = ringSegments(segments, ring, tagEdge)
		}
	}
	for i, h := range p.Hinges {
		for _, part := range h.Parts {
			part.Tag = firstHinge + i
			segments = append(segments, part)
		}
	}
	for _, s := range p.Piece.Slits {
		segments = append(segments, plane.Segment{A: s.From, B: s.To, Tag: tagEdge})
	}
	sub := plane.Subdivide(segments, merging)
	l := pieceLines{points: sub.Points, windows: p.Piece.Windows, scores: map[card.Sense][]link{}}
	face := make([]int, len(sub.Faces))
	for f := range sub.Faces {
		face[f] = none
		if x, y, ok := sub.InnerPoint(f); ok && slices.ContainsFunc(p.Panels, func(q pattern.Panel) bool { return q.Contains(x, y) }) {
			face[f] = 0
		}
	}
	l.border = regions(sub, face)
	for _, e := range sub.Edges {
		hinge := slices.Max(e.Tags)
		switch {
		case face[e.Left] != face[e.Right] || face[e.Left] == none:
		case hinge >= firstHinge:
			sense := p.Hinges[hinge-firstHinge].Sense
			l.scores[sense] = append(l.scores[sense], link{e.A, e.B})
		default:
			l.slits = append(l.slits, link{e.A, e.B})
		}
	}
	return l
}

// cuts returns the lines to cut: outlines and windows as closed shapes, slits as lines.
func (l pieceLines) cuts() []drawing.Shape {
	var out []drawing.Shape
	for _, r := range l.border {
		out = append(out, drawing.Polygon{Line: drawing.Cut, Outer: drawing.OfAll(r.outer)})
		for _, hole := range r.holes {
			out = append(out, l.window(hole))
		}
	}
	return append(out, stroke(drawing.Cut, l.points, l.slits)...)
}

// window returns the edge of an opening: a true ellipse where it is an oval window that nothing runs into, so that no
// corners of the polygon that stands for it are cut.
func (l pieceLines) window(hole []plane.Point) drawing.Shape {
	box := plane.BoxOf(hole...)
	for _, w := range l.windows {
		oval := w.Kind == card.Oval || w.Kind == card.Circle
		if oval && sameCorners(pattern.WindowShape(w), hole) {
			half := drawing.Point{X: box.W().MM() / 2, Y: box.H().MM() / 2}
			return drawing.Ellipse{Line: drawing.Cut, Centre: drawing.Of(box.Min).Add(half), RX: half.X, RY: half.Y}
		}
	}
	return drawing.Polygon{Line: drawing.Cut, Outer: drawing.OfAll(hole)}
}

// sameCorners says whether two rings have the same corners, in whatever order.
func sameCorners(a, b []plane.Point) bool {
	for _, p := range a {
		if !slices.Contains(b, p) {
			return false
		}
	}
	return len(a) == len(b)
}

// scored returns the lines to score, by the way in which they fold.
func (l pieceLines) scored() []drawing.Shape {
	var out []drawing.Shape
	for _, sense := range []card.Sense{card.Mountain, card.Valley, card.Either} {
		lines, _ := paths(l.points, l.scores[sense])
		for _, line := range lines {
			for i := 1; i < len(line); i++ { // one shape a straight line, so that its dashes are fitted to it
				out = append(out, drawing.Line(scoreRole(sense), drawing.Of(line[i-1]), drawing.Of(line[i])))
			}
		}
	}
	return out
}

func scoreRole(s card.Sense) drawing.Role {
	switch s {
	case card.Mountain:
		return drawing.ScoreMountain
	case card.Valley:
		return drawing.ScoreValley
	}
	return drawing.ScoreEither
}
