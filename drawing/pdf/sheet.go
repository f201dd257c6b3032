package pdf

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"time"

	"foldwright/drawing"
)

// SheetOptions says how drawings are printed on sheets.
type SheetOptions struct {
	// Paper is A4 unless said otherwise.
	Paper Paper
	// Title stands at the top of every page: the card's title.
	Title string
	// Created is the date in the file; the zero value stands for 1 January 2000.
	Created time.Time
	// Plain leaves the page streams uncompressed, for reading them.
	Plain bool
}

// ErrNothing says that there is no drawing to print.
var ErrNothing = errors.New("there is no drawing to print")

// Sheets prints drawings on sheets, true to size, as [NewPlan] lays them out. Each drawing is of a piece, a mat or a topper with
// its outer face towards you; its Title names it.
// Errors: ErrNothing; *drawing.NotDrawableError before anything is written; errors of w.
func Sheets(w io.Writer, drawings []*drawing.Drawing, o SheetOptions) error {
	if len(drawings) == 0 {
		return ErrNothing
	}
	for _, d := range drawings {
		if err := drawing.Drawable(d); err != nil {
			return err
		}
	}
	if o.Paper == (Paper{}) {
		o.Paper = A4()
	}
	plan := NewPlan(drawings, o.Paper)
	s := &sheetPrinter{printer: newPrinter(o.Title, o.Created, !o.Plain), drawings: drawings, title: o.Title}
	for i, page := range plan.Pages {
		s.sheet = o.Paper.sheet(page.Sideways)
		s.page(s.sheet.w, s.sheet.h)
		s.head(page, i+1, len(plan.Pages))
		s.foot()
		s.key(page)
		for _, place := range page.Places {
			if len(page.Places) > 1 {
				s.caption(place)
			}
			s.place(place)
		}
	}
	return s.finish(w)
}

// sheetPrinter prints one page after the other.
type sheetPrinter struct {
	*printer
	drawings []*drawing.Drawing
	title    string
	sheet    sheet
}

// write sets a line of text with its top at (x, y), y down from the top of the page.
func (s *sheetPrinter) write(t drawing.Text, x, y float64) {
	t.At, t.Level = drawing.Point{X: x, Y: -y}, drawing.Top
	s.shape(frame{scale: 1}, t)
}

const smallSize = 2.6 // text in head and foot, mm

// head writes the title and page number, and below them what is on the page.
func (s *sheetPrinter) head(page Page, n, of int) {
	right := s.sheet.w - margin
	number := drawing.Text{Role: drawing.TextPlain, Words: fmt.Sprintf("page %d of %d", n, of), Size: drawing.NoteSize, Anchor: drawing.End}
	s.write(number, right, margin)
	title := drawing.Text{Role: drawing.TextPlain, Bold: true, Size: drawing.TitleSize}
	title.Words = clipped(s.title, title.Size, true, right-margin-number.Width()-10)
	s.write(title, margin, margin)
	const below, line = 6, 3.6
	for i, words := range s.contents(page) {
		t := drawing.Text{Role: drawing.TextQuiet, Size: drawing.NoteSize}
		t.Words = clipped(words, t.Size, false, right-margin)
		s.write(t, margin, margin+below+line*float64(i))
	}
}

// contents says what is on a page, and which face is up: the piece; for several only how many, since each has its
// name above it. A second line says of a tile which one it is and how the tiles are joined.
func (s *sheetPrinter) contents(page Page) []string {
	const up = ", outer face towards you"
	if n := len(page.Places); n > 1 {
		return []string{fmt.Sprintf("%d templates", n) + up}
	}
	p := page.Places[0]
	out := []string{s.drawings[p.Drawing].Title + up}
	if p.Tiled() {
		out = append(out, fmt.Sprintf("row %d of %d, column %d of %d · cut one sheet along the dotted line, lay cross on cross, tape",
			p.Row, p.Rows, p.Column, p.Columns))
	}
	return out
}

// clipped shortens words so that they fit into width mm.
func clipped(words string, size float64, bold bool, width float64) string {
	if drawing.TextWidth(words, size, bold) <= width {
		return words
	}
	r := []rune(words)
	for len(r) > 0 && drawing.TextWidth(string(r)+"…", size, bold) > width {
		r = r[:len(r)-1]
	}
	return string(r) + "…"
}

// bars are the check bars: their lengths in mm are exact, 2 in = 50.8 mm.
var bars = [...]struct {
	name  string
	long  float64
	parts int
}{{"50 mm", 50, 5}, {"2 in", 50.8, 8}}

const (
	barHigh  = 2.2
	barApart = 8
)

// foot draws the check bars. They are solid rectangles without an edge, so that they are as long as they say; white
// lines part them every 10 mm and every 1/4 in.
func (s *sheetPrinter) foot() {
	x, low := float64(margin), s.sheet.h-margin
	page := frame{scale: 1}
	for _, b := range bars {
		box := func(from, to float64, fill drawing.Role) {
			s.shape(page, drawing.Rect(fill.Fill(), drawing.None,
				drawing.Point{X: x + from, Y: -low}, drawing.Point{X: x + to, Y: barHigh - low}))
		}
		box(0, b.long, drawing.Solid)
		for i := 1; i < b.parts; i++ {
			at := b.long * float64(i) / float64(b.parts)
			box(at-0.1, at+0.1, drawing.Paper)
		}
		t := drawing.Text{Role: drawing.TextPlain, Size: smallSize, Bold: true, Words: b.name}
		s.write(t, x, low-footHigh+0.5)
		name := t.Width() + 2
		t.Bold = false
		for i, words := range []string{"print at 100 %,", "then measure this bar"} {
			t.Words = words
			s.write(t, x+name, low-footHigh+0.5+3.6*float64(i))
		}
		x += b.long + barApart
	}
}

// keyWide is the room for the first column of the legend in the foot, beside the bars.
const keyWide = 50

// key draws the legend of the lines on a page beside the bars: their styles are a convention that not every book shares.
// A second column has room on a sheet that lies sideways and shows no overview.
func (s *sheetPrinter) key(page Page) {
	const sample, gap, row, rows = 9, 1.5, 3.1, 4
	left := margin + bars[0].long + bars[1].long + 2*barApart
	columns := 1
	if page.Sideways && !page.Places[0].Tiled() {
		columns = 2
	}
	var seen []string
	for _, place := range page.Places {
		for _, e := range s.drawings[place.Drawing].Entries(nil) {
			if slices.Contains(seen, e.Words) || len(seen) == rows*columns {
				continue
			}
			x := left + float64(len(seen)/rows)*keyWide
			y := s.sheet.h - margin - footHigh + 0.3 + row*float64(len(seen)%rows)
			seen = append(seen, e.Words)
			t := drawing.Text{Role: drawing.TextQuiet, Size: smallSize, Words: e.Words}
			s.shape(frame{scale: 1}, drawing.Line(e.Kind.Role, drawing.Point{X: x, Y: -y - smallSize/2}, drawing.Point{X: x + sample, Y: -y - smallSize/2}))
			s.write(t, x+sample+gap, y)
		}
	}
}

// caption is the style of words that name a drawing that shares its page.
func caption(words string) drawing.Text {
	return drawing.Text{Role: drawing.TextPlain, Bold: true, Size: drawing.NoteSize, Words: words}
}

// caption names a drawing that shares its page, above it.
func (s *sheetPrinter) caption(p Place) {
	for i, words := range p.caption {
		t := caption(words)
		t.Words = clipped(t.Words, t.Size, t.Bold, s.sheet.w-margin-p.Left)
		s.write(t, p.Left, p.Top-captionHigh(p.caption[i:])+0.5)
	}
}

// place prints a drawing, or a tile with its marks and overview.
func (s *sheetPrinter) place(p Place) {
	d := s.drawings[p.Drawing]
	w, h := p.Window.W(), p.Window.H()
	f := frame{
		turned: p.Turned, height: d.H, window: p.Window,
		left: p.Left, bottom: p.Top + h, scale: 1,
	}
	if !p.Tiled() {
		s.shapes(f, d.Shapes())
		return
	}
	end := s.clip(p.Left, p.Top, w, h)
	s.shapes(f, d.Shapes())
	f.turned = false // seams are given in the turned drawing
	for _, seam := range seams(d, p.Turned, p.grid) {
		s.shapes(f, seam.shapes())
	}
	end()
	low := s.sheet.h - margin
	s.overview(d, p, s.sheet.w-margin, low, s.sheet.w-2*margin-bars[0].long-bars[1].long-3*barApart-keyWide, footHigh)
}
