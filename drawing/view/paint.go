package view

import (
	"foldwright/drawing"
	"foldwright/fold"
)

// daub is one thing to paint: a whole sheet, or a part of one where sheets reach round each other.
type daub struct {
	sheet int
	whole bool
	// fragments are the parts as they are seen, with their true sides.
	fragments []fragment
}

type fragment struct {
	sheet  int
	points []drawing.Point
	edge   []bool
	box    drawing.Box
}

// edgeOn is how much of its size a sheet must show: the sine of the angle to the line of sight.
const edgeOn = 1e-4

// painted returns the daubs of sheets from the farthest to the nearest. Sheets are painted whole wherever an order can be
// found for them, so that a view shows no seams where the tree has cut; where sheets reach round each other, the parts
// that the tree made are painted instead.
func painted(sheets []sheet, o *order, c camera) []daub {
	var all []polygon
	for _, s := range sheets {
		all = append(all, s.parts...)
	}
	var list []fragment
	newTree(all).paint(c.towards, func(plane []polygon) {
		list = append(list, o.sorted(seen(plane, sheets, c), sheets, c.towards)...)
	})
	return joined(list)
}

// seen returns the polygons that are not seen edge-on as they are seen.
func seen(list []polygon, sheets []sheet, c camera) []fragment {
	out := make([]fragment, 0, len(list))
	for _, p := range list {
		if d := sheets[p.sheet].normal.Dot(c.towards); d < edgeOn && d > -edgeOn {
			continue
		}
		f := fragment{sheet: p.sheet, edge: p.edge}
		for _, v := range p.corners {
			f.points = append(f.points, c.see(v))
		}
		f.box = drawing.BoxOf(f.points...)
		out = append(out, f)
	}
	return out
}

// sorted puts the fragments of one plane into the order of their layers, the farthest first.
func (o *order) sorted(plane []fragment, sheets []sheet, towards fold.Vec) []fragment {
	if len(plane) < 2 {
		return plane
	}
	waits := func(i, k int) bool { // i must wait for k: only what lies over it has to
		a, b := plane[i], plane[k]
		return a.sheet != b.sheet && a.box.Meets(b.box) && meet(a.points, b.points) &&
			o.nearer(b.sheet, a.sheet, sheets, towards) > 0
	}
	return inOrder(plane, waits)
}

// inOrder sorts things so that none comes before one that it waits for; the first in the list that can go goes. Where all
// wait for each other, the first goes.
func inOrder[T any](list []T, waits func(i, k int) bool) []T {
	done := make([]bool, len(list))
	out := make([]T, 0, len(list))
	for len(out) < len(list) {
		next := -1
		for i := range list {
			if done[i] {
				continue
			}
			if next < 0 {
				next = i
			}
			free := true
			for k := range list {
				if !done[k] && k != i && waits(i, k) {
					free = false
					break
				}
			}
			if free {
				next = i
				break
			}
		}
		done[next] = true
		out = append(out, list[next])
	}
	return out
}

// joined puts fragments together to whole sheets as far as that keeps every fragment behind what hides it.
func joined(list []fragment) []daub {
	behind := make([][]int, len(list)) // per fragment those that it hides
	for i, f := range list {
		for k := range i {
			if g := list[k]; g.sheet != f.sheet && f.box.Meets(g.box) && meet(f.points, g.points) {
				behind[i] = append(behind[i], k)
			}
		}
	}
	parted := map[int]bool{} // sheets that are painted in parts
	for {
		daubs, stuck := arrange(list, behind, parted)
		if stuck < 0 {
			return daubs
		}
		parted[stuck] = true
	}
}

// arrange sorts daubs so that each comes after all that it hides. Where sheets wait for each other it returns the one to be
// painted in parts, else -1.
func arrange(list []fragment, behind [][]int, parted map[int]bool) ([]daub, int) {
	var daubs []daub
	of := make([]int, len(list)) // the daub of each fragment
	whole := map[int]int{}
	for i, f := range list {
		k, ok := whole[f.sheet]
		if !ok || parted[f.sheet] {
			k = len(daubs)
			daubs = append(daubs, daub{sheet: f.sheet, whole: !parted[f.sheet]})
			whole[f.sheet] = k
		}
		daubs[k].fragments = append(daubs[k].fragments, f)
		of[i] = k
	}
	waits := make([]map[int]bool, len(daubs))
	for i := range daubs {
		waits[i] = map[int]bool{}
	}
	for i, b := range behind {
		for _, k := range b {
			waits[of[i]][of[k]] = true
		}
	}
	done := make([]bool, len(daubs))
	out := make([]daub, 0, len(daubs))
	for len(out) < len(daubs) {
		next := -1
		for i := range daubs {
			if !done[i] && ready(waits[i], done) {
				next = i
				break
			}
		}
		if next < 0 {
			return nil, mostParts(daubs, done)
		}
		done[next] = true
		out = append(out, daubs[next])
	}
	return out, -1
}

func ready(waits map[int]bool, done []bool) bool {
	for k := range waits {
		if !done[k] {
			return false
		}
	}
	return true
}

// mostParts returns the sheet that the tree has cut into most parts, of those that are not painted yet. One is always cut:
// uncut sheets come in the order of the tree and wait only for earlier ones.
func mostParts(daubs []daub, done []bool) int {
	best, most := -1, 0
	for i, d := range daubs {
		if !done[i] && d.whole && len(d.fragments) > most {
			best, most = d.sheet, len(d.fragments)
		}
	}
	return best
}

// shapes returns what a daub looks like.
func (d daub) shapes(s sheet, c camera) []drawing.Shape {
	fill := c.fill(s)
	if d.whole {
		p := drawing.Polygon{Fill: fill, Line: drawing.Edge}
		for i, ring := range s.rings {
			seen := make([]drawing.Point, len(ring))
			for k, v := range ring {
				seen[k] = c.see(v)
			}
			if i == 0 {
				p.Outer = seen
			} else {
				p.Holes = append(p.Holes, seen)
			}
		}
		return []drawing.Shape{p}
	}
	var out []drawing.Shape
	for _, f := range d.fragments {
		out = append(out, drawing.Polygon{Fill: fill, Outer: f.points})
		for i, a := range f.points {
			if f.edge[i] {
				out = append(out, drawing.Line(drawing.Edge, a, f.points[(i+1)%len(f.points)]))
			}
		}
	}
	return out
}
