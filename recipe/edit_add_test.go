package recipe

import (
	"slices"
	"strings"
	"testing"

	"foldwright/card"
)

// Each Add puts a line where it belongs, with a blank line before the first of its kind, and changes nothing else.
func TestAdd(t *testing.T) {
	mat := card.Mat{Panels: []card.PanelRef{{Piece: "wall", Panel: "front"}, {Piece: "leaf", Copy: 2, Panel: "back"}}, Stock: "navy", Edge: 3 * mm}
	topper := card.Topper{Kind: card.Circle, Size: card.Size{W: 20 * mm, H: 20 * mm}, Stock: "navy", On: mat.Panels[0], Place: card.TopperTop, At: 40 * mm, Thick: 2 * mm, ThickGiven: true}
	navy := card.Stock{Name: "navy", Label: "navy", Grammage: 270, Caliper: 36 * mm / 100}
	const navyLine, matText, topperText = `stock navy "navy" 270 gsm, 0.36 mm`, "mat wall.front, leaf#2.back of navy, edge 3", "topper circle 20 of navy on wall.front, top at 40, thick 2 mm"
	const head = "card \"Gull\"\nunits mm  # metric\n\nstock white 240 gsm, 0.31 mm  # smooth\n\npiece wall of white\n  size 100 x 50\n  score across at 40\n  panels front, tab\n\nopens by itself\n"
	for _, test := range []struct {
		name, text, before string // the line that the new one stands behind; "" blank
		add                func(r *Recipe)
		want               string
	}{
		{"stock", head, "stock white 240 gsm, 0.31 mm  # smooth", func(r *Recipe) { r.AddStock(navy) }, navyLine},
		{"first stock", "card \"Gull\"\nunits mm\npiece wall of white\n  size 100 x 50\n", "units mm||", func(r *Recipe) { r.AddStock(navy) }, navyLine + "|"},
		{"first mat", head, "opens by itself||", func(r *Recipe) { r.AddMat(mat) }, matText},
		{"mat behind mats", head + "\nmat wall.tab of white, edge 2  # thin\n# the end\n", "mat wall.tab of white, edge 2  # thin", func(r *Recipe) { r.AddMat(mat) }, matText},
		{"mat before toppers", head + "\n" + topperText + "\n", "opens by itself||", func(r *Recipe) { r.AddMat(mat) }, matText},
		{"first topper", head, "opens by itself||", func(r *Recipe) { r.AddTopper(topper) }, topperText},
		{"topper behind mats", head + "\nmat wall.tab of white, edge 2\n", "mat wall.tab of white, edge 2", func(r *Recipe) { r.AddTopper(topper) }, topperText},
	} {
		r, problems := Read("gull.card", []byte(test.text))
		if r == nil {
			t.Fatalf("%s: %v", test.name, problems)
		}
		before := string(r.Format())
		test.add(r)
		after := string(r.Format())
		behind := strings.ReplaceAll(test.before, "|", "\n")
		want := strings.TrimSuffix(behind, "\n") + "\n" + strings.ReplaceAll(test.want, "|", "\n") + "\n"
		if !strings.Contains(after, want) {
			t.Errorf("%s: got\n%s\nwithout\n%s", test.name, after, want)
		}
		if got := removed(before, after); got != "" {
			t.Errorf("%s: the line %q is gone or out of its order", test.name, got)
		}
		again, problems := Read("gull.card", []byte(after))
		if again == nil || string(again.Format()) != after {
			t.Errorf("%s: written and read again: %v", test.name, problems)
		}
	}
}

// removed returns the first line of before that does not stand in after, in the same order.
func removed(before, after string) string {
	rest := strings.Split(after, "\n")
	for line := range strings.SplitSeq(before, "\n") {
		i := slices.Index(rest, line)
		if i < 0 {
			return line
		}
		rest = rest[i+1:]
	}
	return ""
}
