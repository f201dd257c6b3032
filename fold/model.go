package fold

import (
	"math"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/pattern"
)

// Model is a card ready to be posed.
type Model struct {
	Assembly *pattern.Assembly
	// Shut holds the angle of every hinge in the closed card: 0 or ±π.
	Shut []float64
	// Low and High bound every angle by the sense of its score.
	Low, High []float64
	// up says which panels show their outer face at the front of the closed card; root is where the first panel lies.
	up []bool
	// closedUp holds, per panel, the direction in its pattern that points up in the closed card.
	closedUp []Vec
	tree     []link
	loops    []loop
	// axes holds, per hinge, a point on it and its direction, in the pattern.
	axes [][2]Vec
	// parent holds, per panel, the index in tree of the link that hangs it, depth its distance from the first panel.
	parent, depth []int
	// over holds on which side of another panel each panel lies in the closed card (see layers); outlines their corners.
	over     []float64
	outlines [][]Vec
	// scale is a length typical of the card in millimetres: it makes angles and distances comparable.
	scale float64
}

// link hangs panel on parent. Exactly one of hinge and joint is >= 0; both are -1 for the first panel.
type link struct {
	panel, parent int
	hinge         int
	// back is set where the parent is panel B of the hinge or panel A of the joint.
	back  bool
	joint int
	fixed Frame // of a joint
}

// loop is a hinge or joint that closes a ring: panel q must lie where panel p and the hinge or joint put it.
type loop struct {
	p, q  int
	hinge int
	fixed Frame // of a joint
	// marks are three points of q, in q's pattern, that must coincide both ways.
	marks [3]Vec
	// chain holds the hinges on the ring, each with +1 if it moves the q side of the comparison and -1 if the p side.
	chain []sided
}

type sided struct {
	hinge int
	sign  float64
}

// New prepares a card that lies flat.
// Range: closed.Folded and closed.At must be there (see flat.Close).
func New(closed *flat.Closed) *Model {
	a := closed.Assembly
	m := &Model{Assembly: a}
	for i := range a.Panels {
		m.up = append(m.up, !closed.At[i].Flips())
		back := lift(closed.At[i]).Inverse()
		m.closedUp = append(m.closedUp, back.Turn(Vec{0, 1, 0}))
		m.scale = max(m.scale, a.Panels[i].Box.W().MM(), a.Panels[i].Box.H().MM())
	}
	for i, h := range a.Hinges {
		from := vec(h.From)
		m.axes = append(m.axes, [2]Vec{from, vec(h.To).Sub(from).Unit()})
		low, high := -math.Pi, math.Pi
		if h.Sense == card.Mountain {
			low = 0
		}
		if h.Sense == card.Valley {
			high = 0
		}
		shut := 0.0
		if closed.Folded[i] {
			shut = math.Pi
			if closed.Sense(i) == card.Valley {
				shut = -math.Pi
			}
		}
		m.Low, m.High, m.Shut = append(m.Low, low), append(m.High, high), append(m.Shut, shut)
	}
	m.layer(closed)
	m.parent = make([]int, len(a.Panels))
	m.depth = make([]int, len(a.Panels))
	m.hang()
	return m
}

// layer notes what lies over what in the closed card.
func (m *Model) layer(closed *flat.Closed) {
	var stacks [][]int
	if closed.OrderOK {
		for _, c := range closed.Overlay.Cells {
			stacks = append(stacks, c.Stack)
		}
	}
	m.over = layers(m.up, stacks)
	for _, p := range m.Assembly.Panels {
		var corners []Vec
		for _, c := range p.Outline {
			corners = append(corners, vec(c))
		}
		m.outlines = append(m.outlines, corners)
	}
}

// hang builds the spanning tree and the loops, nearest panels first so that chains are short.
func (m *Model) hang() {
	a := m.Assembly
	seen := make([]bool, len(a.Panels))
	hinge := make([]bool, len(a.Hinges))
	joint := make([]bool, len(a.Joints))
	queue := []int{0}
	seen[0] = true
	m.tree = []link{{panel: 0, parent: -1, hinge: -1, joint: -1}}
	add := func(l link) {
		seen[l.panel] = true
		m.depth[l.panel] = m.depth[l.parent] + 1
		m.parent[l.panel] = len(m.tree)
		m.tree = append(m.tree, l)
		queue = append(queue, l.panel)
	}
	for len(queue) > 0 {
		p := queue[0]
		queue = queue[1:]
		for i, j := range a.Joints {
			switch {
			case joint[i]:
			case j.B == p && !seen[j.A]:
				joint[i] = true
				add(link{panel: j.A, parent: p, hinge: -1, joint: i, fixed: lift(j.Place)})
			case j.A == p && !seen[j.B]:
				joint[i] = true
				add(link{panel: j.B, parent: p, hinge: -1, joint: i, back: true, fixed: lift(j.Place).Inverse()})
			}
		}
		for i, h := range a.Hinges {
			switch {
			case hinge[i]:
			case h.A == p && !seen[h.B]:
				hinge[i] = true
				add(link{panel: h.B, parent: p, hinge: i, joint: -1})
			case h.B == p && !seen[h.A]:
				hinge[i] = true
				add(link{panel: h.A, parent: p, hinge: i, joint: -1, back: true})
			}
		}
	}
	for i, h := range a.Hinges {
		if !hinge[i] {
			m.addLoop(loop{p: h.A, q: h.B, hinge: i})
		}
	}
	for i, j := range a.Joints {
		if !joint[i] {
			m.addLoop(loop{p: j.B, q: j.A, hinge: -1, fixed: lift(j.Place)})
		}
	}
}

// addLoop completes a loop with its marks and its chain.
func (m *Model) addLoop(l loop) {
	c := m.middle(l.q)
	s := m.scale / 2
	l.marks = [3]Vec{c, c.Add(Vec{s, 0, 0}), c.Add(Vec{0, s, 0})}
	l.chain = m.between(l.p, l.q)
	if l.hinge >= 0 {
		l.chain = append(l.chain, sided{l.hinge, 0}) // its own angle turns the p side; see jacobian
	}
	m.loops = append(m.loops, l)
}

// between returns the hinges on the way between two panels in the tree: sign +1 for those that move q, -1 for p.
func (m *Model) between(p, q int) []sided {
	var chain []sided
	for p != q {
		k, sign := m.parent[q], 1.0
		if m.depth[p] > m.depth[q] {
			k, sign = m.parent[p], -1
		}
		if t := m.tree[k]; t.hinge >= 0 {
			chain = append(chain, sided{t.hinge, sign})
		}
		if sign > 0 {
			q = m.tree[k].parent
		} else {
			p = m.tree[k].parent
		}
	}
	return chain
}

// axis returns a point on a hinge and its direction From→To, in the pattern.
func (m *Model) axis(hinge int) (o, u Vec) { return m.axes[hinge][0], m.axes[hinge][1] }

// hingeFrame returns the motion of panel B of a hinge against panel A at an angle.
func (m *Model) hingeFrame(hinge int, angle float64) Frame {
	o, u := m.axis(hinge)
	return about(o, u, angle)
}

// frames places all panels at the given angles, the first panel unmoved.
func (m *Model) frames(angles []float64, out []Frame) {
	for _, l := range m.tree {
		switch {
		case l.parent < 0:
			out[l.panel] = Still()
		case l.hinge < 0:
			out[l.panel] = out[l.parent].After(l.fixed)
		case l.back:
			out[l.panel] = out[l.parent].After(m.hingeFrame(l.hinge, -angles[l.hinge]))
		default:
			out[l.panel] = out[l.parent].After(m.hingeFrame(l.hinge, angles[l.hinge]))
		}
	}
}

// placed returns the frames of all panels at the given angles.
func (m *Model) placed(angles []float64) []Frame {
	out := make([]Frame, len(m.Assembly.Panels))
	m.frames(angles, out)
	return out
}

// through returns where the p side of a loop puts panel q.
func (m *Model) through(l *loop, angles []float64, frames []Frame) Frame {
	if l.hinge >= 0 {
		return frames[l.p].After(m.hingeFrame(l.hinge, angles[l.hinge]))
	}
	return frames[l.p].After(l.fixed)
}

// LoopError returns the largest distance in millimetres by which a loop fails to meet itself at the given angles.
func (m *Model) LoopError(angles []float64) float64 { return m.loopError(angles, m.placed(angles)) }

func (m *Model) loopError(angles []float64, frames []Frame) float64 {
	worst := 0.0
	for i := range m.loops {
		l := &m.loops[i]
		via := m.through(l, angles, frames)
		for _, c := range l.marks {
			worst = max(worst, frames[l.q].At(c).Sub(via.At(c)).Norm())
		}
	}
	return worst
}
