package problem

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestPlace(t *testing.T) {
	for _, test := range []struct {
		place Place
		want  string
	}{
		{Place{"gull.card", 14, 42}, "gull.card:14:42"},
		{Place{"", 14, 42}, "14:42"},
		{Place{"gull.card", 0, 0}, "gull.card"},
		{Place{}, ""},
	} {
		if got := test.place.String(); got != test.want {
			t.Errorf("%#v: got %q, want %q", test.place, got, test.want)
		}
	}
}

func TestPrint(t *testing.T) {
	p := Problem{Rule: "unknown-panel", Where: Place{"gull.card", 22, 6}, What: `there is no panel "wall.tabb"`}
	if got, want := p.String(), `gull.card:22:6  there is no panel "wall.tabb" [unknown-panel]`; got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	p = Problem{Rule: "off-marks", Severity: Warning, What: "10.5 is not on the marks", Needs: "the nearest mark: 11", Try: "size 11 x 10",
		Notes: []Note{{Place{"", 3, 7}, "the marks are said here"}, {What: "and nowhere else"}}}
	want := `warning: 10.5 is not on the marks [off-marks]
    needs: the nearest mark: 11
    try:   size 11 x 10
    3:7  the marks are said here
    and nowhere else`
	if got := p.String(); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
	if Error.String() != "error" || Warning.String() != "warning" {
		t.Errorf("%v, %v", Error, Warning)
	}
}

func TestSorted(t *testing.T) {
	at := func(file string, line, column int, rule string, s Severity) Problem {
		return Problem{Rule: rule, Severity: s, Where: Place{file, line, column}, What: rule}
	}
	want := List{
		at("a.card", 0, 0, "whole", Error),
		at("a.card", 2, 5, "b", Error),
		at("a.card", 2, 5, "a", Warning),
		at("a.card", 2, 10, "a", Error),
		at("a.card", 10, 1, "a", Error),
		at("b.card", 1, 1, "a", Error),
	}
	var l List
	for _, i := range []int{4, 1, 3, 5, 0, 2, 1, 4} { // two of them twice
		l.Add(want[i])
	}
	before := slices.Clone(l)
	got := l.Sorted()
	same := func(a, b List) bool {
		return slices.EqualFunc(a, b, func(p, q Problem) bool { return p.String() == q.String() })
	}
	if !same(got, want) {
		t.Errorf("got %v", got)
	}
	if !same(l, before) {
		t.Errorf("the list itself has changed: %v", l)
	}
}

func TestHasErrors(t *testing.T) {
	for _, test := range []struct {
		list List
		want bool
	}{{nil, false}, {List{{Severity: Warning}}, false}, {List{{Severity: Warning}, {}}, true}} {
		if got := test.list.HasErrors(); got != test.want {
			t.Errorf("%v: got %v", test.list, got)
		}
	}
}

func TestSuggest(t *testing.T) {
	candidates := []string{"left", "front", "right", "back-right", "back", "tab", "mountain"}
	for _, test := range []struct{ word, want string }{
		{"tabb", "tab"}, {"tba", "tab"}, {"ab", "tab"}, {"tub", "tab"}, {"tab", "tab"},
		{"lfet", "left"}, {"fornt", "front"}, {"bakc-rihgt", "back-right"}, {"montain", "mountain"}, {"muontian", "mountain"},
		{"wing", ""}, {"ta", "tab"}, {"t", ""}, {"", ""}, {"valley", ""}, {"bac-rit-x", ""}, // back-right is four changes away
		{strings.Repeat("tab", 100), ""},
	} {
		got, ok := Suggest(test.word, candidates)
		if got != test.want || ok != (test.want != "") {
			t.Errorf("%q: got %q (%v), want %q", test.word, got, ok, test.want)
		}
	}
	if got, ok := Suggest("tab", nil); ok {
		t.Errorf("without candidates: %q", got)
	}
}

// The distance that Suggest uses is symmetric, zero only for the same word, and never more than the longer word.
func TestEditDistance(t *testing.T) {
	for _, test := range []struct {
		a, b string
		want int
	}{{"", "", 0}, {"", "abc", 3}, {"ab", "ba", 1}, {"ca", "abc", 3}, {"kitten", "sitting", 3}, {"naïve", "naive", 1}} {
		if got := editDistance([]rune(test.a), []rune(test.b)); got != test.want {
			t.Errorf("%q and %q: got %d, want %d", test.a, test.b, got, test.want)
		}
	}
	rapid.Check(t, func(t *rapid.T) {
		word := rapid.StringMatching(`[abc]{0,6}`)
		a, b := []rune(word.Draw(t, "a")), []rune(word.Draw(t, "b"))
		d := editDistance(a, b)
		if d != editDistance(b, a) || (d == 0) != slices.Equal(a, b) || d > max(len(a), len(b)) || d < max(len(a), len(b))-min(len(a), len(b)) {
			t.Fatalf("%q and %q: %d", string(a), string(b), d)
		}
	})
}
