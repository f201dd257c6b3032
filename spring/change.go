package spring

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/length"
)

// Change is a card with one thing about its springs made otherwise.
type Change struct {
	// What says what, in words. Lines holds the lines of the recipe that change, as they read then; empty where whole pieces
	// and their glue go (then Card tells).
	What  string
	Lines []string
	Card  *card.Card
}

// leaves is the folded strip that a spring is.
type leaves struct {
	piece *card.Piece
	// at holds where the panels begin, and last where the last one ends.
	at []length.Length
	// name is that which most of the panels have, width that of the first of them.
	name  string
	width length.Length
}

// strip reads the leaves of a spring of a card; ok is false where it is no plain strip, or its leaves have no name in common.
func strip(c *card.Card, name string) (l leaves, ok bool) {
	i := slices.IndexFunc(c.Pieces, func(p card.Piece) bool { return p.Name == name })
	if i < 0 {
		return l, false
	}
	p := &c.Pieces[i]
	l.piece, l.at = p, []length.Length{0}
	for _, k := range p.Scores {
		if k.Kind != card.Across {
			return l, false
		}
		l.at = append(l.at, k.At)
	}
	l.at = append(l.at, p.Size.W)
	if len(p.Outline) > 0 || !slices.IsSorted(l.at) || len(p.Strip) != len(l.at)-1 {
		return l, false
	}
	count, most := map[string]int{}, 1
	for _, s := range p.Strip {
		if count[s.Name]++; count[s.Name] > most {
			l.name, most = s.Name, count[s.Name]
		}
	}
	for k, s := range p.Strip {
		if s.Name == l.name {
			l.width = l.at[k+1] - l.at[k]
			break
		}
	}
	return l, l.name != ""
}

// Leaves returns the card with the leaves of a spring made wider by so much (narrower below nought), all by the same; ok is
// false where the spring is no plain strip of leaves or nothing would be left of one.
func Leaves(c *card.Card, name string, by length.Length) (change Change, ok bool) {
	out := c.Clone()
	l, ok := strip(out, name)
	if !ok {
		return change, false
	}
	shift := length.Length(0)
	for k, s := range l.piece.Strip {
		if s.Name == l.name {
			if l.at[k+1]-l.at[k]+by <= 0 {
				return change, false
			}
			shift += by
		}
		if k < len(l.piece.Scores) {
			l.piece.Scores[k].At += shift
		}
	}
	l.piece.Size.W += shift
	word := "narrower"
	if by > 0 {
		word = "wider"
	}
	var at []string
	for _, k := range l.piece.Scores {
		at = append(at, words(k.At, c.Unit))
	}
	return Change{
		What:  fmt.Sprintf("%s of %s %s: %s instead of %s", plural(l.name), name, word, (l.width + by).Human(c.Unit), l.width.Human(c.Unit)),
		Lines: []string{fmt.Sprintf("size %s x %s", words(l.piece.Size.W, c.Unit), words(l.piece.Size.H, c.Unit)), "score across at " + strings.Join(at, ", ")},
		Card:  out,
	}, true
}

// words writes a length as a recipe does, without the card's unit.
func words(l length.Length, u length.Unit) string {
	return strings.TrimSuffix(l.Human(u), " "+u.String())
}

func plural(name string) string {
	if strings.HasSuffix(name, "leaf") {
		return strings.TrimSuffix(name, "f") + "ves"
	}
	return name + "s"
}

// Between lists the scores of a spring, counted from 1, that lie between two of its leaves: its middle folds. All its scores
// where it has no such.
func Between(c *card.Card, name string) []int {
	var out []int
	if l, ok := strip(c, name); ok {
		for k := range l.piece.Scores {
			if l.piece.Strip[k].Name == l.name && l.piece.Strip[k+1].Name == l.name {
				out = append(out, k+1)
			}
		}
	}
	i := slices.IndexFunc(c.Pieces, func(p card.Piece) bool { return p.Name == name })
	if len(out) == 0 && i >= 0 {
		for k := range c.Pieces[i].Scores {
			out = append(out, k+1)
		}
	}
	return out
}

// Press returns the card with some folds of a piece pressed so that they remember an angle, in whole degrees.
func Press(c *card.Card, name string, scores []int, degrees float64) (change Change, ok bool) {
	out := c.Clone()
	i := slices.IndexFunc(out.Pieces, func(p card.Piece) bool { return p.Name == name })
	if i < 0 || len(scores) == 0 {
		return change, false
	}
	degrees = math.Round(degrees)
	out.Pieces[i].Rest = append(out.Pieces[i].Rest, card.CreaseValue{Value: degrees, Scores: slices.Clone(scores)})
	at := strings.Trim(strings.ReplaceAll(fmt.Sprint(scores), " ", ", "), "[]")
	return Change{
		What:  fmt.Sprintf("folds %s of %s pressed until they remember %g degrees", at, name, degrees),
		Lines: []string{fmt.Sprintf("rest %g deg at %s", degrees, at)},
		Card:  out,
	}, true
}

// Height returns the card with a spring made another height.
func Height(c *card.Card, name string, height length.Length) (change Change, ok bool) {
	out := c.Clone()
	l, ok := strip(out, name)
	if !ok || height <= 0 {
		return change, false
	}
	was := l.piece.Size.H
	l.piece.Size.H = height
	return Change{
		What:  fmt.Sprintf("%s %s high instead of %s", name, height.Human(c.Unit), was.Human(c.Unit)),
		Lines: []string{fmt.Sprintf("size %s x %s", words(l.piece.Size.W, c.Unit), words(height, c.Unit))},
		Card:  out,
	}, true
}

// Stock returns the card with a piece cut from card of another grammage: as thick as that makes it with the bulk of the old.
// Measured stiffnesses of the old stock do not carry over; its remembered angles do.
func Stock(c *card.Card, name string, gsm float64) (change Change, ok bool) {
	out := c.Clone()
	i := slices.IndexFunc(out.Pieces, func(p card.Piece) bool { return p.Name == name })
	if i < 0 {
		return change, false
	}
	old := out.StockNamed(out.Pieces[i].Stock)
	if old == nil || !(old.Grammage > 0) || !(gsm > 0) {
		return change, false
	}
	k := *old
	const step = 10 * length.Micrometre
	k.Name = fmt.Sprintf("%s-%g", old.Name, gsm)
	k.Caliper = length.Length(math.Round(float64(old.Caliper)*gsm/old.Grammage/float64(step))) * step
	k.Grammage, k.StiffnessMilliNm, k.CreaseNPerRad = gsm, card.Number{}, card.Number{}
	out.Stocks = append(out.Stocks, k)
	out.Pieces[i].Stock = k.Name
	return Change{
		What:  fmt.Sprintf("%s of %g gsm card instead of %g", name, gsm, old.Grammage),
		Lines: []string{fmt.Sprintf("stock %s %q %g gsm, %s", k.Name, k.Label, gsm, k.Caliper.Human(length.MM)), "of " + k.Name},
		Card:  out,
	}, true
}

// Fewer returns the card with one spring less of a piece that is there more than once: the last copy goes, and what it was
// glued to is glued to each other.
func Fewer(c *card.Card, name string) (change Change, ok bool) {
	out := c.Clone()
	i := slices.IndexFunc(out.Pieces, func(p card.Piece) bool { return p.Name == name })
	if i < 0 || out.Pieces[i].Copies < 2 {
		return change, false
	}
	last := out.Pieces[i].Copies
	is := func(r card.PanelRef) bool { return r.Piece == name && r.Copy == last }
	var ends []card.Glue // of the copy that goes, to others
	out.Glues = slices.DeleteFunc(out.Glues, func(g card.Glue) bool {
		if is(g.A) != is(g.B) {
			ends = append(ends, g)
		}
		return is(g.A) || is(g.B)
	})
	if len(ends) != 2 {
		return change, false
	}
	// The joint that leads on from the row is the one whose other end is no copy of the spring: its place is taken by what
	// the copy was glued against.
	far, near := ends[1], ends[0]
	if other(far, is).Piece == name {
		far, near = near, far
	}
	if is(far.A) {
		far.A = other(near, is)
	} else {
		far.B = other(near, is)
	}
	out.Glues = append(out.Glues, far)
	out.Pieces[i].Copies = last - 1
	if last == 2 { // a single copy has no number
		for k := range out.Glues {
			for _, r := range []*card.PanelRef{&out.Glues[k].A, &out.Glues[k].B} {
				if r.Piece == name {
					r.Copy = 0
				}
			}
		}
	}
	return Change{What: fmt.Sprintf("%d %s instead of %d", last-1, name, last), Card: out}, true
}

// other returns the end of a joint that is not of the copy.
func other(g card.Glue, is func(card.PanelRef) bool) card.PanelRef {
	if is(g.A) {
		return g.B
	}
	return g.A
}
