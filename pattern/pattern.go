package pattern

import (
	"fmt"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// Pattern is one piece cut up into panels.
type Pattern struct {
	Piece  *card.Piece
	Panels []Panel
	Hinges []Hinge
	// Box is the bounding rectangle of the piece.
	Box plane.Box
	// Strip says that the panels follow each other along one direction, one more of them than scores.
	Strip bool
}

// Panel is one flat region of a piece.
type Panel struct {
	// Name is the name given in the recipe, "" if it has none.
	Name string
	// Label is a name for people, unique in the piece: the Name, "leaf (2)" where the name repeats, or "panel 3".
	Label string
	// Outline runs counter-clockwise, Holes clockwise, on the outer face.
	Outline []plane.Point
	Holes   [][]plane.Point
	Box     plane.Box
	// InX, InY is a point well inside, in nanometres.
	InX, InY float64
}

// Hinge is a fold line between two panels.
type Hinge struct {
	// Scores holds the indices (from 0) of the scores in the piece that the hinge lies on; most often one.
	Scores []int
	// Left and Right are the panels beside From→To.
	Left, Right int
	From, To    plane.Point
	// Parts are the scored stretches between From and To; more than one where a slit or window interrupts the score.
	Parts []plane.Segment
	Sense card.Sense
}

// Score returns the index of the first score that the hinge lies on.
func (h Hinge) Score() int { return h.Scores[0] }

// Length returns the scored length, without what windows and slits take out, in nanometres.
func (h Hinge) Length() float64 {
	sum := 0.0
	for _, p := range h.Parts {
		sum += distance(p.A, p.B)
	}
	return sum
}

// PanelNamed returns the indices of the panels with a name.
func (p *Pattern) PanelNamed(name string) []int {
	var found []int
	for i := range p.Panels {
		if p.Panels[i].Name == name {
			found = append(found, i)
		}
	}
	return found
}

// Rings returns the edges of the panel: its outline first, then its holes.
func (p *Panel) Rings() [][]plane.Point { return append([][]plane.Point{p.Outline}, p.Holes...) }

// Area returns the area of the panel in nm².
func (p *Panel) Area() float64 {
	sum := 0.0
	for _, ring := range p.Rings() {
		sum += plane.Area(ring)
	}
	return sum
}

// Contains says whether (x, y), in nanometres, lies in the panel; on the border either may come out.
func (p *Panel) Contains(x, y float64) bool {
	if x < float64(p.Box.Min.X) || x > float64(p.Box.Max.X) || y < float64(p.Box.Min.Y) || y > float64(p.Box.Max.Y) {
		return false
	}
	if !plane.InPolygon(p.Outline, x, y) {
		return false
	}
	for _, h := range p.Holes {
		if plane.InPolygon(h, x, y) {
			return false
		}
	}
	return true
}

// label gives every panel a name for people.
func (p *Pattern) label() {
	count := map[string]int{}
	for _, q := range p.Panels {
		count[q.Name]++
	}
	seen := map[string]int{}
	for i := range p.Panels {
		q := &p.Panels[i]
		seen[q.Name]++
		switch {
		case q.Name == "":
			q.Label = fmt.Sprintf("panel %d", i+1)
		case count[q.Name] > 1:
			q.Label = fmt.Sprintf("%s (%d)", q.Name, seen[q.Name])
		default:
			q.Label = q.Name
		}
	}
}

// ScoreLine returns the two ends of a score of the piece, drawn across the whole piece for Across and Up.
func ScoreLine(p *card.Piece, s card.Score) plane.Segment {
	box := OutlineBox(p)
	switch s.Kind {
	case card.Across:
		x := box.Min.X + s.At
		return plane.Segment{A: plane.Point{X: x, Y: box.Min.Y}, B: plane.Point{X: x, Y: box.Max.Y}}
	case card.Up:
		y := box.Min.Y + s.At
		return plane.Segment{A: plane.Point{X: box.Max.X, Y: y}, B: plane.Point{X: box.Min.X, Y: y}}
	}
	return plane.Segment{A: s.From, B: s.To}
}

// Outline returns the corners of a piece, counter-clockwise for a rectangle, as written for any other outline.
func Outline(p *card.Piece) []plane.Point {
	if len(p.Outline) > 0 {
		return p.Outline
	}
	return plane.Rectangle(plane.Box{Max: plane.Point{X: p.Size.W, Y: p.Size.H}})
}

// OutlineBox returns the bounding rectangle of a piece.
func OutlineBox(p *card.Piece) plane.Box { return plane.BoxOf(Outline(p)...) }

// ovalCorners is how many corners an oval has wherever panels are computed: the polygon is within 0.12 % of the half axes.
const ovalCorners = 64

// WindowShape returns the corners of a window; an oval becomes a polygon.
func WindowShape(w card.Window) []plane.Point {
	if w.Kind == card.Polygon {
		return w.Points
	}
	box := plane.Box{Min: w.At, Max: w.At.Add(plane.Point{X: w.Size.W, Y: w.Size.H})}
	if w.Kind == card.Rect {
		return plane.Rectangle(box)
	}
	return plane.Ellipse(box, ovalCorners)
}

func middle(a, b plane.Point) (x, y float64) {
	return (float64(a.X) + float64(b.X)) / 2, (float64(a.Y) + float64(b.Y)) / 2
}

// millimetres prints a length for a message in the card's own manner: a plain number of the unit.
func millimetres(l length.Length) string { return l.Human(length.MM) }
