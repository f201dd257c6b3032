package care

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
)

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
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatal("does not lie flat")
	}
	return closed
}

func form(t testing.TB, name string) *flat.Closed {
	t.Helper()
	text, err := forms.Text(name)
	if err != nil {
		t.Fatal(err)
	}
	return shut(t, string(text))
}

func study(t testing.TB, closed *flat.Closed, hand Hand) *Study {
	t.Helper()
	s, err := New(context.Background(), closed, hand, 1)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

const tube = `card "Tube"
units mm
marks 1 mm
fits 110 x 80
stock navy "navy card" 270 gsm, 0.36 mm
piece wall of navy
  size 212 x 80
  score across at 40, 100, 140, 200
  panels left, front, right, back, tab
  fold all mountain
glue wall.tab inside wall.left, left
opens by itself
`

// TestGapOfATube: flat, the sides of a tube add up with signs, so its gap has a variance that can be written down. The tab
// is glued with its edge to the left edge of the first panel, folded at scores 2 and 4: what is laid out is
// s2 - (s4 - s2) + (w - s4) from the left edge, where the tab's far end belongs at its own width w - s4 from there; so the
// gap is 2 s2 - s4, up to its sign, and the middle of the tab stands for the whole. Law of propagation of uncertainty,
// JCGM 100:2008, 5.1.2 (from memory): the variance is 4 σ² + σ².
func TestGapOfATube(t *testing.T) {
	hand := Usual()
	s := study(t, shut(t, tube), hand)
	if len(s.Gaps) != 1 {
		t.Fatalf("%d gaps, want 1: %v", len(s.Gaps), s.Gaps)
	}
	if got, want := s.Gaps[0].DX, math.Sqrt(5)*hand.Score.MM(); math.Abs(got-want) > 1e-9 {
		t.Errorf("the gap varies by %.9f mm, want %.9f", got, want)
	}
	if s.Gaps[0].DY > 1e-9 {
		t.Errorf("the gap varies by %g mm upwards, want 0", s.Gaps[0].DY)
	}
	first := s.Shares[0]
	if math.Abs(first.Share-0.8) > 1e-9 || first.Score != 2 {
		t.Errorf("the worst line is %s with %.3f, want score 2 with 0.8", first.Name(shut(t, tube).Assembly.Card), first.Share)
	}
}

// TestMovedLines: every line of a form, moved by a whole millimetre, makes the joints miss by what the study says they do
// for a line that is moved by a millimetre. The misses are those of flat.Explain, which looks for folds of its own.
func TestMovedLines(t *testing.T) {
	for _, name := range []string{"harbour-light", "square-lantern", "gull-box", "harbour-steps"} {
		closed := form(t, name)
		c := closed.Assembly.Card
		s := &Study{Hand: Usual()}
		m, err := newModel(context.Background(), closed, s)
		if err != nil {
			t.Fatal(err)
		}
		moved := 0
		for l, line := range m.lines {
			if c.Pieces[line.Piece].Copies > 1 {
				continue // moved in all copies at once, errors are of one
			}
			changed := c.Clone()
			changed.Pieces[line.Piece].MoveLine(line.Up, line.At, length.Millimetre)
			a, _ := pattern.Assemble(changed)
			if a == nil {
				continue
			}
			moved++
			at := flat.Lay(a, closed.Folded)
			for i, miss := range flat.Misses(a, closed.Folded, at) {
				want := m.byMiss[l][i]
				if dx, dy := miss[0]/mm-want.x, miss[1]/mm-want.y; math.Hypot(dx, dy) > 1e-3 {
					t.Errorf("%s, %s: joint %d misses by %.4f, %.4f mm, the study says %.4f, %.4f", name, line.Name(c), i, miss[0]/mm, miss[1]/mm, want.x, want.y)
				}
			}
		}
		if moved < 5 {
			t.Errorf("%s: only %d lines were moved", name, moved)
		}
	}
}

// TestSampleAgainstCovariance cuts cards in thought one by one, with every line off, folds each anew and measures its
// gaps; what comes out is the covariance that the study computes, within the error of so many samples.
func TestSampleAgainstCovariance(t *testing.T) {
	const cards = 600
	for _, name := range []string{"harbour-light", "square-lantern-inches"} {
		closed := form(t, name)
		hand := Usual()
		s := study(t, closed, hand)
		c, _ := apart(closed.Assembly.Card)
		r := rand.New(rand.NewPCG(7, 7))
		squares := map[string]vec{}
		for range cards {
			a, _ := pattern.Assemble(erring(c, hand, r))
			if a == nil {
				t.Fatal("a card with errors has no pattern")
			}
			for i, miss := range flat.Misses(a, closed.Folded, flat.Lay(a, closed.Folded))[:len(a.Joints)] {
				v := squares[closed.Assembly.Name(i)]
				squares[closed.Assembly.Name(i)] = vec{v.x + square(miss[0]/mm), v.y + square(miss[1]/mm)}
			}
		}
		if len(s.Gaps) == 0 {
			t.Errorf("%s has no gaps", name)
		}
		for _, g := range s.Gaps {
			v := squares[g.Name]
			for _, got := range [2][2]float64{{math.Sqrt(v.x / cards), g.DX}, {math.Sqrt(v.y / cards), g.DY}} {
				// The standard error of a standard deviation is 1/√(2n) of it: 2.9 % here; four of them.
				if math.Abs(got[0]-got[1]) > 4*got[1]/math.Sqrt(2*cards)+1e-3 {
					t.Errorf("%s, %s: %d cards vary by %.4f mm, the study says %.4f", name, g.Name, cards, got[0], got[1])
				}
			}
		}
	}
}

// erring returns a card whose every line is off.
func erring(c *card.Card, hand Hand, r *rand.Rand) *card.Card {
	out := c.Clone()
	for i := range out.Pieces {
		lines := linesOf(c, i)
		// From the far edge inwards, so that no line is taken for its neighbour.
		for _, l := range lines {
			out.Pieces[i].MoveLine(l.Up, l.At, far+l.At)
		}
		for _, l := range lines {
			d := length.Length(math.Round(r.NormFloat64() * hand.of(l) * mm))
			out.Pieces[i].MoveLine(l.Up, far+2*l.At, d-far-l.At)
		}
	}
	return out
}

// TestClosedSize: a plain folded card is as wide as the wider of its halves; its score is off by σ and its width by σc. The
// largest of two normal values with one mean has the mean √(v/2π) above it, v the variance of their difference (Clark
// 1961, Operations Research 9:145-162, from memory).
func TestClosedSize(t *testing.T) {
	s := study(t, shut(t, `card "Plain"
units mm
fits 100 x 140
stock navy "navy card" 270 gsm, 0.36 mm
piece cover of navy
  size 200 x 140
  score across at 100
  panels back, front
  fold all mountain
opens at cover.1 to 180
`), Usual())
	v := square(2*0.3) + square(0.5)
	if want := 100 + math.Sqrt(v/(2*math.Pi)); math.Abs(s.Width.Mean-want) > 0.02 {
		t.Errorf("the closed card is %.3f mm wide in the mean, want %.3f", s.Width.Mean, want)
	}
	if math.Abs(s.Height.Mean-140) > 0.03 || math.Abs(s.Height.SD-0.5) > 0.02 {
		t.Errorf("the closed card is %.3f mm high with %.3f, want 140 with 0.5", s.Height.Mean, s.Height.SD)
	}
	if !s.FitsSaid || s.Fits < 0.05 || s.Fits > 0.25 {
		t.Errorf("%.3f of the cards fit; both halves and the height must be no larger than meant, about one in ten", s.Fits)
	}
	if len(s.Gaps) != 0 || len(s.Shares) == 0 {
		t.Errorf("%d gaps and %d shares; a card without joints has shares of its closed size", len(s.Gaps), len(s.Shares))
	}
}

// TestNormal: half of what is normally distributed lies within 0.6745 standard deviations, nine in ten within NineInTen
// (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1, from memory).
func TestNormal(t *testing.T) {
	for _, c := range [][2]float64{{0.6745, 0.5}, {NineInTen, 0.9}, {1.96, 0.95}, {1, 0.6827}} {
		if got := Chance(2*c[0], 2); math.Abs(got-c[1]) > 1e-4 {
			t.Errorf("within %g standard deviations: %.5f, want %.4f", c[0], got, c[1])
		}
	}
	if Chance(1, 0) != 1 {
		t.Error("what does not vary always stays")
	}
}

func TestEveryForm(t *testing.T) {
	for _, name := range forms.Names() {
		s := study(t, form(t, name), Usual())
		sum := 0.0
		for _, l := range s.Shares {
			sum += l.Share
		}
		if math.Abs(sum-1) > 1e-9 {
			t.Errorf("%s: the shares sum to %g", name, sum)
		}
		if math.IsNaN(s.Width.SD) || s.Width.Mean <= 0 || s.Fits < 0 || s.Fits > 1 {
			t.Errorf("%s: %+v", name, s)
		}
		if len(s.Unjudged) > 0 {
			t.Errorf("%s: lines that cannot be moved: %v", name, s.Unjudged)
		}
	}
}

func TestRefusals(t *testing.T) {
	closed := shut(t, tube)
	for _, h := range []Hand{{Cut: -1}, {Score: far}} {
		if _, err := New(context.Background(), closed, h, 1); err == nil || !strings.Contains(err.Error(), "between 0 mm and 5 mm") {
			t.Errorf("%v: got %v", h, err)
		}
	}
	ended, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := New(ended, closed, Usual(), 1); err != context.Canceled {
		t.Errorf("got %v, want that the context ended", err)
	}
	none := study(t, closed, Hand{})
	if len(none.Gaps) != 0 || none.Fits != 1 || none.Width.SD > 1e-9 {
		t.Errorf("a hand without errors: %+v", none)
	}
}

func BenchmarkStudy(b *testing.B) {
	closed := form(b, "harbour-light")
	for b.Loop() {
		study(b, closed, Usual())
	}
}

// far is a kilometre: out of the way of every line.
const far = 1_000_000 * length.Millimetre
