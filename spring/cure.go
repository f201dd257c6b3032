package spring

import (
	"context"

	"foldwright/card"
	"foldwright/length"
)

// Outcome is what a card does, in the numbers that changes are compared by.
type Outcome struct {
	DepthMM   float64 `json:"depth_mm"`
	HoldShutN float64 `json:"hold_shut_N"`
	EnergyMJ  float64 `json:"energy_mJ"`
	Pull      float64 `json:"pull"`
	Feel      Feel    `json:"feel"`
}

// Cure is a change with what it does, found by solving the changed card.
type Cure struct {
	Change string   `json:"change"`
	Lines  []string `json:"lines,omitempty"`
	Outcome
	// Card is the changed card. It lies flat.
	Card *card.Card `json:"-"`
}

// cureSteps is how many steps of the way are followed for a force: it is the first few that tell.
const cureSteps = 24

// Try solves a card: ok is false where it does not lie flat, has no rest pose, or ctx ended it.
func Try(ctx context.Context, c *card.Card, a *Assumptions) (o Outcome, ok bool) {
	s, _ := Build(ctx, c, a)
	if s == nil {
		return o, false
	}
	rest := s.Rest(ctx)
	if !rest.Found || ctx.Err() != nil {
		return o, false
	}
	push := s.Opening(ctx, rest, cureSteps)
	felt := s.Feel(ctx, rest, push, a)
	return Outcome{rest.Standing.Depth, push.HoldShut, rest.Energy, felt.Pull, felt.Feel}, ctx.Err() == nil
}

// Cures lists changes that make a card's springs weaker, or stronger where it is limp, each solved again. A change after
// which the card does not lie flat, or finds no rest, is left out. ok is false where ctx ended it.
func (s *Model) Cures(ctx context.Context, felt Felt, a *Assumptions) (cures []Cure, ok bool) {
	for _, ch := range s.changes(felt, a) {
		o, solved := Try(ctx, ch.Card, a)
		if ctx.Err() != nil {
			return cures, false
		}
		if solved {
			cures = append(cures, Cure{ch.What, ch.Lines, o, ch.Card})
		}
	}
	return cures, true
}

// changes lists what can be changed about the springs, in the order in which a maker would rather try it: pressing first,
// since it needs no new cut.
func (s *Model) changes(felt Felt, a *Assumptions) []Change {
	c := s.Fold.Assembly.Card
	var out []Change
	add := func(ch Change, ok bool) {
		if ok {
			out = append(out, ch)
		}
	}
	stronger := felt.Feel == Limp
	pressed, gsm, by := a.rows["rest-hard"].Typical, 0.8, -pitch(c)
	if stronger {
		pressed, gsm, by = a.rows["rest-barely"].Typical, 1.25, pitch(c)
	}
	for _, name := range felt.Springs {
		middle := Between(c, name)
		add(Press(c, name, middle, pressed))
		add(Leaves(c, name, by))
		add(Leaves(c, name, 2*by))
		if k := s.Fold.Assembly.Card.StockNamed(s.pieceNamed(name).Stock); k != nil {
			add(Stock(c, name, 10*float64(int(k.Grammage*gsm/10+0.5))))
		}
		if h := s.pieceNamed(name).Size.H; !stronger {
			add(Height(c, name, length.Length(int64(h)*3/4/int64(pitch(c)))*pitch(c)))
			add(Fewer(c, name))
		}
	}
	return out
}

func (s *Model) pieceNamed(name string) *card.Piece {
	for i := range s.Fold.Assembly.Card.Pieces {
		if p := &s.Fold.Assembly.Card.Pieces[i]; p.Name == name {
			return p
		}
	}
	return &card.Piece{}
}

// pitch returns the marks of a card: those that it says, or a millimetre, or an eighth of an inch.
func pitch(c *card.Card) length.Length {
	switch {
	case c.Marks > 0:
		return c.Marks
	case c.Unit == length.IN:
		return 3175 * length.Micrometre
	}
	return length.Millimetre
}
