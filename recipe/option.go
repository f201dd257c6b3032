package recipe

import (
	"slices"
	"strings"
	"unicode"

	"foldwright/problem"
)

// eachOption reads options behind commas, in any order, each at most once. Words for which thing returns the same text
// exclude each other; thing may be nil. read reads what stands behind the option's first word.
func (p *lineParser) eachOption(thing func(string) string, read func(option string), words ...string) {
	said := map[string]token{}
	for p.acceptSign(",") {
		t := p.tok
		w := p.expect(words...)
		if w == "" {
			return
		}
		key := w
		if thing != nil {
			key = thing(w)
		}
		if first, ok := said[key]; ok {
			p.failNote("said-twice", t, problem.Quote(w)+" says again what "+problem.Quote(first.text)+" said", "each option once",
				problem.Note{Where: p.place(first), What: "it is said here first"})
			return
		}
		said[key] = t
		read(w)
	}
	p.commaLeftOut(words)
}

// another passes over the comma before a further item of a list, and says whether there is one. An item of the list's
// kind without a comma is reported.
func (p *lineParser) another(item kind) bool {
	if !p.failed && p.tok.kind == item {
		p.noComma()
	}
	return p.acceptSign(",")
}

// commaLeftOut reports a word that could begin an option and lacks its comma.
func (p *lineParser) commaLeftOut(words []string) {
	if p.failed || p.tok.kind != word || !slices.Contains(words, p.tok.text) {
		return
	}
	p.noComma()
}

// noComma reports the next token, which lacks a comma before it.
func (p *lineParser) noComma() {
	before := len(strings.TrimRightFunc(p.sc.line[:p.tok.off], unicode.IsSpace))
	p.fail("line-form", p.tok, problem.Quote(p.tok.text)+" has no comma before it", "a line such as: "+p.form,
		p.replaced(before, p.tok.off, ", "))
}

// failNote is fail with a second place.
func (p *lineParser) failNote(rule string, at token, what, needs string, note problem.Note) {
	if !p.failed && !p.silent {
		p.r.add(problem.Problem{Rule: rule, Where: p.place(at), What: what, Needs: needs, Notes: []problem.Note{note}})
	}
	p.failed = true
}
