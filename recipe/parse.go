package recipe

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"foldwright/card"
	"foldwright/problem"
)

// lineParser reads one statement. After its first problem it is stuck: what it hands out is empty and it adds nothing
// more, so that one slip gives one message.
type lineParser struct {
	r      *reader
	form   string // an example of the statement, for messages
	sc     scanner
	tok    token
	failed bool
	silent bool // the problem of this line is told already
	marks  bool // the line is about the marks of a ruler
}

// advance moves on to the next token and returns the one that it leaves.
func (p *lineParser) advance() token {
	t := p.tok
	p.tok = p.sc.next()
	return t
}

func (p *lineParser) place(t token) problem.Place {
	return problem.Place{File: p.r.file, Line: p.r.line, Column: t.col}
}

// fail reports a problem at a token. A try that is a whole line is told only as one that can be read.
func (p *lineParser) fail(rule string, at token, what, needs, try string) {
	if !p.failed && !p.silent {
		if startsLine(try) {
			try = p.r.mended(try)
		}
		p.r.add(problem.Problem{Rule: rule, Where: p.place(at), What: what, Needs: needs, Try: try})
	}
	p.failed = true
}

// wanted reports a token that stands where something else belongs.
func (p *lineParser) wanted(what, try string) {
	if p.failed {
		return
	}
	t := p.tok
	needs := "a line such as: " + p.form
	switch {
	case t.kind == stray:
		p.fail("stray-character", t, describeStray(t.text), "letters, digits and the signs of a recipe", "")
	case t.kind == openQuote:
		p.fail("open-quote", t, "the text that begins here has no quote at its end", needs, "")
	case t.kind == endOfLine:
		p.fail("line-form", t, "the line ends where "+what+" belongs", needs, "")
	default:
		p.fail("line-form", t, problem.Quote(t.text)+" stands where "+what+" belongs", needs, try)
	}
}

func describeStray(s string) string {
	if s == "#" {
		return "a # stands right behind a word: a space before it begins a comment"
	}
	for _, r := range s {
		if !unicode.IsGraphic(r) {
			return fmt.Sprintf("a character that cannot be seen (%U) stands here", r)
		}
	}
	return problem.Quote(s) + " has no meaning in a recipe"
}

// replaced returns the statement with the bytes from a to b replaced, without its comment; "" where it is too long to show.
func (p *lineParser) replaced(a, b int, text string) string {
	const most = 300
	line := p.sc.line
	if len(line) > most {
		return ""
	}
	end := scanToEnd(line)
	return strings.TrimSpace(line[:a] + text + line[min(b, end):end])
}

// scanToEnd returns where the statement in a line ends, before a comment.
func scanToEnd(line string) int {
	s := newScanner(line)
	for s.next().kind != endOfLine {
	}
	return s.lastEnd
}

// inPlaceOf returns the statement with another text in place of the token.
func (p *lineParser) inPlaceOf(t token, text string) string { return p.replaced(t.off, t.end, text) }

// isWord says whether the next token is one of the words.
func (p *lineParser) isWord(words ...string) bool {
	if p.tok.kind != word {
		return false
	}
	for _, w := range words {
		if p.tok.text == w {
			return true
		}
	}
	return false
}

// accept passes over one of the words, if it comes next.
func (p *lineParser) accept(words ...string) bool {
	if p.failed || !p.isWord(words...) {
		return false
	}
	p.advance()
	return true
}

// expect passes over one of the words, and returns it.
func (p *lineParser) expect(words ...string) string {
	if p.failed {
		return ""
	}
	if p.isWord(words...) {
		return p.advance().text
	}
	try := ""
	if p.tok.kind == word {
		if meant, ok := problem.Suggest(p.tok.text, words); ok {
			try = p.inPlaceOf(p.tok, meant)
		}
	}
	p.wanted(orList(words), try)
	return ""
}

// orList returns "a", "b" or "c".
func orList(words []string) string {
	var q []string
	for _, w := range words {
		q = append(q, strconv.Quote(w))
	}
	if n := len(q); n > 1 {
		return strings.Join(q[:n-1], ", ") + " or " + q[n-1]
	}
	return q[0]
}

// acceptSign passes over a sign, if it comes next.
func (p *lineParser) acceptSign(s string) bool {
	if p.failed || p.tok.kind != sign || p.tok.text != s {
		return false
	}
	p.advance()
	return true
}

func (p *lineParser) expectSign(s string) {
	if !p.failed && !p.acceptSign(s) {
		p.wanted(strconv.Quote(s), "")
	}
}

// end makes sure that nothing stands behind the statement.
func (p *lineParser) end() {
	if p.failed || p.tok.kind == endOfLine {
		return
	}
	if p.tok.kind == stray || p.tok.kind == openQuote {
		p.wanted("the end of the line", "")
		return
	}
	p.fail("extra-words", p.tok, problem.Quote(p.tok.text)+" stands behind the end of this line", "a line such as: "+p.form, "")
}

// name reads a name; of says of what ("a piece").
func (p *lineParser) name(of string) (string, problem.Place) {
	if p.failed {
		return "", problem.Place{}
	}
	if p.tok.kind != word {
		p.wanted("the name of "+of, "")
		return "", problem.Place{}
	}
	if !card.IsName(p.tok.text) {
		p.fail("name-form", p.tok, problem.Quote(p.tok.text)+" cannot be the name of "+of,
			"a letter, then letters, digits, - or _, at most 40 characters", "")
		return "", problem.Place{}
	}
	t := p.advance()
	return t.text, p.place(t)
}

// pieceRef reads wall or spring#1.
func (p *lineParser) pieceRef() card.PieceRef {
	t := p.tok
	if p.failed || t.kind != word {
		p.wanted("the name of a piece", "")
		return card.PieceRef{}
	}
	p.advance()
	name, copy, ok := splitCopy(t.text)
	if !ok {
		p.fail("ref-form", t, problem.Quote(t.text)+" does not name a piece", "a piece such as wall, or spring#1 for one of several copies", "")
		return card.PieceRef{}
	}
	return card.PieceRef{Piece: name, Copy: copy, Where: p.place(t)}
}

// panelRef reads wall.tab or spring#1.tab.
func (p *lineParser) panelRef() card.PanelRef {
	t := p.tok
	if p.failed || t.kind != word {
		p.wanted("a panel such as wall.tab", "")
		return card.PanelRef{}
	}
	p.advance()
	piece, panel, dot := strings.Cut(t.text, ".")
	name, copy, ok := splitCopy(piece)
	if !ok || !dot || !card.IsName(panel) {
		needs := "a piece, a dot and a panel: wall.tab, or spring#1.tab for one of several copies"
		if c := p.sc.comment; p.tok.kind == endOfLine && len(c) > 1 && isDigit(c[1]) {
			needs = "no space before " + problem.Clip(strings.Fields(c)[0], 40) + ": a # behind a space begins a comment"
		}
		p.fail("ref-form", t, problem.Quote(t.text)+" does not name a panel", needs, "")
		return card.PanelRef{}
	}
	return card.PanelRef{Piece: name, Copy: copy, Panel: panel, Where: p.place(t)}
}

// splitCopy takes spring#1 apart; copy is 0 where no number is said.
func splitCopy(s string) (name string, copy int, ok bool) {
	name, digits, hash := strings.Cut(s, "#")
	if !card.IsName(name) {
		return "", 0, false
	}
	if !hash {
		return name, 0, true
	}
	copy, err := strconv.Atoi(digits)
	return name, copy, err == nil && copy > 0 && len(digits) <= 6 && digits[0] != '0' && digits[0] != '+'
}
