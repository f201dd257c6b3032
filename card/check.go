package card

import (
	"foldwright/length"
	"foldwright/problem"
)

// The largest card that is taken on. A card beyond them is a slip of the pen or a hostile file, not a card: the largest
// one known to its writers has 29 scores in 4 pieces.
const (
	MaxPieces = 60  // counting copies
	MaxScores = 400 // in one piece
	MaxGlues  = 200
)

// Gap is a statement that a reader saw and could not read. Piece is the piece in which it stands, "" for the card
// itself; Word is the statement's first word.
type Gap struct{ Piece, Word string }

// Gaps holds what a reader could not read.
type Gaps map[Gap]bool

// Check judges everything about a card that can be judged without geometry, and returns the problems sorted by place.
// A card without an error in it can be handed to every other package; see the package comment for the rules.
func Check(c *Card) problem.List { return CheckRead(c, nil) }

// CheckRead is Check for a card that was not read to the end: it keeps silent about what may only follow from the gaps,
// such as a name that the unread line may have given.
func CheckRead(c *Card, gaps Gaps) problem.List {
	k := &checker{card: c, gaps: gaps, stocks: map[string]*Stock{}, pieces: map[string]*known{}}
	k.checkCard()
	k.checkStocks()
	k.checkPieces()
	k.checkGlues()
	k.checkOpening()
	k.checkKeeps()
	k.checkMats()
	k.checkToppers()
	k.checkMarks()
	k.checkAdvice()
	return k.problems.Sorted()
}

// checker collects the problems of one card.
type checker struct {
	card     *Card
	gaps     Gaps
	problems problem.List
	stocks   map[string]*Stock
	pieces   map[string]*known
	// The names in the order in which they were first given, for suggestions.
	stockNames, pieceNames []string
}

// known is a piece and what is known of its panels.
type known struct {
	*Piece
	panels map[string]int // how many panels have the name
	names  []string       // each once, in order
}

// add appends an error.
func (k *checker) add(rule string, where problem.Place, what, needs, try string) {
	k.problems.Add(problem.Problem{Rule: rule, Where: where, What: what, Needs: needs, Try: try})
}

// addNote appends an error that has a second place.
func (k *checker) addNote(rule string, where problem.Place, what, needs, try string, note problem.Note) {
	k.problems.Add(problem.Problem{Rule: rule, Where: where, What: what, Needs: needs, Try: try, Notes: []problem.Note{note}})
}

// gap says whether a reader left out a statement of the piece ("" for the card) that may begin with one of the words.
func (k *checker) gap(piece string, words ...string) bool {
	for _, w := range words {
		if k.gaps[Gap{piece, w}] {
			return true
		}
	}
	return false
}

// n writes a length as the recipe does.
func (k *checker) n(l length.Length) string { return Bare(l, k.card.Unit) }

// positive reports a measurement that is not above zero, or too long; name says what it is ("the width").
func (k *checker) positive(l length.Length, where problem.Place, name string) bool {
	switch {
	case l <= 0:
		k.add("not-positive", where, name+" is "+k.n(l), name+" above 0", "")
	case l > length.Max:
		k.add("too-long", where, name+" is "+k.n(l), "at most "+k.n(length.Max), "")
	default:
		return true
	}
	return false
}

// positiveSize is positive for both sides of a size.
func (k *checker) positiveSize(s Size, where problem.Place, of string) bool {
	w := k.positive(s.W, where, "the width of "+of)
	return k.positive(s.H, where, "the height of "+of) && w
}

func (k *checker) checkCard() {
	c := k.card
	switch {
	case k.gap("", "card"):
	case isBlank(c.Title):
		k.add("no-title", c.Where, "the card has no title", `a first line such as: card "Harbour light"`, `card "Harbour light"`)
	default:
		k.checkText(c.Title, c.Where, "title")
	}
	if c.Marks < 0 || (c.Marks == 0 && c.MarksWhere.Line > 0) {
		k.positive(c.Marks, c.MarksWhere, "the distance of the marks")
	}
	if c.Fits != nil {
		k.positiveSize(*c.Fits, c.FitWhere, "the closed card")
	}
	if len(c.Glues) > MaxGlues {
		k.add("too-many", c.Glues[MaxGlues].Where, "there are "+problem.Count(len(c.Glues), "glue line"), "at most "+problem.Count(MaxGlues, "glue line"), "")
	}
}

// checkText judges a title or label: text between quotes on one line.
func (k *checker) checkText(text string, where problem.Place, name string) {
	const most = 200 // characters; a title must fit on a page of instructions
	if n := len([]rune(text)); n > most {
		k.add("text-form", where, "the "+name+" is "+problem.Count(n, "character")+" long", "at most "+problem.Count(most, "character"), "")
	}
	if hasControl(text) {
		k.add("text-form", where, "the "+name+" holds a character that cannot be printed", "letters, digits, signs and spaces", "")
	}
}
