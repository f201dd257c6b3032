package view

import (
	"slices"
	"testing"

	"foldwright/card"
	"foldwright/drawing"
)

// TestTints: a stock is drawn in the colour that it names, and no two of a card in the same tint.
func TestTints(t *testing.T) {
	of := func(word string) int {
		n, ok := drawing.TintOf(word)
		if !ok {
			t.Fatalf("there is no tint for %s", word)
		}
		return n
	}
	stock := func(name, label string) card.Stock { return card.Stock{Name: name, Label: label} }
	white, blue, sand := of("white"), of("blue"), of("sand")
	first := slices.IndexFunc([]int{0, 1, 2, 3}, func(n int) bool { return n != white && n != sand })
	for _, c := range []struct {
		name   string
		stocks []card.Stock
		want   []int
	}{
		{"label, then name", []card.Stock{stock("sea", "smooth white"), stock("sand", "rough card")}, []int{white, sand}},
		{"no colour takes what is left", []card.Stock{stock("a", ""), stock("white", ""), stock("sand", "")}, []int{first, white, sand}},
		{"the first of two keeps it", []card.Stock{stock("navy", ""), stock("sky", "")}, []int{blue, 1}},
	} {
		if got := tints(&card.Card{Stocks: c.stocks}); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	many := tints(&card.Card{Stocks: make([]card.Stock, drawing.Tints+2)})
	slices.Sort(many)
	if len(slices.Compact(many)) != drawing.Tints+2 {
		t.Errorf("more stocks than tints share one: %v", many)
	}
}
