package flat

import (
	"iter"

	"foldwright/length"
	"foldwright/plane"
)

// MatTrouble is a mat that does not do: Gone where its edge leaves nothing of it, else it lies over a window.
type MatTrouble struct {
	Mat   int // index in the card
	Panel int
	Gone  bool
}

// MatTrouble lists the mats of the card that leave nothing of themselves or cover a window of their panel.
func (c *Closed) MatTrouble() []MatTrouble {
	var out []MatTrouble
	for m := range c.matsOnPanels() {
		panel := c.Assembly.Panels[m.panel]
		switch {
		case 2*m.inset >= panel.Box.W() || 2*m.inset >= panel.Box.H():
			out = append(out, MatTrouble{Mat: m.mat, Panel: m.panel, Gone: true})
		case len(panel.Holes) > 0 && m.inset < clearOf(panel.Box, panel.Holes):
			out = append(out, MatTrouble{Mat: m.mat, Panel: m.panel})
		}
	}
	return out
}

// matOn is a mat on one panel: inset is how far its edge lies within that of the panel.
type matOn struct {
	mat, panel int
	inset      length.Length
}

// matsOnPanels yields every mat on each of its panels, those next to a panel first.
func (c *Closed) matsOnPanels() iter.Seq[matOn] {
	return func(yield func(matOn) bool) {
		insets := make([]length.Length, len(c.At))
		for i, m := range c.Assembly.Card.Mats {
			for _, ref := range m.Panels {
				for _, p := range c.Assembly.FindAll(ref) {
					insets[p] += m.Edge
					if !yield(matOn{i, p, insets[p]}) {
						return
					}
				}
			}
		}
	}
}

// clearOf returns how far in a mat must stay to have no hole under it: never more than half the panel.
func clearOf(box plane.Box, holes [][]plane.Point) length.Length {
	most := length.Length(0)
	for _, h := range holes {
		b := plane.BoxOf(h...)
		most = max(most, min(b.Max.X-box.Min.X, box.Max.X-b.Min.X, b.Max.Y-box.Min.Y, box.Max.Y-b.Min.Y))
	}
	return most
}
