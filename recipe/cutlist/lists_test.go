package cutlist

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/internal/golden"
	"foldwright/recipe"
)

// testCatalogue is the catalogue that the lists are compared with.
func testCatalogue(t testing.TB) []Form {
	t.Helper()
	paths, err := filepath.Glob("testdata/catalogue/*.card")
	if err != nil || len(paths) < 5 {
		t.Fatalf("%d cards in the catalogue (%v)", len(paths), err)
	}
	var out []Form
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		r, problems := recipe.Parse(path, text)
		if r == nil {
			t.Fatal(problems)
		}
		out = append(out, Form{strings.TrimSuffix(filepath.Base(path), ".card"), r.Card()})
	}
	return out
}

func read(t testing.TB, text string, catalogue []Form) *Result {
	t.Helper()
	return Read(context.Background(), "list.txt", []byte(text), catalogue)
}

// measures writes what a list says of a piece: how many, the size, the scores from the smallest to the largest.
func measures(p card.Piece) string {
	scores := slices.Clone(p.Scores)
	slices.SortStableFunc(scores, func(a, b card.Score) int { return int(a.At/1000 - b.At/1000) })
	var b strings.Builder
	fmt.Fprintf(&b, "%d of %d x %d nm", p.Copies, p.Size.W, p.Size.H)
	for _, s := range scores {
		fmt.Fprintf(&b, " %s %d", [...]string{"across", "up", "slanted"}[s.Kind], s.At)
	}
	return b.String()
}

// A list called FORM--anything says the pieces of a card of the catalogue, whatever its manner: the numbers are the same
// to the nanometre, and the form is found.
func TestLists(t *testing.T) {
	forms := testCatalogue(t)
	paths, err := filepath.Glob("testdata/lists/*.txt")
	if err != nil || len(paths) < 40 {
		t.Fatalf("%d lists (%v)", len(paths), err)
	}
	for _, path := range paths {
		t.Run(filepath.Base(path), func(t *testing.T) {
			text, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			r := read(t, string(text), forms)
			golden.Compare(t, strings.TrimSuffix(path, ".txt")+".read", []byte(printed(r)))
			sound(t, string(text), r)
			if form, _, ok := strings.Cut(filepath.Base(path), "--"); ok {
				sameAsForm(t, r, form, forms)
			}
		})
	}
}

func sameAsForm(t *testing.T, r *Result, form string, forms []Form) {
	t.Helper()
	i := slices.IndexFunc(forms, func(f Form) bool { return f.Name == form })
	if i < 0 || r.Card == nil {
		t.Fatalf("no card, or no form %s", form)
	}
	if r.Matched == nil || r.Matched.Form != form {
		t.Errorf("matched %+v, want %s", r.Matched, form)
	}
	byName := map[string]card.Piece{}
	for _, p := range forms[i].Card.Pieces {
		byName[p.Name] = p
	}
	for _, p := range r.Card.Pieces {
		if got, want := measures(p), measures(byName[p.Name]); got != want {
			t.Errorf("%s is %s, want %s", p.Name, got, want)
		}
	}
}

func printed(r *Result) string {
	var b bytes.Buffer
	b.WriteString(r.Recipe)
	b.WriteString("---\n")
	for _, u := range r.Unplaced {
		fmt.Fprintf(&b, "not placed %d:%d %s\n", u.Line, u.Column, u.Text)
	}
	for _, p := range r.Problems {
		b.WriteString(p.String() + "\n")
	}
	return b.String()
}

// sound checks what holds of every result: places lie in the text, nothing with a digit is lost, and a recipe without a
// problem can be read and says the same.
func sound(t testing.TB, text string, r *Result) {
	t.Helper()
	lines := strings.Split(strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n"), "\n")
	place := func(line, col int) {
		if line < 1 || line > len(lines) || col < 1 || col > len([]rune(lines[line-1]))+1 {
			t.Errorf("%d:%d is not in the text", line, col)
		}
	}
	for _, u := range r.Unplaced {
		place(u.Line, u.Column)
		if u.Text == "" {
			t.Errorf("%d:%d is empty", u.Line, u.Column)
		}
	}
	for _, p := range r.Problems {
		place(p.Where.Line, p.Where.Column)
	}
	if r.Card == nil || r.Problems.HasErrors() {
		return
	}
	back, problems := recipe.Parse("back.card", []byte(r.Recipe))
	if back == nil {
		t.Fatalf("the recipe cannot be read: %v\n%s", problems, r.Recipe)
	}
	if got := string(back.Format()); got != r.Recipe {
		t.Errorf("the recipe is not in its one form:\n%s\nformatted:\n%s", r.Recipe, got)
	}
	if len(back.Card().Pieces) != len(r.Card.Pieces) {
		t.Fatalf("the recipe has %d pieces, the card %d", len(back.Card().Pieces), len(r.Card.Pieces))
	}
	for i, p := range back.Card().Pieces {
		if got, want := measures(p), measures(r.Card.Pieces[i]); got != want {
			t.Errorf("the recipe says %s, the card %s", got, want)
		}
	}
}
