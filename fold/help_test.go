package fold

import (
	"context"
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"foldwright/flat"
	"foldwright/pattern"
	"foldwright/recipe"
)

const degree = math.Pi / 180

// parse returns the model of a recipe that must lie flat.
func parse(t testing.TB, text string) *Model {
	t.Helper()
	r, problems := recipe.Parse("test.card", []byte(text))
	if r == nil {
		t.Fatalf("recipe: %v\n%s", problems, text)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatalf("assemble: %v", problems)
	}
	return model(t, a)
}

func model(t testing.TB, a *pattern.Assembly) *Model {
	t.Helper()
	closed := flat.Close(context.Background(), a)
	if !closed.LiesFlat() {
		t.Fatalf("the card does not lie flat: %v", closed.Status)
	}
	return New(closed)
}

// form returns the model of a card of the catalogue.
func form(t testing.TB, name string) *Model {
	t.Helper()
	text, err := os.ReadFile("../forms/" + name + ".card")
	if err != nil {
		t.Fatal(err)
	}
	return parse(t, string(text))
}

// spokes writes scores from the middle of a square of 200 mm to its edge, at the sums of the sector angles in degrees.
func spokes(sectors ...float64) string {
	var b strings.Builder
	at := 10.0 // so that no spoke meets a corner
	for _, s := range sectors {
		sin, cos := math.Sincos(at * degree)
		k := 100 / max(math.Abs(sin), math.Abs(cos))
		fmt.Fprintf(&b, "  score (100, 100) to (%.6f, %.6f)\n", 100+k*cos, 100+k*sin)
		at += s
	}
	return b.String()
}

const oneSheet = `card "Test"
units mm
stock plain "plain card" 250 gsm, 0.3 mm
piece sheet of plain
  size 200 x 200
`
