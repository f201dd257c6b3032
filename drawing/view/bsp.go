package view

import (
	"math"

	"foldwright/fold"
)

// thin is how far off a plane, in mm, a corner still counts as on it: poses are good to a millionth of a millimetre.
const thin = 1e-3

// tree divides space by the planes of polygons (a binary space partition: Fuchs, Kedem, Naylor 1980, from memory), so that
// they can be painted from the farthest to the nearest for any eye.
type tree struct {
	normal      fold.Vec
	offset      float64
	on          []polygon
	front, back *tree
}

// plan returns the plane of a polygon, by the sum of its cross products; ok is false for one without an area.
func plan(corners []fold.Vec) (normal fold.Vec, offset float64, ok bool) {
	o := corners[0]
	for i := 1; i+1 < len(corners); i++ {
		normal = normal.Add(corners[i].Sub(o).Cross(corners[i+1].Sub(o)))
	}
	if normal.Norm() < 1e-6 {
		return normal, 0, false
	}
	normal = normal.Unit()
	return normal, normal.Dot(o), true
}

// tries is how many planes are tried for the one that cuts least.
const tries = 12

// newTree builds a tree; polygons without an area are left out.
func newTree(list []polygon) *tree {
	sound := list[:0:0]
	for _, p := range list {
		if _, _, ok := plan(p.corners); ok {
			sound = append(sound, p)
		}
	}
	return grow(sound)
}

func grow(list []polygon) *tree {
	if len(list) == 0 {
		return nil
	}
	t := &tree{}
	least := math.MaxInt
	step := max(1, len(list)/tries)
	for i := 0; i < len(list); i += step {
		n, d, ok := plan(list[i].corners)
		if !ok {
			continue
		}
		if cost := cost(list, n, d); cost < least {
			t.normal, t.offset, least = n, d, cost
		}
	}
	if least == math.MaxInt { // slivers only
		return nil
	}
	var front, back []polygon
	for _, p := range list {
		f, b, on := p.divide(t.normal, t.offset)
		if on {
			t.on = append(t.on, p)
			continue
		}
		if f.corners != nil {
			front = append(front, f)
		}
		if b.corners != nil {
			back = append(back, b)
		}
	}
	if len(t.on) == 0 { // cannot be: the plane is that of one of them; but float noise must not loop for ever
		t.on = list
		return t
	}
	t.front, t.back = grow(front), grow(back)
	return t
}

// cost counts the polygons that a plane cuts, and how unevenly it divides the rest.
func cost(list []polygon, n fold.Vec, d float64) int {
	cuts, front, back := 0, 0, 0
	for _, p := range list {
		low, high := p.spread(n, d)
		switch {
		case low < -thin && high > thin:
			cuts++
		case high > thin:
			front++
		case low < -thin:
			back++
		}
	}
	if front < back {
		front, back = back, front
	}
	return 8*cuts + front - back
}

func (p polygon) spread(n fold.Vec, d float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for _, c := range p.corners {
		v := n.Dot(c) - d
		low, high = min(low, v), max(high, v)
	}
	return low, high
}

// divide cuts a convex polygon by a plane. on says that it lies in the plane; a part that is missing has no corners.
func (p polygon) divide(n fold.Vec, d float64) (front, back polygon, on bool) {
	low, high := p.spread(n, d)
	switch {
	case low >= -thin && high <= thin:
		return front, back, true
	case low >= -thin:
		return p, back, false
	case high <= thin:
		return front, p, false
	}
	front.sheet, back.sheet = p.sheet, p.sheet
	for i, a := range p.corners {
		b := p.corners[(i+1)%len(p.corners)]
		da, db := n.Dot(a)-d, n.Dot(b)-d
		cross := da > 0 && db < 0 || da < 0 && db > 0
		var c fold.Vec
		if cross {
			c = a.Add(b.Sub(a).Scale(da / (da - db)))
		}
		if da >= 0 {
			front.add(a, p.edge[i] && (db >= 0 || cross))
		}
		if da <= 0 {
			back.add(a, p.edge[i] && (db <= 0 || cross))
		}
		if cross && da > 0 { // the front part goes on along the cut
			front.add(c, false)
			back.add(c, p.edge[i])
		}
		if cross && da < 0 {
			back.add(c, false)
			front.add(c, p.edge[i])
		}
	}
	return front, back, false
}

func (p *polygon) add(corner fold.Vec, edge bool) {
	p.corners, p.edge = append(p.corners, corner), append(p.edge, edge)
}

// paint calls each with the polygons from the farthest to the nearest for an eye far away in the direction towards.
// Polygons of one plane come together, in the order in which they were given.
func (t *tree) paint(towards fold.Vec, each func(plane []polygon)) {
	if t == nil {
		return
	}
	first, last := t.back, t.front
	if t.normal.Dot(towards) < 0 {
		first, last = last, first
	}
	first.paint(towards, each)
	each(t.on)
	last.paint(towards, each)
}
