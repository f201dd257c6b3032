package pdf

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"time"

	"codeberg.org/go-pdf/fpdf"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"foldwright/drawing"
)

// noDate is the date in a file for which none was given: a file must not depend on the clock.
var noDate = time.Date(2000, time.January, 1, 0, 0, 0, 0, time.UTC)

// printer draws shapes on the pages of a file.
type printer struct {
	pdf *fpdf.Fpdf
}

func newPrinter(title string, created time.Time, compress bool) *printer {
	p := fpdf.NewCustom(&fpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: fpdf.SizeType{Wd: 210, Ht: 297}})
	if created.IsZero() {
		created = noDate
	}
	created = created.UTC()
	p.SetCreationDate(created)
	p.SetModificationDate(created)
	p.SetCatalogSort(true)
	p.SetCompression(compress)
	p.SetTitle(drawing.Printable(title), true)
	p.SetProducer("Foldwright", true)
	p.SetCreator("Foldwright", true)
	p.SetLang("en-GB")
	p.SetMargins(0, 0, 0)
	p.SetAutoPageBreak(false, 0)
	p.AddUTF8FontFromBytes("go", "", bytes.Clone(goregular.TTF))
	p.AddUTF8FontFromBytes("go", "B", bytes.Clone(gobold.TTF))
	p.SetLineJoinStyle("round")
	p.SetLineCapStyle("butt")
	return &printer{p}
}

// page starts a page of w x h mm.
func (p *printer) page(w, h float64) { p.pdf.AddPageFormat("P", fpdf.SizeType{Wd: w, Ht: h}) }

// finish writes the file.
func (p *printer) finish(w io.Writer) error {
	var b bytes.Buffer
	if err := p.pdf.Output(&b); err != nil {
		return fmt.Errorf("make pdf: %w", err)
	}
	if _, err := w.Write(b.Bytes()); err != nil {
		return fmt.Errorf("write pdf: %w", err)
	}
	return nil
}

func (p *printer) shapes(f frame, shapes []drawing.Shape) {
	for _, s := range shapes {
		p.shape(f, s)
	}
}

func (p *printer) shape(f frame, s drawing.Shape) {
	switch s := s.(type) {
	case drawing.Polyline:
		if paint := p.ink(f, drawing.Style{}, s.Line, s.Dash()); paint != "" {
			p.path(f, s.Points, false)
			p.pdf.DrawPath(paint)
		}
	case drawing.Polygon:
		pen, _ := s.Line.Pen()
		if paint := p.ink(f, s.Fill, s.Line, pen.Dash); paint != "" {
			for _, ring := range s.Rings() {
				p.path(f, ring, true)
			}
			p.pdf.DrawPath(paint)
		}
	case drawing.Ellipse:
		pen, _ := s.Line.Pen()
		if paint := p.ink(f, s.Fill, s.Line, pen.Dash); paint != "" {
			p.ellipse(f, s)
			p.pdf.DrawPath(paint)
		}
	case drawing.Text:
		p.text(f, s)
	}
}

// ink sets colours, width and dashes for a path that follows and returns how the path is to be painted: "S" stroked,
// "f*" filled, "B*" both, "" not at all. A PDF allows none of these settings within a path.
func (p *printer) ink(f frame, fill drawing.Style, line drawing.Role, dash []float64) string {
	colour, filled := fill.Colour()
	pen, stroked := line.Pen()
	if filled {
		p.pdf.SetFillColor(int(colour.R), int(colour.G), int(colour.B))
	}
	if stroked {
		p.pdf.SetDrawColor(int(pen.Ink.R), int(pen.Ink.G), int(pen.Ink.B))
		p.pdf.SetLineWidth(pen.Width * f.scale)
		scaled := make([]float64, len(dash))
		for i, v := range dash {
			scaled[i] = v * f.scale
		}
		p.pdf.SetDashPattern(scaled, 0)
	}
	switch {
	case filled && stroked:
		return "B*"
	case filled:
		return "f*"
	case stroked:
		return "S"
	}
	return ""
}

func (p *printer) path(f frame, points []drawing.Point, closed bool) {
	for i, q := range points {
		x, y := f.at(q)
		if i == 0 {
			p.pdf.MoveTo(x, y)
			continue
		}
		p.pdf.LineTo(x, y)
	}
	if closed {
		p.pdf.ClosePath()
	}
}

// ellipse adds an ellipse to the path: eight cubic arcs of 45 degrees, off by less than 5e-6 of the radius (the usual
// handles, 4/3 tan(22.5°/2) of the radius long).
func (p *printer) ellipse(f frame, e drawing.Ellipse) {
	const arcs = 8
	step := 2 * math.Pi / arcs
	k := 4.0 / 3 * math.Tan(step/4)
	at := func(x, y float64) (float64, float64) {
		return f.at(drawing.Point{X: e.Centre.X + e.RX*x, Y: e.Centre.Y + e.RY*y})
	}
	x, y := at(1, 0)
	p.pdf.MoveTo(x, y)
	for i := range arcs {
		s0, c0 := math.Sincos(float64(i) * step)
		s1, c1 := math.Sincos(float64(i+1) * step)
		ax, ay := at(c0-k*s0, s0+k*c0)
		bx, by := at(c1+k*s1, s1-k*c1)
		x, y = at(c1, s1)
		p.pdf.CurveBezierCubicTo(ax, ay, bx, by, x, y)
	}
	p.pdf.ClosePath()
}

func (p *printer) text(f frame, t drawing.Text) {
	ink, ok := t.Role.Ink()
	if !ok {
		return
	}
	weight := ""
	if t.Bold {
		weight = "B"
	}
	p.pdf.SetFont("go", weight, 10) // the size follows, in mm
	p.pdf.SetFontUnitSize(t.Size * f.scale)
	p.pdf.SetTextColor(int(ink.R), int(ink.G), int(ink.B))
	words := drawing.Printable(t.Words)
	x, y := f.at(t.Begin())
	turn := f.degrees(t.TurnDeg)
	if turn == 0 {
		p.pdf.Text(x, y, words)
		return
	}
	p.pdf.TransformBegin()
	p.pdf.TransformRotate(turn, x, y)
	p.pdf.Text(x, y, words)
	p.pdf.TransformEnd()
}

// clip lets only what lies in the rectangle be drawn until the returned function is called.
func (p *printer) clip(x, y, w, h float64) (end func()) {
	p.pdf.ClipRect(x, y, w, h, false)
	return p.pdf.ClipEnd
}
