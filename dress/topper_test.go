package dress_test

import (
	"context"
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/card"
	"foldwright/dress"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/proof"
	"foldwright/recipe"
	"foldwright/stance"
	"foldwright/stock"
)

func oval(name string, w, h length.Length) stock.Die {
	return stock.Die{Name: name, Shape: stock.OvalShape, W: w, H: h}
}

func ref(piece, panel string) card.PanelRef { return card.PanelRef{Piece: piece, Panel: panel} }

func sheets(dies ...stock.Die) []dress.Sheet {
	var out []dress.Sheet
	for i, d := range dies {
		out = append(out, dress.Sheet{Die: d, Stock: paper(fmt.Sprint("sheet-", i))})
	}
	return out
}

// Common practice, no source: on a card of 5 x 7 in a topper of 5 3/4 in may not pass 7 in. The slope of the roof has its
// middle at 6 in, so that it would pass 8 in there.
func TestTradeTopper(t *testing.T) {
	w, r := wardrobe(t, "harbour-light-inches", true)
	job := dress.TopperJob{On: ref("roof", "front-slope"), Sheets: sheets(oval("large oval", 9*inch/2, 23*inch/4), oval("small oval", 4*inch, 21*inch/4))}
	top, problems := w.Topper(context.Background(), job)
	if top == nil {
		t.Fatal(problems)
	}
	if got := top.Toppers[0]; got.Place != card.TopperTop || got.At > 7*inch || got.At < 7*inch-inch/8 {
		t.Errorf("its top stands at %v", got.At.Human(length.IN))
	}
	if a, b := top.Toppers[0], top.Toppers[1]; a.At-b.At != (a.Size.H-b.Size.H)/2 {
		t.Errorf("the sheets are not in each other's middle: tops at %v and %v", a.At, b.At)
	}
	if !top.Steady || !top.OverPanel.Any() {
		t.Errorf("got %+v", top)
	}
	top.Write(r.Recipe)
	proven := proof.Prove(context.Background(), "dressed.card", r.Recipe.Format())
	if !proven.Proven() || proven.StandsAt < 0 {
		t.Errorf("dressed: %v\n%s", proven.Problems, r.Recipe.Format())
	}
	job.Place, job.At = card.TopperTop, 7*inch+inch/8
	if top, problems := w.Topper(context.Background(), job); top != nil || !strings.Contains(problems[0].What, "7 1/8 in") {
		t.Errorf("higher than 7 in: got %v", problems)
	}
}

// fold is the card of two panels whose outer faces lie on each other when it is shut.
func valley(t *testing.T) *dress.Wardrobe {
	w, _ := look(t, "pier.card", angle("mm", "60 + 60 = 120", "80", "v"), false)
	return w
}

func TestTopperRefused(t *testing.T) {
	light, _ := wardrobe(t, "harbour-light", true)
	shut := valley(t)
	raised := sheets(oval("buoy", 30*mm, 30*mm))
	raised[0].Thick = 3 * mm
	flap := []stock.Die{oval("tiny", 10*mm, 10*mm), oval("fits", 100*mm, 120*mm), oval("wide", 130*mm, 100*mm), {Name: "print", Tool: stock.StampTool, W: 110 * mm, H: 120 * mm}}
	for _, test := range []struct {
		name, rule, says, try string
		w                     *dress.Wardrobe
		job                   dress.TopperJob
	}{
		{"larger than the card", "dress-topper-size", "larger than the card may be", "fits", light,
			dress.TopperJob{On: ref("roof", "front-slope"), Sheets: sheets(oval("sun", 140*mm, 170*mm)), Others: flap}},
		{"unknown panel", "dress-panel", "roff.front-slope", "roof.front-slope", light, dress.TopperJob{On: ref("roff", "front-slope"), Sheets: raised}},
		{"hidden", "dress-panel", "does not show", "", light, dress.TopperJob{On: card.PanelRef{Piece: "spring", Copy: 1, Panel: "front"}, Sheets: raised}},
		{"no die", "dress-topper", "no die", "", light, dress.TopperJob{On: ref("wall", "front")}},
		{"stamp", "dress-topper", "cuts nothing", "", light, dress.TopperJob{On: ref("wall", "front"), Sheets: sheets(flap[3])}},
		{"no size", "dress-topper", "no size", "", light, dress.TopperJob{On: ref("wall", "front"), Sheets: sheets(stock.Die{Name: "x"})}},
		{"does not nest", "dress-nest", "not smaller", "", light, dress.TopperJob{On: ref("wall", "front"), Sheets: sheets(flap[0], flap[0])}},
		{"stock", "dress-stock", "navv", "navy", light, dress.TopperJob{On: ref("wall", "front"), Sheets: []dress.Sheet{{Die: flap[0], Stock: card.Stock{Name: "navv"}}}}},
		{"marks", "dress-marks", "-1 mm", "", light, dress.TopperJob{On: ref("wall", "front"), Sheets: raised, Marks: -mm}},
		{"under glue", "dress-topper", "roof.front-foot is glued there", "", light,
			dress.TopperJob{On: ref("wall", "front"), Sheets: sheets(oval("buoy", 30*mm, 30*mm)), Place: card.TopperTop, At: 70 * mm}},
		{"hangs below the feet", "dress-topper", "would not stand upright", "", light,
			dress.TopperJob{On: ref("wall", "front"), Sheets: sheets(oval("buoy", 30*mm, 30*mm)), Place: card.TopperBottom, At: -10 * mm, Within: card.Size{W: 200 * mm, H: 200 * mm}}},
		{"hardly glued", "dress-topper", "of 100 parts", "", light,
			dress.TopperJob{On: ref("roof", "front-slope"), Sheets: sheets(oval("buoy", 30*mm, 30*mm)), Place: card.TopperBottom, At: 128 * mm}},
		{"pressed", "dress-topper", "a raised topper would press through", "", shut, dress.TopperJob{On: ref("pier", "left"), Sheets: raised}},
		{"over a fold that shuts on it", "dress-topper", "no place", "", shut,
			dress.TopperJob{On: ref("pier", "left"), Sheets: sheets(stock.Die{Name: "plank", W: 70 * mm, H: 20 * mm}), Within: card.Size{W: 200 * mm, H: 200 * mm}}},
	} {
		top, problems := test.w.Topper(context.Background(), test.job)
		if top != nil || len(problems) != 1 || problems[0].Rule != test.rule || !strings.Contains(problems[0].String(), test.says) || problems[0].Try != test.try {
			t.Errorf("%s: got %v, want %s with %q and try %q", test.name, problems, test.rule, test.says, test.try)
		}
	}
	ended, end := context.WithCancel(context.Background())
	end()
	if top, problems := light.Topper(ended, dress.TopperJob{On: ref("wall", "front"), Sheets: raised}); top != nil || problems[0].Rule != "dress-stopped" {
		t.Errorf("stopped: got %v", problems)
	}
	// What is advised helps.
	if top, problems := light.Topper(context.Background(), dress.TopperJob{On: ref("roof", "front-slope"), Sheets: sheets(flap[1])}); top == nil {
		t.Error(problems)
	}
	// A flat topper lies where a raised one would press through.
	top, problems := shut.Topper(context.Background(), dress.TopperJob{On: ref("pier", "left"), Sheets: sheets(oval("buoy", 30*mm, 30*mm))})
	if top == nil || len(top.Pressed) != 1 || top.Glued != 1 || top.OverPanel.Any() {
		t.Errorf("got %+v, %v", top, problems)
	}
}

// What reaches beyond its panel may be in the way: of the flaps of a box that turn out as it opens, or of the next panel, where
// that rises towards it. Lower or narrower it is not.
func TestInTheWay(t *testing.T) {
	plank := func(w, h length.Length) []dress.Sheet { return sheets(stock.Die{Name: "plank", W: w, H: h}) }
	large := card.Size{W: 400 * mm, H: 400 * mm}
	for _, test := range []struct {
		form, says string
		job        dress.TopperJob
	}{
		{"gull-box", "box.right-flap would pass through it while the card opens",
			dress.TopperJob{On: ref("box", "front"), Sheets: plank(190*mm, 40*mm), Place: card.TopperBottom, At: 40 * mm, Within: large}},
		{"gull-box", "", dress.TopperJob{On: ref("box", "front"), Sheets: plank(54*mm, 40*mm), Place: card.TopperBottom, At: 50 * mm, Within: large}},
		{"gull-easel", "it would lie across score 1 of base, which bends towards it as the card opens",
			dress.TopperJob{On: ref("base", "lip"), Sheets: plank(60*mm, 40*mm), Place: card.TopperBottom, At: 50 * mm, Within: large}},
	} {
		w, _ := wardrobe(t, test.form, true)
		top, problems := w.Topper(context.Background(), test.job)
		if (top != nil) != (test.says == "") || top == nil && !strings.Contains(problems[0].What, test.says) {
			t.Errorf("%s: got %v, want %q", test.form, problems, test.says)
		}
	}
}

// Any die that gets a place leaves the card within its size, lies on no glue and lets it stand; the dressed card is proven.
func TestTopper_property(t *testing.T) {
	type form struct {
		w *dress.Wardrobe
		r *proof.Report
	}
	var all []form
	for _, name := range forms.Names() {
		w, r := wardrobe(t, name, true)
		all = append(all, form{w, r})
	}
	placed, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(all).Draw(t, "form")
		a := f.r.Assembly
		face := rapid.SampledFrom(f.w.Faces()).Draw(t, "face")
		p := a.Panels[face.Panel]
		cp := a.Copies[p.Copy]
		side := func(of length.Length, name string) length.Length {
			l, _ := (of * length.Length(rapid.IntRange(10, 130).Draw(t, name)) / 100).Snap(mm)
			return max(l, mm)
		}
		die := stock.Die{Name: "gull", Shape: stock.Shape(rapid.IntRange(0, 1).Draw(t, "shape")), W: side(p.Box.W(), "w"), H: side(p.Box.H(), "h")}
		s := sheets(die)
		if rapid.Bool().Draw(t, "raised") {
			s[0].Thick = 2 * mm
		}
		top, problems := f.w.Topper(context.Background(), dress.TopperJob{On: card.PanelRef{Piece: cp.Pattern.Piece.Name, Copy: cp.Number, Panel: p.Name}, Sheets: s})
		if top == nil {
			refused++
			if len(problems) == 0 || problems[0].What == "" || problems[0].Needs == "" {
				t.Fatalf("refused without a word: %v", problems)
			}
			return
		}
		placed++
		dressed := f.w.Dressed(top.Dressing)
		d := dressed.Decorations()
		back := dressed.At[face.Panel].Inverse()
		b := plane.BoxOf(d[len(d)-1].Ring...)
		for i := range 2500 {
			x, y := float64(b.Min.X)+(float64(i%50)+0.5)/50*float64(b.W()), float64(b.Min.Y)+(float64(i/50)+0.5)/50*float64(b.H())
			if !plane.InPolygon(d[len(d)-1].Ring, x, y) {
				continue
			}
			px, py := back.At(x, y)
			for _, on := range glueOn(a, face.Panel) {
				if p.Contains(px, py) && on(px, py) {
					t.Fatal("it lies under glue")
				}
			}
		}
		was, _ := stance.Standing(f.r.Closed, f.r.Opening)
		if is, _ := stance.Standing(dressed, f.r.Opening); is < was {
			t.Fatalf("it stood in pose %d, and now in %d", was, is)
		}
		text := recipe.FromCard(top.On(f.r.Card)).Format()
		if r := proof.ProveBare(context.Background(), "gull.card", text); !r.Proven() {
			t.Fatalf("not proven: %v\n%s", r.Problems, text)
		}
	})
	t.Logf("%d placed, %d refused", placed, refused)
	if placed == 0 || refused == 0 {
		t.Errorf("%d placed, %d refused: one of the two was not tried", placed, refused)
	}
}

// A rectangle a by b lies in an oval A by B where (a/A)² + (b/B)² <= 1: the ellipse's own equation at its corner. Any
// handbook of geometry.
func TestTakes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		draw := func(name string) length.Length { return length.Length(rapid.IntRange(5, 100).Draw(t, name)) * mm }
		cut, stamp := oval("oval", draw("A"), draw("B")), stock.Die{Name: "tern", Tool: stock.StampTool, W: draw("a"), H: draw("b")}
		m := length.Length(rapid.IntRange(0, 3).Draw(t, "margin")) * mm
		a, b := (stamp.W + 2*m).MM(), (stamp.H + 2*m).MM()
		A, B := cut.W.MM(), cut.H.MM()
		least := min(math.Hypot(a/A, b/B), math.Hypot(b/A, a/B))
		if math.Abs(least-1) < 0.01 { // an oval counts as a polygon here, within 0.12 %
			return
		}
		if got := dress.Takes(cut, stamp, m); got != (least < 1) {
			t.Fatalf("%v x %v in %v x %v: got %v", a, b, A, B, got)
		}
	})
}

// Which tools suit which panel: each match lies within its panel, and the largest stand first.
func TestMatches(t *testing.T) {
	w, r := wardrobe(t, "harbour-light", true)
	dies := []stock.Die{oval("small", 20*mm, 30*mm), oval("long", 120*mm, 20*mm), {Name: "sun", Tool: stock.PunchTool, Shape: stock.CircleShape, W: 30 * mm, H: 30 * mm},
		{Name: "plank", W: 64 * mm, H: 28 * mm}}
	got := map[string][]string{}
	for _, m := range w.Matches(dies, 3*mm) {
		name := m.Die.Name
		if m.Turned {
			name += " turned"
		}
		panel := r.Assembly.Panels[m.Panel].Ref
		got[panel] = append(got[panel], fmt.Sprint(name, " ", m.Margin.MM()))
	}
	for panel, want := range map[string]string{
		"wall.left":        "plank turned 4, sun 6, small 11", // 42 x 72
		"wall.front":       "sun 3, small 8",                  // 36 x 72, a foot glued on above 60
		"roof.front-slope": "sun 3, small 8",                  // 36 x 60
		"roof.front-foot":  "",                                // 36 x 12
		"wall.back-right":  "plank turned 4, sun 6, small 11",
	} {
		if have := strings.Join(got[panel], ", "); have != want {
			t.Errorf("%s takes %s; want %s", panel, have, want)
		}
	}
}
