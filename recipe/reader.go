package recipe

import (
	"bytes"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// MaxText is the longest text that is read, in bytes.
const MaxText = 1 << 20

// MaxProblems is how many problems are told of one text; behind them stands one that says that there are more.
const MaxProblems = 100

// reader reads a text line by line.
type reader struct {
	file     string
	line     int // of the text, from 1
	unit     length.Unit
	problems problem.List
	lines    []line
	keywords map[string]keyword
	words    []string // the first words of all statements

	// piece is the piece that the lines below belong to; nil where none does.
	piece *pieceScope
	card  scope
	first string // the first word of the first statement
	// measure is the place of the first measurement.
	measure problem.Place
	// bare is the warning for the first measurement that has no unit, should no line say the unit.
	bare problem.Problem
	gaps card.Gaps
	// told holds the lines that have a problem: what else is wrong with them is likely to follow from it.
	told map[int]bool
	// stopped says that the text was not read to its end.
	stopped bool
	// slips counts the slips that a Try has mended in its line so far.
	slips int
}

func newReader(file string) *reader {
	r := &reader{file: file, card: newScope(), keywords: map[string]keyword{}, gaps: card.Gaps{}, told: map[int]bool{}}
	for _, k := range keywords() {
		r.keywords[k.word] = k
		r.words = append(r.words, k.word)
	}
	return r
}

// add appends a problem, and remembers its line.
func (r *reader) add(p problem.Problem) {
	r.problems.Add(p)
	r.told[p.Where.Line] = true
}

func (r *reader) sawMeasure(at problem.Place) {
	if r.measure.Line == 0 {
		r.measure = at
	}
}

// read reads the whole text.
func (r *reader) read(text []byte) {
	s, ok := r.decode(text)
	if !ok {
		r.stopped = true
		return
	}
	for rest, more := s, true; more; {
		if len(r.problems) > MaxProblems {
			r.stopped = true
			return
		}
		var text string
		text, rest, more = strings.Cut(rest, "\n")
		r.line++
		if r.readable(text) {
			r.readLine(text)
		}
	}
	if at := r.card.where["card"]; r.first != "card" && at.Line > 0 {
		r.add(problem.Problem{Rule: "title-first", Where: at, What: "the card line stands below other lines",
			Needs: "the card line first, with nothing but comments above it", Try: "move this line to the top"})
	}
}

// decode makes text of bytes, or reports why it cannot.
func (r *reader) decode(text []byte) (string, bool) {
	refuse := func(rule, what, needs string) (string, bool) {
		r.add(problem.Problem{Rule: rule, Where: problem.Place{File: r.file, Line: 1, Column: 1}, What: what, Needs: needs})
		return "", false
	}
	head := text[:min(len(text), 4)]
	switch {
	case len(text) > MaxText:
		return refuse("file-size", fmt.Sprintf("the text is %d bytes long", len(text)), fmt.Sprintf("a recipe of at most %d bytes", MaxText))
	case bytes.HasPrefix(head, []byte{0xfe, 0xff}), bytes.HasPrefix(head, []byte{0xff, 0xfe}),
		len(head) > 1 && (head[0] == 0) != (head[1] == 0): // without a mark, every second byte of plain words is zero
		return refuse("encoding", "the text is not UTF-8 (it looks like UTF-16)", "the file saved again as UTF-8")
	}
	if what := NotText(text); what != "" {
		return refuse("not-text", "the file is "+what, "a recipe: plain text, saved as UTF-8")
	}
	s := string(bytes.TrimPrefix(text, []byte("\ufeff")))
	if strings.ContainsRune(s, '\r') {
		s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	}
	return s, true
}

// readable reports bytes that are no text.
func (r *reader) readable(text string) bool {
	col := 0
	for i, c := range text {
		col++
		if c >= ' ' && c < 0x7f || c == '\t' {
			continue
		}
		at := problem.Place{File: r.file, Line: r.line, Column: col}
		if c == utf8.RuneError && !strings.HasPrefix(text[i:], "\ufffd") {
			r.add(problem.Problem{Rule: "encoding", Where: at, What: fmt.Sprintf("the byte %#02x is not UTF-8 text", text[i]), Needs: "the file saved again as UTF-8"})
		} else if unicode.IsControl(c) && c != '\v' && c != '\f' && c != 0x85 {
			r.add(problem.Problem{Rule: "control-character", Where: at, What: fmt.Sprintf("a character that cannot be seen (%U) stands here", c), Needs: "letters, digits, signs, spaces and tabs"})
		} else {
			continue
		}
		r.unread(r.firstWord(text))
		return false
	}
	return true
}

// firstWord returns the statement that a line is most likely to begin with, whatever stands in and before its first
// word; "" if none.
func (r *reader) firstWord(text string) string {
	text = strings.TrimLeftFunc(text, func(c rune) bool { return !unicode.IsLetter(c) })
	if n := strings.IndexFunc(text, unicode.IsSpace); n >= 0 {
		text = text[:n]
	}
	text = strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) {
			return c
		}
		return -1
	}, text[:min(len(text), 100)])
	if _, ok := r.keywords[text]; ok {
		return text
	}
	meant, _ := problem.Suggest(text, r.words)
	return meant
}

// unread records that a statement could not be read. A line that begins with no word of a recipe leaves no gap.
func (r *reader) unread(first string) {
	switch k, known := r.keywords[first]; {
	case !known:
	case !k.inner:
		r.gaps[card.Gap{Word: first}] = true
	case r.piece != nil:
		r.gaps[card.Gap{Piece: r.piece.name, Word: first}] = true
	}
	if first == "piece" {
		r.piece = &pieceScope{scope: newScope()}
		r.lines = append(r.lines, line{statement: &pieceLine{}})
	}
}

// readLine reads one line: a statement, a comment, both or nothing.
func (r *reader) readLine(text string) {
	if said := strings.TrimSpace(text); said == "" || said[0] == '#' {
		r.comment(said, !strings.HasPrefix(text, "#"))
		return
	}
	p := &lineParser{r: r, sc: newScanner(text)}
	p.advance()
	k, at := r.keyword(p)
	if k.read == nil {
		return
	}
	if !r.belongs(p, k, at) {
		if k.word == "piece" { // its lines must not fall to the piece above
			r.unread(k.word)
		}
		return
	}
	p.form = k.form
	p.advance()
	s := k.read(p)
	p.end()
	if r.first == "" {
		r.first = k.word
	}
	r.took(p, k, at, s)
}

// took puts away a statement that was read, or what could be read of it.
func (r *reader) took(p *lineParser, k keyword, at problem.Place, s statement) {
	if piece, ok := s.(*pieceLine); ok {
		r.piece = &pieceScope{scope: newScope(), name: piece.name}
	} else if !k.inner {
		r.piece = nil
	}
	if p.failed {
		r.told[r.line] = true
		stock, isStock := s.(*stockLine)
		piece, isPiece := s.(*pieceLine)
		switch {
		case k.inner:
			r.gaps[card.Gap{Piece: r.piece.name, Word: k.word}] = true
			return
		case isStock && stock.stock.Name != "", isPiece: // the name is what other lines need
		default:
			r.gaps[card.Gap{Word: k.word}] = true
			return
		}
		if isPiece {
			r.gaps[card.Gap{Piece: piece.name, Word: "piece"}] = true
			if piece.name == "" {
				r.gaps[card.Gap{Word: "piece"}] = true
			}
		}
	}
	if l, ok := s.(*scoresLine); ok && !r.roomForScores(len(l.scores), at) {
		return
	}
	r.lines = append(r.lines, line{statement: s, comment: p.sc.comment, inner: k.inner})
}

// comment puts away a line without a statement. Blank lines at the top, and blank lines in a row, are dropped.
func (r *reader) comment(text string, indented bool) {
	if text == "" && (len(r.lines) == 0 || r.lines[len(r.lines)-1].blank()) {
		return
	}
	r.lines = append(r.lines, line{comment: text, inner: text != "" && indented && r.piece != nil})
}
