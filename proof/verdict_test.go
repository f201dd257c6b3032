package proof

import (
	"strings"
	"testing"
)

// Cards that a program which looks at loops only would get wrong. Each is judged by what paper does; a rule of "" means
// that it must be proven.
const cover = `card "Test"
units mm
stock plain "plain card" 240 gsm, 0.3 mm
piece cover of plain
  size 200 x 100
  score across at 100
  panels back, front
  fold all mountain
`

func TestVerdicts(t *testing.T) {
	for _, c := range []struct{ name, rule, text string }{
		{"a plain fold", "", cover + "opens at cover.1 to 180\n"},
		{"a band right round the card", "panels-cross", cover + `piece band of plain
  size 250 x 30
  score across at 10, 130
  panels tab, over, under
  fold all mountain
glue band.tab inside band.under, right
glue band.over outside cover.front
opens at cover.1 to 180
`},
		{"a band up and down round one half", "", cover + `piece band of plain
  size 30 x 210
  score up at 10, 110
  panels tab, over, under
  fold all mountain
glue band.tab inside band.under, top
glue band.over outside cover.front
opens at cover.1 to 180
`},
		{"copies of which only some are loops", "", cover + `piece ring of plain, 3 of
  size 150 x 20
  score across at 30, 70, 100, 140
  panels a, b, c, d, tab
  fold m v m v
glue ring#1.tab inside ring#1.a, left
glue ring#3.tab inside ring#3.a, left
glue ring#1.d against cover.back
glue ring#2.a against cover.front, top
glue ring#3.a against cover.front, bottom
opens at cover.1 to 180
`},
		{"glue beside the card", "glue-apart", cover + "piece plaque of plain\n  size 30 x 30\n  panels face\nglue plaque.face outside cover.front, over 300\nopens at cover.1 to 180\n"},
		{"glue edge to edge", "glue-apart", cover + "piece plaque of plain\n  size 30 x 30\n  panels face\nglue plaque.face outside cover.front, right, over 30\nopens at cover.1 to 180\n"},
		{"glue on a hole", "glue-apart", strings.Replace(cover, "  fold all", "  window rect 50 x 50 at (125, 25)\n  fold all", 1) +
			"piece plaque of plain\n  size 30 x 30\n  panels face\nglue plaque.face outside cover.front\nopens at cover.1 to 180\n"},
		{"a lining over a tab", "", `card "Test"
units mm
stock plain "plain card" 240 gsm, 0.3 mm
piece wall of plain
  size 252 x 150
  score across at 60, 120, 180, 240
  panels left, front, right, back, tab
  fold all mountain
piece lining of plain
  size 50 x 140
  panels face
glue lining.face facing wall.left
glue wall.tab inside wall.left, left
opens at wall.1 to 90
`},
		{"a score that is to open and to stay straight", "opens-straight", strings.Replace(cover, "  fold all", "  closed folds none\n  fold all", 1) + "opens at cover.1 to 180\n"},
		{"a mat without anything left", "mat-size", cover + "mat cover.front of plain, edge 60\nopens at cover.1 to 180\n"},
		{"a sheet folded twice", "", `card "Test"
units mm
stock plain "plain card" 240 gsm, 0.3 mm
piece sheet of plain
  size 200 x 280
  score across at 100
  score up at 140
opens at sheet.2 to 180
`},
		{"a band round the spine", "panels-cross", cover + `piece band of plain
  size 210 x 30
  score across at 10, 110
  panels tab, over, under
  fold all mountain
glue band.tab inside band.under, right
glue band.over outside cover.front
opens at cover.1 to 180
`},
		{"a long strip opened at one score", "", `card "Test"
units mm
stock plain "plain card" 240 gsm, 0.3 mm
piece strip of plain
  size 900 x 50
  score across at 60, 90, 150, 180, 240, 270, 330, 360, 420, 450, 510, 540
  fold all mountain
opens at strip.1 to 180
`},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := Prove(ctx, "test.card", []byte(c.text))
			if bare := ProveBare(ctx, "test.card", []byte(c.text)); bare.Proven() != r.Proven() {
				t.Errorf("with remarks proven is %t, without %t", r.Proven(), bare.Proven())
			}
			if c.rule == "" {
				if !r.Proven() {
					t.Errorf("not proven:\n%s", printed(t, r))
				}
				return
			}
			for _, p := range r.Problems {
				if p.Rule == c.rule {
					return
				}
			}
			t.Errorf("no problem %q in:\n%s", c.rule, printed(t, r))
		})
	}
}

// TestPeeks: what lies between others and shows beyond them is told on every side.
func TestPeeks(t *testing.T) {
	r := Prove(ctx, "test.card", []byte(cover+`piece slip of plain
  size 60 x 130
  panels face
glue slip.face inside cover.front, up 5
opens at cover.1 to 180
`))
	var got []string
	for _, p := range r.Peeks {
		got = append(got, p.String(r.Assembly))
	}
	want := "slip peeks out 20 mm (≈ 13/16 in) above; slip peeks out 10 mm (≈ 3/8 in) below"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("got %q, want %q", s, want)
	}
}
