package view

import (
	"fmt"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/length"
	"foldwright/plane"
)

// both returns a length in the card's unit with the other one in brackets, typeset: "42 mm (≈ 1⅝ in)".
func both(l length.Length, u length.Unit) string {
	return l.Typeset(u) + " (" + l.Typeset(u.Other()) + ")"
}

// size returns a width and a height in both units: "120 × 168 mm (≈ 4¾ × 6⅝ in)".
func size(w, h length.Length, u length.Unit) string {
	return sizeIn(w, h, u) + " (" + sizeIn(w, h, u.Other()) + ")"
}

// sizeIn returns a width and a height in one unit, with one "≈" where either is rounded.
func sizeIn(w, h length.Length, u length.Unit) string {
	return once(bare(w, u) + " × " + h.Typeset(u))
}

// once puts one "≈" before words in which any length is rounded.
func once(words string) string {
	if exact := strings.ReplaceAll(words, "≈ ", ""); exact != words {
		return "≈ " + exact
	}
	return words
}

// stockWords describes a stock: "navy card, 270 gsm, 0.36 mm".
func stockWords(s *card.Stock) string {
	if s == nil {
		return "stock not said"
	}
	words := s.Label
	if words == "" {
		words = s.Name
	}
	if s.Grammage > 0 {
		words += ", " + drawing.Number(s.Grammage) + " gsm"
	}
	if s.Caliper > 0 {
		words += ", " + s.Caliper.Typeset(length.MM)
	}
	return words
}

// stockLabel returns the short name of a stock for people.
func stockLabel(c *card.Card, name string) string {
	if s := c.StockNamed(name); s != nil && s.Label != "" {
		return s.Label
	}
	return name
}

// tint returns the tint in which a stock of the card is drawn; no two of a card have the same.
func tint(c *card.Card, name string) int {
	if i := slices.IndexFunc(c.Stocks, func(s card.Stock) bool { return s.Name == name }); i >= 0 {
		return tints(c)[i]
	}
	return 0
}

// tints returns the tint of every stock: that of the colour its label or name says, unless an earlier one has it, else the
// first that is free.
func tints(c *card.Card) []int {
	const open = -1
	out := slices.Repeat([]int{open}, len(c.Stocks))
	for i, s := range c.Stocks {
		n, ok := drawing.TintOf(s.Label)
		if !ok {
			n, ok = drawing.TintOf(s.Name)
		}
		if ok && !slices.Contains(out, n) {
			out[i] = n
		}
	}
	next := 0
	for i := range out {
		for out[i] == open {
			if !slices.Contains(out, next) {
				out[i] = next
			}
			next++
		}
	}
	return out
}

// fileWord turns words into a plain word for file names: letters a to z, digits and hyphens.
func fileWord(words string) string {
	var b strings.Builder
	for _, r := range strings.ToLower(words) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		default:
			b.WriteByte('-')
		}
	}
	return strings.Trim(b.String(), "-")
}

// points returns points as a recipe writes them, first in the card's unit, then in the other one, with words between them:
// "(60, 90) to (60, 130) mm, ≈ (2⅜, 3⁹⁄₁₆) to (2⅜, 5⅛) in".
func points(u length.Unit, between string, list ...plane.Point) string {
	in := func(u length.Unit) string {
		var words []string
		for _, p := range list {
			words = append(words, fmt.Sprintf("(%s, %s)", bare(p.X, u), bare(p.Y, u)))
		}
		return once(strings.Join(words, between)) + " " + u.String()
	}
	return in(u) + ", " + in(u.Other())
}

// bare returns a length without its unit, with typographic fractions.
func bare(l length.Length, u length.Unit) string {
	return strings.TrimSuffix(l.Typeset(u), " "+u.String())
}

// legendWords names the faces of the card's stocks, and other kinds as a view wants them called.
func legendWords(c *card.Card, own map[drawing.Role]string) func(drawing.Style) string {
	return func(s drawing.Style) string {
		if words, ok := own[s.Role]; ok {
			return words
		}
		if stock := slices.Index(tints(c), s.Tint); (s.Role == drawing.FaceOuter || s.Role == drawing.FaceInner) && stock >= 0 {
			face := "outer face"
			if s.Role == drawing.FaceInner {
				face = "inner face"
			}
			return stockLabel(c, c.Stocks[stock].Name) + ", " + face
		}
		return ""
	}
}
