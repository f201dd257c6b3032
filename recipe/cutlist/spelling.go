package cutlist

import (
	"fmt"

	"foldwright/problem"
)

// spell reads a word for scores that is written with a slip: socre at 5. It is one only where a number comes behind it, and
// it is told of.
func (p *parser) spell() {
	for k := range p.items {
		t := &p.items[k]
		if t.kind != word || len(t.text) < 4 || len(t.text) > 9 || t.text[0] != 's' && t.text[0] != 'c' || p.knows(t.text) || !p.numbersFollow(k) {
			continue
		}
		if meant, ok := problem.Suggest(t.text, []string{"score", "scores", "scored"}); ok {
			p.warn("spelling", k, fmt.Sprintf("%q is read as %q", t.text, meant), "the word "+meant)
			t.text = meant
		}
	}
}

// knows says whether a word has a meaning for the reader.
func (p *parser) knows(w string) bool {
	return scoreWords[w] || foldWords[w] || stopsName(w) || instructions[w] || unitWords[w] != unitWord{} || sides[w] > 0 || countNouns[w] || scoreFill[w]
}

// numbersFollow says whether "at" and a number that begins no size stand behind k: at 5; on the long side at 5.
func (p *parser) numbersFollow(k int) bool {
	for i := k + 1; i < k+7; i++ {
		t, prev := p.at(i), p.at(i-1)
		if t.num != nil {
			_, size := p.sizeAt(i)
			return p.numberAt(i) && !size && (prev.text == "at" || prev.text == ":")
		}
		if t.kind != word && t.text != ":" {
			return false
		}
	}
	return false
}
