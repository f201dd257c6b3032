package cutlist

import (
	"context"
	"slices"
	"strings"
	"testing"

	"foldwright/problem"
	"foldwright/proof"
)

// harbourLights are the pieces of a card of the catalogue, and the measurements of its mats and topper, in three habits.
func harbourLights() []struct{ name, pieces, narrow, wide, oval, mats, topper string } {
	return []struct{ name, pieces, narrow, wide, oval, mats, topper string }{
		{"inches", "Wall 10 1/2 x 3 in, score at 1 3/4, 3 1/4, 5, 6 3/4, 8 1/4 and 10\nRoof 1 1/2 x 6 in, score at 1/2, 3, 5 1/2\n" +
			"Springs, cut 2: 9 1/2 x 2 1/2 in, score at 1 1/2, 2 1/4, 3, 3 3/4, 4 1/2, 6, 6 3/4, 7 1/2, 8 1/4, 9\n",
			`1 1/4 x 2 3/4`, `1 1/2" x 2 3/4"`, `4 1/2 x 5 3/4`, ", edge 1/8", "topper oval 4 1/2 x 5 3/4 of white on roof.front-slope, top at 7"},
		{"millimetres", "Wall 252 x 72 mm, score at 42, 78, 120, 162, 198 and 240\nRoof 36 x 144 mm, score at 12, 72, 132\n" +
			"Springs, cut 2: 228 x 60 mm, score at 36, 54, 72, 90, 108, 144, 162, 180, 198, 216\n",
			`30 x 66 mm`, `36mm x 66mm`, `92 x 118`, ", edge 3", "topper oval 92 x 118 of white on roof.front-slope, top at 168"},
		{"centimetres", "Wall 25,2 x 7,2 cm, score at 4,2; 7,8; 12; 16,2; 19,8 and 24\nRoof 3,6 x 14,4 cm, score at 1,2; 7,2; 13,2\n" +
			"Springs, cut 2: 22,8 x 6 cm, score at 3,6; 5,4; 7,2; 9; 10,8; 14,4; 16,2; 18; 19,8; 21,6\n",
			`3 x 6,6 cm`, `3,6 cm x 6,6 cm`, `9,2 x 11,8`, ", edge 0.3", "topper oval 9.2 x 11.8 of white on roof.front-slope, top at 16.8"},
	}
}

// Mats and toppers become lines of the recipe on the panels that they fit, however a list says them, and the card proves.
func TestMatsAndToppers(t *testing.T) {
	catalogue := testCatalogue(t)
	two, four := "mat wall.front, wall.back of white", "mat wall.left, wall.right, wall.back-right, wall.back-left of white"
	for _, test := range []struct {
		text      string
		two, four bool
		topper    bool
	}{
		{"Mats: two {n}; topper {o} oval", true, false, true},
		{"Mats: two {n}, four {w}.", true, true, false},
		{"Mats: 2 {n} and 4 {w}", true, true, false},
		{"Mats: 2x {n}, 4x {w}", true, true, false},
		{"Mats\n- two {n}\n- four {w}", true, true, false},
		{"Mats and toppers:\n- {n} (cut 2)\n- {w} (cut 4)\n- oval topper {o}", true, true, true},
		{"Mats (white)\n{n} x2\n{w} x4", true, true, false},
		{"Mats: white {n} (cut 2)", true, false, false},
		{"Cut two mats {n} from white card and four mats {w}.", true, true, false},
		{"For the front and back cut two mats {n}.", true, false, false},
		{"Two mats of {n} for the front and the back", true, false, false},
		{"White mats for front and back: {n}", true, false, false},
		{"2 pieces {n} for mats, 4 pieces {w} for mats", true, true, false},
		{"Matting layers: {w} – make 4 of these. Oval topper {o}.", false, true, true},
		{"Topper: an oval of {o}.", false, false, true},
		{"Topper for the roof front slope: oval, {o}", false, false, true},
	} {
		for _, h := range harbourLights() {
			text := h.pieces + fill(test.text, "{n}", h.narrow, "{w}", h.wide, "{o}", h.oval)
			r := read(t, text, catalogue)
			sound(t, text, r)
			kept(t, text)
			var got, want []string
			for l := range strings.Lines(r.Recipe) {
				if strings.HasPrefix(l, "mat ") || strings.HasPrefix(l, "topper ") {
					got = append(got, strings.TrimSpace(l))
				}
			}
			if test.two {
				want = append(want, two+h.mats)
			}
			if test.four {
				want = append(want, four+h.mats)
			}
			if test.topper {
				want = append(want, h.topper)
			}
			slices.Sort(got)
			slices.Sort(want)
			if !slices.Equal(got, want) || len(r.Unplaced) > 0 {
				t.Errorf("%s: %q\n got %q\nwant %q\nnot placed %v\n%v", h.name, test.text, got, want, r.Unplaced, r.Problems)
				continue
			}
			if report := proof.Prove(context.Background(), "list", []byte(r.Recipe)); !report.Proven() {
				t.Errorf("%s: %q: not proven: %v", h.name, test.text, report.Problems)
			}
		}
	}
}

// A mat or a topper without a panel is handed back whole, with its place, and what is wrong is said.
func TestOrnamentsWithoutPanel(t *testing.T) {
	catalogue := testCatalogue(t)
	for _, test := range []struct{ text, unplaced, rule string }{
		{"Mats: two 2 x 2 1/2 in", "Mats: two 2 x 2 1/2 in", "ornament-place"},
		{"Mats: two 30 x 60 mm", "Mats: two 30 x 60 mm", "ornament-place"},
		{"Two mats 3 x 6 cm for the front", "Two mats 3 x 6 cm for the front", "ornament-place"},
		{"Envelope 5 x 7 in", "Envelope 5 x 7 in", ""},
		{"Ribbon: 6 x 300 mm", "Ribbon: 6 x 300 mm", ""},
	} {
		text := harbourLights()[0].pieces + test.text
		r := read(t, text, catalogue)
		kept(t, text)
		if len(r.Unplaced) != 1 || r.Unplaced[0].Text != test.unplaced || r.Unplaced[0].Line != 4 {
			t.Errorf("%q: not placed %+v", test.text, r.Unplaced)
		}
		if said := slices.ContainsFunc(r.Problems, func(p problem.Problem) bool { return p.Rule == test.rule }); said != (test.rule != "") {
			t.Errorf("%q: %v", test.text, r.Problems)
		}
		if len(r.Card.Mats)+len(r.Card.Toppers) > 0 {
			t.Errorf("%q: placed all the same", test.text)
		}
	}
}

// A stock that is said with a mat is that of the mat, and not of the piece behind it.
func TestStockOfMat(t *testing.T) {
	text := strings.Replace(harbourLights()[0].pieces, "Springs", "Mats: sand 1 1/4 x 2 3/4 (cut 2)\nSprings", 1)
	r := read(t, text, testCatalogue(t))
	if r.Card.Pieces[2].Stock == "sand" || len(r.Card.Mats) != 1 || r.Card.Mats[0].Stock != "sand" {
		t.Errorf("got\n%s", r.Recipe)
	}
}
