package view

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
)

// locate works out where every glued area lies that has edges of its own on its panel: how far it is from the nearest lines
// of the panel, across and up; corner by corner where it runs aslant. Nothing is said of an area that starts at a corner of
// its panel: it is put flush.
func (w *patternView) locate() {
	for i := range w.areas {
		g := &w.areas[i]
		if len(glueEdge(w.p, *g, drawing.Glue)) == 0 {
			continue
		}
		across, up, ok := w.beside(*g)
		switch {
		case !ok:
			g.corners, g.lies = true, "corners "+points(w.unit, " ", g.region.outer...)
		case across.far != 0 || up.far != 0:
			g.lies = across.words(w.unit) + ", " + up.words(w.unit)
			w.named = append(w.named, across.line, up.line)
		}
	}
}

// places lists where the glued areas lie.
func (w *patternView) places() []string {
	head := "where glued pieces lie, left and right as drawn"
	var out []string
	for _, g := range w.areas {
		if g.lies != "" {
			out = append(out, w.areaName(g)+": "+g.lies)
		}
	}
	if len(out) == 0 {
		return nil
	}
	if slices.ContainsFunc(w.areas, func(g glueArea) bool { return g.corners }) {
		head += "; corners across and up from the lower left corner"
	}
	return append([]string{head + ":"}, out...)
}

// areaName returns the letter of a glued area, or, where the words stand in the drawing, what is glued on which panel.
func (w *patternView) areaName(g glueArea) string {
	if g.sign != "" {
		return g.sign
	}
	behind := ""
	if g.inner {
		behind = ", behind"
	}
	return strings.Join(g.others, "; ") + " on " + w.p.Panels[g.panel].Label + behind
}

// manyCorners is the number of corners above which an area counts as round: its widest places are measured then.
const manyCorners = 8

// beside returns how far an area is from the nearest upright and the nearest level line of its panel; false for an area that
// runs aslant, or where no such lines are beside it.
func (w *patternView) beside(g glueArea) (across, up distance, ok bool) {
	if aslant(g.region.outer) {
		return distance{}, distance{}, false
	}
	box := plane.BoxOf(g.region.outer...)
	across, ok1 := w.nearest(g, box, uprightLines)
	up, ok2 := w.nearest(g, box, levelLines)
	return across, up, ok1 && ok2
}

// aslant says whether most of a ring is neither level nor upright; round things do not count.
func aslant(ring []plane.Point) bool {
	if len(ring) > manyCorners {
		return false
	}
	square, all := 0.0, 0.0
	for i, a := range ring {
		d := ring[(i+1)%len(ring)].Sub(a)
		long := math.Hypot(float64(d.X), float64(d.Y))
		all += long
		if min(d.X.Abs(), d.Y.Abs()) <= merging {
			square += long
		}
	}
	return square < all/2
}

// distance is how far an area lies from a line of its panel.
type distance struct {
	far  length.Length
	line string
}

func (d distance) words(u length.Unit) string {
	if d.far == 0 {
		return "flush with " + d.line
	}
	return both(d.far, u) + " from " + d.line
}

// direction is that of the lines from which something is measured.
type direction uint8

const (
	uprightLines direction = iota
	levelLines
)

// split returns the coordinate across a direction first, then the one along it.
func (d direction) split(p plane.Point) (across, along length.Length) {
	if d == uprightLines {
		return p.X, p.Y
	}
	return p.Y, p.X
}

// nearest returns the nearest line of the panel of a direction, beside the area on either side.
func (w *patternView) nearest(g glueArea, box plane.Box, dir direction) (distance, bool) {
	low, from := dir.split(box.Min)
	high, to := dir.split(box.Max)
	ring := w.p.Panels[g.panel].Outline
	best, found := distance{}, false
	for i, a := range ring {
		b := ring[(i+1)%len(ring)]
		at, s := dir.split(a)
		other, t := dir.split(b)
		begin, end := max(from, min(s, t)), min(to, max(s, t))
		if at != other || begin >= end {
			continue
		}
		far := low - at
		if at >= high {
			far = at - high
		} else if at > low {
			continue
		}
		if far.Abs() <= merging { // placed by slanted folds: good to a micrometre
			far = 0
		}
		if name := w.lineName(g.panel, dir, at, (begin+end)/2); name != "" && far >= 0 && (!found || far < best.far) {
			best, found = distance{far, name}, true
		}
	}
	return best, found
}

// lineName names the line of a panel that passes a point: a score, a slit or an outer edge of the panel; "" for an edge
// within, which a notch has.
func (w *patternView) lineName(panel int, dir direction, at, along length.Length) string {
	on := func(s plane.Segment) bool {
		a, s0 := dir.split(s.A)
		b, s1 := dir.split(s.B)
		return a == at && b == at && min(s0, s1) <= along && along <= max(s0, s1)
	}
	for _, h := range w.p.Hinges {
		if (h.Left == panel || h.Right == panel) && slices.ContainsFunc(h.Parts, on) {
			return scoreName(h.Score())
		}
	}
	for i, s := range w.p.Piece.Slits {
		if on(plane.Segment{A: s.From, B: s.To}) {
			return fmt.Sprintf("slit %d", i+1)
		}
	}
	low, _ := dir.split(w.p.Panels[panel].Box.Min)
	high, _ := dir.split(w.p.Panels[panel].Box.Max)
	names := [2][2]string{{"the left edge", "the right edge"}, {"the lower edge", "the upper edge"}}[dir]
	switch at {
	case low:
		return names[0]
	case high:
		return names[1]
	}
	return ""
}
