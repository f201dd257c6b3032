package drawing

import (
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/length"
)

// words returns the texts of shapes in their order.
func words(shapes []Shape) []string {
	var out []string
	for _, s := range shapes {
		if t, ok := s.(Text); ok {
			out = append(out, t.Words)
		}
	}
	return out
}

// asDrawing puts shapes into a drawing for Clashes.
func asDrawing(shapes []Shape) *Drawing {
	d := New("test", "test")
	d.Add(GroupDimension, shapes...)
	return d
}

func millimetres(v ...int64) []length.Length {
	out := make([]length.Length, len(v))
	for i, n := range v {
		out[i] = length.Length(n) * length.Millimetre
	}
	return out
}

func TestMeasure(t *testing.T) {
	const mm, in = length.Millimetre, length.Inch
	for _, c := range []struct {
		l    length.Length
		u    length.Unit
		want Label
	}{
		{0, length.MM, Label{"0", ""}},
		{42 * mm, length.MM, Label{"42", "≈ 1⅝ in"}},
		{42 * mm, length.CM, Label{"4.2", "≈ 1⅝ in"}},
		{254 * mm, length.MM, Label{"254", "10 in"}},
		{in + in*3/4, length.IN, Label{"1¾", "44.45 mm"}},
		{in * 3 / 16, length.IN, Label{"³⁄₁₆", "≈ 4.76 mm"}},
		{10*in + in/2, length.IN, Label{"10½", "266.7 mm"}},
	} {
		if got := Measure(c.l, c.u); got != c.want {
			t.Errorf("Measure(%d nm, %s) = %q, want %q", c.l, c.u, got, c.want)
		}
	}
	if got, want := MeasureFull(10*in+in/2, length.IN), (Label{"10½ in", "266.7 mm"}); got != want {
		t.Errorf("MeasureFull = %q, want %q", got, want)
	}
}

func TestChain_Words(t *testing.T) {
	stops := millimetres(0, 42, 78, 90)
	c := Chain{
		Marks: RulerMarks(stops, length.MM), Spans: Widths(stops, length.MM),
		MarksNote: RulerNote(Below, length.MM), SpansNote: WidthsNote(length.MM),
	}
	want := []string{
		"0", "42", "≈ 1⅝ in", "78", "≈ 3¹⁄₁₆ in", "90", "≈ 3⁹⁄₁₆ in", "ruler marks from the left edge, mm",
		"42", "≈ 1⅝ in", "36", "≈ 1⁷⁄₁₆ in", "12", "≈ ½ in", "panel widths, mm",
	}
	if got := words(c.Lay().Shapes); !slices.Equal(got, want) {
		t.Errorf("the words are\n%q\nwant\n%q", got, want)
	}
	if got, want := RulerNote(Left, length.IN), "ruler marks from the bottom edge, in"; got != want {
		t.Errorf("RulerNote = %q, want %q", got, want)
	}
}

// TestChain_LinesAtMarks asserts that a line points at every mark, exactly at its place, and none anywhere else.
func TestChain_LinesAtMarks(t *testing.T) {
	stops := millimetres(0, 36, 54, 72, 90, 108, 144, 162, 180, 198, 216, 228)
	for side, across := range map[Side]func(Point) float64{
		Below: func(p Point) float64 { return p.X }, Above: func(p Point) float64 { return p.X },
		Left: func(p Point) float64 { return p.Y }, Right: func(p Point) float64 { return p.Y },
	} {
		found := map[float64]bool{}
		layout := Chain{Side: side, Marks: RulerMarks(stops, length.MM)}.Lay()
		for _, s := range layout.Shapes {
			if l, ok := s.(Polyline); ok && across(l.Points[0]) == across(l.Points[1]) {
				found[across(l.Points[0])] = true
			}
		}
		for _, at := range stops {
			if !found[at.MM()] {
				t.Errorf("side %d: no line at %g mm", side, at.MM())
			}
		}
		if len(found) != len(stops) {
			t.Errorf("side %d: lines at %d places, want %d", side, len(found), len(stops))
		}
	}
}

func TestChain_Gathered(t *testing.T) {
	stops := millimetres(0, 40, 43, 46, 49, 89, 91)
	got := words(Chain{Spans: Widths(stops, length.MM)}.Lay().Shapes)
	for _, want := range []string{"3 × 3", "≈ ⅛ in each", "2"} {
		if !slices.Contains(got, want) {
			t.Errorf("the words %q lack %q", got, want)
		}
	}
}

func TestChain_Within(t *testing.T) {
	stops := millimetres(0, 42, 78, 120, 162, 198, 240, 252)
	c := Chain{Marks: RulerMarks(stops, length.MM), Spans: Widths(stops, length.MM), Within: true}
	if b := c.Lay().Box; b.Min.X < -withinSlack || b.Max.X > 252+withinSlack {
		t.Errorf("labels reach from %g to %g mm, want within 0 to 252", b.Min.X, b.Max.X)
	}
	c.Within = false
	if b := c.Lay().Box; b.Max.X < 253 {
		t.Errorf("without Within the last label ends at %g mm: the test above shows nothing", b.Max.X)
	}
}

func TestChain_Scaled(t *testing.T) {
	stops := millimetres(0, 42, 252)
	c := Chain{Marks: RulerMarks(stops, length.MM), Spans: Widths(stops, length.MM)}.Scaled(0.5)
	if c.Marks[2].At != 126 || c.Spans[1].From != 21 || c.Spans[1].To != 126 || c.Marks[2].Label.Main != "252" {
		t.Errorf("scaled by half: %+v %+v", c.Marks, c.Spans)
	}
}

func TestChain_Empty(t *testing.T) {
	if l := (Chain{MarksNote: "x", SpansNote: "y"}).Lay(); len(l.Shapes) != 0 {
		t.Errorf("a chain of nothing has %d shapes", len(l.Shapes))
	}
}

// TestChain_NoClash asserts for chains of any stops, on every side and in both units: (1) no label overlaps another, (2)
// no line runs through a label, (3) everything lies on the outer side of the edge, no deeper than Depth, (4) each stop's
// own number is there.
func TestChain_NoClash(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		u := rapid.SampledFrom([]length.Unit{length.MM, length.CM, length.IN}).Draw(t, "unit")
		pitch := map[length.Unit]length.Length{length.MM: length.Millimetre, length.CM: length.Millimetre, length.IN: length.Inch / 16}[u]
		stops := []length.Length{0}
		for range rapid.IntRange(1, 24).Draw(t, "panels") {
			stops = append(stops, stops[len(stops)-1]+length.Length(rapid.Int64Range(1, 40).Draw(t, "width"))*pitch)
		}
		c := Chain{Side: rapid.SampledFrom([]Side{Below, Above, Left, Right}).Draw(t, "side"), Within: rapid.Bool().Draw(t, "within")}
		if rapid.Bool().Draw(t, "marks") {
			c.Marks, c.MarksNote = RulerMarks(stops, u), RulerNote(c.Side, u)
		}
		if c.Marks == nil || rapid.Bool().Draw(t, "spans") {
			c.Spans, c.SpansNote = Widths(stops, u), WidthsNote(u)
		}
		layout := c.Lay()
		for _, f := range Clashes(asDrawing(layout.Shapes), Dimension, Frame) {
			t.Error(f)
		}
		inside := map[Side]float64{Below: layout.Box.Max.Y, Above: -layout.Box.Min.Y, Left: layout.Box.Max.X, Right: -layout.Box.Min.X}[c.Side]
		if inside > 0 {
			t.Errorf("something lies %g mm inside the edge", inside)
		}
		reach := map[Side]float64{Below: -layout.Box.Min.Y, Above: layout.Box.Max.Y, Left: -layout.Box.Min.X, Right: layout.Box.Max.X}[c.Side]
		if reach > layout.Depth+1e-6 {
			t.Errorf("it reaches %g mm from the edge, Depth is %g", reach, layout.Depth)
		}
		if c.Marks != nil {
			all := words(layout.Shapes)
			for _, s := range stops {
				if want := Measure(s, u).Main; !slices.Contains(all, want) {
					t.Errorf("the mark %q is missing", want)
				}
			}
		}
	})
}

func TestDimensionLine(t *testing.T) {
	l := Label{"42", "≈ 1⅝ in"}
	for _, c := range []struct {
		name     string
		from, to Point
		offset   float64
		heads    bool
	}{
		{"level", Point{0, 0}, Point{42, 0}, 6, true},
		{"backwards", Point{42, 0}, Point{0, 0}, 6, true},
		{"upright", Point{0, 0}, Point{0, 42}, -6, true},
		{"downwards", Point{0, 42}, Point{0, 0}, 6, true},
		{"slanting", Point{0, 0}, Point{30, 40}, 5, true},
		{"on the line", Point{0, 0}, Point{42, 0}, 0, true},
		{"too short for its label", Point{0, 0}, Point{8, 0}, 6, false},
		{"short, backwards", Point{8, 0}, Point{0, 0}, 6, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			shapes := DimensionLine(c.from, c.to, c.offset, l)
			if got := words(shapes); !slices.Equal(got, []string{"42", "≈ 1⅝ in"}) {
				t.Errorf("the words are %q", got)
			}
			heads := 0
			for _, s := range shapes {
				switch s := s.(type) {
				case Polygon:
					heads++
				case Text:
					if s.TurnDeg > 90+1e-9 || s.TurnDeg < -90-1e-9 {
						t.Errorf("%q stands on its head: turned by %g", s.Words, s.TurnDeg)
					}
				}
			}
			if (heads == 2) != c.heads {
				t.Errorf("%d arrow heads, want them: %v", heads, c.heads)
			}
			if clashes := Clashes(asDrawing(shapes), Dimension); len(clashes) > 0 {
				t.Error(clashes)
			}
		})
	}
	if got := DimensionLine(Point{1, 1}, Point{1, 1}, 5, l); got != nil {
		t.Errorf("a stretch of nothing has %d shapes", len(got))
	}
}

// TestDimensionLine_NoLabel asserts that an arrow without words is a line with two heads and nothing else.
func TestDimensionLine_NoLabel(t *testing.T) {
	for _, n := range []float64{50, 10} { // words of no length would still need more room than the shorter one has
		if got := DimensionLine(Point{}, Point{n, 0}, 0, Label{}); len(got) != 3 || len(words(got)) != 0 {
			t.Errorf("%g mm without a label is %v", n, got)
		}
	}
}

// TestDimensionLine_Side asserts that a positive offset lies to the left of from → to.
func TestDimensionLine_Side(t *testing.T) {
	for _, s := range DimensionLine(Point{0, 0}, Point{50, 0}, 7, Label{"50", ""}) {
		if a, ok := s.(Polygon); ok && math.Abs(a.Outer[0].Y-7) > 1e-9 {
			t.Errorf("an arrow points at %v, want it 7 mm above", a.Outer[0])
		}
	}
}

func TestClashes_Finds(t *testing.T) {
	text := func(at Point, w string, turn float64) Text {
		return Text{Role: TextPlain, At: at, Words: w, Size: 4, TurnDeg: turn}
	}
	for _, c := range []struct {
		name   string
		shapes []Shape
		want   string
	}{
		{"two texts", []Shape{text(Point{0, 0}, "one", 0), text(Point{3, 1}, "two", 0)}, "overlaps"},
		{"a turned text", []Shape{text(Point{0, 0}, "lighthouse", 45), text(Point{5, 5}, "two", 0)}, "overlaps"},
		{"a line", []Shape{text(Point{0, 0}, "one", 0), Line(Cut, Point{-1, 1}, Point{20, 1})}, "a cut line runs through"},
		{"apart", []Shape{text(Point{0, 0}, "one", 0), text(Point{0, 6}, "two", 0), Line(Cut, Point{-1, 5}, Point{20, 5})}, ""},
		{"beside a slanting text", []Shape{text(Point{0, 0}, "lighthouse", 45), text(Point{8, 1}, "two", 0)}, ""},
		{"a line of another role", []Shape{text(Point{0, 0}, "one", 0), Line(Edge, Point{-1, 1}, Point{20, 1})}, ""},
	} {
		got := Clashes(asDrawing(c.shapes), Cut)
		if (len(got) > 0) != (c.want != "") || len(got) > 0 && !strings.Contains(got[0], c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
}
