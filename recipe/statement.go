package recipe

import (
	"strconv"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
)

// statement is what one line of a recipe says, without its comment.
type statement interface {
	// build puts what the statement says into the card. Nothing in the card may be shared with the statement.
	build(b *builder)
	// write writes the statement in its one form, without indent.
	write(w *writer)
}

// builder makes a card of statements, in their order. piece is the one that statements inside a piece belong to.
type builder struct {
	card  *card.Card
	piece *card.Piece
	// fold is the fold line of the piece, held back until all its scores are known.
	fold *foldLine
}

// finishPiece gives the scores of a piece their senses, and puts the piece into the card.
func (b *builder) finishPiece() {
	if b.piece == nil {
		return
	}
	if b.fold != nil {
		b.fold.apply(b.piece)
	}
	if b.piece.Name != "" { // a piece whose name could not be read is not in the card
		b.card.Pieces = append(b.card.Pieces, *b.piece)
	}
	b.piece, b.fold = nil, nil
}

// keyword is a word that statements begin with, and how to read one.
type keyword struct {
	word string
	// form is an example, shown where a line is not as it should be.
	form string
	// inner says that the line belongs to a piece.
	inner bool
	// once says that the line may stand only once in a card or in a piece.
	once bool
	// most bounds the lines of this kind in a card or in a piece; 0 means the limit that holds for all of them.
	most int
	read func(p *lineParser) statement
}

// keywords returns the statements of the language, in the order in which a recipe is best read.
func keywords() []keyword {
	return []keyword{
		{word: "card", form: `card "Harbour light"`, once: true, read: readTitle},
		{word: "units", form: "units mm", once: true, read: readUnits},
		{word: "marks", form: "marks 1 mm", once: true, read: readMarks},
		{word: "fits", form: "fits 120 x 168", once: true, read: readFits},
		{word: "stock", form: `stock navy "navy card" 270 gsm, 0.36 mm`, most: 100, read: readStock},
		{word: "piece", form: "piece spring of white, 2 of", most: card.MaxPieces, read: readPiece},
		{word: "size", form: "size 252 x 72", inner: true, once: true, read: readSize},
		{word: "outline", form: "outline (0, 0) (60, 0) (60, 40) (0, 60)", inner: true, once: true, read: readOutline},
		{word: "score", form: "score across at 42, 78, 120", inner: true, most: card.MaxScores, read: readScore},
		{word: "slit", form: "slit (30, 10) to (30, 50)", inner: true, read: readSlit},
		{word: "window", form: "window oval 30 x 40 at (10, 12)", inner: true, read: readWindow},
		{word: "panels", form: "panels left, front, leaf x4, tab", inner: true, once: true, read: readPanels},
		{word: "panel", form: "panel beak at (40, 30)", inner: true, read: readPanel},
		{word: "fold", form: "fold m v m", inner: true, once: true, read: readFold},
		{word: "rest", form: "rest 60 deg at 3, 8", inner: true, read: readRest},
		{word: "crease", form: "crease 0.15 N/rad at 1, 2", inner: true, read: readCrease},
		{word: "grain", form: "grain up", inner: true, once: true, read: readGrain},
		{word: "closed", form: "closed folds 3, 6", inner: true, once: true, read: readClosed},
		{word: "wedge", form: "wedge tab 3", inner: true, read: readWedge},
		{word: "glue", form: "glue wall.tab inside wall.left, left, turned 90", most: card.MaxGlues, read: readGlue},
		{word: "opens", form: "opens by itself", once: true, read: readOpens},
		{word: "keep", form: "keep spring.leaf <= spring.front / 2", most: 400, read: readKeep},
		{word: "mat", form: "mat wall.left, wall.right of white, edge 3", most: 400, read: readMat},
		{word: "topper", form: "topper oval 92 x 118 of white on roof.front-slope, top at 168, thick 3 mm", most: 200, read: readTopper},
	}
}

// mostLines bounds the lines of one kind where the keyword has no limit of its own.
const mostLines = 200

// writer writes statements.
type writer struct {
	buf  []byte
	unit length.Unit
}

// put writes texts one behind the other.
func (w *writer) put(texts ...string) {
	for _, t := range texts {
		w.buf = append(w.buf, t...)
	}
}

// len writes a length in the card's unit.
func (w *writer) len(l length.Length) { w.put(card.Bare(l, w.unit)) }

func (w *writer) size(s card.Size) {
	w.len(s.W)
	w.put(" x ")
	w.len(s.H)
}

func (w *writer) point(p plane.Point) {
	w.put("(")
	w.len(p.X)
	w.put(", ")
	w.len(p.Y)
	w.put(")")
}

func (w *writer) points(points []plane.Point) {
	for i, p := range points {
		if i > 0 {
			w.put(" ")
		}
		w.point(p)
	}
}

// num writes a measured value, exactly and without an exponent.
func (w *writer) num(f float64) { w.buf = strconv.AppendFloat(w.buf, f, 'f', -1, 64) }

func (w *writer) int(n int) { w.buf = strconv.AppendInt(w.buf, int64(n), 10) }

func (w *writer) ints(numbers []int) {
	for i, n := range numbers {
		if i > 0 {
			w.put(", ")
		}
		w.int(n)
	}
}

// quoted writes a text between quotes: quotes in it are doubled, what cannot stand on one line becomes a space.
func (w *writer) quoted(s string) {
	w.put(`"`)
	for _, r := range s {
		switch {
		case r == '"':
			w.put(`""`)
		case r < ' ' || r >= 0x7f && r < 0xa0:
			w.put(" ")
		default:
			w.put(string(r))
		}
	}
	w.put(`"`)
}
