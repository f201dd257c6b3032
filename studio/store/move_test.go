package store

import (
	"context"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/kit"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
)

const mm = length.Millimetre

func sheet(stock string, w, h length.Length, grain card.Grain, n int) kit.Paper {
	return kit.Paper{Stock: stock, W: w * mm, H: h * mm, Grain: grain, OnHand: n}
}

const drawer = `# the drawer by the window
stock, width, height, grain, on_hand, pack, price, note
navy card, 210, 297, up, 5, 50, 12.50, "from the shop, on the quay"
# off-cuts

white,100,80,across,2,,,off-cut
"smooth ""white""",8 1/2 in,11 in,unknown,1
`

// TestMove: only the rows that move are written anew; remarks, blank lines, quotes and all else stay.
func TestMove(t *testing.T) {
	for _, c := range []struct {
		name       string
		move       Move
		old, fresh []string // lines that go, lines that come
	}{
		{"take some", Move{Take: []kit.Paper{sheet("Navy card", 210, 297, card.GrainUp, 3)}},
			[]string{`navy card, 210, 297, up, 5, 50, 12.50, "from the shop, on the quay"`}, []string{`navy card,210,297,up,2,50,12.50,"from the shop, on the quay"`}},
		{"take all that can be bought", Move{Take: []kit.Paper{sheet("navy card", 210, 297, card.GrainUp, 5)}},
			[]string{`navy card, 210, 297, up, 5, 50, 12.50, "from the shop, on the quay"`}, []string{`navy card,210,297,up,0,50,12.50,"from the shop, on the quay"`}},
		{"take the last off-cut", Move{Take: []kit.Paper{sheet("white", 100, 80, card.GrainAcross, 2)}},
			[]string{`white,100,80,across,2,,,off-cut`}, nil},
		{"put to the others", Move{Put: []kit.Paper{sheet("white", 100, 80, card.GrainAcross, 4)}},
			[]string{`white,100,80,across,2,,,off-cut`}, []string{`white,100,80,across,6,,,off-cut`}},
		{"put a new kind", Move{Put: []kit.Paper{{Stock: `smooth "white"`, W: length.Inch * 5 / 2, H: 80 * mm, Unit: length.IN, Grain: card.GrainUnknown, OnHand: 1, Note: OffcutNote}}},
			nil, []string{`"smooth ""white""",63.5,80,unknown,1,,,off-cut`}},
		{"inches", Move{Take: []kit.Paper{{Stock: `smooth "white"`, W: length.Inch * 17 / 2, H: 11 * length.Inch, OnHand: 1}}},
			[]string{`"smooth ""white""",8 1/2 in,11 in,unknown,1`}, []string{`"smooth ""white""",8 1/2 in,11 in,unknown,0`}},
	} {
		got, err := c.move.apply(drawer)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		want := strings.Split(drawer, "\n")
		at := len(want) - 1
		for _, l := range c.old {
			for i := range want {
				if want[i] == l {
					at = i
				}
			}
			want = append(want[:at:at], want[at+1:]...)
		}
		for _, l := range c.fresh {
			want = append(want[:at:at], append([]string{l}, want[at:]...)...)
		}
		if w := strings.Join(want, "\n"); got != w {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, w)
		}
	}
}

// TestMove_columns: columns that are needed are made, others are not; the marks of spreadsheets stay.
func TestMove_columns(t *testing.T) {
	for _, c := range []struct {
		text, want string
		put        kit.Paper
	}{
		{"stock,width,height", "stock,width,height,on_hand\nnavy,100,80,2\n", sheet("navy", 100, 80, card.GrainUnknown, 2)},
		{"\ufeffStock,Width,Height\r\nwhite,1,2\r\n", "\ufeffStock,Width,Height,on_hand,grain\r\nwhite,1,2\r\nnavy,100,80,2,up\r\n", sheet("navy", 100, 80, card.GrainUp, 2)},
		{kit.Columns + "\n", kit.Columns + "\nnavy,2,3 1/4,in,across,yes,1,,,off-cut\n",
			kit.Paper{Stock: "navy", W: 2 * length.Inch, H: length.Inch * 13 / 4, Unit: length.IN, Grain: card.GrainAcross, Directed: true, OnHand: 1, Note: OffcutNote}},
	} {
		got, err := Move{Put: []kit.Paper{c.put}}.apply(c.text)
		if err != nil || got != c.want {
			t.Errorf("got  %q, %v\nwant %q", got, err, c.want)
		}
	}
}

func TestMove_refused(t *testing.T) {
	for _, c := range []struct {
		text  string
		move  Move
		words []string
	}{
		{drawer, Move{Take: []kit.Paper{sheet("navy card", 210, 297, card.GrainUp, 6)}}, []string{`the drawer holds 5 of "navy card" 210 mm x 297 mm, grain up; 6 are to be taken`, "plan again"}},
		{drawer, Move{Take: []kit.Paper{sheet("navy card", 297, 210, card.GrainUp, 1)}}, []string{"holds 0"}},
		{drawer, Move{Put: []kit.Paper{sheet("navy card", 210, 297, card.GrainUp, 2_000_000)}}, []string{"cannot hold", "from 0 to 1000000"}},
		{"", Move{Put: []kit.Paper{sheet("navy", 1, 1, 0, 1)}}, []string{"names of its columns"}},
		{"stock,width\n", Move{Put: []kit.Paper{sheet("navy", 1, 1, 0, 1)}}, []string{"column height is missing"}},
		{"stock,width,height\n\"navy\nwhite,1,1\n", Move{Put: []kit.Paper{sheet("navy", 1, 1, 0, 1)}}, []string{"papers:"}},
	} {
		_, err := c.move.apply(c.text)
		wantFault(t, err, Refused, c.words...)
	}
	if got, err := (Move{Put: []kit.Paper{sheet("navy", 1, 2, 0, 1)}}).apply("stock,width,height\nwhite,wide,1\n"); err != nil || !strings.Contains(got, "white,wide,1") {
		t.Errorf("a row with a mistake is in the way: %q, %v", got, err)
	}
}

// TestMove_law is a property: a move and the same move back leave as many sheets of every kind as there were.
func TestMove_law(t *testing.T) {
	kinds := rapid.Custom(func(t *rapid.T) kit.Paper {
		p := sheet(rapid.SampledFrom([]string{"navy", "white, smooth", `"grey"`}).Draw(t, "stock"), length.Length(rapid.IntRange(1, 3).Draw(t, "w")),
			length.Length(rapid.IntRange(1, 2).Draw(t, "h")), rapid.SampledFrom([]card.Grain{card.GrainUp, card.GrainAcross, card.GrainUnknown}).Draw(t, "grain"), 0)
		p.Directed = rapid.Bool().Draw(t, "directed")
		p.OnHand = rapid.IntRange(1, 9).Draw(t, "n")
		p.Note = rapid.SampledFrom([]string{"", OffcutNote}).Draw(t, "note")
		return p
	})
	rapid.Check(t, func(t *rapid.T) {
		text, err := Move{Put: rapid.SliceOfN(kinds, 1, 8).Draw(t, "drawer")}.apply(kit.Columns + "\n")
		if err != nil {
			t.Fatal(err)
		}
		before, problems := kit.ReadDrawer("papers", []byte(text))
		if len(problems) > 0 {
			t.Fatalf("%v\n%s", problems, text)
		}
		var m Move
		for _, p := range before.Papers {
			if p.OnHand = rapid.IntRange(0, p.OnHand).Draw(t, "take"); p.OnHand > 0 {
				m.Take = append(m.Take, p)
			}
		}
		m.Put = rapid.SliceOfN(kinds, 0, 4).Draw(t, "put")
		there, err := m.apply(text)
		if err != nil {
			t.Fatal(err)
		}
		back, err := m.back().apply(there)
		if err != nil {
			t.Fatal(err)
		}
		after, problems := kit.ReadDrawer("papers", []byte(back))
		if len(problems) > 0 {
			t.Fatalf("%v\n%s", problems, back)
		}
		for _, p := range append(before.Papers, after.Papers...) {
			if a, b := held(before, p), held(after, p); a != b {
				t.Fatalf("%d of %s before, %d after\n%s\nbecame\n%s\nand then\n%s", a, describe(p), b, text, there, back)
			}
		}
	})
}

func held(d *kit.Drawer, like kit.Paper) int {
	n := 0
	for _, p := range d.Papers {
		if same(p, like) {
			n += p.OnHand
		}
	}
	return n
}

// planned plans a form out of a drawer.
func planned(t testing.TB, name, papers string, cards int) []kit.Planned {
	t.Helper()
	r, problems := recipe.Parse(name, []byte(form(t, name)))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatal(problems)
	}
	needs, problems := kit.Demand([]kit.Order{{Closed: flat.Close(context.Background(), a), Cards: cards}}, kit.Spares{})
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	d, problems := kit.ReadDrawer("papers", []byte(papers))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	jobs, problems := kit.Jobs(needs, d, kit.Tool{})
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	plans, problems := kit.Plan(ctx, jobs, nil)
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	return plans
}

// lanternDrawer has the white for two lanterns on hand, as off-cuts that are just large enough; navy has to be bought.
const lanternDrawer = kit.Columns + `
navy,220,200,mm,unknown,no,0,10,5.00,
white,132,56,mm,unknown,no,2,,,off-cut
white,200,100,mm,unknown,no,3,,,
`

// TestMoveOf: two lanterns of two walls, 220 x 120 each out of a sheet of 220 x 200, and two springs, 132 x 56. The figures
// are worked out by hand.
func TestMoveOf(t *testing.T) {
	m := MoveOf(planned(t, "square-lantern", lanternDrawer, 2), 50*mm)
	got, err := m.apply(lanternDrawer)
	want := kit.Columns + `
navy,220,200,mm,unknown,no,8,10,5.00,
white,200,100,mm,unknown,no,3,,,
navy,220,80,mm,unknown,no,2,,,off-cut
`
	if err != nil || got != want {
		t.Errorf("got\n%s%v\nwant\n%s", got, err, want)
	}
	if m := MoveOf(planned(t, "square-lantern", lanternDrawer, 2), 81*mm); len(m.Put) != 1 || m.Put[0].OnHand != 8 {
		t.Errorf("an off-cut of 80 is kept, though 81 was the least: %+v", m.Put)
	}
}

// TestMoveOf_anyStock: what was cut off a sheet that is of any stock is of that stock.
func TestMoveOf_anyStock(t *testing.T) {
	m := MoveOf(planned(t, "square-lantern", "stock,width,height,on_hand\n*,220,200,9\n", 1), 50*mm)
	names := map[string]bool{}
	for _, p := range m.Put {
		names[p.Stock] = true
	}
	if len(m.Take) != 1 || m.Take[0].OnHand != 2 || !names["navy"] || !names["white"] || len(names) != 2 {
		t.Errorf("got %+v", m)
	}
}
