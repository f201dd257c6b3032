package flat

import (
	"context"
	"os"
	"strings"
	"testing"

	"foldwright/card"
	"foldwright/pattern"
	"foldwright/recipe"
)

// read returns the card of a recipe.
func read(t testing.TB, text string) *card.Card {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(text))
	if r == nil {
		t.Fatalf("recipe: %v\n%s", problems, text)
	}
	return r.Card()
}

func assemble(t testing.TB, c *card.Card) *pattern.Assembly {
	t.Helper()
	a, problems := pattern.Assemble(c)
	if a == nil {
		t.Fatalf("assemble: %v", problems)
	}
	return a
}

// shut folds a recipe shut.
func shut(t testing.TB, text string) *Closed {
	t.Helper()
	return Close(context.Background(), assemble(t, read(t, text)))
}

// form returns the recipe of a card of the catalogue.
func form(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../forms/" + name + ".card")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// folds writes what is folded as text, copy by copy in the order of the card: "wall 3 6, roof 2".
func folds(c *Closed, folded []bool) string {
	var parts []string
	for i, cp := range c.Assembly.Copies {
		line := cp.Name
		for h, at := range c.Assembly.Hinges {
			if at.Copy == i && folded[h] {
				line += " " + itoa(at.Score()+1)
			}
		}
		parts = append(parts, line)
	}
	return strings.Join(parts, ", ")
}

func itoa(n int) string {
	if n >= 10 {
		return itoa(n/10) + itoa(n%10)
	}
	return string(rune('0' + n))
}

const header = `card "Test"
units mm
stock plain "plain card" 250 gsm, 0.3 mm
`
