package cutlist

import (
	"strings"
	"testing"

	"foldwright/recipe"
)

// The marks of a recipe are those of a ruler that every measurement lies on; where no ruler has them all, the recipe has
// no line for them, and can be read all the same.
func TestMarks(t *testing.T) {
	for _, test := range []struct{ text, marks string }{
		{"Base 210 x 148 mm, score at 105 mm", "marks 1 mm"},
		{"Base 210 x 148 mm, score at 52.5 and 157.5 mm", "marks 0.5 mm"},
		{"Base 21 x 14.8 cm, score at 10.5 cm", "marks 1 mm"},
		{"Base 8 1/2 x 5 1/2 in, score at 4 1/4", "marks 1/8 in"},
		{"Base 8 1/2 x 5 1/2 in, score at 4 3/64", "marks 1/64 in"},
		{"Base 20.32 x 15.24 cm, score at 10.16 cm", "marks 3.175 mm"}, // 8 x 6 in: marks of 1/8 in
		{"Base 21 x 14.8 cm, score at 10.5 cm\nSash 1 1/2\" x 9\"", ""},
		{"Base 210 x 148 mm, score at 105 mm\nSash 1 1/2\" x 9\"", ""},
		{"Base 8 1/2 x 5 1/2 in, score at 4 1/4\nSash 38 x 229 mm\nTail 40 x 10 mm", ""},
	} {
		r := read(t, test.text, nil)
		sound(t, test.text, r)
		got := ""
		for l := range strings.Lines(r.Recipe) {
			if strings.HasPrefix(l, "marks") {
				got = strings.TrimSpace(l)
			}
		}
		if got != test.marks || r.Problems.HasErrors() {
			t.Errorf("%q: %q, want %q; %v", test.text, got, test.marks, r.Problems)
		}
		if _, problems := recipe.Parse("made", []byte(r.Recipe)); problems.HasErrors() {
			t.Errorf("%q: the recipe cannot be read: %v", test.text, problems)
		}
	}
}
