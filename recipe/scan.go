package recipe

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/length"
)

// kind is the kind of a token.
type kind uint8

const (
	endOfLine kind = iota
	word           // piece, wall.tab, spring#1.tab, mm
	number         // 10, 10.5, 10 1/2, 10½, 1/8: without its unit
	quoted         // text between quotes, without them
	sign           // , ( ) = <= >= + - * / x
	openQuote      // a quote that is never closed
	stray          // a character that begins nothing
)

// token is a word of a line. off and end are byte offsets in the line, col counts characters from 1.
type token struct {
	kind     kind
	text     string
	off, end int
	col      int
	glued    bool // no space before it
}

// scanner carves one line into tokens, on demand, so that a long line costs no more than is read of it.
type scanner struct {
	line     string
	off, col int
	// lastEnd and lastCol are where the last token ended.
	lastEnd, lastCol int
	// measured says that the last token was a number, or the unit behind one: then x means "by".
	measured bool
	last     kind
	// comment is the comment that ended the line.
	comment string
}

func newScanner(line string) scanner { return scanner{line: line, col: 1, lastCol: 1} }

// next returns the next token; at the end of the line, or before a comment, one of kind endOfLine.
func (s *scanner) next() token {
	s.skipSpace()
	t := token{off: s.off, col: s.col, glued: s.off == s.lastEnd}
	rest := s.line[s.off:]
	if rest == "" || rest[0] == '#' && (s.off == 0 || !t.glued) {
		s.comment = strings.TrimRightFunc(rest, unicode.IsSpace)
		return token{off: s.lastEnd, end: s.lastEnd, col: s.lastCol}
	}
	size := s.scan(rest, &t)
	t.end = t.off + size
	s.col += utf8.RuneCountInString(rest[:size])
	s.off, s.lastEnd, s.lastCol = t.end, t.end, s.col
	s.measured = t.kind == number || s.measured && isUnit(t.text)
	s.last = t.kind
	return t
}

func (s *scanner) skipSpace() {
	for s.off < len(s.line) {
		r, n := utf8.DecodeRuneInString(s.line[s.off:])
		if !unicode.IsSpace(r) {
			return
		}
		s.off += n
		s.col++
	}
}

// scan finds kind and text of the token that rest begins with, and returns its length in bytes.
func (s *scanner) scan(rest string, t *token) int {
	r, size := utf8.DecodeRuneInString(rest)
	if n := numberLen(rest); n > 0 {
		t.kind, t.text = number, rest[:n]
		return n
	}
	if s.last == number && (t.glued && (r == '"' || r == '”') || r == '″') {
		t.kind, t.text = word, "in"
		return size
	}
	if s.measured && (r == 'x' || r == 'X') && !startsWord(rest[size:]) {
		t.kind, t.text = sign, "x"
		return size
	}
	switch {
	case r == '"' || r == '“':
		return scanQuoted(rest, r, size, t)
	case unicode.IsLetter(r) || r == '_':
		return s.scanWord(rest, t)
	}
	return scanSign(rest, r, size, t)
}

func startsWord(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

// scanWord reads a word. Behind a number a unit ends where x follows it: 10mmx3.
func (s *scanner) scanWord(rest string, t *token) int {
	n := 0
	for n < len(rest) {
		r, size := utf8.DecodeRuneInString(rest[n:])
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) && !unicode.Is(unicode.Mn, r) && !strings.ContainsRune("-_.#·⋅", r) {
			break
		}
		n += size
	}
	if s.last == number && n > 3 && isUnit(rest[:2]) && rest[2] == 'x' && isDigit(rest[3]) {
		n = 2
	}
	t.kind, t.text = word, rest[:n]
	return n
}

// scanQuoted reads text between quotes, straight ones (doubled inside the text) or typographic ones.
func scanQuoted(rest string, open rune, size int, t *token) int {
	if open == '“' {
		if i := strings.IndexRune(rest, '”'); i >= 0 {
			t.kind, t.text = quoted, rest[size:i]
			return i + len("”")
		}
		t.kind, t.text = openQuote, rest
		return len(rest)
	}
	for i := 1; i < len(rest); i++ {
		switch {
		case rest[i] != '"':
		case i+1 < len(rest) && rest[i+1] == '"':
			i++
		default:
			t.kind, t.text = quoted, strings.ReplaceAll(rest[1:i], `""`, `"`)
			return i + 1
		}
	}
	t.kind, t.text = openQuote, rest
	return len(rest)
}

func scanSign(rest string, r rune, size int, t *token) int {
	t.kind, t.text = sign, rest[:size]
	switch r {
	case ',', '(', ')', '=', '+', '-', '*', '/', '°':
	case '<', '>':
		if len(rest) > 1 && rest[1] == '=' {
			t.text = rest[:2]
			return 2
		}
	case '−':
		t.text = "-"
	case '×':
		t.text = "x"
	case '≤':
		t.text = "<="
	case '≥':
		t.text = ">="
	default:
		t.kind = stray
	}
	return size
}

func isUnit(s string) bool {
	_, ok := unitOf(s)
	return ok
}

func isDigit(b byte) bool { return b >= '0' && b <= '9' }

// numberLen returns how many bytes of s are a number: 10, 10.5, .5, 1/8, 10 1/2, 10½, 10 ½, 10³⁄₁₆; 0 if s begins
// otherwise.
func numberLen(s string) int {
	if _, n := length.Fraction(s); n > 0 {
		return n
	}
	whole := digits(s)
	if rest := s[whole:]; len(rest) > 1 && rest[0] == '.' && isDigit(rest[1]) {
		return whole + 1 + digits(rest[1:])
	}
	if whole == 0 {
		return 0
	}
	gap := spaces(s[whole:])
	if _, n := length.Fraction(s[whole+gap:]); n > 0 {
		return whole + gap + n
	}
	return whole
}

func digits(s string) int {
	n := 0
	for n < len(s) && isDigit(s[n]) {
		n++
	}
	return n
}

func spaces(s string) int {
	return len(s) - len(strings.TrimLeftFunc(s, unicode.IsSpace))
}
