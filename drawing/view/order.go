package view

import (
	"cmp"
	"math"

	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/plane"
)

// order knows which sheets lie on which side of each other where they lie in one plane in a pose.
//
// What lies on one panel follows its layers. Of two other sheets the one lies on top that was on that side where they
// meet in the last pose before in which they did not lie in one plane: flaps that come down on each other stay as they came
// down. Sheets that were never apart since the card was closed, such as those that are glued to each other, keep the order
// of the closed card's layers.
type order struct {
	sheets []flatSheet
	// shut[p][q] is +1 if panel q lies on p's outer side in the closed card, -1 on its inner side, 0 if they do not meet.
	shut map[[2]int]int
	// way leads from the closed card to the pose, which is the last one; a way of one pose is the closed card.
	way []fold.Pose
	// known are the sides of sheets that have been worked out for the pose.
	known map[[2]int]int
}

// newOrder takes the sides of the panels in the closed card from its stacks.
func newOrder(c *flat.Closed, sheets []flatSheet) *order {
	o := &order{sheets: sheets, shut: map[[2]int]int{}}
	out := func(panel int) int { // where the outer face looks: +1 to the front
		if c.At[panel].Flips() {
			return -1
		}
		return 1
	}
	for _, cell := range c.Overlay.Cells {
		for i, p := range cell.Stack {
			for _, q := range cell.Stack[i+1:] { // q lies behind p
				o.shut[[2]int{p, q}] = -out(p)
				o.shut[[2]int{q, p}] = out(q)
			}
		}
	}
	return o
}

// in returns the order in a pose.
func (o *order) in(opening *fold.Opening, pose int) *order {
	return &order{sheets: o.sheets, shut: o.shut, way: opening.Poses[:pose+1], known: map[[2]int]int{}}
}

// nearer says whether sheet t lies nearer to the eye than sheet s in one plane: +1 yes, -1 no, 0 unknown.
func (o *order) nearer(s, t int, placed []sheet, towards fold.Vec) int {
	if s > t {
		return -o.nearer(t, s, placed, towards)
	}
	side, ok := o.known[[2]int{s, t}]
	if !ok {
		side = o.side(s, t)
		o.known[[2]int{s, t}] = side
	}
	return side * facing(placed[s], towards)
}

// side says on which side of sheet s sheet t lies: +1 on the outer one, -1 on the inner one, 0 unknown.
func (o *order) side(s, t int) int {
	a, b := o.sheets[s], o.sheets[t]
	if a.panel == b.panel {
		return cmp.Compare(b.layer, a.layer)
	}
	if k := o.cameFrom(a, b); k != 0 {
		return k
	}
	k := o.shut[[2]int{a.panel, b.panel}]
	switch {
	case k != 0:
		return k
	case a.layer > 0 && b.layer == 0: // a topper that reaches beyond its panel lies over what it meets
		return -1
	case b.layer > 0 && a.layer == 0:
		return o.alike(a, b)
	}
	return 0
}

// cameFrom says on which side of sheet a sheet b was in the last pose before in which they were apart where they now meet;
// 0 if there is none.
func (o *order) cameFrom(a, b flatSheet) int {
	now := len(o.way) - 1
	if now < 1 {
		return 0
	}
	spots := o.shared(a, b)
	for j := now - 1; j > 0; j-- {
		to := o.between(j, a.panel, b.panel)
		height, size := 0.0, 0.0
		for _, s := range spots {
			height += s.size * to.At(s.at)[2]
			size += s.size
		}
		if math.Abs(height) > thin*size {
			return int(math.Copysign(1, height))
		}
	}
	return 0
}

// between returns the motion from the pattern of panel b into that of panel a in a pose of the way.
func (o *order) between(pose, a, b int) fold.Frame {
	p := &o.way[pose]
	return p.Panels[a].Inverse().After(p.Panels[b])
}

// alike is +1 if the outer faces of two sheets of one plane look the same way in the pose, else -1.
func (o *order) alike(a, b flatSheet) int {
	return int(math.Copysign(1, o.between(len(o.way)-1, a.panel, b.panel).Z[2]))
}

// spot is the middle of a region in the pattern of a panel, in mm, and how large the region is.
type spot struct {
	at   fold.Vec
	size float64
}

// shared returns where two sheets meet in the pose, in the pattern of b.
func (o *order) shared(a, b flatSheet) []spot {
	to := o.between(len(o.way)-1, a.panel, b.panel)
	back := to.Inverse()
	var out []spot
	for _, p := range a.parts {
		for _, q := range b.parts {
			region := clipped(flatRing(p.ring, fold.Still()), flatRing(q.ring, to))
			middle, size := centroid(region)
			if size < thin {
				continue
			}
			out = append(out, spot{back.At(fold.Vec{middle.X, middle.Y, 0}), size})
		}
	}
	return out
}

// flatRing returns where a ring of a pattern comes to lie in another pattern, in mm.
func flatRing(ring []plane.Point, to fold.Frame) []drawing.Point {
	out := make([]drawing.Point, len(ring))
	for i, p := range ring {
		v := to.At(vec(p.X, p.Y))
		out[i] = drawing.Point{X: v[0], Y: v[1]}
	}
	return out
}

// clipped returns what two convex polygons share. a runs counter-clockwise.
func clipped(a, b []drawing.Point) []drawing.Point {
	for i, p := range a {
		d := a[(i+1)%len(a)].Sub(p)
		left := func(q drawing.Point) float64 { return d.X*(q.Y-p.Y) - d.Y*(q.X-p.X) }
		var kept []drawing.Point
		for k, q := range b {
			r := b[(k+1)%len(b)]
			u, v := left(q), left(r)
			if u >= 0 {
				kept = append(kept, q)
			}
			if u > 0 && v < 0 || u < 0 && v > 0 {
				kept = append(kept, q.Add(r.Sub(q).Times(u/(u-v))))
			}
		}
		b = kept
	}
	return b
}

// centroid returns the middle of a convex polygon and its area.
func centroid(ring []drawing.Point) (middle drawing.Point, area float64) {
	if len(ring) < 3 {
		return middle, 0
	}
	for i := 1; i+1 < len(ring); i++ {
		p, q := ring[i].Sub(ring[0]), ring[i+1].Sub(ring[0])
		cross := p.X*q.Y - p.Y*q.X
		middle = middle.Add(p.Add(q).Times(cross / 3))
		area += cross
	}
	if math.Abs(area) < 1e-12 {
		return middle, 0
	}
	return ring[0].Add(middle.Times(1 / area)), math.Abs(area) / 2
}
