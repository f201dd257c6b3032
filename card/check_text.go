package card

import (
	"strconv"
	"strings"
	"unicode"

	"foldwright/length"
)

// Bare returns a length as a recipe writes it: a number without a unit where it is exact in the card's unit (inches as
// fractions), else with the unit in which it is exact: "10 1/2", "267 mm". Always exact; [length.Parse] reads it back.
func Bare(l length.Length, unit length.Unit) string {
	if s, ok := l.Exact(unit); ok {
		return s
	}
	s, _ := l.Exact(length.MM) // whole nanometres are six places of a millimetre
	return s + " mm"
}

// maxName bounds a name, in characters, so that it fits on a template.
const maxName = 40

// IsName says whether a text can name a stock, a piece or a panel: a letter, then letters, digits, - and _, at most 40
// characters.
func IsName(s string) bool {
	n := 0
	for _, r := range s {
		letter := unicode.IsLetter(r) || (n > 0 && unicode.Is(unicode.Mn, r))
		if !letter && (n == 0 || !unicode.IsDigit(r) && r != '-' && r != '_') {
			return false
		}
		n++
	}
	return n > 0 && n <= maxName
}

// String returns the reference as a recipe writes it: wall.tab or spring#1.tab.
func (r PanelRef) String() string { return copyName(r.Piece, r.Copy) + "." + r.Panel }

// String returns the reference as a recipe writes it: wall or spring#1.
func (r PieceRef) String() string { return copyName(r.Piece, r.Copy) }

func copyName(piece string, copy int) string {
	if copy == 0 {
		return piece
	}
	return piece + "#" + strconv.Itoa(copy)
}

// list joins names for a message, and leaves out all beyond the first dozen.
func list(names []string) string {
	const most = 12
	if len(names) > most {
		return strings.Join(names[:most], ", ") + " … (" + strconv.Itoa(len(names)) + " in all)"
	}
	return strings.Join(names, ", ")
}

// number writes a measured value without needless digits.
func number(f float64) string { return strconv.FormatFloat(f, 'g', -1, 64) }

func isBlank(s string) bool { return strings.TrimSpace(s) == "" }

func hasControl(s string) bool { return strings.ContainsFunc(s, unicode.IsControl) }
