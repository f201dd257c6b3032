package fit

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
)

// Block is a closed card as an envelope sees it: its outline with mats and toppers, and its thickness.
type Block struct {
	W, H, Thick length.Length
	// Bulk says where it is how thick; nil where only the three measurements are known.
	Bulk *Bulk
}

// BlockOf returns the block of a card that lies flat.
func BlockOf(c *flat.Closed) Block {
	box, bulk := c.Outline(), Measure(c)
	return Block{W: box.W(), H: box.H(), Thick: bulk.Max, Bulk: bulk}
}

// Bump returns how much thicker the thickest place is than the usual thickness; 0 where that is not known.
func (b Block) Bump() length.Length {
	if b.Bulk == nil {
		return 0
	}
	return b.Bulk.Max - b.Bulk.Usual // also where Thick was measured on a pressed card: springback lifts all of it
}

// Bulk is how thick a closed card is, and over how much of its area. It is a lower bound, as that of package flat.
type Bulk struct {
	Max length.Length
	// Usual is the thickness that half of the area does not exceed.
	Usual length.Length
	// At is a point where it is thickest, from the lower left corner of the outline.
	At plane.Point
	// Levels holds every thickness that occurs, the largest first.
	Levels []Level
	// Layers says what lies at At.
	Layers  []Layer
	regions []region
}

// Level is a thickness and the share of the card's area that has it, from 0 to 1.
type Level struct {
	Thick length.Length
	Share float64
}

// Layer is one thing that lies at the thickest place, as so many layers.
type Layer struct {
	Name   string
	Layers int
	Thick  length.Length
}

// region is a part of the closed card over which the same things lie.
type region struct {
	area   float64 // nm²
	at     plane.Point
	things []int // of stack.things
}

// thing is a panel, a mat or a topper.
type thing struct {
	name  string
	copy  int // the copy of a piece that it is, or lies on
	thick length.Length
	grams float64
	// decoration is its place in flat.Closed.Decorations, -1 for a panel.
	decoration int
}

// Measure says how thick a card that lies flat is, and where.
func Measure(c *flat.Closed) *Bulk {
	b := &Bulk{}
	things := thingsOf(c)
	origin := c.Outline().Min
	total, by := 0.0, map[length.Length]float64{}
	for _, r := range regionsOf(c) {
		thick := thickOf(things, r, nil)
		if thick > b.Max {
			b.Max, b.At, b.Layers = thick, r.at.Sub(origin), layersOf(things, r)
		}
		total += r.area
		by[thick] += r.area
		b.regions = append(b.regions, r)
	}
	for thick, area := range by {
		b.Levels = append(b.Levels, Level{thick, area / total})
	}
	slices.SortFunc(b.Levels, func(x, y Level) int { return cmp.Compare(y.Thick, x.Thick) })
	thicker := 0.0
	for _, l := range b.Levels {
		if b.Usual, thicker = l.Thick, thicker+l.Share; thicker > 0.5 {
			break
		}
	}
	return b
}

// thickOf sums what lies on a region, without the things that are left out.
func thickOf(things []thing, r region, left func(thing) bool) length.Length {
	sum := length.Length(0)
	for _, i := range r.things {
		if left == nil || !left(things[i]) {
			sum += things[i].thick
		}
	}
	return sum
}

func layersOf(things []thing, r region) []Layer {
	var out []Layer
	for _, i := range r.things {
		at := slices.IndexFunc(out, func(l Layer) bool { return l.Name == things[i].name })
		if at < 0 {
			at = len(out)
			out = append(out, Layer{Name: things[i].name})
		}
		out[at].Layers++
		out[at].Thick += things[i].thick
	}
	return out
}

// thingsOf lists the panels of a card, and behind them its mats and toppers.
func thingsOf(c *flat.Closed) []thing {
	a := c.Assembly
	var out []thing
	for _, p := range a.Panels {
		t := thing{name: a.Copies[p.Copy].Name, copy: p.Copy, decoration: -1}
		if s := a.Card.StockNamed(a.Copies[p.Copy].Pattern.Piece.Stock); s != nil {
			t.thick, t.grams = s.Caliper, squareMetres(p.Area())*s.Grammage
		}
		out = append(out, t)
	}
	for i, d := range c.Decorations() {
		kind := "mat"
		if d.Topper {
			kind = "topper"
		}
		p := a.Panels[d.Panel]
		t := thing{name: fmt.Sprintf("%s of %s on %s", kind, d.Stock, p.Ref), copy: p.Copy, thick: d.Thick, decoration: i}
		if s := a.Card.StockNamed(d.Stock); s != nil {
			t.grams = squareMetres(plane.Area(d.Ring)) * s.Grammage
		}
		out = append(out, t)
	}
	return out
}

// squareMetres makes m² of a signed area in nm².
func squareMetres(area float64) float64 { return max(area, -area) * 1e-18 }

// dust is the area in nm² below which a region is left over from rounding: a thousandth of a square millimetre.
const dust = 1e9

// regionsOf cuts the closed card up along the edges of panels, mats and toppers.
func regionsOf(c *flat.Closed) []region {
	var segments []plane.Segment
	for _, e := range c.Overlay.Sub.Edges {
		segments = append(segments, plane.Segment{A: c.Overlay.Sub.Points[e.A], B: c.Overlay.Sub.Points[e.B]})
	}
	decorations := c.Decorations()
	for _, d := range decorations {
		for i, p := range d.Ring {
			segments = append(segments, plane.Segment{A: p, B: d.Ring[(i+1)%len(d.Ring)]})
		}
	}
	back := make([]plane.Motion, len(c.At))
	for i, m := range c.At {
		back[i] = m.Inverse()
	}
	sub := plane.Subdivide(segments, length.Micrometre)
	var out []region
	for f := range sub.Faces {
		x, y, ok := sub.InnerPoint(f)
		if !ok || sub.Faces[f].Area < dust {
			continue
		}
		r := region{area: sub.Faces[f].Area, at: plane.Point{X: length.Length(x), Y: length.Length(y)}}
		for i, m := range back {
			if px, py := m.At(x, y); c.Assembly.Panels[i].Contains(px, py) {
				r.things = append(r.things, i)
			}
		}
		for i, d := range decorations {
			if plane.InPolygon(d.Ring, x, y) {
				r.things = append(r.things, len(back)+i)
			}
		}
		if len(r.things) > 0 {
			out = append(out, r)
		}
	}
	return out
}
