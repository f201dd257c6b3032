package dress

import (
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// strip lays the layers on a panel as level strips that keep clear, above or below, of what lies on it, and says whether it
// could. A recipe writes them as rectangular toppers, since a mat has one edge on all sides.
func (m *matter) strip(g group, layers []Layer) bool {
	if len(g.panels) != 1 {
		return false
	}
	panel, reveal := g.panels[0], layers[0].Reveal
	bind, _ := m.binding(panel, layers)
	box, ok := m.stretch(panel, max(reveal, bind))
	if !ok {
		return false
	}
	c := m.w.closed
	for i, l := range layers {
		if i > 0 {
			in := plane.Point{X: l.Reveal, Y: l.Reveal}
			if box = (plane.Box{Min: box.Min.Add(in), Max: box.Max.Sub(in)}); min(box.W(), box.H()) < smallest(m.unit) {
				m.bare(g, i+1, m.tooLittle(l.Reveal, i))
				return true
			}
		}
		m.out.Toppers = append(m.out.Toppers, card.Topper{Kind: card.Rect, Size: card.Size{W: box.W(), H: box.H()}, Stock: l.Stock.Name, On: g.ref,
			Place: card.TopperBottom, At: box.Min.Y - c.Box.Min.Y})
		if i == 0 {
			on := plane.BoxOf(c.At[panel].Points(m.w.panel(panel).Outline)...)
			m.room(g, Room{Reveal: reveal, Edge: max(box.Min.Y-on.Min.Y, on.Max.Y-box.Max.Y), Why: m.trouble(panel, reveal), Strip: true})
		}
	}
	return true
}

// stretch returns the highest level strip of a panel that is clear, in the closed card; ok is false where it is less than half
// the panel, or the panel lies askew there.
func (m *matter) stretch(panel int, reveal length.Length) (best plane.Box, ok bool) {
	c, p := m.w.closed, m.w.panel(panel)
	back := c.At[panel].Inverse()
	if c.At[panel].XX*c.At[panel].XY != 0 { // the panel lies askew
		return best, false
	}
	on := plane.BoxOf(c.At[panel].Points(p.Outline)...)
	levels := []length.Length{on.Min.Y, on.Max.Y}
	rings := slices.Clone(p.Holes)
	for _, cover := range m.w.face(panel).Covers {
		if cover.Glued {
			rings = append(rings, cover.Ring)
		}
	}
	for _, ring := range rings {
		b := plane.BoxOf(c.At[panel].Points(ring)...)
		levels = append(levels, b.Min.Y, b.Max.Y)
	}
	for _, low := range levels {
		for _, high := range levels {
			box := plane.Box{Min: plane.Point{X: on.Min.X + reveal, Y: low + reveal}, Max: plane.Point{X: on.Max.X - reveal, Y: high - reveal}}
			if box.H() <= best.H() || min(box.W(), box.H()) < smallest(m.unit) || 2*box.H() < on.H() {
				continue
			}
			if m.w.inTheWay(panel, plane.BoxOf(back.Points(plane.Rectangle(box))...)) == "" {
				best, ok = box, true
			}
		}
	}
	return best, ok
}

// write makes lines of the recipe: those of one layer, stock and edge together, and all copies of a piece by one name.
func (m *matter) write() {
	deepest := max(len(m.job.Front), len(m.job.Back))
	for k := range deepest { // a layer lies on those of earlier lines
		from := len(m.out.Mats)
		for _, l := range m.lines {
			if l.layer != k {
				continue
			}
			i := slices.IndexFunc(m.out.Mats[from:], func(o card.Mat) bool { return o.Stock == l.stock && o.Edge == l.edge })
			if i < 0 {
				i = len(m.out.Mats) - from
				m.out.Mats = append(m.out.Mats, card.Mat{Stock: l.stock, Edge: l.edge})
			}
			m.out.Mats[from+i].Panels = append(m.out.Mats[from+i].Panels, l.ref)
		}
		for i := range m.out.Mats[from:] {
			m.out.Mats[from+i].Panels = m.w.merged(m.out.Mats[from+i].Panels)
		}
	}
}

// merged names a panel once without a copy's number where all copies of its piece are listed.
func (w *Wardrobe) merged(refs []card.PanelRef) []card.PanelRef {
	count := map[card.PanelRef]int{}
	for _, r := range refs {
		r.Copy = 0
		count[r]++
	}
	var out []card.PanelRef
	for _, r := range refs {
		all := r
		all.Copy = 0
		for _, p := range w.closed.Assembly.Card.Pieces {
			if p.Name == r.Piece && p.Copies > 1 && count[all] == p.Copies {
				r = all
			}
		}
		if !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}
