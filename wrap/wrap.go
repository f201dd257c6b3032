package wrap

import (
	"cmp"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
	"foldwright/recipe"
	"foldwright/stock"
)

// Kind is how a sheet is folded round a card.
type Kind uint8

// Plain is an envelope for a thin card, Box one with walls for a thick one.
const (
	Plain Kind = iota
	Box
)

// String returns envelope or box.
func (k Kind) String() string { return [...]string{"envelope", "box"}[k] }

// Job is what is to be wrapped, and in what.
type Job struct {
	Kind Kind
	// Size is that of the closed card with its decoration, Thick its thickness where it is thickest.
	Size  card.Size
	Thick length.Length
	Unit  length.Unit
	// Marks is the pitch of the ruler and Room how much larger the inside is, in all, both ways; 0 for what Usual says.
	Marks, Room length.Length
	// Padding lies on every side of the card, so thick; 0 for none.
	Padding length.Length
	Stock   card.Stock
	// Sheets are those that there are to cut it from; none where any will do.
	Sheets []stock.Sheet
}

// For returns the job of wrapping a closed card, in the card's own unit.
func For(kind Kind, closed *flat.Closed, of card.Stock) Job {
	b := closed.Outline()
	return Job{Kind: kind, Size: card.Size{W: b.W(), H: b.H()}, Thick: closed.Thickness().Max, Unit: closed.Assembly.Card.Unit, Stock: of}
}

// Usual returns the pitch of the ruler and the room in inches (1/8 in, 1/4 in) or in metric measures (1 mm, 6 mm).
// Common practice, no source.
func Usual(u length.Unit) (marks, room length.Length) {
	if u == length.IN {
		return length.Inch / 8, length.Inch / 4
	}
	return length.Millimetre, 6 * length.Millimetre
}

// Wrap is an envelope or a box for a card.
type Wrap struct {
	Card *card.Card
	// Inside is the front of it: for a box the card has all of it, in a plain envelope its thickness takes some.
	Inside card.Size
	// Wall is how deep a box is from score to score; 0 for a plain envelope.
	Wall  length.Length
	Blank card.Size
	// Sheets are those of the job that the blank comes out of, the smallest first.
	Sheets []stock.Sheet
}

// Recipe returns the recipe that folds it.
func (w *Wrap) Recipe() *recipe.Recipe { return recipe.FromCard(w.Card) }

// Make folds an envelope or a box round a card.
//
// Problems: wrap-size (nothing to wrap, or too small or too large to fold a sheet round), wrap-thick (too thick for this
// kind), wrap-marks (marks too far apart, a negative room or padding), wrap-sheet (larger than every sheet), and those of
// [card.Check] for its stock. The Wrap is nil where one of them is an error.
func Make(j Job) (*Wrap, problem.List) {
	marks, room := Usual(j.Unit)
	j.Marks, j.Room = cmp.Or(j.Marks, marks), cmp.Or(j.Room, room)
	if problems := j.check(); problems.HasErrors() {
		return nil, problems
	}
	w := &Wrap{}
	var s sheet
	if j.Kind == Box {
		s = j.box(w)
	} else {
		s = j.plain(w)
	}
	w.Card = s.card(j)
	w.Blank = w.Card.Pieces[0].Size
	problems := append(j.cutFrom(w), card.Check(w.Card)...)
	if problems.HasErrors() {
		return nil, problems.Sorted()
	}
	return w, problems.Sorted()
}

// up returns the mark at a length or next above it.
func (j Job) up(l length.Length) length.Length {
	near, rest := l.Snap(j.Marks)
	if rest > 0 {
		near += j.Marks
	}
	return near
}

// down returns the mark at a length or next below it.
func (j Job) down(l length.Length) length.Length { return -j.up(-l) }

// thick returns how thick the card is with its padding.
func (j Job) thick() length.Length { return j.Thick + 2*j.Padding }

// inside returns the inside, the long side first.
func (j Job) inside() (long, short length.Length) {
	room := j.Room
	if j.Kind == Plain {
		room = max(room, j.thick()+j.Room/2)
	}
	room += 2 * j.Padding
	return j.up(max(j.Size.W, j.Size.H) + room), j.up(min(j.Size.W, j.Size.H) + room)
}

// cutFrom finds the sheets that are large enough, and reports where none is.
func (j Job) cutFrom(w *Wrap) problem.List {
	long, short := max(w.Blank.W, w.Blank.H), min(w.Blank.W, w.Blank.H)
	for _, s := range j.Sheets {
		if s.Long >= long && s.Short >= short {
			w.Sheets = append(w.Sheets, s)
		}
	}
	slices.SortStableFunc(w.Sheets, func(a, b stock.Sheet) int {
		return cmp.Or(cmp.Compare(a.Long, b.Long), cmp.Compare(a.Short, b.Short))
	})
	if len(w.Sheets) > 0 || len(j.Sheets) == 0 && long <= length.Max {
		return nil
	}
	needs := "a sheet of at least that size, or a smaller card"
	if len(j.Sheets) > 0 {
		largest := slices.MaxFunc(j.Sheets, func(a, b stock.Sheet) int {
			return cmp.Compare(min(a.Long-long, a.Short-short), min(b.Long-long, b.Short-short))
		})
		needs += "; the nearest is " + largest.Name + ", " + largest.Short.Human(j.Unit) + " by " + largest.Long.Human(j.Unit)
	}
	return problem.List{{Rule: "wrap-sheet", What: "unfolded, the " + j.Kind.String() + " is " + short.Both(j.Unit) + " by " + long.Both(j.Unit) + ", larger than every sheet",
		Needs: needs}}
}

func at(x, y length.Length) plane.Point { return plane.Point{X: x, Y: y} }
