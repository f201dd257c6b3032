package view

import (
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/proof"
)

// wordsOf returns the words of a drawing in one line, in the order in which they were set.
func wordsOf(d *drawing.Drawing) string {
	var words []string
	for _, s := range d.Shapes() {
		if w, ok := s.(drawing.Text); ok {
			words = append(words, w.Words)
		}
	}
	return strings.Join(words, " ")
}

// towered returns the harbour light with other toppers and a second mat.
func towered(t *testing.T) *proof.Report {
	t.Helper()
	mm := length.Millimetre
	r := *cards(t)["harbour-light"]
	closed, assembly, c := *r.Closed, *r.Closed.Assembly, *r.Closed.Assembly.Card
	flag := []plane.Point{{X: 5 * mm, Y: 10 * mm}, {X: 45 * mm, Y: 10 * mm}, {X: 53 * mm, Y: 30 * mm}, {X: 25 * mm, Y: 62 * mm}, {X: 5 * mm, Y: 40 * mm}}
	on := c.Toppers[0].On
	c.Mats = append(slices.Clone(c.Mats), card.Mat{Panels: c.Mats[0].Panels, Stock: "navy", Edge: 3 * mm})
	c.Toppers = []card.Topper{
		{Kind: card.Polygon, Points: flag, Stock: "navy", On: on, Place: card.TopperTop, At: 168 * mm},
		{Kind: card.Rect, Size: card.Size{W: 6 * mm, H: 4 * mm}, Stock: "white", On: on, Thick: 2 * mm, ThickGiven: true},
		{Kind: card.Rect, Size: card.Size{W: 6 * mm, H: 4 * mm}, Stock: "white", On: on},
	}
	assembly.Card, closed.Assembly, r.Closed = &c, &assembly, &closed
	return &r
}

// TestOrnamentTemplates: one template for each size of a mat and each topper, with its name, how many, its stock, its size in both
// units; sizes are worked out by hand from the panels of the recipe (42 and 36 wide, 72 high) and the edges of 3 and 6.
func TestOrnamentTemplates(t *testing.T) {
	got := OrnamentTemplates(towered(t).Closed)
	want := []struct {
		name, words string
		w, h        float64
	}{
		{"mat-1-template", "mat 1, on wall.left, wall.right, wall.back-left, wall.back-right make 4 of smooth white, 240 gsm, 0.31 mm 36 × 66 mm (≈ 1⁷⁄₁₆ × 2⅝ in)", 36, 66},
		{"mat-2-template", "mat 2, on wall.front, wall.back make 2 of smooth white, 240 gsm, 0.31 mm 30 × 66 mm (≈ 1³⁄₁₆ × 2⅝ in)", 30, 66},
		{"mat-3-template", "mat 3, on wall.left, wall.right, wall.back-left, wall.back-right make 4 of navy card, 270 gsm, 0.36 mm 30 × 60 mm (≈ 1³⁄₁₆ × 2⅜ in)", 30, 60},
		{"topper-1-template", "topper 1, on roof.front-slope make 1 of navy card, 270 gsm, 0.36 mm 48 × 52 mm (≈ 1⅞ × 2¹⁄₁₆ in) " +
			"corners, across and up from the lower left corner of the rectangle around it: (0, 0) (40, 0) (48, 20) (20, 52) (0, 30) mm, ≈ (0, 0) (1⁹⁄₁₆, 0) (1⅞, ¹³⁄₁₆) (¹³⁄₁₆, 2¹⁄₁₆) (0, 1³⁄₁₆) in", 48, 52},
		{"topper-2-template", "topper 2, on roof.front-slope make 1 of smooth white, 240 gsm, 0.31 mm 6 × 4 mm (≈ ¼ × ³⁄₁₆ in) 2 mm (≈ ¹⁄₁₆ in) thick in all: raised on pads or layers", 6, 4},
		{"topper-3-template", "topper 3, on roof.front-slope make 1 of smooth white, 240 gsm, 0.31 mm 6 × 4 mm (≈ ¼ × ³⁄₁₆ in)", 6, 4},
	}
	if len(got) != len(want) {
		t.Fatalf("%d templates, want %d", len(got), len(want))
	}
	for _, w := range want {
		i := slices.IndexFunc(got, func(d *drawing.Drawing) bool { return wordsOf(d) == w.words })
		if i < 0 {
			t.Errorf("no template says %q", w.words)
			continue
		}
		d := got[i]
		if b := drawing.BoundsOf(d.Group(drawing.GroupCut)); d.Name != w.name || drawing.Number(b.W()) != drawing.Number(w.w) || drawing.Number(b.H()) != drawing.Number(w.h) {
			t.Errorf("%s is cut %g × %g mm, want %s, %g × %g", d.Name, b.W(), b.H(), w.name, w.w, w.h)
		}
	}
}

// TestOrnamentsDrawable: the templates of all cards, and of the small ones above, can be drawn, have nothing but the groups of a
// template, lie whole within their size, and no words clash with lines. Their shapes are as many as the card has.
func TestOrnamentsDrawable(t *testing.T) {
	list := map[string]*proof.Report{"towered": towered(t)}
	for name, r := range cards(t) {
		list[name] = r
	}
	checked := 0
	for name, r := range list {
		count := 0
		for _, o := range ornaments(r.Closed) {
			count += len(o.on)
		}
		if want := len(r.Closed.Decorations()); count != want {
			t.Errorf("%s: templates for %d mats and toppers, want %d", name, count, want)
		}
		for _, d := range OrnamentTemplates(r.Closed) {
			checked++
			for _, p := range drawing.Check(d) {
				t.Errorf("%s, %s: %s", name, d.Name, p.What)
			}
			for _, c := range drawing.Clashes(d, drawing.Roles()...) {
				t.Errorf("%s, %s: %s", name, d.Name, c)
			}
			for _, g := range d.Groups {
				if g.Name != drawing.GroupCut && g.Name != drawing.GroupMark {
					t.Errorf("%s, %s: there is a group %s", name, d.Name, g.Name)
				}
			}
			if b := d.Bounds(); b.Min.X < 0 || b.Min.Y < 0 || b.Max.X > d.W || b.Max.Y > d.H {
				t.Errorf("%s, %s: it fills %v of %g × %g mm", name, d.Name, b, d.W, d.H)
			}
		}
	}
	if checked < 10 {
		t.Errorf("only %d templates were checked", checked)
	}
	if OrnamentTemplates(nil) != nil {
		t.Error("there are templates of no card")
	}
}

// TestOrnamentNames: a template is not called what that of a piece is called.
func TestOrnamentNames(t *testing.T) {
	list := []ornament{{}, {}, {topper: true}}
	number(list, &card.Card{Pieces: []card.Piece{{Name: "mat-1"}, {Name: "topper"}}})
	for i, want := range []string{"mat 2", "mat 3", "topper 1"} {
		if list[i].name != want {
			t.Errorf("%q, want %q", list[i].name, want)
		}
	}
}
