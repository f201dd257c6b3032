package fold_test

import (
	"context"
	"fmt"

	"foldwright/flat"
	"foldwright/fold"
	"foldwright/forms"
	"foldwright/pattern"
	"foldwright/recipe"
)

// How does a card open, how freely, and how large is it then?
func ExampleModel_Path() {
	text, _ := forms.Text("rising-gull")
	r, _ := recipe.Parse("rising-gull", text)
	a, _ := pattern.Assemble(r.Card())
	ctx := context.Background()
	o := fold.New(flat.Close(ctx, a)).Path(ctx, 60)
	fmt.Println(o.Outcome == fold.Opens, o.Freedom)
	fmt.Printf("%.1f wide, %.1f deep, %.1f high\n", o.Width, o.Depth, o.Height)
	// Output:
	// true 1
	// 210.0 wide, 56.6 deep, 148.0 high
}
