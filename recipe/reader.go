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
	gaps    card.Gaps
	// told holds the lines that have a problem: what else is wrong with them is likely to follow from it.
	told map[int]bool
	// stopped says that the text was not read to its end.
	stopped bool
}

// scope counts the statements of a card or a piece.
type scope struct {
	count map[string]int
	where map[string]problem.Place // of the first
}

type pieceScope struct {
	scope
	name   string
	scores int
}

func newScope() scope { return scope{map[string]int{}, map[string]problem.Place{}} }

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
		r.unread(firstWord(text))
		return false
	}
	return true
}

func firstWord(text string) string {
	text = strings.TrimLeftFunc(text, unicode.IsSpace)
	n := strings.IndexFunc(text, func(c rune) bool { return !unicode.IsLetter(c) })
	if n < 0 {
		return text
	}
	return text[:n]
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

// keyword finds the statement that a line begins with.
func (r *reader) keyword(p *lineParser) (keyword, problem.Place) {
	t, at := p.tok, p.place(p.tok)
	if k, ok := r.keywords[t.text]; ok && t.kind == word {
		return k, at
	}
	if t.kind != word {
		p.fail("unknown-line", t, "no line begins with "+quote(t.text), "a word such as card, stock, piece, size, score or glue; a comment begins with #", "")
		return keyword{}, at
	}
	meant, ok := otherWords(t.text), true
	if meant == "" {
		meant, ok = suggest(t.text, r.words)
	}
	if !ok {
		p.fail("unknown-line", t, "no line begins with "+quote(t.text), "one of "+strings.Join(r.words, ", "), "")
		return keyword{}, at
	}
	p.fail("unknown-line", t, fmt.Sprintf("no line begins with %s; did you mean %q?", quote(t.text), meant), "", meant)
	p.failed, p.silent = false, true // read on as if it were the word that is meant, so that nothing below is lost
	return r.keywords[meant], at
}

// otherWords returns the word of a recipe for one that people may use in its place.
func otherWords(s string) string {
	switch s {
	case "cut":
		return "size"
	case "hole", "opening":
		return "window"
	case "slot":
		return "slit"
	case "paper", "material":
		return "stock"
	case "part":
		return "piece"
	case "title", "name":
		return "card"
	case "attach", "stick":
		return "glue"
	case "layer":
		return "mat"
	case "ornament":
		return "topper"
	}
	return ""
}

// belongs says whether the statement may stand here.
func (r *reader) belongs(p *lineParser, k keyword, at problem.Place) bool {
	in := &r.card
	if k.inner {
		if r.piece == nil {
			p.fail("outside-piece", p.tok, fmt.Sprintf("%q stands outside a piece", k.word), "this line below the piece that it is about: piece wall of navy", "")
			return false
		}
		in = &r.piece.scope
	}
	key := k.word
	if key == "outline" {
		key = "size" // one in place of the other
	}
	in.count[key]++
	n := in.count[key]
	if n == 1 {
		in.where[key] = at
	}
	most := k.most
	if most == 0 {
		most = mostLines
	}
	switch {
	case k.once && n > 1:
		p.failNote("said-twice", p.tok, fmt.Sprintf("there is a %s line already", key), "one such line", problem.Note{Where: in.where[key], What: "the first one is here"})
		return false
	case n == most+1:
		p.fail("too-many", p.tok, fmt.Sprintf("there are more than %d lines that begin with %s", most, k.word), fmt.Sprintf("at most %d", most), "")
		return false
	case n > most:
		return false
	case k.word == "units" && r.measure.Line > 0:
		p.failNote("units-late", p.tok, "the units line comes after a measurement", "the units line above all measurements",
			problem.Note{Where: r.measure, What: "the first measurement is here"})
		p.failed, p.silent = false, true // the lines below mean the new unit
	}
	return true
}

// roomForScores counts the scores of a piece, and reports the first too many.
func (r *reader) roomForScores(n int, at problem.Place) bool {
	before := r.piece.scores
	r.piece.scores += n
	if r.piece.scores <= card.MaxScores {
		return true
	}
	r.gaps[card.Gap{Piece: r.piece.name, Word: "score"}] = true
	if before <= card.MaxScores {
		r.add(problem.Problem{Rule: "too-many", Where: at, What: fmt.Sprintf("with this line the piece has more than %d scores", card.MaxScores),
			Needs: fmt.Sprintf("at most %d scores in a piece", card.MaxScores)})
	}
	return false
}
