package fit

import (
	"fmt"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// Limits says up to where a card is packed flat and where its bulk is uneven. All assumed, see UsualLimits.
type Limits struct {
	// Flat is the thickness up to which a card goes in a flat envelope, Padded up to which in a padded one; above, in a box.
	Flat, Padded length.Length
	// Bump is how much thicker than usual a place may be before the bulk is uneven.
	Bump length.Length
}

// UsualLimits returns what is assumed. Flat: 5 mm, where the lowest letter class of most operators of the mail table ends.
// Padded: 10 mm; round a thicker card a soft envelope bends, and presses on its edges (common practice, no source). Bump:
// 1.75 mm, the thickness of a common coin; an operator's rules name coins as things that make a letter uneven (DMM101).
func UsualLimits() Limits {
	return Limits{Flat: 5 * length.Millimetre, Padded: 10 * length.Millimetre, Bump: 1750 * length.Micrometre}
}

// Packing is how a card should be packed, and why.
type Packing struct {
	Kind stock.EnvelopeKind
	// Uneven says that the bulk is uneven.
	Uneven bool
	// Why is a clause: "3.2 mm thick and even".
	Why string
}

// Pack advises how a card is packed: flat, padded or boxed. Lengths in the words are in unit.
func Pack(b Block, l Limits, unit length.Unit) Packing {
	p := Packing{Uneven: b.Bump() > l.Bump}
	thick := thin(b.Thick, unit) + " thick"
	switch {
	case b.Thick > l.Padded:
		p.Kind, p.Why = stock.BoxEnvelope, fmt.Sprintf("%s, more than the %s up to which a padded envelope keeps a card flat", thick, thin(l.Padded, unit))
	case b.Thick > l.Flat:
		p.Kind, p.Why = stock.PaddedEnvelope, fmt.Sprintf("%s, more than the %s up to which a flat envelope does", thick, thin(l.Flat, unit))
	case p.Uneven:
		p.Kind, p.Why = stock.PaddedEnvelope, fmt.Sprintf("%s at its thickest, %s more than half of it: that presses through a flat envelope",
			thin(b.Thick, unit), thin(b.Bump(), unit))
	case b.Bulk == nil:
		p.Why = thick
	default:
		p.Why = thick + " and even"
	}
	return p
}

// Uneven returns a warning where the bulk of a card is uneven. Lengths in the words are in unit.
//
// Rule: uneven-bulk.
func Uneven(b Block, l Limits, unit length.Unit) (problem.Problem, bool) {
	if b.Bump() <= l.Bump {
		return problem.Problem{}, false
	}
	share := 0.0 // of all that is uneven
	for _, level := range b.Bulk.Levels {
		if level.Thick > b.Bulk.Usual+l.Bump {
			share += level.Share
		}
	}
	return problem.Problem{
		Rule: "uneven-bulk", Severity: problem.Warning,
		What: fmt.Sprintf("the closed card is %s thick at %s from its left edge and %s from its lower edge, but no more than %s over half of it; %.0f %% of it stands out",
			thin(b.Thick, unit), b.Bulk.At.X.Human(unit), b.Bulk.At.Y.Human(unit), thin(b.Bulk.Usual, unit), 100*share),
		Needs: fmt.Sprintf("a place that is at most %s thicker than the rest, or a padded envelope", thin(l.Bump, unit)),
	}, true
}
