package kit

import (
	"context"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
	"foldwright/trim"
)

const mm = length.Millimetre

func shut(t testing.TB, text string) *flat.Closed {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(text))
	if problems.HasErrors() {
		t.Fatal(problems)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatal(problems)
	}
	return flat.Close(context.Background(), a)
}

func form(t testing.TB, name string) *flat.Closed {
	t.Helper()
	text, err := forms.Text(name)
	if err != nil {
		t.Fatal(err)
	}
	return shut(t, string(text))
}

// TestDemand: what the stand wants, as its recipe says it: three kinds of piece, mats on all six walls, one topper.
func TestDemand(t *testing.T) {
	needs, problems := Demand([]Order{{form(t, "harbour-light"), 10}}, Spares{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	got := map[string]int{}
	for _, n := range needs {
		for _, p := range n.Parts {
			got[n.Stock.Name+": "+p.Name+" "+p.W.Human(length.MM)+" x "+p.H.Human(length.MM)] += p.Count
		}
	}
	for _, want := range []struct {
		name  string
		count int
	}{
		{"navy: wall 252 mm x 72 mm", 10}, {"navy: roof 36 mm x 144 mm", 10}, {"white: spring 228 mm x 60 mm", 20},
		{"white: mat on wall.left, wall.right, wall.back-left, wall.back-right 36 mm x 66 mm", 40},
		{"white: mat on wall.front, wall.back 30 mm x 66 mm", 20}, {"white: topper on roof.front-slope 92 mm x 118 mm", 10},
	} {
		if got[want.name] != want.count {
			t.Errorf("%s: %d, want %d", want.name, got[want.name], want.count)
		}
		delete(got, want.name)
	}
	for name, n := range got {
		t.Errorf("not expected: %d of %s", n, name)
	}
}

func TestSpares(t *testing.T) {
	for _, c := range []struct {
		s           Spares
		count, want int
	}{{Spares{}, 10, 0}, {Spares{Count: 2}, 10, 2}, {Spares{Share: 0.05}, 60, 3}, {Spares{Share: 0.05}, 61, 4}, {Spares{Share: 0.1, Count: 1}, 10, 2}} {
		if got := c.s.Of(c.count); got != c.want {
			t.Errorf("%+v of %d: %d, want %d", c.s, c.count, got, c.want)
		}
	}
}

func TestDemand_refused(t *testing.T) {
	c := form(t, "rising-gull")
	for _, cards := range []int{0, -3, MostCards + 1} {
		if _, problems := Demand([]Order{{c, cards}}, Spares{}); len(problems) != 1 || problems[0].Rule != "cards-count" {
			t.Errorf("%d cards: %v", cards, problems)
		}
	}
	if _, problems := Demand([]Order{{c, 1}}, Spares{Share: -1}); len(problems) != 1 || problems[0].Rule != "spares-range" {
		t.Errorf("spares below 0: %v", problems)
	}
}

const drawer = `# what lies in the drawer
stock,width,height,unit,grain,direction,on_hand,pack,price,note
navy card,12,12,in,,no,3,25,12.50,half a pack
white,210,297,mm,long,,0,50,6,
white,8 1/2,11,in,short,,12,,,"from the sale, creased"
`

func TestReadDrawer(t *testing.T) {
	d, problems := ReadDrawer("drawer.csv", []byte(drawer))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if len(d.Papers) != 3 {
		t.Fatalf("%d papers, want 3", len(d.Papers))
	}
	p := d.Papers[0]
	if p.W != 12*length.Inch || p.OnHand != 3 || p.Pack != 25 || p.Price != 1250 || p.Grain != card.GrainUnknown || p.Where.Line != 3 {
		t.Errorf("%+v", p)
	}
	if p := d.Papers[1]; p.Grain != card.GrainUp || p.Price != 600 {
		t.Errorf("%+v", p)
	}
	if p := d.Papers[2]; p.Grain != card.GrainAcross || p.W != 17*length.Inch/2 || p.Note != "from the sale, creased" {
		t.Errorf("%+v", p)
	}
}

// TestReadDrawer_mistakes: each mistake is told with its line, and all other rows are kept.
func TestReadDrawer_mistakes(t *testing.T) {
	head := "stock,width,height,unit,grain,direction,on_hand,pack,price,note\n"
	good := "white,210,297,mm,,,1,,,\n"
	for _, c := range []struct {
		name, text, rule, what string
		line, kept             int
	}{
		{"empty", "", "drawer-columns", "does not start with the names of its columns", 1, 0},
		{"another table", "paper,size\n", "drawer-columns", `no column "paper"`, 1, 0},
		{"a slip in a column", "stok,width,height\n", "drawer-columns", `did you mean "stock"`, 1, 0},
		{"a column twice", "stock,stock,width,height\n", "drawer-columns", "twice", 1, 0},
		{"no height", "stock,width\n", "drawer-columns", "height is missing", 1, 0},
		{"no stock", head + good + ",1,1,mm,,,1,,,\n", "drawer-cell", "names no stock", 3, 1},
		{"a width of words", head + "navy,wide,297,mm,,,1,,,\n" + good, "drawer-cell", `width is "wide"`, 2, 1},
		{"a width of 0", head + "navy,0,297,mm,,,1,,,\n" + good, "drawer-cell", `width is "0"`, 2, 1},
		{"a kilometre", head + "navy,1000000,297,mm,,,1,,,\n" + good, "drawer-cell", "width is", 2, 1},
		{"a unit", head + "navy,1,1,ft,,,1,,,\n" + good, "drawer-cell", `unit is "ft"`, 2, 1},
		{"a grain", head + "navy,1,2,mm,sideways,,1,,,\n" + good, "drawer-cell", `grain is "sideways"`, 2, 1},
		{"grain of a square", head + "navy,12,12,in,long,,1,,,\n" + good, "drawer-cell", `grain is "long"`, 2, 1},
		{"half a sheet", head + "navy,1,2,mm,,,1.5,,,\n" + good, "drawer-cell", `on_hand is "1.5"`, 2, 1},
		{"fewer than none", head + "navy,1,2,mm,,,-1,,,\n" + good, "drawer-cell", `on_hand is "-1"`, 2, 1},
		{"a price with a sign", head + "navy,1,2,mm,,,1,5,-3,\n" + good, "drawer-cell", `price is "-3"`, 2, 1},
		{"a decimal comma", head + "navy,1,2,mm,,,1,5,3,50,\n" + good, "drawer-row", "11 values for 10 columns", 2, 1},
		{"a broken quote", head + good + "\"navy,1,2\n", "drawer-row", "cannot be read", 3, 1},
	} {
		d, problems := ReadDrawer("d.csv", []byte(c.text))
		if len(problems) != 1 {
			t.Errorf("%s: %d problems: %v", c.name, len(problems), problems)
			continue
		}
		p := problems[0]
		if p.Rule != c.rule || p.Where.Line != c.line || !strings.Contains(p.What, c.what) || p.Needs == "" {
			t.Errorf("%s: %s", c.name, p.String())
		}
		if len(d.Papers) != c.kept {
			t.Errorf("%s: %d rows kept, want %d", c.name, len(d.Papers), c.kept)
		}
	}
}

func FuzzReadDrawer(f *testing.F) {
	f.Add([]byte(drawer))
	f.Add([]byte("stock,width,height\nnavy,1,1\n"))
	f.Add([]byte("\ufeffstock,width,height\r\n\"a\"\"b\",1,1\r\n"))
	f.Fuzz(func(t *testing.T, text []byte) {
		d, problems := ReadDrawer("d.csv", text)
		for _, p := range d.Papers {
			if p.W <= 0 || p.H <= 0 || p.OnHand < 0 || p.Pack < 0 || p.Price < 0 || p.Stock == "" {
				t.Errorf("%+v was kept", p)
			}
		}
		for _, p := range problems {
			if p.What == "" || p.Where.Line < 1 {
				t.Errorf("%+v", p)
			}
		}
	})
}

func planned(t testing.TB, cards int, text string) []Planned {
	t.Helper()
	needs, problems := Demand([]Order{{form(t, "harbour-light"), cards}}, Spares{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	d, problems := ReadDrawer("drawer.csv", []byte(text))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	jobs, problems := Jobs(needs, d, Tool{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	plans, problems := Plan(context.Background(), jobs, nil)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	return plans
}

// TestPlan: what is on hand is used before anything is bought, and only whole packs are bought.
func TestPlan(t *testing.T) {
	plans := planned(t, 4, drawer)
	navy, white := plans[0], plans[1]
	// Four walls 252 x 72 and four roofs 36 x 144 fill 93 312 mm², a sheet of 12 x 12 in is 92 903 mm²: two at least, three are there.
	if navy.Sheets != 2 || navy.Bought != 0 || navy.Cost != 0 || navy.Least != 2 {
		t.Errorf("navy: %d sheets, %d bought, cost %d, least %d", navy.Sheets, navy.Bought, navy.Cost, navy.Least)
	}
	if white.Bought != 0 {
		t.Errorf("white: %d bought although 12 sheets are there", white.Bought)
	}
	many := planned(t, 60, drawer)
	for _, p := range many {
		if _, problems := trim.Audit(p.Trim, p.Result.Plan); len(problems) > 0 {
			t.Errorf("%s: the merged plan is wrong: %v", p.Stock.Name, problems)
		}
		for i, a := range p.Result.Plan.Layouts {
			for _, b := range p.Result.Plan.Layouts[:i] {
				if a.Sheet == b.Sheet && sameCuts(a.Root, b.Root) {
					t.Errorf("%s: one layout stands twice", p.Stock.Name)
				}
			}
		}
	}
	if n := many[0]; n.Bought != n.Sheets-3 || n.Cost != 1250 || !n.Priced {
		t.Errorf("navy for 60: %d sheets, %d bought, cost %d", n.Sheets, n.Bought, n.Cost)
	}
	for _, p := range many {
		for i, part := range p.Trim.Parts {
			if p.Account.Made[i] < part.Count {
				t.Errorf("%s: %d made of %d", part.Name, p.Account.Made[i], part.Count)
			}
		}
	}
}

// TestJobs_missing: a stock that the drawer lacks, and a part larger than every sheet, are told; the rest is planned.
func TestJobs_missing(t *testing.T) {
	needs, _ := Demand([]Order{{form(t, "harbour-light"), 1}}, Spares{})
	d := &Drawer{Papers: []Paper{
		{Stock: "nav", W: 300 * mm, H: 300 * mm, OnHand: 5}, {Stock: "white", W: 120 * mm, H: 120 * mm, OnHand: 50, Unit: length.MM},
	}}
	jobs, problems := Jobs(needs, d, Tool{})
	if len(problems) != 2 || problems[0].Rule != "no-paper" || !strings.Contains(problems[0].Try, `"navy"`) || problems[1].Rule != "part-too-large" {
		t.Fatalf("%v", problems)
	}
	if len(jobs[1].Unplaced) != 1 || jobs[1].Unplaced[0].Name != "spring" {
		t.Errorf("left out: %v", jobs[1].Unplaced)
	}
	plans, _ := Plan(context.Background(), jobs, nil)
	if plans[1].Sheets == 0 {
		t.Error("the other white parts have no plan")
	}
}

// TestDirection: of a stock whose pattern has a direction nothing is turned.
func TestDirection(t *testing.T) {
	closed := shut(t, `card "Strip"
units mm
stock wave "wave card" 270 gsm, 0.36 mm
piece strip of wave
  size 250 x 60
  score across at 120
opens at strip.1 to 180
`)
	needs, _ := Demand([]Order{{closed, 1}}, Spares{})
	for _, c := range []struct {
		directed bool
		problems int
	}{{false, 0}, {true, 1}} {
		d := &Drawer{Papers: []Paper{{Stock: "wave", W: 100 * mm, H: 300 * mm, OnHand: 1, Directed: c.directed}}}
		if _, problems := Jobs(needs, d, Tool{}); len(problems) != c.problems {
			t.Errorf("directed %t: %v", c.directed, problems)
		}
	}
}

func TestStatusAndMoney(t *testing.T) {
	if got := Status([]Planned{{}, {Result: trim.Result{Status: trim.Stopped}}}); got != trim.Stopped {
		t.Errorf("got %v", got)
	}
	for n, want := range map[int64]string{0: "0.00", 5: "0.05", 1250: "12.50", 123456: "1234.56"} {
		if got := Money(n); got != want {
			t.Errorf("%d: %s, want %s", n, got, want)
		}
	}
}
