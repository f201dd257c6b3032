package recipe

import (
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/problem"
)

// scope counts the statements of a card or a piece.
type scope struct {
	count map[string]int
	where map[string]problem.Place // of the first
}

// pieceScope is the scope of a piece; name is "" where it could not be read.
type pieceScope struct {
	scope
	name   string
	scores int
}

func newScope() scope { return scope{map[string]int{}, map[string]problem.Place{}} }

// keyword finds the statement that a line begins with.
func (r *reader) keyword(p *lineParser) (keyword, problem.Place) {
	t, at := p.tok, p.place(p.tok)
	if k, ok := r.keywords[t.text]; ok && t.kind == word {
		return k, at
	}
	if t.kind != word {
		p.fail("unknown-line", t, "no line begins with "+problem.Quote(t.text), "a word such as card, stock, piece, size, score or glue; a comment begins with #", "")
		r.unread(r.firstWord(p.sc.line))
		return keyword{}, at
	}
	meant, ok := otherWords(t.text), true
	if meant == "" {
		meant, ok = problem.Suggest(t.text, r.words)
	}
	if !ok {
		p.fail("unknown-line", t, "no line begins with "+problem.Quote(t.text), "one of "+strings.Join(r.words, ", "), "")
		return keyword{}, at
	}
	p.fail("unknown-line", t, fmt.Sprintf("no line begins with %s; did you mean %q?", problem.Quote(t.text), meant), "", meant)
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
		p.failNote("said-twice", p.tok, fmt.Sprintf("there is such a line already: %s", key), "one such line", problem.Note{Where: in.where[key], What: "the first one is here"})
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
