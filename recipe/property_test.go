package recipe

import (
	"testing"

	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"

	"pgregory.net/rapid"
)

// draw makes random cards: of every kind of line, but not such that fold or even pass card.Check.
type draw struct{ *rapid.T }

func (d draw) length() length.Length {
	pitch := rapid.SampledFrom([]length.Length{mm, mm / 2, length.Inch / 8, length.Inch / 64, length.Inch / 1000, 1}).Draw(d.T, "pitch")
	return pitch * length.Length(rapid.Int64Range(0, int64(length.Max/pitch)).Draw(d.T, "marks"))
}

func (d draw) signed() length.Length {
	if d.bool() {
		return -d.length()
	}
	return d.length()
}

func (d draw) bool() bool      { return rapid.Bool().Draw(d.T, "choice") }
func (d draw) below(n int) int { return rapid.IntRange(0, n-1).Draw(d.T, "choice") }
func (d draw) name() string {
	return rapid.SampledFrom([]string{"wall", "tab", "back-left", "x", "x4", "in", "mm", "m_2", "Möwe", "at", "of"}).Draw(d.T, "name")
}
func (d draw) text() string {
	return rapid.StringMatching(`[a-z "#”“ö]{0,12}`).Draw(d.T, "text")
}
func (d draw) value() float64 {
	return float64(rapid.IntRange(0, 1_000_000).Draw(d.T, "value")) / rapid.SampledFrom([]float64{1, 3, 1000}).Draw(d.T, "by")
}
func (d draw) size() card.Size    { return card.Size{W: d.length(), H: d.length()} }
func (d draw) point() plane.Point { return plane.Point{X: d.signed(), Y: d.signed()} }
func (d draw) points() []plane.Point {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) plane.Point { return draw{t}.point() }), 1, 5).Draw(d.T, "points")
}
func (d draw) numbers() []int {
	return rapid.SliceOfN(rapid.IntRange(1, 99), 0, 4).Draw(d.T, "numbers")
}
func (d draw) ref() card.PanelRef {
	return card.PanelRef{Piece: d.name(), Copy: d.below(3), Panel: d.name()}
}
func (d draw) pieceRef() card.PieceRef { return card.PieceRef{Piece: d.name(), Copy: d.below(3)} }
func (d draw) number() (n card.Number) {
	if d.bool() {
		n = card.Number{Value: d.value(), Given: true}
	}
	return n
}

// some makes up to three of something.
func some[T any](d draw, one func(d draw) T) []T {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) T { return one(draw{t}) }), 0, 3).Draw(d.T, "some")
}

func (d draw) card() *card.Card {
	c := &card.Card{Title: d.text(), Unit: length.Unit(d.below(3)), Opening: d.opening()}
	if d.bool() {
		size := d.size()
		c.Fits, c.Marks = &size, d.length()
	}
	c.Stocks = some(d, draw.stock)
	c.Pieces = some(d, draw.piece)
	c.Glues = some(d, draw.glue)
	c.Keeps = some(d, draw.keep)
	c.Mats = some(d, func(d draw) card.Mat {
		return card.Mat{Panels: append(some(d, draw.ref), d.ref()), Stock: d.name(), Edge: d.length()}
	})
	c.Toppers = some(d, draw.topper)
	return c
}

func (d draw) stock() card.Stock {
	return card.Stock{Name: d.name(), Label: d.text(), Grammage: d.value(), Caliper: d.length(), Grain: card.Grain(d.below(4)),
		StiffnessMilliNm: d.number(), CreaseNPerRad: d.number(), RestDeg: d.number(), ScoredDeg: d.number()}
}

func (d draw) piece() card.Piece {
	p := card.Piece{Name: d.name(), Stock: d.name(), Copies: 1 + d.below(3), Size: d.size(),
		Scores: some(d, draw.score), Windows: some(d, draw.window), Rest: some(d, draw.crease), Crease: some(d, draw.crease)}
	if d.bool() {
		p.Outline = d.points()
		box := plane.BoxOf(p.Outline...)
		p.Size = card.Size{W: box.W(), H: box.H()}
	}
	p.Slits = some(d, func(d draw) card.Slit { return card.Slit{From: d.point(), To: d.point()} })
	p.Strip = some(d, func(d draw) card.StripName {
		return card.StripName{Name: rapid.SampledFrom([]string{"", "leaf", "x4"}).Draw(d.T, "panel")}
	})
	p.PanelsAt = some(d, func(d draw) card.PanelAt { return card.PanelAt{Name: d.name(), At: d.point()} })
	p.Wedges = some(d, func(d draw) card.Wedge { return card.Wedge{Panel: d.name(), Depth: d.length()} })
	p.Grain = []card.Grain{card.GrainUnsaid, card.GrainAcross, card.GrainUp}[d.below(3)]
	if p.ClosedFoldsSaid = d.bool(); p.ClosedFoldsSaid {
		p.ClosedFolds = d.numbers()
	}
	return p
}

func (d draw) score() card.Score {
	s := card.Score{Kind: card.ScoreKind(d.below(3)), Sense: card.Sense(d.below(3))}
	if s.Kind == card.Slanted {
		s.From, s.To = d.point(), d.point()
	} else {
		s.At = d.length()
	}
	return s
}

func (d draw) window() card.Window {
	w := card.Window{Kind: card.WindowKind(d.below(4))}
	if w.Kind == card.Polygon {
		w.Points = d.points()
	} else {
		w.Size, w.At = d.size(), d.point()
	}
	return w
}

func (d draw) crease() card.CreaseValue {
	return card.CreaseValue{Value: d.value(), Scores: d.numbers()}
}

func (d draw) glue() card.Glue {
	return card.Glue{A: d.ref(), B: d.ref(), Joint: card.Joint(d.below(4)), AlignX: card.Align(d.below(3)), AlignY: card.Align(d.below(3)),
		TurnedDeg: d.value(), Over: d.signed(), Up: d.signed()}
}

func (d draw) opening() card.Opening {
	o := card.Opening{Kind: card.OpeningKind(d.below(4))}
	switch o.Kind {
	case card.OpensAt:
		o.Piece, o.Score, o.ToDeg = d.pieceRef(), 1+d.below(20), d.value()
	case card.OpensByPulling:
		o.A, o.B = d.pieceRef(), d.pieceRef()
	}
	return o
}

func (d draw) keep() card.Keep {
	return card.Keep{Left: d.linear(), Right: d.linear(), Relation: card.Relation(d.below(3))}
}

func (d draw) linear() card.Linear {
	return card.Linear{Constant: d.signed(), Terms: some(d, func(d draw) card.Term {
		num := rapid.SampledFrom([]int64{1, -1, 2, -3, 7}).Draw(d.T, "num")
		den := rapid.SampledFrom([]int64{1, 5, 11}).Draw(d.T, "den") // has no factor in common with num
		t := card.Term{Kind: card.TermKind(d.below(5)), Num: num, Den: den}
		if t.Kind <= card.PieceHeight {
			t.Piece = d.name()
		}
		if t.Kind == card.PanelWidth {
			t.Panel = d.name()
		}
		return t
	})}
}

func (d draw) topper() card.Topper {
	t := card.Topper{Kind: card.WindowKind(d.below(4)), Stock: d.name(), On: d.ref(), Place: card.TopperPlace(d.below(3)), ThickGiven: d.bool()}
	if t.Kind == card.Polygon {
		t.Points = d.points()
	} else {
		t.Size = d.size()
	}
	if t.Place != card.TopperCentre {
		t.At = d.length()
	}
	if t.ThickGiven {
		t.Thick = d.length()
	}
	return t
}

// A card that is written and read is the same card, in whatever unit.
func TestCardWrittenAndRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := draw{t}.card()
		r := FromCard(c)
		if d := difference(c, r.Card()); d != "" {
			t.Fatalf("the recipe holds another card:\n%s", d)
		}
		text := r.Format()
		again, problems := Read("x.card", text)
		if len(problems) > 0 {
			t.Fatalf("problems:\n%s\n%s", printed(problems), text)
		}
		if d := difference(c, again.Card()); d != "" {
			t.Fatalf("another card is read:\n%s\n%s", d, text)
		}
		if twice := again.Format(); string(twice) != string(text) {
			t.Fatalf("written once:\n%s\nwritten twice:\n%s", text, twice)
		}
	})
}

// Whatever the unit is changed to, the card stays the same.
func TestUnitsChanged(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := draw{t}.card()
		r := FromCard(c)
		c.Unit = length.Unit(draw{t}.below(3))
		r.SetUnits(c.Unit)
		again, problems := Read("x.card", r.Format())
		if len(problems) > 0 {
			t.Fatalf("problems:\n%s", printed(problems))
		}
		if d := difference(c, again.Card()); d != "" {
			t.Fatalf("another card is read:\n%s", d)
		}
	})
}

// Every length that lies on a mark of a ruler in inches is read as the program prints it on drawings, by the scanner too.
func TestTypesetInARecipe(t *testing.T) {
	for l := length.Inch / 64; l < 5*length.Inch; l += length.Inch / 64 {
		text := "fits " + l.Typeset(length.IN) + " x " + l.Typeset(length.IN) + "\n"
		r, problems := Read("x.card", []byte(text))
		if len(problems) > 0 || r.Card().Fits.W != l || r.Card().Fits.H != l {
			t.Fatalf("%s%s", text, printed(problems))
		}
	}
}
