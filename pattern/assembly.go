package pattern

import (
	"fmt"
	"math"
	"slices"

	"foldwright/card"
	"foldwright/plane"
	"foldwright/problem"
)

// Assembly is all pieces of a card with every copy of its own, and the joints between their panels. Panels, hinges and
// joints are numbered through the whole card.
type Assembly struct {
	Card   *card.Card
	Copies []Copy
	Panels []AtPanel
	Hinges []AtHinge
	Joints []Joint
}

// Copy is one copy of a piece.
type Copy struct {
	Pattern *Pattern
	// Piece is the index of the piece in the card, Number the copy's number from 1.
	Piece, Number int
	// Name is the piece's name, with #number where there is more than one copy.
	Name string
	// FirstPanel and FirstHinge are the numbers of its first panel and hinge in the assembly.
	FirstPanel, FirstHinge int
}

// AtPanel is a panel of one copy.
type AtPanel struct {
	*Panel
	Copy int
	// Ref is the panel's name in the whole card, such as spring#1.tab.
	Ref string
}

// AtHinge is a hinge of one copy; A and B are the panels left and right of it, numbered through the card.
type AtHinge struct {
	*Hinge
	Copy, A, B int
}

// Joint is a glue joint between two panels.
type Joint struct {
	Glue *card.Glue
	A, B int
	// Place takes points of A's piece to B's piece as both lie in their patterns, seen on B's outer face. It flips where
	// unlike faces come together.
	Place plane.Motion
}

// Name returns the joint in the maker's words: "wall.tab inside wall.left".
func (a *Assembly) Name(j int) string {
	joint := a.Joints[j]
	return a.Panels[joint.A].Ref + " " + joint.Glue.Joint.String() + " " + a.Panels[joint.B].Ref
}

// Assemble builds the patterns of all pieces and resolves the glue joints.
//
// Problems of all pieces come together; the assembly is nil if any is an error. Besides the rules of [Build] it reports
// piece-loose (a copy that is glued to nothing), too-many-panels, glue-unknown (a panel that no pattern has), glue-window (a
// warning: windows leave little to glue) and
// glue-apart (panels that do not touch as they are glued).
func Assemble(c *card.Card) (*Assembly, problem.List) {
	a := &Assembly{Card: c}
	var problems problem.List
	for i := range c.Pieces {
		p, found := Build(&c.Pieces[i])
		problems = append(problems, found...)
		if p != nil && len(a.Panels) <= MaxPanels {
			a.addCopies(i, p)
		}
	}
	if len(a.Panels) > MaxPanels {
		problems.Add(problem.Problem{
			Rule: "too-many-panels", Where: c.Where,
			What:  fmt.Sprintf("its pieces have more than %d panels, all copies counted", MaxPanels),
			Needs: "fewer pieces or scores: prove a part of the card by itself",
		})
	}
	if problems.HasErrors() {
		return nil, problems.Sorted()
	}
	for i := range c.Glues {
		if p, ok := a.addJoint(&c.Glues[i]); !ok {
			problems.Add(p)
			continue
		}
		j := a.Joints[len(a.Joints)-1]
		if left := holding(a.Panels[j.A].Panel, a.Panels[j.B].Panel, j.Place); left < holdingLeast {
			problems.Add(problem.Problem{
				Rule: "glue-window", Severity: problem.Warning, Where: c.Glues[i].Where,
				What:  fmt.Sprintf("windows leave %.0f %% of the area where %s is glued", 100*left, a.Name(len(a.Joints)-1)),
				Needs: "card under the glue: a window somewhere else, or a smaller one",
			})
		}
	}
	if !problems.HasErrors() {
		problems = append(problems, a.loose()...)
	}
	if problems.HasErrors() {
		return nil, problems.Sorted()
	}
	return a, problems.Sorted()
}

func (a *Assembly) addCopies(piece int, p *Pattern) {
	for n := 1; n <= max(1, p.Piece.Copies); n++ {
		c := Copy{Pattern: p, Piece: piece, Number: n, Name: p.Piece.Name, FirstPanel: len(a.Panels), FirstHinge: len(a.Hinges)}
		if p.Piece.Copies > 1 {
			c.Name = fmt.Sprintf("%s#%d", c.Name, n)
		}
		for i := range p.Panels {
			a.Panels = append(a.Panels, AtPanel{Panel: &p.Panels[i], Copy: len(a.Copies), Ref: c.Name + "." + p.Panels[i].Label})
		}
		for i := range p.Hinges {
			h := &p.Hinges[i]
			a.Hinges = append(a.Hinges, AtHinge{Hinge: h, Copy: len(a.Copies), A: c.FirstPanel + h.Left, B: c.FirstPanel + h.Right})
		}
		a.Copies = append(a.Copies, c)
	}
}

// Find returns the number of the panel that a reference names.
func (a *Assembly) Find(r card.PanelRef) (int, bool) {
	for _, c := range a.Copies {
		if c.Pattern.Piece.Name != r.Piece || (r.Copy != 0 && r.Copy != c.Number) {
			continue
		}
		if found := c.Pattern.PanelNamed(r.Panel); len(found) == 1 {
			return c.FirstPanel + found[0], true
		}
		return 0, false
	}
	return 0, false
}

// FindAll returns the numbers of all panels that a reference names: every copy where none is said, every panel of the
// name where it repeats.
func (a *Assembly) FindAll(r card.PanelRef) []int {
	var all []int
	for _, c := range a.Copies {
		if c.Pattern.Piece.Name == r.Piece && (r.Copy == 0 || r.Copy == c.Number) {
			for _, i := range c.Pattern.PanelNamed(r.Panel) {
				all = append(all, c.FirstPanel+i)
			}
		}
	}
	return all
}

// FindCopy returns the index of the copy that a reference names.
func (a *Assembly) FindCopy(r card.PieceRef) (int, bool) {
	i := slices.IndexFunc(a.Copies, func(c Copy) bool {
		return c.Pattern.Piece.Name == r.Piece && (r.Copy == 0 || r.Copy == c.Number)
	})
	return i, i >= 0
}

// Front returns the panel that shows at the front of the card: the first piece's panel called front, or its first panel.
func (a *Assembly) Front() int {
	for i, p := range a.Copies[0].Pattern.Panels {
		if p.Name == "front" {
			return i
		}
	}
	return 0
}

// HingesOf returns the numbers of the hinges that lie on a score (counted from 1) of a copy.
func (a *Assembly) HingesOf(copy, score int) []int {
	var found []int
	for i, h := range a.Hinges {
		if h.Copy == copy && slices.Contains(h.Scores, score-1) {
			found = append(found, i)
		}
	}
	return found
}

func (a *Assembly) addJoint(g *card.Glue) (problem.Problem, bool) {
	var panel [2]int
	for i, r := range [2]card.PanelRef{g.A, g.B} {
		n, ok := a.Find(r)
		if !ok {
			return problem.Problem{
				Rule: "glue-unknown", Where: r.Where,
				What:  fmt.Sprintf("no single panel is called %q", r.Panel),
				Needs: "the name of one panel of piece " + r.Piece,
			}, false
		}
		panel[i] = n
	}
	j := Joint{Glue: g, A: panel[0], B: panel[1], Place: placeOn(a.Panels[panel[0]].Panel, a.Panels[panel[1]].Panel, g)}
	a.Joints = append(a.Joints, j)
	if !overlap(a.Panels[j.A].Panel, a.Panels[j.B].Panel, j.Place) {
		return problem.Problem{
			Rule: "glue-apart", Where: g.Where,
			What:  fmt.Sprintf("as it is placed, %s does not touch %s", a.Panels[j.A].Ref, a.Panels[j.B].Ref),
			Needs: "a place where the two panels lie on each other",
		}, false
	}
	return problem.Problem{}, true
}

// placeOn returns where a glue line puts panel p on panel q: the motion from p's pattern to q's, seen on q's outer face.
// Exact for whole quarter turns; a middle that falls on half a nanometre goes to the whole one below.
func placeOn(p, q *Panel, g *card.Glue) plane.Motion {
	m := plane.Stay()
	if g.Joint == card.Against || g.Joint == card.Facing {
		m = plane.Motion{XX: -1, YY: 1}
	}
	m = m.Then(plane.Turn(g.TurnedDeg))
	corners := p.Outline
	if math.Mod(g.TurnedDeg, 90) == 0 {
		corners = plane.Rectangle(p.Box) // a wedge must not shift the tab
	}
	lo, hi := [2]float64{math.Inf(1), math.Inf(1)}, [2]float64{math.Inf(-1), math.Inf(-1)}
	for _, c := range corners {
		x, y := m.At(float64(c.X), float64(c.Y))
		lo, hi = [2]float64{min(lo[0], x), min(lo[1], y)}, [2]float64{max(hi[0], x), max(hi[1], y)}
	}
	m.TX += align(g.AlignX, lo[0], hi[0], float64(q.Box.Min.X), float64(q.Box.Max.X)) + float64(g.Over)
	m.TY += align(g.AlignY, lo[1], hi[1], float64(q.Box.Min.Y), float64(q.Box.Max.Y)) + float64(g.Up)
	return m
}

// align returns the shift that brings the stretch lo..hi level with from..to.
func align(how card.Align, lo, hi, from, to float64) float64 {
	switch how {
	case card.AlignLow:
		return from - lo
	case card.AlignHigh:
		return to - hi
	}
	return math.Floor((from+to-lo-hi)/2 + 0.25)
}

// loose reports copies that no glue ties to the first.
func (a *Assembly) loose() problem.List {
	var links [][2]int
	for _, j := range a.Joints {
		links = append(links, [2]int{a.Panels[j.A].Copy, a.Panels[j.B].Copy})
	}
	var problems problem.List
	for i, ok := range reached(len(a.Copies), links) {
		if !ok {
			c := a.Copies[i]
			problems.Add(problem.Problem{
				Rule: "piece-loose", Where: c.Pattern.Piece.Where,
				What:  fmt.Sprintf("%s is glued to nothing that holds it to %s", c.Name, a.Copies[0].Name),
				Needs: "a glue line that joins one of its panels to the rest of the card",
			})
		}
	}
	return problems
}
