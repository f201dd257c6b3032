package flat

import (
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// Peek is a hidden piece that shows beyond what should hide it.
type Peek struct {
	Copy int // of the assembly
	// Side is left, right, above or below; By is how far it shows there.
	Side string
	By   length.Length
	Box  plane.Box
}

// String returns "spring#1 peeks out 4 mm on the left".
func (p Peek) String(a *pattern.Assembly) string {
	where := map[string]string{"left": "on the left", "right": "on the right", "above": "above", "below": "below"}[p.Side]
	return fmt.Sprintf("%s peeks out %s %s", a.Copies[p.Copy].Name, p.By.Both(a.Card.Unit), where)
}

// Peeks lists the hidden pieces that show beyond what hides them in the closed card. A piece counts as hidden if most of
// it lies between others, seen from the front and from the back; in a card that opens at a score if any of it lies between
// the panels of that score's piece. What shows through a window is meant to.
func (c *Closed) Peeks() []Peek {
	if !c.OrderOK {
		return nil
	}
	hidden := c.hidden()
	cover := plane.Box{}
	any := false
	for i, p := range c.Assembly.Panels {
		if !hidden[p.Copy] {
			b := plane.BoxOf(moved(c.At[i], p.Outline)...)
			if !any {
				cover, any = b, true
			}
			cover = cover.Union(b)
		}
	}
	shown := make(map[int]plane.Box)
	for i, cell := range c.Overlay.Cells {
		if !c.onlyHidden(cell, hidden) || c.inWindow(cell, hidden) {
			continue
		}
		box := plane.BoxOf(c.Overlay.Ring(i)...)
		for _, p := range cell.Stack {
			copy := c.Assembly.Panels[p].Copy
			if b, ok := shown[copy]; ok {
				shown[copy] = b.Union(box)
			} else {
				shown[copy] = box
			}
		}
	}
	var peeks []Peek
	for i := range c.Assembly.Copies {
		if b, ok := shown[i]; ok {
			peeks = append(peeks, peeksOf(i, b, cover)...)
		}
	}
	return peeks
}

// hidden says which copies lie between others for more than half of the area that they cover.
func (c *Closed) hidden() []bool {
	covers := make([]float64, len(c.Assembly.Copies))
	seen := make([]float64, len(c.Assembly.Copies))
	for i, cell := range c.Overlay.Cells {
		area := c.Overlay.Area(i)
		in := make(map[int]bool)
		for _, p := range cell.Stack {
			in[c.Assembly.Panels[p].Copy] = true
		}
		front := c.Assembly.Panels[cell.Stack[0]].Copy
		back := c.Assembly.Panels[cell.Stack[len(cell.Stack)-1]].Copy
		for copy := range in {
			covers[copy] += area
			if copy == front || copy == back {
				seen[copy] += area
			}
		}
	}
	hidden := c.between()
	for i := range hidden {
		hidden[i] = hidden[i] || seen[i] < covers[i]/2
	}
	return hidden
}

// between says which copies lie somewhere between panels of the piece whose score the card opens at; none for other cards.
func (c *Closed) between() []bool {
	out := make([]bool, len(c.Assembly.Copies))
	opening := c.Assembly.Card.Opening
	cover, ok := c.Assembly.FindCopy(opening.Piece)
	if opening.Kind != card.OpensAt || !ok {
		return out
	}
	isCover := func(panel int) bool { return c.Assembly.Panels[panel].Copy == cover }
	for _, cell := range c.Overlay.Cells {
		first := slices.IndexFunc(cell.Stack, isCover)
		last := len(cell.Stack) - 1
		for last > first && !isCover(cell.Stack[last]) {
			last--
		}
		for k := first + 1; k < last; k++ {
			if copy := c.Assembly.Panels[cell.Stack[k]].Copy; copy != cover {
				out[copy] = true
			}
		}
	}
	return out
}

func (c *Closed) onlyHidden(cell Cell, hidden []bool) bool {
	for _, p := range cell.Stack {
		if !hidden[c.Assembly.Panels[p].Copy] {
			return false
		}
	}
	return true
}

// inWindow says whether a window of a cover panel lies over the cell.
func (c *Closed) inWindow(cell Cell, hidden []bool) bool {
	for i, p := range c.Assembly.Panels {
		if hidden[p.Copy] {
			continue
		}
		x, y := c.At[i].Inverse().At(cell.X, cell.Y)
		if !plane.InPolygon(p.Outline, x, y) {
			continue
		}
		for _, w := range pieceOf(c.Assembly, i).Windows {
			if plane.InPolygon(pattern.WindowShape(w), x, y) {
				return true
			}
		}
	}
	return false
}

// peeksOf tells on which sides of the cover a box shows, and how far; what shows within the cover's own box, where the
// cover leaves a gap, is said to show above.
func peeksOf(copy int, b, cover plane.Box) []Peek {
	over := [4]length.Length{cover.Min.X - b.Min.X, b.Max.X - cover.Max.X, b.Max.Y - cover.Max.Y, cover.Min.Y - b.Min.Y}
	var out []Peek
	for i, side := range [4]string{"left", "right", "above", "below"} {
		if over[i] > 0 {
			out = append(out, Peek{Copy: copy, Box: b, Side: side, By: over[i]})
		}
	}
	if len(out) == 0 {
		out = append(out, Peek{Copy: copy, Box: b, Side: "above", By: b.H()})
	}
	return out
}
