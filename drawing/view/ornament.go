package view

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
)

// OrnamentTemplates draws the mats and toppers of a card true to size for cutting, each shape once however many are cut to it:
// the mats, then the toppers, in the order of the card. Every template says what it is for, how many are cut of what, and its
// size; that of a polygon lists its corners, that of a topper thicker than its stock says so. c must be closed
// (flat.Closed.Folded is known), else there are none.
func OrnamentTemplates(c *flat.Closed) []*drawing.Drawing {
	if c == nil || len(c.At) != len(c.Assembly.Panels) {
		return nil
	}
	var out []*drawing.Drawing
	for _, o := range ornaments(c) {
		out = append(out, o.template(c.Assembly.Card))
	}
	return out
}

// ornament is a shape that mats, or toppers, are cut to.
type ornament struct {
	// name is "mat 1", "topper 2".
	name    string
	topper  bool
	kind    card.WindowKind
	stock   string
	ring    []plane.Point
	thick   length.Length
	layered bool // thicker than its stock
	on      []string
}

// box returns the rectangle around the shape.
func (o *ornament) box() plane.Box { return plane.BoxOf(o.ring...) }

// ornaments lists the shapes of a card.
func ornaments(c *flat.Closed) []ornament {
	cd := c.Assembly.Card
	var out []ornament
	for _, d := range c.Decorations() {
		o := ornament{topper: d.Topper, kind: card.Rect, stock: d.Stock, ring: d.Cut, thick: d.Thick}
		if d.Topper {
			t := cd.Toppers[d.Index]
			o.kind = t.Kind
			if t.Kind == card.Polygon {
				o.ring = t.Points
			}
			stock := cd.StockNamed(d.Stock)
			o.layered = t.ThickGiven && (stock == nil || t.Thick > stock.Caliper)
		}
		i := slices.IndexFunc(out, o.like)
		if i < 0 {
			i, out = len(out), append(out, o)
		}
		out[i].on = append(out[i].on, c.Assembly.Panels[d.Panel].Ref)
	}
	slices.SortStableFunc(out, func(a, b ornament) int { return cmp.Compare(kindWord(a.topper), kindWord(b.topper)) })
	number(out, cd)
	return out
}

func kindWord(topper bool) string {
	if topper {
		return "topper"
	}
	return "mat"
}

// like says whether two are cut alike.
func (o *ornament) like(p ornament) bool {
	return o.topper == p.topper && o.stock == p.stock && o.kind == p.kind && o.thick == p.thick &&
		slices.Equal(fromCorner(o.ring), fromCorner(p.ring))
}

// fromCorner returns a ring with the lower left corner of the rectangle around it at the origin.
func fromCorner(ring []plane.Point) []plane.Point {
	low := plane.BoxOf(ring...).Min
	out := make([]plane.Point, len(ring))
	for i, p := range ring {
		out[i] = p.Sub(low)
	}
	return out
}

// number names the shapes; a number that would make the name of a file that of a piece is left out.
func number(list []ornament, c *card.Card) {
	next := map[bool]int{}
	for i := range list {
		o := &list[i]
		for o.name == "" || slices.ContainsFunc(c.Pieces, func(p card.Piece) bool { return fileWord(p.Name) == fileWord(o.name) }) {
			next[o.topper]++
			o.name = fmt.Sprintf("%s %d", kindWord(o.topper), next[o.topper])
		}
	}
}

// outline returns the shape as it is cut.
func (o *ornament) outline() drawing.Shape {
	if o.kind == card.Oval || o.kind == card.Circle {
		b := drawing.Box{Min: drawing.Of(o.box().Min), Max: drawing.Of(o.box().Max)}
		return drawing.Ellipse{Line: drawing.Cut, Centre: b.Centre(), RX: b.W() / 2, RY: b.H() / 2}
	}
	return drawing.Polygon{Line: drawing.Cut, Outer: drawing.OfAll(o.ring)}
}

// make says how many are cut of what.
func (o *ornament) make(c *card.Card) string {
	return fmt.Sprintf("make %d of %s", len(o.on), stockWords(c.StockNamed(o.stock)))
}

// words are what the template says, a paragraph each.
func (o *ornament) words(c *card.Card) []string {
	b := o.box()
	out := []string{o.name + ", on " + strings.Join(o.on, ", "), o.make(c), size(b.W(), b.H(), c.Unit)}
	if o.layered {
		out = append(out, both(o.thick, c.Unit)+" thick in all: raised on pads or layers")
	}
	return out
}

// template draws the shape with its words inside where there is room, else to its right, and the corners of a polygon below.
func (o *ornament) template(c *card.Card) *drawing.Drawing {
	d := drawing.New(fileWord(o.name)+"-template", o.name+", "+o.make(c))
	words := o.words(c)
	d.Desc = "True-to-size template, face towards you: " + strings.Join(words, "; ") + "."
	d.Add(drawing.GroupCut, o.outline())
	b := d.Bounds()
	var r room
	set, ok := r.put([][]drawing.Point{drawing.OfAll(o.ring)}, b.Centre(), insideBlocks(words, b)...)
	if !ok {
		const gap, wide = 3.0, 60.0
		set = column(words, drawing.Point{X: b.Max.X + gap, Y: b.Max.Y}, wide)
	}
	d.Add(drawing.GroupMark, set...)
	if o.kind == card.Polygon {
		const least = 90.0
		corners := "corners, across and up from the lower left corner of the rectangle around it: " + points(c.Unit, " ", fromCorner(o.ring)...)
		low := min(b.Min.Y, drawing.BoundsOf(set).Min.Y)
		d.Add(drawing.GroupMark, column([]string{corners}, drawing.Point{X: b.Min.X, Y: low - TemplateMargin}, max(b.W(), least))...)
	}
	all := d.Bounds().Grown(TemplateMargin)
	d.Move(drawing.Point{}.Sub(all.Min))
	d.W, d.H = all.W(), all.H()
	return d
}

// insideBlocks offers paragraphs for the inside of a shape: level, then upright, in falling sizes and widths.
func insideBlocks(words []string, b drawing.Box) []block {
	var out []block
	for _, size := range []float64{3, 2.5, 2.1, 1.8} {
		for _, upright := range []bool{false, true} {
			wide, turn := b.W(), 0.0
			if upright {
				wide, turn = b.H(), 90
			}
			for _, part := range []float64{0.95, 0.8, 0.65} {
				out = append(out, block{role: drawing.TextQuiet, lines: wrapAll(words, size, wide*part-2*wordsClear), size: size, turns: []float64{turn}})
			}
		}
	}
	return out
}

func wrapAll(words []string, size, width float64) []string {
	var lines []string
	for _, w := range words {
		lines = append(lines, drawing.Wrap(tied(w), size, false, width)...)
	}
	return lines
}

// column sets paragraphs below one another from a top left corner down.
func column(words []string, at drawing.Point, width float64) []drawing.Shape {
	return drawing.Lines(drawing.Text{Role: drawing.TextQuiet, Size: drawing.NoteSize, Level: drawing.Top, At: at},
		wrapAll(words, drawing.NoteSize, width), drawing.NoteSize*leadingBy)
}
