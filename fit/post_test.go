package fit

import (
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/internal/check"
	"foldwright/length"
	"foldwright/stock"
)

// face judges an envelope's sides and their ratio against a class, as the tables of check values do: the thickness and the
// weight are such as the class takes.
func face(t testing.TB, table *stock.Table, envelopeID, classID string) (verdict, why string) {
	t.Helper()
	e, err := table.Envelope(envelopeID)
	if err != nil {
		t.Fatal(err)
	}
	l, k := classOf(t, table, classID)
	c := l.Classes[k]
	i := Item{Long: e.Long, Short: e.Short, Thick: c.MaxThick, Grams: 10}
	if i.Thick == 0 {
		i.Thick = max(mm, c.MinThick)
	}
	var reasons []string
	for _, m := range Misses(i, c, mm) {
		reasons = append(reasons, m.Reason())
	}
	why = strings.Join(reasons, "; ")
	i.Thick = mm
	p, _ := Post(i, l, UsualLimits(), nil)
	switch {
	case classID == "usps-flat" && why == "" && p.At != k: // thin and light it is no flat
		return "only if thicker than 1/4 in or heavier than 3.5 oz", why
	case classID == "usps-letter" && p.At == k+1:
		return "nonmachinable", why
	case why == "":
		return "yes", why
	}
	return "no", why
}

// classOf finds a class in its ladder.
func classOf(t testing.TB, table *stock.Table, id string) (l stock.Ladder, k int) {
	t.Helper()
	for _, l := range table.Ladders() {
		for k, c := range l.Classes {
			if c.ID == id {
				return l, k
			}
		}
	}
	t.Fatalf("there is no class %s", id)
	return l, 0
}

func TestMisses_face(t *testing.T) {
	table := load(t)
	for _, r := range check.Rows(t, "testdata/check/face.csv") {
		got, why := face(t, table, r.Text("envelope"), r.Text("class"))
		r.Equal(got)
		if want := sameReasons(r.Text("expected_why")); sameReasons(why) != want {
			t.Errorf("%s: got %s, want %s", r.Name(), why, want)
		}
	}
}

// sameReasons puts reasons in one order.
func sameReasons(text string) string {
	var out []string
	for _, known := range []string{"long side over maximum", "long side under minimum", "short side over maximum", "short side under minimum", "aspect over maximum", "aspect under minimum"} {
		if strings.Contains(text, known) {
			out = append(out, known)
		}
	}
	return strings.Join(out, "; ")
}

func TestMisses_vectors(t *testing.T) {
	table := load(t)
	check.Each(t, "testdata/check/vectors.csv", func(t *testing.T, r check.Row) {
		got, _ := face(t, table, r.Text("envelope"), r.Text("class"))
		r.Equal(got)
	})
}

// c6 is an item in an envelope C6.
func c6(thick length.Length, grams float64) Item {
	return Item{Long: 162 * mm, Short: 114 * mm, Thick: thick, Grams: grams}
}

func TestPost_words(t *testing.T) {
	table := load(t)
	prices, probs := stock.ReadPrices("prices.csv", []byte("class,up_to,price,currency,as_of\ndp-kompakt,50,1.10,shells,2026-11\n"), table.MailClasses())
	if len(probs) > 0 {
		t.Fatal(probs)
	}
	spring := []Saving{{"one spring", 2 * mm, 7}, {"the topper of gold on front.face", mm, 9}}
	square := Item{Long: 155 * mm, Short: 155 * mm, Thick: 3 * mm, Grams: 18}
	stiff := Item{Long: 184150 * length.Micrometre, Short: 133350 * length.Micrometre, Thick: 4 * mm, Grams: 40, Rigid: true}
	bumpy := Item{Long: 184150 * length.Micrometre, Short: 133350 * length.Micrometre, Thick: 4 * mm, Grams: 40, Bump: 2 * mm}
	for _, c := range []struct {
		name, operator string
		item           Item
		unit           length.Unit
		want           string
	}{
		{"the lowest", "DE", c6(4*mm, 19), length.MM, `Deutsche Post, domestic: Standardbrief (limits as of 2025-02-12; check with your post office)
look at: rectangular`},
		{"too heavy and too thick, and one spring is enough", "DE", c6(6500*length.Micrometre, 26.04), length.MM, `Deutsche Post, domestic: Kompaktbrief, 1.10 shells by your own table of 2026-11 (limits as of 2025-02-12; check with your post office)
look at: rectangular
not Standardbrief: it is 6.5 mm thick, at most 5 mm and it weighs 26.1 g, at most 20 g; 1.5 mm thinner and 6.1 g lighter would bring it there: without one spring`},
		{"too square", "DE", square, length.MM, `Deutsche Post, domestic: Grossbrief (limits as of 2025-02-12; check with your post office)
not Kompaktbrief: its short side is 155 mm, at most 125 mm and its long side is 1.00 times its short side, at least 1.4 times; 44.3 mm narrower would bring it there (another envelope)`},
		{"too large for all", "NZ", Item{Long: 500 * mm, Short: 100 * mm, Thick: 4 * mm, Grams: 30}, length.MM, `NZ Post, domestic: no class of the table takes it (limits as of 2021-07-01; check with your post office)
not Oversize letter: its long side is 500 mm, at most 385 mm; 115 mm shorter would bring it there (another envelope)`},
		{"stiff", "USA", stiff, length.IN, `USPS, domestic: Nonmachinable letter (limits as of 2023 or later; check with your post office)
look at: rectangular with square corners
not Machinable letter: it does not bend; nothing stiff on it would bring it there`},
		{"uneven", "USA", bumpy, length.IN, `USPS, domestic: Nonmachinable letter (limits as of 2023 or later; check with your post office)
look at: rectangular with square corners
not Machinable letter: one place is 0.079 in thicker than half of it, at most 0.069 in; a bump that is 0.01 in less would bring it there`},
		{"thick in inches", "USA", Item{Long: 7 * length.Inch, Short: 5 * length.Inch, Thick: length.Inch * 5 / 16, Grams: 110}, length.IN, `USPS, domestic: Large envelope (flat) (limits as of 2018-08-16; check with your post office)
look at: rectangular; with half its length over the edge of a table it bends 1 in when pressed 1 in from its edge
not Nonmachinable letter: it is 0.312 in thick, at most 0.25 in and it weighs 110 g (3.88 oz), at most 99.3 g (3.50 oz); 0.07 in thinner and 10.8 g (0.38 oz) lighter would bring it there`},
	} {
		p, probs := Post(c.item, ladder(t, c.operator), UsualLimits(), prices)
		if len(probs) > 0 {
			t.Fatal(probs)
		}
		if got := strings.Join(p.Words(c.unit, spring), "\n"); got != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.name, got, c.want)
		}
	}
}

func TestPost_problems(t *testing.T) {
	for _, i := range []Item{{}, {Long: 162 * mm, Short: 114 * mm, Thick: mm}, {Long: 162 * mm, Short: 0, Thick: mm, Grams: 3},
		c6(mm, math.NaN()), c6(mm, math.Inf(1)), c6(mm, -4), c6(-mm, 4)} {
		p, probs := Post(i, ladder(t, "GB"), UsualLimits(), nil)
		if len(probs) != 1 || probs[0].Rule != "item-size" || p.At != -1 || len(p.Steps) != 0 {
			t.Errorf("%+v: got %+v, %v", i, p, probs)
		}
	}
	empty, probs := Post(c6(mm, 4), stock.Ladder{Operator: "Mail boat", Service: "harbour"}, UsualLimits(), nil)
	if got := strings.Join(empty.Words(length.MM, nil), "\n"); len(probs) > 0 || got != "Mail boat, harbour: no class of the table takes it (limits; check with your post office)" {
		t.Errorf("got %s, %v", got, probs)
	}
}

// TestPost_random: for random items and every service (1) the class is the lowest that takes the item, (2) the changes of a
// step, all together, bring the item into its class, (3) each of them is needed, save sides, which the ratio of both may tie
// to each other, (4) a lighter item is never in a higher class, and (5) the words have a date and say that a post office
// knows.
func TestPost_random(t *testing.T) {
	ladders := load(t).Ladders()
	limits := UsualLimits()
	rapid.Check(t, func(t *rapid.T) {
		l := ladders[rapid.IntRange(0, len(ladders)-1).Draw(t, "ladder")]
		side := func(name string, most int64) length.Length {
			return length.Length(rapid.Int64Range(1, most*100).Draw(t, name)) * mm / 100
		}
		i := Item{Long: side("long", 700), Short: side("short", 400), Thick: side("thick", 60), Bump: side("bump", 8),
			Grams: rapid.Float64Range(0.1, 3000).Draw(t, "grams"), Rigid: rapid.Bool().Draw(t, "rigid")}
		i.Long, i.Short = max(i.Long, i.Short), min(i.Long, i.Short)
		p, probs := Post(i, l, limits, nil)
		if len(probs) > 0 {
			t.Fatal(probs)
		}
		for k, s := range p.Steps {
			if (len(Misses(i, s.Class, limits.Bump)) == 0) != (len(s.Misses) == 0) || len(s.Misses) == 0 && p.At > k || p.At == k && len(s.Misses) > 0 {
				t.Errorf("(1) step %d of %d: %+v", k, p.At, s.Misses)
			}
			changesFault(t, i, s, limits)
		}
		lighter := i
		lighter.Grams /= 2
		if q, _ := Post(lighter, l, limits, nil); p.At >= 0 && (q.At < 0 || q.At > p.At) {
			t.Errorf("(4) got class %d at half the weight, %d before", q.At, p.At)
		}
		if words := p.Words(length.MM, nil)[0]; !strings.Contains(words, "limits as of ") || !strings.Contains(words, "check with your post office") {
			t.Errorf("(5) got %s", words)
		}
	})
}

func changesFault(t *rapid.T, i Item, s Step, limits Limits) {
	if len(s.Misses) > 0 && len(s.Changes) == 0 {
		t.Errorf("(2) %s: nothing brings %+v in", s.Class.ID, i)
	}
	all := i
	for _, c := range s.Changes {
		all = c.Apply(all)
	}
	if left := Misses(all, s.Class, limits.Bump); len(left) > 0 {
		t.Errorf("(2) %s: with %+v it still misses %+v", s.Class.ID, s.Changes, left)
	}
	for k, out := range s.Changes {
		without := i
		for n, c := range s.Changes {
			if n != k {
				without = c.Apply(without)
			}
		}
		if tied := out.Dim == Long || out.Dim == Short; !tied && len(Misses(without, s.Class, limits.Bump)) == 0 {
			t.Errorf("(3) %s: %+v is not needed", s.Class.ID, out)
		}
	}
}
