package fit

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/length"
	"foldwright/stock"
)

// Way is one envelope in which a card can be sent, and how it goes in it.
type Way struct {
	Seat     Seat
	Item     Item
	Weight   Weight
	Wrapping Wrapping
	Posting  Posting
}

// Sending is a card that is to be sent.
type Sending struct {
	Block  Block
	Weight Weight
	// Rigid says that something on the card does not bend.
	Rigid  bool
	Limits Limits
	// Prices may be nil.
	Prices *stock.Prices
	// Unit is that of lengths in words.
	Unit length.Unit
}

// In puts the card into an envelope: what is sent, and its weight with the envelope. A box is as thick as it is deep.
func (s Sending) In(e Envelope) (Item, Weight, Wrapping) {
	wrapping := Wrap(e, s.Unit)
	part := Part{Kind: EnvelopeWeight, Name: e.Name, Grams: wrapping.Grams}
	if e.Grams <= 0 {
		part.Assumed = fmt.Sprintf("%g gsm", wraps()[e.Kind].gsm)
	}
	whole := append(slices.Clone(s.Weight), part)
	i := Item{Long: wrapping.Long, Short: wrapping.Short, Thick: s.Block.Thick + wrapping.Thick, Grams: whole.Grams(),
		Bump: s.Block.Bump(), Rigid: s.Rigid}
	if e.Kind == stock.BoxEnvelope {
		i.Thick, i.Bump, i.Rigid = max(s.Block.Thick, e.Depth)+wrapping.Thick, 0, true
	}
	return i, whole, wrapping
}

// Ways says for every envelope that the card goes into how it is sent in it: the lowest class first, and in one class the
// envelopes in the order of the seats, easy before snug. Envelopes in which no class takes it stand last.
func (s Sending) Ways(seats []Seat, ladder stock.Ladder) []Way {
	var out []Way
	for _, seat := range seats {
		if seat.Grade == TooSmall {
			continue
		}
		way := Way{Seat: seat}
		way.Item, way.Weight, way.Wrapping = s.In(seat.Envelope)
		way.Posting, _ = Post(way.Item, ladder, s.Limits, s.Prices) // what has a seat has a size, and an envelope weighs something
		out = append(out, way)
	}
	last := func(p Posting) int {
		if p.At < 0 {
			return len(p.Steps)
		}
		return p.At
	}
	slices.SortStableFunc(out, func(a, b Way) int {
		return cmp.Or(cmp.Compare(last(a.Posting), last(b.Posting)), cmp.Compare(a.Seat.Grade, b.Seat.Grade))
	})
	return out
}
