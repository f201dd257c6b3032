package pattern

import (
	"fmt"

	"foldwright/card"
	"foldwright/plane"
	"foldwright/problem"
)

// checkOutline reports an outline that crosses or touches itself.
func (b *builder) checkOutline() {
	n := len(b.outline)
	side := func(i int) plane.Segment { return plane.Segment{A: b.outline[i], B: b.outline[(i+1)%n]} }
	for i := range n {
		for j := i + 1; j < n; j++ {
			neighbours := j == i+1 || (i == 0 && j == n-1)
			if neighbours && !foldsBack(b.outline, i, j) || !neighbours && !touch(side(i), side(j)) {
				continue
			}
			b.report("outline-crosses", b.piece.SizeWhere,
				fmt.Sprintf("the outline crosses itself: the side from corner %d meets the side from corner %d", i+1, j+1),
				"corners in order round the piece", "")
			return
		}
	}
}

// foldsBack says whether two neighbouring sides of a ring run over each other.
func foldsBack(ring []plane.Point, i, j int) bool {
	n := len(ring)
	if (j+1)%n == i {
		i, j = j, i
	}
	a, v, c := ring[i], ring[j], ring[(j+1)%n]
	u, w := a.Sub(v), c.Sub(v)
	return plane.Side(a, v, c) == 0 && float64(u.X)*float64(w.X)+float64(u.Y)*float64(w.Y) > 0 || a == v
}

// touch says whether two segments share a point.
func touch(a, b plane.Segment) bool {
	return a.Contains(b.A) || a.Contains(b.B) || b.Contains(a.A) || b.Contains(a.B) || a.Crosses(b)
}

func (b *builder) checkWindows() {
	for i, w := range b.windows {
		for _, p := range w {
			if !b.onPiece(p) {
				b.report("window-outside", b.piece.Windows[i].Where, fmt.Sprintf("window %d reaches outside the piece", i+1),
					"a window that lies within the piece", "")
				break
			}
		}
	}
}

func (b *builder) checkSlits() {
	slits := b.piece.Slits
	for i, s := range slits {
		x, y := middle(s.From, s.To)
		if !b.onPiece(s.From) || !b.onPiece(s.To) || !b.onPieceXY(x, y) {
			b.report("slit-outside", s.Where, fmt.Sprintf("slit %d reaches outside the piece", i+1),
				"a slit that lies within the piece", "")
		}
		for j := range slits[:i] {
			if !slitsClash(segmentOf(slits[j]), segmentOf(s)) {
				continue
			}
			b.problems.Add(problem.Problem{
				Rule: "slits-cross", Where: s.Where,
				What:  fmt.Sprintf("piece %s: slit %d crosses slit %d", b.piece.Name, i+1, j+1),
				Needs: "slits that meet at their ends or not at all",
				Notes: []problem.Note{{Where: slits[j].Where, What: "the other slit is here"}},
			})
		}
	}
}

func segmentOf(s card.Slit) plane.Segment { return plane.Segment{A: s.From, B: s.To} }

// slitsClash says whether two slits cross, or lie on each other for some length. Meeting at a point is allowed.
func slitsClash(a, b plane.Segment) bool {
	if a.Crosses(b) {
		return true
	}
	if plane.Side(a.A, a.B, b.A) != 0 || plane.Side(a.A, a.B, b.B) != 0 {
		return false
	}
	p, q := plane.BoxOf(a.A, a.B), plane.BoxOf(b.A, b.B)
	w := min(p.Max.X, q.Max.X) - max(p.Min.X, q.Min.X)
	h := min(p.Max.Y, q.Max.Y) - max(p.Min.Y, q.Min.Y)
	return w >= 0 && h >= 0 && (w > 0 || h > 0)
}

// onPiece says whether a point lies in the outline or on it.
func (b *builder) onPiece(p plane.Point) bool {
	return onRing(b.outline, p) || plane.InPolygon(b.outline, float64(p.X), float64(p.Y))
}

// onRing says whether a point lies on a side of a ring.
func onRing(ring []plane.Point, p plane.Point) bool {
	for i, c := range ring {
		if (plane.Segment{A: c, B: ring[(i+1)%len(ring)]}).Contains(p) {
			return true
		}
	}
	return false
}

// onPieceXY is onPiece for a point that need not lie on whole nanometres; the border counts as inside within 1 nm.
func (b *builder) onPieceXY(x, y float64) bool {
	if plane.InPolygon(b.outline, x, y) {
		return true
	}
	for _, d := range [4][2]float64{{1, 0}, {-1, 0}, {0, 1}, {0, -1}} {
		if plane.InPolygon(b.outline, x+d[0], y+d[1]) {
			return true
		}
	}
	return false
}

// checkJoined reports a piece that its slits and windows cut into several.
func (b *builder) checkJoined() {
	if len(b.out.Panels) == 0 {
		b.report("piece-falls-apart", b.piece.Where, "nothing is left of it", "some card between its windows", "")
		return
	}
	var links [][2]int
	for _, h := range b.out.Hinges {
		links = append(links, [2]int{h.Left, h.Right})
	}
	for i, ok := range reached(len(b.out.Panels), links) {
		if !ok {
			x, y := b.out.Panels[i].InX, b.out.Panels[i].InY
			b.report("piece-falls-apart", b.piece.Where,
				fmt.Sprintf("its slits and windows cut it apart: the part around (%.0f mm, %.0f mm) hangs on nothing", x/1e6, y/1e6),
				"every panel joined to the rest by a score, or a piece of its own for the part that falls off", "")
			return
		}
	}
}

// reached says which of n things hang together with the first by way of links between two.
func reached(n int, links [][2]int) []bool {
	out := make([]bool, n)
	if n > 0 {
		out[0] = true
	}
	for changed := true; changed; {
		changed = false
		for _, l := range links {
			if out[l[0]] != out[l[1]] {
				out[l[0]], out[l[1]], changed = true, true, true
			}
		}
	}
	return out
}
