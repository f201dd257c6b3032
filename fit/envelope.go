package fit

import (
	"fmt"
	"strings"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// Envelope is an envelope or a box that a card may go into, a published one or a person's own.
type Envelope struct {
	// ID is that of package stock; empty for a person's own.
	ID, Name string
	Kind     stock.EnvelopeKind
	Unit     length.Unit
	// Short and Long are inside sizes or, where Published, the outside size that tables give.
	Short, Long length.Length
	Published   bool
	// Depth is that of a box, inside.
	Depth length.Length
	// OutShort and OutLong are measured outside, Grams is its weight; 0 where that is not known.
	OutShort, OutLong length.Length
	Grams             float64
	Where             problem.Place
}

// Standard returns an envelope of the tables.
func Standard(e stock.Envelope) Envelope {
	return Envelope{ID: e.ID, Name: e.Name, Unit: e.Unit, Short: e.Short, Long: e.Long, Published: true, OutShort: e.Short, OutLong: e.Long, Where: e.Where}
}

// Own returns a person's own envelope.
func Own(e stock.OwnEnvelope) Envelope {
	return Envelope{Name: e.Name, Kind: e.Kind, Unit: e.Unit, Short: e.Short, Long: e.Long, Depth: e.Depth,
		OutShort: e.OutShort, OutLong: e.OutLong, Grams: e.Grams, Where: e.Where}
}

// check says what is wrong with the sizes of an envelope, as problems of rule envelope-size; a box without a depth is one.
func (e Envelope) check() problem.List {
	var probs problem.List
	add := func(what, needs string) {
		probs.Add(problem.Problem{Rule: "envelope-size", Where: e.Where, What: fmt.Sprintf("the envelope %s is %s", problem.Quote(e.Name), what), Needs: needs})
	}
	switch {
	case e.Short <= 0 || e.Long <= 0:
		add(e.Short.Human(e.Unit)+" x "+e.Long.Human(e.Unit), "two sides above 0")
	case e.Short > length.Max || e.Long > length.Max || e.Depth > length.Max:
		add("too large", "sides of at most "+length.Max.Human(e.Unit))
	case e.Kind == stock.BoxEnvelope && e.Depth <= 0:
		add("a box of depth "+e.Depth.Human(e.Unit), "a depth above 0")
	}
	return probs
}

// check says what is wrong with the sizes of a block, as problems of rule block-size.
func (b Block) check() problem.List {
	for _, l := range []length.Length{b.W, b.H, b.Thick} {
		if l <= 0 || l > length.Max {
			return problem.List{{Rule: "block-size", What: fmt.Sprintf("the closed card is %s x %s and %s thick", b.W.Human(length.MM), b.H.Human(length.MM), b.Thick.Human(length.MM)),
				Needs: "a width, a height and a thickness above 0 and at most " + length.Max.Human(length.MM)}}
		}
	}
	return nil
}

// Grade says how well a card sits in an envelope.
type Grade uint8

const (
	// Easy: with the room that is usual.
	Easy Grade = iota
	// Snug: it goes in, with less room than is usual.
	Snug
	// TooSmall: it does not go in.
	TooSmall
)

// String returns easy, snug or too small.
func (g Grade) String() string { return [...]string{"easy", "snug", "too small"}[g] }

// Seat is how a card sits in one envelope, in the better of both ways of putting it in.
type Seat struct {
	Envelope Envelope
	Grade    Grade
	// Turned says that the card is turned by a quarter, its height along the long side of the envelope; Either that the other
	// way is as good.
	Turned, Either bool
	// Across and Up are the play beyond the card's width and height and its thickness, in the card's directions; negative by
	// how much the envelope is too small. Deep is that of a box beyond the thickness, 0 for others.
	Across, Up, Deep length.Length
	// Want is the play that is usual, both ways.
	Want length.Length
}

// Tightest returns the least play.
func (s Seat) Tightest() length.Length {
	if s.Envelope.Kind == stock.BoxEnvelope {
		return min(s.Across, s.Up, s.Deep)
	}
	return min(s.Across, s.Up)
}

// OrdinaryThick is the thickness of a card that the usual clearance takes in: two folded layers of heavy card, with a mat
// each and what lies between. Assumed, without a source.
const OrdinaryThick = 1500 * length.Micrometre

// Into says how a block sits in an envelope. clearance is the room that is usual for an ordinary card, in all, both ways.
func Into(b Block, e Envelope, clearance length.Length) Seat {
	thick, want := b.Thick, clearance-min(b.Thick, OrdinaryThick)
	switch e.Kind {
	case stock.PaddedEnvelope:
		want = clearance
	case stock.BoxEnvelope:
		thick, want = 0, clearance // it need not go round the card
	}
	short, long := min(e.Short, e.Long), max(e.Short, e.Long)
	way := func(turned bool) Seat {
		s := Seat{Envelope: e, Turned: turned, Across: long - b.W - thick, Up: short - b.H - thick, Want: max(want, 0)}
		if turned {
			s.Across, s.Up = short-b.W-thick, long-b.H-thick
		}
		if e.Kind == stock.BoxEnvelope {
			s.Deep = e.Depth - b.Thick
		}
		switch {
		case s.Tightest() < 0:
			s.Grade = TooSmall
		case min(s.Across, s.Up) < s.Want:
			s.Grade = Snug
		}
		return s
	}
	s, other := way(b.H > b.W), way(b.H <= b.W) // long side along long side never sits worse
	s.Either = other.Grade == s.Grade
	return s
}

// Problem returns what is wrong where the envelope is too small for the card. Lengths in the words are in unit.
//
// Rule: envelope-small.
func (s Seat) Problem(b Block, unit length.Unit) (problem.Problem, bool) {
	if s.Grade != TooSmall {
		return problem.Problem{}, false
	}
	p := problem.Problem{Rule: "envelope-small", Where: s.Envelope.Where,
		What:  fmt.Sprintf("a card of %s x %s, %s thick, does not go into the envelope %s: it is %s", b.W.Human(unit), b.H.Human(unit), thin(b.Thick, unit), s.Envelope.Name, s.playWords(unit)),
		Needs: fmt.Sprintf("an envelope of %s x %s at the least, better %s each way", most(b.W+b.Thick, unit), most(b.H+b.Thick, unit), most(s.Want, unit)+" more")}
	if s.Envelope.Kind == stock.BoxEnvelope {
		p.Needs = fmt.Sprintf("a box of %s x %s inside and %s deep at the least, better %s more each way", b.W.Human(unit), b.H.Human(unit), thin(b.Thick, unit), most(s.Want, unit))
	}
	return p, true
}

// Words says how the card sits: "easy, 6 mm to spare across, 1 mm up". Lengths are in unit.
func (s Seat) Words(unit length.Unit) string {
	words := s.Grade.String() + ", " + s.playWords(unit)
	if s.Grade == Snug {
		words += fmt.Sprintf("; %s is usual", most(s.Want, unit))
		if s.Envelope.Published {
			words += ", and the published size is the outside: try one first"
		}
	}
	return words
}

// playWords says what is to spare, or by how much the envelope is too small.
func (s Seat) playWords(unit length.Unit) string {
	type side struct {
		by   length.Length
		word string
	}
	sides := []side{{s.Across, " across"}, {s.Up, " up"}}
	if s.Envelope.Kind == stock.BoxEnvelope {
		sides = append(sides, side{s.Deep, " deep"})
	}
	var short, spare []string
	for _, d := range sides {
		if d.by < 0 {
			short = append(short, most(-d.by, unit)+d.word)
			continue
		}
		to := least(d.by, unit)
		if len(spare) == 0 {
			to += " to spare"
		}
		spare = append(spare, to+d.word)
	}
	if len(short) > 0 {
		return list(short) + " too small"
	}
	return strings.Join(spare, ", ")
}
