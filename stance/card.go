package stance

import (
	"math"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/fold"
	"foldwright/plane"
)

// touching is how far above the lowest point, in millimetres, a point of the card still counts as standing on the table:
// paper gives way by more than that.
const touching = 0.5

// Steady is the tilt, in radians, that a card has to bear to count as standing: 5 degrees, for a draught, a knock and a
// table that is not level. Assumed, without a source.
const Steady = 5 * math.Pi / 180

// Weight is an ornament that the recipe does not name: so many grams, fixed to the middle of a panel of the assembly.
type Weight struct {
	Grams float64
	Panel int
}

// Of says how a card stands in a pose (see [fold.Opening]), with further weights fixed to it. It starts upright and leans
// where it has to, see [Stance.Lean].
func Of(closed *flat.Closed, pose fold.Pose, weights ...Weight) *Stance {
	b := newBody(closed, pose)
	for _, w := range weights {
		b.masses = append(b.masses, Mass{w.Grams, Middle(closed, pose, w.Panel)})
	}
	return b.settle()
}

// Standing returns the widest pose of an opening in which the card stands steadily, and how; pose is -1, with the stance of
// the open card, where there is none. A card that is pulled open is judged fully open only.
func Standing(closed *flat.Closed, o *fold.Opening, weights ...Weight) (pose int, s *Stance) {
	last := len(o.Poses) - 1
	for k := last; k > 0 && (k == last || o.Driver != card.OpensByPulling); k-- {
		if s := Of(closed, o.Poses[k], weights...); s.Tip >= Steady {
			return k, s
		}
	}
	return -1, Of(closed, o.Poses[last], weights...)
}

// Middle returns where the middle of a panel is in a pose, upright as it is posed.
func Middle(closed *flat.Closed, pose fold.Pose, panel int) fold.Vec {
	_, x, y := areaOf(closed.Assembly.Panels[panel].Rings())
	return pose.Panels[panel].At(fold.Vec{x, y, 0})
}

// body is a card in a pose: its masses, and the corners on which it may stand.
type body struct {
	masses  []Mass
	corners []fold.Vec
}

func newBody(closed *flat.Closed, pose fold.Pose) *body {
	b := &body{}
	a := closed.Assembly
	for i, p := range a.Panels {
		b.add(p.Rings(), a.Card.StockNamed(a.Copies[p.Copy].Pattern.Piece.Stock), pose.Panels[i], 0)
	}
	off := make([]float64, len(a.Panels)) // of the layers on each panel
	for _, d := range closed.Decorations() {
		back := closed.At[d.Panel].Inverse()
		ring := make([]plane.Point, len(d.Ring))
		for i, q := range d.Ring {
			ring[i] = back.Point(q)
		}
		thick := d.Thick.MM()
		b.add([][]plane.Point{ring}, a.Card.StockNamed(d.Stock), pose.Panels[d.Panel], off[d.Panel]+thick/2)
		off[d.Panel] += thick
	}
	return b
}

// add adds a flat thing that lies in the frame of a panel, off its outer face by some millimetres.
func (b *body) add(rings [][]plane.Point, s *card.Stock, f fold.Frame, off float64) {
	area, x, y := areaOf(rings)
	if s != nil && area > 0 {
		b.masses = append(b.masses, Mass{Grams: area * 1e-6 * s.Grammage, At: f.At(fold.Vec{x, y, off})})
	}
	for _, q := range rings[0] {
		b.corners = append(b.corners, f.At(fold.Vec{q.X.MM(), q.Y.MM(), off}))
	}
}

// contacts lists the corners on which the card stands.
func (b *body) contacts() []fold.Vec {
	low := math.Inf(1)
	for _, c := range b.corners {
		low = min(low, c[1])
	}
	var out []fold.Vec
	for _, c := range b.corners {
		if c[1] <= low+touching {
			out = append(out, fold.Vec{c[0], low, c[2]})
		}
	}
	return out
}

// areaOf returns the area in mm² that rings enclose, the outer one counter-clockwise and holes clockwise or all of them the
// other way round, and its middle in millimetres.
func areaOf(rings [][]plane.Point) (area, x, y float64) {
	for _, ring := range rings {
		for i, p := range ring {
			q := ring[(i+1)%len(ring)]
			px, py, qx, qy := p.X.MM(), p.Y.MM(), q.X.MM(), q.Y.MM()
			cross := px*qy - qx*py
			area += cross / 2
			x += (px + qx) * cross / 6
			y += (py + qy) * cross / 6
		}
	}
	if area == 0 {
		return 0, 0, 0
	}
	return math.Abs(area), x / area, y / area
}
