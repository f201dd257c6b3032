package view

import (
	"math"
	"testing"

	"foldwright/drawing"
	"foldwright/fold"
	"foldwright/plane"
)

// ray returns how near to the eye a sheet is on the line of sight through a point, worked out in the sheet's own plane from
// its rings, without the parts and the tree that painting uses. close says that an edge is within a tenth of a millimetre.
func ray(s sheet, c camera, at drawing.Point) (depth float64, inside, close bool) {
	slope := s.normal.Dot(c.towards)
	if math.Abs(slope) < 1e-2 {
		return 0, false, false
	}
	for _, ring := range s.rings {
		for i, a := range ring {
			p, q := c.see(a), c.see(ring[(i+1)%len(ring)])
			if (p.Y > at.Y) != (q.Y > at.Y) && at.X < p.X+(at.Y-p.Y)*(q.X-p.X)/(q.Y-p.Y) {
				inside = !inside
			}
			d := q.Sub(p)
			t := 0.0
			if n := d.X*d.X + d.Y*d.Y; n > 0 {
				t = min(1, max(0, ((at.X-p.X)*d.X+(at.Y-p.Y)*d.Y)/n))
			}
			if at.Sub(p.Add(d.Times(t))).Len() < 0.1 {
				close = true
			}
		}
	}
	flat := c.right.Scale(at.X).Add(c.up.Scale(at.Y))
	return s.normal.Dot(s.rings[0][0].Sub(flat)) / slope, inside, close
}

// covers says whether a daub is painted at a point.
func covers(shapes []drawing.Shape, at drawing.Point) bool {
	for _, s := range shapes {
		p, ok := s.(drawing.Polygon)
		if !ok {
			continue
		}
		inside := false
		for _, ring := range append([][]drawing.Point{p.Outer}, p.Holes...) {
			for i, a := range ring {
				b := ring[(i+1)%len(ring)]
				if (a.Y > at.Y) != (b.Y > at.Y) && at.X < a.X+(at.Y-a.Y)*(b.X-a.X)/(b.Y-a.Y) {
					inside = !inside
				}
			}
		}
		if inside {
			return true
		}
	}
	return false
}

// look is a painted pose under test.
type look struct {
	*scene
	name   string
	pose   int
	sheets []sheet
	daubs  []daub
	shapes [][]drawing.Shape
	box    drawing.Box
}

func newLook(name string, s *scene, pose int) *look {
	l := &look{scene: s, name: name, pose: pose}
	l.sheets, l.daubs = s.paint(pose)
	l.trace()
	return l
}

// trace notes what each daub looks like.
func (l *look) trace() {
	for i, d := range l.daubs {
		l.shapes = append(l.shapes, d.shapes(l.sheets[d.sheet], l.camera))
		if b := drawing.BoundsOf(l.shapes[i]); i == 0 {
			l.box = b
		} else {
			l.box = l.box.Union(b)
		}
	}
}

// TestHidden: at points all over the picture, what is painted last is what a line of sight meets first; where several
// sheets lie in one plane there, none of them came down on the one that is painted last. Cards whose pictures are kept are
// tried at more points.
func TestHidden(t *testing.T) {
	for name, r := range cards(t) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			s := newScene(r.Closed, r.Opening)
			steps := 24
			if keeps[name] {
				steps = 60
			}
			for _, part := range []float64{0, 0.1, 0.3, 0.5, 0.8, 1} {
				newLook(name, s, At(r.Opening, part)).hidden(t, steps)
			}
			s.camera = cameraAt(-145, -40) // from behind and below, where the floors of boxes are
			for _, part := range []float64{0, 0.5, 1} {
				newLook(name+" from below", s, At(r.Opening, part)).hidden(t, steps)
			}
		})
	}
}

func (l *look) hidden(t *testing.T, steps int) {
	n, checked := float64(steps), 0
	for i := range steps {
		for k := range steps {
			at := drawing.Point{X: l.box.Min.X + l.box.W()*(float64(i)+0.47)/n, Y: l.box.Min.Y + l.box.H()*(float64(k)+0.53)/n}
			if l.seesRight(t, at) {
				checked++
			}
		}
	}
	if checked < steps*steps/10 {
		t.Errorf("%s, pose %d: only %d points were checked", l.name, l.pose, checked)
	}
}

// seesRight checks one point; false if it lies beside the card or on an edge.
func (l *look) seesRight(t *testing.T, at drawing.Point) bool {
	depth := make([]float64, len(l.sheets))
	nearest, most := -1, math.Inf(-1)
	for i := range l.sheets {
		d, inside, close := ray(l.sheets[i], l.camera, at)
		if close {
			return false
		}
		depth[i] = math.Inf(-1)
		if inside {
			depth[i] = d
			if d > most {
				nearest, most = i, d
			}
		}
	}
	top := -1
	for i := range l.daubs {
		if covers(l.shapes[i], at) {
			top = l.daubs[i].sheet
		}
	}
	if nearest < 0 && top < 0 {
		return false
	}
	if top < 0 || depth[top] < most-0.02 {
		t.Errorf("%s, pose %d: at %v sheet %d is painted last, sheet %d is nearer", l.name, l.pose, at, top, nearest)
		return true
	}
	for i := range l.sheets {
		if i != top && depth[i] > most-1e-4 && depth[top] > most-1e-4 && l.over(top, i, at, depth[top]) {
			t.Errorf("%s, pose %d: at %v sheet %d lies on sheet %d, which is painted last", l.name, l.pose, at, i, top)
		}
	}
	return true
}

// over says whether sheet i lies over sheet top, in one plane with it, at one point of the picture: whether the very spot of
// it that is seen there was nearer in the last pose before in which it was a hundredth of a millimetre off, else whether the
// layers say so.
func (l *look) over(top, i int, at drawing.Point, depth float64) bool {
	a, b := l.flat[top], l.flat[i]
	side := facing(l.sheets[top], l.camera.towards)
	if a.panel == b.panel {
		return (b.layer-a.layer)*side > 0
	}
	c := l.camera
	frames := l.stage.frames(l.pose)
	spot := frames[b.panel].Inverse().At(c.right.Scale(at.X).Add(c.up.Scale(at.Y)).Add(c.towards.Scale(depth)))
	for j := l.pose - 1; j > 0; j-- {
		p := &l.open.Poses[j]
		if h := p.Panels[a.panel].Inverse().At(p.Panels[b.panel].At(spot))[2]; math.Abs(h) > 0.01 {
			return h*float64(side) > 0
		}
	}
	return l.order.shut[[2]int{a.panel, b.panel}]*side > 0
}

// TestClosedPose: the closed pose shows, at points all over it, what the closed view shows of the same side.
func TestClosedPose(t *testing.T) {
	for _, name := range []string{"harbour-light", "gull-box"} {
		r := cards(t)[name]
		s := newScene(r.Closed, r.Opening)
		frames := s.stage.frames(0)
		sheets, daubs := s.paint(0)
		a := newArrangement(r.Closed)
		top := a.top(Front)
		checked := 0
		for f := range a.sub.Faces {
			x, y, ok := a.sub.InnerPoint(f)
			if !ok || top[f] == none {
				continue
			}
			panel, _ := a.host(top[f])
			u, v := r.Closed.At[panel].Inverse().At(x, y)
			at := s.camera.see(frames[panel].At(fold.Vec{u * 1e-6, v * 1e-6, 0}))
			last := -1
			for _, d := range daubs {
				if covers(d.shapes(sheets[d.sheet], s.camera), at) {
					last = d.sheet
				}
			}
			checked++
			if last != top[f] { // sheets are numbered as layers are: panels, then decorations
				t.Errorf("%s: at (%.1f, %.1f) sheet %d is painted last, the closed view shows %s", name, x/1e6, y/1e6, last, a.name(top[f]))
			}
		}
		if checked == 0 {
			t.Errorf("%s: nothing was checked", name)
		}
	}
}

// TestStance: how each card is held up, and its size as it is held, in mm. The sizes of standing cards are those of the
// proof; those of the others follow from their recipes: two pages of 105 at a right angle are 105√2 wide and 105/√2 deep;
// the gull's wings rise 80/√2 above the open page (its slanted sides are 40√2 and stand upright); the gate's doors of 52
// stand 30 degrees off the flat of its back of 104, and the lifebelt reaches 30 beyond the one that it is glued to.
func TestStance(t *testing.T) {
	for _, c := range []struct {
		name             string
		want             stance
		wide, deep, high float64
	}{
		{"harbour-steps", upright, 105 * math.Sqrt2, 105 / math.Sqrt2, 148},
		{"rising-gull", lying, 210, 148, 40 * math.Sqrt2},
		{"harbour-light", standing, -1, -1, -1},
		{"gull-box", standing, -1, -1, -1},
		{"tide-accordion", pulled, -1, -1, -1},
		{"harbour-gate", pulled, 104 + 2*52*math.Sqrt(3)/2 + 30*math.Sqrt(3)/2, (52 + 30) / 2.0, 150},
	} {
		r := cards(t)[c.name]
		s := newScene(r.Closed, r.Opening)
		if s.stage.stance != c.want {
			t.Errorf("%s: stance %d, want %d", c.name, s.stage.stance, c.want)
		}
		low, high := s.extent(s.stage.frames(len(r.Opening.Poses) - 1))
		got := high.Sub(low)
		if c.wide < 0 {
			c.wide, c.deep, c.high = r.Opening.Width, r.Opening.Depth, r.Opening.Height
		}
		for i, want := range []float64{c.wide, c.high, c.deep} {
			if math.Abs(got[i]-want) > 1e-4 {
				t.Errorf("%s: axis %d measures %g, want %g", c.name, i, got[i], want)
			}
		}
		if c.want != lying {
			continue
		}
		if low[1] < -1e-4 {
			t.Errorf("%s: the pop-up goes %g below the table", c.name, low[1])
		}
	}
}

// TestInOrder: nothing comes before what it waits for, and what need not wait keeps its place.
func TestInOrder(t *testing.T) {
	got := inOrder([]int{0, 1, 2, 3}, func(i, k int) bool { return i == 0 && k == 2 })
	for i, want := range []int{1, 2, 0, 3} {
		if got[i] != want {
			t.Fatalf("got %v, want [1 2 0 3]", got)
		}
	}
	if got := inOrder([]int{0, 1}, func(i, k int) bool { return true }); len(got) != 2 {
		t.Errorf("a ring leaves %v", got)
	}
}

// TestInterlocked: three boards that each lie over the next one round a ring cannot be painted whole; their parts still hide
// each other rightly and show no edge along a cut.
func TestInterlocked(t *testing.T) {
	c := camera{right: fold.Vec{1, 0, 0}, up: fold.Vec{0, 1, 0}, towards: fold.Vec{0, 0, 1}}
	var sheets []sheet
	for i := range 3 {
		turn := float64(i) * 2 * math.Pi / 3
		s, k := math.Sincos(turn)
		at := func(x, y, z float64) fold.Vec { return fold.Vec{x*k - y*s, x*s + y*k, z} }
		corners := []fold.Vec{at(-30, -14, -5), at(30, -14, 5), at(30, -6, 5), at(-30, -6, -5)}
		n, _, _ := plan(corners)
		p := polygon{sheet: i, corners: corners, edge: []bool{true, true, true, true}}
		sheets = append(sheets, sheet{panel: i, normal: n, rings: [][]fold.Vec{corners}, parts: []polygon{p}})
	}
	o := &order{sheets: []flatSheet{{panel: 0}, {panel: 1}, {panel: 2}}, shut: map[[2]int]int{}, known: map[[2]int]int{}}
	daubs := painted(sheets, o, c)
	parted := false
	edges := 0.0
	for _, d := range daubs {
		parted = parted || !d.whole
		shapes := d.shapes(sheets[d.sheet], c)
		for _, s := range shapes {
			if l, ok := s.(drawing.Polyline); ok {
				edges += l.Points[1].Sub(l.Points[0]).Len()
			}
			if p, ok := s.(drawing.Polygon); ok && p.Line == drawing.Edge {
				for i, a := range p.Outer {
					edges += p.Outer[(i+1)%len(p.Outer)].Sub(a).Len()
				}
			}
		}
	}
	if !parted {
		t.Error("no board is painted in parts")
	}
	if want := 3 * 2 * (60 + 8.0); math.Abs(edges-want) > 1e-6 {
		t.Errorf("%g mm of edges, want %g", edges, want)
	}
	l := &look{scene: &scene{order: o, camera: c}, name: "ring", sheets: sheets, daubs: daubs}
	l.trace()
	checked := 0
	for x := -28.3; x < 28; x++ {
		for y := -28.7; y < 28; y++ {
			if l.seesRight(t, drawing.Point{X: x, Y: y}) {
				checked++
			}
		}
	}
	if checked < 100 {
		t.Errorf("only %d points were checked", checked)
	}
}

// TestConvexParts: the parts of a panel with a window make up its area, and are convex.
func TestConvexParts(t *testing.T) {
	r := cards(t)["porthole"]
	holes := 0
	for _, p := range r.Assembly.Panels {
		sum := 0.0
		for _, part := range convexParts(p.Panel) {
			if !convex(part.ring) {
				t.Errorf("%s: a part is not convex: %v", p.Ref, part.ring)
			}
			sum += plane.Area(part.ring)
		}
		if want := p.Area(); math.Abs(sum-want) > 1e-5*want {
			t.Errorf("%s: parts of %g mm², want %g", p.Ref, sum/1e12, want/1e12)
		}
		holes += len(p.Holes)
	}
	if holes < 2 {
		t.Errorf("%d windows: nothing was checked", holes)
	}
}
