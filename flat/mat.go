package flat

import (
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
	insets := make([]length.Length, len(c.At))
	for i, m := range c.Assembly.Card.Mats {
		for _, ref := range m.Panels {
			for _, p := range c.Assembly.FindAll(ref) {
				insets[p] += m.Edge
				panel := c.Assembly.Panels[p]
				switch {
				case 2*insets[p] >= panel.Box.W() || 2*insets[p] >= panel.Box.H():
					out = append(out, MatTrouble{Mat: i, Panel: p, Gone: true})
				case len(panel.Holes) > 0 && insets[p] < clearOf(panel.Box, panel.Holes):
					out = append(out, MatTrouble{Mat: i, Panel: p})
				}
			}
		}
	}
	return out
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
