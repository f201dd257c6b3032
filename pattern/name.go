package pattern

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// name gives the panels the names of the recipe.
func (b *builder) name() {
	switch names := b.piece.Strip; {
	case len(names) == 0:
	case !b.out.Strip:
		b.report("panel-names-need-points", b.piece.StripWhere,
			fmt.Sprintf("its panels do not follow each other in one row (%d scores make %d panels), so a list cannot name them",
				len(b.piece.Scores), len(b.out.Panels)),
			"each panel named by a point in it", "panel "+firstName(names)+" at ("+b.pointIn(0)+")")
	case len(names) != len(b.out.Panels):
		b.report("panel-count", b.piece.StripWhere,
			fmt.Sprintf("%d names for %d panels", len(names), len(b.out.Panels)), "one name for each panel, _ for one without a name", "")
	default:
		for i, n := range names {
			b.out.Panels[i].Name = n.Name
		}
	}
	for _, at := range b.piece.PanelsAt {
		b.nameAt(at)
	}
}

func firstName(names []card.StripName) string {
	for _, n := range names {
		if n.Name != "" {
			return n.Name
		}
	}
	return "front"
}

// pointIn returns a point of a panel as a recipe writes it, on a whole millimetre where one lies inside.
func (b *builder) pointIn(i int) string {
	if i >= len(b.out.Panels) {
		return "x, y"
	}
	p := &b.out.Panels[i]
	x, _ := length.Length(p.InX).Snap(length.Millimetre)
	y, _ := length.Length(p.InY).Snap(length.Millimetre)
	if !p.Contains(float64(x), float64(y)) {
		x, y = length.Length(p.InX), length.Length(p.InY)
	}
	return millimetres(x) + ", " + millimetres(y)
}

func (b *builder) nameAt(at card.PanelAt) {
	i := slices.IndexFunc(b.out.Panels, func(p Panel) bool { return p.Contains(float64(at.At.X), float64(at.At.Y)) })
	if i < 0 {
		b.report("panel-point", at.Where, fmt.Sprintf("the point for panel %q is in no panel", at.Name),
			"a point inside the piece and outside its windows", "panel "+at.Name+" at ("+b.pointIn(0)+")")
		return
	}
	p := &b.out.Panels[i]
	if slices.ContainsFunc(p.Rings(), func(ring []plane.Point) bool { return onRing(ring, at.At) }) {
		b.report("panel-point", at.Where, fmt.Sprintf("the point for panel %q lies on the border between panels", at.Name),
			"a point well inside the panel", "panel "+at.Name+" at ("+b.pointIn(i)+")")
		return
	}
	if p.Name != "" && p.Name != at.Name {
		b.problems.Add(problem.Problem{
			Rule: "panel-named-twice", Where: at.Where,
			What:  fmt.Sprintf("piece %s: the panel at this point is called %q already", b.piece.Name, p.Name),
			Needs: "one name for each panel",
		})
		return
	}
	p.Name = at.Name
}

// wedges takes the outer corners off tabs. A tab hangs on one hinge; its outer corners are those not on the hinge.
func (b *builder) wedges() {
	for _, w := range b.piece.Wedges {
		found := b.out.PanelNamed(w.Panel)
		if len(found) == 0 {
			b.report("wedge-place", w.Where, fmt.Sprintf("there is no panel %q to take corners off", w.Panel), "the name of a tab", "")
			continue
		}
		for _, i := range found {
			b.wedge(i, w)
		}
	}
}

func (b *builder) wedge(i int, w card.Wedge) {
	var hinge *Hinge
	for k := range b.out.Hinges {
		if h := &b.out.Hinges[k]; h.Left == i || h.Right == i {
			if hinge != nil {
				b.report("wedge-place", w.Where, fmt.Sprintf("panel %q hangs on two scores, so it has no outer corners", w.Panel),
					"a tab that hangs on one score", "")
				return
			}
			hinge = h
		}
	}
	p := &b.out.Panels[i]
	if hinge == nil || len(p.Outline) != 4 || !p.level() {
		b.report("wedge-place", w.Where, fmt.Sprintf("panel %q is not a rectangle on one score", w.Panel), "a rectangular tab", "")
		return
	}
	if along, across := sides(p, hinge); 2*w.Depth >= along || w.Depth >= across {
		b.report("wedge-size", w.Where, fmt.Sprintf("a wedge of %s leaves nothing of panel %q", millimetres(w.Depth), w.Panel),
			"less than half the length of its score, and less than its depth", "")
		return
	}
	p.Outline = chamfer(p.Outline, hinge, w.Depth)
}

// level says whether the panel is a rectangle with level and upright sides.
func (p *Panel) level() bool {
	for _, c := range p.Outline {
		if (c.X != p.Box.Min.X && c.X != p.Box.Max.X) || (c.Y != p.Box.Min.Y && c.Y != p.Box.Max.Y) {
			return false
		}
	}
	return true
}

// sides returns how long a rectangular panel is along a hinge, and how deep across it.
func sides(p *Panel, h *Hinge) (along, across length.Length) {
	if h.From.X == h.To.X {
		return p.Box.H(), p.Box.W()
	}
	return p.Box.W(), p.Box.H()
}

// chamfer replaces every corner that is not on the hinge's line by two, depth away along both sides.
func chamfer(ring []plane.Point, h *Hinge, depth length.Length) []plane.Point {
	var out []plane.Point
	n := len(ring)
	for i, c := range ring {
		if plane.Side(h.From, h.To, c) == 0 {
			out = append(out, c)
			continue
		}
		out = append(out, towards(c, ring[(i+n-1)%n], depth), towards(c, ring[(i+1)%n], depth))
	}
	return out
}

// towards moves a point of a rectangle by depth towards its neighbour.
func towards(c, neighbour plane.Point, depth length.Length) plane.Point {
	d := neighbour.Sub(c)
	return plane.Point{X: c.X + length.Length(cmp.Compare(d.X, 0))*depth, Y: c.Y + length.Length(cmp.Compare(d.Y, 0))*depth}
}
