package cutlist

import (
	"context"
	"slices"
	"strings"
	"testing"

	"foldwright/forms"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/recipe"
)

// wholeCatalogue is the catalogue that the program has.
func wholeCatalogue(t testing.TB) []Form {
	t.Helper()
	var out []Form
	for _, n := range forms.Names() {
		text, err := forms.Text(n)
		if err != nil {
			t.Fatal(err)
		}
		r, problems := recipe.Parse(n, text)
		if r == nil {
			t.Fatal(problems)
		}
		out = append(out, Form{n, r.Card()})
	}
	return out
}

// A list with one wrong number is read as written, is not proven, and what the number should have been is named; with the
// right number the same list is proven.
func TestSlips(t *testing.T) {
	catalogue := wholeCatalogue(t)
	lights := harbourLights()
	easel := "Picture front, 4 x 5 1/4 in.\nBase: 4 x 10 1/2 in, score up the long side at {x} and 5 1/4.\n"
	lantern := "Lantern wall 220 x 120 mm, score every 52 mm.\nSpring 132 x 56 mm; score at 12, 36, {x}, 84 and 120 mm.\n"
	eight := "Wall 22 x 11 cm: score at 2.4, 5.2, 8, 10.4, {x}, 15.6, 18.4 and 20.8 cm.\n" +
		"Spring 26.8 x 5.4 cm: score at 2.8, 5.6, 7.4, 9.2, 11, 12.8, 15.6, 18.4, 20.2, 22, 23.8 and 25.6 cm.\n"
	strips := "Front cover 104 x 150 mm\nBack cover 104 x 150 mm\nStrips, cut three: 196 x 142 mm, score at {x} and 184 mm\n"
	folds := map[string]bool{"gull-easel-inches": true, "tide-accordion": true} // also with the slip, only not evenly
	for _, test := range []struct{ form, text, right, wrong string }{
		{"harbour-light-inches", strings.Replace(lights[0].pieces, "3 1/4, 5, 6 3/4", "3 1/4, {x}, 6 3/4", 1), "5", "5 1/8"},
		{"harbour-light-inches", strings.Replace(lights[0].pieces, "4 1/2, 6, 6 3/4", "4 1/2, {x}, 6 3/4", 1), "6", "5 3/4"},
		{"harbour-light-inches", strings.Replace(lights[0].pieces, "1/2, 3, 5 1/2\n", "1/2, {x}, 5 1/2\n", 1), "3", "3 1/4"},
		{"harbour-light", strings.Replace(lights[1].pieces, "78, 120, 162", "78, {x}, 162", 1), "120", "124"},
		{"harbour-light", strings.Replace(lights[1].pieces, "108, 144, 162", "108, {x}, 162", 1), "144", "114"},
		{"harbour-light", strings.Replace(lights[2].pieces, "12; 16,2; 19,8", "12; {x}; 19,8", 1), "16,2", "16,8"},
		{"gull-easel-inches", easel, "2 5/8", "2 3/8"},
		{"square-lantern", lantern, "60", "66"},
		{"eight-lantern", eight, "12.8", "12.4"},
		{"tide-accordion", strips, "92", "98"},
	} {
		right := fill(test.text, "{x}", test.right)
		r := read(t, right, catalogue)
		if !strings.Contains(test.text, "{x}") || r.Matched == nil || r.Matched.Form != test.form || !prove(r).Proven() || len(r.Lacks) > 0 {
			t.Errorf("%q is not proven as it is right: %+v, %v", right, r.Matched, prove(r).Problems)
			continue
		}
		wrong := fill(test.text, "{x}", test.wrong)
		r = read(t, wrong, catalogue)
		if r.Matched == nil || r.Matched.Form != test.form || r.Problems.HasErrors() {
			t.Errorf("%q: matched %+v, %v", wrong, r.Matched, r.Problems)
			continue
		}
		if !strings.Contains(r.Recipe, decimalPoint(test.wrong)) || len(r.Unplaced) > 0 {
			t.Errorf("%q is not read as written:\n%s", wrong, r.Recipe)
		}
		if prove(r).Proven() != folds[test.form] {
			t.Errorf("%q: proven %v, with a wrong number", wrong, !folds[test.form])
		}
		if !named(r.Problems, decimalPoint(test.right)) {
			t.Errorf("%q: the reader does not name %s: %v", wrong, test.right, r.Problems)
		}
	}
}

func prove(r *Result) *proof.Report {
	return proof.Prove(context.Background(), "list", []byte(r.Recipe))
}

func decimalPoint(s string) string { return strings.ReplaceAll(s, ",", ".") }

// named says whether a warning of the reader proposes a score at a number.
func named(l problem.List, number string) bool {
	return slices.ContainsFunc(l, func(p problem.Problem) bool {
		return p.Rule == "width-pattern" && strings.HasPrefix(p.Needs, "a score at "+number+",")
	})
}
