package dress

import (
	"cmp"
	"fmt"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// edge returns the least edge, on marks, with which the first layer is clear of everything on all panels of the group, and
// why it is more than the reveal; -1 and why where none leaves half of each panel both ways.
func (m *matter) edge(g group, layers []Layer) (edge length.Length, why string) {
	for _, p := range g.panels {
		if bind, reason := m.binding(p, layers); bind > edge {
			edge, why = bind, reason
		}
	}
	edge = max(edge, layers[0].Reveal)
	for ; m.leaves(g, edge); edge += m.marks {
		trouble := ""
		for _, p := range g.panels {
			trouble = cmp.Or(trouble, m.trouble(p, edge))
		}
		if trouble == "" {
			if edge > layers[0].Reveal && !m.half(g, edge) {
				return -1, why + ": clear of it on all sides a mat would leave more than half of the panel bare"
			}
			return edge, why
		}
		why = trouble
	}
	return -1, cmp.Or(why, m.tooLittle(edge, 0))
}

// half says whether a mat is at least half as wide and high as its panel.
func (m *matter) half(g group, edge length.Length) bool {
	for _, p := range g.panels {
		if b := m.w.panel(p).Box; 4*edge > min(b.W(), b.H()) {
			return false
		}
	}
	return true
}

// trouble says what is in the way of a mat with this edge on a panel; "" for nothing.
func (m *matter) trouble(panel int, edge length.Length) string {
	p := m.w.panel(panel)
	in := plane.Point{X: edge, Y: edge}
	return m.w.inTheWay(panel, plane.Box{Min: p.Box.Min.Add(in), Max: p.Box.Max.Sub(in)})
}

// inTheWay says what keeps a box from lying on a panel; "" for nothing.
func (w *Wardrobe) inTheWay(panel int, box plane.Box) string {
	p := w.panel(panel)
	for _, hole := range p.Holes {
		if !apart(box, hole) {
			return "a window"
		}
	}
	for _, c := range w.face(panel).Covers {
		if c.Glued && !apart(box, c.Ring) {
			return w.panel(c.By).Ref + " is glued there"
		}
	}
	if !within(box, p.Outline) {
		return "the panel is not a rectangle"
	}
	return ""
}

// binding returns the edge that layers want at the folds of a panel, on marks, and why.
func (m *matter) binding(panel int, layers []Layer) (length.Length, string) {
	c := m.w.closed
	most, why := length.Length(0), ""
	for i, h := range c.Assembly.Hinges {
		other := h.A
		if h.A == panel {
			other = h.B
		} else if h.B != panel {
			continue
		}
		if !c.Folded[i] || c.Sense(i) != card.Valley {
			continue
		}
		between := m.thick(layers)
		if f := m.w.face(other); f != nil && f.Layers == 0 {
			between += m.thick(m.layersOf(f))
		}
		need, rest := (2 * between).Snap(m.marks)
		if rest > 0 {
			need += m.marks
		}
		if need > most {
			most = need
			why = fmt.Sprintf("score %d of %s shuts with the outer faces together: %s of layers between them want %s, or they bind",
				h.Score()+1, c.Assembly.Copies[h.Copy].Name, between.Both(m.unit), (2 * between).Both(m.unit))
		}
	}
	return most, why
}

func (m *matter) layersOf(f *Face) []Layer {
	if f.Front {
		return m.job.Front
	}
	return m.job.Back
}

// thick is how thick layers are on each other.
func (m *matter) thick(layers []Layer) length.Length {
	sum := length.Length(0)
	for _, l := range layers {
		s := m.out.stock(m.w.closed.Assembly.Card, l.Stock.Name)
		sum += s.Caliper
	}
	return sum
}
