package recipe

import (
	"bytes"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// Recipe is a text that was read: its lines with their comments, in order, and the card that they make. Make one with
// [Parse], [Read] or [FromCard].
type Recipe struct {
	file  string
	lines []line
	card  *card.Card
}

// line is one line: a statement, a comment, both, or neither (a blank line).
type line struct {
	statement statement
	comment   string // with its #
	inner     bool   // belongs to a piece, and is indented
}

func (l line) blank() bool { return l.statement == nil && l.comment == "" }

// Parse reads a recipe and checks the card that it makes with [card.CheckRead]. file is the name for messages; nothing
// is opened. The problems are sorted by place, at most [MaxProblems] and one that says that there are more. Where they
// hold an error, the recipe is nil; else it is not.
func Parse(file string, text []byte) (*Recipe, problem.List) {
	r := newReader(file)
	r.read(text)
	problems := r.problems
	out := r.recipe()
	if !r.stopped {
		problems = append(problems, r.noUnits()...)
		for _, p := range card.CheckRead(out.card, r.gaps) {
			if !r.told[p.Where.Line] || p.Where == out.card.Where { // what the whole card lacks is told there too
				problems.Add(p)
			}
		}
	}
	problems = Capped(problems.Sorted())
	if problems.HasErrors() {
		return nil, problems
	}
	return out, problems
}

// Read reads a recipe without checking the card: its problems are only those of lines that could not be read. Use it to
// write a recipe in its one form though the card in it is not finished.
func Read(file string, text []byte) (*Recipe, problem.List) {
	r := newReader(file)
	r.read(text)
	if problems := Capped(r.problems.Sorted()); problems.HasErrors() {
		return nil, problems
	}
	return r.recipe(), nil
}

// Capped cuts a list of problems that is sorted to those that a person reads: the first [MaxProblems], and one that says
// that there are more. That one is an error where one of those left out is.
func Capped(all problem.List) problem.List {
	if len(all) <= MaxProblems {
		return all
	}
	rest := all[MaxProblems:]
	more := problem.Problem{Rule: "more-problems", Severity: problem.Warning, Where: rest[0].Where, What: "there are more problems from here on",
		Needs: "the ones above put right first"}
	if rest.HasErrors() {
		more.Severity = problem.Error
	}
	return append(all[:MaxProblems:MaxProblems], more)
}

func (r *reader) recipe() *Recipe {
	for n := len(r.lines); n > 0 && r.lines[n-1].blank(); n-- {
		r.lines = r.lines[:n-1]
	}
	out := &Recipe{file: r.file, lines: r.lines}
	out.rebuild()
	return out
}

// rebuild makes the card of the lines.
func (r *Recipe) rebuild() {
	b := &builder{card: &card.Card{Where: problem.Place{File: r.file, Line: 1, Column: 1}}}
	for _, l := range r.lines {
		if l.statement == nil {
			continue
		}
		if !l.inner {
			b.finishPiece()
		}
		l.statement.build(b)
	}
	b.finishPiece()
	r.card = b.card
}

// Card returns the card that the recipe makes. It is not to be changed; after a Set it is another one.
func (r *Recipe) Card() *card.Card { return r.card }

// Unit returns the unit of the recipe's bare numbers.
func (r *Recipe) Unit() length.Unit { return r.card.Unit }

// Format writes the recipe in its one form: two spaces before the lines of a piece and before a comment that follows a
// statement, one blank line where there were several, numbers in the card's unit, a line feed behind every line. Reading
// what was written gives the same card, and writing that gives the same bytes.
func (r *Recipe) Format() []byte {
	var out bytes.Buffer
	w := &writer{unit: r.card.Unit}
	for _, l := range r.lines {
		w.buf = w.buf[:0]
		if l.inner {
			w.put("  ")
		}
		if l.statement != nil {
			l.statement.write(w)
			if l.comment != "" {
				w.put("  ")
			}
		}
		w.put(l.comment, "\n")
		out.Write(w.buf)
	}
	return out.Bytes()
}
