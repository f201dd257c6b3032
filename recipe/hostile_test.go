package recipe

import (
	"archive/zip"
	"bytes"
	"fmt"
	"image"
	"image/png"
	"math/rand/v2"
	"os"
	"strings"
	"testing"
	"unicode/utf16"

	"foldwright/problem"
)

// wholeText checks a text that is refused with one problem at its beginning.
func wholeText(t *testing.T, text []byte, rule, what string) {
	t.Helper()
	r, problems := Parse("x.card", text)
	if r != nil || len(problems) != 1 || problems[0].Rule != rule || !strings.Contains(problems[0].What, what) || problems[0].Where.String() != "x.card:1:1" {
		t.Errorf("got %v and\n%s", r, printed(problems))
	}
}

func TestWholeTextRefused(t *testing.T) {
	wholeText(t, []byte(strings.Repeat("# gull\n", MaxText/7+1)), "file-size", fmt.Sprint((MaxText/7+1)*7))
	wholeText(t, make([]byte, 10<<20), "file-size", "10485760")
	for _, mark := range []rune{0xfeff, 0} { // with a byte order mark, and without
		units := utf16.Encode([]rune(base))
		if mark != 0 {
			units = append(utf16.Encode([]rune{mark}), units...)
		}
		var little, big []byte
		for _, u := range units {
			little = append(little, byte(u), byte(u>>8))
			big = append(big, byte(u>>8), byte(u))
		}
		wholeText(t, little, "encoding", "UTF-16")
		wholeText(t, big, "encoding", "UTF-16")
	}
}

// What is no text gives one problem and not one for each of its lines.
func TestNotText(t *testing.T) {
	var picture, archive bytes.Buffer
	if err := png.Encode(&picture, image.NewGray(image.Rect(0, 0, 60, 60))); err != nil {
		t.Fatal(err)
	}
	z := zip.NewWriter(&archive)
	w, err := z.Create("gull.card")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := w.Write([]byte(base)); err != nil {
		t.Fatal(err)
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	noise := make([]byte, 5000)
	rand.NewChaCha8([32]byte{7}).Read(noise)
	wholeText(t, picture.Bytes(), "not-text", "a PNG picture")
	wholeText(t, archive.Bytes(), "not-text", "a zip archive")
	wholeText(t, []byte("%PDF-1.7\n1 0 obj\n<< /Type /Catalog >>\nendobj\n"), "not-text", "a PDF")
	wholeText(t, []byte("\ufeff<svg xmlns=\"http://www.w3.org/2000/svg\"/>\n"), "not-text", "an SVG drawing")
	wholeText(t, noise, "not-text", "more than a tenth of its characters")
	for _, text := range []string{base + strings.Repeat("# \xe9t\xe9 de la mouette\n", 20), "\x00", "# \xff", strings.ReplaceAll(base, "\n", "\r\v\f\n")} {
		if what := NotText([]byte(text)); what != "" {
			t.Errorf("%.40q is taken for %s", text, what)
		}
	}
}

// The same recipe behind a byte order mark, with the line ends of other systems, and with spaces behind its lines.
func TestSameTextOtherBytes(t *testing.T) {
	for _, text := range []string{
		"\ufeff" + base,
		strings.ReplaceAll(base, "\n", "\r\n"),
		strings.ReplaceAll(base, "\n", "\r"),
		strings.ReplaceAll(base, "\n", " \t\n"),
		strings.ReplaceAll(strings.ReplaceAll(base, " ", "\u00a0"), "white\u00a0card", "white card"),
		strings.TrimSuffix(base, "\n"),
	} {
		r, problems := Parse("x.card", []byte(text))
		if len(problems) > 0 {
			t.Errorf("%q:\n%s", text[:20], printed(problems))
			continue
		}
		if got := string(r.Format()); got != base {
			t.Errorf("%q:\n%s", text[:20], got)
		}
	}
}

func TestEmptyText(t *testing.T) {
	for _, text := range []string{"", "\n", "# nothing\n", "\ufeff", " \t\r\n"} {
		r, problems := Parse("x.card", []byte(text))
		if r != nil || len(problems) != 3 { // no title, no pieces, nothing that opens
			t.Errorf("%q: %v\n%s", text, r, printed(problems))
		}
	}
}

// A recipe cut off anywhere never makes trouble, and every problem says where it is.
func TestTruncated(t *testing.T) {
	text, err := os.ReadFile("testdata/canonical/harbour-light.card")
	if err != nil {
		t.Fatal(err)
	}
	for n := range text {
		_, problems := Parse("x.card", text[:n])
		everyPlace(t, text[:n], problems)
	}
}

// everyPlace checks that the problems point into the text, are told once, and are in order.
func everyPlace(t testing.TB, text []byte, problems problem.List) {
	t.Helper()
	lines := strings.Count(strings.ReplaceAll(strings.ReplaceAll(string(text), "\r\n", "\n"), "\r", "\n"), "\n") + 1
	for i, p := range problems {
		if p.Where.File != "x.card" || p.Where.Line < 1 || p.Where.Line > lines || p.Where.Column < 1 || p.Rule == "" || p.What == "" {
			t.Errorf("%+v does not point into the text of %d lines", p, lines)
		}
		if len(p.String()) > 3000 {
			t.Errorf("a message of %d bytes: %.200s", len(p.String()), p.What)
		}
		if i > 0 && p.Where.Line < problems[i-1].Where.Line {
			t.Errorf("%v comes after %v", p.Where, problems[i-1].Where)
		}
	}
}

func TestManyProblems(t *testing.T) {
	text := []byte(base + strings.Repeat("glue wall.tabb inside wall.front\n", 150) + strings.Repeat("hello\n", 500))
	_, problems := Parse("x.card", text)
	everyPlace(t, text, problems)
	if n := len(problems); n != MaxProblems+1 || problems[n-1].Rule != "more-problems" || !problems.HasErrors() {
		t.Errorf("%d problems, the last one is %v", n, problems[n-1])
	}
}

// What one line or one piece may hold is bounded; one problem tells, at the place where it becomes too much.
func TestLimits(t *testing.T) {
	numbers := func(n int) string {
		var b strings.Builder
		for i := range n {
			fmt.Fprintf(&b, ", %d.%d", i/10+1, i%10)
		}
		return b.String()[2:]
	}
	piece := "card \"Gull\"\nstock s 100 gsm, 0.1 mm\nopens by itself\npiece a of s\n  size 1100 x 10\n"
	for _, test := range []struct{ name, text, where string }{
		{"as many scores as may be", piece + "  score across at " + numbers(400) + "\n", ""},
		{"one score too many", piece + "  score across at " + numbers(401) + "\n", "6:"},
		{"ten thousand scores", piece + "  score across at " + numbers(10000) + "\n", "6:"},
		{"scores in two lines", piece + "  score across at " + numbers(300) + "\n  score up at 1, 2, 3\n  score across at " + strings.ReplaceAll(numbers(101), ", ", "5, ") + "\n", "8:3"},
		{"slanted scores", piece + "  score across at " + numbers(399) + "\n  score (0, 0) to (5, 5)\n  score (0, 0) to (6, 6)\n", "8:9"},
		{"pieces", piece + strings.Repeat("piece b of s\n  size 1 x 1\n", 70), "124:1"},
		{"glue lines", piece + "  panels p\n" + strings.Repeat("glue a.p inside a.p\n", 201), "0"},
		{"terms", piece + "keep a.width" + strings.Repeat(" + 1", 50) + " = 3\n", "6:"},
		{"factors", piece + "keep a.width" + strings.Repeat(" * 12345678901234567890", 200) + " = 3\n", "6:"},
		{"corners", piece + "  slit (0, 0) to (1, 1)\n  window polygon" + strings.Repeat(" (1, 1)", 401) + "\n", "7:"},
		{"copies", piece + "piece c of s, 999999 of\n  size 1 x 1\n", "6:15"},
	} {
		_, problems := Parse("x.card", []byte(test.text))
		everyPlace(t, []byte(test.text), problems)
		var found problem.List
		for _, p := range problems {
			if p.Rule == "too-many" || p.Rule == "keep-factor" {
				found = append(found, p)
			}
		}
		switch {
		case test.where == "" && problems.HasErrors():
			t.Errorf("%s:\n%s", test.name, printed(problems))
		case test.where == "":
		case test.where == "0" && len(problems) != MaxProblems+1:
			t.Errorf("%s: %d problems", test.name, len(problems))
		case test.where != "0" && (len(found) != 1 || !strings.HasPrefix(found[0].Where.String(), "x.card:"+test.where)):
			t.Errorf("%s:\n%s", test.name, printed(problems))
		}
	}
}

// Long nonsense must cost little: these run in well under a second all together, or something is quadratic.
func TestLongNonsense(t *testing.T) {
	fill := func(s string) string { return strings.Repeat(s, (MaxText-len(base))/len(s)) }
	for _, text := range []string{
		fill("a"), fill("1"), fill("\""), fill("("), fill(" "), fill("\n"), fill("#\n"), fill("x\n"), fill("½"), fill("1 "),
		"score across at " + fill("1,"), "  closed folds " + fill("1,"), "  fold " + fill("m "), "panels " + fill("a,"),
		"keep " + fill("1*"), "keep " + fill("1+"), "keep " + fill("½*"), "mat " + fill("a.b,"), "mat " + fill("wall.front, "),
		"stock " + fill("a"), "stock a " + fill("\"\""), fill("piece a of b\n"), fill("piece a of b, 9 of\n"), fill("glue wall.tab inside wall.back\n"),
		fill("card \"\"\n"), fill("opens by itself\n"), fill("stock white 1 gsm, 1\n"), fill("keep wall.tab = 1\n"), fill("  size 1 x 1\n"),
		fill("piece wall of white\n  score up at 1\n"), "topper polygon " + fill("(1,1)"), fill("\xff\n"), fill("\x00\x00\n"),
		"wedge " + fill("b") + " 3", "glue " + fill("a.") + " inside b.c", "size " + fill("9") + " x 1", "size 1/" + fill("9") + " x 1", "size 0." + fill("9") + " x 1",
	} {
		for _, text := range []string{text, base + text} {
			_, problems := Parse("x.card", []byte(text))
			everyPlace(t, []byte(text), problems)
			if !problems.HasErrors() && !strings.HasPrefix(text, base) {
				t.Errorf("no problem: %.40q", text)
			}
		}
	}
}

// One slip gives one problem: what follows from a line that cannot be read is not told.
func TestOneSlipOneProblem(t *testing.T) {
	text, err := os.ReadFile("testdata/canonical/harbour-light.card")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimSuffix(string(text), "\n"), "\n")
	spoiled := 0
	for i, l := range lines {
		if l == "" || l[0] == '#' {
			continue
		}
		for _, slip := range []string{l + " ?", strings.Replace(l, " ", " ?", 1), l + "\x00", l[:4] + "\x00" + l[4:], strings.TrimSpace(l)[:1] + strings.TrimSpace(l)} {
			before := lines[i]
			lines[i] = slip
			_, problems := Parse("x.card", []byte(strings.Join(lines, "\n")))
			lines[i] = before
			spoiled++
			if len(problems) != 1 || problems[0].Where.Line != i+1 {
				t.Errorf("%q:\n%s", slip, printed(problems))
			}
		}
	}
	if spoiled < 100 {
		t.Errorf("only %d lines were spoiled", spoiled)
	}
}
