package spring

import (
	"context"
	"math"
)

// Feel is what a card does in the hand, in one word.
type Feel uint8

const (
	// Unknown: there is no rest pose, or no way to it.
	Unknown Feel = iota
	// Limp: the folds do not open the card all the way, or not with strength enough to lift its own weight.
	Limp
	// Gentle: the card opens, and its outer piece has nearly the shape that it has by itself.
	Gentle
	// Lively: the springs pull the outer piece visibly out of its own shape.
	Lively
	// TooStrong: they pull it more than half of the way to where its folds would be straight.
	TooStrong
)

// String returns the word: limp, gentle, lively, too strong.
func (f Feel) String() string {
	return [...]string{"unknown", "limp", "gentle", "lively", "too strong"}[f]
}

// MarshalText returns the word.
func (f Feel) MarshalText() ([]byte, error) { return []byte(f.String()), nil }

// Thresholds. A fold of the outer piece that is shut in the closed card stands open at rest, at the angle of the piece's own
// shape; springs pull it further, to 0 where the piece is straight there (a six-sided wall has become a rectangle). The
// pull is the share of that way. More than half of it, the piece has more of the other shape than of its own: too strong.
// More than half of that is seen by everybody: lively. From three quarters of the limit on it is almost too strong.
const (
	tooStrongPull = 0.5
	livelyPull    = tooStrongPull / 2
	almostPull    = tooStrongPull * 3 / 4
	// A card is limp whose folds let go of less than would lift it by its own height.
	limpLift = 1
)

// Felt is the feel with the numbers behind it.
type Felt struct {
	Feel Feel
	// Pull is the share of the way from the outer piece's own shape to straight folds that the springs pull it, in the fold
	// that they pull most; 0 where it has no such folds or the card no springs.
	Pull float64
	// Almost says that the pull is in the last quarter before too strong.
	Almost bool
	// Lift is how many times the folds could lift the card by its own height with what they let go of from closed to rest.
	Lift float64
	// OwnDepth is the depth in millimetres that the card has by itself, without its springs; 0 where that is not known.
	OwnDepth float64
	// Springs names the pieces that are taken for springs.
	Springs []string
}

// Feel judges a card from its rest pose and its way there. a is what the card without its springs is worked out with.
func (s *Model) Feel(ctx context.Context, rest Rest, p Push, a *Assumptions) Felt {
	f := Felt{Springs: s.Springs()}
	if !rest.Found {
		return f
	}
	if weight := s.weight() * rest.Standing.Height; weight > 0 {
		f.Lift = (s.Energy.At(s.Fold.Shut) - rest.Energy) / weight
	}
	if len(f.Springs) > 0 {
		f.Pull, f.OwnDepth = s.pull(ctx, rest, f.Springs, a)
	}
	f.Almost = f.Pull > almostPull && f.Pull <= tooStrongPull
	switch {
	case f.Pull > tooStrongPull:
		f.Feel = TooStrong
	case p.Complete && !p.ByItself || f.Lift < limpLift:
		f.Feel = Limp
	case f.Pull > livelyPull:
		f.Feel = Lively
	default:
		f.Feel = Gentle
	}
	return f
}

// pull compares the outer piece's folds with those that it has without the springs.
func (s *Model) pull(ctx context.Context, rest Rest, springs []string, a *Assumptions) (pull, own float64) {
	bare, problems := Build(ctx, Without(s.Fold.Assembly.Card, springs...), a)
	if bare == nil || problems.HasErrors() {
		return 0, 0
	}
	alone := bare.Rest(ctx)
	if !alone.Found {
		return 0, 0
	}
	angle := map[int]float64{} // by score
	for i, h := range bare.Fold.Assembly.Hinges {
		if h.Copy == bare.outer() {
			angle[h.Score()] = math.Abs(alone.Angles[i])
		}
	}
	for i, h := range s.Fold.Assembly.Hinges {
		if mine := angle[h.Score()]; h.Copy == s.outer() && s.Fold.Shut[i] != 0 && mine > 0 {
			pull = max(pull, (mine-math.Abs(rest.Angles[i]))/mine)
		}
	}
	return pull, alone.Standing.Depth
}

// weight returns the weight of all pieces in N; mats and toppers are left out.
func (s *Model) weight() float64 {
	sum := 0.0
	for i := range s.Fold.Assembly.Panels {
		sum += s.mass(i)
	}
	return sum / 1000 * gravity
}

// mass returns the mass of a panel in grams; a stock that is not there counts as 250 gsm.
func (s *Model) mass(panel int) float64 {
	a := s.Fold.Assembly
	gsm := 250.0
	if k := a.Card.StockNamed(a.Copies[a.Panels[panel].Copy].Pattern.Piece.Stock); k != nil && k.Grammage > 0 {
		gsm = k.Grammage
	}
	return a.Panels[panel].Area() / 1e18 * gsm
}
