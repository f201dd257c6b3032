package view

import (
	"math"
	"testing"

	"foldwright/drawing"
	"foldwright/fold"
	"foldwright/plane"
	"foldwright/proof"
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

// TestHidden: at points all over the picture, what is painted last is what a line of sight meets first; where several
// sheets lie in one plane there, none of them lies over the one that is painted last.
func TestHidden(t *testing.T) {
	for name, r := range cards(t) {
		s := newScene(r.Closed, r.Opening)
		for _, part := range []float64{0, 0.1, 0.3, 0.5, 0.8, 1} {
			hidden(t, name, s, r, part)
		}
	}
}

func hidden(t *testing.T, name string, s *scene, r *proof.Report, part float64) {
	sheets := place(s.flat, s.stage.frames(&r.Opening.Poses[At(r.Opening, part)]))
	daubs := painted(sheets, s.order, s.camera)
	looks := make([][]drawing.Shape, len(daubs))
	var box drawing.Box
	for i, d := range daubs {
		looks[i] = d.shapes(sheets[d.sheet], s.camera)
		if b := drawing.BoundsOf(looks[i]); i == 0 {
			box = b
		} else {
			box = box.Union(b)
		}
	}
	const steps = 70
	checked := 0
	for i := range steps {
		for k := range steps {
			at := drawing.Point{X: box.Min.X + box.W()*(float64(i)+0.47)/steps, Y: box.Min.Y + box.H()*(float64(k)+0.53)/steps}
			if !seesRight(t, name, part, s, sheets, daubs, looks, at) {
				continue
			}
			checked++
		}
	}
	if checked < steps*steps/10 {
		t.Errorf("%s, %g open: only %d points were checked", name, part, checked)
	}
}

// seesRight checks one point; false if it lies beside the card or on an edge.
func seesRight(t *testing.T, name string, part float64, s *scene, sheets []sheet, daubs []daub, looks [][]drawing.Shape, at drawing.Point) bool {
	depth := make([]float64, len(sheets))
	nearest, most := -1, math.Inf(-1)
	for i := range sheets {
		d, inside, close := ray(sheets[i], s.camera, at)
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
	for i := range daubs {
		if covers(looks[i], at) {
			top = daubs[i].sheet
		}
	}
	if nearest < 0 && top < 0 {
		return false
	}
	if top < 0 || depth[top] < most-0.02 {
		t.Errorf("%s, %g open: at %v sheet %d is painted last, sheet %d is nearer", name, part, at, top, nearest)
		return true
	}
	for i := range sheets {
		if i != top && depth[i] > most-1e-4 && depth[top] > most-1e-4 && s.order.nearer(top, i, sheets, s.camera.towards) > 0 {
			t.Errorf("%s, %g open: at %v sheet %d lies on sheet %d, which is painted last", name, part, at, i, top)
		}
	}
	return true
}

// TestClosedPose: the closed pose shows, at points all over it, what the closed view shows of the same side.
func TestClosedPose(t *testing.T) {
	for _, name := range []string{"harbour-light", "gull-box"} {
		r := cards(t)[name]
		s := newScene(r.Closed, r.Opening)
		frames := s.stage.frames(&r.Opening.Poses[0])
		sheets := place(s.flat, frames)
		daubs := painted(sheets, s.order, s.camera)
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
// the gull's wings rise 80/√2 above the open page (its slanted sides are 40√2 and stand upright).
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
	} {
		r := cards(t)[c.name]
		s := newScene(r.Closed, r.Opening)
		if s.stage.stance != c.want {
			t.Errorf("%s: stance %d, want %d", c.name, s.stage.stance, c.want)
		}
		low, high := s.extent(s.stage.frames(&r.Opening.Poses[len(r.Opening.Poses)-1]))
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
	o := &order{sheets: []flatSheet{{panel: 0}, {panel: 1}, {panel: 2}}, outer: map[[2]int]int{}}
	daubs := painted(sheets, o, c)
	parted := false
	var looks [][]drawing.Shape
	edges := 0.0
	for _, d := range daubs {
		parted = parted || !d.whole
		shapes := d.shapes(sheets[d.sheet], c)
		looks = append(looks, shapes)
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
	s := &scene{order: o, camera: c}
	checked := 0
	for x := -28.3; x < 28; x++ {
		for y := -28.7; y < 28; y++ {
			if seesRight(t, "ring", 1, s, sheets, daubs, looks, drawing.Point{X: x, Y: y}) {
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
