package forms

import (
	"bytes"
	"strings"
	"testing"

	"foldwright/recipe"
)

func TestForms(t *testing.T) {
	names := Names()
	if len(names) < 5 {
		t.Fatalf("%d forms: %v", len(names), names)
	}
	titles := map[string]string{}
	for _, n := range names {
		text, err := Text(n)
		if err != nil {
			t.Fatal(err)
		}
		r, problems := recipe.Parse(n, text)
		if r == nil {
			t.Fatalf("%s: %v", n, problems)
		}
		if got := r.Format(); !bytes.Equal(got, text) {
			t.Errorf("%s is not in the one form of a recipe; foldwright format --write forms/%s.card", n, n)
		}
		if other, twice := titles[r.Card().Title]; twice {
			t.Errorf("%s and %s have one title", n, other)
		}
		titles[r.Card().Title] = n
	}
}

func TestText(t *testing.T) {
	if _, err := Text("harbour-lihgt"); err == nil || !strings.Contains(err.Error(), `"harbour-light"`) {
		t.Errorf("got %v, want a hint at harbour-light", err)
	}
}
