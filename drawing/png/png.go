package png

import (
	"bytes"
	"fmt"
	"image/color"
	"io"
	"math"

	"git.sr.ht/~sbinet/gg"

	"foldwright/drawing"
)

// Ground is what a picture is painted on.
type Ground uint8

// White paper, the tone of uncoated paper, or nothing (transparent).
const (
	White Ground = iota
	PaperTone
	Clear
)

// Device paints PNG.
type Device struct {
	// DPI is dots per inch; 0 means 150.
	DPI    float64
	Ground Ground
}

var _ drawing.Device = Device{}

// Ext returns ".png".
func (Device) Ext() string { return ".png" }

const (
	usualDPI = 150
	// maxPixels keeps a picture below 400 MB of memory.
	maxPixels = 100_000_000
)

// TooLargeError says that a picture would have too many pixels.
type TooLargeError struct {
	Name string
	W, H int
}

// Error names the size and the limit.
func (e *TooLargeError) Error() string {
	return fmt.Sprintf("the picture of %q would be %d x %d pixels; at most %d million pixels are painted: take fewer dots per inch",
		e.Name, e.W, e.H, maxPixels/1_000_000)
}

// Pixels returns the size of the picture of d.
func (o Device) Pixels(d *drawing.Drawing) (w, h int) {
	size := func(mm float64) int { return int(math.Ceil(mm*o.scale() - 1e-6)) }
	return size(d.W), size(d.H)
}

// dpi returns the dots per inch; what is no sensible number is the usual one.
func (o Device) dpi() float64 {
	if !(o.DPI > 0 && o.DPI <= 10_000) {
		return usualDPI
	}
	return o.DPI
}

// scale returns pixels per mm.
func (o Device) scale() float64 { return o.dpi() / 25.4 }

// Write paints the drawing. Errors: *drawing.NotDrawableError, *TooLargeError; errors of w.
func (o Device) Write(w io.Writer, d *drawing.Drawing) error {
	if err := drawing.Drawable(d); err != nil {
		return err
	}
	wide, high := o.Pixels(d)
	if wide*high > maxPixels {
		return &TooLargeError{d.Name, wide, high}
	}
	p, err := newPainter(wide, high, d.H, o.scale())
	if err != nil {
		return fmt.Errorf("paint picture: %w", err)
	}
	p.ground(o.Ground)
	for _, s := range d.Shapes() {
		if err := p.shape(s); err != nil {
			return fmt.Errorf("paint picture: %w", err)
		}
	}
	var b bytes.Buffer
	if err := p.dc.EncodePNG(&b); err != nil {
		return fmt.Errorf("paint picture: %w", err)
	}
	if _, err := w.Write(withResolution(b.Bytes(), o.dpi())); err != nil {
		return fmt.Errorf("write picture: %w", err)
	}
	return nil
}

// painter paints with y turned over, in pixels.
type painter struct {
	dc     *gg.Context
	fonts  fonts
	height float64 // of the drawing in mm
	scale  float64 // pixels per mm
}

func newPainter(wide, high int, height, scale float64) (*painter, error) {
	f, err := parseFonts()
	if err != nil {
		return nil, err
	}
	dc := gg.NewContext(wide, high)
	dc.SetLineCapButt()
	dc.SetLineJoinRound()
	return &painter{dc: dc, fonts: f, height: height, scale: scale}, nil
}

func (p *painter) ground(g Ground) {
	switch g {
	case White:
		p.dc.SetColor(opaque(drawing.White()))
	case PaperTone:
		p.dc.SetColor(opaque(drawing.PaperTone()))
	default:
		return
	}
	p.dc.Clear()
}

func opaque(c drawing.Colour) color.Color { return color.RGBA{c.R, c.G, c.B, 0xff} }

// at returns the pixel place of a point.
func (p *painter) at(q drawing.Point) (x, y float64) {
	return q.X * p.scale, (p.height - q.Y) * p.scale
}

func (p *painter) shape(s drawing.Shape) error {
	switch s := s.(type) {
	case drawing.Polyline:
		p.path(s.Points, false)
		p.stroke(s.Line, s.Dash())
	case drawing.Polygon:
		for _, ring := range s.Rings() {
			p.path(ring, true)
		}
		p.area(s.Fill, s.Line)
	case drawing.Ellipse:
		x, y := p.at(s.Centre)
		p.dc.DrawEllipse(x, y, s.RX*p.scale, s.RY*p.scale)
		p.dc.ClosePath()
		p.area(s.Fill, s.Line)
	case drawing.Text:
		return p.text(s)
	}
	return nil
}

func (p *painter) path(points []drawing.Point, closed bool) {
	p.dc.NewSubPath()
	for i, q := range points {
		x, y := p.at(q)
		if i == 0 {
			p.dc.MoveTo(x, y)
			continue
		}
		p.dc.LineTo(x, y)
	}
	if closed {
		p.dc.ClosePath()
	}
}

// area fills and edges the path at hand and ends it.
func (p *painter) area(fill drawing.Style, line drawing.Role) {
	if c, ok := fill.Colour(); ok {
		p.dc.SetColor(opaque(c))
		p.dc.SetFillRuleEvenOdd()
		p.dc.FillPreserve()
	}
	pen, _ := line.Pen()
	p.stroke(line, pen.Dash)
}

func (p *painter) stroke(line drawing.Role, dash []float64) {
	defer p.dc.ClearPath()
	pen, ok := line.Pen()
	if !ok {
		return
	}
	px := make([]float64, len(dash))
	for i, v := range dash {
		px[i] = v * p.scale
	}
	p.dc.SetDash(px...)
	p.dc.SetColor(opaque(pen.Ink))
	p.dc.SetLineWidth(pen.Width * p.scale)
	p.dc.Stroke()
}
