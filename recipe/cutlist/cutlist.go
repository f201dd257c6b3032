package cutlist

import (
	"bytes"
	"context"
	"fmt"
	"strings"
	"unicode/utf8"

	"foldwright/card"
	"foldwright/problem"
	"foldwright/recipe"
)

// Form is one card of a catalogue that a cut list is compared with.
type Form struct {
	Name string
	Card *card.Card
}

// Match is the card of the catalogue that the pieces are most like.
type Match struct {
	Form string
	// Sure is how like they are, from 0 to 1: 1 is the same panels in the same proportions, in the same numbers.
	Sure float64
	// Why says so in words, a sentence for each piece.
	Why []string
}

// Unplaced is a part of the text that has no place in the card. Line and Column, in characters, count from 1.
type Unplaced struct {
	Text         string
	Line, Column int
	doubt        bool // it changes scores that were read
}

// Result is what was read.
type Result struct {
	// Card holds the pieces, with their places in the list; nil where there are none. Where a catalogue card matched, it
	// also holds names of panels, senses, glue and the opening, copied from there.
	Card *card.Card
	// Recipe is the card as the text of a recipe, with comments that say what it is like, what is missing and what found
	// no place. Where Problems has no error, recipe.Parse accepts it.
	Recipe string
	// Matched is nil where no card of the catalogue is like the pieces.
	Matched *Match
	// Lacks says, in a clause each, which pieces, scores and joints are not there: those of the matched card that the list
	// does not give, or all that makes a card of pieces where none matched. It is empty where the whole card was read.
	Lacks    []string
	Unplaced []Unplaced
	Problems problem.List
	// Found is how many problems there are in all; Problems holds no more than a person reads.
	Found int
}

// Read reads a cut list. name is its name in messages; nothing is opened. The problems are sorted by place, at most
// recipe.MaxProblems and one that says that there are more.
//
// Range: text up to recipe.MaxText bytes; longer ones are refused. It stops early where ctx is done, and says so.
func Read(ctx context.Context, name string, text []byte, catalogue []Form) *Result {
	s, refused := decode(name, text)
	if refused != nil {
		return &Result{Problems: problem.List{*refused}, Found: 1}
	}
	p := newParser(ctx, name, s)
	p.parse()
	out := &Result{}
	pieces, drafts := p.pieces()
	if len(pieces) == 0 {
		p.none()
		out.Unplaced = p.unplaced()
	} else {
		b := &builder{parser: p, pieces: pieces, drafts: drafts}
		b.build(catalogue)
		out.Unplaced = p.unplaced()
		b.doubts(out.Unplaced)
		out.Card, out.Matched, out.Lacks = b.card, b.matched, b.lacks
		out.Recipe = b.recipe(out.Unplaced)
	}
	if ctx.Err() != nil {
		p.problems.Add(problem.Problem{Rule: "stopped", Where: problem.Place{File: name, Line: 1, Column: 1},
			What: "reading the list was stopped before its end", Needs: "more time"})
	}
	all := p.problems.Sorted()
	out.Problems, out.Found = recipe.Capped(all), len(all)
	return out
}

// none reports a text without a piece.
func (p *parser) none() {
	if p.problems.HasErrors() {
		return
	}
	p.fail("no-pieces", 0, "the text holds no size of a piece", "a line such as: Wall: 10 1/2 x 3 in, score at 1 3/4, 3 1/4 and 5")
}

// decode makes a text of bytes, or says why it cannot.
func decode(name string, text []byte) (string, *problem.Problem) {
	refuse := func(rule, what, needs string) (string, *problem.Problem) {
		return "", &problem.Problem{Rule: rule, Where: problem.Place{File: name, Line: 1, Column: 1}, What: what, Needs: needs}
	}
	if len(text) > recipe.MaxText {
		return refuse("file-size", fmt.Sprintf("the text is %d bytes long", len(text)), fmt.Sprintf("a cut list of at most %d bytes", recipe.MaxText))
	}
	text = bytes.TrimPrefix(text, []byte("\ufeff"))
	// A page of the web that is pasted or saved as it is can be read: its tags are passed over.
	if what := recipe.NotText(text); what != "" && !(bytes.HasPrefix(text, []byte("<")) && utf8.Valid(text)) {
		return refuse("not-text", "the file is "+what, "a cut list: plain text, saved as UTF-8")
	}
	if !utf8.Valid(text) || bytes.IndexByte(text, 0) >= 0 {
		return refuse("encoding", "the text is not UTF-8", "the text saved again as UTF-8")
	}
	s := string(text)
	if strings.ContainsRune(s, '\r') {
		s = strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
	}
	return s, nil
}
