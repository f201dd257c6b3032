package pdf

import (
	"fmt"
	"io"
	"time"

	"foldwright/drawing"
)

// Device writes one drawing on one page of its own size.
type Device struct {
	// Created is the date in the file; the zero value stands for 1 January 2000.
	Created time.Time
	// Plain leaves the page streams uncompressed, for reading them.
	Plain bool
}

var _ drawing.Device = Device{}

// Ext returns ".pdf".
func (Device) Ext() string { return ".pdf" }

// maxPage is the longest side of a page in mm: 14 400 points, the limit of PDF 1.7 (ISO 32000-1, annex C; from memory).
const maxPage = 5080

// TooLargeError says that a drawing is larger than a page can be.
type TooLargeError struct {
	Name string
	W, H float64
}

// Error names the size and the limit.
func (e *TooLargeError) Error() string {
	return fmt.Sprintf("%q is %s x %s mm; a PDF page may be %d mm long: print it on sheets instead",
		e.Name, drawing.Number(e.W), drawing.Number(e.H), maxPage)
}

// Write writes the drawing. Errors: *drawing.NotDrawableError, *TooLargeError; errors of w.
func (o Device) Write(w io.Writer, d *drawing.Drawing) error {
	if err := drawing.Drawable(d); err != nil {
		return err
	}
	if d.W > maxPage || d.H > maxPage {
		return &TooLargeError{d.Name, d.W, d.H}
	}
	p := newPrinter(d.Title, o.Created, !o.Plain)
	p.page(d.W, d.H)
	p.shapes(upright(d.H), d.Shapes())
	return p.finish(w)
}
