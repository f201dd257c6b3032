package foldwright

import (
	"fmt"
	"go/ast"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// term is one row of the table in GLOSSARY.md.
type term struct {
	line                           int
	word, code, meaning, not, from string
}

// terms reads the rows of the table: | term | in the code | meaning | not called | source |.
func terms(text string) []term {
	var out []term
	n := 0
	for line := range strings.Lines(text) {
		n++
		f := strings.Split(strings.TrimSpace(line), "|")
		if len(f) != 7 || f[0] != "" || f[6] != "" || strings.HasPrefix(strings.TrimSpace(f[1]), "-") {
			continue
		}
		for i := range f {
			f[i] = strings.TrimSpace(f[i])
		}
		if f[1] == "term" {
			continue
		}
		out = append(out, term{n, f[1], f[2], f[3], f[4], f[5]})
	}
	return out
}

// glossaryFaults compares the glossary with the exported types of the engine, such as card.Piece.
func glossaryFaults(text string, exported []string) []string {
	var out []string
	add := func(line int, format string, args ...any) {
		out = append(out, fmt.Sprintf("GLOSSARY.md:%d: ", line)+fmt.Sprintf(format, args...))
	}
	rows := terms(text)
	headword := map[string]int{} // type to line
	from := regexp.MustCompile(`^(trade|ours|(standard|handbook): \S.*)$`)
	quoted := regexp.MustCompile("`([a-z/]+\\.[A-Z][A-Za-z0-9]*)`")
	for i, r := range rows {
		if i > 0 {
			switch before := strings.Compare(strings.ToLower(rows[i-1].word), strings.ToLower(r.word)); {
			case before == 0:
				add(r.line, "%q stands on line %d already; one term has one meaning", r.word, rows[i-1].line)
			case before > 0:
				add(r.line, "%q stands behind %q; the terms are sorted", r.word, rows[i-1].word)
			}
		}
		if r.word == "" || r.meaning == "" {
			add(r.line, "a term and its meaning are needed")
		}
		if !from.MatchString(r.from) {
			add(r.line, "the source of %q is %q; it is trade, ours, standard: … or handbook: …", r.word, r.from)
		}
		for _, m := range quoted.FindAllStringSubmatch(r.code, -1) {
			if line, twice := headword[m[1]]; twice {
				add(r.line, "%s stands on line %d already", m[1], line)
			}
			headword[m[1]] = r.line
			of, _, _ := strings.Cut(m[1], ".")
			written := slices.ContainsFunc(exported, func(e string) bool { return strings.HasPrefix(e, of+".") })
			if written && !slices.Contains(exported, m[1]) { // a package that is not written yet has nothing to compare with
				add(r.line, "there is no exported type %s", m[1])
			}
		}
	}
	for _, e := range exported {
		if headword[e] == 0 {
			out = append(out, fmt.Sprintf("GLOSSARY.md: the exported type %s has no row: | term | `%s` | meaning | not called | source |", e, e))
		}
	}
	return out
}

// exportedTypes returns the exported types of the engine packages, such as card.Piece, each once.
func exportedTypes(t testing.TB) []string {
	t.Helper()
	var out []string
	for _, p := range packages(t) {
		if !engine(t, p.name()) {
			continue
		}
		_, files := parse(t, p)
		for _, f := range files {
			for _, d := range f.Decls {
				g, ok := d.(*ast.GenDecl)
				if !ok {
					continue
				}
				for _, s := range g.Specs {
					if ts, ok := s.(*ast.TypeSpec); ok && ts.Name.IsExported() {
						out = append(out, p.name()+"."+ts.Name.Name)
					}
				}
			}
		}
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// TestGlossary: every exported type of the engine is a headword of GLOSSARY.md, and the glossary names no type that is not
// there. A noun that means two things is the commonest way to a wrong card.
func TestGlossary(t *testing.T) {
	text, err := os.ReadFile("GLOSSARY.md")
	if err != nil {
		t.Fatal(err)
	}
	exported := exportedTypes(t)
	if len(exported) == 0 || len(terms(string(text))) == 0 {
		t.Fatalf("got %d exported types and %d terms: nothing was checked", len(exported), len(terms(string(text))))
	}
	for _, f := range glossaryFaults(string(text), exported) {
		t.Error(f)
	}
}

// TestGlossary_fails shows that each rule notices what it is for.
func TestGlossary_fails(t *testing.T) {
	const head = "# Glossary\n\n| term | in the code | meaning | not called | source |\n|---|---|---|---|---|\n"
	for _, c := range []struct{ name, rows, want string }{
		{"good", "| card | `card.Card` | one card | | trade |\n| panel | `card.Panel` | a face | side | standard: ISO 1 |\n", ""},
		{"missing", "| card | `card.Card` | one card | | trade |\n", "GLOSSARY.md: the exported type card.Panel has no row: | term | `card.Panel` | meaning | not called | source |"},
		{"not sorted", "| panel | `card.Panel` | a face | side | trade |\n| card | `card.Card` | one card | | trade |\n", `GLOSSARY.md:6: "card" stands behind "panel"; the terms are sorted`},
		{"twice", "| card | `card.Card` | one card | | trade |\n| Card | `card.Panel` | a face | side | trade |\n", `GLOSSARY.md:6: "Card" stands on line 5 already; one term has one meaning`},
		{"type twice", "| card | `card.Card` | one card | | trade |\n| panel | `card.Panel`, `card.Card` | a face | side | trade |\n", "GLOSSARY.md:6: card.Card stands on line 5 already"},
		{"no source", "| card | `card.Card` | one card | | somewhere |\n| panel | `card.Panel` | a face | side | trade |\n", `GLOSSARY.md:5: the source of "card" is "somewhere"; it is trade, ours, standard: … or handbook: …`},
		{"no meaning", "| card | `card.Card` |  | | ours |\n| panel | `card.Panel` | a face | side | trade |\n", "GLOSSARY.md:5: a term and its meaning are needed"},
		{"package not written yet", "| card | `card.Card`, `fold.Pose` | one card | | trade |\n| panel | `card.Panel` | a face | side | trade |\n", ""},
		{"type gone", "| card | `card.Card`, `card.Box` | one card | | ours |\n| panel | `card.Panel` | a face | side | trade |\n", "GLOSSARY.md:5: there is no exported type card.Box"},
	} {
		got := strings.Join(glossaryFaults(head+c.rows, []string{"card.Card", "card.Panel"}), "\n")
		if got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
