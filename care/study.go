package care

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/pattern"
)

// Hand says how exactly a person works: the standard deviations of where a cut and a score come to lie.
type Hand struct{ Cut, Score length.Length }

// Usual returns the hand that is assumed where nobody measured their own: half a millimetre for a cut, three tenths for a
// score. An assumption without a source; cut and score ten strips, measure them, and say your own.
func Usual() Hand {
	return Hand{Cut: length.Millimetre / 2, Score: 3 * length.Millimetre / 10}
}

// worstHand is the largest error that is studied: beyond it lines change places.
const worstHand = 5 * length.Millimetre

func (h Hand) check() error {
	for _, l := range [2]length.Length{h.Cut, h.Score} {
		if l < 0 || l > worstHand {
			return fmt.Errorf("an error of %s is not one of a hand: it lies between 0 mm and %s", l.Human(length.MM), worstHand.Human(length.MM))
		}
	}
	return nil
}

func (h Hand) of(l Line) float64 {
	if l.Cut {
		return h.Cut.MM()
	}
	return h.Score.MM()
}

// Gap is how far a glue joint, or a score of a piece with slits, misses: standard deviations in millimetres, in the
// directions that [flat.Gap] has.
type Gap struct {
	Joint, Hinge int // of the assembly; the one that is not meant is -1
	Name         string
	DX, DY       float64
}

// NineInTen is how many standard deviations hold nine in ten of what is normally distributed (NIST/SEMATECH e-Handbook of
// Statistical Methods, 1.3.6.7.1, from memory).
const NineInTen = 1.6449

// Size is how a side of the closed card varies, in millimetres: its mean, its standard deviation, and what nine cards of ten
// do not exceed.
type Size struct{ Mean, SD, Most float64 }

// Share is the part of the gaps that one line is to blame for, from 0 to 1; of the closed size for a card without gaps.
type Share struct {
	Line
	Share float64
}

// Study is what the errors of a hand do to a card.
type Study struct {
	Hand          Hand
	Gaps          []Gap // those that can miss, in the order of the glue lines
	Width, Height Size
	// Fits is the chance that the closed card stays within what it fits, from 0 to 1, if FitsSaid.
	Fits     float64
	FitsSaid bool
	// Shares lists the lines that matter, the worst first.
	Shares []Share
	// Unjudged are lines that could not be moved without taking their piece apart.
	Unjudged []Line
	Samples  int
}

// Samples is how many cards a study cuts in thought for what it cannot compute: chances are then good to about one in a
// hundred.
const Samples = 2000

// trial is how far a line is moved to see what follows: less than any two lines are apart, and much more than the
// nanometres to which slanted folds are rounded.
const trial = 20 * length.Micrometre

// New studies a card that lies flat. seed chooses the sample; the same seed gives the same study.
//
// Errors: a card that does not lie flat, a hand beyond 0 to 5 mm, and a context that ended.
func New(ctx context.Context, closed *flat.Closed, hand Hand, seed uint64) (*Study, error) {
	if err := hand.check(); err != nil {
		return nil, err
	}
	if !closed.LiesFlat() {
		return nil, fmt.Errorf("the card does not lie flat, so there is nothing that errors could spoil; mend it first")
	}
	s := &Study{Hand: hand, Samples: Samples}
	m, err := newModel(ctx, closed, s)
	if err != nil {
		return nil, err
	}
	s.gaps(m, closed.Assembly)
	s.sample(m, closed, seed)
	s.share(m)
	return s, nil
}

// model is how a laid out card answers to small errors in its lines.
type model struct {
	lines []Line
	sd    []float64 // of each line, mm
	base  laid
	// byMiss and byCorner hold, for every line, how far each miss and each corner moves for each millimetre of error.
	byMiss, byCorner [][]vec
}

type vec struct{ x, y float64 }

// laid is a card laid out, in millimetres and in the directions of the closed card.
type laid struct{ misses, corners []vec }

func newModel(ctx context.Context, closed *flat.Closed, s *Study) (*model, error) {
	c, from := apart(closed.Assembly.Card)
	base, ok := lay(c, closed)
	if !ok {
		return nil, fmt.Errorf("the copies of a piece cannot be told apart")
	}
	m := &model{base: base}
	for piece := range c.Pieces {
		for _, l := range linesOf(c, piece) {
			if ctx.Err() != nil {
				return nil, ctx.Err()
			}
			changed := c.Clone()
			changed.Pieces[piece].MoveLine(l.Up, l.At, trial)
			l.Piece = from[piece]
			next, ok := lay(changed, closed)
			if !ok || len(next.corners) != len(base.corners) {
				s.Unjudged = append(s.Unjudged, l)
				continue
			}
			m.lines, m.sd = append(m.lines, l), append(m.sd, s.Hand.of(l))
			m.byMiss = append(m.byMiss, rates(base.misses, next.misses))
			m.byCorner = append(m.byCorner, rates(base.corners, next.corners))
		}
	}
	return m, nil
}

// lay lays a card out with the folds of the closed one; ok is false where its pieces are not those of the closed card.
func lay(c *card.Card, closed *flat.Closed) (laid, bool) {
	a, _ := pattern.Assemble(c)
	if a == nil || len(a.Hinges) != len(closed.Folded) || len(a.Panels) != len(closed.At) {
		return laid{}, false
	}
	at := flat.Lay(a, closed.Folded)
	var out laid
	for _, m := range flat.Misses(a, closed.Folded, at) {
		out.misses = append(out.misses, vec{m[0] / mm, m[1] / mm})
	}
	for i, p := range a.Panels {
		where := at[i].Then(closed.At[0]) // the layout starts at the first panel, the closed card at the front
		for _, q := range p.Outline {
			x, y := where.At(float64(q.X), float64(q.Y))
			out.corners = append(out.corners, vec{x / mm, y / mm})
		}
	}
	return out, true
}

const mm = float64(length.Millimetre)

// rates returns how much each vector changed for each millimetre of the trial. What became NaN counts as not moved: it has
// been turned over and has no distance.
func rates(was, is []vec) []vec {
	out := make([]vec, len(was))
	for i := range was {
		d := vec{(is[i].x - was[i].x) / trial.MM(), (is[i].y - was[i].y) / trial.MM()}
		if !math.IsNaN(d.x) && !math.IsNaN(d.y) {
			out[i] = d
		}
	}
	return out
}

// gaps finds the spread of every joint and hinge that can miss.
func (s *Study) gaps(m *model, a *pattern.Assembly) {
	for i := range m.base.misses {
		var v vec
		for l, by := range m.byMiss {
			v.x += square(by[i].x * m.sd[l])
			v.y += square(by[i].y * m.sd[l])
		}
		g := Gap{Joint: i, Hinge: -1, DX: math.Sqrt(v.x), DY: math.Sqrt(v.y)}
		if k := i - len(a.Joints); k >= 0 {
			h := a.Hinges[k]
			g.Joint, g.Hinge = -1, k
			g.Name = fmt.Sprintf("score %d of %s", h.Score()+1, a.Copies[h.Copy].Name)
		} else {
			g.Name = a.Name(i)
		}
		if max(g.DX, g.DY) > leastGap {
			s.Gaps = append(s.Gaps, g)
		}
	}
}

// leastGap is the spread, in millimetres, below which a joint counts as meeting: rounding in slanted folds.
const leastGap = 1e-3

func square(x float64) float64 { return x * x }

// share finds by how much each line is to blame. Copies of a piece are counted together.
func (s *Study) share(m *model) {
	blame := func(l int) float64 {
		sum := 0.0
		for _, by := range m.byMiss[l] {
			sum += square(by.x) + square(by.y)
		}
		return sum * square(m.sd[l])
	}
	if len(s.Gaps) == 0 {
		blame = func(l int) float64 {
			side := m.sides(l)
			return (square(side.x) + square(side.y)) * square(m.sd[l])
		}
	}
	total := 0.0
	for l, line := range m.lines {
		b := blame(l)
		total += b
		k := slices.IndexFunc(s.Shares, func(o Share) bool { return o.Line == line })
		if k < 0 {
			k = len(s.Shares)
			s.Shares = append(s.Shares, Share{Line: line})
		}
		s.Shares[k].Share += b
	}
	s.Shares = slices.DeleteFunc(s.Shares, func(o Share) bool { return o.Share <= 1e-9*total })
	for i := range s.Shares {
		s.Shares[i].Share /= total
	}
	slices.SortStableFunc(s.Shares, func(a, b Share) int { return cmp.Compare(b.Share, a.Share) })
}

// sides returns how much the closed size changes for each millimetre of error in a line.
func (m *model) sides(line int) vec {
	by := m.byCorner[line]
	at := func(f func(a, b int) bool) int {
		best := 0
		for i := range m.base.corners {
			if f(i, best) {
				best = i
			}
		}
		return best
	}
	c := m.base.corners
	right, left := at(func(a, b int) bool { return c[a].x > c[b].x }), at(func(a, b int) bool { return c[a].x < c[b].x })
	top, low := at(func(a, b int) bool { return c[a].y > c[b].y }), at(func(a, b int) bool { return c[a].y < c[b].y })
	return vec{by[right].x - by[left].x, by[top].y - by[low].y}
}

// Chance returns the chance, from 0 to 1, that a normally distributed error stays within a distance on either side.
func Chance(within, sd float64) float64 {
	if sd <= 0 {
		return 1
	}
	return math.Erf(within / sd / math.Sqrt2)
}

// box returns the sides of the box around corners.
func box(corners []vec) vec {
	low, high := vec{math.Inf(1), math.Inf(1)}, vec{math.Inf(-1), math.Inf(-1)}
	for _, c := range corners {
		low, high = vec{min(low.x, c.x), min(low.y, c.y)}, vec{max(high.x, c.x), max(high.y, c.y)}
	}
	return vec{high.x - low.x, high.y - low.y}
}
