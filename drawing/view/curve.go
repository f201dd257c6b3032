package view

import (
	"math"
	"strconv"

	"foldwright/drawing"
)

// Plot is a curve of one quantity over another, for people: its axes start at 0 or below.
type Plot struct {
	Name, Title  string
	Notes        []string // below the title
	Across, Up   string   // what the axes say: "how far open, mm"
	Points       []drawing.Point
	Marks        []PlotMark
	SmallestSpan float64 // of the upright axis, so that a flat curve is not blown up; 0 for any
}

// PlotMark is a point of the curve that has a name.
type PlotMark struct {
	At    drawing.Point
	Words string
}

// Size of the field of a plot in mm.
const (
	plotWide = 130.0
	plotHigh = 80.0
)

// Curve draws a plot, with ticks at round numbers. Without two points there is nothing to draw: nil.
func Curve(p Plot) *drawing.Drawing {
	if len(p.Points) < 2 {
		return nil
	}
	b := drawing.BoxOf(p.Points...)
	x := axisOf(min(b.Min.X, 0), b.Max.X)
	y := axisOf(min(b.Min.Y, 0), max(b.Max.Y, b.Min.Y+p.SmallestSpan))
	at := func(q drawing.Point) drawing.Point {
		return drawing.Point{X: x.at(q.X) * plotWide, Y: y.at(q.Y) * plotHigh}
	}
	d := drawing.New(p.Name, p.Title)
	words := drawing.Text{Role: drawing.TextPlain, Size: drawing.NoteSize}
	for _, v := range x.ticks() {
		foot := drawing.Point{X: x.at(v) * plotWide}
		d.Add(drawing.GroupOutline, drawing.Line(drawing.Frame, foot, foot.Add(drawing.Point{Y: -1.5})))
		t := words
		t.At, t.Words, t.Anchor, t.Level = foot.Add(drawing.Point{Y: -2.5}), tick(v), drawing.Middle, drawing.Top
		d.Add(drawing.GroupText, t)
	}
	for _, v := range y.ticks() {
		foot := drawing.Point{Y: y.at(v) * plotHigh}
		d.Add(drawing.GroupOutline, drawing.Line(drawing.Frame, foot, foot.Add(drawing.Point{X: -1.5})))
		t := words
		t.At, t.Words, t.Anchor, t.Level = foot.Add(drawing.Point{X: -2.5}), tick(v), drawing.End, drawing.Centred
		d.Add(drawing.GroupText, t)
	}
	d.Add(drawing.GroupOutline, drawing.Rect(drawing.Style{}, drawing.Frame, drawing.Point{}, drawing.Point{X: plotWide, Y: plotHigh}))
	if zero := y.at(0); zero > 0 && zero < 1 {
		d.Add(drawing.GroupOutline, drawing.Line(drawing.Hidden, drawing.Point{Y: zero * plotHigh}, drawing.Point{X: plotWide, Y: zero * plotHigh}))
	}
	line := drawing.Polyline{Line: drawing.Outline}
	for _, q := range p.Points {
		line.Points = append(line.Points, at(q))
	}
	d.Add(drawing.GroupCut, line)
	for _, m := range p.Marks {
		dot := at(m.At)
		d.Add(drawing.GroupMark, drawing.Circle(drawing.Solid.Fill(), drawing.None, dot, 1.1))
		t := words
		t.Words, t.At, t.Level = m.Words, dot.Add(drawing.Point{X: 2, Y: 2}), drawing.Baseline
		if t.At.X+drawing.TextRoom(t.Words, t.Size, false) > plotWide {
			t.Anchor, t.At.X = drawing.End, dot.X-2
		}
		d.Add(drawing.GroupText, t)
	}
	across, up := words, words
	across.Words, across.At, across.Anchor, across.Level = p.Across, drawing.Point{X: plotWide / 2, Y: -8}, drawing.Middle, drawing.Top
	up.Words, up.At, up.Anchor, up.Level, up.TurnDeg = p.Up, drawing.Point{X: -14, Y: plotHigh / 2}, drawing.Middle, drawing.Baseline, 90
	d.Add(drawing.GroupText, across, up)
	head(d, p.Title, p.Notes...)
	d.Desc = p.Up + " over " + p.Across + "."
	d.Fit(margin)
	return d
}

// axis is a range in steps of a round number.
type axis struct{ low, high, step float64 }

// axisOf returns an axis that holds both ends, with about five steps of 1, 2 or 5 times a power of ten.
func axisOf(low, high float64) axis {
	span := high - low
	if !(span > 0) || math.IsInf(span, 0) {
		span, high = 1, low+1
	}
	power := math.Pow(10, math.Floor(math.Log10(span/5)))
	step := 10 * power
	for _, k := range [...]float64{1, 2, 5} {
		if span/(k*power) <= 6 {
			step = k * power
			break
		}
	}
	return axis{math.Floor(low/step+1e-9) * step, math.Ceil(high/step-1e-9) * step, step}
}

// at returns where a value lies on the axis, from 0 to 1.
func (a axis) at(v float64) float64 { return (v - a.low) / (a.high - a.low) }

func (a axis) ticks() []float64 {
	var out []float64
	for k := math.Round(a.low / a.step); k*a.step <= a.high+a.step/2; k++ {
		out = append(out, k*a.step)
	}
	return out
}

func tick(v float64) string { return strconv.FormatFloat(math.Round(v*1e6)/1e6, 'g', 6, 64) }
