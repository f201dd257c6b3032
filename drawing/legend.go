package drawing

import (
	"cmp"
	"slices"
)

// Entry is one line of a legend.
type Entry struct {
	Kind Style
	// Over is a second hatching, which lies over that of Kind in the sample; None for most.
	Over  Role
	Words string
}

// Kinds returns the line and fill styles that the drawing uses, each once, by role and then by tint; shades do not count.
func (d *Drawing) Kinds() []Style {
	used := map[Style]bool{}
	for _, s := range d.Shapes() {
		switch s := s.(type) {
		case Polyline:
			used[s.Line.Fill()] = true
		case Polygon:
			used[s.Fill.kind()], used[s.Line.Fill()] = true, true
		case Ellipse:
			used[s.Fill.kind()], used[s.Line.Fill()] = true, true
		}
	}
	delete(used, Style{})
	kinds := make([]Style, 0, len(used))
	for k := range used {
		kinds = append(kinds, k)
	}
	slices.SortFunc(kinds, func(a, b Style) int { return cmp.Or(cmp.Compare(a.Role, b.Role), cmp.Compare(a.Tint, b.Tint)) })
	return kinds
}

// kind returns the style without what a legend does not tell apart.
func (s Style) kind() Style {
	k := Style{Role: s.Role}
	if s.Role == FaceOuter || s.Role == FaceInner {
		k.Tint = s.Tint
	}
	return k
}

// Entries returns the legend of the kinds that the drawing uses. words names a kind ("navy card, outer face"); where it
// is nil or returns "" the role's own words stand, and kinds without words are left out.
func (d *Drawing) Entries(words func(Style) string) []Entry {
	var entries []Entry
	for _, k := range d.Kinds() {
		text := ""
		if words != nil {
			text = words(k)
		}
		if text == "" {
			text = k.Role.Words()
		}
		if text != "" {
			entries = append(entries, Entry{Kind: k, Words: text})
		}
	}
	return entries
}

// Measures of a legend in mm.
const (
	sampleWide = 16
	sampleHigh = 3.6
	legendRow  = 6
	legendGap  = 2.5 // between a sample and its words
	legendAway = 7   // between columns
)

// Legend draws the entries in columns, from the top left corner at down, at most width mm wide where one column allows.
// Entries run down the columns. Without entries there are no shapes.
func Legend(at Point, entries []Entry, width float64) Layout {
	if len(entries) == 0 {
		return Layout{}
	}
	column := 0.0
	for _, e := range entries {
		column = max(column, sampleWide+legendGap+TextRoom(e.Words, NoteSize, false)+legendAway)
	}
	across := min(len(entries), max(1, int((width+legendAway)/column)))
	down := (len(entries) + across - 1) / across
	var shapes []Shape
	for i, e := range entries {
		corner := at.Add(Point{float64(i/down) * column, -float64(i%down) * legendRow})
		shapes = append(shapes, sample(corner, e)...)
		shapes = append(shapes, Text{
			Role: TextPlain, Words: e.Words, Size: NoteSize, Level: Centred,
			At: corner.Add(Point{sampleWide + legendGap, -legendRow / 2}),
		})
	}
	return Layout{Shapes: shapes, Box: BoundsOf(shapes), Depth: float64(down) * legendRow}
}

// sample draws what an entry explains in a field of a legend whose top left corner is at.
func sample(at Point, e Entry) []Shape {
	low := at.Add(Point{0, -(legendRow + sampleHigh) / 2})
	high := low.Add(Point{sampleWide, sampleHigh})
	middle := at.Add(Point{0, -legendRow / 2})
	role := e.Kind.Role
	switch _, line := role.Pen(); {
	case role.hatches():
		box := Rect(Style{}, Frame, low, high)
		out := HatchGlue(role, box.Outer, nil)
		if e.Over.hatches() {
			out = append(out, HatchGlue(e.Over, box.Outer, nil)...)
		}
		return append(out, box)
	case line:
		return []Shape{Line(role, middle, middle.Add(Point{sampleWide, 0}))}
	}
	return []Shape{Rect(e.Kind, Frame, low, high)}
}
