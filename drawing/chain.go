package drawing

import (
	"strconv"

	"foldwright/length"
)

// MarkAt is a ruler mark: a place along the edge, in mm, counted from where the ruler's zero lies.
type MarkAt struct {
	At    float64
	Label Label
}

// Span is a stretch along the edge: the width of a panel.
type Span struct {
	From, To float64
	Label    Label
}

// Chain is the dimensions along one edge of a piece: ruler marks, all counted from one end as makers score them, and
// the widths between them. Either may be missing. Where labels are too wide for their places they go to further rows,
// joined by leaders; no label overlaps another and no line runs through one.
type Chain struct {
	Side Side
	// Origin is where the edge has its zero: its left end, or its bottom end on an upright edge.
	Origin Point
	// Marks and Spans come by rising place.
	Marks []MarkAt
	Spans []Span
	// MarksNote and SpansNote are written small at the row: what is measured, in which unit.
	MarksNote, SpansNote string
	// Within keeps the labels between the first and the last place, at the cost of rows, where it can be done: for
	// templates that must fit a sheet.
	Within bool
}

// Layout is a part of a drawing that has found its place.
type Layout struct {
	Shapes []Shape
	Box    Box
	// Depth is how far it reaches from where it began, in mm.
	Depth float64
}

// RulerMarks returns the ruler marks of stops: exact distances from the zero end, rising, as the maker sets them.
func RulerMarks(stops []length.Length, u length.Unit) []MarkAt {
	marks := make([]MarkAt, len(stops))
	for i, s := range stops {
		marks[i] = MarkAt{s.MM(), Measure(s, u)}
	}
	return marks
}

// Widths returns the spans between neighbouring stops, the widths of the panels.
func Widths(stops []length.Length, u length.Unit) []Span {
	var spans []Span
	for i := 1; i < len(stops); i++ {
		spans = append(spans, Span{stops[i-1].MM(), stops[i].MM(), Measure(stops[i]-stops[i-1], u)})
	}
	return spans
}

// RulerNote returns the words for a row of ruler marks: "ruler marks from the left edge, mm".
func RulerNote(side Side, u length.Unit) string {
	from := "left"
	if side.upright() {
		from = "bottom"
	}
	return "ruler marks from the " + from + " edge, " + u.String()
}

// WidthsNote returns the words for a row of panel widths: "panel widths, mm".
func WidthsNote(u length.Unit) string { return "panel widths, " + u.String() }

// Scaled returns the chain with its places multiplied by k, for a view that is not true to size.
func (c Chain) Scaled(k float64) Chain {
	marks, spans := make([]MarkAt, len(c.Marks)), make([]Span, len(c.Spans))
	for i, m := range c.Marks {
		marks[i] = MarkAt{m.At * k, m.Label}
	}
	for i, s := range c.Spans {
		spans[i] = Span{s.From * k, s.To * k, s.Label}
	}
	c.Marks, c.Spans = marks, spans
	return c
}

// Distances away from the edge, in mm.
const (
	edgeGap  = 1.0 // between the piece and the lines that point at it
	firstRow = 3.0 // the first dimension line
	tick     = 1.2 // half the length of a tick
	textGap  = 0.9 // between a line and figures
	rowGap   = 1.6 // between rows of labels
	// leaderGap keeps the end of a leader clear of the tails of a fraction in a label above it.
	leaderGap = 0.7
	noteGap   = 1.8 // between labels and the note below them
	blockGap  = 2.6 // between the ruler marks and the widths
	labelGap  = 1.5 // between labels of a row
	// withinSlack lets a single figure stand centred below the end of the edge where labels are to stay within.
	withinSlack = 1.5
)

// Lay draws the chain. The layout's Depth is how far it reaches from the edge.
func (c Chain) Lay() Layout {
	w := &chainWriter{Chain: c, edge: edge{c.Side, c.Origin}, out: firstRow}
	if len(c.Marks) > 0 {
		w.marks()
		w.note(c.MarksNote)
	}
	if len(c.Spans) > 0 {
		if len(c.Marks) > 0 {
			w.out += blockGap
		}
		w.spans()
		w.note(c.SpansNote)
	}
	return Layout{Shapes: w.shapes, Box: BoundsOf(w.shapes), Depth: w.out}
}

// chainWriter draws a chain row by row; out is how far from the edge it has come.
type chainWriter struct {
	Chain
	edge
	shapes []Shape
	out    float64
}

func (w *chainWriter) add(s ...Shape) { w.shapes = append(w.shapes, s...) }

func (w *chainWriter) gap() float64 {
	if w.side.upright() {
		return rowGap
	}
	return labelGap
}

// put lays out labels from w.out on and returns, for each, its slot and where its row starts and ends.
func (w *chainWriter) put(items []pinned, labels []Label, lo, hi float64) (slots []slot, start, end []float64) {
	slots = place(items, w.gap(), lo, hi)
	depth := make([]float64, rows(slots))
	for i, s := range slots {
		depth[s.row] = max(depth[s.row], w.across(labels[i]))
	}
	start, end = make([]float64, len(slots)), make([]float64, len(slots))
	from := make([]float64, len(depth))
	for r := range depth {
		if r > 0 {
			w.out += rowGap
		}
		from[r] = w.out
		w.out += depth[r]
	}
	for i, s := range slots {
		start[i], end[i] = from[s.row], from[s.row]+depth[s.row]
		w.add(w.label(labels[i], s, start[i], depth[s.row])...)
	}
	return slots, start, end
}

// marks draws the ruler: a line from the zero end with a ring at the zero, a tick at every mark and its label beyond.
func (w *chainWriter) marks() {
	first, last := w.Marks[0].At, w.Marks[len(w.Marks)-1].At
	lo, hi := -unbounded, unbounded
	if w.Within {
		lo, hi = first-withinSlack, last+withinSlack
	}
	line := w.out
	w.out += tick + textGap
	items, labels := make([]pinned, len(w.Marks)), make([]Label, len(w.Marks))
	for i, m := range w.Marks {
		items[i], labels[i] = pinned{m.At, w.along(m.Label)}, m.Label
	}
	slots, start, end := w.put(items, labels, lo, hi)
	for i, m := range w.Marks {
		far := line + tick
		switch {
		case slots[i].hang != centred:
			far = end[i]
		case slots[i].row > 0:
			far = start[i] - leaderGap
		}
		w.add(w.line(Dimension, m.At, edgeGap, m.At, far))
	}
	const ring = 0.8
	w.add(w.line(Dimension, first+ring, line, last, line))
	w.add(Circle(Paper.Fill(), Dimension, w.at(first, line), ring))
}

// spans draws the widths: a line with a slanting tick at every end, the figures in the line where they fit between the
// ticks and in further rows, joined by leaders, where they do not.
func (w *chainWriter) spans() {
	var fits, rest []Span
	deepest := 0.0
	for _, s := range w.Spans {
		if w.along(s.Label)+1 <= s.To-s.From {
			fits = append(fits, s)
			deepest = max(deepest, w.across(s.Label))
		} else {
			rest = append(rest, s)
		}
	}
	rest = gathered(rest)
	line, inlineEnd := w.spanLine(len(fits) > 0, deepest)
	for _, s := range fits {
		w.inline(s, line)
	}
	w.spanTicks(line)
	w.out = inlineEnd
	if len(rest) > 0 {
		w.outOfLine(rest, line)
	}
}

// gathered joins neighbouring spans of the same width, which do not fit one by one, into one label: "6 × 3".
func gathered(spans []Span) []Span {
	var out []Span
	for i := 0; i < len(spans); {
		n := 1
		for i+n < len(spans) && spans[i+n].From == spans[i+n-1].To && spans[i+n].Label == spans[i].Label {
			n++
		}
		s := spans[i]
		if n > 1 {
			s.To = spans[i+n-1].To
			s.Label.Main = strconv.Itoa(n) + " × " + s.Label.Main
			if s.Label.Sub != "" {
				s.Label.Sub += " each"
			}
		}
		out = append(out, s)
		i += n
	}
	return out
}

// spanLine returns how far out the dimension line lies and where the labels in it end. Level lines run between the two
// units; beside an upright line the labels stand on its far side.
func (w *chainWriter) spanLine(anyFits bool, deepest float64) (line, end float64) {
	switch {
	case !anyFits:
		return w.out + tick, w.out + 2*tick
	case w.side.upright():
		return w.out + tick, w.out + tick + textGap + deepest
	case w.side == Above:
		line = w.out + CapHeight*SubSize + textGap
		return line, line + textGap + CapHeight*LabelSize
	}
	line = w.out + CapHeight*LabelSize + textGap
	return line, line + textGap + CapHeight*SubSize
}

// inline draws the label of a span at the middle of its dimension line.
func (w *chainWriter) inline(s Span, line float64) {
	mid := (s.From + s.To) / 2
	if w.side.upright() {
		h := w.along(s.Label) / 2
		w.add(w.label(s.Label, slot{from: mid - h, to: mid + h}, line+textGap, 0)...)
		return
	}
	up := Point{0, textGap}
	w.add(s.Label.main(w.at(mid, line).Add(up), Middle, Baseline))
	if s.Label.Sub != "" {
		w.add(s.Label.sub(w.at(mid, line).Sub(up), Middle, Top))
	}
}

// spanTicks draws the dimension line and its ends. Lines from the edge are drawn only where no labels lie between.
func (w *chainWriter) spanTicks(line float64) {
	near := line - tick
	if len(w.Marks) == 0 {
		near = edgeGap
	}
	drawn := map[float64]bool{}
	for _, s := range w.Spans {
		w.add(w.line(Dimension, s.From, line, s.To, line))
		for _, t := range []float64{s.From, s.To} {
			if !drawn[t] {
				drawn[t] = true
				w.add(w.line(Dimension, t, near, t, line+tick))
				w.add(w.line(Dimension, t-tick/1.5, line+tick/1.5, t+tick/1.5, line-tick/1.5))
			}
		}
	}
}

// outOfLine draws the labels that do not fit into their spans, each with a leader from the middle of its span.
func (w *chainWriter) outOfLine(rest []Span, line float64) {
	w.out += textGap
	items, labels := make([]pinned, len(rest)), make([]Label, len(rest))
	for i, s := range rest {
		items[i], labels[i] = pinned{(s.From + s.To) / 2, w.along(s.Label)}, s.Label
	}
	lo, hi := -unbounded, unbounded
	if w.Within {
		lo, hi = w.Spans[0].From, w.Spans[len(w.Spans)-1].To
	}
	slots, start, end := w.put(items, labels, lo, hi)
	for i, s := range rest {
		far := start[i] - leaderGap
		if slots[i].hang != centred {
			far = end[i]
		}
		mid := (s.From + s.To) / 2
		w.add(w.line(Frame, mid, line, mid, far))
		w.add(Circle(Dimension.Fill(), None, w.at(mid, line), 0.4))
	}
}

// note writes what a block of rows measures, beyond it; along an upright edge it is turned to read upwards.
func (w *chainWriter) note(words string) {
	if words == "" {
		return
	}
	w.out += noteGap
	t := Text{Role: TextQuiet, Words: words, Size: NoteSize, Level: Top}
	height := (CapHeight + Descent) * NoteSize
	first := w.first()
	switch w.side {
	case Below:
		t.At = w.at(first, w.out)
	case Above:
		t.At = w.at(first, w.out+height)
	case Left:
		t.At, t.TurnDeg = w.at(first, w.out+height), 90
	case Right:
		t.At, t.TurnDeg = w.at(first, w.out), 90
	}
	w.add(t)
	w.out += height
}

// first returns the lowest place of the chain.
func (w *chainWriter) first() float64 {
	if len(w.Marks) > 0 {
		return w.Marks[0].At
	}
	return w.Spans[0].From
}
