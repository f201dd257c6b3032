package dress

import (
	"cmp"
	"fmt"
	"slices"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// Layer is one sheet of ornament: its paper, and how much of what is below shows on each side of it.
type Layer struct {
	Stock card.Stock
	// Reveal is 0 for the mark next to what UsualReveal says.
	Reveal length.Length
}

// MatJob says what every face that shows gets, the layer next to the panel first. Back holds the layers of faces that are
// turned away; none for the same as the front.
type MatJob struct {
	Front, Back []Layer
	// Marks is the pitch of the ruler; 0 for that of the card, or a usual one.
	Marks length.Length
}

// UsualReveal returns 1/8 in or 3 mm. Common practice, no source.
func UsualReveal(u length.Unit) length.Length {
	if u == length.IN {
		return length.Inch / 8
	}
	return 3 * length.Millimetre
}

// smallest is the least width of a layer that can be cut and glued by hand: 3/8 in or 10 mm. Common practice, no source.
func smallest(u length.Unit) length.Length {
	if u == length.IN {
		return 3 * length.Inch / 8
	}
	return 10 * length.Millimetre
}

// Bare is a face, or a layer of it, that stays without ornament, and why.
type Bare struct {
	Panel int
	// Layer counts from 1; 1 means that the face gets nothing.
	Layer int
	Why   string
}

// Room is a layer that keeps further from the edge of its panel than its reveal, and why.
type Room struct {
	Panel        int
	Reveal, Edge length.Length
	Why          string
	// Strip says that it keeps the room only above or below, as a topper: a mat has one edge on all sides.
	Strip bool
}

// Mats are the layers of the faces of a card.
type Mats struct {
	Dressing
	Bare []Bare
	Room []Room
}

// Mats lays layers on every face that shows. Faces that have a mat already are left as they are.
//
// Problems: dress-none (no layers), dress-reveal (a reveal below 0, off the marks, or one that leaves nothing of any face),
// dress-marks, dress-stock. The mats are nil where one is an error.
func (w *Wardrobe) Mats(job MatJob) (*Mats, problem.List) {
	m, problems := w.newMatter(job)
	if problems.HasErrors() {
		return nil, problems
	}
	for _, g := range w.groups() {
		m.lay(g)
	}
	m.write()
	if len(m.out.Mats)+len(m.out.Toppers) == 0 {
		return nil, m.nothing()
	}
	return m.out, problems
}

// matter lays the mats of one job.
type matter struct {
	w     *Wardrobe
	job   MatJob
	out   *Mats
	marks length.Length
	unit  length.Unit
	lines []matLine
}

// matLine is one layer on the panels that one reference names.
type matLine struct {
	layer int
	stock string
	edge  length.Length
	ref   card.PanelRef
}

func (w *Wardrobe) newMatter(job MatJob) (*matter, problem.List) {
	c := w.closed.Assembly.Card
	m := &matter{w: w, job: job, out: &Mats{}, unit: c.Unit, marks: w.marks(job.Marks)}
	if len(job.Back) == 0 {
		m.job.Back = slices.Clone(job.Front)
	} else {
		m.job.Back = slices.Clone(job.Back)
	}
	m.job.Front = slices.Clone(job.Front)
	var problems problem.List
	add := func(rule, what, needs string) {
		problems.Add(problem.Problem{Rule: rule, Where: c.Where, What: what, Needs: needs})
	}
	if len(job.Front)+len(job.Back) == 0 {
		add("dress-none", "no layer is asked for", "a stock at least, for the front or the back")
	}
	if found := w.checkMarks(m.marks); len(found) > 0 {
		return m, append(problems, found...)
	}
	for _, layers := range [][]Layer{m.job.Front, m.job.Back} {
		for i := range layers {
			l := &layers[i]
			if l.Reveal == 0 {
				near, _ := UsualReveal(m.unit).Snap(m.marks)
				l.Reveal = max(near, m.marks)
			}
			if near, rest := l.Reveal.Snap(m.marks); l.Reveal < 0 || l.Reveal > length.Max {
				add("dress-reveal", "a reveal of "+l.Reveal.Both(m.unit), "above 0")
			} else if rest != 0 {
				add("dress-reveal", "a reveal of "+l.Reveal.Both(m.unit)+" is not on the marks, which are "+m.marks.Both(m.unit)+" apart",
					"the nearest mark: "+max(near, m.marks).Both(m.unit))
			}
			problems = append(problems, m.out.use(c, l.Stock)...)
		}
	}
	return m, problems.Sorted()
}

// marks returns the pitch to lay ornament out on.
func (w *Wardrobe) marks(asked length.Length) length.Length {
	c := w.closed.Assembly.Card
	usual := length.Length(length.Millimetre)
	if c.Unit == length.IN {
		usual = length.Inch / 8
	}
	return cmp.Or(asked, c.Marks, usual)
}

// checkMarks judges a pitch. Every mark of a panel may be tried, so the finest that is taken is a tenth of a millimetre.
func (w *Wardrobe) checkMarks(marks length.Length) problem.List {
	c := w.closed.Assembly.Card
	finest, widest := length.Length(length.Millimetre/10), length.Length(length.Inch)
	if marks >= finest && marks <= widest {
		return nil
	}
	return problem.List{{Rule: "dress-marks", Where: c.MarksWhere, What: "the marks are " + marks.Both(c.Unit) + " apart",
		Needs: "at least " + finest.Both(c.Unit) + " and at most " + widest.Both(c.Unit)}}
}

// group is what one reference of a recipe names: panels of one name, in one copy.
type group struct {
	ref    card.PanelRef
	panels []int
}

// groups lists the faces that show by the references that name them.
func (w *Wardrobe) groups() []group {
	a := w.closed.Assembly
	var out []group
	for _, f := range w.faces {
		p := w.panel(f.Panel)
		cp := a.Copies[p.Copy]
		ref := card.PanelRef{Piece: cp.Pattern.Piece.Name, Panel: p.Name}
		if cp.Pattern.Piece.Copies > 1 {
			ref.Copy = cp.Number
		}
		if p.Name != "" && slices.ContainsFunc(out, func(g group) bool { return g.ref == ref }) {
			continue
		}
		g := group{ref: ref, panels: []int{f.Panel}}
		if p.Name != "" {
			g.panels = a.FindAll(ref)
		}
		out = append(out, g)
	}
	return out
}

// lay lays the layers on the panels of a group.
func (m *matter) lay(g group) {
	front, why := m.suits(g)
	if why != "" {
		m.bare(g, 1, why)
		return
	}
	layers := m.job.Back
	if front {
		layers = m.job.Front
	}
	if len(layers) == 0 {
		m.bare(g, 1, "no layer is asked for on this side of the card")
		return
	}
	edge, why := m.edge(g, layers)
	if edge < 0 {
		if !m.strip(g, layers) {
			m.bare(g, 1, why)
		}
		return
	}
	if edge > layers[0].Reveal {
		m.room(g, Room{Reveal: layers[0].Reveal, Edge: edge, Why: why})
	}
	inset := length.Length(0)
	for i, l := range layers {
		if i > 0 {
			edge = l.Reveal
		}
		if inset += edge; !m.leaves(g, inset) {
			m.bare(g, i+1, m.tooLittle(edge, i))
			return
		}
		m.lines = append(m.lines, matLine{i, l.Stock.Name, edge, g.ref})
	}
}

// tooLittle says that a reveal leaves too little of a layer, counted from 0.
func (m *matter) tooLittle(reveal length.Length, layer int) string {
	return fmt.Sprintf("a reveal of %s leaves less than %s of layer %d", reveal.Both(m.unit), smallest(m.unit).Both(m.unit), layer+1)
}

func (m *matter) bare(g group, layer int, why string) {
	for _, p := range g.panels {
		if m.w.face(p) != nil {
			m.out.Bare = append(m.out.Bare, Bare{p, layer, why})
		}
	}
}

func (m *matter) room(g group, r Room) {
	for _, p := range g.panels {
		r.Panel = p
		m.out.Room = append(m.out.Room, r)
	}
}

// suits says on which side of the card a group counts, and why it cannot have a mat.
func (m *matter) suits(g group) (front bool, why string) {
	if g.ref.Panel == "" {
		return false, "the panel has no name by which a mat could be laid on it"
	}
	for _, p := range g.panels {
		f := m.w.face(p)
		switch {
		case f == nil:
			return false, "a panel of the same name does not show; a mat would lie on both"
		case f.Layers > 0:
			return false, "it has " + problem.Count(f.Layers, "mat") + " already"
		}
		front = front || f.Front
	}
	return front, ""
}

// leaves says whether enough is left of every panel of a group within an inset.
func (m *matter) leaves(g group, inset length.Length) bool {
	for _, p := range g.panels {
		if b := m.w.panel(p).Box; min(b.W(), b.H())-2*inset < smallest(m.unit) {
			return false
		}
	}
	return true
}

// nothing reports a job of which nothing is left.
func (m *matter) nothing() problem.List {
	p := problem.Problem{Rule: "dress-reveal", Where: m.w.closed.Assembly.Card.Where, What: "no face of the card can be dressed so",
		Needs: "a smaller reveal, or panels that show, have a name and no mat yet"}
	for _, b := range m.out.Bare[:min(3, len(m.out.Bare))] {
		p.Notes = append(p.Notes, problem.Note{What: m.w.panel(b.Panel).Ref + ": " + b.Why})
	}
	return problem.List{p}
}
