package view

import (
	"math"

	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
)

// region is a connected part of the plane with one label.
type region struct {
	label int
	outer []plane.Point
	holes [][]plane.Point
}

// none is the label of what is left empty.
const none = -1

// area returns the region's area in nm².
func (r region) area() float64 {
	sum := math.Abs(plane.Area(r.outer))
	for _, h := range r.holes {
		sum -= math.Abs(plane.Area(h))
	}
	return sum
}

// polygon returns the region as a shape.
func (r region) polygon(fill drawing.Style, line drawing.Role) drawing.Polygon {
	p := drawing.Polygon{Fill: fill, Line: line, Outer: drawing.OfAll(r.outer)}
	for _, h := range r.holes {
		p.Holes = append(p.Holes, drawing.OfAll(h))
	}
	return p
}

// rings returns all borders of the region in mm.
func (r region) rings() [][]drawing.Point { return r.polygon(drawing.Style{}, drawing.None).Rings() }

// regions joins the faces of a subdivision that have one label and an edge in common. label holds one per face; none is
// left out. They come in the order of the edges, so the same subdivision gives the same regions.
func regions(sub *plane.Subdivision, label []int) []region {
	t := tracer{sub: sub, label: label, from: map[int][]halfEdge{}, used: map[halfEdge]bool{}}
	var starts []halfEdge
	for e := range sub.Edges {
		for _, h := range [2]halfEdge{{e, false}, {e, true}} {
			if left, right := t.sides(h); left != right && left != none {
				a, _ := t.ends(h)
				t.from[a] = append(t.from[a], h)
				starts = append(starts, h)
			}
		}
	}
	var outers, holes []region
	for _, h := range starts {
		if t.used[h] {
			continue
		}
		left, _ := t.sides(h)
		r := region{label: left, outer: t.ring(h)}
		if plane.Area(r.outer) > 0 {
			outers = append(outers, r)
		} else {
			holes = append(holes, r)
		}
	}
	nest(outers, holes)
	for i := range outers {
		outers[i].outer = straight(outers[i].outer)
		for k := range outers[i].holes {
			outers[i].holes[k] = straight(outers[i].holes[k])
		}
	}
	return outers
}

// halfEdge is an edge of a subdivision, seen from A to B or back.
type halfEdge struct {
	edge int
	back bool
}

type tracer struct {
	sub   *plane.Subdivision
	label []int
	from  map[int][]halfEdge
	used  map[halfEdge]bool
}

func (t *tracer) ends(h halfEdge) (a, b int) {
	e := t.sub.Edges[h.edge]
	if h.back {
		return e.B, e.A
	}
	return e.A, e.B
}

func (t *tracer) sides(h halfEdge) (left, right int) {
	e := t.sub.Edges[h.edge]
	if h.back {
		return t.label[e.Right], t.label[e.Left]
	}
	return t.label[e.Left], t.label[e.Right]
}

// ring walks round a region, which lies on the left, and marks its half-edges as used. Where borders meet in a point it
// takes the first way clockwise from where it came, so that parts that only touch stay apart.
func (t *tracer) ring(start halfEdge) []plane.Point {
	var out []plane.Point
	want, _ := t.sides(start)
	for h := start; ; {
		t.used[h] = true
		a, b := t.ends(h)
		out = append(out, t.sub.Points[a])
		back := t.angle(b, a)
		best, turn := h, math.Inf(1)
		for _, g := range t.from[b] {
			if left, _ := t.sides(g); left != want || t.used[g] && g != start {
				continue
			}
			_, c := t.ends(g)
			d := math.Mod(back-t.angle(b, c)+4*math.Pi, 2*math.Pi)
			if d < 1e-12 {
				d = 2 * math.Pi
			}
			if d < turn {
				best, turn = g, d
			}
		}
		if best == start || t.used[best] {
			return out
		}
		h = best
	}
}

func (t *tracer) angle(a, b int) float64 {
	d := t.sub.Points[b].Sub(t.sub.Points[a])
	return math.Atan2(float64(d.Y), float64(d.X))
}

// nest gives every hole to the smallest region of its label round it.
func nest(outers, holes []region) {
	for _, h := range holes {
		x := float64(h.outer[0].X+h.outer[1].X) / 2
		y := float64(h.outer[0].Y+h.outer[1].Y) / 2
		best := -1
		for i, o := range outers {
			if o.label == h.label && plane.InPolygon(o.outer, x, y) && (best < 0 || plane.Area(o.outer) < plane.Area(outers[best].outer)) {
				best = i
			}
		}
		if best >= 0 {
			outers[best].holes = append(outers[best].holes, h.outer)
		}
	}
}

// straight leaves out corners at which a ring runs straight on, to within a nanometre.
func straight(ring []plane.Point) []plane.Point {
	var out []plane.Point
	n := len(ring)
	for i, c := range ring {
		if !between(ring[(i+n-1)%n], c, ring[(i+1)%n]) {
			out = append(out, c)
		}
	}
	return out
}

// between says whether c lies on the way from a to b, to within a nanometre.
func between(a, c, b plane.Point) bool {
	ab, ac, cb := b.Sub(a), c.Sub(a), b.Sub(c)
	long := math.Hypot(float64(ab.X), float64(ab.Y))
	off := float64(ab.X)*float64(ac.Y) - float64(ab.Y)*float64(ac.X)
	ahead := float64(ac.X)*float64(cb.X) + float64(ac.Y)*float64(cb.Y)
	return ahead > 0 && math.Abs(off) <= long*float64(length.Nanometre)
}

// moved returns a ring after a motion, each corner on the nearest nanometre.
func moved(m plane.Motion, ring []plane.Point) []plane.Point {
	out := make([]plane.Point, len(ring))
	for i, p := range ring {
		out[i] = m.Point(p)
	}
	return out
}

// ringSegments appends the sides of a ring.
func ringSegments(to []plane.Segment, ring []plane.Point, tag int) []plane.Segment {
	for i, p := range ring {
		to = append(to, plane.Segment{A: p, B: ring[(i+1)%len(ring)], Tag: tag})
	}
	return to
}

// merging is how close points of a subdivision are made one: what is placed by slanted folds or glue is good to 10 nm.
const merging = length.Micrometre

// speck is the area in nm² below which a face is the dust of rounding: a thousandth of a square millimetre.
const speck = 1e9
