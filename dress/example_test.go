package dress_test

import (
	"context"
	"fmt"

	"foldwright/card"
	"foldwright/dress"
	"foldwright/forms"
	"foldwright/length"
	"foldwright/proof"
	"foldwright/stock"
)

// A stand whose walls have mats gets them on its roof too, and an oval; and what is to be cut for that.
func Example() {
	text, err := forms.Text("harbour-light")
	if err != nil {
		fmt.Println(err)
		return
	}
	r := proof.ProveBare(context.Background(), "harbour-light.card", text)
	dies, problems := stock.ReadDies("dies.csv", []byte("name,tool,shape,unit,width,height,set\noval,die,oval,mm,60,80,\n"))
	if len(problems) > 0 {
		fmt.Println(problems)
		return
	}
	w := dress.New(r.Closed, r.Opening)
	foam := card.Stock{Name: "foam", Label: "sea foam", Grammage: 160, Caliper: 190 * length.Micrometre}
	mats, problems := w.Mats(dress.MatJob{Front: []dress.Layer{{Stock: foam}}})
	if mats == nil {
		fmt.Println(problems)
		return
	}
	fmt.Println(mats.Mats[0].Panels[0], "edge", mats.Mats[0].Edge.Human(length.MM))
	top, problems := w.Topper(context.Background(), dress.TopperJob{
		On:     card.PanelRef{Piece: "roof", Panel: "back-slope"},
		Sheets: []dress.Sheet{{Die: dies[0], Stock: foam}},
	})
	if top == nil {
		fmt.Println(problems)
		return
	}
	fmt.Println("beyond its panel by", top.OverPanel.Left.Human(length.MM), "left and", top.OverPanel.Above.Human(length.MM), "above; stands:", top.Steady)
	for _, c := range dress.Cuts(w.Dressed(top.Dressing)) {
		if c.Stock == "foam" {
			fmt.Println(c.Count, c.Shape, c.W.Human(length.MM), "x", c.H.Human(length.MM))
		}
	}
	// Output:
	// roof.front-slope edge 3 mm
	// beyond its panel by 12 mm left and 10 mm above; stands: true
	// 1 oval 60 mm x 80 mm
}
