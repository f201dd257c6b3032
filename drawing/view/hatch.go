package view

import (
	"slices"

	"foldwright/drawing"
)

// boxes returns the rectangles of all words, larger by as much as hatching stays away from them.
func (w *patternView) boxes() [][4]drawing.Point {
	const away = 0.6 // mm
	out := slices.Clone(w.room.taken)
	for i, b := range out {
		along, up := b[1].Sub(b[0]), b[3].Sub(b[0])
		x, y := along.Times(away/along.Len()), up.Times(away/up.Len())
		out[i] = [4]drawing.Point{b[0].Sub(x).Sub(y), b[1].Add(x).Sub(y), b[2].Add(x).Add(y), b[3].Sub(x).Add(y)}
	}
	return out
}

// bothHatched says whether hatching of the face that is seen crosses that of the face behind.
func (w *patternView) bothHatched() bool {
	var seen, behind [][]drawing.Point
	for _, s := range w.d.Group(drawing.GroupGlue) {
		switch l, ok := s.(drawing.Polyline); {
		case ok && l.Line == drawing.Glue:
			seen = append(seen, l.Points)
		case ok && l.Line == drawing.GlueBehind:
			behind = append(behind, l.Points)
		}
	}
	return slices.ContainsFunc(seen, func(a []drawing.Point) bool {
		return slices.ContainsFunc(behind, func(b []drawing.Point) bool { return meet(a, b) })
	})
}

// entries returns the legend of the pattern, with one entry for every hatching.
func (w *patternView) entries() []drawing.Entry {
	const onInner = "glue area on the inner face, behind"
	own := map[drawing.Role]string{
		drawing.Glue: "glue area", drawing.GlueBehind: onInner, drawing.Hidden: "edge of a glue area behind",
	}
	if len(w.mats) > 0 {
		own[drawing.Frame] = "edge of a mat"
	}
	out := w.d.Entries(legendWords(w.a.Card, own))
	if w.bothHatched() {
		behind := slices.IndexFunc(out, func(e drawing.Entry) bool { return e.Words == onInner })
		out = slices.Insert(out, behind+1, drawing.Entry{
			Kind: drawing.Glue.Fill(), Over: drawing.GlueBehind, Words: "glue area on both faces",
		})
	}
	return out
}
