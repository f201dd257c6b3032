package recipe

import (
	"slices"

	"foldwright/card"
	"foldwright/plane"
	"foldwright/problem"
)

// pieceLine is: piece spring of white, 2 of.
type pieceLine struct {
	name, stock            string
	copies                 int
	at, stockWhere, copyAt problem.Place
}

func readPiece(p *lineParser) statement {
	l := &pieceLine{copies: 1}
	l.name, l.at = p.name("a piece")
	p.expect("of")
	l.stock, l.stockWhere = p.name("a stock")
	if l.stock == "" {
		l.stockWhere = l.at
	}
	l.copyAt = l.at
	if p.acceptSign(",") {
		n, t := p.whole("the number of copies")
		l.copies, l.copyAt = n, p.place(t)
		p.expect("of")
	}
	return l // whatever could be read: the lines below belong to it
}

func (l *pieceLine) build(b *builder) {
	b.finishPiece()
	b.piece = &card.Piece{Name: l.name, Stock: l.stock, Copies: l.copies, Where: l.at, StockWhere: l.stockWhere, CopiesWhere: l.copyAt}
}

func (l *pieceLine) write(w *writer) {
	w.put("piece ", l.name, " of ", l.stock)
	if l.copies != 1 {
		w.put(", ")
		w.int(l.copies)
		w.put(" of")
	}
}

// sizeLine is: size 252 x 72.
type sizeLine struct {
	size card.Size
	at   problem.Place
}

func readSize(p *lineParser) statement {
	size, at := p.size()
	return &sizeLine{size, at}
}

func (l *sizeLine) build(b *builder) { b.piece.Size, b.piece.SizeWhere = l.size, l.at }

func (l *sizeLine) write(w *writer) {
	w.put("size ")
	w.size(l.size)
}

// outlineLine is: outline (0, 0) (60, 0) (60, 40) (0, 60).
type outlineLine struct {
	points []plane.Point
	at     problem.Place
}

func readOutline(p *lineParser) statement {
	at := p.place(p.tok)
	return &outlineLine{p.points(), at}
}

func (l *outlineLine) build(b *builder) {
	box := plane.BoxOf(l.points...)
	b.piece.Outline, b.piece.SizeWhere = slices.Clone(l.points), l.at
	b.piece.Size = card.Size{W: box.W(), H: box.H()}
}

func (l *outlineLine) write(w *writer) {
	w.put("outline ")
	w.points(l.points)
}

// scoresLine is: score across at 42, 78, 120. The senses of the scores come from the fold line.
type scoresLine struct {
	kind   card.ScoreKind
	scores []card.Score
}

// scoreLine is: score (0, 0) to (40, 60).
type scoreLine struct{ score card.Score }

func readScore(p *lineParser) statement {
	if p.tok.kind == sign && p.tok.text == "(" {
		at := p.place(p.tok)
		from, to := p.fromTo()
		return &scoreLine{card.Score{Kind: card.Slanted, From: from, To: to, Where: at}}
	}
	l := &scoresLine{kind: card.Across}
	if p.expect("across", "up") == "up" {
		l.kind = card.Up
	}
	p.expect("at")
	var list commaList
	for p.room(len(l.scores), "scores") {
		at, where := p.measureIn(true)
		if p.failed {
			return nil
		}
		l.scores = append(l.scores, card.Score{Kind: l.kind, At: at.Length, Where: where})
		list.see(p.tok)
		if !p.another(number) {
			break
		}
	}
	if !p.failed {
		list.check(p, l.scores)
	}
	return l
}

func (p *lineParser) fromTo() (from, to plane.Point) {
	from = p.point()
	p.expect("to")
	return from, p.point()
}

func (l *scoresLine) build(b *builder) { b.piece.Scores = append(b.piece.Scores, l.scores...) }
func (l *scoreLine) build(b *builder)  { b.piece.Scores = append(b.piece.Scores, l.score) }

func (l *scoresLine) write(w *writer) {
	w.put("score across at ")
	if l.kind == card.Up {
		w.buf = append(w.buf[:len(w.buf)-len("across at ")], "up at "...)
	}
	for i, s := range l.scores {
		if i > 0 {
			w.put(", ")
		}
		w.len(s.At)
	}
}

func (l *scoreLine) write(w *writer) {
	w.put("score ")
	w.fromTo(l.score.From, l.score.To)
}

func (w *writer) fromTo(from, to plane.Point) {
	w.point(from)
	w.put(" to ")
	w.point(to)
}

// slitLine is: slit (30, 10) to (30, 50).
type slitLine struct{ slit card.Slit }

func readSlit(p *lineParser) statement {
	at := p.place(p.tok)
	from, to := p.fromTo()
	return &slitLine{card.Slit{From: from, To: to, Where: at}}
}

func (l *slitLine) build(b *builder) { b.piece.Slits = append(b.piece.Slits, l.slit) }

func (l *slitLine) write(w *writer) {
	w.put("slit ")
	w.fromTo(l.slit.From, l.slit.To)
}

// windowLine is: window oval 30 x 40 at (10, 12).
type windowLine struct{ window card.Window }

func readWindow(p *lineParser) statement {
	l := &windowLine{}
	l.window.Kind, l.window.Size, l.window.Points, l.window.Where = p.shape()
	if l.window.Kind != card.Polygon {
		p.expect("at")
		l.window.At = p.point()
	}
	return l
}

// shape reads rect W x H, oval W x H, circle D or polygon (x, y) …; the place is that of the first number.
func (p *lineParser) shape() (kind card.WindowKind, size card.Size, points []plane.Point, at problem.Place) {
	switch p.expect("rect", "oval", "circle", "polygon") {
	case "polygon":
		at = p.place(p.tok)
		return card.Polygon, size, p.points(), at
	case "circle":
		kind = card.Circle
		var d thickness
		d, at = p.measure()
		size = card.Size{W: d.Length, H: d.Length}
		if p.acceptSign("x") {
			size.H = p.length()
		}
		return kind, size, nil, at
	case "oval":
		kind = card.Oval
	}
	size, at = p.size()
	return kind, size, nil, at
}

func (w *writer) shape(kind card.WindowKind, size card.Size, points []plane.Point) {
	w.put(kind.String(), " ")
	switch kind {
	case card.Polygon:
		w.points(points)
	case card.Circle:
		w.len(size.W)
		if size.H != size.W { // an error, but not one to hide
			w.put(" x ")
			w.len(size.H)
		}
	default:
		w.size(size)
	}
}

func (l *windowLine) build(b *builder) {
	window := l.window
	window.Points = slices.Clone(window.Points)
	b.piece.Windows = append(b.piece.Windows, window)
}

func (l *windowLine) write(w *writer) {
	w.put("window ")
	w.shape(l.window.Kind, l.window.Size, l.window.Points)
	if l.window.Kind != card.Polygon {
		w.put(" at ")
		w.point(l.window.At)
	}
}
