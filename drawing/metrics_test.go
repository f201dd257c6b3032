package drawing

import (
	"bytes"
	"fmt"
	"math"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"

	"foldwright/internal/golden"
)

func parseFont(t *testing.T, ttf []byte) *sfnt.Font {
	t.Helper()
	f, err := sfnt.Parse(ttf)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

func fontAdvance(t *testing.T, f *sfnt.Font, r rune) (int, bool) {
	t.Helper()
	var buf sfnt.Buffer
	g, err := f.GlyphIndex(&buf, r)
	if err != nil {
		t.Fatal(err)
	}
	if g == 0 {
		return 0, false
	}
	a, err := f.GlyphAdvance(&buf, g, fixed.I(unitsPerEm), font.HintingNone)
	if err != nil {
		t.Fatal(err)
	}
	return a.Round(), true
}

// TestAdvances compares advances.csv, character by character, with golang.org/x/image/font/gofont.
func TestAdvances(t *testing.T) {
	regular, bold := parseFont(t, goregular.TTF), parseFont(t, gobold.TTF)
	var want bytes.Buffer
	want.WriteString("# How far each character moves the pen, in 1/2048 em. Source: the tables of Go Regular and Go Bold,\n" +
		"# golang.org/x/image/font/gofont v0.47.0 (Bigelow & Holmes), read and compared by TestAdvances.\n" +
		"code,regular,bold\n")
	count := 0
	for r := rune(0x20); r <= 0xffff; r++ {
		a, ok := fontAdvance(t, regular, r)
		b, ok2 := fontAdvance(t, bold, r)
		if ok != ok2 {
			t.Errorf("%U is in one font only", r)
		}
		if ok && a > 0 {
			fmt.Fprintf(&want, "%04x,%d,%d\n", r, a, b)
			count++
		}
	}
	if count < 600 {
		t.Fatalf("the fonts have only %d characters", count)
	}
	golden.Compare(t, "advances.csv", want.Bytes())
	if golden.Updating() {
		return
	}
	if got := len(advances()); got != count {
		t.Errorf("the table read has %d characters, want %d", got, count)
	}
}

// TestVerticalMetrics compares the heights in text.go with the fonts.
func TestVerticalMetrics(t *testing.T) {
	for name, ttf := range map[string][]byte{"regular": goregular.TTF, "bold": gobold.TTF} {
		m, err := parseFont(t, ttf).Metrics(new(sfnt.Buffer), fixed.I(unitsPerEm), font.HintingNone)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := CapHeight*unitsPerEm, float64(m.CapHeight.Round()); got != want {
			t.Errorf("%s: CapHeight is %g units, the font has %g", name, got, want)
		}
		if got, want := Descent*unitsPerEm, float64(m.Descent.Round()); got != want {
			t.Errorf("%s: Descent is %g units, the font has %g", name, got, want)
		}
	}
}

func TestFractionsPrint(t *testing.T) {
	for _, s := range []string{"½¼¾⅛⅜⅝⅞", "⁰¹²³⁴⁵⁶⁷⁸⁹⁄₀₁₂₃₄₅₆₇₈₉", "≈×±°·→″′–—“”‘’"} {
		if got := Printable(s); got != s {
			t.Errorf("Printable(%q) = %q: the fonts lack something", s, got)
		}
	}
	for in, want := range map[string]string{
		"⅓": "¹⁄₃", "2⅔ in": "2²⁄₃ in", "⅕⅖⅗⅘": "¹⁄₅²⁄₅³⁄₅⁴⁄₅", "a\tb\n": "a b ", "鷗": "□", "\x00": " ", "🕊x": "□x",
	} {
		if got := Printable(in); got != want {
			t.Errorf("Printable(%q) = %q, want %q", in, got, want)
		}
	}
}

func TestTextWidth(t *testing.T) {
	// Figures are 1139/2048 em wide (Go fonts), a space 569/2048.
	for _, c := range []struct {
		words string
		size  float64
		want  float64
	}{
		{"", 3, 0},
		{"0", 2048, 1139},
		{"42 7", 2048, 3*1139 + 569},
		{"42", 3.5, 2 * 1139 * 3.5 / 2048},
	} {
		for _, bold := range []bool{false, true} {
			if got := TextWidth(c.words, c.size, bold); math.Abs(got-c.want) > 1e-9 {
				t.Errorf("TextWidth(%q, %g, %v) = %g mm, want %g", c.words, c.size, bold, got, c.want)
			}
		}
	}
	for _, words := range []string{"42", "≈ 1⅝ in", "mountain: folds away from you", "6 × 3", "鷗"} {
		for _, bold := range []bool{false, true} {
			if room, width := TextRoom(words, 3, bold), TextWidth(words, 3, bold); room < 1.05*width {
				t.Errorf("TextRoom(%q) = %g mm keeps nothing in reserve over %g", words, room, width)
			}
		}
	}
}
