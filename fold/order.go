package fold

import (
	"foldwright/flat"
)

// Passing is two panels that change sides at the very beginning of the opening: In front in the closed card, Behind as soon
// as it is ajar.
type Passing struct{ Behind, Front int }

// How many of the first poses are looked at, and how far in millimetres a panel must be on the wrong side there.
const (
	firstPoses = 3
	wrongSide  = 0.05
)

// Passings lists the panels whose layers in the closed card are the wrong way round for the way that it opens: Behind lies
// behind Front when the card is ajar, though the closed card has it in front. They would pass through each other. Another
// layer order of the same closed card may be free of it; see flat.Closed.Reorder.
func (m *Model) Passings(closed *flat.Closed, o *Opening) []Passing {
	type pair struct{ p, q int }
	seen := make(map[pair]bool)
	var out []Passing
	for k := 1; k <= firstPoses && k < len(o.Poses); k++ {
		pose := o.Poses[k]
		for _, cell := range closed.Overlay.Cells {
			at := make([]Vec, len(cell.Stack))
			for i, p := range cell.Stack {
				x, y := closed.At[p].Inverse().At(cell.X, cell.Y)
				at[i] = pose.Panels[p].At(Vec{x * mmPerNM, y * mmPerNM, 0})
			}
			for i, p := range cell.Stack {
				for j := i + 1; j < len(cell.Stack); j++ {
					q := cell.Stack[j]
					if seen[pair{p, q}] {
						continue
					}
					normal := pose.Panels[p].Z.Scale(m.front(p)).Add(pose.Panels[q].Z.Scale(m.front(q))).Unit()
					if at[i].Sub(at[j]).Dot(normal) < -wrongSide {
						seen[pair{p, q}] = true
						out = append(out, Passing{Behind: p, Front: q})
					}
				}
			}
		}
	}
	return out
}
