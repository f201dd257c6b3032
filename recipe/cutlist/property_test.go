package cutlist

import (
	"fmt"
	"strings"
	"testing"

	"foldwright/length"

	"pgregory.net/rapid"
)

// manner is one way to write a number with its unit.
type manner struct {
	name   string
	unit   length.Unit
	grid   length.Length
	most   int // marks of the grid
	number func(l length.Length) string
	suffix string
	sep    []string // between the numbers of a list
}

func decimal(unit length.Unit, comma bool) func(length.Length) string {
	return func(l length.Length) string {
		s, _ := l.Exact(unit)
		if comma {
			s = strings.Replace(s, ".", ",", 1)
		}
		return s
	}
}

func typeset(l length.Length) string { return strings.TrimSuffix(l.Typeset(length.IN), " in") }

func hyphened(l length.Length) string {
	s, _ := l.Exact(length.IN)
	return strings.Replace(s, " ", "-", 1)
}

func manners() []manner {
	commas := []string{", ", " / ", "; ", " & ", ", then ", " and "}
	noAnd := []string{", ", " / ", "; ", " & "}
	return []manner{
		{"millimetres", length.MM, length.Millimetre, 600, decimal(length.MM, false), " mm", append([]string{" ", ","}, commas...)},
		{"half millimetres", length.MM, length.Millimetre / 2, 1200, decimal(length.MM, false), "mm", append([]string{" "}, commas...)},
		{"centimetres", length.CM, length.Millimetre, 600, decimal(length.CM, false), " cm", append([]string{" "}, commas...)},
		{"decimal comma", length.CM, length.Millimetre, 600, decimal(length.CM, true), " cm", append([]string{" "}, commas...)},
		{"inches", length.IN, length.Inch / 16, 400, decimal(length.IN, false), " in", noAnd},
		{"inch marks", length.IN, length.Inch / 8, 200, typeset, "”", noAnd},
		{"typeset inches", length.IN, length.Inch / 16, 400, typeset, " inches", noAnd},
		{"hyphens", length.IN, length.Inch / 8, 200, hyphened, `"`, noAnd},
	}
}

// strip is what a list is to say.
type strip struct {
	w, h   length.Length
	scores []length.Length
	copies int
	up     bool
}

func (s strip) String() string {
	kind := "across"
	if s.up {
		kind = "up"
	}
	var b strings.Builder
	fmt.Fprintf(&b, "%d of %d x %d nm", s.copies, s.w, s.h)
	for _, at := range s.scores {
		fmt.Fprintf(&b, " %s %d", kind, at)
	}
	return b.String()
}

func drawStrip(t *rapid.T, m manner) strip {
	side := rapid.IntRange(4, m.most)
	w, h := side.Draw(t, "w"), side.Draw(t, "h")
	if w == h {
		h++
	}
	s := strip{w: length.Length(w) * m.grid, h: length.Length(h) * m.grid, up: h > w, copies: rapid.IntRange(1, 4).Draw(t, "copies")}
	at := 0
	for range rapid.IntRange(1, 9).Draw(t, "scores") {
		at += rapid.IntRange(1, 1+max(w, h)/6).Draw(t, "panel")
		if at >= max(w, h) {
			break
		}
		s.scores = append(s.scores, length.Length(at)*m.grid)
	}
	if len(s.scores) == 0 {
		s.scores = []length.Length{m.grid}
	}
	return s
}

// templates say a strip in prose: {n} how many, {w} and {h} the sides with their unit, {list} the scores.
func templates() []string {
	return []string{
		"You'll need {n} of {w} by {h}, scored on the long side at {list}.",
		"Strip: {w} x {h}, cut {d}, score along the long edge at {list}",
		"- Wall {w} × {h} (cut {d}); score the long side at {list}",
		"Cut {n} measuring {w} x {h}. Score along the longer side at {list}.",
		"{d} x strip {w} x {h}, scored on the longest edge: {list}",
		"Take card of {w} x {h} and on the long side score at {list}. Make {d} of these.",
		"part\tqty\tsize\tscore\nstrip\t{d}\t{w} x {h}\tlong side at {list}",
		"| piece | size | how many | score |\n|---|---|---|---|\n| strip | {w} x {h} | {d} | long side: {list} |",
		"piece   size               no   score\nstrip   {w} x {h}   {d}   along the long side at {list}",
	}
}

func render(t *rapid.T, m manner, s strip) string {
	words := []string{"", "one piece", "two pieces", "three pieces", "four pieces"}
	var list []string
	trailing := rapid.Bool().Draw(t, "unit once") // behind the last number of a list only
	for i, l := range s.scores {
		n := m.number(l)
		if !trailing || i == len(s.scores)-1 {
			n += m.suffix
		}
		list = append(list, n)
	}
	sep := rapid.SampledFrom(m.sep).Draw(t, "separator")
	return strings.NewReplacer("{n}", words[s.copies], "{d}", fmt.Sprint(s.copies), "{w}", m.number(s.w)+m.suffix, "{h}", m.number(s.h)+m.suffix,
		"{list}", strings.Join(list, sep)).Replace(rapid.SampledFrom(templates()).Draw(t, "template"))
}

// Whatever the manner and the template, the numbers read are those that were written.
func TestRenderedProse(t *testing.T) {
	for _, m := range manners() {
		t.Run(m.name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				s := drawStrip(rt, m)
				text := render(rt, m, s)
				r := read(t, text, nil)
				if r.Card == nil || len(r.Card.Pieces) != 1 {
					rt.Fatalf("%q: no piece, or several: %v", text, r.Problems)
				}
				if got, want := measures(r.Card.Pieces[0]), s.String(); got != want {
					rt.Fatalf("%q\n got %s\nwant %s\n%v", text, got, want, r.Problems)
				}
				if len(r.Unplaced) > 0 {
					rt.Fatalf("%q: not placed %v", text, r.Unplaced)
				}
			})
		})
	}
}
