package dress

import (
	"foldwright/card"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/problem"
	"foldwright/stock"
)

// placer looks for the place of one topper.
type placer struct {
	w      *Wardrobe
	job    TopperJob
	card   *card.Card
	face   *Face
	on     plane.Box // the panel in the closed card
	within card.Size
	marks  length.Length
	size   card.Size // of the lowest sheet
	out    Dressing
}

func (w *Wardrobe) newPlacer(job TopperJob) (*placer, problem.List) {
	c := w.closed.Assembly.Card
	p := &placer{w: w, job: job, card: c, marks: w.marks(job.Marks), within: job.Within}
	var problems problem.List
	add := func(rule, what, needs, try string) {
		problems.Add(problem.Problem{Rule: rule, Where: c.Where, What: what, Needs: needs, Try: try})
	}
	panel, ok := w.closed.Assembly.Find(job.On)
	if ok {
		p.face = w.face(panel)
	}
	if ok && p.job.On.Copy == 0 && w.closed.Assembly.Copies[w.panel(panel).Copy].Pattern.Piece.Copies > 1 {
		p.job.On.Copy = 1 // the one that was found; a recipe must name it
	}
	switch {
	case !ok:
		add("dress-panel", "there is no single panel "+problem.Quote(job.On.String()), "the name of one panel that shows", p.nearPanel())
	case p.face == nil:
		add("dress-panel", job.On.String()+" does not show in the open card", "a panel that shows", "")
	case len(job.Sheets) == 0:
		add("dress-topper", "no die is named for the topper", "one die at least", "")
	}
	problems = append(problems, w.checkMarks(p.marks)...)
	if problems.HasErrors() {
		return p, problems
	}
	p.on = plane.BoxOf(w.closed.At[panel].Points(w.panel(panel).Outline)...)
	p.size = sizeOf(job.Sheets[0].Die, job.Turned)
	if p.within == (card.Size{}) {
		p.within = card.Size{W: w.closed.Box.W(), H: w.closed.Box.H()}
		if c.Fits != nil {
			p.within = *c.Fits
		}
	}
	return p, append(p.checkSheets(), p.checkSize()...)
}

// checkSheets takes the stocks and reports sheets that do not nest.
func (p *placer) checkSheets() problem.List {
	var problems problem.List
	for i, s := range p.job.Sheets {
		problems = append(problems, p.out.use(p.card, s.Stock)...)
		if s.Die.Tool == stock.StampTool {
			problems.Add(problem.Problem{Rule: "dress-topper", Where: s.Die.Where, What: problem.Quote(s.Die.Name) + " is a stamp, which cuts nothing", Needs: "a die or a punch"})
		}
		if s.Die.W <= 0 || s.Die.H <= 0 || s.Thick < 0 || s.Thick > length.Max {
			problems.Add(problem.Problem{Rule: "dress-topper", Where: s.Die.Where, What: problem.Quote(s.Die.Name) + " has no size, or a thickness that cannot be",
				Needs: "a size above 0, a thickness of 0 or more"})
		}
		if i == 0 {
			continue
		}
		if below := p.job.Sheets[i-1].Die; s.Die.W >= below.W || s.Die.H >= below.H {
			problems.Add(problem.Problem{Rule: "dress-nest", Where: s.Die.Where,
				What:  problem.Quote(s.Die.Name) + " is not smaller than " + problem.Quote(below.Name) + " below it, so it leaves nothing of it to see",
				Needs: "a die that is narrower and lower, by twice the reveal"})
		}
	}
	return problems
}

// checkSize reports a topper that is larger than what the closed card must stay within.
func (p *placer) checkSize() problem.List {
	if p.size.W <= p.within.W && p.size.H <= p.within.H {
		return nil
	}
	return problem.List{{Rule: "dress-topper-size", Where: p.job.Sheets[0].Die.Where,
		What:  p.name() + " is " + p.pair(p.size) + ", larger than the card may be",
		Needs: "at most " + p.pair(p.within), Try: p.advice()}}
}

func (p *placer) pair(s card.Size) string {
	return s.W.Both(p.card.Unit) + " by " + s.H.Both(p.card.Unit)
}

func (p *placer) name() string { return problem.Quote(p.job.Sheets[0].Die.Name) }

func (p *placer) ref() string { return p.w.panel(p.face.Panel).Ref }

// advice names the largest other die that is smaller than this one and not larger than the card may be.
func (p *placer) advice() string {
	best, area := "", 0.0
	now := p.job.Sheets[0].Die
	for _, d := range p.job.Others {
		s := sizeOf(d, p.job.Turned)
		a := s.W.MM() * s.H.MM()
		if d.Tool == stock.StampTool || s.W > p.within.W || s.H > p.within.H || a >= now.W.MM()*now.H.MM() || a <= area {
			continue
		}
		best, area = d.Name, a
	}
	return best
}

// nearPanel is the panel that was probably meant.
func (p *placer) nearPanel() string {
	var names []string
	for _, f := range p.w.faces {
		names = append(names, p.w.panel(f.Panel).Ref)
	}
	near, _ := problem.Suggest(p.job.On.String(), names)
	return near
}
