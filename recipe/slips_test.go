package recipe

import (
	"strings"
	"testing"
)

// A card without a units line is read all the same, with a warning where a number needs one; the Try makes it go.
func TestNoUnits(t *testing.T) {
	whole := "card \"Gull\"\nstock s 100 gsm, 0.1 mm\npiece a of s\n  size 60 mm x 2 in\n  panels p\nopens by itself\n"
	for _, test := range []struct{ name, text, where string }{
		{"every number has its unit", whole, ""},
		{"a bare number", strings.Replace(whole, "60 mm", "60", 1), "x.card:4:8"},
		{"the second of two numbers", strings.Replace(whole, "2 in", "2", 1), "x.card:4:16"},
		{"nothing is bare but 0", whole + "  # \nkeep a.width >= 0\n", ""},
		{"a relation", whole + "keep a.width >= 3\n", "x.card:7:17"},
		{"a factor", whole + "keep a.width >= 2 * a.height / 3\n", ""},
		{"behind a comment", "# gulls\n\n" + strings.Replace(whole, "60 mm", "60", 1), "x.card:6:8"},
		{"the units line cannot be read", strings.Replace(whole, "60 mm", "60", 1) + "units yards\n", ""},
	} {
		r, problems := Parse("x.card", []byte(test.text))
		at := ""
		for _, p := range problems {
			if p.Rule == "no-units" {
				at = p.Where.String()
			}
		}
		if at != test.where {
			t.Errorf("%s: the warning stands at %q, want %q; there are\n%s", test.name, at, test.where, printed(problems))
		}
		if at == "" {
			continue
		}
		if r == nil || len(problems) != 1 {
			t.Errorf("%s: %v with problems\n%s", test.name, r, printed(problems))
			continue
		}
		cured, _ := Cure([]byte(test.text), problems[0])
		if _, problems = Parse("x.card", cured); len(problems) > 0 {
			t.Errorf("%s: after the Try there are\n%s\n%s", test.name, printed(problems), cured)
		}
	}
}

// Further slips of a line are mended in its Try too; where one has no cure, or there are too many, there is no Try.
func TestMended(t *testing.T) {
	for _, test := range []struct{ in, want string }{
		{"size 10 x 20", "size 10 x 20"},
		{"size 10,5 20 inches", "size 10.5 x 20 in"},
		{"size 10,5 20 yards", ""},
		{"score across at 1" + strings.Repeat(" 2", mostSlips-1), "score across at 1" + strings.Repeat(", 2", mostSlips-1)},
		{"score across at 1" + strings.Repeat(" 2", mostSlips), ""},
		{"keep clip#1.tab = 3", ""}, // its own Try is a word and no line
	} {
		if got := newReader("x.card").mended(test.in); got != test.want {
			t.Errorf("%s: got %q, want %q", test.in, got, test.want)
		}
	}
}

// Marks that no length can hold are told with those that rulers have, and the nearest of them is the Try.
func TestRulersMarks(t *testing.T) {
	for in, try := range map[string]string{"1/7in": "marks 1/8 in", "1/7": "marks 1/64 in", "1/40 in": "", "1/128 in": "marks 1/64 in", "1/31 in": "marks 1/32 in", "1/3 in": "marks 5 mm"} {
		_, problems := Read("x.card", []byte("marks "+in+"\n"))
		if try == "" {
			if len(problems) > 0 {
				t.Errorf("%s: %s", in, printed(problems))
			}
			continue
		}
		if len(problems) != 1 || problems[0].Try != try || problems[0].Needs != "marks that a ruler has: 1 mm, 5 mm, 1/8 in, 1/16 in, 1/32 in, 1/64 in" {
			t.Errorf("%s: want %s\n%s", in, try, printed(problems))
		}
	}
}

// A word that people may use leads to the recipe's own, and the line is read as if it stood there.
func TestOtherWords(t *testing.T) {
	for other, word := range map[string]string{"cut": "size", "hole": "window", "slot": "slit", "paper": "stock", "part": "piece",
		"title": "card", "attach": "glue", "layer": "mat", "ornament": "topper", "Panels": "panels", "scores": "score"} {
		text := []byte("card \"Gull\"\nstock s 100 gsm, 0.1\npiece a of s\n" + other + " nonsense\n")
		_, problems := Parse("x.card", text)
		p, ok := find(problems, "unknown-line", "4:1")
		if !ok || p.Try != word {
			t.Errorf("%s: no way to %s in\n%s", other, word, printed(problems))
		}
		for _, q := range problems {
			if q.Where.Line == 4 && q.Rule != "unknown-line" {
				t.Errorf("%s: a second problem in one line: %v", other, q)
			}
		}
	}
}
