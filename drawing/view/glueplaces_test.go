package view

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
)

// linesOf returns the words of a drawing, a text a line.
func linesOf(d *drawing.Drawing) []string {
	var out []string
	for _, s := range d.Shapes() {
		if t, ok := s.(drawing.Text); ok {
			out = append(out, t.Words)
		}
	}
	return out
}

// patternNamed draws the pattern of a piece of a card by its name.
func patternNamed(t *testing.T, card, piece string) *drawing.Drawing {
	t.Helper()
	r := cards(t)[card]
	for i, p := range r.Card.Pieces {
		if p.Name == piece {
			return Pattern(r.Assembly, i)
		}
	}
	t.Fatalf("%s has no piece %s", card, piece)
	return nil
}

// TestPlaces compares what is listed under a pattern with places worked out by hand from the glue lines of the recipes.
func TestPlaces(t *testing.T) {
	for _, c := range []struct{ card, piece, want string }{
		// "left, bottom, up 14, over 30"; the page is 150 wide, so that a foot of 12 at 102 is 150-102-12 = 36 from the right.
		{"turning-tide", "page", "slat#1.foot on page: 30 mm (≈ 1³⁄₁₆ in) from the left edge, 14 mm (≈ ⁹⁄₁₆ in) from the lower edge"},
		{"turning-tide", "page", "slat#3.foot on page: 36 mm (≈ 1⁷⁄₁₆ in) from the right edge, 14 mm (≈ ⁹⁄₁₆ in) from the lower edge"},
		// A strip of 14 in the middle of a hand of 12: the hand begins 1 above the strip's lower edge; its letter names it.
		{"turning-tide", "strip", "A: 4 mm (≈ ³⁄₁₆ in) from the left edge, 1 mm (≈ ¹⁄₁₆ in) from the lower edge"},
		// A leaf of 1 3/4 x 5 in the middle of a door of 2 x 5 1/4: an eighth all round.
		{"harbour-gate-inches", "gate", "leaf#2.leaf on right-door: ⅛ in (≈ 3.18 mm) from score 1, ⅛ in (≈ 3.18 mm) from the lower edge"},
		// A lifebelt of 2 1/4, its left edge 1 1/4 beyond that of the leaf, in the middle of 5: up (5 - 2 1/4)/2.
		{"harbour-gate-inches", "leaf", "lifebelt.catch on leaf: flush with the left edge, 1⅜ in (≈ 34.93 mm) from the lower edge"},
		// Windows and slits as the recipe has them; 1 in = 25.4 mm.
		{"eight-lantern-inches", "wall", "window 1: rect ½ × 1¾ in (12.7 × 44.45 mm), lower left corner at (1¼, 2½) in, (31.75, 63.5) mm"},
		{"gull-box-inches", "box", "slit 1: from (2¼, 3½) to (2¼, 5⅛) in, ≈ (57.15, 88.9) to (57.15, 130.18) mm"},
	} {
		if got := strings.Join(linesOf(patternNamed(t, c.card, c.piece)), " "); !strings.Contains(got, " "+c.want+" ") {
			t.Errorf("%s, %s: %q is not under the pattern, which says %s", c.card, c.piece, c.want, got)
		}
	}
}

// TestPoints: the card's unit comes first, and "≈" stands before a unit in which any number is rounded.
func TestPoints(t *testing.T) {
	half := plane.Point{X: length.Inch / 2, Y: length.Inch}
	for _, c := range []struct {
		unit length.Unit
		want string
	}{
		{length.IN, "(½, 1) to (½, 1) in, (12.7, 25.4) to (12.7, 25.4) mm"},
		{length.MM, "(12.7, 25.4) to (12.7, 25.4) mm, (½, 1) to (½, 1) in"},
	} {
		if got := points(c.unit, " to ", half, half); got != c.want {
			t.Errorf("%s: %q, want %q", c.unit, got, c.want)
		}
	}
	mm := plane.Point{X: 60 * length.Millimetre, Y: 0}
	if got, want := points(length.MM, " to ", half, mm), "(12.7, 25.4) to (60, 0) mm, ≈ (½, 1) to (2⅜, 0) in"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestNumbered: a score or slit has its number in the drawing only where a list below speaks of it, and a list speaks of no
// line without a number.
func TestNumbered(t *testing.T) {
	number := regexp.MustCompile(`\b(score|slit) \d+\b`)
	for name, r := range cards(t) {
		for _, d := range Patterns(r.Assembly) {
			var drawn, listed []string
			for _, l := range linesOf(d) {
				if found := number.FindAllString(l, -1); len(found) == 1 && found[0] == l {
					drawn = append(drawn, l)
				} else {
					listed = append(listed, found...)
				}
			}
			for _, n := range drawn {
				if !slices.Contains(listed, n) {
					t.Errorf("%s, %s: %s has a number that nothing needs", name, d.Name, n)
				}
			}
			for _, n := range listed {
				if !slices.Contains(drawn, n) {
					t.Errorf("%s, %s: %s is spoken of but has no number", name, d.Name, n)
				}
			}
		}
	}
}

// TestWindowWords: what a window is measured by is not called a box, which pieces may be called.
func TestWindowWords(t *testing.T) {
	mm := length.Millimetre
	oval := card.Window{Kind: card.Oval, Size: card.Size{W: 30 * mm, H: 60 * mm}, At: plane.Point{X: 32 * mm, Y: 30 * mm}}
	rect := oval
	rect.Kind = card.Rect
	for _, c := range []struct {
		window card.Window
		want   string
	}{
		{oval, "oval 30 × 60 mm (≈ 1³⁄₁₆ × 2⅜ in), lower left corner of the rectangle around it at (32, 30) mm, ≈ (1¼, 1³⁄₁₆) in"},
		{rect, "rect 30 × 60 mm (≈ 1³⁄₁₆ × 2⅜ in), lower left corner at (32, 30) mm, ≈ (1¼, 1³⁄₁₆) in"},
	} {
		got := windowWords(c.window, length.MM)
		if got != c.want {
			t.Errorf("%q, want %q", got, c.want)
		}
		for width := 20.0; width < 150; width++ {
			for _, l := range drawing.Wrap(tied(got), drawing.NoteSize, false, width) {
				if strings.HasPrefix(l, "mm") || strings.HasPrefix(l, "in)") || l == "in" || strings.HasSuffix(l, ",") && strings.Contains(l, "(") && !strings.Contains(l, ")") {
					t.Errorf("%.0f mm wide, a line is %q", width, l)
				}
			}
		}
	}
}

// TestPairs: no line of notes ends within a point or with "≈".
func TestPairs(t *testing.T) {
	for name, r := range cards(t) {
		for _, d := range Patterns(r.Assembly) {
			for _, l := range linesOf(d) {
				if strings.HasSuffix(l, "≈") {
					t.Errorf("%s, %s: a line ends with ≈: %q", name, d.Name, l)
				}
				if open := strings.LastIndex(l, "("); open >= 0 && strings.HasSuffix(l, ",") && !strings.Contains(l[open:], ")") {
					t.Errorf("%s, %s: a line ends within a point: %q", name, d.Name, l)
				}
			}
		}
	}
}
