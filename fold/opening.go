package fold

import (
	"context"
	"math"
	"slices"

	"foldwright/card"
)

// Pose is the card at one moment of its opening.
type Pose struct {
	// Angles holds the fold angle of every hinge in radians.
	Angles []float64
	// Panels holds the frame of every panel; the card stands as Opening says.
	Panels []Frame
	// LoopError is the largest distance in millimetres by which a loop fails to meet itself.
	LoopError float64
	// Drive is how far the driver has gone: the angle in radians between the panels of the score that the card opens at, or
	// the distance in millimetres between the two panels that part.
	Drive float64
}

// Outcome says how far a card opens.
type Outcome uint8

const (
	// Opens: the path leads from the closed card to the open one.
	Opens Outcome = iota
	// Locks: the card cannot be opened at all, or only a part of the way; see Opening.Poses.
	Locks
	// Stopped: the context ended the search.
	Stopped
)

// Opening is the way from closed to open.
type Opening struct {
	Outcome Outcome
	// Poses leads from the closed card (first) to the open one (last).
	Poses []Pose
	// Freedom is the number of independent ways in which the open card can move: 0 locked, 1 one way, more loose.
	Freedom int
	// Driver says what drives the path; Panels are the two panels that part, or that the score joins.
	Driver card.OpeningKind
	Panels [2]int
	// Width, Depth and Height are those of the open card in millimetres: x, z and y of its poses.
	Width, Depth, Height float64
}

// LoopError returns the largest loop error of all poses.
func (o *Opening) LoopError() float64 {
	worst := 0.0
	for _, p := range o.Poses {
		worst = max(worst, p.LoopError)
	}
	return worst
}

// The search pulls towards its target with these weights in turn, first along a path and then from a warm start.
var (
	coldPulls = [...]float64{1, 1e-2, 1e-4, 1e-6}
	warmPulls = [...]float64{1e-3, 1e-6}
)

// found is the residual, in units of the scale, up to which a pose counts as found; see Pose.LoopError for the rest.
const found = 1e-9

// Path follows the card from closed to open in the given number of poses (at least 2).
//
// A card that opens at a score is driven by the angle between its two panels. A card that opens by itself, or by pulling,
// is driven by the distance of the two panels that part most, towards the pose in which every fold stands as near as the
// loops let it to what its stock remembers. Poses of a path that was not found are left out: the last one is as far as
// the card opens.
func (m *Model) Path(ctx context.Context, poses int) *Opening {
	poses = max(poses, 2)
	var o *Opening
	if kind := m.Assembly.Card.Opening.Kind; kind == card.OpensAt {
		o = m.turn(ctx, poses)
	} else {
		o = m.part(ctx, poses)
	}
	m.stand(o)
	o.Freedom = m.freedom(o)
	if ctx.Err() != nil {
		o.Outcome = Stopped
	}
	return o
}

// closedPose returns the closed card as a pose.
func (m *Model) closedPose() []float64 { return slices.Clone(m.Shut) }

// ajar returns angles a little open from shut: folded scores short of shut, straight ones bent their own way.
func (m *Model) ajar(by float64) []float64 {
	x := m.closedPose()
	for i := range x {
		switch {
		case x[i] > 0:
			x[i] -= by
		case x[i] < 0:
			x[i] += by
		case m.High[i] > 0 && m.Low[i] == 0:
			x[i] = by
		case m.Low[i] < 0 && m.High[i] == 0:
			x[i] = -by
		}
	}
	return x
}

// remembered returns the fold angles that the creases remember: the stock's rest for those folded shut in the closed
// card, its scored for the others, or what the piece says.
func (m *Model) remembered() []float64 {
	a := m.Assembly
	out := make([]float64, len(m.Shut))
	for i, h := range a.Hinges {
		piece := a.Copies[h.Copy].Pattern.Piece
		stock := a.Card.StockNamed(piece.Stock)
		rest, scored := assumedRest, assumedScored
		if stock != nil && stock.RestDeg.Given {
			rest = stock.RestDeg.Value
		}
		if stock != nil && stock.ScoredDeg.Given {
			scored = stock.ScoredDeg.Value
		}
		angle := scored
		if m.Shut[i] != 0 {
			angle = rest
		}
		for _, v := range piece.Rest {
			if len(v.Scores) == 0 || slices.Contains(v.Scores, h.Score()+1) {
				angle = v.Value
			}
		}
		angle *= math.Pi / 180
		switch {
		case m.Shut[i] < 0 || (m.Shut[i] == 0 && m.Low[i] < 0 && m.High[i] == 0):
			angle = -angle
		case m.Shut[i] == 0 && m.Low[i] < 0 && m.High[i] > 0:
			angle = 0
		}
		out[i] = angle
	}
	return out
}

// Fold angles in degrees that a crease remembers where the stock does not say: assumed, from the example in the recipe's
// description; to be measured by whoever folds the card.
const (
	assumedRest   = 110.0
	assumedScored = 25.0
)

// part drives the two panels that move apart most.
func (m *Model) part(ctx context.Context, poses int) *Opening {
	s := newSolver(m)
	s.hold(driver{})
	o := &Opening{Driver: m.Assembly.Card.Opening.Kind}
	open := m.openPose(ctx, s)
	if open == nil {
		o.Outcome = Locks
		o.Poses = []Pose{m.pose(s, m.closedPose())}
		return o
	}
	o.Panels = m.farthest(s, open)
	shut := m.closedPose()
	from, to := m.apart(s, shut, o.Panels), m.apart(s, open, o.Panels)
	if to-from < 0.01*m.scale {
		o.Outcome = Locks
		o.Poses = []Pose{m.pose(s, shut)}
		return o
	}
	list, ok := m.wayBack(ctx, s, open, poses, nil)
	if !ok || !m.parts(s, list, o.Panels) {
		// The free way does not lead steadily apart: hold the distance.
		list, ok = m.wayBack(ctx, s, open, poses, &partDriver{o.Panels, from, to})
		m.parts(s, list, o.Panels)
	}
	if !ok {
		o.Outcome = Locks
	}
	o.Poses = list
	return o
}

// parts notes in every pose how far two panels are apart, and says whether that grows all the way.
func (m *Model) parts(s *solver, list []Pose, panels [2]int) bool {
	grows := true
	for i := range list {
		list[i].Drive = m.apart(s, list[i].Angles, panels)
		grows = grows && (i == 0 || list[i].Drive > list[i-1].Drive-1e-6)
	}
	return grows
}

// partDriver holds the distance of two panels in step with the opening.
type partDriver struct {
	panels   [2]int
	from, to float64
}

// wayBack follows the card back from open to closed: each pose is the nearest that the loops allow to the angles in
// proportion between the two. ok is false where a pose is not found.
func (m *Model) wayBack(ctx context.Context, s *solver, open []float64, poses int, d *partDriver) ([]Pose, bool) {
	shut := m.closedPose()
	list := make([]Pose, poses)
	list[0], list[poses-1] = m.pose(s, shut), m.pose(s, open)
	x, target := slices.Clone(open), make([]float64, len(open))
	ok := true
	for k := poses - 2; k > 0; k-- {
		if ctx.Err() != nil {
			return list[:1], false
		}
		t := float64(k) / float64(poses-1)
		for i := range target {
			target[i] = shut[i] + t*(open[i]-shut[i])
			x[i] = shut[i] + float64(k)/float64(k+1)*(list[k+1].Angles[i]-shut[i])
		}
		s.hold(driver{})
		if d != nil {
			s.hold(driver{p: d.panels[0], q: d.panels[1], apart: d.from + t*(d.to-d.from)})
		}
		if s.settle(x, target, warmPulls[:]) > found {
			copy(x, target)
			ok = s.settle(x, target, coldPulls[:]) <= found && ok
		}
		list[k] = m.pose(s, slices.Clone(x))
	}
	return list, ok
}

// openPose follows the remembered angles from the closed card; nil where the loops let nothing open.
func (m *Model) openPose(ctx context.Context, s *solver) []float64 {
	rest := m.remembered()
	x := m.ajar(0.05)
	target := make([]float64, len(x))
	const steps = 8
	for k := 1; k <= steps; k++ {
		if ctx.Err() != nil {
			return nil
		}
		for i := range target {
			target[i] = m.Shut[i] + float64(k)/steps*(rest[i]-m.Shut[i])
		}
		if s.settle(x, target, coldPulls[:]) > found && k == steps {
			return nil
		}
	}
	return x
}

// apart returns the distance of the middles of two panels at the given angles.
func (m *Model) apart(s *solver, x []float64, panels [2]int) float64 {
	m.frames(x, s.frames)
	p, q := panels[0], panels[1]
	return s.frames[p].At(m.middle(p)).Sub(s.frames[q].At(m.middle(q))).Norm()
}

// farthest returns the two panels whose middles move apart most from closed to open: of several such pairs the first.
// Panels that hang free, such as flaps, are left aside where there are loops. For a card that opens by pulling the panels
// are the first ones of the two pieces named.
func (m *Model) farthest(s *solver, open []float64) [2]int {
	a := m.Assembly
	if o := a.Card.Opening; o.Kind == card.OpensByPulling {
		p, ok1 := a.FindCopy(o.A)
		q, ok2 := a.FindCopy(o.B)
		if ok1 && ok2 {
			return [2]int{a.Copies[p].FirstPanel, a.Copies[q].FirstPanel}
		}
	}
	shut := make([]Vec, len(a.Panels))
	m.frames(m.Shut, s.frames)
	for i := range shut {
		shut[i] = s.frames[i].At(m.middle(i))
	}
	m.frames(open, s.frames)
	best, pair := 0.0, [2]int{}
	bound := m.bound()
	for i := range shut {
		if !bound[i] {
			continue
		}
		p := s.frames[i].At(m.middle(i))
		for j := range i {
			if !bound[j] {
				continue
			}
			grown := p.Sub(s.frames[j].At(m.middle(j))).Norm() - shut[i].Sub(shut[j]).Norm()
			if grown > best+1e-6 {
				best, pair = grown, [2]int{j, i}
			}
		}
	}
	return pair
}

// bound says which panels lie on a loop and are at least half as large as the largest that does: those by which a person
// would say how far the card is open. All do where there is no loop.
func (m *Model) bound() []bool {
	out := make([]bool, len(m.Assembly.Panels))
	for i := range m.loops {
		for _, p := range [2]int{m.loops[i].p, m.loops[i].q} {
			out[p] = true
		}
		for _, h := range m.loops[i].chain {
			out[m.Assembly.Hinges[h.hinge].A], out[m.Assembly.Hinges[h.hinge].B] = true, true
		}
	}
	if len(m.loops) == 0 {
		for i := range out {
			out[i] = true
		}
	}
	largest := 0.0
	for i, p := range m.Assembly.Panels {
		if out[i] {
			largest = max(largest, p.Area())
		}
	}
	for i, p := range m.Assembly.Panels {
		out[i] = out[i] && p.Area() >= largest/2
	}
	return out
}

// pose completes a pose from its angles.
func (m *Model) pose(s *solver, x []float64) Pose {
	p := Pose{Angles: x, Panels: make([]Frame, len(m.Assembly.Panels)), LoopError: m.LoopError(x)}
	m.frames(x, p.Panels)
	return p
}

// hingesOfDriver returns the hinges of the score that the card opens at.
func (m *Model) hingesOfDriver() []int {
	o := m.Assembly.Card.Opening
	c, ok := m.Assembly.FindCopy(o.Piece)
	if !ok {
		return nil
	}
	return m.Assembly.HingesOf(c, o.Score)
}

// turn drives the angle of the score that the card opens at.
func (m *Model) turn(ctx context.Context, poses int) *Opening {
	s := newSolver(m)
	o := &Opening{Driver: card.OpensAt}
	hinges := m.hingesOfDriver()
	shut := m.closedPose()
	o.Poses = []Pose{m.pose(s, shut)}
	if len(hinges) == 0 || slices.ContainsFunc(hinges, func(h int) bool { return shut[h] == 0 }) {
		o.Outcome = Locks
		return o
	}
	h := m.Assembly.Hinges[hinges[0]]
	o.Panels = [2]int{h.A, h.B}
	end := m.Assembly.Card.Opening.ToDeg * math.Pi / 180
	x := m.ajar(end / float64(poses-1))
	free, rest := m.freeHinges(hinges), m.remembered()
	for k := 1; k < poses; k++ {
		if ctx.Err() != nil {
			o.Outcome = Stopped
			return o
		}
		opened := end * float64(k) / float64(poses-1)
		for _, i := range free {
			x[i] = shut[i] + float64(k)/float64(poses-1)*(rest[i]-shut[i])
		}
		if !m.advance(s, x, o.Poses, driver{hinges: hinges, angles: m.opened(hinges, opened)}, free) {
			o.Outcome = Locks
			return o
		}
		p := m.pose(s, slices.Clone(x))
		p.Drive = opened
		o.Poses = append(o.Poses, p)
	}
	return o
}

// opened returns the angles of the driving hinges when their panels stand so far apart: each folds the way it is shut, for
// a score that crosses another may be a mountain on one half and a valley on the other.
func (m *Model) opened(hinges []int, apart float64) []float64 {
	out := make([]float64, len(hinges))
	for i, h := range hinges {
		out[i] = math.Copysign(math.Pi-apart, m.Shut[h])
	}
	return out
}

// freeHinges lists the hinges that no loop binds and that do not drive: they open towards what they remember.
func (m *Model) freeHinges(drivers []int) []int {
	bound := make([]bool, len(m.Shut))
	for i := range m.loops {
		for _, h := range m.loops[i].chain {
			bound[h.hinge] = true
		}
	}
	for _, h := range drivers {
		bound[h] = true
	}
	var free []int
	for i, b := range bound {
		if !b {
			free = append(free, i)
		}
	}
	return free
}

// advance moves x to the next pose of a driven path, guessing on from the last two; x holds the last pose, but for the
// angles of free hinges, which are those wanted.
func (m *Model) advance(s *solver, x []float64, before []Pose, d driver, free []int) bool {
	s.hold(d)
	wanted := slices.Clone(x)
	if n := len(before); n >= 3 {
		for i := range x {
			x[i] += before[n-1].Angles[i] - before[n-2].Angles[i]
		}
	}
	for _, i := range free {
		x[i] = wanted[i]
	}
	guess := slices.Clone(x)
	return s.settle(x, guess, warmPulls[:]) <= found || m.again(s, x, before[len(before)-1].Angles)
}

// again tries from the last pose itself, for where the path bends too sharply to be guessed.
func (m *Model) again(s *solver, x, last []float64) bool {
	copy(x, last)
	return s.settle(x, slices.Clone(x), coldPulls[:]) <= found
}

// stand puts the poses into the room: the panel at the front of the card (see pattern.Assembly.Front) faces z and stands
// upright along y, as in the closed card. It also measures the open card.
func (m *Model) stand(o *Opening) {
	front := m.Assembly.Front()
	for k := range o.Poses {
		p := &o.Poses[k]
		z := p.Panels[front].Z.Scale(m.front(front))
		y := m.upward(p.Panels[front], front)
		turn := Frame{X: y.Cross(z), Y: y, Z: z}.Inverse()
		for i := range p.Panels {
			p.Panels[i] = turn.After(p.Panels[i])
		}
		m.ground(p)
	}
	last := o.Poses[len(o.Poses)-1]
	low, high := m.bounds(&last)
	o.Width, o.Height, o.Depth = high[0]-low[0], high[1]-low[1], high[2]-low[2]
}

// front is +1 for a panel whose outer face shows at the front of the closed card, else -1.
func (m *Model) front(panel int) float64 {
	if m.up[panel] {
		return 1
	}
	return -1
}

// upward returns the direction that points up in the closed card.
func (m *Model) upward(f Frame, panel int) Vec {
	c := m.closedUp[panel]
	return f.Turn(c)
}

// ground moves a pose so that its middle is over the origin and its lowest point at height 0.
func (m *Model) ground(p *Pose) {
	low, high := m.bounds(p)
	shift := Vec{-(low[0] + high[0]) / 2, -low[1], -(low[2] + high[2]) / 2}
	for i := range p.Panels {
		p.Panels[i].O = p.Panels[i].O.Add(shift)
	}
}

// bounds returns the corners of the box around a pose.
func (m *Model) bounds(p *Pose) (low, high Vec) {
	low, high = Vec{math.Inf(1), math.Inf(1), math.Inf(1)}, Vec{math.Inf(-1), math.Inf(-1), math.Inf(-1)}
	for i, q := range m.Assembly.Panels {
		for _, c := range q.Outline {
			v := p.Panels[i].At(vec(c))
			for k := range 3 {
				low[k], high[k] = min(low[k], v[k]), max(high[k], v[k])
			}
		}
	}
	return low, high
}

// freedom counts the independent motions of the open card: angles less the rank of the loops, the smallest over a few
// poses, since at a special pose (all folds alike, or flat) the loops bind less than they do in general.
func (m *Model) freedom(o *Opening) int {
	n := len(m.Shut)
	if n == 0 || len(m.loops) == 0 {
		return n
	}
	s := newSolver(m)
	least := n
	for _, t := range [4]float64{0.35, 0.55, 0.75, 0.95} {
		p := o.Poses[int(t*float64(len(o.Poses)-1))]
		s.hold(driver{})
		s.measure(p.Angles)
		s.jacobian(p.Angles)
		rows := 9 * len(m.loops)
		least = min(least, n-rank(slices.Clone(s.j[:rows*n]), rows, n, rankTolerance))
	}
	return least
}

// rankTolerance tells dependent rows from independent ones: poses are good to 1e-12, and rows of a loop that does bind are
// seldom below a hundredth of the largest.
const rankTolerance = 1e-6
