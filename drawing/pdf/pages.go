package pdf

import (
	"fmt"
	"io"

	"foldwright/drawing"
)

// Pages prints every drawing on a page of its own, as large as it is or smaller where it must be to fit: for what is read and
// not measured, such as cutting plans. The title and the number of the page stand above it.
// Errors: ErrNothing; *drawing.NotDrawableError before anything is written; errors of w.
func Pages(w io.Writer, drawings []*drawing.Drawing, o SheetOptions) error {
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
	p := newPrinter(o.Title, o.Created, !o.Plain)
	const top = margin + 8 // below the line with title and page
	for i, d := range drawings {
		wide, high := o.Paper.W-2*margin, o.Paper.H-top-margin
		p.page(o.Paper.W, o.Paper.H)
		s := &sheetPrinter{printer: p, sheet: sheet{w: o.Paper.W, h: o.Paper.H}}
		number := drawing.Text{Role: drawing.TextPlain, Words: fmt.Sprintf("page %d of %d", i+1, len(drawings)), Size: drawing.NoteSize, Anchor: drawing.End}
		s.write(number, o.Paper.W-margin, margin)
		name := drawing.Text{Role: drawing.TextPlain, Size: drawing.NoteSize}
		name.Words = clipped(o.Title, name.Size, false, wide-number.Width()-10)
		s.write(name, margin, margin)
		k := min(1, wide/d.W, high/d.H)
		p.shapes(frame{scale: k, left: margin + (wide-k*d.W)/2, bottom: top + k*d.H}, d.Shapes())
	}
	return p.finish(w)
}
