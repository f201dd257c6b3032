package view

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"foldwright/drawing"
	"foldwright/fold"
)

// drawConvex draws a convex polygon: a regular one of 3 to 7 corners, stretched and turned anyhow in space.
func drawConvex(t *rapid.T, sheet int) polygon {
	number := func(name string, lo, hi float64) float64 { return rapid.Float64Range(lo, hi).Draw(t, name) }
	direction := func() fold.Vec {
		v := fold.Vec{number("x", -1, 1), number("y", -1, 1), number("z", -1, 1)}
		if v.Norm() < 0.1 {
			return fold.Vec{0, 0, 1}
		}
		return v.Unit()
	}
	n := direction()
	u := n.Cross(fold.Vec{1, 0.3, 0.2})
	if u.Norm() < 0.1 {
		u = n.Cross(fold.Vec{0, 1, 0})
	}
	u = u.Unit()
	v := n.Cross(u)
	o := fold.Vec{number("ox", -30, 30), number("oy", -30, 30), number("oz", -30, 30)}
	a, b := number("a", 5, 40), number("b", 5, 40)
	k := rapid.IntRange(3, 7).Draw(t, "corners")
	p := polygon{sheet: sheet}
	for i := range k {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(k))
		p.add(o.Add(u.Scale(a*c)).Add(v.Scale(b*s)), true)
	}
	return p
}

// depthAt returns how near to the eye a convex polygon is on the line of sight through a point of the picture.
func depthAt(p polygon, c camera, at drawing.Point) (depth float64, inside bool) {
	n, d, ok := plan(p.corners)
	slope := n.Dot(c.towards)
	if !ok || math.Abs(slope) < 1e-3 {
		return 0, false
	}
	side := 0.0
	for i, a := range p.corners {
		q, r := c.see(a), c.see(p.corners[(i+1)%len(p.corners)])
		e := r.Sub(q)
		s := (e.X*(at.Y-q.Y) - e.Y*(at.X-q.X)) / max(1e-9, e.Len())
		if math.Abs(s) < 1e-2 || s*side < 0 { // on the edge, or outside
			return 0, false
		}
		side = s
	}
	flat := c.right.Scale(at.X).Add(c.up.Scale(at.Y))
	return (d - n.Dot(flat)) / slope, true
}

// hit is where a line of sight meets a polygon.
type hit struct {
	depth float64
	at    fold.Vec
}

// touches says whether two hits both lie in the plane of one of the polygons, as far as the tree can tell: within thin. The
// tree may then paint either first: there is no saying which one is nearer. That a wrong order comes with such a plane, and
// how close both are to it, follows from how a plane divides: nothing lies more than thin on its wrong side. So on a line of
// sight that grazes the plane the two may be further apart than thin.
func touches(list []polygon, a, b fold.Vec) bool {
	for _, p := range list {
		n, d, ok := plan(p.corners)
		if ok && math.Abs(n.Dot(a)-d) < 1.01*thin && math.Abs(n.Dot(b)-d) < 1.01*thin {
			return true
		}
	}
	return false
}

// TestTreeOrder: of polygons that lie anyhow in space and cut each other, the tree never paints a nearer one before a
// farther one, whichever way the eye looks, unless both lie in one plane there (see touches); and it loses nothing.
func TestTreeOrder(t *testing.T) {
	pairs, excused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		var list []polygon
		for i := range rapid.IntRange(2, 12).Draw(t, "polygons") {
			list = append(list, drawConvex(t, i))
		}
		c := cameraAt(rapid.Float64Range(-180, 180).Draw(t, "yaw"), rapid.Float64Range(-80, 80).Draw(t, "pitch"))
		var order []polygon
		newTree(list).paint(c.towards, func(plane []polygon) { order = append(order, plane...) })
		for range 40 {
			at := drawing.Point{X: rapid.Float64Range(-40, 40).Draw(t, "px"), Y: rapid.Float64Range(-40, 40).Draw(t, "py")}
			var before []hit
			for _, p := range order {
				d, ok := depthAt(p, c, at)
				if !ok {
					continue
				}
				h := hit{d, c.right.Scale(at.X).Add(c.up.Scale(at.Y)).Add(c.towards.Scale(d))}
				for _, g := range before {
					pairs++
					switch {
					case g.depth <= h.depth+1e-6:
					case touches(list, g.at, h.at):
						excused++
					default:
						t.Fatalf("at %v a polygon at %g is painted over one at %g", at, h.depth, g.depth)
					}
				}
				before = append(before, h)
			}
		}
		for i, p := range list {
			got := 0.0
			for _, q := range order {
				if q.sheet == i {
					got += area3(q.corners)
				}
			}
			if want := area3(p.corners); math.Abs(got-want) > 1e-3*want+0.1 {
				t.Fatalf("polygon %d has the area %g in the tree, want %g", i, got, want)
			}
		}
	})
	if pairs == 0 || excused > pairs/2 {
		t.Errorf("of %d pairs on a line of sight %d lie in one plane: too little was checked", pairs, excused)
	}
	t.Logf("%d pairs, %d of them in one plane", pairs, excused)
}

func area3(corners []fold.Vec) float64 {
	var sum fold.Vec
	for i := 1; i+1 < len(corners); i++ {
		sum = sum.Add(corners[i].Sub(corners[0]).Cross(corners[i+1].Sub(corners[0])))
	}
	return sum.Norm() / 2
}

// TestDivide: a square cut in the middle has two halves, whose cut is no edge.
func TestDivide(t *testing.T) {
	square := polygon{corners: []fold.Vec{{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}}, edge: []bool{true, true, true, true}}
	front, back, on := square.divide(fold.Vec{1, 0, 0}, 1)
	if on || area3(front.corners) != 2 || area3(back.corners) != 2 {
		t.Fatalf("halves of %v and %v", front.corners, back.corners)
	}
	for _, p := range []polygon{front, back} {
		edges := 0
		for i, a := range p.corners {
			b := p.corners[(i+1)%len(p.corners)]
			if cut := a[0] == 1 && b[0] == 1; cut == p.edge[i] {
				t.Errorf("the side %v to %v counts as edge: %v", a, b, p.edge[i])
			}
			if p.edge[i] {
				edges++
			}
		}
		if edges != 3 || len(p.corners) != 4 {
			t.Errorf("%d corners, %d edges; want 4 and 3", len(p.corners), edges)
		}
	}
	low, high, _ := front.divide(fold.Vec{0, 1, 0}, 1)
	for _, p := range []polygon{low, high} { // a cut that is cut again is still no edge
		for i, a := range p.corners {
			b := p.corners[(i+1)%len(p.corners)]
			if cut := a[0] == 1 && b[0] == 1 || a[1] == 1 && b[1] == 1; cut == p.edge[i] {
				t.Errorf("after two cuts the side %v to %v counts as edge: %v", a, b, p.edge[i])
			}
		}
	}
	if _, _, on := square.divide(fold.Vec{0, 0, 1}, 0); !on {
		t.Error("a square in the plane does not count as on it")
	}
}
