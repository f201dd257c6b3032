package fit

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/stock"
)

// harbourLight returns the recipe of the stand without its topper, with two springs or with one.
func harbourLight(t testing.TB, springs int) string {
	t.Helper()
	b, err := forms.Text("harbour-light")
	if err != nil {
		t.Fatal(err)
	}
	text, _, ok := strings.Cut(string(b), "topper ")
	if !ok {
		t.Fatal("the form has no topper any more")
	}
	if springs == 2 {
		return text
	}
	var out []string
	for line := range strings.Lines(strings.Replace(text, ", 2 of", "", 1)) {
		if strings.HasPrefix(line, "glue spring#2.tab") || strings.HasPrefix(line, "glue spring#2.front") {
			continue
		}
		out = append(out, strings.NewReplacer("spring#1", "spring", "spring#2", "spring").Replace(line))
	}
	return strings.Join(out, "")
}

// TestSavings takes a spring out of the recipe and folds the card anew: it is as much thinner and lighter as was said.
func TestSavings(t *testing.T) {
	two, one := shut(t, harbourLight(t, 2)), shut(t, harbourLight(t, 1))
	s := Savings(two)
	if len(s) != 7 || s[0].What != "one spring" { // it saves most; the mats are the others
		t.Fatalf("got %+v", s)
	}
	if got, want := s[0].Thinner, Measure(two).Max-Measure(one).Max; got != want || got <= 0 {
		t.Errorf("got %v thinner, want %v", got, want)
	}
	paper := func(c *flat.Closed) (sum float64) {
		w, _ := Weigh(c, Load{})
		for _, p := range w {
			if p.Kind == PieceWeight {
				sum += p.Grams
			}
		}
		return sum
	}
	if got, want := s[0].Grams, paper(two)-paper(one); math.Abs(got-want) > 1e-9 || got <= 0 {
		t.Errorf("got %v g lighter, want %v", got, want)
	}
}

// TestPost_spring: the class changes when a spring is taken out, and was said to.
func TestPost_spring(t *testing.T) {
	quay := Envelope{Name: "quay", Short: 128 * mm, Long: 178 * mm, OutShort: 130 * mm, OutLong: 180 * mm, Grams: 5}
	class := func(springs int) (string, []string) {
		c := shut(t, harbourLight(t, springs))
		w, _ := Weigh(c, Load{})
		i, _, _ := Sending{Block: BlockOf(c), Weight: w}.In(quay)
		p, probs := Post(i, ladder(t, "New Zealand"), UsualLimits(), nil)
		if len(probs) > 0 {
			t.Fatal(probs)
		}
		k, _ := p.Class()
		return k.Name, p.Words(length.MM, Savings(c))
	}
	name, words := class(2)
	if last := words[len(words)-1]; name != "Large letter" || !strings.HasSuffix(last, " thinner would bring it there: without one spring") {
		t.Errorf("got %s, %s", name, last)
	}
	if name, words := class(1); name != "Medium letter" || len(words) != 1 {
		t.Errorf("got %s, %v", name, words)
	}
}

func TestWrap(t *testing.T) {
	// 114 x 162 mm of 100 gsm, 2.4 times the face: 4.43 g
	c6 := Standard(envelope(t, "C6"))
	w := Wrap(c6, length.MM)
	if w.Long != 162*mm || w.Short != 114*mm || math.Abs(w.Grams-4.432) > 0.001 || len(w.Assumed) != 2 {
		t.Errorf("got %+v", w)
	}
	own := Own(stock.OwnEnvelope{Name: "bag", Kind: stock.PaddedEnvelope, Short: 120 * mm, Long: 170 * mm})
	if w := Wrap(own, length.MM); w.Long != 190*mm || w.Assumed[0] != "the envelope is 20 mm larger outside than inside" {
		t.Errorf("got %+v", w)
	}
	// a box of 98 x 148 x 10 mm inside: 100 x 150 mm outside, 2.4 faces and four sides, of 300 gsm: 10.8 + 1.5 g
	crate := Own(stock.OwnEnvelope{Name: "crate", Kind: stock.BoxEnvelope, Short: 98 * mm, Long: 148 * mm, Depth: 10 * mm})
	if w := Wrap(crate, length.MM); math.Abs(w.Grams-12.3) > 1e-9 || w.Short != 100*mm {
		t.Errorf("got %+v", w)
	}
	own.OutShort, own.OutLong, own.Grams = 140*mm, 195*mm, 12
	if w := Wrap(own, length.MM); w.Long != 195*mm || w.Short != 140*mm || w.Grams != 12 || len(w.Assumed) != 1 {
		t.Errorf("got %+v", w)
	}
}

func TestSending_In(t *testing.T) {
	b := Block{W: 105 * mm, H: 148 * mm, Thick: 4 * mm, Bulk: &Bulk{Max: 4 * mm, Usual: mm}}
	w := Weight{{PieceWeight, "front", 10, ""}}
	send := Sending{Block: b, Weight: w}
	i, whole, _ := send.In(Standard(envelope(t, "C6")))
	if i.Thick != 4400*length.Micrometre || i.Bump != 3*mm || i.Rigid || math.Abs(i.Grams-whole.Grams()) > 1e-9 || len(w) != 1 || whole[1].Assumed != "100 gsm" {
		t.Errorf("got %+v, %+v", i, whole)
	}
	crate := Own(stock.OwnEnvelope{Name: "crate", Kind: stock.BoxEnvelope, Short: 110 * mm, Long: 155 * mm, Depth: 8 * mm, Grams: 20})
	i, _, _ = send.In(crate)
	if want := (Item{Long: 157 * mm, Short: 112 * mm, Thick: 9600 * length.Micrometre, Grams: 30, Rigid: true}); i != want {
		t.Errorf("got %+v, want %+v", i, want)
	}
}

// TestSending_Ways: for every form and every service (1) each envelope that the card goes into is there once, (2) classes do
// not fall, and (3) what is sent is as large as its envelope and heavier and thicker than the card.
func TestSending_Ways(t *testing.T) {
	table, all := load(t), envelopes(t)
	eachForm(t, func(t *testing.T, _ string, c *flat.Closed) {
		b := BlockOf(c)
		w, _ := Weigh(c, Load{})
		seats, _ := Rank(b, all, table.Clearances(), length.MM)
		roomy := 0
		for _, s := range seats {
			if s.Grade != TooSmall {
				roomy++
			}
		}
		for _, l := range table.Ladders() {
			ways := Sending{Block: b, Weight: w, Limits: UsualLimits()}.Ways(seats, l)
			if len(ways) != roomy || roomy == 0 {
				t.Errorf("(1) %s: got %d ways, want %d", l.Operator, len(ways), roomy)
			}
			before := 0
			for _, way := range ways {
				at := way.Posting.At
				if at < 0 {
					at = len(l.Classes)
				}
				if at < before {
					t.Errorf("(2) %s: class %d after %d", l.Operator, at, before)
				}
				before = at
				if i := way.Item; i.Long != way.Seat.Envelope.Long || i.Thick <= b.Thick || i.Grams <= w.Grams() {
					t.Errorf("(3) %+v", i)
				}
			}
		}
	})
}

// A card is measured, put into the envelope that suits it, weighed and sent.
func Example() {
	table, err := stock.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	text, _ := forms.Text("gull-easel")
	c, err := closeCard(string(text))
	if err != nil {
		fmt.Println(err)
		return
	}
	b := BlockOf(c)
	fmt.Println(Pack(b, UsualLimits(), length.MM).Why)
	all, _ := Pick(table, nil)
	seats, _ := Rank(b, all, table.Clearances(), length.MM)
	fmt.Println(seats[0].Envelope.Name+":", seats[0].Words(length.MM))

	w, _ := Weigh(c, Load{Ornaments: []Ornament{{Name: "shell", Grams: 1.5}}})
	item, _, wrapping := Sending{Block: b, Weight: w}.In(seats[0].Envelope)
	fmt.Printf("%s; assumed: %s\n", grams(item.Grams, length.MM), strings.Join(wrapping.Assumed, "; "))
	ladders, _ := table.LaddersOf("Germany")
	p, _ := Post(item, ladders[0], UsualLimits(), nil)
	fmt.Println(strings.Join(p.Words(length.MM, Savings(c)), "\n"))
	// Output:
	// 3.27 mm at its thickest, 2 mm more than half of it: that presses through a flat envelope
	// C6: easy, 6.5 mm to spare across, 8.5 mm up
	// 22.5 g; assumed: the envelope adds 0.4 mm to the thickness; the envelope is of 100 gsm and weighs 4.5 g
	// Deutsche Post, domestic: Kompaktbrief (limits as of 2025-02-12; check with your post office)
	// look at: rectangular
	// not Standardbrief: it weighs 22.5 g, at most 20 g; 2.5 g lighter would bring it there: without the mat of white on front.picture
}
