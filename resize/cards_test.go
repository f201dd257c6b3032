package resize

import (
	"context"
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/recipe"

	"pgregory.net/rapid"
)

// Sample is a small card whose measures are whole millimetres in a list, so that a test can write it again with others.
type Sample struct {
	Kind string
	// Parts names the measures; two of one piece and direction that are equal are tied.
	Parts []Part
	// Text writes the recipe with these measures.
	Text func(v []int) string
	// Keeps says whether the inequalities of the keep lines hold. Nil where there are none.
	Keeps func(v []int) bool
	// Quick is what a person sees at once must hold for the card to lie flat; it saves laying out what cannot.
	Quick func(v []int) bool
}

// Part is one measure of a Sample.
type Part struct {
	Name string // of the panel; parts of one piece with one name are one measure
	// Piece is the piece and the direction, "wall across"; "" for a shift, which is tied to nothing.
	Piece string
	Up    bool
	Old   int // mm
	// Kept is the number of a keep line, 0 for none.
	Kept int
}

// Old returns the measures of the sample as it is.
func (s *Sample) Old() []int {
	v := make([]int, len(s.Parts))
	for i, p := range s.Parts {
		v[i] = p.Old
	}
	return v
}

var shapes = []struct {
	name string
	draw func(*rapid.T) *Sample
}{{"tube", drawTube}, {"greeting card", drawGreeting}, {"cross piece", drawCross}, {"box with a strip", drawBox}}

// Draw draws a sample of any shape.
func Draw(t *rapid.T) *Sample {
	return shapes[rapid.IntRange(0, len(shapes)-1).Draw(t, "shape")].draw(t)
}

func mm(t *rapid.T, name string, low, high int) int { return rapid.IntRange(low, high).Draw(t, name) }

// tube lists the panels of two halves that lie on each other, then a tab, then the height.
func tubeParts(front, back []Part, tab, kept, height int) []Part {
	parts := append(append([]Part{}, front...), back...)
	parts = append(parts, Part{Name: "tab", Piece: "wall across", Old: tab, Kept: kept})
	return append(parts, Part{Name: "height", Piece: "wall up", Up: true, Old: height})
}

func writeStrip(b *strings.Builder, piece, direction string, names []string, widths []int, other int, fold string) {
	total, at := 0, []string{}
	for i, w := range widths {
		if total += w; i < len(widths)-1 {
			at = append(at, fmt.Sprint(total))
		}
	}
	w, h := total, other
	if direction == "up" {
		w, h = other, total
	}
	fmt.Fprintf(b, "piece %s of white\n  size %d x %d\n", piece, w, h)
	if len(at) > 0 {
		fmt.Fprintf(b, "  score %s at %s\n", direction, strings.Join(at, ", "))
	}
	fmt.Fprintf(b, "  panels %s\n", strings.Join(names, ", "))
	if len(at) > 0 {
		fmt.Fprintf(b, "  fold %s\n", fold)
	}
	b.WriteString("\n")
}

const head = "card \"Sample\"\nunits mm\nmarks 1 mm\n\nstock white \"smooth white\" 240 gsm, 0.31 mm\n\n"

func names(parts []Part) []string {
	var out []string
	for _, p := range parts {
		out = append(out, p.Name)
	}
	return out
}

// drawTube draws a tube with a tab: two halves of one to three panels, of two to four kinds.
func drawTube(t *rapid.T) *Sample {
	kinds := rapid.SampledFrom([]string{"ab|ab", "ab|ba", "aba|aba", "abc|abc", "ab|cd", "aba|cbc", "abc|bd"}).Draw(t, "kinds")
	width := map[rune]int{}
	for _, k := range "abcd" {
		width[k] = mm(t, string(k), 4, 14)
	}
	frontKinds, backKinds, _ := strings.Cut(kinds, "|")
	sum := func(s string) (n int) {
		for _, k := range s {
			n += width[k]
		}
		return n
	}
	// The last kind closes the tube.
	last := rune(backKinds[len(backKinds)-1])
	if gap := sum(frontKinds) - sum(backKinds) + width[last]; !strings.ContainsRune(frontKinds, last) {
		if gap < 2 {
			t.Skip("these widths do not close")
		}
		width[last] = gap
	}
	if sum(frontKinds) != sum(backKinds) {
		t.Skip("these widths do not close")
	}
	part := func(s string) (out []Part) {
		for _, k := range s {
			out = append(out, Part{Name: string(k), Piece: "wall across", Old: width[k]})
		}
		return out
	}
	// The panel that the tab is glued on needs a name of its own.
	front := part(frontKinds)
	front[0].Name = "first"
	tab := mm(t, "tab", 1, width['a'])
	kept := 0
	if rapid.Bool().Draw(t, "keep the tab") {
		kept = tab
	}
	atMost := rapid.Bool().Draw(t, "keep first <= b") && width['a'] <= width['b']
	s := &Sample{Kind: "tube", Parts: tubeParts(front, part(backKinds), tab, kept, mm(t, "height", 5, 20))}
	n := len(s.Parts)
	s.Text = func(v []int) string {
		b := &strings.Builder{}
		b.WriteString(head)
		writeStrip(b, "wall", "across", names(s.Parts[:n-1]), v[:n-1], v[n-1], "all mountain")
		b.WriteString("glue wall.tab inside wall.first, left\n")
		if kept > 0 {
			fmt.Fprintf(b, "keep wall.tab = %d\n", kept)
		}
		if atMost {
			b.WriteString("keep wall.first <= wall.b\n")
		}
		return b.String()
	}
	half := len(frontKinds)
	s.Quick = func(v []int) bool { return total(v[:half]) == total(v[half:n-2]) }
	if atMost {
		s.Keeps = func(v []int) bool { return v[0] <= v[1] }
	}
	return s
}

func total(v []int) (n int) {
	for _, x := range v {
		n += x
	}
	return n
}

// drawGreeting draws a folded card with a plate glued inside.
func drawGreeting(t *rapid.T) *Sample {
	left := mm(t, "left", 6, 20)
	right := left
	if rapid.Bool().Draw(t, "a short front") {
		right = mm(t, "right", 6, 20)
	}
	over, up := mm(t, "over", 0, 3), mm(t, "up", 0, 3)
	s := &Sample{Kind: "greeting card", Parts: []Part{
		{Name: "left", Piece: "page across", Old: left},
		{Name: "right", Piece: "page across", Old: right},
		{Name: "height", Piece: "page up", Up: true, Old: mm(t, "height", 6, 24)},
		{Name: "plate", Piece: "plate across", Old: mm(t, "plate", over+1, 16)},
		{Name: "plate height", Piece: "plate up", Up: true, Old: mm(t, "plate height", up+1, 20)},
	}}
	if over > 0 {
		s.Parts = append(s.Parts, Part{Name: "over", Old: over})
	}
	if up > 0 {
		s.Parts = append(s.Parts, Part{Name: "up", Up: true, Old: up})
	}
	side := rapid.SampledFrom([]string{", left", "", ", right", ", left, bottom", ", top"}).Draw(t, "side")
	s.Text = func(v []int) string {
		b := &strings.Builder{}
		b.WriteString(head)
		writeStrip(b, "page", "across", []string{"left", "right"}, v[:2], v[2], "all mountain")
		writeStrip(b, "plate", "across", []string{"plate"}, v[3:4], v[4], "")
		b.WriteString("glue plate.plate facing page.right" + side)
		k := 5
		if over > 0 {
			fmt.Fprintf(b, ", over %d", v[k])
			k++
		}
		if up > 0 {
			fmt.Fprintf(b, ", up %d", v[k])
		}
		b.WriteString("\n")
		return b.String()
	}
	s.Quick = func([]int) bool { return true }
	return s
}

// drawCross draws a tube with a piece over it that is glued to front and back, as the roof of a stand.
func drawCross(t *rapid.T) *Sample {
	a, b := mm(t, "side", 4, 12), mm(t, "front", 4, 12)
	foot, slope := mm(t, "foot", 1, 4), mm(t, "slope", 3, 12)
	kept := 0
	if rapid.Bool().Draw(t, "keep the foot") {
		kept = foot
	}
	front := []Part{{Name: "left", Piece: "wall across", Old: a}, {Name: "front", Piece: "wall across", Old: b}, {Name: "right", Piece: "wall across", Old: a}}
	back := []Part{{Name: "back-right", Piece: "wall across", Old: a}, {Name: "back", Piece: "wall across", Old: b}, {Name: "back-left", Piece: "wall across", Old: a}}
	s := &Sample{Kind: "cross piece", Parts: tubeParts(front, back, mm(t, "tab", 1, a), 0, mm(t, "height", foot, 14))}
	roof := mm(t, "roof", 2, b)
	if rapid.Bool().Draw(t, "as wide as the front") {
		roof = b
	}
	s.Parts = append(s.Parts,
		Part{Name: "roof width", Piece: "roof across", Old: roof},
		Part{Name: "front-foot", Piece: "roof up", Up: true, Old: foot, Kept: kept},
		Part{Name: "front-slope", Piece: "roof up", Up: true, Old: slope},
		Part{Name: "back-slope", Piece: "roof up", Up: true, Old: slope},
		Part{Name: "back-foot", Piece: "roof up", Up: true, Old: foot})
	s.Text = func(v []int) string {
		b := &strings.Builder{}
		b.WriteString(head)
		writeStrip(b, "wall", "across", names(s.Parts[:7]), v[:7], v[7], "all mountain")
		writeStrip(b, "roof", "up", names(s.Parts[9:]), v[9:], v[8], "all mountain")
		b.WriteString("glue wall.tab inside wall.left, left\nglue roof.front-foot outside wall.front, top\n" +
			"glue roof.back-foot outside wall.back, top, turned 180\n")
		if kept > 0 {
			fmt.Fprintf(b, "keep roof.front-foot = %d\n", kept)
		}
		return b.String()
	}
	// Front above back, and the fold of the roof in its middle, or else the feet are not level.
	s.Quick = func(v []int) bool { return v[0]+v[1]+v[2] == v[3]+v[4]+v[5] && v[10] == v[11] }
	return s
}

// drawBox draws a box that folds flat as a parallelogram, with a strip across it that stays level with the front.
func drawBox(t *rapid.T) *Sample {
	front, side := mm(t, "front", 5, 12), mm(t, "side", 7, 14)
	foot := mm(t, "foot", 1, 3)
	over := mm(t, "over", 1, side-foot)
	height := mm(t, "height", 5, 12)
	s := &Sample{Kind: "box with a strip", Parts: tubeParts(
		[]Part{{Name: "front", Piece: "wall across", Old: front}, {Name: "right", Piece: "wall across", Old: side}},
		[]Part{{Name: "back", Piece: "wall across", Old: front}, {Name: "left", Piece: "wall across", Old: side}},
		mm(t, "tab", 1, 3), 0, height)}
	s.Parts = append(s.Parts,
		Part{Name: "left-foot", Piece: "strip across", Old: foot}, Part{Name: "view", Piece: "strip across", Old: front},
		Part{Name: "right-foot", Piece: "strip across", Old: foot},
		Part{Name: "strip height", Piece: "strip up", Up: true, Old: mm(t, "strip height", 2, height)},
		Part{Name: "over", Old: over}, Part{Name: "-over", Old: over})
	s.Text = func(v []int) string {
		b := &strings.Builder{}
		b.WriteString(head)
		writeStrip(b, "wall", "across", names(s.Parts[:5]), v[:5], v[5], "all mountain")
		writeStrip(b, "strip", "across", []string{"left-foot", "view", "right-foot"}, v[6:9], v[9], "all mountain")
		b.WriteString("glue wall.tab inside wall.front, left\n")
		fmt.Fprintf(b, "glue strip.right-foot inside wall.right, left, bottom, over %d\n", v[10])
		fmt.Fprintf(b, "glue strip.left-foot inside wall.left, right, bottom, over -%d\n", v[11])
		return b.String()
	}
	s.Quick = func(v []int) bool { return v[0]+v[1] == v[2]+v[3] }
	return s
}

// Shut reads a recipe and folds it shut.
func Shut(t interface{ Fatalf(string, ...any) }, text string) (*recipe.Recipe, *flat.Closed) {
	r, problems := recipe.Parse("sample.card", []byte(text))
	if r == nil || problems.HasErrors() {
		t.Fatalf("this card cannot be read: %v\n%s", problems, text)
	}
	a, problems := pattern.Assemble(r.Card())
	if a == nil {
		t.Fatalf("this card has no pattern: %v\n%s", problems, text)
	}
	return r, flat.Close(context.Background(), a)
}

// Millimetres is a request in millimetres.
func Millimetres(w, h, marks int) Request {
	return Request{
		To:    card.Size{W: length.Length(w) * length.Millimetre, H: length.Length(h) * length.Millimetre},
		Marks: length.Length(marks) * length.Millimetre, MarksUnit: length.MM, Unit: length.MM,
	}
}
