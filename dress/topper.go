package dress

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
	"foldwright/stance"
	"foldwright/stock"
)

// mostLean is how much further, in radians, a card may lean for its topper: 1 degree. Assumed, without a source.
const mostLean = math.Pi / 180

// Sheet is one layer of a topper.
type Sheet struct {
	Die   stock.Die
	Stock card.Stock
	// Thick is how far it stands out with what holds it off; 0 for a flat one, as thick as its stock.
	Thick length.Length
}

// TopperJob says what is to be put where.
type TopperJob struct {
	On card.PanelRef
	// Sheets lie on each other, the lowest and largest first.
	Sheets []Sheet
	Turned bool
	// At is the level that Place means; with TopperCentre it is free: as near to the middle of the panel as it can be.
	Place card.TopperPlace
	At    length.Length
	// Within is the size that the closed card must stay within, such as the inside of its envelope; 0 for what the card says
	// that it fits, or else the closed card as it is.
	Within card.Size
	Marks  length.Length
	// Others are further dies of the person, for advice.
	Others []stock.Die
}

// Overhang is how far something reaches beyond something else; 0 on a side where it does not.
type Overhang struct{ Left, Right, Above, Below length.Length }

// Any says whether it reaches beyond on any side.
func (o Overhang) Any() bool { return o != Overhang{} }

// Topper is a topper that was found a place.
type Topper struct {
	Dressing
	Panel int
	// Ring is its lowest sheet in the closed card.
	Ring []plane.Point
	// OverPanel is how far that reaches beyond its panel, OverCard beyond the closed card without ornament.
	OverPanel, OverCard Overhang
	// Glued is the share of the lowest sheet that lies on the panel.
	Glued float64
	// Pressed names the panels that lie on it while the card is shut.
	Pressed []int
	// Steady says that the card stands with it, as Stance says; Before is how it stands without it.
	Steady         bool
	Stance, Before *stance.Stance
}

// leastGlued is the share of a topper that must lie on its panel. Assumed, without a source.
const leastGlued = 0.15

// Topper finds a place for a topper.
//
// It keeps the closed card within its size, off what glue holds on the panel, a raised one also off what presses on it;
// it is out of the way of every panel while the card opens, and the card still stands if it stood without it.
//
// Problems: dress-panel (no panel that shows), dress-topper-size (larger than what the card must stay within), dress-nest
// (a sheet that is not smaller than the one below), dress-topper (no place for it), dress-marks, dress-stock, dress-stopped. The topper is nil where
// there is one.
func (w *Wardrobe) Topper(ctx context.Context, job TopperJob) (*Topper, problem.List) {
	p, problems := w.newPlacer(job)
	if problems.HasErrors() {
		return nil, problems.Sorted()
	}
	why, furthest := "", -1
	for _, low := range p.levels() {
		if ctx.Err() != nil {
			return nil, problem.List{{Rule: "dress-stopped", Where: p.card.Where, What: "the search for a place for " + p.name() + " was stopped", Needs: "a level of its own, or more time"}}
		}
		t, reason, passed := p.try(ctx, low)
		if reason == "" {
			return t, nil
		}
		if passed > furthest { // the level that nearly did tells more than the one that was liked best
			why, furthest = reason, passed
		}
	}
	return nil, problem.List{{Rule: "dress-topper", Where: p.card.Where, What: p.name() + " has no place on " + p.ref() + ": " + why,
		Needs: "another panel, another level or a smaller die", Try: p.advice()}}
}

// levels lists the heights of the topper's lower edge above that of the closed card, on marks, those that are liked best first.
func (p *placer) levels() []length.Length {
	bottom := p.w.closed.Box.Min.Y
	switch p.job.Place {
	case card.TopperTop:
		return []length.Length{p.job.At - p.size.H}
	case card.TopperBottom:
		return []length.Length{p.job.At}
	}
	middle := middleOf(p.on, p.size).Min.Y - bottom
	out := []length.Length{middle}
	low, high := p.on.Min.Y-p.size.H-bottom, p.on.Max.Y-bottom
	low, _ = low.Snap(p.marks)
	for l := low; l <= high; l += p.marks {
		out = append(out, l)
	}
	slices.SortStableFunc(out, func(a, b length.Length) int { return cmp.Compare((a - middle).Abs(), (b - middle).Abs()) })
	return out
}

// try returns the topper at a level, or says what is wrong with it there, and how many checks it passed before.
func (p *placer) try(ctx context.Context, low length.Length) (t *Topper, why string, passed int) {
	c := p.w.closed
	box := middleOf(p.on, p.size)
	box.Max.Y += c.Box.Min.Y + low - box.Min.Y
	box.Min.Y = c.Box.Min.Y + low
	t = &Topper{Dressing: p.out, Panel: p.face.Panel, Before: p.w.stands, OverPanel: beyond(box, p.on), OverCard: beyond(box, c.Box)}
	t.Ring = ringOf(card.Topper{Kind: shapeOf(p.job.Sheets[0].Die)}, box)
	t.Toppers = p.sheets(box)
	for i, check := range [...]func(*Topper) string{
		func(*Topper) string { return p.outgrows(box) }, p.covered, p.stays,
		func(t *Topper) string { return p.w.passes(ctx, t.Panel, t.Ring) },
	} {
		if why := check(t); why != "" {
			return nil, why, i
		}
	}
	return t, "", 0
}

// outgrows says by how much the closed card would be too large with a topper in a box.
func (p *placer) outgrows(box plane.Box) string {
	b := p.w.closed.Outline().Union(box)
	if b.W() <= p.within.W && b.H() <= p.within.H {
		return ""
	}
	return "the closed card would be " + p.pair(card.Size{W: b.W(), H: b.H()}) + " with it, and may be " + p.pair(p.within)
}

// covered judges what lies on the panel where the topper is to lie.
func (p *placer) covered(t *Topper) string {
	w, panel := p.w, p.w.panel(p.face.Panel)
	ring := w.closed.At[t.Panel].Inverse().Points(t.Ring)
	raised := slices.ContainsFunc(p.job.Sheets, func(s Sheet) bool { return s.Thick > 0 })
	for _, c := range p.face.Covers {
		if !shares(ring, c.Ring, true) {
			continue
		}
		by := w.panel(c.By).Ref
		switch {
		case c.Glued:
			return by + " is glued there"
		case raised:
			return by + " lies on it in the closed card, and a raised topper would press through; a flat one may lie there"
		case !slices.Contains(t.Pressed, c.By):
			t.Pressed = append(t.Pressed, c.By)
		}
	}
	t.Glued = onPanel(ring, panel.Contains)
	if t.Glued < leastGlued {
		return fmt.Sprintf("only %.0f of 100 parts of it would lie on the panel, and %.0f must", 100*t.Glued, 100*leastGlued)
	}
	return ""
}

// onPanel returns the share of a ring that lies on a panel, counted on a grid.
func onPanel(ring []plane.Point, contains func(x, y float64) bool) float64 {
	const n = 40
	b := plane.BoxOf(ring...)
	in, on := 0, 0
	for i := range n {
		for j := range n {
			x, y := float64(b.Min.X)+(float64(i)+0.5)/n*float64(b.W()), float64(b.Min.Y)+(float64(j)+0.5)/n*float64(b.H())
			if !plane.InPolygon(ring, x, y) {
				continue
			}
			in++
			if contains(x, y) {
				on++
			}
		}
	}
	return float64(on) / float64(max(in, 1))
}

// sheets writes the sheets as toppers about the middle of a box, each at its own level.
func (p *placer) sheets(box plane.Box) []card.Topper {
	var out []card.Topper
	for _, s := range p.job.Sheets {
		t := card.Topper{Kind: shapeOf(s.Die), Size: sizeOf(s.Die, p.job.Turned), Stock: s.Stock.Name, On: p.job.On, Thick: s.Thick, ThickGiven: s.Thick > 0}
		if in := middleOf(box, t.Size); in.Min.Y != middleOf(p.on, t.Size).Min.Y || p.job.Place != card.TopperCentre {
			t.Place, t.At = card.TopperTop, in.Max.Y-p.w.closed.Box.Min.Y
		}
		out = append(out, t)
	}
	return out
}

// stays says why the card would not stand any more with a topper, and keeps how it stands.
func (p *placer) stays(t *Topper) string {
	pose := 0
	dressed := p.w.Dressed(t.Dressing)
	pose, t.Stance = stance.Standing(dressed, p.w.opening)
	t.Steady = pose >= 0
	leans, to := t.Stance.Lean()
	before, _ := p.w.stands.Lean()
	switch {
	case !p.w.steady:
		return ""
	case !t.Steady:
		return "the open card would not stand with it: it would fall " + t.Stance.Falls().String()
	case pose < p.w.pose:
		return "the card would stand only if it were opened less far"
	case leans > before+mostLean:
		return fmt.Sprintf("the open card would not stand upright with it: it would lean %s by %.0f degrees", to, leans*180/math.Pi)
	}
	return ""
}

// beyond says how far one box reaches beyond another.
func beyond(a, b plane.Box) Overhang {
	return Overhang{Left: max(0, b.Min.X-a.Min.X), Right: max(0, a.Max.X-b.Max.X), Above: max(0, a.Max.Y-b.Max.Y), Below: max(0, b.Min.Y-a.Min.Y)}
}
