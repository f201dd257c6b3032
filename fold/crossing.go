package fold

import (
	"context"
	"math"

	"foldwright/plane"
)

// Crossing is two panels that pass through each other on the way from closed to open.
type Crossing struct {
	A, B int
	// Pose is the first pose of the path in which they do.
	Pose int
}

// How deep a panel must reach through another to count, in millimetres: through its plane on both sides, and away from its
// edges. Less is within what card of real thickness gives way.
const (
	throughDepth = 0.2
	edgeMargin   = 0.2
)

// Crossings lists the panels that pass through each other, each pair with the first pose in which it does. Panels that are
// hinged or glued to each other do not count.
// Approximate: what passes through between two poses and is out again in the next is not seen.
func (m *Model) Crossings(ctx context.Context, o *Opening) []Crossing {
	joined := m.joined()
	n := len(m.Assembly.Panels)
	seen := make([]bool, n*n)
	var out []Crossing
	corners := make([][]Vec, n)
	boxes := make([][2]Vec, n)
	for k := range o.Poses {
		if ctx.Err() != nil {
			return out
		}
		p := &o.Poses[k]
		for i := range n {
			corners[i] = corners[i][:0]
			for _, c := range m.Assembly.Panels[i].Outline {
				corners[i] = append(corners[i], p.Panels[i].At(vec(c)))
			}
			boxes[i] = boxOf(corners[i])
		}
		for i := range n {
			for j := range i {
				if joined[i*n+j] || seen[i*n+j] || separate(boxes[i], boxes[j]) {
					continue
				}
				if m.pierces(p, corners[i], j) || m.pierces(p, corners[j], i) {
					seen[i*n+j] = true
					out = append(out, Crossing{A: j, B: i, Pose: k})
				}
			}
		}
	}
	return out
}

// joined marks the pairs of panels that are hinged or glued to each other.
func (m *Model) joined() []bool {
	n := len(m.Assembly.Panels)
	out := make([]bool, n*n)
	mark := func(a, b int) { out[max(a, b)*n+min(a, b)] = true }
	for _, h := range m.Assembly.Hinges {
		mark(h.A, h.B)
	}
	for _, j := range m.Assembly.Joints {
		mark(j.A, j.B)
	}
	return out
}

func boxOf(points []Vec) [2]Vec {
	low, high := points[0], points[0]
	for _, p := range points[1:] {
		for k := range 3 {
			low[k], high[k] = min(low[k], p[k]), max(high[k], p[k])
		}
	}
	return [2]Vec{low, high}
}

func separate(a, b [2]Vec) bool {
	for k := range 3 {
		if a[1][k] < b[0][k] || b[1][k] < a[0][k] {
			return true
		}
	}
	return false
}

// pierces says whether an edge of a ring of corners goes through the inside of a panel.
func (m *Model) pierces(p *Pose, ring []Vec, panel int) bool {
	f := p.Panels[panel]
	q := m.Assembly.Panels[panel]
	height := func(v Vec) float64 { return v.Sub(f.O).Dot(f.Z) }
	before := ring[len(ring)-1]
	za := height(before)
	for _, v := range ring {
		zb := height(v)
		if za*zb < 0 && math.Abs(za) > throughDepth && math.Abs(zb) > throughDepth {
			hit := before.Add(v.Sub(before).Scale(za / (za - zb))).Sub(f.O)
			if x, y := hit.Dot(f.X)/mmPerNM, hit.Dot(f.Y)/mmPerNM; q.Contains(x, y) && offEdge(q.Rings(), x, y) {
				return true
			}
		}
		before, za = v, zb
	}
	return false
}

// offEdge says whether a point, in nanometres, is further than the margin from all edges of a panel.
func offEdge(rings [][]plane.Point, x, y float64) bool {
	for _, ring := range rings {
		for i, a := range ring {
			b := ring[(i+1)%len(ring)]
			dx, dy := float64(b.X-a.X), float64(b.Y-a.Y)
			px, py := x-float64(a.X), y-float64(a.Y)
			t := min(max((px*dx+py*dy)/(dx*dx+dy*dy), 0), 1)
			if math.Hypot(px-t*dx, py-t*dy) < edgeMargin/mmPerNM {
				return false
			}
		}
	}
	return true
}
