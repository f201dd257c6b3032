package resize

import (
	"math"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
)

// measure is one number that resizing may change.
type measure struct {
	kind  measureKind
	piece int  // of the card
	glue  int  // for a shift
	up    bool // upwards in the pattern, not across
	index int  // for a gap: between coordinates index and index+1
	// old is the value in the source.
	old length.Length
	// wish is the old value scaled, in marks.
	wish float64
	// sign is that of a shift.
	sign length.Length
}

type measureKind uint8

const (
	gap measureKind = iota
	shift
)

// coordinates are where the cuts and scores of one piece lie, in one direction.
type coordinates struct {
	at    []length.Length // ascending, each once
	first int             // number of the measure that is the first gap
}

// grid holds the coordinates of one piece, across and up.
type grid struct {
	across, up coordinates
	// slanted says that it has hinges that are neither level nor upright: they keep their directions.
	slanted bool
}

// system is a card taken apart into measures.
type system struct {
	card     *card.Card
	closed   *flat.Closed
	grids    []grid
	measures []measure
	// across says, per piece, whether its pattern's x lies across in the closed card (and y upright) or the other way round.
	across []bool
	marks  length.Length
}

// newSystem lists the measures of a card.
func newSystem(closed *flat.Closed, marks length.Length) *system {
	c := closed.Assembly.Card
	s := &system{card: c, closed: closed, marks: marks, grids: make([]grid, len(c.Pieces)), across: make([]bool, len(c.Pieces))}
	for i := range c.Pieces {
		one := copyOf(closed, i)
		m := closed.At[one.FirstPanel]
		s.across[i] = math.Abs(m.XX) >= math.Abs(m.XY)
		s.addPiece(i, one.Pattern)
	}
	for i, g := range c.Glues {
		for up, v := range [2]length.Length{g.Over, g.Up} {
			if v == 0 {
				continue
			}
			sign := length.Length(1)
			if v < 0 {
				sign = -1
			}
			s.measures = append(s.measures, measure{kind: shift, glue: i, piece: pieceIndex(c, g.B.Piece), up: up == 1, old: v.Abs(), sign: sign})
		}
	}
	return s
}

// copyOf returns the first copy of a piece.
func copyOf(closed *flat.Closed, piece int) pattern.Copy {
	copies := closed.Assembly.Copies
	return copies[slices.IndexFunc(copies, func(k pattern.Copy) bool { return k.Piece == piece })]
}

func pieceIndex(c *card.Card, name string) int {
	return slices.IndexFunc(c.Pieces, func(p card.Piece) bool { return p.Name == name })
}

func (s *system) addPiece(i int, p *pattern.Pattern) {
	g := &s.grids[i]
	g.slanted = slices.ContainsFunc(p.Hinges, slantedHinge)
	g.across.at, g.up.at = places(p.Piece)
	for way, c := range g.ways() {
		c.first = len(s.measures)
		for k := 1; k < len(c.at); k++ {
			s.measures = append(s.measures, measure{kind: gap, piece: i, up: way == 1, index: k - 1, old: c.at[k] - c.at[k-1]})
		}
	}
}

// ways returns the coordinates across, then those up.
func (g *grid) ways() [2]*coordinates { return [2]*coordinates{&g.across, &g.up} }

func slantedHinge(h pattern.Hinge) bool { return h.From.X != h.To.X && h.From.Y != h.To.Y }

// places lists where all cuts and scores of a piece lie, across and up, sorted, each once.
func places(p *card.Piece) (xs, ys []length.Length) {
	add := func(points ...plane.Point) {
		for _, q := range points {
			xs, ys = append(xs, q.X), append(ys, q.Y)
		}
	}
	add(pattern.Outline(p)...)
	for _, sc := range p.Scores {
		switch sc.Kind {
		case card.Across:
			xs = append(xs, sc.At)
		case card.Up:
			ys = append(ys, sc.At)
		default:
			add(sc.From, sc.To)
		}
	}
	for _, t := range p.Slits {
		add(t.From, t.To)
	}
	for _, w := range p.Windows {
		if w.Kind == card.Polygon {
			add(w.Points...)
		} else {
			add(w.At, w.At.Add(plane.Point{X: w.Size.W, Y: w.Size.H}))
		}
	}
	slices.Sort(xs)
	slices.Sort(ys)
	return slices.Compact(xs), slices.Compact(ys)
}

// wishes works out the scaled values for a target size.
func (s *system) wishes(ratioX, ratioY float64) {
	for i := range s.measures {
		m := &s.measures[i]
		ratio := ratioX
		if m.up == s.across[m.piece] {
			ratio = ratioY
		}
		if m.kind == gap && s.grids[m.piece].slanted {
			ratio = math.Min(ratioX, ratioY)
		}
		m.wish = float64(m.old) * ratio / float64(s.marks)
	}
}

// olds returns the values of all measures in the source.
func (s *system) olds() []length.Length {
	v := make([]length.Length, len(s.measures))
	for i, m := range s.measures {
		v[i] = m.old
	}
	return v
}

// apply returns the card with other values of its measures.
func (s *system) apply(values []length.Length) *card.Card {
	c := s.card.Clone()
	for i := range c.Pieces {
		s.applyPiece(i, &c.Pieces[i], values)
	}
	for k, m := range s.measures {
		if m.kind != shift {
			continue
		}
		if m.up {
			c.Glues[m.glue].Up = m.sign * values[k]
		} else {
			c.Glues[m.glue].Over = m.sign * values[k]
		}
	}
	return c
}

// mapper tells where coordinates of the old piece lie in the new one.
type mapper struct {
	x, y func(length.Length) length.Length
}

func (m mapper) point(p plane.Point) plane.Point { return plane.Point{X: m.x(p.X), Y: m.y(p.Y)} }

func (m mapper) points(list []plane.Point) {
	for i := range list {
		list[i] = m.point(list[i])
	}
}

func (s *system) mapperOf(i int, values []length.Length) mapper {
	g := &s.grids[i]
	return mapper{g.across.stretch(values), g.up.stretch(values)}
}

// stretch maps old coordinates to new ones; what lies between two of them keeps its share of the gap, to the nanometre, so
// that a point stays on its side of a slanted score.
func (c coordinates) stretch(values []length.Length) func(length.Length) length.Length {
	old, gaps := c.at, values[c.first:]
	at := make([]length.Length, len(old))
	at[0] = old[0]
	for k := 1; k < len(old); k++ {
		at[k] = at[k-1] + gaps[k-1]
	}
	return func(v length.Length) length.Length {
		k, exact := slices.BinarySearch(old, v)
		switch {
		case exact:
			return at[k]
		case k == 0:
			return at[0] + v - old[0]
		case k == len(old):
			return at[k-1] + v - old[k-1]
		}
		return at[k-1] + (v-old[k-1])*gaps[k-1]/(old[k]-old[k-1])
	}
}

func (s *system) applyPiece(i int, p *card.Piece, values []length.Length) {
	m := s.mapperOf(i, values)
	origin := plane.Point{}
	p.Size = card.Size{W: m.x(p.Size.W) - m.x(origin.X), H: m.y(p.Size.H) - m.y(origin.Y)}
	m.points(p.Outline)
	for k := range p.Scores {
		sc := &p.Scores[k]
		switch sc.Kind {
		case card.Across:
			sc.At = m.x(sc.At)
		case card.Up:
			sc.At = m.y(sc.At)
		default:
			sc.From, sc.To = m.point(sc.From), m.point(sc.To)
		}
	}
	for k := range p.Slits {
		p.Slits[k].From, p.Slits[k].To = m.point(p.Slits[k].From), m.point(p.Slits[k].To)
	}
	for k := range p.Windows {
		w := &p.Windows[k]
		high := m.point(w.At.Add(plane.Point{X: w.Size.W, Y: w.Size.H}))
		w.At = m.point(w.At)
		w.Size = card.Size{W: high.X - w.At.X, H: high.Y - w.At.Y}
		m.points(w.Points)
	}
	for k := range p.PanelsAt {
		p.PanelsAt[k].At = m.point(p.PanelsAt[k].At)
	}
}
