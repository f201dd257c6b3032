package fit

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/flat"
	"foldwright/internal/check"
	"foldwright/length"
	"foldwright/stock"
)

func TestInto_check(t *testing.T) {
	clearances := load(t).Clearances()
	check.Each(t, "testdata/check/room.csv", func(t *testing.T, r check.Row) {
		unit := length.MM
		if r.Text("unit_of_size") == "in" {
			unit = length.IN
		}
		read := func(column string) length.Length {
			l, err := length.Parse(r.Text(column), unit)
			if err != nil {
				t.Fatal(err)
			}
			return l
		}
		b := Block{W: read("width"), H: read("height"), Thick: read("thick")}
		e := Envelope{Name: r.Name(), Unit: unit, Short: read("envelope_width"), Long: read("envelope_height")}
		grade := Into(b, e, clearanceOf(clearances, unit)).Grade
		got := grade.String()
		if r.Text("expected") == "fits" && grade != TooSmall { // the rule says no more than that
			got = "fits"
		}
		r.Equal(got)
	})
}

func TestSeat_Words(t *testing.T) {
	in := func(n, d int64) length.Length { return length.Length(n) * length.Inch / length.Length(d) }
	quay := Envelope{Name: "quay", Short: 120 * mm, Long: 170 * mm}
	box := Envelope{Name: "crate", Kind: stock.BoxEnvelope, Short: 120 * mm, Long: 170 * mm, Depth: 8 * mm}
	bag := Envelope{Name: "bag", Kind: stock.PaddedEnvelope, Short: 120 * mm, Long: 170 * mm}
	for _, c := range []struct {
		b    Block
		e    Envelope
		unit length.Unit
		want string
	}{
		{Block{W: 105 * mm, H: 148 * mm, Thick: mm}, quay, length.MM, "easy, 14 mm to spare across, 21 mm up"},
		{Block{W: 148 * mm, H: 105 * mm, Thick: mm}, quay, length.MM, "easy, 21 mm to spare across, 14 mm up"},
		{Block{W: 116 * mm, H: 148 * mm, Thick: mm}, quay, length.MM, "snug, 3 mm to spare across, 21 mm up; 5 mm is usual"},
		{Block{W: 116 * mm, H: 148 * mm, Thick: 6 * mm}, quay, length.MM, "too small, 2 mm across too small"},
		{Block{W: 116 * mm, H: 168 * mm, Thick: 6 * mm}, quay, length.MM, "too small, 2 mm across and 4 mm up too small"},
		{Block{W: 114 * mm, H: 160 * mm, Thick: 8 * mm}, box, length.MM, "easy, 6 mm to spare across, 10 mm up, 0 mm deep"},
		{Block{W: 114 * mm, H: 160 * mm, Thick: 9 * mm}, box, length.MM, "too small, 1 mm deep too small"},
		{Block{W: 110 * mm, H: 160 * mm, Thick: 4 * mm}, bag, length.MM, "easy, 6 mm to spare across, 6 mm up"},
		{Block{W: 111 * mm, H: 160 * mm, Thick: 4 * mm}, bag, length.MM, "snug, 5 mm to spare across, 6 mm up; 6 mm is usual"},
		{Block{W: in(17, 4), H: in(11, 2), Thick: in(1, 32)}, Standard(envelope(t, "A2")), length.IN,
			"snug, 3/32 in to spare across, 7/32 in up; 7/32 in is usual, and the published size is the outside: try one first"},
	} {
		s := Into(c.b, c.e, clearanceOf(load(t).Clearances(), c.e.Unit))
		if got := s.Words(c.unit); got != c.want {
			t.Errorf("%v in %s: got %s, want %s", c.b, c.e.Name, got, c.want)
		}
	}
}

func envelope(t testing.TB, name string) stock.Envelope {
	t.Helper()
	e, err := load(t).Envelope(name)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

func TestRank_problems(t *testing.T) {
	clearances := load(t).Clearances()
	good := Block{W: 105 * mm, H: 148 * mm, Thick: mm}
	quay := Envelope{Name: "quay", Short: 120 * mm, Long: 170 * mm}
	for _, c := range []struct {
		name  string
		b     Block
		e     []Envelope
		want  string
		seats int
	}{
		{"good", good, []Envelope{quay}, "", 1},
		{"no card", Block{W: 105 * mm, Thick: mm}, []Envelope{quay}, `the closed card is 105 mm x 0 mm and 1 mm thick [block-size]
    needs: a width, a height and a thickness above 0 and at most 2000 mm`, 0},
		{"no thickness", Block{W: 105 * mm, H: 148 * mm}, []Envelope{quay}, `the closed card is 105 mm x 148 mm and 0 mm thick [block-size]
    needs: a width, a height and a thickness above 0 and at most 2000 mm`, 0},
		{"no envelope", good, []Envelope{quay, {Name: "gap", Long: 170 * mm}}, `the envelope "gap" is 0 mm x 170 mm [envelope-size]
    needs: two sides above 0`, 1},
		{"less than nothing", good, []Envelope{{Name: "gap", Short: -mm, Long: 170 * mm}}, `the envelope "gap" is -1 mm x 170 mm [envelope-size]
    needs: two sides above 0`, 0},
		{"a box without depth", good, []Envelope{{Name: "lid", Kind: stock.BoxEnvelope, Short: 120 * mm, Long: 170 * mm}}, `the envelope "lid" is a box of depth 0 mm [envelope-size]
    needs: a depth above 0`, 0},
		{"smaller than the card", good, []Envelope{{Name: "mouse", Short: 50 * mm, Long: 90 * mm}, {Name: "gull", Short: 100 * mm, Long: 140 * mm}},
			`no envelope is large enough; the nearest is gull, 6 mm across and 9 mm up too small [no-envelope]
    needs: an envelope of 106 mm x 149 mm at the least, better 5 mm more each way
    try:   give the inside size of an envelope of your own, or make a box`, 2},
	} {
		seats, probs := Rank(c.b, c.e, clearances, length.MM)
		var lines []string
		for _, p := range probs {
			lines = append(lines, p.String())
		}
		if got := strings.Join(lines, "\n"); got != c.want || len(seats) != c.seats {
			t.Errorf("%s: got %d seats and\n%s\nwant %d and\n%s", c.name, len(seats), got, c.seats, c.want)
		}
	}
}

// TestSeat_Problem shows that what the problem of a small envelope needs is enough.
func TestSeat_Problem(t *testing.T) {
	b := Block{W: 105 * mm, H: 148 * mm, Thick: 3 * mm}
	small := Envelope{Name: "mouse", Short: 100 * mm, Long: 160 * mm}
	s := Into(b, small, 6*mm)
	p, wrong := s.Problem(b, length.MM)
	want := `a card of 105 mm x 148 mm, 3 mm thick, does not go into the envelope mouse: it is 8 mm across too small [envelope-small]
    needs: an envelope of 108 mm x 151 mm at the least, better 4.5 mm more each way`
	if !wrong || p.String() != want {
		t.Errorf("got %v\n%s\nwant\n%s", wrong, p, want)
	}
	for _, c := range []struct {
		short, long length.Length
		want        Grade
	}{{108 * mm, 151 * mm, Snug}, {108*mm - 1, 151 * mm, TooSmall}, {112500 * length.Micrometre, 155500 * length.Micrometre, Easy}} {
		if got := Into(b, Envelope{Short: c.short, Long: c.long}, 6*mm); got.Grade != c.want {
			t.Errorf("%v x %v: got %v, want %v", c.short, c.long, got.Grade, c.want)
		}
	}
	crate := Into(b, Envelope{Name: "crate", Kind: stock.BoxEnvelope, Short: 110 * mm, Long: 160 * mm, Depth: 2 * mm}, 6*mm)
	if p, _ := crate.Problem(b, length.MM); p.Needs != "a box of 105 mm x 148 mm inside and 3 mm deep at the least, better 6 mm more each way" {
		t.Errorf("got %s", p.Needs)
	}
}

func TestPick(t *testing.T) {
	own := []stock.OwnEnvelope{{Name: "Quay bag", Kind: stock.PaddedEnvelope, Short: 120 * mm, Long: 170 * mm}}
	got, probs := Pick(load(t), own, "quay bag", "c6", "A77", "Letter", "quai bag", "mousehole")
	if len(got) != 2 || got[0].Kind != stock.PaddedEnvelope || got[1].ID != "iso-c6" {
		t.Errorf("got %+v", got)
	}
	var what []string
	for _, p := range probs {
		what = append(what, p.What)
	}
	want := []string{`there is no envelope "A77"; did you mean "A7"?`, `there is no envelope "Letter"; that is the name of a sheet`,
		`there is no envelope "quai bag"; did you mean your own "Quay bag"?`, `there is no envelope "mousehole"`}
	if !slices.Equal(what, want) {
		t.Errorf("got %q, want %q", what, want)
	}
	all, _ := Pick(load(t), own)
	if len(all) != 43 || all[0].Name != "Quay bag" {
		t.Errorf("got %d envelopes, first %s", len(all), all[0].Name)
	}
}

// TestRank_forms: for every form and all envelopes (1) every envelope has a seat, and grades only get worse, (2) an envelope
// that is larger both ways never fits worse under the same clearance, (3) turning the card by a quarter changes nothing but
// Turned and which play is across, and (4) a thinner card never fits worse.
func TestRank_forms(t *testing.T) {
	all, clearances := envelopes(t), load(t).Clearances()
	fits := 0
	eachForm(t, func(t *testing.T, _ string, c *flat.Closed) {
		b := BlockOf(c)
		seats, _ := Rank(b, all, clearances, length.MM)
		if len(seats) != len(all) || !slices.IsSortedFunc(seats, func(x, y Seat) int { return int(x.Grade) - int(y.Grade) }) {
			t.Errorf("(1) got %d seats of %d", len(seats), len(all))
		}
		for _, s := range seats {
			if s.Grade == Easy {
				fits++
			}
			turned, thinner := b, b
			turned.W, turned.H = b.H, b.W
			thinner.Thick /= 2
			room := clearanceOf(clearances, s.Envelope.Unit)
			if fault := turnFault(b, s, Into(turned, s.Envelope, room)); fault != "" {
				t.Errorf("(3) %s: %s", s.Envelope.Name, fault)
			}
			if got := Into(thinner, s.Envelope, room); got.Grade > s.Grade {
				t.Errorf("(4) %s: got %v of half the thickness, %v of the whole", s.Envelope.Name, got.Grade, s.Grade)
			}
			for _, o := range all {
				if o.Short >= s.Envelope.Short && o.Long >= s.Envelope.Long && Into(b, o, room).Grade > s.Grade {
					t.Errorf("(2) %s is larger than %s and fits worse", o.Name, s.Envelope.Name)
				}
			}
		}
	})
	if fits < 100 {
		t.Errorf("got %d easy seats in all: too few to say anything", fits)
	}
}

// turnFault compares the seat of a card with that of the card turned by a quarter.
func turnFault(b Block, s, turned Seat) string {
	want := s
	if b.W != b.H {
		want.Across, want.Up, want.Turned = s.Up, s.Across, !s.Turned
	}
	if turned != want {
		return fmt.Sprintf("got %+v, want %+v", turned, want)
	}
	return ""
}

// TestInto_random: the laws (2) to (4) of TestRank_forms, and (5) a card that goes in some way is not said to be too large,
// for random cards and envelopes of every kind.
func TestInto_random(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := rapid.Int64Range(1, 400)
		l := func(name string) length.Length { return length.Length(side.Draw(t, name)) * mm / 2 }
		b := Block{W: l("w"), H: l("h"), Thick: l("thick") / 10}
		e := Envelope{Kind: stock.EnvelopeKind(rapid.IntRange(0, 2).Draw(t, "kind")), Short: l("short"), Long: l("long"), Depth: l("depth") / 10}
		room := l("room") / 10
		s := Into(b, e, room)
		if fault := turnFault(b, s, Into(Block{W: b.H, H: b.W, Thick: b.Thick}, e, room)); fault != "" {
			t.Errorf("(3) %s", fault)
		}
		larger := e
		larger.Short, larger.Long, larger.Depth = e.Short+l("more"), e.Long+l("more long"), e.Depth+l("more deep")
		if Into(b, larger, room).Grade > s.Grade {
			t.Errorf("(2) %+v fits worse than %+v", larger, e)
		}
		thinner := b
		thinner.Thick = b.Thick / 2
		if Into(thinner, e, room).Grade > s.Grade {
			t.Errorf("(4) half as thick fits worse")
		}
		short, long := min(e.Short, e.Long), max(e.Short, e.Long)
		thick := b.Thick
		if e.Kind == stock.BoxEnvelope {
			thick = 0
		}
		goesIn := func(w, h length.Length) bool {
			return w+thick <= long && h+thick <= short && (thick > 0 || b.Thick <= e.Depth)
		}
		if in := goesIn(b.W, b.H) || goesIn(b.H, b.W); in != (s.Grade != TooSmall) {
			t.Errorf("(5) it goes in some way: %v; got %v", in, s.Grade)
		}
	})
}
