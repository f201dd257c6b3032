package proof_test

import (
	"context"
	"fmt"

	"foldwright/forms"
	"foldwright/proof"
)

// Is a card proven?
func ExampleProve() {
	text, _ := forms.Text("harbour-steps")
	r := proof.Prove(context.Background(), "harbour-steps.card", text)
	fmt.Println(r.Verdict())
	// Output:
	// Harbour steps: proven. It lies flat and it opens.
}
