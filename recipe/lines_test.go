package recipe

import (
	"reflect"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

const mm = length.Millimetre

// lineTests hold, for every kind of line, a way to write it, its one form, and what the card holds then.
var lineTests = []struct {
	in, want string // want "" means that in is the one form
	got      func(c *card.Card) any
	holds    any
}{
	{`card "Gull"`, "", func(c *card.Card) any { return c.Title }, "Gull"},
	{`card “Gull”`, `card "Gull"`, func(c *card.Card) any { return c.Title }, "Gull"},
	{`card "a ""b"" #1"`, "", func(c *card.Card) any { return c.Title }, `a "b" #1`},
	{"card \"a\tb\"", `card "a b"`, func(c *card.Card) any { return c.Title }, "a b"},
	{"units in", "", func(c *card.Card) any { return c.Unit }, length.IN},
	{"units cm", "", func(c *card.Card) any { return c.Unit }, length.CM},
	{"marks 0.5", "marks 0.5 mm", func(c *card.Card) any { return c.Marks }, mm / 2},
	{"marks 1/8 in", "", func(c *card.Card) any { return c.Marks }, length.Inch / 8},
	{"fits 120x168", "fits 120 x 168", func(c *card.Card) any { return *c.Fits }, card.Size{W: 120 * mm, H: 168 * mm}},
	{`fits 5" x 7"`, "fits 127 x 177.8", func(c *card.Card) any { return *c.Fits }, card.Size{W: 127 * mm, H: 1778 * mm / 10}},
	{"fits 12cmx16.8cm", "fits 120 x 168", nil, nil},
	{"fits 120 × 168", "fits 120 x 168", nil, nil},
	{"fits 4½ in x 10 1/2in", "fits 114.3 x 266.7", nil, nil},
	{"fits 4³⁄₁₆ in x 5⅞ in", "fits 106.3625 x 149.225", nil, nil},
	{"fits 4 1⁄8 in×5 7∕8in", "fits 104.775 x 149.225", nil, nil},
	{"marks ¹⁄₆₄ in", "marks 1/64 in", func(c *card.Card) any { return c.Marks }, length.Inch / 64},
	{"stock mist 90.5 gsm, 0.07 mm", "", func(c *card.Card) any { return c.Stocks[1].Grammage }, 90.5},
	{`stock mist "mist ""A""" 90 gsm, 0.07`, `stock mist "mist ""A""" 90 gsm, 0.07 mm`, func(c *card.Card) any { return c.Stocks[1].Label }, `mist "A"`},
	{`stock mist 90 gsm, 0.012"`, "stock mist 90 gsm, 0.012 in", func(c *card.Card) any { return c.Stocks[1].Caliper }, 304800 * length.Nanometre},
	{"stock mist 90 gsm, 0.07 mm, scored 25°, grain short", "stock mist 90 gsm, 0.07 mm, grain short, scored 25 deg",
		func(c *card.Card) any { return c.Stocks[1].Grain }, card.GrainShort},
	{"stock mist 90 gsm, 0.07 mm, stiffness 4.1 mN·m, crease 0.2 N / rad", "stock mist 90 gsm, 0.07 mm, stiffness 4.1 mN.m, crease 0.2 N/rad",
		func(c *card.Card) any { return c.Stocks[1].StiffnessMilliNm.Value }, 4.1},
	{"piece b of s, 2 of", "", func(c *card.Card) any { return c.Pieces[1].Copies }, 2},
	{"piece b of s, 1 of", "piece b of s", func(c *card.Card) any { return c.Pieces[1].Copies }, 1},
	{"  size 252 x 72", "", func(c *card.Card) any { return c.Pieces[0].Size }, card.Size{W: 252 * mm, H: 72 * mm}},
	{"  outline (0,0) (60,0)(60,40.5)", "  outline (0, 0) (60, 0) (60, 40.5)", func(c *card.Card) any { return c.Pieces[0].Size }, card.Size{W: 60 * mm, H: 405 * mm / 10}},
	{"  score across at 42", "", func(c *card.Card) any { return c.Pieces[0].Scores[0].Kind }, card.Across},
	{"  score up at 12,72 , 132", "  score up at 12, 72, 132", func(c *card.Card) any { return c.Pieces[0].Scores[2].At }, 132 * mm},
	{"  score (0,10) to (60 , 20.25)", "  score (0, 10) to (60, 20.25)", func(c *card.Card) any { return c.Pieces[0].Scores[0].To }, plane.Point{X: 60 * mm, Y: 2025 * mm / 100}},
	{"  slit (1, 2) to (3, 4)", "", func(c *card.Card) any { return c.Pieces[0].Slits[0].From }, plane.Point{X: mm, Y: 2 * mm}},
	{"  window rect 3 x 4 at (1, 2)", "", func(c *card.Card) any { return c.Pieces[0].Windows[0].At }, plane.Point{X: mm, Y: 2 * mm}},
	{"  window oval 3 x 4 at (1, 2)", "", func(c *card.Card) any { return c.Pieces[0].Windows[0].Kind }, card.Oval},
	{"  window circle 3 x 3 at (1, 2)", "  window circle 3 at (1, 2)", func(c *card.Card) any { return c.Pieces[0].Windows[0].Size }, card.Size{W: 3 * mm, H: 3 * mm}},
	{"  window polygon (1, 2) (3, 4) (5, 6)", "", func(c *card.Card) any { return len(c.Pieces[0].Windows[0].Points) }, 3},
	{"  panels a,b , _", "  panels a, b, _", func(c *card.Card) any { return names(c) }, "a b _"},
	{"  panels a, leaf x 2, leaf ×2, _ X2", "  panels a, leaf x2, leaf x2, _ x2", func(c *card.Card) any { return names(c) }, "a leaf leaf leaf leaf _ _"},
	{"  panels x, x4, x x4", "", func(c *card.Card) any { return names(c) }, "x x4 x x x x"},
	{"  panels back-left, Möwe_2", "", func(c *card.Card) any { return names(c) }, "back-left Möwe_2"},
	{"  panel beak at (40, 30)", "", func(c *card.Card) any { return c.Pieces[0].PanelsAt[0].Name }, "beak"},
	{"  fold all mountain", "", func(c *card.Card) any { return senses(c) }, "m m m"},
	{"  fold all v", "  fold all valley", func(c *card.Card) any { return senses(c) }, "v v v"},
	{"  fold mountain, v _", "  fold m v _", func(c *card.Card) any { return senses(c) }, "m v _"},
	{"  rest 60 deg", "", func(c *card.Card) any { return c.Pieces[0].Rest[0].Value }, 60.0},
	{"  rest 60.5°at 3,1", "  rest 60.5 deg at 3, 1", func(c *card.Card) any { return c.Pieces[0].Rest[0].Scores }, []int{3, 1}},
	{"  crease 0.05 N/rad at 1, 2", "", func(c *card.Card) any { return c.Pieces[0].Crease[0].Scores }, []int{1, 2}},
	{"  crease 0.15 N/rad", "", func(c *card.Card) any { return c.Pieces[0].Crease[0].Value }, 0.15},
	{"  grain up", "", func(c *card.Card) any { return c.Pieces[0].Grain }, card.GrainUp},
	{"  grain across", "", func(c *card.Card) any { return c.Pieces[0].Grain }, card.GrainAcross},
	{"  closed folds 3, 1", "", func(c *card.Card) any { return c.Pieces[0].ClosedFolds }, []int{3, 1}},
	{"  closed folds none", "", func(c *card.Card) any { return c.Pieces[0].ClosedFoldsSaid }, true},
	{"  wedge tab 3", "", func(c *card.Card) any { return c.Pieces[0].Wedges[0].Depth }, 3 * mm},
	{"glue a.x inside b#2.y", "", func(c *card.Card) any { return c.Glues[0].B.String() }, "b#2.y"},
	{"glue a.x outside b.y, center", "glue a.x outside b.y, centre", func(c *card.Card) any { return c.Glues[0].AlignX }, card.AlignMiddle},
	{"glue a.x against b.y, over -3, turned 12.5, top, right", "glue a.x against b.y, right, top, turned 12.5, over -3", func(c *card.Card) any { return c.Glues[0].TurnedDeg }, 12.5},
	{"glue a.x facing b.y, up −1½, bottom, turned 0, left", "glue a.x facing b.y, left, bottom, turned 0, up -1.5", func(c *card.Card) any { return c.Glues[0].Up }, -3 * mm / 2},
	{"glue a.x facing b.y, middle, turned 270 deg", "glue a.x facing b.y, middle, turned 270", func(c *card.Card) any { return c.Glues[0].Joint }, card.Facing},
	{"opens by itself", "", func(c *card.Card) any { return c.Opening.Kind }, card.OpensByItself},
	{"opens at a#2.3 to 90 deg", "opens at a#2.3 to 90", func(c *card.Card) any { return c.Opening.Score }, 3},
	{"opens by pulling a from b#1", "", func(c *card.Card) any { return c.Opening.B.String() }, "b#1"},
	{"keep a.x=12", "keep a.x = 12", func(c *card.Card) any { return c.Keeps[0].Right.Constant }, 12 * mm},
	{"keep a.x ≤ b.y/2", "keep a.x <= b.y / 2", func(c *card.Card) any { return c.Keeps[0].Relation }, card.AtMost},
	{"keep 2*a.x - 3 in >= -card.width * 3 / 4", "keep 2 * a.x - 76.2 >= -3 * card.width / 4", func(c *card.Card) any { return c.Keeps[0].Right.Terms[0].Num }, int64(-3)},
	{"keep a.height + 1 + 2 = card.height - a.width", "", func(c *card.Card) any { return c.Keeps[0].Left.Constant }, 3 * mm},
	{"keep 1 1/2 * a.x = 0.5 * b.y", "keep 3 * a.x / 2 = b.y / 2", func(c *card.Card) any { return c.Keeps[0].Left.Terms[0].Den }, int64(2)},
	{"keep ³⁄₄*a.x = 1³⁄₁₆ in", "keep 3 * a.x / 4 = 30.1625", func(c *card.Card) any { return c.Keeps[0].Left.Terms[0].Num }, int64(3)},
	{"keep ⅓*a.x = 10 1/2", "keep a.x / 3 = 10.5", func(c *card.Card) any { return c.Keeps[0].Left.Terms[0].Den }, int64(3)},
	{"keep a.x = 1/3 in * 3", "keep a.x = 25.4", func(c *card.Card) any { return c.Keeps[0].Right.Constant }, length.Inch},
	{"mat a.x,b#1.y of s,edge 3", "mat a.x, b#1.y of s, edge 3", func(c *card.Card) any { return len(c.Mats[0].Panels) }, 2},
	{"topper rect 3 x 4 of s on a.x", "", func(c *card.Card) any { return c.Toppers[0].Place }, card.TopperCentre},
	{"topper circle 3 of s on a.x, thick 3, center", "topper circle 3 of s on a.x, centre, thick 3 mm", func(c *card.Card) any { return c.Toppers[0].Thick }, 3 * mm},
	{"topper oval 3 x 4 of s on a.x, top at 168", "", func(c *card.Card) any { return c.Toppers[0].At }, 168 * mm},
	{"topper polygon (0, 0) (9, 0) (0, 9) of s on a#2.x, thick 1/8 in, bottom at 2", "topper polygon (0, 0) (9, 0) (0, 9) of s on a#2.x, bottom at 2, thick 1/8 in",
		func(c *card.Card) any { return c.Toppers[0].Place }, card.TopperBottom},
	{"# alone", "", nil, nil},
	{"  #in the piece  ", "  #in the piece", nil, nil},
	{"fits 1 x 2 # behind", "fits 1 x 2  # behind", nil, nil},
	{"glue a#1.x inside b.y\t#1 is not a copy here", "glue a#1.x inside b.y  #1 is not a copy here", nil, nil},
}

func names(c *card.Card) string {
	var out []string
	for _, n := range c.Pieces[0].Strip {
		if n.Name == "" {
			n.Name = "_"
		}
		out = append(out, n.Name)
	}
	return strings.Join(out, " ")
}

func senses(c *card.Card) string {
	var out []string
	for _, s := range c.Pieces[0].Scores {
		out = append(out, string("_mv"[s.Sense]))
	}
	return strings.Join(out, " ")
}

func TestLines(t *testing.T) {
	seen := map[string]bool{}
	for _, test := range lineTests {
		if test.want == "" {
			test.want = test.in
		}
		first, _, _ := strings.Cut(strings.TrimSpace(test.in), " ")
		seen[first] = true
		text := test.in + "\n"
		if first != "units" && first != "card" {
			text = "stock s 100 gsm, 0.1 mm\npiece a of s\n" + text
		}
		if first == "fold" {
			text += "score across at 1, 2, 3\n"
		}
		r, problems := Read("line.card", []byte(text))
		if len(problems) > 0 {
			t.Errorf("%s: %s", test.in, printed(problems))
			continue
		}
		lines := strings.Split(string(r.Format()), "\n")
		if got := lines[min(len(lines)-1, strings.Count(text[:strings.Index(text, test.in)], "\n"))]; got != test.want {
			t.Errorf("%s\n got %s\nwant %s", test.in, got, test.want)
		}
		if test.got != nil && !reflect.DeepEqual(test.got(r.Card()), test.holds) {
			t.Errorf("%s: the card holds %v, want %v", test.in, test.got(r.Card()), test.holds)
		}
		fixedPoint(t, r)
	}
	for _, k := range keywords() {
		if !seen[k.word] {
			t.Errorf("no test writes a line that begins with %q", k.word)
		}
	}
}
