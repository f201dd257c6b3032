package fold

import (
	"math"
)

// watch tells on which side of each other panels lie, pose after pose, and where one has gone through another.
//
// A panel that lies over another one in the closed card is on the side of it that the layer order says, any other pair on
// the side where it is first seen beside it. A pair keeps its side for as long as one is over the other; beyond the edges
// it may go round.
type watch struct {
	m     *Model
	pairs [][2]int // every panel that may meet another one, and that one
	side  []float64
	met   []bool     // whether the pair was over each other at the last look
	rings [][][2]Vec // per panel, the sides of its outline and holes
	local []Vec
}

// A panel may reach so deep through another one, in millimetres, before it is felt: less than card gives way.
const felt = 0.01

func newWatch(m *Model) *watch {
	w := &watch{m: m}
	body := m.bodies()
	apart := func(p, q int) bool { return body[p] != body[q] }
	hinged := map[[2]int]bool{}
	for _, h := range m.Assembly.Hinges {
		hinged[[2]int{body[h.A], body[h.B]}], hinged[[2]int{body[h.B], body[h.A]}] = true, true
	}
	for p := range m.Assembly.Panels {
		for q := range m.Assembly.Panels {
			if apart(p, q) && !hinged[[2]int{body[p], body[q]}] {
				w.pairs = append(w.pairs, [2]int{p, q})
				side := m.over[p*len(m.Assembly.Panels)+q]
				w.side, w.met = append(w.side, side), append(w.met, side != 0)
			}
		}
		var sides [][2]Vec
		for _, ring := range m.Assembly.Panels[p].Rings() {
			for i, c := range ring {
				sides = append(sides, [2]Vec{vec(c), vec(ring[(i+1)%len(ring)])})
			}
		}
		w.rings = append(w.rings, sides)
	}
	return w
}

// bodies numbers the panels so that those which glue holds together have one number.
func (m *Model) bodies() []int {
	out := make([]int, len(m.Assembly.Panels))
	for i := range out {
		out[i] = i
	}
	for _, j := range m.Assembly.Joints {
		a, b := out[j.A], out[j.B]
		for i, v := range out {
			if v == b {
				out[i] = a
			}
		}
	}
	return out
}

// layers returns, for panels p and q that lie over each other in the closed card, in entry p·n+q the side of q's outer face
// on which p lies: +1 or -1; 0 where they do not, or where they change about.
func layers(up []bool, stacks [][]int) []float64 {
	n := len(up)
	out := make([]float64, n*n)
	note := func(p, q int, side float64) {
		if !up[q] {
			side = -side
		}
		switch k := p*n + q; {
		case out[k] == 0:
			out[k] = side
		case out[k] != side:
			out[k] = math.NaN()
		}
	}
	for _, stack := range stacks {
		for i, p := range stack {
			for _, q := range stack[i+1:] { // the stack runs from the front
				note(p, q, +1)
				note(q, p, -1)
			}
		}
	}
	for k, v := range out {
		if math.IsNaN(v) {
			out[k] = 0
		}
	}
	return out
}

// A panel that is found so far on the wrong side of another one, in millimetres, has gone round it.
const tooDeep = 2

// look finds the panels that have gone through another one, the deepest point of each pair, and remembers the sides of all
// others.
func (w *watch) look(frames []Frame) []Contact {
	var out []Contact
	for k, pair := range w.pairs {
		p, q := pair[0], pair[1]
		f := &frames[q]
		w.local = w.local[:0]
		low, high := Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
		for _, c := range w.m.outlines[p] {
			d := frames[p].At(c).Sub(f.O)
			v := Vec{d.Dot(f.X), d.Dot(f.Y), d.Dot(f.Z)}
			for i := range 3 {
				low[i], high[i] = min(low[i], v[i]), max(high[i], v[i])
			}
			w.local = append(w.local, v)
		}
		box := &w.m.Assembly.Panels[q].Box
		over := low[0] < box.Max.X.MM()-rim && high[0] > box.Min.X.MM()+rim && low[1] < box.Max.Y.MM()-rim && high[1] > box.Min.Y.MM()+rim
		was := w.met[k]
		w.met[k] = over
		if !over {
			continue
		}
		if !was {
			w.side[k] = 0
		}
		if w.side[k] > 0 && low[2] >= -felt || w.side[k] < 0 && high[2] <= felt {
			continue
		}
		at, depth := w.deepest(k)
		w.met[k] = !math.IsInf(depth, -1)
		if depth > tooDeep {
			w.side[k] *= -1
		} else if depth > felt {
			at = frames[p].Inverse().At(f.At(at))
			out = append(out, Contact{Panel: p, On: q, Corner: at, Side: w.side[k]})
		}
	}
	return out
}

// deepest returns the point of a pair's first panel, in the frame of the second, that lies deepest on the wrong side of what
// it is over, and how deep; minus infinity where it is beside it. A pair that has no side yet gets one.
func (w *watch) deepest(pair int) (at Vec, depth float64) {
	q := w.pairs[pair][1]
	depth = math.Inf(-1)
	most, least := math.Inf(-1), math.Inf(1)
	var top, bottom Vec
	for i, a := range w.local {
		b := w.local[(i+1)%len(w.local)]
		w.over(q, a, b, func(v Vec) {
			if v[2] > most {
				most, top = v[2], v
			}
			if v[2] < least {
				least, bottom = v[2], v
			}
		})
	}
	if math.IsInf(most, -1) {
		return at, depth
	}
	if w.side[pair] == 0 {
		w.side[pair] = 1
		if -least > most {
			w.side[pair] = -1
		}
	}
	if w.side[pair] > 0 {
		return bottom, -least
	}
	return top, most
}

// over visits both ends of every stretch of the line a b that lies over a panel, all in that panel's frame.
func (w *watch) over(panel int, a, b Vec, visit func(Vec)) {
	var cuts [16]float64
	n := 2
	cuts[1] = 1
	dx, dy := b[0]-a[0], b[1]-a[1]
	for _, s := range w.rings[panel] {
		ex, ey := s[1][0]-s[0][0], s[1][1]-s[0][1]
		det := dx*ey - dy*ex
		if math.Abs(det) < 1e-12 {
			continue
		}
		fx, fy := s[0][0]-a[0], s[0][1]-a[1]
		t, u := (fx*ey-fy*ex)/det, (fx*dy-fy*dx)/det
		if t > 0 && t < 1 && u >= 0 && u <= 1 && n < len(cuts) {
			k := n
			for ; cuts[k-1] > t; k-- {
				cuts[k] = cuts[k-1]
			}
			cuts[k] = t
			n++
		}
	}
	at := func(t float64) Vec { return a.Add(b.Sub(a).Scale(t)) }
	in := rim / math.Hypot(dx, dy)
	for k := 1; k < n; k++ {
		from, to := cuts[k-1], cuts[k]
		if k > 1 {
			from += in
		}
		if k < n-1 {
			to -= in
		}
		if !(to > from) {
			continue
		}
		mid := at((from + to) / 2)
		if !w.covers(panel, mid[0], mid[1]) {
			continue
		}
		for _, v := range [2]Vec{at(from), at(to)} {
			if w.beside(panel, v[0], v[1]) > rim/2 {
				visit(v)
			}
		}
	}
}

// A panel's rim, in millimetres: panels that meet only there pass by each other.
const rim = 0.2

// covers says whether a point of a panel's pattern, in millimetres, lies in the panel.
func (w *watch) covers(panel int, x, y float64) bool {
	in := false
	for _, s := range w.rings[panel] {
		a, b := s[0], s[1]
		if (a[1] > y) != (b[1] > y) && x < a[0]+(y-a[1])/(b[1]-a[1])*(b[0]-a[0]) {
			in = !in
		}
	}
	return in
}

// above says whether a contact's corner is over the panel that it must not pass through, or a little beside it.
func (w *watch) above(c *Contact, frames []Frame) bool {
	f := &frames[c.On]
	d := frames[c.Panel].At(c.Corner).Sub(f.O)
	x, y := d.Dot(f.X), d.Dot(f.Y)
	return w.covers(c.On, x, y) || w.beside(c.On, x, y) < beyond
}

// A contact is let go where its corner has slid so far, in millimetres, beyond the edge.
const beyond = 0.2

// beside returns how far a point is from the sides of a panel, in millimetres.
func (w *watch) beside(panel int, x, y float64) float64 {
	best := math.Inf(1)
	for _, s := range w.rings[panel] {
		d := s[1].Sub(s[0])
		t := min(max(((x-s[0][0])*d[0]+(y-s[0][1])*d[1])/d.Dot(d), 0), 1)
		best = min(best, math.Hypot(x-s[0][0]-t*d[0], y-s[0][1]-t*d[1]))
	}
	return best
}
