package flat_test

import (
	"context"
	"fmt"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"
)

const lantern = `card "Lantern"
units mm
stock plain "plain card" 250 gsm, 0.3 mm
piece wall of plain
  size 252 x 150
  score across at 60, 120, 180, 240
  panels left, front, right, back, tab
  fold all mountain
glue wall.tab inside wall.left, left
opens at wall.1 to 90
`

// How wide is the closed card, and which scores are folded shut in it?
func ExampleClose() {
	r, _ := recipe.Parse("lantern.card", []byte(lantern))
	a, _ := pattern.Assemble(r.Card())
	closed := flat.Close(context.Background(), a)
	fmt.Println(closed.Status, closed.Box.W().Human(length.MM))
	for i, h := range a.Hinges {
		if closed.Folded[i] {
			fmt.Println("score", h.Score()+1)
		}
	}
	// Output:
	// solved 120 mm
	// score 1
	// score 3
}

// A wrong score: by how much does the tab miss, and what cures it?
func ExampleExplain() {
	r, _ := recipe.Parse("lantern.card", []byte(lantern))
	c := r.Card()
	c.Pieces[0].Scores[0].At += length.Millimetre
	a, _ := pattern.Assemble(c)
	miss := flat.Explain(context.Background(), a)
	for _, g := range miss.Gaps {
		fmt.Println(g.Name, g.DX.Human(length.MM))
	}
	fmt.Println(miss.Cures[0].Label, miss.Cures[0].To.Human(length.MM))
	// Output:
	// wall.tab inside wall.left 2 mm
	// wall: score 1 60 mm
}
