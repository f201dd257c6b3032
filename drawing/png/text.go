package png

import (
	"fmt"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"foldwright/drawing"
)

// fonts are the Go fonts, regular and bold.
type fonts struct {
	regular, bold *sfnt.Font
	buffer        sfnt.Buffer
}

func parseFonts() (fonts, error) {
	regular, err := sfnt.Parse(goregular.TTF)
	if err != nil {
		return fonts{}, fmt.Errorf("read font: %w", err)
	}
	bold, err := sfnt.Parse(gobold.TTF)
	if err != nil {
		return fonts{}, fmt.Errorf("read font: %w", err)
	}
	return fonts{regular: regular, bold: bold}, nil
}

// unitsPerEm is the grid of the Go fonts; outlines are taken on it unscaled.
const unitsPerEm = 2048

// text fills the outlines of a line of words.
func (p *painter) text(t drawing.Text) error {
	f := p.fonts.regular
	if t.Bold {
		f = p.fonts.bold
	}
	pen := t.Begin()
	p.dc.NewSubPath()
	for _, r := range drawing.Printable(t.Words) {
		g, err := f.GlyphIndex(&p.fonts.buffer, r)
		if err != nil {
			return fmt.Errorf("find %q: %w", r, err)
		}
		outline, err := f.LoadGlyph(&p.fonts.buffer, g, fixed.I(unitsPerEm), nil)
		if err != nil {
			return fmt.Errorf("load %q: %w", r, err)
		}
		p.outline(outline, pen, t)
		pen = pen.Add(drawing.Point{X: drawing.TextWidth(string(r), t.Size, t.Bold)}.Turned(t.TurnDeg))
	}
	ink, _ := t.Role.Ink()
	p.dc.SetColor(opaque(ink))
	p.dc.SetFillRuleWinding()
	p.dc.Fill()
	return nil
}

// outline adds one character's outline to the path, its origin at pen.
func (p *painter) outline(segments sfnt.Segments, pen drawing.Point, t drawing.Text) {
	at := func(q fixed.Point26_6) (x, y float64) {
		k := t.Size / unitsPerEm / 64
		return p.at(pen.Add(drawing.Point{X: float64(q.X) * k, Y: -float64(q.Y) * k}.Turned(t.TurnDeg)))
	}
	for _, s := range segments {
		x, y := at(s.Args[0])
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			p.dc.ClosePath()
			p.dc.MoveTo(x, y)
		case sfnt.SegmentOpLineTo:
			p.dc.LineTo(x, y)
		case sfnt.SegmentOpQuadTo:
			x2, y2 := at(s.Args[1])
			p.dc.QuadraticTo(x, y, x2, y2)
		case sfnt.SegmentOpCubeTo:
			x2, y2 := at(s.Args[1])
			x3, y3 := at(s.Args[2])
			p.dc.CubicTo(x, y, x2, y2, x3, y3)
		}
	}
	p.dc.ClosePath()
}
