package wrap_test

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"foldwright/card"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/stock"
	"foldwright/wrap"
)

const (
	mm   = length.Millimetre
	inch = length.Inch
)

var kinds = []wrap.Kind{wrap.Plain, wrap.Box}

func paper(kind wrap.Kind) card.Stock {
	if kind == wrap.Box {
		return card.Stock{Name: "sand", Label: "sand card", Grammage: 250, Caliper: 320 * length.Micrometre}
	}
	return card.Stock{Name: "sand", Label: "sand paper", Grammage: 120, Caliper: 150 * length.Micrometre}
}

// wrapped makes a wrap that has no problem, and proves it from its text.
func wrapped(t testing.TB, j wrap.Job) (*wrap.Wrap, *proof.Report) {
	t.Helper()
	w, problems := wrap.Make(j)
	if len(problems) > 0 {
		t.Fatalf("%v of %v: %v", j.Kind, j.Size, problems)
	}
	text := w.Recipe().Format()
	r := proof.Prove(context.Background(), "wrap.card", text)
	if !r.Proven() || len(r.Problems) > 0 {
		t.Fatalf("%v for %v, %v thick: not proven, or not without remarks: %v\n%s", j.Kind, j.Size, j.Thick, r.Problems, text)
	}
	return w, r
}

// Every card of the catalogue, in its own unit, gets a box and, if it is thin enough, an envelope; each is proven without a
// remark, on marks, and has room for the card.
func TestForms(t *testing.T) {
	boxes, plains := 0, 0
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		form := proof.ProveFlat(context.Background(), name, text)
		for _, kind := range kinds {
			j := wrap.For(kind, form.Closed, paper(kind))
			for _, padding := range []length.Length{0, 3 * mm} {
				j.Padding = padding
				if most, more := j.MostThick(); j.Thick+2*padding > most {
					_, problems := wrap.Make(j)
					if !problems.HasErrors() || kind == wrap.Box || !more {
						t.Errorf("%s, %v: too thick, and got %v", name, kind, problems)
					}
					continue
				}
				w, r := wrapped(t, j)
				holds(t, j, w, r)
				if kind == wrap.Box {
					boxes++
				} else {
					plains++
				}
			}
		}
	}
	t.Logf("%d boxes and %d envelopes proven", boxes, plains)
	if boxes < 2*len(forms.Names()) || plains == 0 {
		t.Errorf("only %d boxes and %d envelopes for %d forms", boxes, plains, len(forms.Names()))
	}
}

// holds measures the proven wrap itself: its front panel, and its wall, have room for the card.
func holds(t *testing.T, j wrap.Job, w *wrap.Wrap, r *proof.Report) {
	t.Helper()
	front := r.Assembly.Panels[r.Assembly.Front()].Box
	if front.W() != w.Inside.W || front.H() != w.Inside.H {
		t.Errorf("%v: the front is %v by %v, the inside %v", j.Kind, front.W(), front.H(), w.Inside)
	}
	long, short := max(front.W(), front.H()), min(front.W(), front.H())
	cardLong, cardShort := max(j.Size.W, j.Size.H)+2*j.Padding, min(j.Size.W, j.Size.H)+2*j.Padding
	thick := j.Thick + 2*j.Padding
	if j.Kind == wrap.Plain && (cardLong+thick > long || cardShort+thick > short) {
		t.Errorf("w + t <= W does not hold: card %v by %v, %v thick, in %v by %v", cardLong, cardShort, thick, long, short)
	}
	_, room := wrap.Usual(j.Unit)
	if long < cardLong+room || short < cardShort+room {
		t.Errorf("%v: less room than %v for %v in %v", j.Kind, room, j.Size, w.Inside)
	}
	if j.Kind == wrap.Box {
		if i := slices.IndexFunc(r.Assembly.Copies[0].Pattern.Panels, func(p pattern.Panel) bool { return p.Name == "right" }); i < 0 {
			t.Error("the box has no wall")
		} else if wall := r.Assembly.Panels[i].Box.W(); wall != w.Wall || wall < thick+j.Stock.Caliper {
			t.Errorf("wall %v, said %v, for a card %v thick", wall, w.Wall, thick)
		}
		// Squeezed open it is as deep as its wall, to what a pose is exact to.
		if got, want := r.Opening.Depth, w.Wall.MM(); got < want-0.01 || got > want+0.01 {
			t.Errorf("open %v mm deep, the wall is %v mm", got, want)
		}
	}
}

// Cards of all sizes and thicknesses that a kind takes are proven, in both units.
func TestThinAndThick(t *testing.T) {
	n := 0
	for _, unit := range []length.Unit{length.MM, length.IN} {
		for _, size := range []card.Size{{W: 20 * mm, H: 20 * mm}, {W: 74 * mm, H: 105 * mm}, {W: 5 * inch, H: 7 * inch}, {W: 210 * mm, H: 100 * mm}, {W: 12 * inch, H: 12 * inch}} {
			for _, kind := range kinds {
				j := wrap.Job{Kind: kind, Size: size, Unit: unit, Stock: paper(kind)}
				if small := 3 * inch / 4; size.W < small+mm && unit == length.IN {
					j.Size = card.Size{W: small, H: small}
				}
				most, _ := j.MostThick()
				for _, thick := range []length.Length{1, mm / 2, most / 2, most} {
					j.Thick = thick
					w, r := wrapped(t, j)
					holds(t, j, w, r)
					n++
				}
				j.Thick = most + 1
				if w, problems := wrap.Make(j); w != nil || problems[0].Rule != "wrap-thick" {
					t.Errorf("%v thicker than %v: got %v", kind, most, problems)
				}
			}
		}
	}
	t.Logf("%d wraps proven", n)
}

// Common practice, no source: a card of 5 x 7 in goes into 5 1/4 x 7 1/4 in; the envelope that the trade sells for it is as
// large (A7, na-a7 of the table of envelopes, whose sources stand there).
func TestTradeSizes(t *testing.T) {
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	a7, err := table.Envelope("na-a7")
	if err != nil {
		t.Fatal(err)
	}
	for _, kind := range kinds {
		w, _ := wrapped(t, wrap.Job{Kind: kind, Size: card.Size{W: 5 * inch, H: 7 * inch}, Thick: inch / 16, Unit: length.IN, Stock: paper(kind)})
		long, short := max(w.Inside.W, w.Inside.H), min(w.Inside.W, w.Inside.H)
		if short != 5*inch+inch/4 || long != 7*inch+inch/4 {
			t.Errorf("%v: inside %v by %v", kind, short.Human(length.IN), long.Human(length.IN))
		}
		if short != a7.Short || long != a7.Long {
			t.Errorf("%v: the trade's envelope is %v by %v", kind, a7.Short, a7.Long)
		}
	}
}

// Everything that is cut or scored lies on the marks that were asked for.
func TestMarks(t *testing.T) {
	for _, marks := range []length.Length{mm, 5 * mm, inch / 16, inch / 8, inch / 4} {
		for _, kind := range kinds {
			j := wrap.Job{Kind: kind, Size: card.Size{W: 101 * mm, H: 4 * inch}, Thick: 3 * mm, Marks: marks, Stock: paper(kind)}
			if marks > 5*mm {
				j.Unit = length.IN
			}
			w, _ := wrapped(t, j) // off-marks would be a remark
			if !w.Inside.W.OnMark(marks) || !w.Blank.H.OnMark(marks) {
				t.Errorf("inside %v, blank %v, marks %v", w.Inside, w.Blank, marks)
			}
		}
	}
}

// Whatever is asked for, there is a wrap that is proven, or a problem with words for it.
func TestMake_property(t *testing.T) {
	made, refused := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		j := wrap.Job{Kind: rapid.SampledFrom(kinds).Draw(t, "kind"), Unit: rapid.SampledFrom([]length.Unit{length.MM, length.CM, length.IN}).Draw(t, "unit")}
		j.Stock = paper(j.Kind)
		// Drawn as shares, evenly enough that most jobs can be done; whole numbers are drawn near their ends too often.
		between := func(low, high length.Length, name string) length.Length {
			return low + length.Length(rapid.Float64Range(0, 1).Draw(t, name)*float64(high-low))
		}
		j.Size = card.Size{W: between(60*mm, 400*mm, "w"), H: between(60*mm, 400*mm, "h")}
		if rapid.IntRange(0, 3).Draw(t, "odd") == 0 {
			j.Size.W = between(15*mm, 700*mm, "odd width")
		}
		j.Thick, j.Room, j.Padding = between(0, 15*mm, "thick"), between(0, 20*mm, "room"), between(0, 3*mm, "padding")
		j.Marks = rapid.SampledFrom([]length.Length{0, mm, 2 * mm, 5 * mm, inch / 64, inch / 8}).Draw(t, "marks")
		w, problems := wrap.Make(j)
		if w == nil {
			refused++
			if len(problems) == 0 || problems[0].What == "" || problems[0].Needs == "" {
				t.Fatalf("refused without a word: %v", problems)
			}
			return
		}
		made++
		if r := proof.ProveBare(context.Background(), "wrap.card", w.Recipe().Format()); !r.Proven() || len(r.Problems) > 0 {
			t.Fatalf("not proven: %v\n%s", r.Problems, w.Recipe().Format())
		}
		long, short := max(w.Inside.W, w.Inside.H), min(w.Inside.W, w.Inside.H)
		thick := 2 * j.Padding
		if j.Kind == wrap.Plain {
			thick += j.Thick + 2*j.Padding
		}
		if long < max(j.Size.W, j.Size.H)+max(thick, j.Room) || short < min(j.Size.W, j.Size.H)+max(thick, j.Room) {
			t.Fatalf("inside %v for %v", w.Inside, j)
		}
	})
	t.Logf("%d made, %d refused", made, refused)
	if made == 0 || refused == 0 {
		t.Errorf("%d made, %d refused: one of the two was not tried", made, refused)
	}
}

func TestSheets(t *testing.T) {
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	j := wrap.Job{Kind: wrap.Plain, Size: card.Size{W: 105 * mm, H: 148 * mm}, Thick: mm, Stock: paper(wrap.Plain), Sheets: table.Sheets()}
	w, _ := wrapped(t, j)
	if len(w.Sheets) == 0 {
		t.Fatal("no sheet for an A6 card")
	}
	for _, s := range w.Sheets {
		if s.Long < w.Sheets[0].Long || s.Short < min(w.Blank.W, w.Blank.H) || s.Long < max(w.Blank.W, w.Blank.H) {
			t.Errorf("%s does not hold %v, or is not sorted", s.Name, w.Blank)
		}
	}
}

func TestRefused(t *testing.T) {
	a4 := []stock.Sheet{{Entry: stock.Entry{Name: "A4"}, Short: 210 * mm, Long: 297 * mm}}
	good := wrap.Job{Kind: wrap.Box, Size: card.Size{W: 105 * mm, H: 148 * mm}, Thick: 2 * mm, Stock: paper(wrap.Box)}
	for _, test := range []struct {
		name, rule, what, needs string
		change                  func(j *wrap.Job)
	}{
		{"no size", "wrap-size", "0 mm", "at least 20 mm", func(j *wrap.Job) { j.Size = card.Size{} }},
		{"no height", "wrap-size", "0 mm (0 in) high", "at least 20 mm", func(j *wrap.Job) { j.Size.H = 0 }},
		{"negative", "wrap-size", "-5 mm", "at least 20 mm", func(j *wrap.Job) { j.Size.W = -5 * mm }},
		{"huge", "wrap-size", "2001 mm", "at most 2000 mm", func(j *wrap.Job) { j.Size.W = 2001 * mm }},
		{"unfolds too large", "wrap-sheet", "larger than every sheet", "a smaller card", func(j *wrap.Job) { j.Size.W = 1990 * mm }},
		{"sheet", "wrap-sheet", "larger than every sheet", "A4, 210 mm by 297 mm", func(j *wrap.Job) { j.Size.H = 250 * mm; j.Sheets = a4 }},
		{"no thickness", "wrap-thick", "0 mm", "above 0", func(j *wrap.Job) { j.Thick = 0 }},
		{"box too thick", "wrap-thick", "53 mm", "at most 52.5 mm", func(j *wrap.Job) { j.Thick = 53 * mm }},
		{"padding too thick", "wrap-thick", "62 mm (2 7/16 in) with its padding", "at most 52.5 mm", func(j *wrap.Job) { j.Padding = 30 * mm }},
		{"plain too thick", "wrap-thick", "7 mm", "at most 6 mm", func(j *wrap.Job) { j.Kind = wrap.Plain; j.Thick = 7 * mm }},
		{"marks", "wrap-marks", "50 mm", "at most 5 mm", func(j *wrap.Job) { j.Marks = 50 * mm }},
		{"negative marks", "wrap-marks", "-1 mm", "above 0", func(j *wrap.Job) { j.Marks = -mm }},
		{"room", "wrap-marks", "-1 mm", "below 0", func(j *wrap.Job) { j.Room = -mm }},
		{"no stock", "stock-range", "0 mm", "from 0.01 to 5 mm", func(j *wrap.Job) { j.Stock.Caliper = 0 }},
	} {
		j := good
		test.change(&j)
		w, problems := wrap.Make(j)
		text := fmt.Sprint(problems)
		text = strings.ReplaceAll(text, "≈ ", "")
		if w != nil || !slices.ContainsFunc(problems, func(p problem.Problem) bool { return p.Rule == test.rule }) ||
			!strings.Contains(text, test.what) || !strings.Contains(text, test.needs) {
			t.Errorf("%s: got %v, want %s with %q and %q", test.name, text, test.rule, test.what, test.needs)
		}
	}
}
