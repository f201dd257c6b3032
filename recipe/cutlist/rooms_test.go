package cutlist

import (
	"context"
	"slices"
	"strings"
	"testing"

	"foldwright/proof"
)

// ornamentLines returns the lines for mats and toppers of a recipe.
func ornamentLines(recipe string) []string {
	var out []string
	for l := range strings.Lines(recipe) {
		if strings.HasPrefix(l, "mat ") || strings.HasPrefix(l, "topper ") {
			out = append(out, strings.TrimSpace(l))
		}
	}
	return out
}

// Mats and toppers also find their panels on a card that no catalogue has: panels without a name get their number for one.
// What fits nowhere says so, and which panel comes nearest.
func TestOrnamentsWithoutForm(t *testing.T) {
	units := []struct{ name, base, mat, other, oval, wide, ovalIs, edge, near string }{
		{"inches", "Concertina 8 1/2 x 4 inch, navy, score on the long side at 2 1/8, 4 1/4, 6 3/8", "1 7/8 x 3 3/4 inch", "1 3/8 x 3 1/4", "1 1/2 x 1", "5 x 4 1/2", "1 1/2 x 1", "1/8", "2 1/8 in x 4 in free"},
		{"millimetres", "Concertina 216 x 100 mm, navy, score on the long side at 54, 108, 162", "48 x 94 mm", "38 x 84", "40 x 24", "120 x 110", "40 x 24", "3", "54 mm x 100 mm free"},
		{"centimetres", "Concertina 21.6 x 10 cm, navy, score on the long side at 5.4, 10.8, 16.2", "4.8 x 9.4 cm", "3.8 x 8.4", "4 x 2.4", "12 x 11", "4 x 2.4", "0.3", "5.4 cm x 10 cm free"},
	}
	for _, test := range []struct {
		text  string
		lines []string // E stands for the edge, O for the size of the oval
		guess bool     // the panel is guessed
		back  bool     // nothing fits: the line is handed back
	}{
		{"Mats: four {m}, white", []string{"mat concertina.panel-1, concertina.panel-2, concertina.panel-3, concertina.panel-4 of white, edge E"}, false, false},
		{"White mats: cut 4 at {m}", []string{"mat concertina.panel-1, concertina.panel-2, concertina.panel-3, concertina.panel-4 of white, edge E"}, false, false},
		{"White mats: cut 2 at {m}", []string{"mat concertina.panel-1, concertina.panel-2 of white, edge E"}, true, false},
		{"White mats for the concertina: {m} each", []string{"mat concertina.panel-1, concertina.panel-2, concertina.panel-3, concertina.panel-4 of white, edge E"}, false, false},
		{"Sentiment oval {o}", []string{"topper oval O of navy on concertina.panel-1"}, true, false},
		{"White toppers: two ovals {o}", []string{"topper oval O of white on concertina.panel-1", "topper oval O of white on concertina.panel-2"}, true, false},
		{"Sentiment oval {w}", nil, false, true},
		{"Mats: two {w}", nil, false, true},
	} {
		for _, u := range units {
			text := u.base + "\n" + fill(test.text, "{m}", u.mat, "{o}", u.oval, "{w}", u.wide)
			r := read(t, text, nil)
			sound(t, text, r)
			kept(t, text)
			var want []string
			for _, l := range test.lines {
				want = append(want, fill(l, "E", u.edge, "O", u.ovalIs))
			}
			if got := ornamentLines(r.Recipe); !slices.Equal(got, want) || (len(r.Unplaced) > 0) != test.back {
				t.Errorf("%s: %q\n got %q\nwant %q\nnot placed %v", u.name, text, got, want, r.Unplaced)
			}
			said := printed(r)
			if strings.Contains(said, "[panel-guessed]") != test.guess || strings.Contains(said, "[ornament-place]") != test.back {
				t.Errorf("%s: %q\n%s", u.name, text, said)
			}
			if test.back && !strings.Contains(said, "the nearest is panel 1 of concertina, with "+u.near) {
				t.Errorf("%s: %q: the nearest panel is not said\n%s", u.name, text, said)
			}
			if report := proof.Prove(context.Background(), "list", []byte(r.Recipe)); !report.Proven() {
				t.Errorf("%s: %q: not proven: %v", u.name, text, report.Problems)
			}
		}
	}
}

// A small topper is not put at the height of a large one of the form, where it would hang in the air.
func TestSmallTopper(t *testing.T) {
	for i, size := range []string{"1 1/4 x 1", "30 x 20 mm", "3 x 2 cm"} {
		text := harbourLights()[i].pieces + "Sentiment oval " + size
		r := read(t, text, testCatalogue(t))
		sound(t, text, r)
		lines := ornamentLines(r.Recipe)
		if len(lines) != 1 || strings.Contains(lines[0], "top at") || strings.Contains(lines[0], "bottom at") {
			t.Errorf("%q: %q, not placed %v", size, lines, r.Unplaced)
		}
	}
}
