package view

import (
	"regexp"
	"strings"

	"foldwright/drawing"
)

// Distances of the parts of a drawing, in mm.
const (
	margin    = 4.0
	headGap   = 5.0
	partGap   = 5.0
	leastWide = 120.0 // room for words beside a narrow piece
	quietSize = 3.0
)

// head writes a title and lines below it, above what is drawn so far, left-aligned with it.
func head(d *drawing.Drawing, title string, lines ...string) {
	b := d.Bounds()
	width := max(b.W(), leastWide)
	t := drawing.Text{Role: drawing.TextPlain, Bold: true, Size: drawing.TitleSize, Level: drawing.Bottom}
	quiet := drawing.Text{Role: drawing.TextPlain, Size: quietSize, Level: drawing.Bottom}
	var wrapped []string
	for _, l := range lines {
		wrapped = append(wrapped, headLines(l, width)...)
	}
	y := b.Max.Y + headGap
	for i := len(wrapped) - 1; i >= 0; i-- {
		quiet.At, quiet.Words = drawing.Point{X: b.Min.X, Y: y}, wrapped[i]
		d.Add(drawing.GroupText, quiet)
		y += quietSize * 1.45
	}
	y += 0.8
	titles := drawing.Wrap(title, drawing.TitleSize, true, width)
	for i := len(titles) - 1; i >= 0; i-- {
		t.At, t.Words = drawing.Point{X: b.Min.X, Y: y}, titles[i]
		d.Add(drawing.GroupText, t)
		y += drawing.TitleSize * 1.3
	}
}

// headLines breaks a line that is too long, best before its last bracket: that holds a size in the other unit.
func headLines(line string, width float64) []string {
	if k := strings.LastIndex(line, " ("); k > 0 && drawing.TextRoom(line, quietSize, false) > width {
		return append(drawing.Wrap(tied(line[:k]), quietSize, false, width), drawing.Wrap(tied(line[k+1:]), quietSize, false, width)...)
	}
	return drawing.Wrap(tied(line), quietSize, false, width)
}

// pair is a point in words: "(60, 90)".
var pair = regexp.MustCompile(`\(([^(), ]*), ([^(), ]*)\)`)

// unitSign is the sign of a unit behind a number or a point.
var unitSign = regexp.MustCompile(`([0-9)¼½¾⅛⅜⅝⅞₀-₉]) (mm|in|gsm)\b`)

// tied returns a line that is not to be broken within a point or a size, after "≈" or before the sign of a unit.
func tied(line string) string {
	line = strings.ReplaceAll(line, "≈ ", "≈"+drawing.Tied)
	line = strings.ReplaceAll(line, " × ", drawing.Tied+"×"+drawing.Tied)
	line = unitSign.ReplaceAllString(line, "$1"+drawing.Tied+"$2")
	return pair.ReplaceAllString(line, "($1,"+drawing.Tied+"$2)")
}

// fewNotes is how many lines of notes stand in one column all the same.
const fewNotes = 3

// notes writes lines of words below what is drawn so far, in columns where they are many and short.
func notes(d *drawing.Drawing, lines ...string) {
	if len(lines) == 0 {
		return
	}
	b := d.Bounds()
	width := max(b.W(), leastWide)
	column, across := 0.0, 1
	for _, l := range lines {
		column = max(column, drawing.TextRoom(l, drawing.NoteSize, false)+7)
	}
	if len(lines) > fewNotes {
		across = max(1, int((width+7)/column))
	}
	down := (len(lines) + across - 1) / across
	if across == 1 {
		var wrapped []string
		for _, l := range lines {
			wrapped = append(wrapped, drawing.Wrap(tied(l), drawing.NoteSize, false, width)...)
		}
		lines, down = wrapped, len(wrapped)
	}
	for i := 0; i < len(lines); i += down {
		d.Add(drawing.GroupText, drawing.Lines(drawing.Text{
			Role: drawing.TextPlain, Size: drawing.NoteSize, Level: drawing.Top,
			At: drawing.Point{X: b.Min.X + column*float64(i/down), Y: b.Min.Y - partGap},
		}, lines[i:min(i+down, len(lines))], drawing.NoteSize*1.5)...)
	}
}

// legend draws a legend below the drawing.
func legend(d *drawing.Drawing, entries []drawing.Entry) {
	b := d.Bounds()
	l := drawing.Legend(drawing.Point{X: b.Min.X, Y: b.Min.Y - partGap}, entries, max(b.W(), leastWide))
	d.Add(drawing.GroupLegend, l.Shapes...)
}
