package recipe

import (
	"bytes"
	"slices"
	"strings"
	"unicode"

	"foldwright/problem"
)

// Cure applies the Try of a problem to the text in which it was found, and says whether the Try is text that can be
// applied; else it is an instruction for a person, and the text is returned as it is. A Try of one word stands in the
// place of the word that the problem points at, and one that begins a line of a recipe in the place of that line; where
// a line is missing it is put in.
func Cure(text []byte, p problem.Problem) ([]byte, bool) {
	lines := strings.Split(string(bytes.TrimPrefix(text, []byte("\ufeff"))), "\n")
	i := p.Where.Line - 1
	if p.Try == "" || i < 0 || i >= len(lines) {
		return text, false
	}
	whole := startsLine(p.Try)
	switch {
	case p.Rule == "no-title" && !startsWith(lines[i], "card"):
		lines = slices.Insert(lines, 0, p.Try)
	case p.Rule == "no-units":
		lines = slices.Insert(lines, behindTitle(lines), p.Try)
	case p.Rule == "no-opens":
		lines = append(lines, p.Try, "")
		if n := len(lines); strings.TrimSpace(lines[n-3]) == "" {
			lines = slices.Delete(lines, n-3, n-2)
		}
	case p.Rule == "no-size":
		lines = slices.Insert(lines, i+1, "  "+p.Try)
	case whole:
		start := len(lines[i]) - len(strings.TrimLeftFunc(lines[i], unicode.IsSpace))
		lines[i] = lines[i][:start] + p.Try + lines[i][scanToEnd(lines[i]):]
	case !strings.ContainsAny(p.Try, " \t"):
		ok := false
		if lines[i], ok = replaceWord(lines[i], p.Where.Column, p.Try); !ok {
			return text, false
		}
	default:
		return text, false
	}
	return []byte(strings.Join(lines, "\n")), true
}

// behindTitle returns where a line belongs that stands above all others but the title.
func behindTitle(lines []string) int {
	for i, l := range lines {
		switch t := newScanner(l); {
		case startsWith(l, "card"):
			return i + 1
		case t.next().kind != endOfLine:
			return i
		}
	}
	return 0
}

// startsLine says whether a text is a whole statement.
func startsLine(text string) bool {
	for _, k := range keywords() {
		if startsWith(text, k.word) && len(text) > len(k.word) {
			return true
		}
	}
	return false
}

func startsWith(line, first string) bool {
	rest, ok := strings.CutPrefix(strings.TrimLeftFunc(line, unicode.IsSpace), first)
	return ok && (rest == "" || unicode.IsSpace(rune(rest[0])))
}

// replaceWord puts a word in the place of the one that begins at a column.
func replaceWord(line string, column int, w string) (string, bool) {
	s := newScanner(line)
	for t := s.next(); t.kind != endOfLine; t = s.next() {
		if t.col == column {
			return line[:t.off] + w + line[t.end:], true
		}
	}
	return line, false
}
