package card

import (
	"go/ast"
	"go/parser"
	"go/token"
	"math"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
)

const mm = length.Millimetre

// gull is a card without a problem, as a program would make it: nothing in it has a place.
func gull() *Card {
	return &Card{
		Title:  "Gull",
		Marks:  mm,
		Stocks: []Stock{{Name: "white", Label: "white card", Grammage: 240, Caliper: 310 * length.Micrometre}},
		Pieces: []Piece{
			{
				Name: "wall", Stock: "white", Copies: 1, Size: Size{100 * mm, 50 * mm},
				Scores: []Score{{At: 40 * mm, Sense: Mountain}, {At: 90 * mm, Sense: Mountain}},
				Strip:  []StripName{{Name: "front"}, {Name: "back"}, {Name: "tab"}},
				Wedges: []Wedge{{Panel: "tab", Depth: 3 * mm}},
			},
			{
				Name: "clip", Stock: "white", Copies: 2, Size: Size{40 * mm, 50 * mm},
				Scores: []Score{{Kind: Up, At: 20 * mm}, {Kind: Up, At: 10 * mm}, {Kind: Up, At: 30 * mm}},
				Strip:  []StripName{{Name: "low"}, {Name: "leaf"}, {Name: "leaf"}, {}},
			},
			{
				Name: "flag", Stock: "white", Copies: 1, Size: Size{60 * mm, 40 * mm},
				Outline:  []plane.Point{{}, {X: 60 * mm}, {X: 60 * mm, Y: 40 * mm}},
				Scores:   []Score{{Kind: Slanted, From: plane.Point{X: 30 * mm}, To: plane.Point{X: 60 * mm, Y: 40 * mm}}},
				Slits:    []Slit{{From: plane.Point{X: 40 * mm, Y: mm}, To: plane.Point{X: 50 * mm, Y: mm}}},
				Windows:  []Window{{Kind: Circle, Size: Size{mm, mm}, At: plane.Point{X: 55 * mm, Y: 2 * mm}}, {Kind: Polygon, Points: []plane.Point{{X: mm}, {X: 2 * mm}, {X: 2 * mm, Y: mm}}}},
				PanelsAt: []PanelAt{{Name: "beak", At: plane.Point{X: 50 * mm, Y: 5 * mm}}},
				Wedges:   []Wedge{{Panel: "beak", Depth: mm}},
				Rest:     []CreaseValue{{Value: 60, Scores: []int{1}}},
				Crease:   []CreaseValue{{Value: 0.2}},
			},
		},
		Glues: []Glue{
			{A: PanelRef{Piece: "wall", Panel: "tab"}, B: PanelRef{Piece: "wall", Panel: "front"}},
			{A: PanelRef{Piece: "clip", Copy: 1, Panel: "low"}, B: PanelRef{Piece: "wall", Copy: 1, Panel: "back"}, TurnedDeg: 12.5, Up: -mm},
			{A: PanelRef{Piece: "clip", Copy: 2, Panel: "low"}, B: PanelRef{Piece: "wall", Panel: "back"}},
		},
		Opening: Opening{Kind: OpensAt, Piece: PieceRef{Piece: "clip", Copy: 2}, Score: 3, ToDeg: 180},
		Keeps: []Keep{{
			Left:  Linear{Terms: []Term{{Piece: "clip", Panel: "leaf", Num: 1, Den: 2}, {Kind: CardWidth, Num: -1, Den: 1}}},
			Right: Linear{Terms: []Term{{Kind: PieceHeight, Piece: "wall", Num: 1, Den: 1}, {Kind: PieceWidth, Piece: "flag", Num: 1, Den: 1}}},
		}},
		Mats:    []Mat{{Panels: []PanelRef{{Piece: "clip", Panel: "leaf"}, {Piece: "wall", Panel: "front"}}, Stock: "white"}},
		Toppers: []Topper{{Kind: Oval, Size: Size{mm, 2 * mm}, Stock: "white", On: PanelRef{Piece: "flag", Panel: "beak"}, Thick: mm, ThickGiven: true}},
	}
}

func TestSoundCard(t *testing.T) {
	for _, p := range Check(gull()) {
		t.Error(p)
	}
}

// checkTests spoil the card, and say which one problem that makes.
var checkTests = []struct {
	rule, what string
	spoil      func(c *Card)
}{
	{"no-title", "the card has no title", func(c *Card) { c.Title = " \t" }},
	{"text-form", "the title holds a character that cannot be printed", func(c *Card) { c.Title = "a\nb" }},
	{"text-form", "the label is 201 characters long", func(c *Card) { c.Stocks[0].Label = strings.Repeat("ö", 201) }},
	{"not-positive", "the distance of the marks is -1", func(c *Card) { c.Marks = -mm }},
	{"not-positive", "the distance of the marks is 0", func(c *Card) { c.Marks, c.MarksWhere.Line = 0, 3 }},
	{"not-positive", "the width of the closed card is 0", func(c *Card) { c.Fits = &Size{0, mm} }},
	{"not-positive", "the height of piece clip is -50", func(c *Card) { c.Pieces[1].Size.H *= -1 }},
	{"not-positive", "the width of the window is 0", func(c *Card) { c.Pieces[2].Windows[0].Size.W = 0 }},
	{"not-positive", "the wedge is 0", func(c *Card) { c.Pieces[0].Wedges[0].Depth = 0 }},
	{"not-positive", "the width of the topper is 0", func(c *Card) { c.Toppers[0].Size.W = 0 }},
	{"not-positive", "the thickness is 0", func(c *Card) { c.Toppers[0].Thick = 0 }},
	{"too-long", "the height of the closed card is 2000.000001", func(c *Card) { c.Fits = &Size{mm, length.Max + 1} }},
	{"too-long", "a shift by -9223372036854.775807", func(c *Card) { c.Glues[0].Over = -math.MaxInt64 }},
	{"too-many", "there are 201 glue lines", func(c *Card) { c.Glues = make([]Glue, 201) }},
	{"too-many", "more than 60 pieces to cut", func(c *Card) { c.Pieces[1].Copies = math.MaxInt }},
	{"too-many", "piece clip has 401 scores", func(c *Card) { c.Pieces[1].Scores, c.Pieces[1].Strip = make([]Score, 401), nil }},
	{"no-pieces", "the card has no piece", func(c *Card) { *c = Card{Title: "Gull", Opening: Opening{Kind: OpensByItself}} }},
	{"duplicate-name", `there is a stock "white" already`, func(c *Card) { c.Stocks = append(c.Stocks, c.Stocks[0]) }},
	{"duplicate-name", `there is a piece "wall" already`, func(c *Card) { c.Pieces = append(c.Pieces, c.Pieces[0]) }},
	{"name-form", `"2" cannot be a name`, func(c *Card) { c.Pieces[2].Strip = []StripName{{Name: "2"}} }},
	{"name-form", `"a b" cannot be a name`, func(c *Card) { c.Stocks = append(c.Stocks, c.Stocks[0]); c.Stocks[1].Name = "a b" }},
	{"reserved-name", `"height" has a meaning of its own`, func(c *Card) { c.Pieces[1].Strip[3].Name = "height" }},
	{"reserved-name", `"card" has a meaning of its own`, func(c *Card) { c.Pieces = append(c.Pieces, c.Pieces[0]); c.Pieces[3].Name = "card" }},
	{"stock-range", "stock white has NaN gsm", func(c *Card) { c.Stocks[0].Grammage = math.NaN() }},
	{"stock-range", "stock white has 0 gsm", func(c *Card) { c.Stocks[0].Grammage = 0 }},
	{"stock-range", "one sheet of stock white is 6 mm", func(c *Card) { c.Stocks[0].Caliper = 6 * mm }},
	{"stiffness-range", "a stiffness of +Inf mN.m", func(c *Card) { c.Stocks[0].StiffnessMilliNm = Number{Value: math.Inf(1), Given: true} }},
	{"stiffness-range", "a stiffness of 0 N/rad", func(c *Card) { c.Stocks[0].CreaseNPerRad.Given = true }},
	{"stiffness-range", "a stiffness of -1 N/rad", func(c *Card) { c.Pieces[2].Crease[0].Value = -1 }},
	{"fold-angle", "a fold angle of 181 deg", func(c *Card) { c.Stocks[0].RestDeg = Number{Value: 181, Given: true} }},
	{"fold-angle", "a fold angle of NaN deg", func(c *Card) { c.Stocks[0].ScoredDeg = Number{Value: math.NaN(), Given: true} }},
	{"fold-angle", "a fold angle of -1 deg", func(c *Card) { c.Pieces[2].Rest[0].Value = -1 }},
	{"unknown-stock", `there is no stock "whiet"; did you mean "white"?`, func(c *Card) { c.Pieces[0].Stock = "whiet" }},
	{"unknown-stock", `there is no stock "navy"`, func(c *Card) { c.Mats[0].Stock = "navy" }},
	{"unknown-stock", `there is no stock ""`, func(c *Card) { c.Toppers[0].Stock = "" }},
	{"unknown-piece", `there is no piece "wal"; did you mean "wall.tab"?`, func(c *Card) { c.Glues[0].A.Piece = "wal" }},
	{"unknown-piece", `there is no piece "clipp"; did you mean "clip#2.low"?`, func(c *Card) { c.Glues[2].A.Piece = "clipp" }},
	{"unknown-piece", `there is no piece "mast"`, func(c *Card) { c.Keeps[0].Right.Terms[0].Piece = "mast" }},
	{"unknown-piece", `there is no piece "wing"`, func(c *Card) { c.Opening.Piece.Piece = "wing" }},
	{"unknown-panel", `there is no panel "wall.tabb"; did you mean "wall.tab"?`, func(c *Card) { c.Glues[0].A.Panel = "tabb" }},
	{"unknown-panel", `there is no panel "clip.laef"; did you mean "clip.leaf"?`, func(c *Card) { c.Keeps[0].Left.Terms[0].Panel = "laef" }},
	{"unknown-panel", `there is no panel "wall."`, func(c *Card) { c.Mats[0].Panels[1].Panel = "" }},
	{"unknown-panel", `there is no panel "nest"`, func(c *Card) { c.Pieces[2].Wedges[0].Panel = "nest" }},
	{"copy-range", "clip has 2 copies, so there is no clip#3", func(c *Card) { c.Glues[1].A.Copy = 3 }},
	{"copy-range", "wall has 1 copy, so there is no wall#-1", func(c *Card) { c.Glues[0].A.Copy = -1 }},
	{"copy-range", "there are 0 copies of flag", func(c *Card) { c.Pieces[2].Copies = 0 }},
	{"copy-range", "clip has 2 copies, so there is no clip#9", func(c *Card) { c.Mats[0].Panels[0].Copy = 9 }},
	{"copy-needed", "clip has 2 copies: write clip#1.low or clip#2.low", func(c *Card) { c.Glues[1].A.Copy = 0 }},
	{"copy-needed", "clip has 7 copies: write clip#1.low … clip#7.low", func(c *Card) { c.Pieces[1].Copies, c.Toppers[0].On = 7, PanelRef{Piece: "clip", Panel: "low"} }},
	{"copy-needed", "clip has 2 copies: write clip#1.3 or clip#2.3", func(c *Card) { c.Opening.Piece.Copy = 0 }},
	{"panel-ambiguous", `clip has 2 panels called "leaf"`, func(c *Card) { c.Glues[1].A.Panel = "leaf" }},
	{"panel-ambiguous", `clip has 2 panels called "leaf"`, func(c *Card) { c.Toppers[0].On = PanelRef{Piece: "clip", Copy: 1, Panel: "leaf"} }},
	{"no-size", "piece wall has no size", func(c *Card) { c.Pieces[0].Size = Size{} }},
	{"outline-corners", "the outline of flag encloses nothing", func(c *Card) { c.Pieces[2].Outline = c.Pieces[2].Outline[:2] }},
	{"outline-origin", "the outline of flag begins at (0, -1)", func(c *Card) { c.Pieces[2].Outline[1].Y = -mm }},
	{"outline-size", "the size of flag is not that of its outline", func(c *Card) { c.Pieces[2].Size.H += mm }},
	{"polygon-corners", "the window encloses nothing", func(c *Card) { c.Pieces[2].Windows[1].Points = nil }},
	{"polygon-corners", "the topper encloses nothing", func(c *Card) { c.Toppers[0].Kind = Polygon }},
	{"circle-size", "a circle of 1 x 2 is an oval", func(c *Card) { c.Toppers[0].Kind = Circle }},
	{"circle-size", "a circle of 1 x 2 is an oval", func(c *Card) { c.Pieces[2].Windows[0].Size.H = 2 * mm }},
	{"no-length", "the score starts and ends at (30, 0)", func(c *Card) { c.Pieces[2].Scores[0].To = c.Pieces[2].Scores[0].From }},
	{"no-length", "the slit starts and ends at (40, 1)", func(c *Card) { c.Pieces[2].Slits[0].To = c.Pieces[2].Slits[0].From }},
	{"score-outside", "score at 100 is not inside the piece: it is 100 wide, so a score lies above 0 and below 100", func(c *Card) { c.Pieces[0].Scores[1].At = 100 * mm }},
	{"score-outside", "score at 0 is not inside the piece: it is 50 high, so a score lies above 0 and below 50", func(c *Card) { c.Pieces[1].Scores[0].At = 0 }},
	{"score-outside", "the score from (30, 0) to (61, 40) does not run through the piece", func(c *Card) { c.Pieces[2].Scores[0].To.X += mm }},
	{"score-outside", "the score from (30, 0) to (60, 0) does not run through the piece", func(c *Card) { c.Pieces[2].Scores[0].To.Y = 0 }},
	{"score-repeated", "score 3 lies on score 1", func(c *Card) { c.Pieces[1].Scores[2].At = 20 * mm }},
	{"score-order", "score 2 at 30 comes after score 1 at 40", func(c *Card) { s := c.Pieces[0].Scores; s[1].At, s[0].Where.Line, s[1].Where.Line = 30*mm, 7, 7 }},
	{"fold-count", "fold names 9 senses for 2 scores", func(c *Card) { c.Pieces[0].FoldNames = 9 }},
	{"panel-count", "panels names 3 panels, but 3 scores make 4 panels", func(c *Card) { c.Pieces[1].Strip = c.Pieces[1].Strip[:3] }},
	{"panel-count", "panels names 2 panels, but 0 scores make 1 panel", func(c *Card) {
		c.Pieces = append(c.Pieces, Piece{Name: "base", Stock: "white", Copies: 1, Size: Size{mm, mm}, Strip: []StripName{{Name: "a"}, {Name: "b"}}})
	}},
	{"panel-names-need-points", "the panels of clip do not lie in one row", func(c *Card) { c.Pieces[1].Scores[1].Kind = Across }},
	{"panel-point", `the point (61, 5) for panel "beak" is not inside the piece`, func(c *Card) { c.Pieces[2].PanelsAt[0].At.X = 61 * mm }},
	{"score-number", "there is no score 2: flag has 1 score", func(c *Card) { c.Pieces[2].Rest[0].Scores = []int{1, 2} }},
	{"score-number", "there is no score 0: flag has 1 score", func(c *Card) { c.Pieces[2].Crease[0].Scores = []int{0} }},
	{"score-number", "there is no score 7: wall has 2 scores", func(c *Card) { c.Pieces[0].ClosedFolds, c.Pieces[0].ClosedFoldsSaid = []int{7}, true }},
	{"score-number", "there is no score 4: clip has 3 scores", func(c *Card) { c.Opening.Score = 4 }},
	{"said-twice", "score 1 stands in this list already", func(c *Card) { c.Pieces[2].Rest[0].Scores = []int{1, 1} }},
	{"said-twice", `panel "tab" has a wedge already`, func(c *Card) { c.Pieces[0].Wedges = append(c.Pieces[0].Wedges, c.Pieces[0].Wedges[0]) }},
	{"said-twice", "panel wall.front stands in this mat line twice", func(c *Card) { c.Mats[0].Panels[0] = c.Mats[0].Panels[1] }},
	{"slit-outside", "the slit from (40, 1) to (50, 41) reaches outside the piece", func(c *Card) { c.Pieces[2].Slits[0].To.Y = 41 * mm }},
	{"window-outside", "the window from (55, 40) to (56, 41) reaches outside the piece", func(c *Card) { c.Pieces[2].Windows[0].At.Y = 40 * mm }},
	{"window-outside", "the window from (1, -1) to (2, 1) reaches outside the piece", func(c *Card) { c.Pieces[2].Windows[1].Points[0].Y = -mm }},
	{"wedge-place", `panel "back" lies between others`, func(c *Card) { c.Pieces[0].Wedges[0].Panel = "back" }},
	{"wedge-place", `panel "a" hangs on no score`, func(c *Card) {
		c.Pieces = append(c.Pieces, Piece{Name: "base", Stock: "white", Copies: 1, Size: Size{mm, mm}, Strip: []StripName{{Name: "a"}}, Wedges: []Wedge{{Panel: "a", Depth: mm}}})
	}},
	{"wedge-size", `a wedge of 25 leaves nothing of panel "front"`, func(c *Card) { c.Pieces[0].Wedges[0] = Wedge{Panel: "front", Depth: 25 * mm} }},
	{"wedge-size", `a wedge of 10 leaves nothing of panel "low"`, func(c *Card) { c.Pieces[1].Wedges = []Wedge{{Panel: "low", Depth: 10 * mm}} }},
	{"glue-to-itself", "panel wall#1.front is glued to itself", func(c *Card) { c.Glues[0].A = PanelRef{Piece: "wall", Copy: 1, Panel: "front"} }},
	{"glue-twice", "wall.front and wall#1.tab are glued together already", func(c *Card) {
		c.Glues = append(c.Glues, Glue{A: c.Glues[0].B, B: PanelRef{Piece: "wall", Copy: 1, Panel: "tab"}, Joint: Facing})
	}},
	{"turned-range", "turned -90 is not within one turn", func(c *Card) { c.Glues[0].TurnedDeg = -90 }},
	{"turned-range", "turned NaN is not within one turn", func(c *Card) { c.Glues[0].TurnedDeg = math.NaN() }},
	{"no-opens", "nothing says how the card opens", func(c *Card) { c.Opening = Opening{} }},
	{"board", "stock white is board of 3 mm", func(c *Card) { c.Stocks[0].Caliper = 3 * mm }},
	{"tab-loose", `panel "wall.tab" is glued to nothing`, func(c *Card) { c.Glues = nil }},
	{"opens-range", "the card opens to 0 deg", func(c *Card) { c.Opening.ToDeg = 0 }},
	{"pull-itself", "piece wall is pulled from itself", func(c *Card) {
		c.Opening = Opening{Kind: OpensByPulling, A: PieceRef{Piece: "wall"}, B: PieceRef{Piece: "wall", Copy: 1}}
	}},
	{"keep-empty", "this relation holds no measure of the card", func(c *Card) { c.Keeps = append(c.Keeps, Keep{}) }},
	{"keep-factor", "a measure taken 0/2 times", func(c *Card) { c.Keeps[0].Left.Terms[0].Num = 0 }},
	{"keep-factor", "a measure taken 1/0 times", func(c *Card) { c.Keeps[0].Right.Terms[0].Den = 0 }},
	{"edge-range", "an edge of -1", func(c *Card) { c.Mats[0].Edge = -mm }},
	{"off-marks", "40.5, 0.000001 are not on the marks, which are 1 mm apart", func(c *Card) { c.Pieces[0].Scores[0].At, c.Pieces[0].Wedges[0].Depth = 405*mm/10, 1 }},
	{"off-marks", "3/16, 1 mm are not on the marks, which are 1/8 in apart", func(c *Card) {
		*c = Card{Title: "Gull", Unit: length.IN, Marks: length.Inch / 8, Stocks: c.Stocks, Opening: Opening{Kind: OpensByItself},
			Pieces: []Piece{{Name: "a", Stock: "white", Copies: 1, Size: Size{3 * length.Inch / 16, mm}}}}
	}},
}

func TestCheck(t *testing.T) {
	for _, test := range checkTests {
		c := gull()
		test.spoil(c)
		problems := Check(c)
		found := 0
		for _, p := range problems {
			if p.Rule == test.rule && strings.Contains(p.What, test.what) {
				found++
				if want := slices.Contains([]string{"no-opens", "off-marks", "board", "tab-loose"}, p.Rule); want != (p.Severity == problem.Warning) {
					t.Errorf("%v is a %v", p, p.Severity)
				}
			}
		}
		if found != 1 {
			t.Errorf("%s, %q: found %d times in %d problems:", test.rule, test.what, found, len(problems))
			for _, p := range problems {
				t.Log(p)
			}
		}
	}
}

// What a reader could not read is not held against the lines that need it.
func TestGaps(t *testing.T) {
	c := gull()
	c.Stocks, c.Opening, c.Title = nil, Opening{}, ""
	c.Pieces[0].Size, c.Pieces[0].Scores = Size{}, c.Pieces[0].Scores[:1]
	c.Pieces[1].Strip = nil
	c.Pieces = c.Pieces[:2]
	if len(Check(c)) < 9 {
		t.Errorf("the card has gaps, but Check finds only %d problems", len(Check(c)))
	}
	gaps := Gaps{{"", "stock"}: true, {"", "opens"}: true, {"", "card"}: true, {"", "piece"}: true,
		{"wall", "size"}: true, {"wall", "score"}: true, {"clip", "panels"}: true}
	for _, p := range CheckRead(c, gaps) {
		t.Error(p)
	}
}

// Every rule in the source stands in the package comment and has a test, and no other does.
func TestRulesAreListed(t *testing.T) {
	doc, err := os.ReadFile("doc.go")
	if err != nil {
		t.Fatal(err)
	}
	listed, used, tested := map[string]bool{}, rulesInSource(t), map[string]bool{}
	for _, m := range regexp.MustCompile(`(?m)^//\t([a-z-]+)  +\S`).FindAllSubmatch(doc, -1) {
		listed[string(m[1])] = true
	}
	for _, test := range checkTests {
		tested[test.rule] = true
	}
	if len(used) < 40 {
		t.Errorf("only %d rules found in the source", len(used))
	}
	for _, set := range []map[string]bool{listed, used, tested} {
		for rule := range set {
			if !listed[rule] || !used[rule] || !tested[rule] {
				t.Errorf("%s: listed %v, in the source %v, tested %v", rule, listed[rule], used[rule], tested[rule])
			}
		}
	}
}

// rulesInSource returns the first argument of every call of add and addNote, and every field Rule.
func rulesInSource(t *testing.T) map[string]bool {
	rules := map[string]bool{}
	text := func(e ast.Expr) {
		if l, ok := e.(*ast.BasicLit); ok && l.Kind == token.STRING {
			rule, _ := strconv.Unquote(l.Value)
			rules[rule] = true
		}
	}
	entries, err := os.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if !strings.HasSuffix(e.Name(), ".go") || strings.HasSuffix(e.Name(), "_test.go") {
			continue
		}
		file, err := parser.ParseFile(token.NewFileSet(), e.Name(), nil, 0)
		if err != nil {
			t.Fatal(err)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				if s, ok := n.Fun.(*ast.SelectorExpr); ok && len(n.Args) > 4 && (s.Sel.Name == "add" || s.Sel.Name == "addNote" || s.Sel.Name == "unknown") {
					text(n.Args[0])
				}
			case *ast.KeyValueExpr:
				if k, ok := n.Key.(*ast.Ident); ok && k.Name == "Rule" {
					text(n.Value)
				}
			}
			return true
		})
	}
	return rules
}

func TestBare(t *testing.T) {
	for _, test := range []struct {
		l    length.Length
		unit length.Unit
		want string
	}{
		{252 * mm, length.MM, "252"}, {mm / 2, length.CM, "0.05"}, {21 * length.Inch / 2, length.IN, "10 1/2"},
		{267 * mm, length.IN, "267 mm"}, {-length.Inch / 4, length.IN, "-1/4"}, {1, length.IN, "0.000001 mm"},
		{1, length.CM, "0.0000001"}, {3 * length.Inch / 10, length.IN, "0.3"}, {0, length.IN, "0"},
	} {
		if got := Bare(test.l, test.unit); got != test.want {
			t.Errorf("%d nm in %v: got %q, want %q", test.l, test.unit, got, test.want)
		}
		if back, err := length.Parse(Bare(test.l, test.unit), test.unit); err != nil || back != test.l {
			t.Errorf("%q reads as %d nm (%v), want %d", Bare(test.l, test.unit), back, err, test.l)
		}
	}
}

func TestIsName(t *testing.T) {
	for _, name := range []string{"wall", "back-left", "x4", "m_2", "Möwe", "e\u0301tang", "あ", strings.Repeat("a", 40)} {
		if !IsName(name) {
			t.Errorf("%q is not taken as a name", name)
		}
	}
	for _, name := range []string{"", "_", "-a", "4x", "a.b", "a#1", "a b", "a,b", "\u0301e", "a\xff", "a/b", strings.Repeat("a", 41)} {
		if IsName(name) {
			t.Errorf("%q is taken as a name", name)
		}
	}
}
