package pdf

import "foldwright/drawing"

// Paper is a sheet of printer paper, upright, in mm.
type Paper struct {
	Name string
	W, H float64
}

// A4 is 210 x 297 mm (ISO 216).
func A4() Paper { return Paper{"A4", 210, 297} }

// Letter is 8½ x 11 in (US letter; ANSI/ASME Y14.1 size A, from memory).
func Letter() Paper { return Paper{"Letter", 215.9, 279.4} }

// Measures of a sheet in mm.
const (
	margin     = 10 // printers leave an edge of up to 6 mm bare; 10 is on the safe side
	headHigh   = 11
	footHigh   = 12
	headGap    = 2 // between head or foot and the drawings
	captionRow = 5 // above every drawing that is not tiled
	// captionLine is how much a further line of a caption takes.
	captionLine = 3.6
	apart       = 6 // between drawings that share a page
	overlap     = 10
)

// sheet is a page of paper, upright or on its side.
type sheet struct {
	w, h float64
}

func (p Paper) sheet(sideways bool) sheet {
	if sideways {
		return sheet{p.H, p.W}
	}
	return sheet{p.W, p.H}
}

// room returns the part of the sheet that drawings may fill: its top left corner and its size, y down.
func (s sheet) room() (left, top, w, h float64) {
	top = margin + headHigh + headGap
	return margin, top, s.w - 2*margin, s.h - top - margin - footHigh - headGap
}

// fits says whether a drawing of w x h mm with its caption fits on the sheet. A hundredth of a millimetre does not count.
func (s sheet) fits(w, h float64) bool {
	_, _, roomW, roomH := s.room()
	return w <= roomW+0.01 && h+captionRow <= roomH+0.01
}

// whole is the window that shows all of a drawing, turned or not.
func whole(d *drawing.Drawing, turned bool) drawing.Box {
	w, h := turnedSize(d, turned)
	return drawing.Box{Max: drawing.Point{X: w, Y: h}}
}
