package foldwright

import (
	"bytes"
	"context"
	"os"
	"slices"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/proof"
	"foldwright/recipe"
)

// readmeRecipe returns the one recipe that README.md shows.
func readmeRecipe(t testing.TB) []byte {
	t.Helper()
	b, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	var found []byte
	for i, block := range bytes.Split(b, []byte("```\n")) {
		if i%2 == 1 && bytes.Contains(block, []byte("\ncard \"")) {
			if found != nil {
				t.Fatal("README.md shows two recipes")
			}
			found = block
		}
	}
	if found == nil {
		t.Fatal("README.md shows no recipe: nothing was checked")
	}
	return found
}

// TestReadme_recipe: the recipe in README.md has no problems, is written as the program writes it, and lies flat within
// the size that it says. It is the first text that a maker copies.
func TestReadme_recipe(t *testing.T) {
	text := readmeRecipe(t)
	r, probs := recipe.Parse("lantern.card", text)
	if len(probs) > 0 {
		t.Fatalf("got %v, want no problems", probs)
	}
	if got := r.Format(); !bytes.Equal(got, text) {
		t.Errorf("the program writes it as\n%s", got)
	}
	a, probs := pattern.Assemble(r.Card())
	if len(probs) > 0 {
		t.Fatalf("got %v, want no problems", probs)
	}
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatalf("got %v, want it to lie flat", closed.Status)
	}
	// by hand: two sides of 60 mm side by side
	if got, want := (card.Size{W: closed.Box.W(), H: closed.Box.H()}), (card.Size{W: 120 * length.Millimetre, H: 150 * length.Millimetre}); got != want {
		t.Errorf("closed: got %v x %v mm, want 120 x 150 mm", got.W.MM(), got.H.MM())
	}
}

// TestReadme_problem: the problem in README.md is what the program says of that recipe with one letter too many.
func TestReadme_problem(t *testing.T) {
	text := strings.Replace(string(readmeRecipe(t)), "glue wall.tab ", "glue wall.tabb ", 1)
	_, probs := recipe.Parse("lantern.card", []byte(text))
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := strings.Split(string(readme), "```\n")
	if len(probs) != 1 || !slices.Contains(blocks, probs[0].String()+"\n") {
		t.Errorf("README.md does not show what the program says: %v", probs)
	}
}

// TestReadme_prove: what README.md shows of prove is what the program says of its recipe, as it is and with one score off.
func TestReadme_prove(t *testing.T) {
	text := readmeRecipe(t)
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	blocks := strings.Split(string(readme), "```\n")
	for _, score := range []string{"60", "61"} {
		changed := bytes.Replace(text, []byte("at 60, 120"), []byte("at "+score+", 120"), 1)
		var b bytes.Buffer
		if err := proof.Prove(context.Background(), "lantern.card", changed).Print(&b); err != nil {
			t.Fatal(err)
		}
		if !slices.Contains(blocks, b.String()) {
			t.Errorf("README.md does not show what the program says with score 1 at %s:\n%s", score, &b)
		}
	}
}

// TestRecipePage: the recipe in RECIPE.md is that of the catalogue.
func TestRecipePage(t *testing.T) {
	page, err := os.ReadFile("RECIPE.md")
	if err != nil {
		t.Fatal(err)
	}
	form, err := forms.Text("harbour-light")
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Contains(strings.Split(string(page), "```\n"), string(form)) {
		t.Error("RECIPE.md does not show the card harbour-light as it is in the catalogue")
	}
}
