package view

import (
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/pattern"
)

// Pattern draws the flat pattern of one piece, true to size, outer face towards you, with everything that a maker needs to
// measure, score and glue it: ruler marks, widths, names, glue areas and a legend. piece is the index in the card;
// out of range it returns nil. All copies of a piece share one drawing.
func Pattern(a *pattern.Assembly, piece int) *drawing.Drawing {
	p := patternOf(a, piece)
	if p == nil {
		return nil
	}
	c := a.Card
	d := drawing.New(fileWord(p.Piece.Name)+"-pattern", c.Title+": "+p.Piece.Name+", flat pattern")
	w := &patternView{d: d, a: a, p: p, unit: c.Unit, lines: newPieceLines(p), mats: matsOf(a, piece)}
	w.panels()
	d.Add(drawing.GroupCut, w.lines.cuts()...)
	d.Add(drawing.GroupScore, w.lines.scored()...)
	w.room.line(d.Shapes()...)
	w.matEdges()
	w.areas = glueAreas(a, piece)
	for i := range w.areas {
		w.room.line(glueEdge(p, w.areas[i], drawing.Glue)...)
	}
	w.room.avoid = partGlued(p, w.areas)
	w.names()
	w.room.avoid = nil
	w.locate()
	w.numbers()
	w.glue()
	w.chains()
	notes(d, w.keys...)
	notes(d, w.places()...)
	notes(d, w.coordinates()...)
	notes(d, w.layers()...)
	legend(d, w.entries())
	head(d, c.Title+": "+p.Piece.Name, w.make(), "outer face towards you, true to size: "+size(p.Box.W(), p.Box.H(), c.Unit))
	w.grain()
	d.Desc = fmt.Sprintf("Flat pattern of %s, %s. %s, outer face towards you.", p.Piece.Name, size(p.Box.W(), p.Box.H(), c.Unit), w.make())
	d.Fit(margin)
	return d
}

// Patterns draws the flat pattern of every piece of the card, in its order.
func Patterns(a *pattern.Assembly) []*drawing.Drawing {
	var out []*drawing.Drawing
	for i := range a.Card.Pieces {
		if d := Pattern(a, i); d != nil {
			out = append(out, d)
		}
	}
	return out
}

// patternOf returns the pattern of a piece, nil if there is none.
func patternOf(a *pattern.Assembly, piece int) *pattern.Pattern {
	for _, c := range a.Copies {
		if c.Piece == piece {
			return c.Pattern
		}
	}
	return nil
}

// patternView draws one flat pattern.
type patternView struct {
	d     *drawing.Drawing
	a     *pattern.Assembly
	p     *pattern.Pattern
	unit  length.Unit
	lines pieceLines
	mats  []mat
	room  room
	areas []glueArea
	// named are the lines from which glued areas are measured.
	named []string
	// keys are words for which there was no room in the drawing, by the sign that stands there.
	keys []string
}

// make says how many are made of what.
func (w *patternView) make() string {
	return fmt.Sprintf("make %d of %s", max(1, w.p.Piece.Copies), stockWords(w.a.Card.StockNamed(w.p.Piece.Stock)))
}

// panels lays a ground, so that windows show.
func (w *patternView) panels() {
	fill := drawing.Outer(tint(w.a.Card, w.p.Piece.Stock))
	for _, r := range w.lines.border {
		w.d.Add(drawing.GroupPanel, r.polygon(fill, drawing.None))
	}
}

func (w *patternView) matEdges() {
	for _, m := range w.mats {
		r := drawing.Rect(drawing.Style{}, drawing.Frame, drawing.Of(m.box.Min), drawing.Of(m.box.Max))
		w.d.Add(drawing.GroupMark, r)
		w.room.line(r)
	}
}

// rings returns the borders of a panel in mm.
func rings(p *pattern.Panel) [][]drawing.Point {
	var out [][]drawing.Point
	for _, r := range p.Rings() {
		out = append(out, drawing.OfAll(r))
	}
	return out
}

// middle returns where the name of a panel stands best, in mm.
func middle(p *pattern.Panel) drawing.Point {
	c := drawing.Of(p.Box.Min).Add(drawing.Of(p.Box.Max)).Times(0.5)
	if p.Contains(float64(p.Box.Min.X+p.Box.Max.X)/2, float64(p.Box.Min.Y+p.Box.Max.Y)/2) {
		return c
	}
	return drawing.Point{X: p.InX, Y: p.InY}.Times(1e-6)
}

// names writes the name of every panel: level or upright, smaller where it must be, else a number and the name below.
func (w *patternView) names() {
	texts, keys := panelNames(w.p, &w.room, drawing.TextPlain)
	w.d.Add(drawing.GroupText, texts...)
	w.keys = append(w.keys, keys...)
}

// turnsOf returns the directions in which words may run in an area: level, along its longest side, upright.
func turnsOf(ring []drawing.Point) []float64 {
	var longest drawing.Point
	for i, p := range ring {
		if d := ring[(i+1)%len(ring)].Sub(p); d.Len() > longest.Len()+0.01 {
			longest = d
		}
	}
	turn := degrees(longest)
	if turn > 90.01 {
		turn -= 180
	}
	if turn < -89.99 {
		turn += 180
	}
	if math.Abs(turn) < 0.01 || math.Abs(turn-90) < 0.01 {
		return []float64{0, 90}
	}
	return []float64{0, turn, 90}
}

// panelNames sets the names of all panels and returns the keys to those that did not fit.
func panelNames(p *pattern.Pattern, r *room, role drawing.Role) (texts []drawing.Shape, keys []string) {
	for i := range p.Panels {
		q := &p.Panels[i]
		name := block{role: role, bold: true, lines: []string{q.Label}, size: drawing.LabelSize, turns: turnsOf(rings(q)[0])}
		small, tiny := name, name
		small.size, tiny.size = drawing.NoteSize, 2.2
		number := block{role: role, bold: true, lines: []string{fmt.Sprint(i + 1)}, size: 2.2, turns: []float64{0}}
		set, ok := r.put(rings(q), middle(q), name, small, tiny)
		if !ok {
			keys = append(keys, fmt.Sprintf("panel %d: %s", i+1, q.Label))
			set, ok = r.put(rings(q), middle(q), number)
			if !ok { // smaller than its number: the number stands on the panel all the same
				set = number.at(middle(q), 0)
				r.take(set...)
			}
		}
		texts = append(texts, set...)
	}
	return texts, keys
}

// listed says whether lines of the piece need their ends given: whole level and upright scores do not.
func (w *patternView) listed() bool {
	p := w.p.Piece
	return len(p.Slits) > 0 || slices.ContainsFunc(p.Scores, func(s card.Score) bool { return s.Kind == card.Slanted })
}

// scoreName names a score of a piece by its place in the recipe.
func scoreName(i int) string { return fmt.Sprintf("score %d", i+1) }

// numbers writes "score 2" and "slit 1" along the lines that the lists below the drawing name.
func (w *patternView) numbers() {
	p := w.p.Piece
	for i, s := range p.Scores {
		if name := scoreName(i); s.Kind == card.Slanted || slices.Contains(w.named, name) {
			g := pattern.ScoreLine(p, s)
			w.along(drawing.Of(g.A), drawing.Of(g.B), name)
		}
	}
	for i, s := range p.Slits {
		w.along(drawing.Of(s.From), drawing.Of(s.To), fmt.Sprintf("slit %d", i+1))
	}
	for i, v := range p.Windows {
		box := drawing.BoxOf(drawing.OfAll(pattern.WindowShape(v))...)
		name := block{role: drawing.TextQuiet, lines: []string{fmt.Sprintf("window %d", i+1)}, size: 2.5, turns: []float64{0, 90}}
		if set, ok := w.room.put([][]drawing.Point{drawing.Rect(drawing.Style{}, drawing.None, box.Min, box.Max).Outer}, box.Centre(), name); ok {
			w.d.Add(drawing.GroupText, set...)
		}
	}
}

// along writes words beside a line, at the first place along it, on either side, where there is room: close to it, else small,
// else farther off (a mat may begin just beside the line); none if nowhere. Words keep off glue while there is another place.
func (w *patternView) along(a, b drawing.Point, words string) {
	u := b.Sub(a)
	if u.X < -1e-9 || u.X <= 1e-9 && u.Y < 0 {
		a, u = b, u.Times(-1)
	}
	const beside, beyond = wordsClear + 0.3, 4.5 // mm between the line and the words
	turn := degrees(u)
	bl := block{role: drawing.TextQuiet, lines: []string{words}}
	for _, try := range []struct {
		size, off float64
		glue      bool
	}{{2.2, beside, false}, {1.8, beside, false}, {2.2, beside, true}, {1.8, beside, true}, {2.2, beyond, true}, {1.8, beyond, true}} {
		bl.size = try.size
		off := drawing.Point{Y: bl.height()/2 + try.off}.Turned(turn)
		for _, t := range []float64{0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.12, 0.88} {
			for _, side := range []float64{1, -1} {
				at := a.Add(u.Times(t)).Add(off.Times(side))
				if box := bl.box(at, turn, wordsClear); w.room.free(box) && (try.glue || !w.glued(box)) {
					set := bl.at(at, turn)
					w.room.take(set...)
					w.d.Add(drawing.GroupText, set...)
					return
				}
			}
		}
	}
}

// glued says whether a box lies on a glued area.
func (w *patternView) glued(box [4]drawing.Point) bool {
	return slices.ContainsFunc(w.areas, func(g glueArea) bool { return meet(box[:], drawing.OfAll(g.region.outer)) })
}

// grain draws an arrow along the grain, if the recipe says how it runs, at the right of the title.
func (w *patternView) grain() {
	g := w.p.Piece.Grain
	if g != card.GrainAcross && g != card.GrainUp {
		return
	}
	b := w.d.Bounds()
	at := drawing.Point{X: b.Max.X + 8, Y: drawing.Of(w.p.Box.Max).Y - 12}
	half := drawing.Point{X: 10}
	turn := 0.0
	if g == card.GrainUp {
		half, turn = drawing.Point{Y: 10}, 90
	} else {
		at.X += 6
	}
	w.d.Add(drawing.GroupDimension, drawing.DimensionLine(at.Sub(half), at.Add(half), 0, drawing.Label{})...)
	up := drawing.Point{Y: 2.5}.Turned(turn)
	w.d.Add(drawing.GroupText, drawing.Text{Role: drawing.TextPlain, Words: "grain", Size: drawing.NoteSize, Anchor: drawing.Middle,
		Level: drawing.Baseline, At: at.Add(up), TurnDeg: turn})
}
