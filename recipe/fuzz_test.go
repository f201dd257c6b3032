package recipe

import (
	"os"
	"path/filepath"
	"testing"

	"foldwright/length"
)

// seeds gives a fuzz test every recipe in testdata and the spoiled ones of the rule tests, and fails without them.
func seeds(f *testing.F) {
	paths, err := filepath.Glob("testdata/*/*.card")
	if err != nil || len(paths) < 4 {
		f.Fatalf("%d seeds in testdata (%v)", len(paths), err)
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Add([]byte(`tock A""00gsm,00,stiffness`)) // once told of a stiffness without a place
	for _, test := range lineTests {
		f.Add([]byte("card \"Gull\"\nstock s 100 gsm, 0.1 mm\npiece a of s\n" + test.in))
	}
	for _, test := range ruleTests {
		f.Add([]byte(test.new))
	}
}

// Reading never panics, and every problem says where it is; a text without errors gives a recipe.
func FuzzParse(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		r, problems := Parse("x.card", text)
		everyPlace(t, text, problems)
		if (r == nil) != problems.HasErrors() {
			t.Errorf("the recipe is nil: %v; there are errors: %v", r == nil, problems.HasErrors())
		}
		if len(problems) > MaxProblems+1 {
			t.Errorf("%d problems", len(problems))
		}
		for _, p := range problems {
			Cure(text, p)
			if startsLine(p.Try) && !readsInSomeUnit(p.Try) {
				t.Errorf("the Try of %v cannot be read", p)
			}
		}
	})
}

// readsInSomeUnit says whether a line can be read, whatever unit the lines above it have said.
func readsInSomeUnit(line string) bool {
	for _, u := range []length.Unit{length.MM, length.CM, length.IN} {
		r := newReader("")
		r.unit = u
		if r.mended(line) == line {
			return true
		}
	}
	return false
}

// What can be read is written so that it reads as the same card, and is written the same again.
func FuzzFormat(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, text []byte) {
		if r, problems := Read("x.card", text); len(problems) == 0 {
			fixedPoint(t, r)
			again, problems := Read("again", FromCard(r.Card()).Format())
			if len(problems) > 0 {
				t.Fatalf("the recipe made of the card cannot be read:\n%s", printed(problems))
			}
			sameCard(t, r.Card(), again.Card())
		}
	})
}
