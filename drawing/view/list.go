package view

import (
	"strconv"

	"foldwright/drawing"
)

// Size of a page of a list in mm: what Letter and A4 both have room for.
const (
	listWide = 180.0
	listHigh = 235.0
	tickSize = 3.2
)

// Ticks writes numbered lines with a box to tick before each, on as many pages as it takes, for whoever follows them at a table.
// heading stands above the lines of every page. Without lines there are no pages.
func Ticks(name, heading string, lines []string) []*drawing.Drawing {
	var pages []*drawing.Drawing
	var d *drawing.Drawing
	y := 0.0
	for i, line := range lines {
		text := drawing.Text{Role: drawing.TextPlain, Size: drawing.LabelSize, Level: drawing.Top}
		words := drawing.Wrap(line, text.Size, false, listWide-16)
		high := float64(len(words)) * text.Size * 1.35
		if d == nil || -y+high > listHigh {
			d = drawing.New(name+"-"+strconv.Itoa(len(pages)+1), heading)
			d.Desc = "A list to tick off."
			pages, y = append(pages, d), 0
		}
		box := drawing.Point{X: 0, Y: y}
		d.Add(drawing.GroupText, drawing.Rect(drawing.Style{}, drawing.Frame, box, drawing.Point{X: tickSize, Y: y - tickSize}))
		number := text
		number.At, number.Words, number.Anchor, number.Bold = drawing.Point{X: 12, Y: y}, strconv.Itoa(i+1), drawing.End, true
		d.Add(drawing.GroupText, number)
		text.At = drawing.Point{X: 15, Y: y}
		d.Add(drawing.GroupText, drawing.Lines(text, words, text.Size*1.35)...)
		y -= high + 1.6
	}
	for _, p := range pages {
		head(p, heading)
		p.Fit(margin)
	}
	return pages
}
