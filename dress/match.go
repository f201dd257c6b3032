package dress

import (
	"cmp"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/stock"
)

// Match is a die or stamp that lies within a face, clear of what glue holds on it.
type Match struct {
	Die   stock.Die
	Panel int
	// Turned says that it lies so only by a quarter turn.
	Turned bool
	// Margin is how much of the panel it leaves on its narrowest side.
	Margin length.Length
}

// Matches lists, face by face, which tools make something that lies within it, in the middle, with at least the margin on
// every side; the largest first.
func (w *Wardrobe) Matches(dies []stock.Die, margin length.Length) []Match {
	var out []Match
	for _, f := range w.faces {
		from := len(out)
		for _, d := range dies {
			for _, turned := range []bool{false, true} {
				if m, ok := w.match(f.Panel, d, turned, margin); ok {
					out = append(out, m)
					break
				}
			}
		}
		slices.SortStableFunc(out[from:], func(a, b Match) int { return cmp.Compare(b.Die.W.MM()*b.Die.H.MM(), a.Die.W.MM()*a.Die.H.MM()) })
	}
	return out
}

func (w *Wardrobe) match(panel int, d stock.Die, turned bool, margin length.Length) (Match, bool) {
	if turned && d.W == d.H {
		return Match{}, false
	}
	c := w.closed
	t := card.Topper{Kind: shapeOf(d), Size: sizeOf(d, turned)}
	on := plane.BoxOf(c.At[panel].Points(w.panel(panel).Outline)...)
	m := Match{Die: d, Panel: panel, Turned: turned, Margin: min(on.W()-t.Size.W, on.H()-t.Size.H) / 2}
	if m.Margin < margin {
		return m, false
	}
	ring := ringOf(t, middleOf(on, t.Size))
	back := c.At[panel].Inverse().Points(ring)
	if shares(back, w.panel(panel).Outline, false) {
		return m, false
	}
	blocked := slices.Clone(w.panel(panel).Holes)
	for _, cover := range w.face(panel).Covers {
		if cover.Glued {
			blocked = append(blocked, cover.Ring)
		}
	}
	return m, !slices.ContainsFunc(blocked, func(r []plane.Point) bool { return shares(back, r, true) })
}

// Takes says whether a stamp prints on what a die or punch cuts with at least the margin on every side, as it is or turned.
// An oval or a circle takes what its inscribed ellipse leaves room for.
func Takes(cut, stamp stock.Die, margin length.Length) bool {
	ring := ringOf(card.Topper{Kind: shapeOf(cut)}, plane.Box{Max: plane.Point{X: cut.W, Y: cut.H}})
	for _, turned := range []bool{false, true} {
		size := sizeOf(stamp, turned)
		size.W, size.H = size.W+2*margin, size.H+2*margin
		print := ringOf(card.Topper{Kind: shapeOf(stamp)}, middleOf(plane.Box{Max: plane.Point{X: cut.W, Y: cut.H}}, size))
		if size.W <= cut.W && size.H <= cut.H && !shares(print, ring, false) {
			return true
		}
	}
	return false
}

func shapeOf(d stock.Die) card.WindowKind {
	return [...]card.WindowKind{stock.RectShape: card.Rect, stock.OvalShape: card.Oval, stock.CircleShape: card.Circle}[d.Shape]
}

func sizeOf(d stock.Die, turned bool) card.Size {
	if turned {
		return card.Size{W: d.H, H: d.W}
	}
	return card.Size{W: d.W, H: d.H}
}

// middleOf returns the box of a size in the middle of another one.
func middleOf(on plane.Box, s card.Size) plane.Box {
	low := plane.Point{X: (on.Min.X + on.Max.X - s.W) / 2, Y: (on.Min.Y + on.Max.Y - s.H) / 2}
	return plane.Box{Min: low, Max: low.Add(plane.Point{X: s.W, Y: s.H})}
}

// roundCorners is how many corners an oval has here.
const roundCorners = 64

func ringOf(t card.Topper, box plane.Box) []plane.Point {
	if t.Kind == card.Rect {
		return plane.Rectangle(box)
	}
	return plane.Ellipse(box, roundCorners)
}
