package cutlist

import (
	"context"
	"fmt"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/proof"
)

// What is proposed for a list without a slip is proven, also where pieces lie turned or the other way round: the glue
// lines were turned with them. Package proof does not know this one.
func TestProposalProves(t *testing.T) {
	catalogue := testCatalogue(t)
	for _, name := range []string{"harbour-light-inches--bullets", "harbour-light--cm-comma-tight", "harbour-light--columns", "resized", "roof-across",
		"wall-reversed", "turned-lantern", "square-lantern--prose", "gull-easel--half", "everything-turned"} {
		text, err := os.ReadFile("testdata/lists/" + name + ".txt")
		if err != nil {
			t.Fatal(err)
		}
		r := read(t, string(text), catalogue)
		if r.Matched == nil {
			t.Errorf("%s: no match", name)
			continue
		}
		report := proof.Prove(context.Background(), name, []byte(r.Recipe))
		for _, p := range report.Problems {
			if p.Severity == problem.Error {
				t.Errorf("%s: %v", name, p)
			}
		}
	}
}

// The check above must be able to fail: the slip in this list is found by proving it.
func TestProposalWithSlip(t *testing.T) {
	text, err := os.ReadFile("testdata/lists/slip-score.txt")
	if err != nil {
		t.Fatal(err)
	}
	r := read(t, string(text), testCatalogue(t))
	if r.Matched == nil || r.Matched.Form != "harbour-light-inches" {
		t.Fatalf("matched %+v", r.Matched)
	}
	if !proof.Prove(context.Background(), "slip", []byte(r.Recipe)).Problems.HasErrors() {
		t.Error("the slip was not read as written: the card is proven")
	}
}

// list writes the pieces of a card that are rows of panels as a cut list, in its own words; ok is false where it has others.
func list(c *card.Card, change func(piece, score int, at length.Length) length.Length) (string, bool) {
	var b strings.Builder
	n := func(l length.Length) string { return card.Bare(l, c.Unit) + " " + c.Unit.String() }
	for i, p := range c.Pieces {
		if !shapeOf(&p, false).strip || len(p.Scores) == 0 {
			return "", false
		}
		fmt.Fprintf(&b, "%s x %s, cut %d, score", n(p.Size.W), n(p.Size.H), p.Copies)
		fmt.Fprint(&b, map[card.ScoreKind]string{card.Across: " across at ", card.Up: " up at "}[p.Scores[0].Kind])
		for k, s := range p.Scores {
			if k > 0 {
				b.WriteString(", ")
			}
			b.WriteString(n(change(i, k, s.At)))
		}
		b.WriteString("\n")
	}
	return b.String(), true
}

func asItIs(_, _ int, at length.Length) length.Length { return at }

// Every card of the real catalogue that a list can say is found from its own list, also with any one score off by a
// mark, and its twin in the other unit is never taken for it.
func TestCatalogueFindsItself(t *testing.T) {
	catalogue := wholeCatalogue(t)
	found, off := 0, 0
	for _, f := range catalogue {
		text, ok := list(f.Card, asItIs)
		if !ok {
			continue
		}
		found++
		r := read(t, text, catalogue)
		if r.Matched == nil || r.Matched.Form != f.Name || r.Matched.Sure < 0.99 {
			t.Errorf("%s: matched %+v", f.Name, r.Matched)
		}
		sound(t, text, r)
		for i, p := range f.Card.Pieces {
			for k := range p.Scores {
				off++
				oneOff(t, f, catalogue, i, k)
			}
		}
	}
	if found < 4 || off < 20 {
		t.Errorf("%d cards and %d slips: too little was checked", found, off)
	}
}

func oneOff(t *testing.T, f Form, catalogue []Form, piece, score int) {
	t.Helper()
	text, _ := list(f.Card, func(i, k int, at length.Length) length.Length {
		if i == piece && k == score {
			return at + f.Card.Marks
		}
		return at
	})
	r := read(t, text, catalogue)
	if r.Matched == nil || r.Matched.Form != f.Name {
		t.Errorf("%s with score %d of piece %d off: matched %+v", f.Name, score+1, piece+1, r.Matched)
	}
}

// Turning a glue line four times by a quarter changes nothing, and by a quarter both pieces nothing of the turn.
func TestTurn(t *testing.T) {
	for _, joint := range []card.Joint{card.Inside, card.Outside} {
		g := card.Glue{Joint: joint, AlignX: card.AlignLow, AlignY: card.AlignHigh, Over: 3, Up: 5, TurnedDeg: 90}
		h := g
		for range 4 {
			turn(&h, 90, 90)
		}
		if h != g {
			t.Errorf("%v is %v after four quarters", g, h)
		}
		turn(&h, 90, 90)
		if h.TurnedDeg != g.TurnedDeg || h.AlignX != card.AlignLow || h.AlignY != card.AlignLow || h.Over != -5 || h.Up != 3 {
			t.Errorf("after a quarter: %+v", h)
		}
	}
}

// Widths that are equal there are made equal here, to what most of them are.
func TestEvened(t *testing.T) {
	u := []length.Length{42, 36, 43, 41, 36, 42, 12}
	v := []length.Length{7, 6, 7, 7, 6, 7, 2}
	if got := evened(u, v); !slices.Equal(got, []length.Length{42, 36, 42, 42, 36, 42, 12}) {
		t.Errorf("got %v", got)
	}
	if got := agreement(u, evened(u, v)); math.Abs(got-5.0/6) > 1e-9 {
		t.Errorf("five of six scores are right; got %v", got)
	}
}
