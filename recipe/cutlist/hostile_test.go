package cutlist

import (
	"context"
	"strings"
	"testing"

	"foldwright/recipe"
)

// Texts of a megabyte are read or refused without work that grows with the square of their length; a test that took
// minutes would be stopped by the runner, and the benchmark below says how long they take.
func TestLongTexts(t *testing.T) {
	catalogue := testCatalogue(t)
	for name, unit := range longTexts() {
		text := strings.Repeat(unit, recipe.MaxText/len(unit))
		r := read(t, text, catalogue)
		if r.Card == nil && !r.Problems.HasErrors() {
			t.Errorf("%s: neither a card nor a problem", name)
		}
		if len(r.Problems) > recipe.MaxProblems+1 {
			t.Errorf("%s: %d problems", name, len(r.Problems))
		}
	}
}

func longTexts() map[string]string {
	return map[string]string{
		"digits": "1", "sizes": "10 x 3 mm, score at 5. ", "one sentence": "10 x 3 score at 1, 2 and 3 ", "commas": "4,4,", "words": "wall and roof ",
		"brackets": "((((", "raised": "⁰¹²", "fractions": "1/2 ", "lines": "1. wall\n", "tables": "piece | size | score\nwall | 1 x 2 | 1\n", "counts": "two pieces ",
		"spaces": "   a", "every": "10 x 3 score every 1 from 1 to 9 and ", "mats": "mat 1 x 2 ", "colons": "wall: ", "stock": "270 gsm navy card ", "hyphens": "half-", "x": "x",
		"breaks": "5\n", "conversions": "5 in (12 mm) ", "steps": "step 1\n", "for": "for the wall 10 x 3 ", "score": "score at 5 ", "vertical": "10 x 3 score at:\n1\n2\n",
	}
}

func TestRefused(t *testing.T) {
	for _, test := range []struct{ name, text, rule, says string }{
		{"too long", strings.Repeat("a", recipe.MaxText+1), "file-size", "1048577 bytes"},
		{"no text", "10 x 3\xff", "encoding", "UTF-8"},
		{"nothing", "", "no-pieces", "no size"},
		{"no number", "A card for the harbour.", "no-pieces", "no size"},
		{"one number", "About 5 cm.", "no-pieces", "no size"},
		{"scores alone", "Score at 5, 6 and 7 cm.", "score-without-piece", "no piece before them"},
		{"contradiction", "Strip 5 inches (10 mm) x 2 inches.", "two-lengths", "5 in (127 mm), and 10 mm"},
		{"two counts", "Two pieces 4 x 2 in (cut 3).", "two-counts", "3 times here, and 2 times before"},
		{"two sizes", "Wall 10 x 3 in (10 x 3 cm).", "two-sizes", "is not the one before it"},
		{"too long a strip", "Strip 30000 x 3 mm.", "too-long", "2000 mm"},
		{"not exact", "Strip 1/3 in x 4 in.", "not-exact", "8.466666 mm and 8.466667 mm"},
		{"outside", "Strip 100 x 40 mm, score at 20, 120.", "score-outside", "120 is not inside"},
		{"no width", "Strip 0 x 40 mm.", "not-positive", "the width of piece piece-1 is 0"},
		{"many pieces", strings.Repeat("10 x 3 mm\n", 61), "too-many", "more pieces than in any card"},
		{"fine steps", "Strip 1000 x 40 mm, score every 0.01 mm.", "number", "cannot be counted out"},
	} {
		r := read(t, test.text, nil)
		found := false
		for _, p := range r.Problems {
			found = found || p.Rule == test.rule && strings.Contains(p.What, test.says)
		}
		if !found {
			t.Errorf("%s: got %v, want %s with %q", test.name, r.Problems, test.rule, test.says)
		}
	}
}

// A reading that is cancelled says so.
func TestStopped(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	r := Read(ctx, "list.txt", []byte("10 x 3 mm"), nil)
	if !r.Problems.HasErrors() || r.Problems[0].Rule != "stopped" && r.Problems[len(r.Problems)-1].Rule != "stopped" {
		t.Errorf("got %v", r.Problems)
	}
}

// BenchmarkPage reads three kilobytes, a page as it is pasted: below 20 ms it is not felt.
func BenchmarkPage(b *testing.B) {
	catalogue := testCatalogue(b)
	page := "Wall 252 x 72 mm, navy, score at 42, 78, 120, 162, 198, 240\nRoof 36 x 144 mm, score at 12, 72, 132\n" +
		"Spring 228 x 60 mm, white, x2, score at 36, 54, 72, 90, 108, 144, 162, 180, 198, 216\nMat each panel 30 x 60 mm and glue it.\n"
	text := []byte(strings.Repeat(page, 3000/len(page)+1))
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if r := Read(context.Background(), "list.txt", text, catalogue); r.Card == nil {
			b.Fatal("no card")
		}
	}
}

// BenchmarkLong reads texts of a megabyte: below 2 s each.
func BenchmarkLong(b *testing.B) {
	catalogue := testCatalogue(b)
	for name, unit := range longTexts() {
		text := []byte(strings.Repeat(unit, recipe.MaxText/len(unit)))
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				Read(context.Background(), "list.txt", text, catalogue)
			}
		})
	}
}
