package fit

import (
	"context"
	"fmt"
	"testing"

	"foldwright/flat"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
	"foldwright/stock"
)

const mm = length.Millimetre

func load(t testing.TB) *stock.Table {
	t.Helper()
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// shut reads a recipe and folds the card shut.
func shut(t testing.TB, text string) *flat.Closed {
	t.Helper()
	c, err := closeCard(text)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

func closeCard(text string) (*flat.Closed, error) {
	r, probs := recipe.Parse("a.card", []byte(text))
	if r == nil || probs.HasErrors() {
		return nil, fmt.Errorf("read: %v", probs)
	}
	a, probs := pattern.Assemble(r.Card())
	if a == nil {
		return nil, fmt.Errorf("assemble: %v", probs)
	}
	c := flat.Close(context.Background(), a)
	if !c.LiesFlat() {
		return nil, fmt.Errorf("the card does not lie flat: %v", c.Status)
	}
	return c, nil
}

// eachForm runs f on every form of the catalogue, shut.
func eachForm(t *testing.T, f func(t *testing.T, name string, c *flat.Closed)) {
	t.Helper()
	n := 0
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		n++
		t.Run(name, func(t *testing.T) { f(t, name, shut(t, string(text))) })
	}
	if n < 10 {
		t.Errorf("got %d forms, want the whole catalogue", n)
	}
}

func envelopes(t testing.TB) []Envelope {
	t.Helper()
	all, probs := Pick(load(t), nil)
	if len(probs) > 0 || len(all) < 40 {
		t.Fatal(len(all), probs)
	}
	return all
}

func ladder(t testing.TB, operator string) stock.Ladder {
	t.Helper()
	l, err := load(t).LaddersOf(operator)
	if err != nil {
		t.Fatal(err)
	}
	return l[0]
}
