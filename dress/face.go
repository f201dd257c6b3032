package dress

import (
	"math"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/stance"
)

// Face is the outer side of a panel that shows in the open card.
type Face struct {
	Panel int
	// Front says that it is turned to whoever looks at the front of the open card, or lies level or sideways to him.
	Front bool
	// Seen is the share of it that is seen from the best side, from 0 to 1; what glue covers does not count.
	Seen float64
	// Covers is what lies on it.
	Covers []Cover
	// Layers is how many mats it has.
	Layers int
}

// Cover is what lies on a face.
type Cover struct {
	// By is the panel that lies there, Ring where it lies, in the pattern of the face.
	By   int
	Ring []plane.Point
	// Glued says that glue holds it there; else it lies there only while the card is shut.
	Glued bool
}

// Wardrobe is a card that opens, and what shows of it: what its ornament is chosen for.
type Wardrobe struct {
	closed  *flat.Closed
	opening *fold.Opening
	pose    int // that is looked at
	stands  *stance.Stance
	steady  bool
	faces   []Face
}

// New looks at a card that lies flat and was followed to its end.
func New(closed *flat.Closed, opening *fold.Opening) *Wardrobe {
	w := &Wardrobe{closed: closed, opening: opening}
	w.pose, w.stands = stance.Standing(closed, opening)
	if w.steady = w.pose >= 0; !w.steady {
		w.pose = len(opening.Poses) - 1
	}
	layers := make([]int, len(closed.At))
	for _, d := range closed.Decorations() {
		if !d.Topper {
			layers[d.Panel]++
		}
	}
	glued := w.glued()
	for p := range closed.Assembly.Panels {
		seen := w.seen(p, glued[p])
		if seen < 0.5 {
			continue
		}
		f := Face{Panel: p, Front: w.normal(p)[2] > -1e-6, Seen: seen, Layers: layers[p], Covers: glued[p]}
		f.Covers = append(f.Covers, w.lyingOn(p)...)
		w.faces = append(w.faces, f)
	}
	return w
}

// Faces lists the faces that show, by panel.
func (w *Wardrobe) Faces() []Face { return slices.Clone(w.faces) }

// face returns the face of a panel; nil where it does not show.
func (w *Wardrobe) face(panel int) *Face {
	i := slices.IndexFunc(w.faces, func(f Face) bool { return f.Panel == panel })
	if i < 0 {
		return nil
	}
	return &w.faces[i]
}

func (w *Wardrobe) panel(i int) pattern.AtPanel { return w.closed.Assembly.Panels[i] }

func (w *Wardrobe) frames() []fold.Frame { return w.opening.Poses[w.pose].Panels }

func (w *Wardrobe) normal(panel int) fold.Vec { return w.frames()[panel].Z }

// glued lists, for every panel, what glue holds on its outer face.
func (w *Wardrobe) glued() [][]Cover {
	a := w.closed.Assembly
	out := make([][]Cover, len(a.Panels))
	cover := func(on, by int, place plane.Motion) {
		out[on] = append(out[on], Cover{By: by, Ring: place.Points(a.Panels[by].Outline), Glued: true})
	}
	for _, j := range a.Joints {
		outerA, outerB := outerFaces(j.Glue.Joint)
		if outerA {
			cover(j.A, j.B, j.Place.Inverse())
		}
		if outerB {
			cover(j.B, j.A, j.Place)
		}
	}
	return out
}

// lyingOn lists what lies on the outer face of a panel in the closed card without glue, cell by cell.
func (w *Wardrobe) lyingOn(panel int) []Cover {
	c := w.closed
	back := c.At[panel].Inverse()
	step := -1 // stacks run from the front
	if c.At[panel].Flips() {
		step = 1
	}
	var out []Cover
	for i, cell := range c.Overlay.Cells {
		at := slices.Index(cell.Stack, panel)
		if at < 0 || at+step < 0 || at+step >= len(cell.Stack) {
			continue
		}
		by := cell.Stack[at+step]
		if !w.holds(panel, by) {
			out = append(out, Cover{By: by, Ring: back.Points(c.Overlay.Ring(i))})
		}
	}
	return out
}

// outerFaces says of which of its two panels a joint takes the outer face.
func outerFaces(j card.Joint) (a, b bool) {
	return j == card.Inside || j == card.Against, j == card.Outside || j == card.Against
}

// holds says whether glue holds the outer face of a panel on another panel.
func (w *Wardrobe) holds(panel, on int) bool {
	return slices.ContainsFunc(w.closed.Assembly.Joints, func(j pattern.Joint) bool {
		outerA, outerB := outerFaces(j.Glue.Joint)
		return outerA && j.A == panel && j.B == on || outerB && j.B == panel && j.A == on
	})
}

// grid is how many points across and up a face are looked at, sides from how many sides round the card.
const (
	grid  = 6
	sides = 24
)

// seen returns the largest share of the outer face of a panel that is seen from one side, of what glue leaves bare.
func (w *Wardrobe) seen(panel int, covers []Cover) float64 {
	points := w.bare(panel, covers)
	if len(points) == 0 {
		return 0
	}
	best := 0.0
	for k := range 2 * sides {
		az, el := 2*math.Pi*float64(k/2)/sides, float64(k%2)*math.Pi/6
		to := fold.Vec{math.Sin(az) * math.Cos(el), math.Sin(el), math.Cos(az) * math.Cos(el)}
		if w.normal(panel).Dot(to) < 0.2 { // nearly edge on
			continue
		}
		n := 0
		for _, p := range points {
			if !w.blocked(panel, p, to) {
				n++
			}
		}
		best = max(best, float64(n)/float64(len(points)))
	}
	return best
}

// bare lists points of a face that no glued part covers, in space.
func (w *Wardrobe) bare(panel int, covers []Cover) []fold.Vec {
	p := w.panel(panel)
	f := w.frames()[panel]
	var out []fold.Vec
	for i := range grid {
		for j := range grid {
			x := float64(p.Box.Min.X) + (float64(i)+0.5)/grid*float64(p.Box.W())
			y := float64(p.Box.Min.Y) + (float64(j)+0.5)/grid*float64(p.Box.H())
			covered := slices.ContainsFunc(covers, func(c Cover) bool { return plane.InPolygon(c.Ring, x, y) })
			if p.Contains(x, y) && !covered {
				out = append(out, f.At(fold.Vec{x * 1e-6, y * 1e-6, 0}))
			}
		}
	}
	return out
}

// blocked says whether a panel stands in the way of whoever looks at a point of another one from far away.
func (w *Wardrobe) blocked(panel int, from, to fold.Vec) bool {
	const near = 0.05 // mm: a part that lies behind, or against the edge, does not hide it
	for i, f := range w.frames() {
		if i == panel {
			continue
		}
		down := f.Z.Dot(to)
		if math.Abs(down) < 1e-9 {
			continue
		}
		t := f.O.Sub(from).Dot(f.Z) / down
		if t < near {
			continue
		}
		hit := from.Add(to.Scale(t)).Sub(f.O)
		if w.panel(i).Contains(hit.Dot(f.X)*1e6, hit.Dot(f.Y)*1e6) {
			return true
		}
	}
	return false
}
