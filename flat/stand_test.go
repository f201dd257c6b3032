package flat

import (
	"context"
	"strings"
	"testing"

	"foldwright/length"
)

// The measurements in this file are common practice of the trade, no source.

const inches = `card "Test"
units in
stock plain "plain card" 250 gsm, 0.3 mm
`

const wall = `piece wall of plain
  size 10 1/2 x 3
  score across at 1 3/4, 3 1/4, 5, 6 3/4, 8 1/4, 10
  panels left, front, right, back-right, back, back-left, tab
  fold all mountain
`

const spring = `piece spring of plain, 2 of
  size 9 1/2 x 2 1/2
  score across at 1 1/2, 2 1/4, 3, 3 3/4, 4 1/2, 6, 6 3/4, 7 1/2, 8 1/4, 9
  panels front, leaf x4, back, leaf x4, tab
  fold m v m v m m v m v m
`

func inch(whole, eighths int) length.Length {
	return length.Length(whole)*length.Inch + length.Length(eighths)*length.Inch/8
}

func wantBox(t *testing.T, c *Closed, w, h length.Length) {
	t.Helper()
	if !c.LiesFlat() {
		t.Fatalf("does not lie flat: %v", c.Status)
	}
	if c.Box.W() != w || c.Box.H() != h {
		t.Errorf("closed: got %s by %s, want %s by %s", c.Box.W().Human(length.IN), c.Box.H().Human(length.IN), w.Human(length.IN), h.Human(length.IN))
	}
}

// TestWall: a bare six-panel wall closes three ways, all 5 in wide; the one that folds at the tab's score comes first.
func TestWall(t *testing.T) {
	c := shut(t, inches+wall+"glue wall.tab inside wall.left, left\nopens by itself\n")
	wantBox(t, c, inch(5, 0), inch(3, 0))
	if got := folds(c, c.Folded); got != "wall 3 6" {
		t.Errorf("folded: got %q, want wall 3 6", got)
	}
	var others []string
	for _, o := range c.Alternatives(context.Background(), 5) {
		others = append(others, folds(c, o.Folded))
		if o.Box.W() != inch(5, 0) {
			t.Errorf("%v: %s wide", folds(c, o.Folded), o.Box.W().Human(length.IN))
		}
	}
	if got := strings.Join(others, "; "); got != "wall 2 5; wall 1 4" {
		t.Errorf("also: got %q, want wall 2 5; wall 1 4", got)
	}
}

// TestCrossPiece: a strip whose ends are glued on the two middle panels rises 2 1/2 in above the wall.
func TestCrossPiece(t *testing.T) {
	c := shut(t, inches+wall+`piece cross of plain
  size 1 1/2 x 6
  score up at 1/2, 3, 5 1/2
  panels front-foot, front-slope, back-slope, back-foot
  fold all mountain
glue wall.tab inside wall.left, left
glue cross.front-foot outside wall.front, top
glue cross.back-foot outside wall.back, top, turned 180
opens by itself
`)
	wantBox(t, c, inch(5, 0), inch(5, 4))
	if got := folds(c, c.Folded); got != "wall 3 6, cross 2" {
		t.Errorf("folded: got %q", got)
	}
}

// TestSprings: two spring loops back to back sit between the middle panels, wholly behind them when flat.
func TestSprings(t *testing.T) {
	c := shut(t, inches+wall+spring+`glue wall.tab inside wall.left, left
glue spring#1.tab inside spring#1.front, left
glue spring#2.tab inside spring#2.front, left
glue spring#1.front inside wall.front, bottom
glue spring#2.front against spring#1.back
glue spring#2.back inside wall.back, bottom
opens by itself
`)
	wantBox(t, c, inch(5, 0), inch(3, 0))
	if got, want := folds(c, c.Folded), "wall 3 6, spring#1 1 2 3 4 5 6 7 8 9 10, spring#2 1 2 3 4 5 6 7 8 9 10"; got != want {
		t.Errorf("folded: got %q, want %q", got, want)
	}
	if peeks := c.Peeks(); len(peeks) != 0 {
		t.Errorf("peeks: %v", peeks)
	}
	front := c.Assembly.Panels[1]
	for i, p := range c.Assembly.Panels {
		if !strings.HasPrefix(p.Ref, "spring") {
			continue
		}
		for _, corner := range p.Outline {
			if at := c.At[i].Point(corner); !front.Box.Contains(at) {
				t.Fatalf("%s reaches %v, outside the front panel", p.Ref, at)
			}
		}
	}
}

// TestStandCloses: the whole stand stays within 5 x 7 in with its topper, whose top stands at 7 in.
func TestStandCloses(t *testing.T) {
	c := shut(t, form(t, "harbour-light-inches"))
	wantBox(t, c, inch(5, 0), inch(5, 4))
	if o := c.Outline(); o.W() > inch(5, 0) || o.Max.Y-c.Box.Min.Y != inch(7, 0) {
		t.Errorf("with its topper: %s by %s", o.W().Human(length.IN), o.H().Human(length.IN))
	}
}

// TestEveryScoreOff moves each score of the stand by 1/8 in either way, one at a time: it is proven harmless or caught,
// and every cure that is offered proves when it is applied.
func TestEveryScoreOff(t *testing.T) {
	ctx := context.Background()
	good := read(t, form(t, "harbour-light-inches"))
	harmless, caught, slips := 0, 0, 0
	for p := range good.Pieces {
		for k := range good.Pieces[p].Scores {
			for _, d := range []length.Length{-length.Inch / 8, length.Inch / 8} {
				c := good.Clone()
				was := c.Pieces[p].Scores[k].At
				c.Pieces[p].Scores[k].At += d
				a := assemble(t, c)
				closed := Close(ctx, a)
				var cures []Cure
				if closed.LiesFlat() {
					if harmless++; closed.Box.W() > inch(5, 0) || closed.Box.H() > inch(5, 4) {
						t.Errorf("%s score %d by %v: called harmless, but larger", c.Pieces[p].Name, k+1, d)
					}
					for _, s := range closed.Slips(ctx) {
						cures = append(cures, s.Cure)
						slips++
					}
				} else {
					caught++
					if cures = Explain(ctx, a).Cures; len(cures) == 0 {
						t.Errorf("%s score %d by %v: caught, but no cure", c.Pieces[p].Name, k+1, d)
					}
				}
				undone := false
				for _, cure := range cures {
					undone = undone || cure.Kind == MoveScore && cure.Piece == p && cure.Score == k+1 && cure.To == was
					if !Close(ctx, assemble(t, cure.Apply(c))).LiesFlat() {
						t.Errorf("%s score %d by %v: the cure %s does not prove", c.Pieces[p].Name, k+1, d, cure.Label)
					}
				}
				if len(cures) > 0 && !undone {
					t.Errorf("%s score %d by %v: moving it back is not among %d cures", c.Pieces[p].Name, k+1, d, len(cures))
				}
			}
		}
	}
	t.Logf("of %d wrong scores %d are caught; %d lie flat all the same, with %d cures offered for them", harmless+caught, caught, harmless, slips)
	if caught == 0 || harmless == 0 {
		t.Error("the check needs both kinds")
	}
}

// TestOrderOfPieces: the verdict does not hang on the order in which pieces stand in the recipe.
func TestOrderOfPieces(t *testing.T) {
	blocks := strings.Split(form(t, "harbour-light-inches"), "\n\n")
	var pieces []int
	for i, b := range blocks {
		if strings.HasPrefix(b, "piece ") {
			pieces = append(pieces, i)
		}
	}
	if len(pieces) != 3 {
		t.Fatalf("%d pieces", len(pieces))
	}
	for _, order := range [][3]int{{0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		shuffled := append([]string{}, blocks...)
		for k, from := range order {
			shuffled[pieces[k]] = blocks[pieces[from]]
		}
		c := shut(t, strings.Join(shuffled, "\n\n"))
		if !c.LiesFlat() {
			t.Errorf("pieces in the order %v: %v", order, c.Status)
			continue
		}
		if w, h := c.Box.W(), c.Box.H(); w != inch(5, 0) || h != inch(5, 4) {
			t.Errorf("pieces in the order %v: %s by %s", order, w.Human(length.IN), h.Human(length.IN))
		}
	}
}

// TestShrink: a cover whose spine is off is too wide; putting it back is the smallest change that makes it fit.
func TestShrink(t *testing.T) {
	c := shut(t, header+`piece cover of plain
  size 210 x 148
  score across at 107
  panels back, front
  fold all mountain
opens at cover.1 to 180
`)
	cures := c.Shrink(context.Background(), 105*length.Millimetre, 148*length.Millimetre)
	if len(cures) == 0 || cures[0].Kind != MoveScore || cures[0].To != 105*length.Millimetre {
		t.Fatalf("got %+v, want score 1 at 105", cures)
	}
}
