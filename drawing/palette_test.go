package drawing

import (
	"math"
	"slices"
	"strings"
	"testing"
)

// TestContrast checks the formula against published pairs: black on white is 21:1; #767676 on white is 4.54:1 and
// #949494 3.03:1, the lightest greys that pass 4.5 and 3 (widely printed; from memory).
func TestContrast(t *testing.T) {
	for _, c := range []struct {
		a    Colour
		want float64
	}{
		{Colour{0, 0, 0}, 21}, {Colour{0x76, 0x76, 0x76}, 4.54}, {Colour{0x94, 0x94, 0x94}, 3.03}, {Colour{255, 255, 255}, 1},
	} {
		if got := Contrast(c.a, white); math.Abs(got-c.want) > 0.005 {
			t.Errorf("contrast of %s to white = %.3f, want %.2f", c.a.Hex(), got, c.want)
		}
		if Contrast(c.a, white) != Contrast(white, c.a) {
			t.Errorf("contrast of %s depends on the order", c.a.Hex())
		}
	}
}

// grounds are all colours on which inks may lie.
func grounds() map[string]Colour {
	out := map[string]Colour{"white": White(), "paper": PaperTone()}
	trouble, _ := TroubleArea.Fill().Colour()
	out["trouble area"] = trouble
	for tint := range Tints {
		for _, s := range []Style{Outer(tint), Inner(tint)} {
			for _, shade := range []float64{0, 0.5, 1} {
				c, _ := s.Shaded(shade).Colour()
				out[s.Role.String()+string(rune('0'+tint))+Number(shade)] = c
			}
		}
	}
	return out
}

// TestPalette: text needs 4.5 to its ground, lines 3 (WCAG 2.2, 1.4.3 and 1.4.11), on every face in every shade.
// Hatching is a tone, not a sign that stands alone: it needs 2 on paper.
func TestPalette(t *testing.T) {
	for name, ground := range grounds() {
		for _, r := range Roles() {
			if ink, ok := r.Ink(); ok && Contrast(ink, ground) < 4.5 {
				t.Errorf("%s on %s has a contrast of %.2f, needs 4.5", r, name, Contrast(ink, ground))
			}
			if pen, ok := r.Pen(); ok && r != Glue && r != GlueBehind && Contrast(pen.Ink, ground) < 3 {
				t.Errorf("a %s line on %s has a contrast of %.2f, needs 3", r, name, Contrast(pen.Ink, ground))
			}
		}
	}
	if pen, _ := Glue.Pen(); Contrast(pen.Ink, White()) < 2 {
		t.Errorf("hatching has a contrast of %.2f, needs 2", Contrast(pen.Ink, White()))
	}
}

// TestGrey: in a grey print the inner face of every stock is paler than the outer one, and every stock differs from white,
// which most cards have.
func TestGrey(t *testing.T) {
	lum := func(s Style) float64 {
		c, _ := s.Colour()
		return c.Luminance()
	}
	whiteCard, _ := TintOf("white")
	chalk, _ := Outer(whiteCard).Colour()
	for n := range Tints {
		if lum(Inner(n)) <= lum(Outer(n)) {
			t.Errorf("stock %d: the inner face is not paler than the outer", n)
		}
		a, _ := Outer(n).Colour()
		if c := Contrast(a, chalk); n != whiteCard && c < 1.08 {
			t.Errorf("tint %d and white differ by only %.2f in grey", n, c)
		}
		if lum(Outer(n).Shaded(1)) >= lum(Outer(n)) {
			t.Errorf("stock %d: shade does not darken", n)
		}
	}
	if Outer(0) == Outer(Tints) {
		t.Error("different stocks have the same style")
	}
	a, _ := Outer(-1).Colour()
	b, _ := Outer(Tints - 1).Colour()
	if a != b {
		t.Error("tints do not repeat below 0")
	}
}

// TestScores: without any colour the kinds of score differ by their dashes, and by those only from each other.
func TestScores(t *testing.T) {
	seen := map[string]Role{}
	for _, r := range []Role{ScoreMountain, ScoreValley, ScoreEither, ScoreStraight, Hidden} {
		pen, ok := r.Pen()
		if !ok || pen.Width != Narrow {
			t.Errorf("%s is not a narrow line", r)
		}
		key := ""
		for _, v := range pen.Dash {
			key += Number(v) + " "
		}
		if other, twice := seen[key]; twice {
			t.Errorf("%s and %s have the same dashes", r, other)
		}
		seen[key] = r
		if n := len(pen.Dash); n%2 != 0 {
			t.Errorf("%s has %d dashes and gaps; an odd number does not repeat", r, n)
		}
	}
	if pen, _ := Cut.Pen(); pen.Width != Wide || Wide != 2*Narrow || pen.Dash != nil {
		t.Error("a cut is not a continuous wide line, twice the narrow one")
	}
	if pen, _ := ScoreMountain.Pen(); len(pen.Dash) != 4 || pen.Dash[0] <= pen.Dash[2] {
		t.Error("a mountain is not a chain of dash and dot")
	}
	if pen, _ := ScoreValley.Pen(); len(pen.Dash) != 2 {
		t.Error("a valley is not a row of dashes")
	}
}

func TestRoles(t *testing.T) {
	names := map[string]bool{}
	for _, r := range Roles() {
		name := r.String()
		if !plainWord(name) || names[name] || name == "none" {
			t.Errorf("role %d: the name %q is not a plain word used once", r, name)
		}
		names[name] = true
		_, pen := r.Pen()
		_, fill := r.Fill().Colour()
		_, ink := r.Ink()
		if !pen && !fill && !ink {
			t.Errorf("%s draws nothing", r)
		}
	}
	if len(names) < 20 {
		t.Errorf("only %d roles", len(names))
	}
	if got := Role(200).String(); got != "none" {
		t.Errorf("an unknown role is called %q", got)
	}
	if !strings.Contains(ScoreMountain.Words(), "mountain: folds away from you") ||
		!strings.Contains(ScoreValley.Words(), "valley: folds towards you") {
		t.Error("the legend's words for mountain and valley are not the agreed ones")
	}
}

func TestLegend(t *testing.T) {
	d := New("x", "x")
	square := []Point{{0, 0}, {10, 0}, {10, 10}, {0, 10}}
	d.Add(GroupPanel, Polygon{Fill: Outer(1).Shaded(0.5), Line: Edge, Outer: square}, Polygon{Fill: Outer(1), Outer: square})
	d.Add(GroupScore, Line(ScoreValley, Point{5, 0}, Point{5, 10}))
	d.Add(GroupCut, Polygon{Line: Cut, Outer: square})
	d.Add(GroupDimension, Circle(Dimension.Fill(), None, Point{1, 1}, 1))
	d.Add(GroupText, Text{Role: TextPlain, Words: "x", Size: 3})
	want := []Style{{Role: Cut}, {Role: ScoreValley}, {Role: Edge}, {Role: Dimension}, {Role: FaceOuter, Tint: 1}}
	if got := d.Kinds(); !slices.Equal(got, want) {
		t.Errorf("Kinds = %v, want %v", got, want)
	}
	entries := d.Entries(func(s Style) string {
		if s == Outer(1) {
			return "navy card, outer face"
		}
		return ""
	})
	l := Legend(Point{3, 50}, entries, 100)
	if got, want := words(l.Shapes), []string{"cut", "valley: folds towards you", "navy card, outer face"}; !slices.Equal(got, want) {
		t.Errorf("the legend says %q, want %q", got, want)
	}
	if l.Box.Min.X < 3 || l.Box.Max.Y > 50 || l.Box.Max.X > 103 || l.Box.Min.Y < 50-l.Depth {
		t.Errorf("the legend fills %+v, depth %g", l.Box, l.Depth)
	}
	if c := Clashes(asDrawing(l.Shapes), Roles()...); len(c) > 0 {
		t.Error(c)
	}
	if l := Legend(Point{}, nil, 100); len(l.Shapes) != 0 {
		t.Error("a legend of nothing has shapes")
	}
}

// TestLegend_AllKinds draws the legend of every role in any width without a clash.
func TestLegend_AllKinds(t *testing.T) {
	var entries []Entry
	for _, r := range Roles() {
		if _, text := r.Ink(); !text {
			entries = append(entries, Entry{Kind: r.Fill(), Words: "words for " + r.String()})
		}
	}
	for _, width := range []float64{10, 60, 120, 250, 2000} {
		l := Legend(Point{0, 0}, entries, width)
		if got := len(words(l.Shapes)); got != len(entries) {
			t.Errorf("width %g: %d entries, want %d", width, got, len(entries))
		}
		if c := Clashes(asDrawing(l.Shapes), Roles()...); len(c) > 0 {
			t.Errorf("width %g: %v", width, c)
		}
		if width >= 60 && l.Box.Max.X > width+0.01 {
			t.Errorf("width %g: the legend is %g wide", width, l.Box.Max.X)
		}
	}
}

// TestTintOf: the colour word of a name picks a tint of that hue: red, green and blue stand in the order of the colour named.
func TestTintOf(t *testing.T) {
	for _, c := range []struct {
		name string
		is   func(c Colour) bool
	}{
		{"navy card", func(c Colour) bool { return c.B > c.R && c.B >= c.G }},
		{"Sky Blue card", func(c Colour) bool { return c.B > c.R && c.B >= c.G }},
		{"sea green card", func(c Colour) bool { return c.G > c.R && c.G > c.B }},
		{"sand card", func(c Colour) bool { return c.R >= c.G && c.G > c.B }},
		{"red card", func(c Colour) bool { return c.R > c.G && c.G > c.B }},
		{"lilac", func(c Colour) bool { return c.B > c.G && c.R > c.G }},
		{"stone grey card", func(c Colour) bool { return c.R-c.B < 6 && c.G-c.B < 6 }},
		{"smooth white", func(c Colour) bool { return c.Luminance() > 0.8 }},
	} {
		n, ok := TintOf(c.name)
		if tone, _ := Outer(n).Colour(); !ok || !c.is(tone) {
			t.Errorf("%s: tint %d, %s, found: %t", c.name, n, tone.Hex(), ok)
		}
	}
	if n, ok := TintOf("thin card"); ok {
		t.Errorf("thin card has tint %d, but names no colour", n)
	}
}
