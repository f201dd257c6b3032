package problem

import (
	"strconv"
	"strings"
)

// Clip shortens a text to so many characters, and … behind them, so that a message stays readable whatever was typed.
func Clip(s string, most int) string {
	if len(s) <= most { // a character is a byte at least
		return s
	}
	n := 0
	for i := range s {
		if n == most {
			return s[:i] + "…"
		}
		n++
	}
	return s
}

// Quote puts what a person typed between quotes, clipped.
func Quote(s string) string { return strconv.Quote(Clip(s, 40)) }

// Count returns "1 score", "2 scores", "2 copies"; a noun with another plural is the caller's business.
func Count(n int, noun string) string {
	switch {
	case n == 1:
	case strings.HasSuffix(noun, "y"):
		noun = noun[:len(noun)-1] + "ies"
	default:
		noun += "s"
	}
	return strconv.Itoa(n) + " " + noun
}
