package spring

import (
	"math"

	"foldwright/card"
	"foldwright/fold"
)

// Model is a card whose folds push and whose panels bend.
type Model struct {
	Fold *fold.Model
	// Energy is what the folds store, as a function of the fold angles, the panels' bending already in it.
	Energy fold.Energy
	// Stiffness holds what each crease alone does, in N·mm per radian: its stiffness per length times its scored length.
	Stiffness []float64
	// Rigid lists the panels that are taken not to bend, since creases that are not parallel meet in them.
	Rigid []int
}

// Values of a stock that a card's energy is worked out with.
type values struct{ along, across, crease, rest, scored float64 }

// New makes a card springy: m is the card ready to be posed, a what is assumed of its stocks where its recipe says nothing.
func New(m *fold.Model, a *Assumptions) *Model {
	s := &Model{Fold: m}
	of := s.stocks(a)
	s.creases(of)
	s.energy(s.bend(of))
	return s
}

// stocks returns the typical values of every stock of the card, by name, and those of 0.3 mm card for a name that is not there.
func (s *Model) stocks(a *Assumptions) func(name string) values {
	of := map[string]values{}
	get := func(c *card.Stock) values {
		m := a.Mechanics(c)
		return values{m.Along.Typical, m.Across.Typical, m.Crease.Typical, m.Rest.Typical, m.Scored.Typical}
	}
	for i := range s.Fold.Assembly.Card.Stocks {
		c := &s.Fold.Assembly.Card.Stocks[i]
		of[c.Name] = get(c)
	}
	other := get(nil)
	return func(name string) values {
		if v, ok := of[name]; ok {
			return v
		}
		return other
	}
}

// leastCrease, in N·mm/rad, stands in for a score of which windows and slits leave nothing, so that it still has an energy.
const leastCrease = 1e-6

// creases finds stiffness and rest angle of every hinge: what the piece says of the score, else what its stock says. A fold
// that is shut in the closed card remembers the stock's rest, a score that is straight there its scored.
func (s *Model) creases(of func(string) values) {
	m := s.Fold
	a := m.Assembly
	for i, h := range a.Hinges {
		piece := a.Copies[h.Copy].Pattern.Piece
		v := of(piece.Stock)
		k, angle := v.crease, v.scored
		if m.Shut[i] != 0 {
			angle = v.rest
		}
		if said, ok := card.ValueAt(piece.Crease, h.Score()); ok {
			k = said
		}
		if said, ok := card.ValueAt(piece.Rest, h.Score()); ok {
			angle = said * (math.Pi / 180)
		}
		s.Stiffness = append(s.Stiffness, max(k*h.Length()/1e6, leastCrease))
		s.Energy.Rest = append(s.Energy.Rest, angle*m.Sense(i))
	}
}

// bend returns the bending stiffness of panels per width, in mN·m, in a direction of their pattern. Between along and
// across the grain it goes with the square of the cosine (assumed).
func (s *Model) bend(of func(string) values) func(panel int, dx, dy float64) float64 {
	a := s.Fold.Assembly
	return func(panel int, dx, dy float64) float64 {
		piece := a.Copies[a.Panels[panel].Copy].Pattern.Piece
		v, c := of(piece.Stock), dx
		if grainUp(piece) {
			c = dy
		}
		return v.across + c*c*(v.along-v.across)
	}
}

// grainUp says whether the grain runs up a piece: as said, or along most of its scores.
func grainUp(p *card.Piece) bool {
	switch p.Grain {
	case card.GrainUp:
		return true
	case card.GrainAcross:
		return false
	}
	up := 0
	for _, sc := range p.Scores {
		switch sc.Kind {
		case card.Across: // an upright line at a distance across
			up++
		case card.Up:
			up--
		}
	}
	return up >= 0
}

// energy fills K: creases and panels give way one after the other, so their compliances add,
// K = (diag(1/k) + Σ G F Gᵀ)⁻¹ with the F of every body and the signs G with which its turns add to the folds.
func (s *Model) energy(bend func(panel int, dx, dy float64) float64) {
	a := s.Fold.Assembly
	n := len(a.Hinges)
	c := make([]float64, n*n)
	for i, k := range s.Stiffness {
		c[i*n+i] = 1 / k
	}
	s.Rigid = nil
	for _, b := range bodies(a) {
		if !b.hang(a) {
			if len(b.ends) > 1 {
				s.Rigid = append(s.Rigid, b.panels...)
			}
			continue
		}
		f := b.flex(b.bendings(a, bend))
		for i, p := range b.ends {
			for j, q := range b.ends {
				c[p.hinge*n+q.hinge] += p.sign * q.sign * f[i*len(b.ends)+j]
			}
		}
	}
	k, ok := invert(c, n)
	if !ok { // stiffnesses so unlike that numbers do not hold them: creases alone
		k = make([]float64, n*n)
		for i, v := range s.Stiffness {
			k[i*n+i] = v
		}
	}
	s.Energy.K = k
}
