package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"foldwright/drawing"
)

// Device writes SVG. The zero value writes the whole drawing on a clear ground.
type Device struct {
	// Template writes only the groups cut, score and mark ([drawing.Drawing.Template]).
	Template bool
	// Ground fills the drawing with white below everything, for viewers with a dark page.
	Ground bool
	// Prefix stands before every id, so that several drawings can stand in one page; a plain word, such as "p3-".
	Prefix string
	// Inline leaves out the XML declaration, for a drawing inside a page.
	Inline bool
}

var _ drawing.Device = Device{}

// Ext returns ".svg".
func (Device) Ext() string { return ".svg" }

// Write writes the drawing. Errors: *drawing.NotDrawableError; errors of w.
func (o Device) Write(w io.Writer, d *drawing.Drawing) error {
	if err := drawing.Drawable(d); err != nil {
		return err
	}
	if o.Template {
		d = d.Template()
	}
	p := &printer{height: d.H}
	p.head(o, d)
	if o.Ground {
		p.line(`<rect class="ground" width="%s" height="%s" fill="%s"/>`,
			drawing.Number(d.W), drawing.Number(d.H), drawing.White().Hex())
	}
	for _, g := range d.Groups {
		p.line(`<g id="%s">`, escaped(o.Prefix+g.Name))
		for _, s := range g.Shapes {
			p.shape(s)
		}
		p.line(`</g>`)
	}
	p.line(`</svg>`)
	if _, err := w.Write(p.out.Bytes()); err != nil {
		return fmt.Errorf("write svg: %w", err)
	}
	return nil
}

// printer collects the file; height turns y over.
type printer struct {
	out    bytes.Buffer
	height float64
}

func (p *printer) line(format string, args ...any) { fmt.Fprintf(&p.out, format+"\n", args...) }

func (p *printer) head(o Device, d *drawing.Drawing) {
	if !o.Inline {
		p.line(`<?xml version="1.0" encoding="UTF-8"?>`)
	}
	w, h := drawing.Number(d.W), drawing.Number(d.H)
	title, desc := escaped(o.Prefix+"title"), ""
	if d.Desc != "" {
		desc = " " + escaped(o.Prefix+"desc")
	}
	p.line(`<svg xmlns="http://www.w3.org/2000/svg" width="%smm" height="%smm" viewBox="0 0 %[1]s %[2]s" role="img" aria-labelledby="%s%s">`,
		w, h, title, desc)
	p.line(`<title id="%s">%s</title>`, title, escaped(d.Title))
	if d.Desc != "" {
		p.line(`<desc id="%s">%s</desc>`, strings.TrimSpace(desc), escaped(d.Desc))
	}
}

func (p *printer) shape(s drawing.Shape) {
	switch s := s.(type) {
	case drawing.Polyline:
		p.line(`<path class="%s" d="%s" fill="none"%s/>`, s.Line, p.path(s.Points, false), stroke(s.Line, s.Dash()))
	case drawing.Polygon:
		d := p.path(s.Outer, true)
		rule := ""
		for _, h := range s.Holes {
			d += " " + p.path(h, true)
			rule = ` fill-rule="evenodd"`
		}
		p.line(`<path class="%s" d="%s"%s%s%s/>`, class(s.Fill, s.Line), d, fill(s.Fill), rule, edge(s.Line))
	case drawing.Ellipse:
		p.line(`<ellipse class="%s" cx="%s" cy="%s" rx="%s" ry="%s"%s%s/>`, class(s.Fill, s.Line),
			drawing.Number(s.Centre.X), p.y(s.Centre.Y), drawing.Number(s.RX), drawing.Number(s.RY), fill(s.Fill), edge(s.Line))
	case drawing.Text:
		p.text(s)
	}
}

func (p *printer) text(t drawing.Text) {
	at := t.Origin()
	x, y := drawing.Number(at.X), p.y(at.Y)
	turn, weight := "", ""
	if angle := drawing.Number(-t.TurnDeg); angle != "0" {
		turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, angle, x, y)
	}
	if t.Bold {
		weight = ` font-weight="bold"`
	}
	anchor := [...]string{"start", "middle", "end"}[t.Anchor]
	ink, _ := t.Role.Ink()
	p.line(`<text class="%s" x="%s" y="%s"%s font-family="sans-serif" font-size="%s"%s text-anchor="%s" fill="%s">%s</text>`,
		t.Role, x, y, turn, drawing.Number(t.Size), weight, anchor, ink.Hex(), escaped(t.Words))
}

func (p *printer) y(y float64) string { return drawing.Number(p.height - y) }

// path returns path data: M, L and, where the line does not slant, H or V.
func (p *printer) path(points []drawing.Point, closed bool) string {
	var b strings.Builder
	lastX, lastY := "", ""
	for i, q := range points {
		x, y := drawing.Number(q.X), p.y(q.Y)
		switch {
		case i == 0:
			b.WriteString("M" + x + " " + y)
		case y == lastY:
			b.WriteString("H" + x)
		case x == lastX:
			b.WriteString("V" + y)
		default:
			b.WriteString("L" + x + " " + y)
		}
		lastX, lastY = x, y
	}
	if closed {
		b.WriteString("Z")
	}
	return b.String()
}

// class names the role of the fill, then that of the line.
func class(f drawing.Style, line drawing.Role) string {
	var names []string
	for _, r := range []drawing.Role{f.Role, line} {
		if r != drawing.None {
			names = append(names, r.String())
		}
	}
	return strings.Join(names, " ")
}

func fill(f drawing.Style) string {
	c, ok := f.Colour()
	if !ok {
		return ` fill="none"`
	}
	return ` fill="` + c.Hex() + `"`
}

// edge returns the stroke of a closed shape: its dashes cannot be fitted to a straight line.
func edge(line drawing.Role) string {
	pen, _ := line.Pen()
	return stroke(line, pen.Dash)
}

func stroke(line drawing.Role, dash []float64) string {
	pen, ok := line.Pen()
	if !ok {
		return ""
	}
	s := fmt.Sprintf(` stroke="%s" stroke-width="%s" stroke-linejoin="round"`, pen.Ink.Hex(), drawing.Number(pen.Width))
	if len(dash) == 0 {
		return s
	}
	numbers := make([]string, len(dash))
	for i, v := range dash {
		numbers[i] = drawing.Number(v)
	}
	return s + ` stroke-dasharray="` + strings.Join(numbers, " ") + `"`
}

// escaped returns text that may stand between tags and in attributes; characters that XML cannot hold become U+FFFD.
func escaped(s string) string {
	var b bytes.Buffer
	_ = xml.EscapeText(&b, []byte(s)) // a bytes.Buffer takes everything
	return b.String()
}
