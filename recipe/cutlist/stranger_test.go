package cutlist

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/internal/golden"
)

// Lists as strangers write them, one of each manner: blog prose, numbered, tables, terse notes, slips of spelling, decimal
// commas, supplies and tools between the pieces, sides swapped, a second unit in brackets, a heading for each piece. The
// name says which card they are a list of: it is found, nothing of it is missing, it is proven, and what is no part of the
// card is handed back.
func TestStrangers(t *testing.T) {
	catalogue := wholeCatalogue(t)
	paths, err := filepath.Glob("testdata/strangers/*.txt")
	if err != nil || len(paths) < 10 {
		t.Fatalf("%d lists (%v)", len(paths), err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			r := read(t, string(text), catalogue)
			sound(t, string(text), r)
			kept(t, string(text))
			golden.Compare(t, strings.TrimSuffix(path, ".txt")+".read", []byte(printed(r)))
			form, _, _ := strings.Cut(filepath.Base(path), "--")
			if r.Matched == nil || r.Matched.Form != form || len(r.Lacks) > 0 {
				t.Errorf("matched %+v, want %s; missing %q", r.Matched, form, r.Lacks)
			}
			if report := prove(r); !report.Proven() {
				t.Errorf("not proven: %v", report.Problems)
			}
		})
	}
}

// Scores in a second unit in brackets are compared with those before them, and one that is another length is an error at
// its place.
func TestScoresInBothUnits(t *testing.T) {
	for _, test := range []struct {
		text  string
		wrong int // the column of the wrong one; 0 where all agree
	}{
		{"Wall 10 x 3 in; score at 2, 4 and 5 1/2 in (5.1, 10.2 and 14 cm)", 0},
		{"Wall 10 x 3 in; score at 2, 4 and 5 1/2 in (51, 102, 140 mm).", 0},
		{"Wall 250 x 80 mm; score at 50, 100 and 140 mm (2, 4 and 5 1/2 in).", 0},
		{"Wall 25 x 8 cm; score at 5, 10 and 14 cm (2, 3 and 5 1/2 in).", 46},
	} {
		r := read(t, test.text, nil)
		sound(t, test.text, r)
		at := 0
		for _, p := range r.Problems {
			if p.Rule == "two-lengths" {
				at = p.Where.Column
			}
		}
		if r.Card == nil || len(r.Card.Pieces) != 1 || len(r.Card.Pieces[0].Scores) != 3 || at != test.wrong || test.wrong == 0 && len(r.Unplaced) > 0 {
			t.Errorf("%q: column %d, want %d; not placed %v\n%s", test.text, at, test.wrong, r.Unplaced, r.Recipe)
		}
	}
}

// Only a word before scores is read as one for scores.
func TestSpelling(t *testing.T) {
	for _, test := range []struct {
		text   string
		scores int
	}{
		{"Wall 10 x 3 in, socre at 2 and 4", 2},
		{"Wall 10 x 3 cm, scroe on the long side at 2 and 4 cm", 2},
		{"Wall 100 x 30 mm, sccored at: 20, 40 mm", 2},
		{"Wall 10 x 3 in, store at 20 degrees", 0},
		{"Spring 10 x 3 in", 0},
		{"Wall 10 x 3 in. Scope for two springs.", 0},
	} {
		r := read(t, test.text, nil)
		sound(t, test.text, r)
		if r.Card == nil || len(r.Card.Pieces[0].Scores) != test.scores || strings.Contains(printed(r), "[spelling]") != (test.scores > 0) {
			t.Errorf("%q:\n%s", test.text, printed(r))
		}
	}
}
