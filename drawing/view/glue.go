package view

import (
	"slices"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/pattern"
	"foldwright/plane"
)

// glueArea is where a panel of a piece is glued to another, on one face.
type glueArea struct {
	panel  int // of the pattern
	inner  bool
	region region
	words  []string
	others []string // the panels that are glued there
	sign   string   // the letter that stands in the area where its words find no room
	// lies says where the area is to be measured on its panel, if that needs saying; corners: by its corners.
	lies    string
	corners bool
}

// glueAreas lists the glued areas of a piece, each once with everything that is glued there, in the order of the glue lines.
func glueAreas(a *pattern.Assembly, piece int) []glueArea {
	var out []glueArea
	for i, j := range a.Joints {
		kind := j.Glue.Joint
		ends := [2]struct {
			panel, other int
			inner        bool
			place        plane.Motion // of the other panel on this one
		}{
			{j.A, j.B, kind == card.Outside || kind == card.Facing, j.Place.Inverse()},
			{j.B, j.A, kind == card.Inside || kind == card.Facing, j.Place},
		}
		for _, e := range ends {
			c := a.Copies[a.Panels[e.panel].Copy]
			if c.Piece != piece {
				continue
			}
			for _, r := range common(a.Panels[e.panel].Panel, a.Panels[e.other].Panel, e.place) {
				out = addGlue(out, glueArea{
					panel: e.panel - c.FirstPanel, inner: e.inner, region: r,
					words: []string{jointWords(a, i)}, others: []string{otherWords(a, e.panel, e.other)},
				})
			}
		}
	}
	return out
}

// jointWords names a glue joint; copies that are glued the same way within themselves are not told apart.
func jointWords(a *pattern.Assembly, j int) string {
	p, q := a.Panels[a.Joints[j].A], a.Panels[a.Joints[j].B]
	if p.Copy == q.Copy {
		name := a.Copies[p.Copy].Pattern.Piece.Name
		return name + "." + p.Label + " " + a.Joints[j].Glue.Joint.String() + " " + name + "." + q.Label
	}
	return a.Name(j)
}

// otherWords names a panel that is glued to another; within a copy the number of the copy says nothing.
func otherWords(a *pattern.Assembly, panel, other int) string {
	q := a.Panels[other]
	if q.Copy == a.Panels[panel].Copy {
		return a.Copies[q.Copy].Pattern.Piece.Name + "." + q.Label
	}
	return q.Ref
}

func addGlue(list []glueArea, g glueArea) []glueArea {
	for i := range list {
		l := &list[i]
		if l.panel != g.panel || l.inner != g.inner || !sameRing(l.region.outer, g.region.outer) {
			continue
		}
		if !slices.Contains(l.words, g.words[0]) {
			l.words = append(l.words, g.words...)
		}
		if !slices.Contains(l.others, g.others[0]) {
			l.others = append(l.others, g.others...)
		}
		return list
	}
	return append(list, g)
}

// sameRing says whether two rings have the same corners, whichever comes first.
func sameRing(a, b []plane.Point) bool {
	if len(a) != len(b) {
		return false
	}
	for shift := range b {
		same := true
		for i := range a {
			if a[i] != b[(i+shift)%len(b)] {
				same = false
				break
			}
		}
		if same {
			return true
		}
	}
	return false
}

// common returns what panel p and panel q, laid on it, have in common, in p's pattern.
func common(p, q *pattern.Panel, place plane.Motion) []region {
	var segments []plane.Segment
	for _, ring := range p.Rings() {
		segments = ringSegments(segments, ring, 0)
	}
	for _, ring := range q.Rings() {
		segments = ringSegments(segments, moved(place, ring), 1)
	}
	sub := plane.Subdivide(segments, merging)
	back := place.Inverse()
	label := make([]int, len(sub.Faces))
	for f := range sub.Faces {
		label[f] = none
		x, y, ok := sub.InnerPoint(f)
		if !ok || sub.Faces[f].Area < speck || !p.Contains(x, y) {
			continue
		}
		if u, v := back.At(x, y); q.Contains(u, v) {
			label[f] = 0
		}
	}
	return regions(sub, label)
}

// mat is a layer on a panel of a piece.
type mat struct {
	panel int // of the pattern
	stock string
	box   plane.Box
}

// matsOf lists the mats on a piece, those next to the card first. Copies that carry the same mats count once.
func matsOf(a *pattern.Assembly, piece int) []mat {
	var out []mat
	for i, c := range a.Copies {
		if c.Piece != piece {
			continue
		}
		inset := map[int]plane.Point{}
		var here []mat
		for _, m := range a.Card.Mats {
			for _, ref := range m.Panels {
				for _, p := range a.FindAll(ref) {
					if a.Panels[p].Copy != i {
						continue
					}
					inset[p] = inset[p].Add(plane.Point{X: m.Edge, Y: m.Edge})
					b := a.Panels[p].Box
					b = plane.Box{Min: b.Min.Add(inset[p]), Max: b.Max.Sub(inset[p])}
					if b.W() > 0 && b.H() > 0 {
						here = append(here, mat{panel: p - c.FirstPanel, stock: m.Stock, box: b})
					}
				}
			}
		}
		if len(here) > len(out) {
			out = here
		}
	}
	return out
}

// partGlued returns the glued areas that leave room for words on their panels: those of less than half a panel.
func partGlued(p *pattern.Pattern, areas []glueArea) [][]drawing.Point {
	var out [][]drawing.Point
	for _, g := range areas {
		if g.region.area() < p.Panels[g.panel].Area()/2 {
			out = append(out, drawing.OfAll(g.region.outer))
		}
	}
	return out
}

// glueEdge returns the sides of a glued area that are no lines of its panel anyway.
func glueEdge(p *pattern.Pattern, g glueArea, role drawing.Role) []drawing.Shape {
	var out []drawing.Shape
	ring := g.region.outer
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		if !onBorder(p, g.panel, drawing.Of(a), drawing.Of(b)) {
			out = append(out, drawing.Line(role, drawing.Of(a), drawing.Of(b)))
		}
	}
	return out
}

// onBorder says whether a stretch runs along a side of a panel, to within a micrometre.
func onBorder(p *pattern.Pattern, panel int, a, b drawing.Point) bool {
	for _, ring := range rings(&p.Panels[panel]) {
		for i, c := range ring {
			e := ring[(i+1)%len(ring)]
			if near(a, c, e) && near(b, c, e) {
				return true
			}
		}
	}
	return false
}

// near says whether p lies on the segment c→e.
func near(p, c, e drawing.Point) bool {
	d := e.Sub(c)
	n := d.Len()
	q := p.Sub(c)
	along := (q.X*d.X + q.Y*d.Y) / n
	off := (d.X*q.Y - d.Y*q.X) / n
	return along > -1e-3 && along < n+1e-3 && off < 1e-3 && off > -1e-3
}
