package cutlist

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/length"
)

// kind is the kind of an item.
type kind uint8

const (
	word   kind = iota // wall, back-left, you'll, A4
	number             // a numeral, its unit included
	digits             // a run of digits that is not yet part of a numeral
	part               // a fraction of one character, or of raised and lowered digits
	sign               // x , ; : / & + - ( ) " ' and whatever else is neither letter nor digit
	brk                // the end of a sentence, a line, a cell of a table
)

// item is a piece of the text.
type item struct {
	kind       kind
	text       string // in lower case; "x" for every sign that means "by"
	start, end int    // in bytes
	line, col  int    // from 1; col in characters
	gap        bool   // space before it
	upper      bool   // begins with a capital
	first      bool   // the first of its line
	used       bool   // its meaning is in the card, or it carries none
	doubt      bool   // it changes the scores before it, and is not understood
	num        *numeral
}

// scanner carves the text into items.
type scanner struct {
	text string
	off  int
	line int
	col  int
	out  []item
	// fresh says that no item stands on this line yet.
	fresh bool
	gap   bool
	// cells holds the offsets where a cell of a table begins, in order.
	cells []int
}

// scan returns the items of a text. cells are offsets at which a new cell of a table begins, in order.
func scan(text string, cells []int) []item {
	s := &scanner{text: text, line: 1, col: 1, fresh: true, cells: cells, out: make([]item, 0, len(text)/4+8)}
	for s.off < len(text) {
		s.step()
	}
	s.put(item{kind: brk, text: "para"}, 0)
	return s.out
}

func (s *scanner) step() {
	if len(s.cells) > 0 && s.off >= s.cells[0] {
		s.cells = s.cells[1:]
		s.put(item{kind: brk, text: "cell"}, 0)
	}
	rest := s.text[s.off:]
	r, size := utf8.DecodeRuneInString(rest)
	switch {
	case r == '\n':
		s.newline()
	case r == '\t' || r == '|':
		s.put(item{kind: brk, text: "cell"}, size)
	case s.markup(rest) > 0:
		n := s.markup(rest)
		s.off, s.col, s.gap = s.off+n, s.col+n, true
	case unicode.IsSpace(r) || r == '\u200b' || r == '\ufeff':
		s.off, s.col, s.gap = s.off+size, s.col+1, true
	case r >= '0' && r <= '9':
		s.put(item{kind: digits}, run(rest, func(r rune) bool { return r >= '0' && r <= '9' }))
	case typesetLen(rest) > 0:
		text, n := length.Fraction(rest)
		s.put(item{kind: part, text: text}, n)
	case r == '.' && strings.HasPrefix(rest, "..."): // the dots that lead to the next column
		s.put(item{kind: sign, text: "-"}, run(rest, func(r rune) bool { return r == '.' }))
	case unicode.IsLetter(r):
		s.word(rest)
	case r == '@':
		s.put(item{kind: word, text: "at"}, size)
	default:
		s.put(item{kind: sign, text: plainSign(r)}, s.signLen(rest, r, size))
	}
}

// markup returns the length of signs that only make what follows bold or a heading: **Wall**, ## Wall.
func (s *scanner) markup(rest string) int {
	switch {
	case strings.HasPrefix(rest, "**"), strings.HasPrefix(rest, "__"):
		return 2
	case s.fresh:
		return run(rest, func(r rune) bool { return r == '#' })
	}
	return 0
}

// signLen keeps two single quotes together: they are an inch mark.
func (s *scanner) signLen(rest string, r rune, size int) int {
	if r == '\'' || r == '’' || r == '′' {
		if next, n := utf8.DecodeRuneInString(rest[size:]); next == r {
			return size + n
		}
	}
	return size
}

// put appends an item of so many bytes.
func (s *scanner) put(t item, size int) {
	raw := s.text[s.off : s.off+size]
	if t.text == "" {
		t.text = raw
	}
	if t.kind == sign && len(raw) > 1 && t.text == "'" && utf8.RuneCountInString(raw) == 2 {
		t.text = `"`
	}
	t.start, t.end, t.line, t.col, t.gap = s.off, s.off+size, s.line, s.col, s.gap || s.fresh
	if t.kind != brk {
		t.first, s.fresh = s.fresh, false
	}
	s.gap = false
	s.off += size
	s.col += utf8.RuneCountInString(raw)
	s.out = append(s.out, t)
}

// newline puts a break of the line; one more for an empty line.
func (s *scanner) newline() {
	kind := "line"
	if s.fresh {
		kind = "para"
	}
	s.put(item{kind: brk, text: kind}, 1)
	s.line++
	s.col, s.fresh, s.gap = 1, true, false
}

// word reads letters, with hyphens and apostrophes between them, and digits behind them where it is no x.
func (s *scanner) word(rest string) {
	n := 0
	for n < len(rest) {
		r, size := utf8.DecodeRuneInString(rest[n:])
		if unicode.IsLetter(r) || unicode.Is(unicode.Mn, r) || n > 0 && (r == '-' || r == '\'' || r == '’') && startsLetter(rest[n+size:]) {
			n += size
			continue
		}
		break
	}
	lower := strings.ToLower(rest[:n])
	digit := n < len(rest) && rest[n] >= '0' && rest[n] <= '9'
	switch head := strings.TrimSuffix(lower, "x"); {
	case lower == "x":
		s.put(item{kind: sign, text: "x"}, n)
		return
	case len(head) == len(lower)-1 && len(head) == n-1 && unitWords[head].said && s.behindDigit() && (digit || typesetLen(rest[n:]) > 0):
		n, lower = len(head), head // 10mmx3
	case digit:
		n += run(rest[n:], func(r rune) bool { return r >= '0' && r <= '9' })
		lower = strings.ToLower(rest[:n])
	}
	first, _ := utf8.DecodeRuneInString(rest)
	s.put(item{kind: word, text: strings.ReplaceAll(lower, "’", "'"), upper: unicode.IsUpper(first)}, n)
}

func (s *scanner) behindDigit() bool {
	n := len(s.out)
	return n > 0 && s.out[n-1].end == s.off && (s.out[n-1].kind == digits || s.out[n-1].kind == part)
}

func startsLetter(s string) bool {
	r, _ := utf8.DecodeRuneInString(s)
	return unicode.IsLetter(r)
}

// typesetLen returns the length of the typeset fraction that s begins with: ½, ³⁄₁₆; 0 where none stands.
func typesetLen(s string) int {
	if s == "" || s[0] < utf8.RuneSelf { // 3/16 on the line is put together from its parts later
		return 0
	}
	_, n := length.Fraction(s)
	return n
}

// run returns how many bytes of s, from its start, satisfy f.
func run(s string, f func(rune) bool) int {
	if n := strings.IndexFunc(s, func(r rune) bool { return !f(r) }); n >= 0 {
		return n
	}
	return len(s)
}

// plainSign returns one sign for all that mean the same.
func plainSign(r rune) string {
	switch r {
	case '×', '✕', '✖', '⨯', '∗', '*':
		return "x"
	case '″', '”', '“', '"', '„', '‟', '＂':
		return `"`
	case '′', '’', '‘', '\'':
		return "'"
	case '–', '—', '−', '‐', '‑':
		return "-"
	case '⁄', '∕':
		return "/"
	case '•', '◦', '▪', '‣', '·', '●', '○', '■', '□', '☐', '✓', '✔':
		return "•"
	case '[', '{':
		return "("
	case ']', '}':
		return ")"
	}
	return string(r)
}
