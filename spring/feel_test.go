package spring

import (
	"context"
	"math"
	"os"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/recipe"
)

// stand returns the recipe of the six-sided stand in inches with lines added to its springs.
func stand(t testing.TB, lines string) string {
	t.Helper()
	text, err := os.ReadFile("../forms/harbour-light-inches.card")
	if err != nil {
		t.Fatal(err)
	}
	const fold = "  fold m v m v m m v m v m\n"
	if strings.Count(string(text), fold) != 1 {
		t.Fatal("the springs of the stand read otherwise")
	}
	return strings.Replace(string(text), fold, fold+lines, 1)
}

// measured returns the recipe of that stand with more said of its stocks.
func measured(t testing.TB, words string) string {
	t.Helper()
	return strings.NewReplacer("0.36 mm", "0.36 mm"+words, "0.31 mm", "0.31 mm"+words).Replace(stand(t, ""))
}

func felt(t testing.TB, text string) (*Model, Rest, Felt) {
	t.Helper()
	s := springy(t, text)
	r := rest(t, s)
	return s, r, s.Feel(context.Background(), r, s.Opening(context.Background(), r, 30), assume(t))
}

// TestFeel_trade compares with what the trade says of this card (common practice, no source): two springs of four leaves 3/4
// in wide behind middles of 1 1/2 in in a wall with sides of 1 3/4 in are almost too strong where their folds are barely
// pressed; once the middle folds are pressed they hold a six-sided shape, not a rectangle.
func TestFeel_trade(t *testing.T) {
	barely := "  rest 80 deg\n" // rest-barely of data/mechanics.csv
	_, _, f := felt(t, stand(t, barely))
	if f.Feel != Lively || !f.Almost {
		t.Errorf("barely pressed it is %v with a pull of %.2f, almost %v", f.Feel, f.Pull, f.Almost)
	}
	s, r, pressed := felt(t, stand(t, barely+"  rest 135 deg at 2, 3, 4, 7, 8, 9\n"))
	if pressed.Almost || pressed.Feel == TooStrong || pressed.Pull >= f.Pull {
		t.Errorf("with its middle folds pressed it is %v with a pull of %.2f, almost %v", pressed.Feel, pressed.Pull, pressed.Almost)
	}
	if !r.Stable {
		t.Error("with its middle folds pressed it does not hold its shape")
	}
	for i, h := range s.Fold.Assembly.Hinges {
		if a := math.Abs(r.Angles[i]) / degree; h.Copy == s.outer() && (a < 30 || a > 120) {
			t.Errorf("fold %d of the wall stands at %.0f degrees: not a six-sided shape", h.Score()+1, a)
		}
	}
	// Without springs hardly anything holds the shape: to press it by a tenth of its depth takes less than a tenth of what it
	// takes with them.
	bare, problems := Build(context.Background(), Without(s.Fold.Assembly.Card, "spring"), assume(t))
	if bare == nil {
		t.Fatal(problems)
	}
	push := func(m *Model, r Rest) float64 {
		panels := panelsOf(t, m, "wall.front", "wall.back")
		at := m.Fold.Apart(r.Angles, panels)
		return m.Held(context.Background(), r.Angles, panels, 0.9*at).Energy - r.Energy
	}
	if free, held := push(bare, rest(t, bare)), push(s, r); !(free > 0 && free < held/5) {
		t.Errorf("pressed by a tenth of its depth it stores %g mJ without springs, %g with them", free, held)
	}
}

func TestFeel_words(t *testing.T) {
	for f, want := range map[Feel]string{Unknown: "unknown", Limp: "limp", Gentle: "gentle", Lively: "lively", TooStrong: "too strong"} {
		if got, _ := f.MarshalText(); string(got) != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
	// A single spring pulls less than two, and a hard press less than a light one.
	_, _, two := felt(t, stand(t, ""))
	_, _, hard := felt(t, stand(t, "  rest 135 deg\n"))
	if two.Feel != Lively || hard.Feel != Gentle || !(hard.Pull < two.Pull) {
		t.Errorf("as it is %v (%.2f), pressed hard %v (%.2f)", two.Feel, two.Pull, hard.Feel, hard.Pull)
	}
	// A thin wall before stiff springs is pulled towards a rectangle, and fewer or softer springs pull less.
	s, _, strong := felt(t, strings.NewReplacer("0.36 mm", "0.25 mm", "0.31 mm", "0.31 mm, crease 0.6 N/rad").Replace(stand(t, "")))
	if strong.Feel != TooStrong {
		t.Errorf("stiff springs in a thin wall are %v (%.2f)", strong.Feel, strong.Pull)
	}
	cures, _ := s.Cures(context.Background(), strong, assume(t))
	if !slices.ContainsFunc(cures, func(c Cure) bool { return c.Feel == Gentle || c.Feel == Lively }) {
		t.Errorf("none of %d cures makes it less than too strong", len(cures))
	}
	// Card so soft that it cannot lift itself.
	_, _, limp := felt(t, measured(t, ", crease 0.001 N/rad"))
	if limp.Feel != Limp {
		t.Errorf("creases of a thousandth are %v, lift %.2f", limp.Feel, limp.Lift)
	}
}

// TestCures: every cure lies flat, is solved, and takes something off pull or force; the first one, put into the recipe as its
// lines say, gives what it promised.
func TestCures(t *testing.T) {
	ctx, a := context.Background(), assume(t)
	s, r, f := felt(t, stand(t, "  rest 80 deg\n"))
	before := s.Opening(ctx, r, cureSteps).HoldShut
	cures, ok := s.Cures(ctx, f, a)
	if !ok || len(cures) < 4 {
		t.Fatalf("%d cures, complete %v", len(cures), ok)
	}
	kinds := ""
	for _, c := range cures {
		kinds += c.Change + "\n"
		if c.Pull >= f.Pull && !(c.HoldShutN < before) {
			t.Errorf("%s: a pull of %.3f after %.3f, %.2f N after %.2f", c.Change, c.Pull, f.Pull, c.HoldShutN, before)
		}
		if again, ok := Try(ctx, c.Card, a); !ok || again != c.Outcome {
			t.Errorf("%s: solved again it is %+v, not %+v", c.Change, again, c.Outcome)
		}
	}
	for _, want := range []string{"pressed", "narrower", "gsm card", "high instead", "1 spring instead of 2"} {
		if !strings.Contains(kinds, want) {
			t.Errorf("no cure says %q:\n%s", want, kinds)
		}
	}
	text := stand(t, "  rest 80 deg\n  "+cures[0].Lines[0]+"\n")
	if _, r, f := felt(t, text); math.Abs(r.Standing.Depth-cures[0].DepthMM) > 1e-6 || f.Feel != cures[0].Feel {
		t.Errorf("put into the recipe, the first cure makes it %g mm deep and %v, not %g and %v", r.Standing.Depth, f.Feel, cures[0].DepthMM, cures[0].Feel)
	}
	cancelled, cancel := context.WithCancel(ctx)
	cancel()
	if _, ok := s.Cures(cancelled, f, a); ok {
		t.Error("cures that were stopped are complete")
	}
}

// TestChange: leaves are made narrower in whole, their scores with them, and the text of the lines says what the card says.
func TestChange(t *testing.T) {
	s := springy(t, stand(t, ""))
	c := s.Fold.Assembly.Card
	ch, ok := Leaves(c, "spring", -3175*length.Micrometre)
	if !ok {
		t.Fatal("no leaves")
	}
	text := strings.Replace(stand(t, ""), "size 9 1/2 x 2 1/2", ch.Lines[0], 1)
	text = strings.Replace(text, "score across at 1 1/2, 2 1/4, 3, 3 3/4, 4 1/2, 6, 6 3/4, 7 1/2, 8 1/4, 9", ch.Lines[1], 1)
	r, problems := recipe.Parse("test.card", []byte(text))
	if r == nil {
		t.Fatal(problems)
	}
	spring := func(c *card.Card) *card.Piece {
		return &c.Pieces[slices.IndexFunc(c.Pieces, func(p card.Piece) bool { return p.Name == "spring" })]
	}
	want, got := spring(r.Card()), spring(ch.Card)
	if got.Size != want.Size {
		t.Errorf("size %v, want %v", got.Size, want.Size)
	}
	for i, k := range want.Scores {
		if got.Scores[i].At != k.At {
			t.Errorf("score %d at %v, want %v", i+1, got.Scores[i].At, k.At)
		}
	}
	if _, ok := Leaves(c, "spring", -100*length.Millimetre); ok {
		t.Error("leaves of less than nothing")
	}
	if _, ok := Leaves(c, "no such", length.Millimetre); ok {
		t.Error("leaves of a piece that is not there")
	}
	if _, ok := Fewer(c, "wall"); ok {
		t.Error("one wall less than one")
	}
	if got := Between(c, "spring"); !slices.Equal(got, []int{2, 3, 4, 7, 8, 9}) {
		t.Errorf("middle folds %v", got)
	}
}

func TestTune(t *testing.T) {
	ctx, a := context.Background(), assume(t)
	s := form(t, "harbour-light")
	calls := 0
	got, ok := s.Tune(ctx, Wish{DepthMM: 60}, MiddlePress, a, func(done, of int) { calls++ })
	if !ok || !got.Met || !got.Complete || calls != got.Tried || math.Abs(got.DepthMM-60) > 2 {
		t.Errorf("ok %v, %d calls: %+v", ok, calls, got)
	}
	if again, ok := Try(ctx, got.Card, a); !ok || again != got.Outcome {
		t.Errorf("solved again it is %+v", again)
	}
	if far, _ := s.Tune(ctx, Wish{DepthMM: 500}, MiddlePress, a, nil); far.Met {
		t.Errorf("a depth of %g mm counts as 500", far.DepthMM)
	}
	stopped, cancel := context.WithCancel(ctx)
	got, _ = s.Tune(stopped, Wish{DepthMM: 60}, LeafWidth, a, func(done, of int) {
		if done == 2 {
			cancel()
		}
	})
	if got.Complete || got.Tried != 2 {
		t.Errorf("stopped after two it is complete %v after %d", got.Complete, got.Tried)
	}
	if _, ok := form(t, "gull-box").Tune(ctx, Wish{DepthMM: 60}, LeafWidth, a, nil); ok {
		t.Error("a card without springs was tuned")
	}
}

// TestOpeningTime compares with a mass on a spring, damped by 0.7, which reaches nine tenths of its way after 2.12/ω: worked
// out by hand from x = 1 - e^(-0.7 ωt)(cos 0.714 ωt + 0.980 sin 0.714 ωt), any text on vibrations.
func TestOpeningTime(t *testing.T) {
	s := form(t, "square-lantern")
	const stiff, way = 0.05, 40.0 // N/mm, mm
	p := Push{Complete: true}
	for i := range 41 {
		p.Steps = append(p.Steps, Step{Apart: way * float64(i) / 40, Force: stiff * way * (1 - float64(i)/40)})
	}
	mass := s.weight() / gravity / 2
	omega := math.Sqrt(stiff * 1000 / mass)
	at := func(u float64) float64 {
		return 1 - math.Exp(-0.7*u)*(math.Cos(0.71414*u)+0.7/0.71414*math.Sin(0.71414*u))
	}
	u := 0.0
	for at(u) < 0.9 {
		u += 1e-4
	}
	// The drag goes by the force of the first step over the way: 39/40 of the spring's own.
	if got, fastest := s.OpeningTime(p, 0); math.Abs(got-u/omega) > 0.02*u/omega || !(fastest > way/got) {
		t.Errorf("opens in %g s at up to %g mm/s, want %g s", got, fastest, u/omega)
	}
	if got, _ := s.OpeningTime(Push{}, 0); got != 0 {
		t.Errorf("no way takes %g s", got)
	}
}

func TestReport(t *testing.T) {
	ctx, a := context.Background(), assume(t)
	r := form(t, "harbour-light").Report(ctx, Ask{Steps: 30, Starts: 8}, a)
	if r.Status != "solved" || len(r.Curve) != 30 || r.Feel != Lively || !r.OpensByItself || !(r.HoldShutN > 1) || !(r.OpeningS > 0) || len(r.Rest.Angles["spring#2"]) != 10 {
		t.Errorf("%+v", r)
	}
	cancelled, cancel := context.WithCancel(ctx)
	cancel()
	if r := form(t, "harbour-light").Report(cancelled, Ask{}, a); r.Status != "stopped" {
		t.Errorf("stopped it is %q", r.Status)
	}
	if r := form(t, "gull-box").Report(ctx, Ask{}, a); r.Status != "solved" || len(r.Springs) > 0 || len(r.Notes) == 0 {
		t.Errorf("without springs: %q, springs %v, notes %v", r.Status, r.Springs, r.Notes)
	}
}

// TestReport_soft: panels as soft as thin paper make the stand bend out of its depth, and the report says so.
func TestReport_soft(t *testing.T) {
	ctx, a := context.Background(), assume(t)
	text := measured(t, ", crease 0.1 N/rad, stiffness 0.2 mN.m")
	r := springy(t, text).Report(ctx, Ask{}, a)
	bends := slices.ContainsFunc(r.Notes, func(n string) bool { return strings.Contains(n, "panels bend") })
	if r.Status == "solved" && bends != (math.Abs(r.SoftShare) > 0.05) {
		t.Errorf("bending makes %.3f of the depth, notes %v", r.SoftShare, r.Notes)
	}
	if math.Abs(r.SoftShare) < 0.05 {
		t.Errorf("bending makes only %.3f of the depth", r.SoftShare)
	}
	if r := springy(t, stand(t, "")).Report(ctx, Ask{}, a); math.Abs(r.SoftShare) > 0.05 {
		t.Errorf("bending makes %.3f of the depth of the card as it is", r.SoftShare)
	}
}

// TestBuild_refuses: bad numbers come back as problems with their place, never as a pose.
func TestBuild_refuses(t *testing.T) {
	ctx, a := context.Background(), assume(t)
	good := func() *card.Card { return springy(t, stand(t, "")).Fold.Assembly.Card.Clone() }
	for _, c := range []struct {
		change func(*card.Card)
		want   string
	}{
		{func(c *card.Card) { c.Stocks[0].StiffnessMilliNm = card.Number{Value: 0, Given: true} }, "bending stiffness is 0 mN.m"},
		{func(c *card.Card) { c.Stocks[0].StiffnessMilliNm = card.Number{Value: -3, Given: true} }, "bending stiffness is -3"},
		{func(c *card.Card) { c.Stocks[0].CreaseNPerRad = card.Number{Value: math.NaN(), Given: true} }, "crease is NaN"},
		{func(c *card.Card) { c.Stocks[0].CreaseNPerRad = card.Number{Value: 1e9, Given: true} }, "crease is 1e+09"},
		{func(c *card.Card) { c.Stocks[0].RestDeg = card.Number{Value: 300, Given: true} }, "remember is 300 deg"},
		{func(c *card.Card) { c.Pieces[0].Rest = []card.CreaseValue{{Value: -1}} }, "remembers is -1 deg"},
		{func(c *card.Card) { c.Pieces[0].Crease = []card.CreaseValue{{Value: 0}} }, "crease is 0 N/rad"},
		{func(c *card.Card) { c.Pieces[0].Scores[2].At += 5 * length.Millimetre }, "does not lie flat"},
	} {
		k := good()
		c.change(k)
		s, problems := Build(ctx, k, a)
		if s != nil || len(problems) == 0 || !strings.Contains(problems[0].String(), c.want) {
			t.Errorf("got %v, want %q", problems, c.want)
		}
	}
	if s, problems := Build(ctx, good(), a); s == nil || problems.HasErrors() {
		t.Errorf("the good card is refused: %v", problems)
	}
}

// TestReport_locked: a tube of three panels cannot open; the report says that it stays shut, or finds no rest, and has no
// number that is none.
func TestReport_locked(t *testing.T) {
	r := springy(t, head+`piece tube of plain
  size 130 x 50
  score across at 60, 90, 120
  panels front, left, right, tab
  fold m m m
glue tube.tab inside tube.front, left
opens by itself
`).Report(context.Background(), Ask{Steps: 10}, assume(t))
	if r.Status == "solved" && len(r.Notes) == 0 {
		t.Errorf("a locked tube is solved without a word: %+v", r)
	}
	for _, v := range []float64{r.Rest.DepthMM, r.Rest.EnergyMJ, r.HoldShutN, r.Pull, r.Lift, r.SoftShare, r.OpeningS} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			t.Errorf("a number that is none: %+v", r)
		}
	}
}

func BenchmarkTune(b *testing.B) {
	s, a := form(b, "harbour-light"), assume(b)
	for b.Loop() {
		s.Tune(context.Background(), Wish{DepthMM: 60}, LeafWidth, a, nil)
	}
}

func BenchmarkReport(b *testing.B) {
	s, a := form(b, "harbour-light"), assume(b)
	for b.Loop() {
		s.Report(context.Background(), Ask{Starts: 32}, a)
	}
}
