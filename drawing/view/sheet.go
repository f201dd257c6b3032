package view

import (
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/trim"
)

// sheetSide is how long the longer side of a sheet is drawn, in mm: a plan is followed by its numbers, not measured.
const sheetSide = 180.0

// Sheet draws one layout of a cutting plan, not to size: the sheet, every part with its name and size, and what is left over
// with its size. title says what is cut; unit is the one that sizes are given in first; a is the account of the plan. Where a
// part is too small for its words it carries a letter, and the words stand below.
func Sheet(title string, j trim.Job, p trim.Plan, a trim.Account, layout int, unit length.Unit) *drawing.Drawing {
	l := p.Layouts[layout]
	s := j.Sheets[l.Sheet]
	v := &sheetView{
		d:    drawing.New(fmt.Sprintf("sheet-%d", layout+1), title),
		unit: unit, k: sheetSide / max(s.W.MM(), s.H.MM()), signs: map[string]string{},
	}
	outline := drawing.Rect(drawing.Style{}, drawing.Cut, drawing.Point{}, v.at(s.W, s.H))
	for _, at := range a.Placed {
		if at.Layout == layout {
			v.part(at, j.Parts[at.Part])
		}
	}
	for _, o := range a.Offcuts {
		if o.Layout == layout {
			v.offcut(o)
		}
	}
	v.words()
	v.d.Add(drawing.GroupCut, outline)
	v.d.Add(drawing.GroupDimension, drawing.DimensionLine(drawing.Point{}, v.at(s.W, 0), -4, drawing.MeasureFull(s.W, unit))...)
	v.d.Add(drawing.GroupDimension, drawing.DimensionLine(drawing.Point{}, v.at(0, s.H), 4, drawing.MeasureFull(s.H, unit))...)
	notes(v.d, v.keys...)
	legend(v.d, v.d.Entries(func(s drawing.Style) string {
		switch s.Role {
		case drawing.FaceOuter:
			return "a part"
		case drawing.FaceInner:
			return "left over"
		}
		return ""
	}))
	times := "cut one sheet so"
	if l.Times > 1 {
		times = fmt.Sprintf("cut %d sheets so", l.Times)
	}
	head(v.d, title, times, grainWords(s.Grain))
	v.d.Desc = fmt.Sprintf("How a sheet of %s is cut up. %s.", size(s.W, s.H, unit), times)
	v.d.Fit(margin)
	return v.d
}

func grainWords(g card.Grain) string {
	switch g {
	case card.GrainAcross:
		return "grain of the sheet: from left to right"
	case card.GrainUp:
		return "grain of the sheet: upwards"
	}
	return "grain of the sheet: not known"
}

type sheetView struct {
	d     *drawing.Drawing
	unit  length.Unit
	k     float64
	room  room
	areas []worded
	signs map[string]string // the letter that stands for words
	keys  []string
}

// worded is an area that wants words.
type worded struct {
	ring  []drawing.Point
	words []string
}

func (v *sheetView) at(x, y length.Length) drawing.Point {
	return drawing.Point{X: x.MM() * v.k, Y: y.MM() * v.k}
}

func (v *sheetView) part(at trim.Placed, part trim.Part) {
	words := []string{part.Name, sizeIn(at.W, at.H, v.unit), sizeIn(at.W, at.H, v.unit.Other())}
	if at.Turned {
		words[0] += ", turned"
	}
	v.area(drawing.Outer(0), at.X, at.Y, at.W, at.H, words)
}

func (v *sheetView) offcut(o trim.Offcut) {
	v.area(drawing.Inner(0), o.X, o.Y, o.W, o.H, []string{"left over", sizeIn(o.W, o.H, v.unit), sizeIn(o.W, o.H, v.unit.Other())})
}

func (v *sheetView) area(fill drawing.Style, x, y, w, h length.Length, words []string) {
	r := drawing.Rect(fill, drawing.Edge, v.at(x, y), v.at(x+w, y+h))
	v.d.Add(drawing.GroupPanel, r)
	v.room.line(r)
	v.areas = append(v.areas, worded{r.Outer, words})
}

// words sets the words of every area, or a letter for them; what is smaller than a letter and alike elsewhere is left bare.
func (v *sheetView) words() {
	for _, s := range v.areas {
		near := drawing.BoxOf(s.ring...).Centre()
		rings := [][]drawing.Point{s.ring}
		set, ok := v.room.put(rings, near, wordBlocks(s.words)...)
		if !ok {
			sign := v.sign(s.words)
			if set, ok = v.room.put(rings, near, signBlocks(sign)...); ok {
				v.list(sign, s.words)
			}
		}
		v.d.Add(drawing.GroupText, set...)
	}
}

// sign returns the letter for some words: the one that they have, or the next.
func (v *sheetView) sign(words []string) string {
	if sign := v.signs[strings.Join(words, "|")]; sign != "" {
		return sign
	}
	return letter(len(v.signs))
}

// list says below the drawing what a letter stands for.
func (v *sheetView) list(sign string, words []string) {
	if key := strings.Join(words, "|"); v.signs[key] == "" {
		v.signs[key] = sign
		v.keys = append(v.keys, fmt.Sprintf("%s  %s, %s (%s)", sign, words[0], words[1], words[2]))
	}
}

// wordBlocks offers words on three lines or on two, upright and turned, in falling sizes.
func wordBlocks(words []string) []block {
	var out []block
	for _, size := range []float64{3, 2.6, 2.2} {
		for _, lines := range [][]string{words, words[:2], {words[0] + "  " + words[1]}} {
			out = append(out, block{role: drawing.TextPlain, lines: lines, size: size, turns: []float64{0, 90}})
		}
	}
	return out
}
