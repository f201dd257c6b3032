package proof

import (
	"bytes"
	"context"
	"encoding/json"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/internal/golden"
)

var ctx = context.Background()

func forms(t testing.TB) []string {
	t.Helper()
	files, err := filepath.Glob("../forms/*.card")
	if err != nil || len(files) == 0 {
		t.Fatalf("no forms found: %v", err)
	}
	return files
}

func proveFile(t testing.TB, path string) *Report {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return Prove(ctx, filepath.Base(path), text)
}

func printed(t testing.TB, r *Report) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := r.Print(&b); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// TestForms proves every card of the catalogue; the goldens are what a person reads.
func TestForms(t *testing.T) {
	for _, path := range forms(t) {
		name := strings.TrimSuffix(filepath.Base(path), ".card")
		t.Run(name, func(t *testing.T) {
			r := proveFile(t, path)
			if !r.Proven() {
				t.Errorf("not proven: %v", r.Problems)
			}
			if e := r.Opening.LoopError(); e > 1e-6 {
				t.Errorf("loop error %g mm, want at most 1e-6", e)
			}
			golden.Compare(t, filepath.Join("testdata", name+".txt"), printed(t, r))
		})
	}
}

// wrong reads a form with one text replaced.
func wrong(t testing.TB, form, old, new string) *Report {
	t.Helper()
	text, err := os.ReadFile("../forms/" + form + ".card")
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Contains(text, []byte(old)) {
		t.Fatalf("%s has no %q", form, old)
	}
	return Prove(ctx, form+".card", bytes.Replace(text, []byte(old), []byte(new), 1))
}

// TestFindings spoils cards in one place and looks for the problem that should be reported, and its cure.
func TestFindings(t *testing.T) {
	for _, c := range []struct{ rule, form, old, new string }{
		{"gap", "harbour-light", "120, 162", "121, 162"},
		{"layer-clash", "harbour-steps", "low-front, left", "low-front, right"},
		{"no-way-flat", "rising-gull", "turned 90,", "turned 270,"},
		{"fits", "harbour-light", "fits 120 x 168", "fits 110 x 168"},
		{"likely-slip", "harbour-light", "36, 54,", "36, 57,"},
	} {
		t.Run(c.rule, func(t *testing.T) {
			r := wrong(t, c.form, c.old, c.new)
			found := false
			for _, p := range r.Problems {
				if p.Rule != c.rule {
					continue
				}
				found = true
				if p.Where.Line == 0 || p.What == "" || p.Needs == "" {
					t.Errorf("without a place, or without what would be right: %s", p)
				}
			}
			if !found {
				t.Fatalf("no problem %q in:\n%s", c.rule, printed(t, r))
			}
			golden.Compare(t, filepath.Join("testdata", "wrong-"+c.rule+".txt"), printed(t, r))
		})
	}
}

// TestCureProves applies every cure that a report offers, on the recipe's card, and proves the result.
func TestCureProves(t *testing.T) {
	r := wrong(t, "harbour-light", "120, 162", "121, 162")
	if r.Miss == nil || len(r.Miss.Cures) == 0 {
		t.Fatal("no cures")
	}
	for _, c := range r.Miss.Cures {
		fixed := Check(ctx, c.Apply(r.Card))
		if c.Kind == flat.MoveScore && !fixed.Proven() {
			t.Errorf("%s: not proven: %v", r.Say(c), fixed.Problems)
		}
		if !fixed.Closed.LiesFlat() {
			t.Errorf("%s: does not lie flat", r.Say(c))
		}
	}
}

// TestJSON fixes the names that others rely on.
func TestJSON(t *testing.T) {
	text, err := wrong(t, "harbour-light", "120, 162", "121, 162").JSON()
	if err != nil {
		t.Fatal(err)
	}
	var out struct {
		Card   *string
		Closed struct {
			Lies_flat                         *bool
			Width_mm, Height_mm, Thickness_mm *float64
			Folded                            map[string][]int
			Gaps                              []struct {
				Joint        *string
				Dx_mm, Dy_mm *float64
				Cures        []struct {
					What, Piece    *string
					Score          *int
					From_mm, To_mm *float64
				}
			}
			Order_ok *bool
			Peeks    []any
		}
		Open struct {
			Opens                                        *bool
			Freedom                                      *int
			Loop_error_mm, Width_mm, Depth_mm, Height_mm *float64
		}
		Problems []struct {
			Rule, What, Needs, Try *string
			Line, Column           *int
		}
	}
	if err := json.Unmarshal(text, &out); err != nil {
		t.Fatal(err)
	}
	if out.Card == nil || *out.Card != "Harbour light" || out.Closed.Lies_flat == nil || *out.Closed.Lies_flat || out.Closed.Order_ok == nil || out.Closed.Peeks == nil {
		t.Errorf("closed: %+v", out.Closed)
	}
	if out.Closed.Width_mm == nil || out.Closed.Height_mm == nil || out.Closed.Thickness_mm == nil {
		t.Error("a length of the closed card is missing")
	}
	if o := out.Open; o.Opens == nil || o.Freedom == nil || o.Loop_error_mm == nil || o.Width_mm == nil || o.Depth_mm == nil || o.Height_mm == nil {
		t.Errorf("open: %+v", o)
	}
	if len(out.Closed.Gaps) != 3 || len(out.Problems) != 3 {
		t.Fatalf("%d gaps and %d problems, want 3 and 3", len(out.Closed.Gaps), len(out.Problems))
	}
	g := out.Closed.Gaps[0]
	if g.Joint == nil || *g.Joint != "wall.tab inside wall.left" || g.Dx_mm == nil || *g.Dx_mm != 2 || g.Dy_mm == nil || *g.Dy_mm != 0 {
		t.Errorf("gap: %+v", g)
	}
	if c := g.Cures[0]; c.What == nil || *c.Piece != "wall" || *c.Score != 3 || *c.From_mm != 121 || *c.To_mm != 120 {
		t.Errorf("cure: %+v", c)
	}
	if p := out.Problems[0]; *p.Rule != "gap" || *p.Line == 0 || *p.Column == 0 || p.Needs == nil || p.Try == nil {
		t.Errorf("problem: %+v", p)
	}
	good, err := proveFile(t, "../forms/harbour-light.card").JSON()
	if err != nil {
		t.Fatal(err)
	}
	golden.Compare(t, "testdata/harbour-light.json", trimFloats(good))
}

// trimFloats shortens the digits of poses, which may differ in the last place from machine to machine.
func trimFloats(text []byte) []byte {
	lines := strings.Split(string(text), "\n")
	for i, l := range lines {
		name, value, ok := strings.Cut(l, ": ")
		if ok && strings.Contains(name, "loop_error_mm") {
			value = "0,"
		}
		if dot := strings.Index(value, "."); ok && dot >= 0 && len(value) > dot+5 {
			value = value[:dot+4] + ","
		}
		if ok {
			lines[i] = name + ": " + value
		}
	}
	return []byte(strings.Join(lines, "\n"))
}

// TestStopped: a context that has ended stops the work, and the report says so.
func TestStopped(t *testing.T) {
	gone, cancel := context.WithCancel(ctx)
	cancel()
	text, _ := os.ReadFile("../forms/harbour-light.card")
	r := Prove(gone, "harbour-light.card", text)
	if !r.Stopped || r.Proven() {
		t.Errorf("stopped %v, proven %v", r.Stopped, r.Proven())
	}
}

// hostile lists texts that no person means, each with the rule that must answer it.
func hostile() map[string]struct{ text, rule string } {
	const h = "card \"N\"\nunits mm\nstock p \"p\" 250 gsm, 0.3 mm\npiece a of p\n"
	list := func(n, step int) string {
		var b strings.Builder
		for i := range n {
			if i > 0 {
				b.WriteString(", ")
			}
			b.WriteString(strings.TrimSpace(jsonNumber(5 + i*step)))
		}
		return b.String()
	}
	return map[string]struct{ text, rule string }{
		"nothing":          {"", "no-title"},
		"ten megabytes":    {strings.Repeat("piece a of p\n", 800_000), "file-size"},
		"10000 scores":     {h + "  size 2000 x 20\n  score across at " + list(10_000, 1) + "\n", "too-many"},
		"1e400":            {h + "  size 1e400 x 20\n", "unit"},
		"one over zero":    {h + "  size 1/0 x 20\n", "number"},
		"NaN":              {h + "  size NaN x 20\n", "line-form"},
		"negative":         {h + "  size -3 x 20\n", "not-positive"},
		"zero":             {h + "  size 0 x 20\n", "not-positive"},
		"score outside":    {h + "  size 100 x 20\n  score across at 100\n", "score-outside"},
		"crossing slits":   {h + "  size 100 x 50\n  slit (10, 10) to (40, 40)\n  slit (10, 40) to (40, 10)\nopens by itself\n", "slits-cross"},
		"wrong encoding":   {"card \"Caf\xe9\"\n", "encoding"},
		"UTF-16":           {"\xff\xfec\x00a\x00r\x00d\x00", "encoding"},
		"unknown name":     {h + "  size 100 x 50\n  panels b\nglue a.b inside c.d\n", "unknown-piece"},
		"twice":            {h + "  size 100 x 50\npiece a of p\n  size 10 x 10\n", "duplicate-name"},
		"grid":             {h + "  size 2000 x 2000\n  score across at " + list(200, 9) + "\n  score up at " + list(200, 9) + "\nopens by itself\n", "too-many-panels"},
		"glue in a ring":   {h + "  size 100 x 50\n  panels f\npiece b of p\n  size 100 x 50\n  panels f\npiece c of p\n  size 100 x 50\n  panels f\nglue a.f inside b.f\nglue b.f inside c.f\nglue c.f inside a.f, over 3\nopens by itself\n", "gap"},
		"glue contradicts": {h + "  size 100 x 50\n  panels f\npiece b of p\n  size 100 x 50\n  panels f\npiece c of p\n  size 100 x 50\n  panels f\nglue a.f inside b.f\nglue b.f inside c.f\nglue c.f against a.f\nopens by itself\n", "no-way-flat"},
	}
}

func jsonNumber(n int) string { b, _ := json.Marshal(n); return string(b) }

func TestHostile(t *testing.T) {
	for name, c := range hostile() {
		t.Run(name, func(t *testing.T) {
			r := Prove(ctx, "hostile.card", []byte(c.text))
			if r.Proven() {
				t.Fatal("proven")
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

// FuzzProve feeds spoilt recipes to the whole engine: whatever it says, it says it without panic and with places.
func FuzzProve(f *testing.F) {
	seeds := 0
	err := filepath.WalkDir("../forms", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".card") {
			return err
		}
		text, err := os.ReadFile(path)
		f.Add(text)
		seeds++
		return err
	})
	if err != nil || seeds == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, c := range hostile() {
		if len(c.text) < 5000 {
			f.Add([]byte(c.text))
		}
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		if len(text) > 10_000 {
			return
		}
		r := Prove(ctx, "fuzz.card", text)
		if !r.Proven() && len(r.Problems) == 0 && !r.Stopped {
			t.Error("not proven, and no reason given")
		}
		for _, p := range r.Problems {
			if p.What == "" || p.Rule == "" {
				t.Errorf("a problem without words: %+v", p)
			}
		}
		if _, err := r.JSON(); err != nil {
			t.Error(err)
		}
		printed(t, r)
	})
}

// TestFirstCure: where any cure of a wrong card proves, the first one that is named does.
func TestFirstCure(t *testing.T) {
	tried := 0
	for _, path := range forms(t) {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		c := Prove(ctx, path, text).Card
		for i := range c.Pieces {
			for k := range c.Pieces[i].Scores {
				if k%5 != 0 || c.Pieces[i].Scores[k].Kind == card.Slanted {
					continue
				}
				wrong := c.Clone()
				wrong.Pieces[i].Scores[k].At += c.Marks
				r := Check(ctx, wrong)
				if r.Miss == nil || len(r.Miss.Cures) == 0 || r.Proving == nil {
					continue
				}
				tried++
				if any := slices.Contains(r.Proving, true); any != r.Proving[0] {
					t.Errorf("%s, %s, score %d: %v", path, c.Pieces[i].Name, k+1, r.Proving)
				}
				if cured := Check(ctx, r.Miss.Cures[0].Apply(wrong)); cured.Proven() != r.Proving[0] {
					t.Errorf("%s, %s, score %d: the first cure is said to prove: %t", path, c.Pieces[i].Name, k+1, r.Proving[0])
				}
			}
		}
	}
	if tried < 10 {
		t.Errorf("only %d wrong cards were tried", tried)
	}
}
