package pattern_test

import (
	"fmt"

	"foldwright/pattern"
	"foldwright/recipe"
)

// Which panels does a piece have, and which scores join them?
func ExampleBuild() {
	r, _ := recipe.Parse("strip.card", []byte(`card "Strip"
stock plain "plain card" 250 gsm, 0.3 mm
piece strip of plain
  size 100 x 50
  score across at 30, 90
  panels front, back, tab
  fold m v
opens by itself
`))
	p, _ := pattern.Build(&r.Card().Pieces[0])
	for _, h := range p.Hinges {
		fmt.Println(p.Panels[h.Left].Name, p.Panels[h.Right].Name, h.Sense)
	}
	// Output:
	// front back mountain
	// back tab valley
}
