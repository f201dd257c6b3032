package resize_test

import (
	"bytes"
	"context"
	"fmt"
	"testing"

	"foldwright/flat"
	"foldwright/forms"
	"foldwright/internal/golden"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/proof"
	. "foldwright/resize"
	"foldwright/stock"
)

// TestSizes keeps what becomes of every form at the sizes that are asked for most.
func TestSizes(t *testing.T) {
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	out.WriteString("Every form of the catalogue brought to common sizes, each on its own marks.\n" +
		"cost: marks², the squares of how far the measures are from the old ones scaled.\n")
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			t.Fatal(err)
		}
		r, closed := Shut(t, string(text))
		c := r.Card()
		fmt.Fprintf(&out, "\n%s, marks of %s, for %s x %s\n", name, c.Marks.Human(c.Unit), c.Fits.W.Human(c.Unit), c.Fits.H.Human(c.Unit))
		for _, to := range []string{"105x148mm", "C6", "A7", "DL", "5x7in", "6x6in", "150x150mm"} {
			size, _, err := Target(to, table, c.Fits.H >= c.Fits.W)
			if err != nil {
				t.Fatal(err)
			}
			got, err := Resize(context.Background(), r, closed, Request{To: size, Marks: c.Marks, MarksUnit: c.Unit, Unit: c.Unit, Serves: serves})
			if err != nil {
				t.Fatal(err)
			}
			fmt.Fprintf(&out, "  %-10s %s\n", to, outcome(got, c.Unit))
		}
	}
	golden.Compare(t, "testdata/sizes.txt", out.Bytes())
}

func serves(text []byte) bool { return proof.Prove(context.Background(), "", text).Proven() }

func outcome(got *Result, unit length.Unit) string {
	if got.Status != flat.Solved {
		text := got.Status.String()
		for _, c := range got.Conflict {
			text += "\n             " + c
		}
		return text
	}
	proven := "proven"
	if report := proof.Prove(context.Background(), "", got.Recipe.Format()); !report.Proven() {
		proven = "NOT PROVEN"
		for _, p := range report.Problems {
			if p.Severity == problem.Error {
				proven += ": " + p.What
			}
		}
	}
	text := fmt.Sprintf("%11s x %-11s cost %9.3f  %s", got.Closed.Box.W().Human(unit), got.Closed.Box.H().Human(unit), got.CostMarks2, proven)
	if got.Passed > 0 {
		text += fmt.Sprintf(", after %d nearer that are not", got.Passed)
	}
	for _, r := range got.Released {
		text += "\n             given up: " + r
	}
	return text
}
