package recipe

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"foldwright/card"
	"foldwright/problem"
)

// gluedComma says whether the comma at i stands right between two whole numbers, as people write 120,5 for 120.5.
func gluedComma(line string, i int) bool {
	whole := strings.TrimRight(line[:i], "0123456789")
	before, _ := utf8.DecodeLastRuneInString(whole)
	tail := line[i+1:]
	n := digits(tail)
	return len(whole) < i && n > 0 && numberLen(tail) == n && !unicode.IsLetter(before) && !strings.ContainsRune("./⁄∕#_", before)
}

// atGluedComma says whether the next token is such a comma.
func (p *lineParser) atGluedComma() bool {
	return !p.failed && p.tok.kind == sign && p.tok.text == "," && gluedComma(p.sc.line, p.tok.off)
}

// noDecimalComma reports the next token where it is a comma inside a number: no list goes on here.
func (p *lineParser) noDecimalComma() {
	if p.atGluedComma() {
		p.decimalComma(p.tok, p.inPlaceOf(p.tok, "."))
	}
}

// decimalComma reports a comma that stands for a decimal point.
func (p *lineParser) decimalComma(comma token, try string) {
	line := p.sc.line
	whole := line[len(strings.TrimRight(line[:comma.off], "0123456789")):comma.off]
	meant := whole + "." + line[comma.end:comma.end+digits(line[comma.end:])]
	p.fail("decimal-comma", comma, "a comma stands inside a number, where a decimal point is meant", "a decimal point: "+problem.Clip(meant, 40), try)
}

// commaList is a list of rising numbers, as far as its commas go: commas[i] stands behind number i.
type commaList struct{ commas []token }

// see remembers the token behind a number of the list.
func (l *commaList) see(t token) { l.commas = append(l.commas, t) }

// check reports commas of a score list that are meant for decimal points: those that stand right between two numbers
// where the second does not lie beyond the first. Where other commas have a space behind them, one without is doubtful
// even where the numbers rise.
func (l *commaList) check(p *lineParser, scores []card.Score) {
	var glued, wrong []token
	spaced := false
	for i := 1; i < len(scores); i++ {
		comma := l.commas[i-1]
		switch {
		case !gluedComma(p.sc.line, comma.off):
			spaced = spaced || comma.end < len(p.sc.line) && !isDigit(p.sc.line[comma.end])
			continue
		case scores[i].At <= scores[i-1].At:
			wrong = append(wrong, comma)
		}
		glued = append(glued, comma)
	}
	switch {
	case len(wrong) > 0 && spaced:
		p.decimalComma(glued[0], p.eachReplaced(glued, "."))
	case len(wrong) > 0:
		p.decimalComma(wrong[0], p.eachReplaced(wrong, "."))
	case len(glued) > 0 && spaced && p.tok.kind == endOfLine:
		p.r.problems.Add(problem.Problem{Rule: "comma-spacing", Severity: problem.Warning, Where: p.place(glued[0]),
			What:  "no space stands behind this comma, and others in the line have one: it is read as a comma between two scores",
			Needs: "a decimal point if one is meant, else a space", Try: p.eachReplaced(glued, ", ")})
	}
}

// eachReplaced returns the statement with a text in place of each of the tokens, which stand in order.
func (p *lineParser) eachReplaced(tokens []token, text string) string {
	var b strings.Builder
	first, last := tokens[0], tokens[len(tokens)-1]
	from := first.off
	for _, t := range tokens {
		b.WriteString(p.sc.line[from:t.off] + text)
		from = t.end
	}
	return p.replaced(first.off, last.end, b.String())
}
