package cutlist

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"foldwright/problem"
)

// unplaced returns every stretch of the text that holds a number or an instruction and is not in the card, in order.
func (p *parser) unplaced() []Unplaced {
	var out []Unplaced
	for k := 0; k < len(p.items); {
		if p.items[k].used || p.items[k].kind == brk {
			k++
			continue
		}
		end, tell, doubt := k, false, false
		for ; end < len(p.items) && !p.items[end].used && p.items[end].kind != brk; end++ {
			tell, doubt = tell || p.tells(end), doubt || p.items[end].doubt
		}
		if tell {
			u := p.stretch(k, end)
			u.doubt = doubt
			out = append(out, u)
		}
		k = end
	}
	for _, t := range p.stray {
		out = append(out, Unplaced{Text: clip(p.text[t.start:t.end]), Line: t.line, Column: t.col})
	}
	slices.SortStableFunc(out, func(a, b Unplaced) int {
		if a.Line != b.Line {
			return a.Line - b.Line
		}
		return a.Column - b.Column
	})
	return out
}

// mostDoubts is how many parts that change scores are told of one by one.
const mostDoubts = 10

// doubts says which scores may be others than were read, because what is said of them was not understood.
func (b *builder) doubts(left []Unplaced) {
	n := 0
	for _, u := range left {
		if u.doubt && n < mostDoubts {
			n++
			b.lacks = append(b.lacks, fmt.Sprintf("what %q in line %d changes of the scores before it", problem.Clip(u.Text, 60), u.Line))
		}
	}
}

// tells says whether an item must not be dropped: a number in digits, a word with digits, a word of an instruction.
func (p *parser) tells(k int) bool {
	t := &p.items[k]
	if t.doubt {
		return true
	}
	if t.kind == number {
		return !t.num.word || t.num.said
	}
	return t.kind == digits || t.kind == part || t.kind == word && (instructions[t.text] || decoWords[t.text]) ||
		strings.ContainsFunc(t.text, unicode.IsDigit)
}

// stretch returns the text of the items from a up to b without the signs at its ends.
func (p *parser) stretch(a, b int) Unplaced {
	loose := func(k int) bool {
		t := &p.items[k]
		switch {
		case t.kind == sign && strings.ContainsFunc(t.text, unicode.IsDigit):
			return false // a digit of another script
		case t.kind == sign:
			return t.text != "(" && t.text != `"` || b-a > 1 && t.text == ")"
		case t.kind == word:
			return t.text == "and" || t.text == "then"
		}
		return false
	}
	for a < b-1 && (loose(a) || p.items[a].text == ")") {
		a++
	}
	for a < b-1 && loose(b-1) && p.items[b-1].text != ")" {
		b--
	}
	return Unplaced{Text: strings.Join(strings.Fields(p.text[p.items[a].start:p.items[b-1].end]), " "), Line: p.items[a].line, Column: p.items[a].col}
}

// mostText is how many characters of a text are repeated, so that a line stays readable.
const mostText = 160

func clip(s string) string { return problem.Clip(s, mostText) }
