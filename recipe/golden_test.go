package recipe

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/problem"
)

var update = flag.Bool("update", false, "write the golden files anew")

// eachFile runs f for every recipe in a folder, and fails if there is none.
func eachFile(t *testing.T, folder string, f func(t *testing.T, path string, text []byte)) {
	t.Helper()
	paths, err := filepath.Glob(filepath.Join("testdata", folder, "*.card"))
	if err != nil || len(paths) == 0 {
		t.Fatalf("no recipes in testdata/%s (%v)", folder, err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			f(t, path, text)
		})
	}
}

// golden compares a text with a file beside the recipe; a missing file is a failure.
func golden(t *testing.T, path, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got\n%s", path, got)
	}
}

func printed(problems problem.List) string {
	var b strings.Builder
	for _, p := range problems {
		b.WriteString(p.String() + "\n")
	}
	return b.String()
}

// A file in the one form comes back byte for byte, and has no error.
func TestCanonicalFiles(t *testing.T) {
	eachFile(t, "canonical", func(t *testing.T, path string, text []byte) {
		r, problems := Parse(filepath.Base(path), text)
		if problems.HasErrors() {
			t.Fatalf("problems:\n%s", printed(problems))
		}
		if got := r.Format(); !bytes.Equal(got, text) {
			t.Errorf("got\n%s", got)
		}
		written := FromCard(r.Card()).Format()
		again, problems := Parse("written", written)
		if problems.HasErrors() {
			t.Fatalf("problems of the recipe that the card makes:\n%s\n%s", printed(problems), written)
		}
		sameCard(t, r.Card(), again.Card())
	})
}

// A file as people write it gets the one form, which is a fixed point.
func TestLooseFiles(t *testing.T) {
	eachFile(t, "loose", func(t *testing.T, path string, text []byte) {
		r, problems := Parse(filepath.Base(path), text)
		if problems.HasErrors() {
			t.Fatalf("problems:\n%s", printed(problems))
		}
		golden(t, strings.TrimSuffix(path, ".card")+".formatted", string(r.Format()))
		fixedPoint(t, r)
	})
}

func TestProblemFiles(t *testing.T) {
	eachFile(t, "problems", func(t *testing.T, path string, text []byte) {
		r, problems := Parse(filepath.Base(path), text)
		if (r == nil) != problems.HasErrors() {
			t.Errorf("recipe is nil: %v, there are errors: %v", r == nil, problems.HasErrors())
		}
		golden(t, strings.TrimSuffix(path, ".card")+".problems", printed(problems))
	})
}
