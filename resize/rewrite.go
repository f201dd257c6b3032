package resize

import (
	"fmt"

	"foldwright/card"
	"foldwright/length"
	"foldwright/pattern"
	"foldwright/plane"
	"foldwright/recipe"
)

// dress sets what is not a measure: the size to fit, the ruler, wedges, mats and toppers.
func (p *conditions) dress(c *card.Card, q Request) {
	to := q.To
	c.Fits = &to
	c.Marks = q.Marks
	c.Unit = q.Unit
	ratioX, ratioY := float64(q.To.W)/float64(oldSize(p.s.closed).W), float64(q.To.H)/float64(oldSize(p.s.closed).H)
	for i := range c.Pieces {
		for k := range c.Pieces[i].Wedges {
			w := &c.Pieces[i].Wedges[k]
			near, _ := w.Depth.Snap(q.Marks)
			w.Depth = p.wedgeRoom(&c.Pieces[i], w.Panel, max(near, q.Marks))
		}
	}
	for i := range c.Pieces {
		pointsOnMarks(&c.Pieces[i], q.Marks)
	}
	for i := range c.Mats {
		near, _ := c.Mats[i].Edge.Snap(q.Marks)
		c.Mats[i].Edge = max(near, q.Marks)
	}
	for i := range c.Keeps {
		if c.Keeps[i].Relation != card.Equal {
			continue
		}
		for _, side := range [2]*card.Linear{&c.Keeps[i].Left, &c.Keeps[i].Right} {
			if len(side.Terms) == 0 {
				side.Constant = p.onMark(side.Constant)
			}
		}
	}
	for i := range c.Toppers {
		scaleTopper(&c.Toppers[i], ratioX, ratioY, q.Marks)
	}
}

// pointsOnMarks brings the points that name panels to marks, which read better, where those lie well inside the same panel.
func pointsOnMarks(piece *card.Piece, mark length.Length) {
	if len(piece.PanelsAt) == 0 {
		return
	}
	pat, _ := pattern.Build(piece)
	if pat == nil {
		return
	}
	room := float64(mark) / 4
	for i := range piece.PanelsAt {
		at := &piece.PanelsAt[i].At
		x, _ := at.X.Snap(mark)
		y, _ := at.Y.Snap(mark)
		fx, fy := float64(x), float64(y)
		for k := range pat.Panels {
			p := &pat.Panels[k]
			if p.Contains(float64(at.X), float64(at.Y)) && p.Contains(fx-room, fy-room) && p.Contains(fx+room, fy-room) &&
				p.Contains(fx-room, fy+room) && p.Contains(fx+room, fy+room) {
				*at = plane.Point{X: x, Y: y}
				break
			}
		}
	}
}

// wedgeRoom keeps a wedge smaller than its tab.
func (p *conditions) wedgeRoom(piece *card.Piece, panel string, depth length.Length) length.Length {
	bare := *piece
	bare.Wedges = nil
	pat, _ := pattern.Build(&bare)
	if pat == nil {
		return depth
	}
	for _, i := range pat.PanelNamed(panel) {
		b := pat.Panels[i].Box
		for depth > p.s.marks && (depth >= min(b.W(), b.H()) || 2*depth >= max(b.W(), b.H())) {
			depth -= p.s.marks
		}
	}
	return depth
}

// down scales a length and rounds it down to a mark, one mark at least.
func down(l length.Length, ratio float64, mark length.Length) length.Length {
	n := length.Length(float64(l) * ratio / float64(mark) * (1 + 1e-12))
	return max(n, 1) * mark
}

// scaleTopper scales a topper by the smaller ratio, so that it keeps its shape as a die does.
func scaleTopper(t *card.Topper, ratioX, ratioY float64, mark length.Length) {
	ratio := min(ratioX, ratioY)
	t.Size = card.Size{W: down(t.Size.W, ratio, mark), H: down(t.Size.H, ratio, mark)}
	for i, c := range t.Points {
		x, _ := length.Length(float64(c.X) * ratio).Snap(mark)
		y, _ := length.Length(float64(c.Y) * ratio).Snap(mark)
		t.Points[i] = plane.Point{X: x, Y: y}
	}
	if t.Place != card.TopperCentre {
		t.At = down(t.At, ratioY, mark)
	}
}

// rewrite writes the new measurements into the old text: comments and order stay. It returns nil where the text has no
// place for one of them, which a recipe that was read always has.
func rewrite(r *recipe.Recipe, old, c *card.Card, q Request) *recipe.Recipe {
	out := Write(r, old, c)
	if out == nil {
		return nil
	}
	out.SetUnits(q.Unit)
	out.SetMarks(q.Marks, q.MarksUnit)
	out.SetFits(q.To)
	return out
}

// Write writes the measurements of a changed card into the text of the old one: comments and order stay. The two cards
// may differ in nothing else. It returns nil where the text has no place for a measurement.
func Write(r *recipe.Recipe, old, c *card.Card) *recipe.Recipe {
	out, problems := recipe.Read("", r.Format())
	if out == nil || problems.HasErrors() {
		return nil
	}
	var first error
	try := func(err error) {
		if first == nil {
			first = err
		}
	}
	for i := range c.Pieces {
		writePiece(out, &old.Pieces[i], &c.Pieces[i], try)
	}
	for i, g := range c.Glues {
		if g != old.Glues[i] {
			try(out.SetGlue(i+1, g))
		}
	}
	for i, k := range c.Keeps {
		for s, side := range [2]card.Linear{k.Left, k.Right} {
			was := [2]card.Linear{old.Keeps[i].Left, old.Keeps[i].Right}[s]
			if len(side.Terms) == 0 && side.Constant != was.Constant {
				try(out.SetKeep(i+1, side.Constant))
			}
		}
	}
	for i, m := range c.Mats {
		try(out.SetMatEdge(i+1, m.Edge))
	}
	for i, t := range c.Toppers {
		if t.Kind == card.Polygon {
			try(out.SetTopperCorners(i+1, t.Points))
		}
		try(out.SetTopper(i+1, t.Size, t.At))
	}
	if first != nil {
		return nil
	}
	return out
}

func writePiece(out *recipe.Recipe, old, p *card.Piece, try func(error)) {
	if len(p.Outline) > 0 {
		try(out.SetOutline(p.Name, p.Outline))
	} else {
		try(out.SetSize(p.Name, p.Size))
	}
	for k, sc := range p.Scores {
		if sc.Kind == card.Slanted {
			try(out.SetScoreEnds(p.Name, k+1, sc.From, sc.To))
		} else {
			try(out.SetScore(p.Name, k+1, sc.At))
		}
	}
	for k, t := range p.Slits {
		try(out.SetSlit(p.Name, k+1, t.From, t.To))
	}
	for k, w := range p.Windows {
		try(out.SetWindow(p.Name, k+1, w))
	}
	for k, at := range p.PanelsAt {
		try(out.SetPanelAt(p.Name, k+1, at.At))
	}
	for k, w := range p.Wedges {
		if w.Depth != old.Wedges[k].Depth {
			try(out.SetWedge(p.Name, w.Panel, w.Depth))
		}
	}
}

// note remembers a number that went to the nearest mark.
func (p *conditions) note(format string, args ...any) {
	p.notes = append(p.notes, fmt.Sprintf(format, args...))
}
