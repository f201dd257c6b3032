package conform

import (
	"foldwright/drawing"
	"foldwright/length"
)

// Strip is a sample: a strip with upright scores, dimensioned as a flat pattern is.
type Strip struct {
	Name, Title string
	Unit        length.Unit
	W, H        length.Length
	Scores      []length.Length
	// Senses has one letter a score: m mountain, v valley, - not said, s straight.
	Senses string
	Within bool
}

func mm(v ...int64) []length.Length {
	out := make([]length.Length, len(v))
	for i, n := range v {
		out[i] = length.Length(n) * length.Millimetre
	}
	return out
}

// quarters are lengths in 1/4 in.
func quarters(v ...int64) []length.Length {
	out := make([]length.Length, len(v))
	for i, n := range v {
		out[i] = length.Length(n) * length.Inch / 4
	}
	return out
}

// Strips returns the samples: a wall, a spring with many scores, the wall in inches, and a strip whose scores lie closer
// than any label.
func Strips() []Strip {
	return []Strip{
		{"wall", "wall", length.MM, 252 * length.Millimetre, 72 * length.Millimetre, mm(42, 78, 120, 162, 198, 240), "mmmmmm", true},
		{"spring", "spring", length.MM, 228 * length.Millimetre, 60 * length.Millimetre,
			mm(36, 54, 72, 90, 108, 144, 162, 180, 198, 216), "mvmvmmvmvm", true},
		{"wall-inch", "wall, inches", length.IN, 10*length.Inch + length.Inch/2, 3 * length.Inch, quarters(7, 13, 20, 27, 33, 40), "mmmmmm", false},
		{"gusset", "gusset", length.MM, 90 * length.Millimetre, 40 * length.Millimetre,
			mm(20, 23, 26, 29, 32, 35, 38, 60, 62, 64, 78), "vmvmvmvmv-s", true},
	}
}

// Drawing returns the strip as a flat pattern: faces, scores and cut to size, ruler marks below, panel widths above, the
// height at the left, a title and a legend.
func (s Strip) Drawing() *drawing.Drawing {
	d := drawing.New(s.Name, s.Title)
	d.Desc = "A strip with upright scores, its outer face towards you."
	w, h := s.W.MM(), s.H.MM()
	d.Add(drawing.GroupPanel, drawing.Rect(drawing.Outer(0), drawing.None, drawing.Point{}, drawing.Point{X: w, Y: h}))
	d.Add(drawing.GroupCut, drawing.Rect(drawing.Style{}, drawing.Cut, drawing.Point{}, drawing.Point{X: w, Y: h}))
	roles := map[byte]drawing.Role{
		'm': drawing.ScoreMountain, 'v': drawing.ScoreValley, '-': drawing.ScoreEither, 's': drawing.ScoreStraight,
	}
	stops := []length.Length{0}
	for i, at := range s.Scores {
		x := at.MM()
		d.Add(drawing.GroupScore, drawing.Line(roles[s.Senses[i]], drawing.Point{X: x}, drawing.Point{X: x, Y: h}))
		stops = append(stops, at)
	}
	stops = append(stops, s.W)
	last := drawing.Point{X: stops[len(stops)-2].MM()}
	tab := []drawing.Point{last, {X: w}, {X: w, Y: h}, {X: last.X, Y: h}}
	d.Add(drawing.GroupGlue, drawing.HatchGlue(drawing.Glue, tab, nil)...)
	s.dimensions(d, stops)
	box := d.Bounds()
	d.Add(drawing.GroupText, drawing.Text{
		Role: drawing.TextPlain, Bold: true, Words: s.Title, Size: drawing.TitleSize,
		At: drawing.Point{X: 0, Y: box.Max.Y + 4},
	})
	legend := drawing.Legend(drawing.Point{X: 0, Y: box.Min.Y - 4}, d.Entries(nil), w)
	d.Add(drawing.GroupLegend, legend.Shapes...)
	d.Fit(2)
	return d
}

func (s Strip) dimensions(d *drawing.Drawing, stops []length.Length) {
	marks := drawing.Chain{
		Side: drawing.Below, Marks: drawing.RulerMarks(stops, s.Unit),
		MarksNote: drawing.RulerNote(drawing.Below, s.Unit), Within: s.Within,
	}
	widths := drawing.Chain{
		Side: drawing.Above, Origin: drawing.Point{Y: s.H.MM()}, Spans: drawing.Widths(stops, s.Unit),
		SpansNote: drawing.WidthsNote(s.Unit), Within: s.Within,
	}
	height := drawing.Chain{Side: drawing.Left, Spans: drawing.Widths([]length.Length{0, s.H}, s.Unit)}
	for _, c := range []drawing.Chain{marks, widths, height} {
		d.Add(drawing.GroupDimension, c.Lay().Shapes...)
	}
}
