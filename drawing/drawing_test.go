package drawing

import (
	"errors"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

// near says whether two places are the same but for float noise.
func near(a, b Point) bool { return a.Sub(b).Len() < 1e-9 }

func groupNames(d *Drawing) []string {
	var out []string
	for _, g := range d.Groups {
		out = append(out, g.Name)
	}
	return out
}

func TestDrawing_Add(t *testing.T) {
	d := New("wall", "wall, flat")
	for _, g := range []string{"stars", GroupText, GroupCut, GroupPanel, "birds", GroupScore, GroupCut} {
		d.Add(g, Line(Cut, Point{}, Point{1, 1}))
	}
	want := []string{GroupPanel, GroupScore, GroupCut, GroupText, "stars", "birds"}
	if got := groupNames(d); !slices.Equal(got, want) {
		t.Errorf("groups in the order %v, want %v", got, want)
	}
	if got := len(d.Group(GroupCut)); got != 2 {
		t.Errorf("%d cut shapes, want 2", got)
	}
	if d.Group("none") != nil {
		t.Error("a group that is not there has shapes")
	}
	if got := len(d.Shapes()); got != 7 {
		t.Errorf("%d shapes, want 7", got)
	}
}

func TestDrawing_Fit(t *testing.T) {
	d := New("x", "x")
	d.Add(GroupCut, Rect(Style{}, Cut, Point{0, 0}, Point{252, 72}))
	d.Add(GroupText, Line(Edge, Point{-6.3, 10}, Point{0, 80.2}))
	d.Fit(2)
	if d.W != 263 || d.H != 85 { // 9 left (6.3 + 2 rounded up), 252, 2 right; 2 below, 82.2 above rounded up
		t.Errorf("the size is %g x %g, want 263 x 85", d.W, d.H)
	}
	if got := d.Group(GroupCut)[0].Bounds(); got != (Box{Point{9, 2}, Point{261, 74}}) {
		t.Errorf("the piece lies at %v, want it on whole millimetres from (9,2)", got)
	}
	again := d.Bounds()
	d.Fit(2)
	if d.Bounds() != again || d.W != 263 {
		t.Error("fitting twice moves the drawing")
	}
	empty := New("e", "e")
	empty.Fit(0)
	if empty.W < 1 || empty.H < 1 {
		t.Errorf("an empty drawing is %g x %g", empty.W, empty.H)
	}
}

func TestDrawing_Template(t *testing.T) {
	d := New("x", "x")
	d.Add(GroupPanel, Rect(Outer(0), None, Point{20, 20}, Point{50, 40}))
	d.Add(GroupCut, Rect(Style{}, Cut, Point{20, 20}, Point{50, 40}))
	d.Add(GroupScore, Line(ScoreValley, Point{30, 20}, Point{30, 40}))
	d.Add(GroupMark, Line(Mark, Point{25, 25}, Point{26, 25}))
	d.Add(GroupText, Text{Role: TextPlain, Words: "x", Size: 3})
	d.W, d.H = 100, 100
	tpl := d.Template()
	if got, want := groupNames(tpl), []string{GroupScore, GroupCut, GroupMark}; !slices.Equal(got, want) {
		t.Errorf("the template has the groups %v, want %v", got, want)
	}
	if tpl.W != 32 || tpl.H != 22 {
		t.Errorf("the template is %g x %g, want 32 x 22", tpl.W, tpl.H)
	}
	if got := tpl.Group(GroupCut)[0].Bounds(); got.W() != 30 || got.H() != 20 || got.Min != (Point{1, 1}) {
		t.Errorf("the cut lies at %v", got)
	}
	if got := d.Group(GroupCut)[0].Bounds(); got.Min != (Point{20, 20}) || d.W != 100 {
		t.Errorf("making the template moved the drawing itself: %v", got)
	}
}

func TestMoved(t *testing.T) {
	shapes := []Shape{
		Line(Cut, Point{0, 0}, Point{1, 2}),
		Polygon{Fill: Outer(0), Outer: []Point{{0, 0}, {9, 0}, {9, 9}}, Holes: [][]Point{{{5, 1}, {6, 1}, {6, 2}}}},
		Circle(Solid.Fill(), None, Point{1, 1}, 2),
		Text{Role: TextPlain, Words: "x", Size: 3, At: Point{1, 1}},
	}
	before := BoundsOf(shapes)
	there := Moved(shapes, Point{3, -4})
	if got := BoundsOf(there); !near(got.Min, before.Min.Add(Point{3, -4})) || !near(got.Max, before.Max.Add(Point{3, -4})) {
		t.Errorf("moved from %v to %v", before, got)
	}
	if hole := there[1].(Polygon).Holes[0][0]; hole != (Point{8, -3}) {
		t.Errorf("the hole went to %v", hole)
	}
	if !reflect.DeepEqual(Moved(there, Point{-3, 4}), shapes) || BoundsOf(shapes) != before {
		t.Error("moving there and back does not give the same shapes, or it changed the originals")
	}
}

func TestOf(t *testing.T) {
	p := plane.Point{X: 42 * length.Millimetre, Y: length.Inch / 16}
	if got := Of(p); got != (Point{42, 1.5875}) {
		t.Errorf("Of(%v) = %v", p, got)
	}
	if got := OfAll([]plane.Point{p, {}}); len(got) != 2 || got[1] != (Point{}) {
		t.Errorf("OfAll = %v", got)
	}
}

func TestPoint_Turned(t *testing.T) {
	for deg, want := range map[float64]Point{
		0: {2, 1}, 90: {-1, 2}, 180: {-2, -1}, 270: {1, -2}, -90: {1, -2}, 450: {-1, 2}, 360: {2, 1},
	} {
		if got := (Point{2, 1}).Turned(deg); got != want {
			t.Errorf("(2,1) turned by %g = %v, want %v", deg, got, want)
		}
	}
	if got := (Point{1, 0}).Turned(30); !near(got, Point{math.Sqrt(3) / 2, 0.5}) {
		t.Errorf("(1,0) turned by 30 = %v", got)
	}
}

func TestText_Places(t *testing.T) {
	const size = 2048 // one unit of the font is 1 mm: "42" is 2278 wide, capitals 1480 high, tails 432 deep
	text := Text{Role: TextPlain, Words: "42", Size: size, At: Point{100, 50}}
	for _, c := range []struct {
		anchor Anchor
		level  Level
		turn   float64
		begin  Point
	}{
		{Start, Baseline, 0, Point{100, 50}},
		{Middle, Baseline, 0, Point{100 - 1139, 50}},
		{End, Baseline, 0, Point{100 - 2278, 50}},
		{Start, Top, 0, Point{100, 50 - 1480}},
		{Start, Centred, 0, Point{100, 50 - 740}},
		{Start, Bottom, 0, Point{100, 50 + 432}},
		{End, Top, 90, Point{100 + 1480, 50 - 2278}},
		{Middle, Centred, 180, Point{100 + 1139, 50 + 740}},
	} {
		text.Anchor, text.Level, text.TurnDeg = c.anchor, c.level, c.turn
		if got := text.Begin(); !near(got, c.begin) {
			t.Errorf("anchor %d, level %d, turned %g: begins at %v, want %v", c.anchor, c.level, c.turn, got, c.begin)
		}
	}
	text.Anchor, text.Level, text.TurnDeg = End, Top, 90
	if got, want := text.Origin(), (Point{100 + 1480, 50}); !near(got, want) {
		t.Errorf("Origin = %v, want %v", got, want)
	}
}

func TestText_Corners(t *testing.T) {
	level := Text{Role: TextPlain, Words: "42", Size: 10, Anchor: Middle}
	b := level.Bounds()
	if math.Abs(b.W()-TextRoom("42", 10, false)) > 1e-9 || b.Min.Y != 0 || math.Abs(b.Max.Y-10*CapHeight) > 1e-9 {
		t.Errorf("the box of figures is %+v", b)
	}
	if math.Abs(b.Min.X+b.Max.X) > 1e-9 {
		t.Errorf("a centred text is not centred: %+v", b)
	}
	level.Words = "gap"
	if b := level.Bounds(); math.Abs(b.Min.Y+10*Descent) > 1e-9 {
		t.Errorf("the box of words with tails begins at %g", b.Min.Y)
	}
	level.TurnDeg = 90
	if b := level.Bounds(); b.H() < b.W() {
		t.Errorf("a text turned upright is wider than high: %+v", b)
	}
}

func TestLines(t *testing.T) {
	got := Lines(Text{Role: TextPlain, Size: 3, At: Point{5, 20}}, []string{"one", "two"}, 4)
	if len(got) != 2 || got[1].(Text).At != (Point{5, 16}) || got[1].(Text).Words != "two" {
		t.Errorf("Lines = %v", got)
	}
	turned := Lines(Text{Role: TextPlain, Size: 3, At: Point{5, 20}, TurnDeg: 90}, []string{"one", "two"}, 4)
	if turned[1].(Text).At != (Point{9, 20}) {
		t.Errorf("lines that read upwards follow at %v", turned[1].(Text).At)
	}
}

func TestWrap(t *testing.T) {
	text := "a stand that lies flat in its envelope and springs open on the table"
	lines := Wrap(text, 3, false, 40)
	if len(lines) < 2 || strings.Join(lines, " ") != text {
		t.Errorf("Wrap = %q", lines)
	}
	for _, l := range lines {
		if TextRoom(l, 3, false) > 40 {
			t.Errorf("%q needs %g mm", l, TextRoom(l, 3, false))
		}
	}
	if got := Wrap("lighthousekeeper's logbook", 3, false, 10); !slices.Equal(got, []string{"lighthousekeeper's", "logbook"}) {
		t.Errorf("Wrap of a long word = %q", got)
	}
	if got := Wrap("to (60,"+Tied+"90) mm", 3, false, 1); !slices.Equal(got, []string{"to", "(60, 90)", "mm"}) {
		t.Errorf("Wrap of a tied pair = %q", got)
	}
	if got := Wrap("  ", 3, false, 10); got != nil {
		t.Errorf("Wrap of nothing = %q", got)
	}
}

// TestHatch asserts that hatching covers what it should: the length of all lines times their distance is the area.
func TestHatch(t *testing.T) {
	outer := []Point{{0, 0}, {40, 0}, {40, 30}, {0, 30}}
	hole := [][]Point{{{10, 10}, {20, 10}, {20, 20}, {10, 20}}}
	for _, angle := range []float64{0, 30, 45, 90, -60} {
		sum := 0.0
		for _, s := range Hatch(Glue, outer, hole, angle, 0.05) {
			l := s.(Polyline)
			sum += l.Points[1].Sub(l.Points[0]).Len()
			mid := l.Points[0].Add(l.Points[1]).Times(0.5)
			if mid.X > 10 && mid.X < 20 && mid.Y > 10 && mid.Y < 20 {
				t.Fatalf("angle %g: a line lies in the hole, at %v", angle, mid)
			}
		}
		if area := sum * 0.05; math.Abs(area-1100) > 5 {
			t.Errorf("angle %g: the lines cover %g mm², want 1100", angle, area)
		}
	}
	for _, spacing := range []float64{0, -1, math.NaN(), 1e-9} {
		if got := Hatch(Glue, outer, nil, 45, spacing); got != nil {
			t.Errorf("a spacing of %g gives %d lines", spacing, len(got))
		}
	}
}

func TestCheck(t *testing.T) {
	good := func() *Drawing {
		d := New("x", "x")
		d.Add(GroupCut, Rect(Style{}, Cut, Point{}, Point{10, 10}))
		d.W, d.H = 10, 10
		return d
	}
	if l := Check(good()); len(l) != 0 {
		t.Fatalf("a sound drawing has problems: %v", l)
	}
	nan := math.NaN()
	for _, c := range []struct {
		name, rule string
		spoil      func(*Drawing)
	}{
		{"no size", "drawing-size", func(d *Drawing) { d.W = 0 }},
		{"a size that is no number", "drawing-size", func(d *Drawing) { d.H = nan }},
		{"too large", "drawing-size", func(d *Drawing) { d.H = 1e6 }},
		{"a group without name", "drawing-group", func(d *Drawing) { d.Groups[0].Name = "" }},
		{"a group name with a space", "drawing-group", func(d *Drawing) { d.Groups[0].Name = "two words" }},
		{"a group twice", "drawing-group", func(d *Drawing) { d.Groups = append(d.Groups, Group{Name: GroupCut}) }},
		{"no place", "drawing-place", func(d *Drawing) { d.Add("a", Line(Cut, Point{nan, 0}, Point{1, 1})) }},
		{"far away", "drawing-place", func(d *Drawing) { d.Add("a", Line(Cut, Point{0, 1e7}, Point{1, 1})) }},
		{"a hole nowhere", "drawing-place", func(d *Drawing) {
			d.Add("a", Polygon{Line: Cut, Outer: []Point{{}, {1, 0}, {1, 1}}, Holes: [][]Point{{{}, {1, 1}, {0, math.Inf(1)}}}})
		}},
		{"one point", "drawing-shape", func(d *Drawing) { d.Add("a", Polyline{Line: Cut, Points: []Point{{}}}) }},
		{"two corners", "drawing-shape", func(d *Drawing) { d.Add("a", Polygon{Line: Cut, Outer: []Point{{}, {1, 1}}}) }},
		{"a hole of two corners", "drawing-shape", func(d *Drawing) {
			d.Add("a", Polygon{Line: Cut, Outer: []Point{{}, {1, 0}, {1, 1}}, Holes: [][]Point{{{}, {1, 1}}}})
		}},
		{"no radius", "drawing-shape", func(d *Drawing) { d.Add("a", Circle(Solid.Fill(), None, Point{}, 0)) }},
		{"no text size", "drawing-shape", func(d *Drawing) { d.Add("a", Text{Role: TextPlain, Words: "x"}) }},
		{"no shape", "drawing-shape", func(d *Drawing) { d.Add("a", nil) }},
		{"a line without role", "drawing-role", func(d *Drawing) { d.Add("a", Line(None, Point{}, Point{1, 1})) }},
		{"a line that is a fill", "drawing-role", func(d *Drawing) { d.Add("a", Line(FaceOuter, Point{}, Point{1, 1})) }},
		{"a fill that is a line", "drawing-role", func(d *Drawing) { d.Add("a", Rect(Cut.Fill(), None, Point{}, Point{1, 1})) }},
		{"an area without anything", "drawing-role", func(d *Drawing) { d.Add("a", Rect(Style{}, None, Point{}, Point{1, 1})) }},
		{"a text that is a line", "drawing-role", func(d *Drawing) { d.Add("a", Text{Role: Cut, Words: "x", Size: 3}) }},
	} {
		d := good()
		c.spoil(d)
		l := Check(d)
		if !slices.ContainsFunc(l, func(p problem.Problem) bool { return p.Rule == c.rule && p.Severity == problem.Error }) {
			t.Errorf("%s: got %v, want %s", c.name, l, c.rule)
		}
		var refused *NotDrawableError
		if err := Drawable(d); !errors.As(err, &refused) || !strings.Contains(err.Error(), "cannot be drawn") {
			t.Errorf("%s: Drawable says %v", c.name, err)
		}
	}
	if err := Drawable(nil); err == nil {
		t.Error("no drawing at all is called drawable")
	}
	d := good()
	d.Add(GroupText, Text{Role: TextPlain, Words: "鷗 and ⅓", Size: 3})
	if l := Check(d); len(l) != 1 || l[0].Severity != problem.Warning || !strings.Contains(l[0].What, "鷗") || Drawable(d) != nil {
		t.Errorf("characters that the fonts lack: %v", l)
	}
}

// TestHatchGlue: hatching of the two faces slants to different sides, and never along a side of its area.
func TestHatchGlue(t *testing.T) {
	for _, c := range []struct {
		name         string
		outer        []Point
		rise, behind float64 // degrees
	}{
		{"a square", []Point{{0, 0}, {20, 0}, {20, 20}, {0, 20}}, 45, -45},
		{"a side at 45 degrees", []Point{{0, 0}, {20, 0}, {20, 20}}, 60, -45},
		{"a side that falls at 45 degrees", []Point{{0, 0}, {20, 0}, {0, 20}}, 45, -60},
		{"sides at 45 and 60 degrees", []Point{{0, 0}, {20, 0}, {32, 12}, {32 - 60/math.Sqrt(3), -48}}, 30, -45},
		{"a small corner off", []Point{{0, 0}, {20, 0}, {20, 20}, {3, 20}, {0, 17}}, 45, -45},
	} {
		for role, want := range map[Role]float64{Glue: c.rise, GlueBehind: c.behind} {
			lines := HatchGlue(role, c.outer, nil)
			if len(lines) == 0 {
				t.Errorf("%s: no %s lines", c.name, role)
			}
			for _, s := range lines {
				l := s.(Polyline)
				d := l.Points[1].Sub(l.Points[0])
				if got := math.Atan2(d.Y, d.X) * 180 / math.Pi; l.Line != role || math.Abs(got-want) > 1e-6 {
					t.Fatalf("%s: a %s line at %g degrees, want %s at %g", c.name, l.Line, got, role, want)
				}
			}
		}
	}
}
