package main

import (
	"context"
	"fmt"
	"io"
	"strings"
	"time"

	"foldwright/card"
	"foldwright/dress"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/recipe"
	"foldwright/stock"
)

// dressCmd lays mats and a topper on a card.
type dressCmd struct {
	Card   string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Mats   []string      `placeholder:"STOCK" help:"The layers of every face that shows, the one next to the panel first, with commas between them: navy,white."`
	Back   []string      `placeholder:"STOCK" help:"Other layers for faces that are turned away."`
	Reveal string        `placeholder:"LENGTH" help:"How much of what is below shows on each side. Unsaid: 1/8 in or 3 mm."`
	Dies   string        `placeholder:"FILE" help:"Your dies, punches and stamps: CSV with the columns name, tool, shape, unit, width, height, set. Without --topper: which of them suit which panel."`
	Topper []string      `placeholder:"NAME" help:"A topper of these dies, the largest first, with commas between them."`
	Of     []string      `placeholder:"STOCK" help:"The stock of each sheet of the topper; one for all will do."`
	On     string        `placeholder:"PANEL" help:"The panel that carries the topper, such as wall.front. Unsaid: the front."`
	Thick  string        `placeholder:"LENGTH" help:"How far the topper stands out, with the foam that holds it off."`
	Turned bool          `help:"The topper lies turned by a quarter."`
	Out    string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the dressed recipe to this file; - writes it to standard output and nothing else."`
	JSON   bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
	Limit  time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run dresses a card and proves it again.
func (c *dressCmd) Run(e *env) error {
	if len(c.Mats)+len(c.Topper) == 0 && c.Dies == "" {
		return fail(exitUsage, "say what to dress it with: --mats white, or --dies FILE, with --topper NAME for one of them")
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, err := e.proven(c.Card, c.Limit)
	if err != nil {
		return err
	}
	p := &page{w: e.words(c.Out)}
	if c.JSON {
		p.w = io.Discard
	}
	p.line("%s", r.Card.Title)
	text, problems := recipe.Read(r.File, r.Recipe.Format())
	var dies []stock.Die
	if c.Dies != "" {
		file, err := e.read(c.Dies)
		if err != nil {
			return err
		}
		var more problem.List
		dies, more = stock.ReadDies(nameOf(c.Dies), file)
		problems = append(problems, more...)
	}
	if c.Dies != "" && len(c.Topper) == 0 {
		c.matches(p, r, dies)
	}
	if len(c.Mats) > 0 {
		more, err := c.mats(p, r, text)
		if err != nil {
			return err
		}
		problems = append(problems, more...)
	}
	if len(c.Topper) > 0 && !problems.HasErrors() {
		more, err := c.topper(ctx, p, r, text, dies)
		if err != nil {
			return err
		}
		problems = append(problems, more...)
	}
	for _, q := range problems.Sorted() {
		p.line("%s", q.String())
	}
	switch {
	case p.err != nil:
		return p.err
	case problems.HasErrors():
		return &exitError{code: exitProblems}
	case len(c.Mats)+len(c.Topper) == 0:
		return nil
	}
	return c.finish(ctx, e, p, text)
}

type dressJSON struct {
	Proven bool      `json:"proven"`
	Cuts   []cutJSON `json:"cuts"`
	Recipe string    `json:"recipe"`
}

type cutJSON struct {
	Stock string   `json:"stock"`
	Shape string   `json:"shape"`
	W     float64  `json:"w_mm"`
	H     float64  `json:"h_mm"`
	Count int      `json:"count"`
	For   []string `json:"for"`
}

func (c *dressCmd) json(e *env, proven *proof.Report, recipe []byte) error {
	out := dressJSON{Proven: proven.Proven(), Cuts: []cutJSON{}, Recipe: string(recipe)}
	for _, k := range dress.Cuts(proven.Closed) {
		out.Cuts = append(out.Cuts, cutJSON{k.Stock, k.Shape.String(), k.W.MM(), k.H.MM(), k.Count, k.For})
	}
	if err := writeJSON(e.stdout, out); err != nil || out.Proven {
		return err
	}
	return &exitError{code: codeOf(proven)}
}

// finish proves the dressed card, lists what is to be cut for it, and writes it where it was told to.
func (c *dressCmd) finish(ctx context.Context, e *env, p *page, text *recipe.Recipe) error {
	out := text.Format()
	proven := proof.Prove(ctx, nameOf(c.Card), out)
	if proven.Proven() && c.Out != "" && c.Out != "-" {
		if err := writeFile(c.Out, out); err != nil {
			return err
		}
	}
	if c.JSON {
		return c.json(e, proven, out)
	}
	p.line("")
	p.line("%s", proven.Verdict())
	if !proven.Proven() {
		for _, q := range proven.Problems {
			p.line("%s", q.String())
		}
		return &exitError{code: codeOf(proven)}
	}
	b := proven.Closed.Outline()
	p.line("  closed    %s wide, %s high, %s thick", b.W().Both(proven.Card.Unit), b.H().Both(proven.Card.Unit), proven.Thickness.Max.Human(length.MM))
	p.line("")
	p.line("to cut for it:")
	for _, k := range dress.Cuts(proven.Closed) {
		p.line("  %s of %s, %s by %s: %s", problem.Count(k.Count, shapeWord(k.Shape)), k.Stock, k.W.Both(proven.Card.Unit), k.H.Both(proven.Card.Unit), strings.Join(k.For, ", "))
	}
	p.line("")
	switch c.Out {
	case "":
		p.line("Nothing was written. To have the dressed recipe: --out FILE")
	case "-":
		if p.err == nil {
			_, p.err = e.stdout.Write(out)
		}
	default:
		p.line("written to %s", c.Out)
	}
	return p.err
}

func (c *dressCmd) mats(p *page, r *proof.Report, text *recipe.Recipe) (problem.List, error) {
	front, err := c.layers(r.Card, c.Mats)
	if err != nil {
		return nil, err
	}
	back, err := c.layers(r.Card, c.Back)
	if err != nil {
		return nil, err
	}
	made, problems := dress.New(r.Closed, r.Opening).Mats(dress.MatJob{Front: front, Back: back})
	if made == nil {
		return problems, nil
	}
	made.Write(text)
	for _, b := range made.Bare {
		p.line("  %s stays bare: %s", r.Assembly.Panels[b.Panel].Ref, b.Why)
	}
	for _, k := range made.Room {
		p.line("  on %s the mat keeps %s from the edge: %s", r.Assembly.Panels[k.Panel].Ref, k.Edge.Both(r.Card.Unit), k.Why)
	}
	return problems, nil
}

// layers finds the stocks of some layers in the recipe.
func (c *dressCmd) layers(of *card.Card, names []string) ([]dress.Layer, error) {
	var reveal length.Length
	if c.Reveal != "" {
		l, err := length.Parse(c.Reveal, of.Unit)
		if err != nil {
			return nil, fail(exitUsage, "%v", err)
		}
		reveal = l
	}
	var out []dress.Layer
	for _, n := range names {
		s, err := stockOf(of, n)
		if err != nil {
			return nil, err
		}
		out = append(out, dress.Layer{Stock: s, Reveal: reveal})
	}
	return out, nil
}

// stockOf finds a stock of the recipe by its name.
func stockOf(of *card.Card, name string) (card.Stock, error) {
	if s := of.StockNamed(name); s != nil {
		return *s, nil
	}
	var names []string
	for _, s := range of.Stocks {
		names = append(names, s.Name)
	}
	return card.Stock{}, fail(exitUsage, "there is no stock %q in this recipe; it has %s\n    try: add a stock line for it", name, strings.Join(names, ", "))
}

func (c *dressCmd) topper(ctx context.Context, p *page, r *proof.Report, text *recipe.Recipe, dies []stock.Die) (problem.List, error) {
	job := dress.TopperJob{Turned: c.Turned, Others: dies}
	job.On = card.PanelRef{Piece: r.Card.Pieces[0].Name, Panel: r.Assembly.Panels[r.Assembly.Front()].Label}
	if c.On != "" {
		ref, err := panelRef(c.On)
		if err != nil {
			return nil, err
		}
		job.On = ref
	}
	if len(c.Of) == 0 {
		return nil, fail(exitUsage, "say with --of what the topper is cut of")
	}
	for i, name := range c.Topper {
		die, err := dieNamed(dies, name)
		if err != nil {
			return nil, err
		}
		of, err := stockOf(r.Card, c.Of[min(i, len(c.Of)-1)])
		if err != nil {
			return nil, err
		}
		job.Sheets = append(job.Sheets, dress.Sheet{Die: die, Stock: of})
	}
	if c.Thick != "" {
		l, err := length.Parse(c.Thick, r.Card.Unit)
		if err != nil {
			return nil, fail(exitUsage, "%v", err)
		}
		job.Sheets[0].Thick = l
	}
	made, problems := dress.New(r.Closed, r.Opening).Topper(ctx, job)
	if made == nil {
		return problems, nil
	}
	made.Write(text)
	p.line("  topper on %s, %.0f %% of it on the panel%s%s", r.Assembly.Panels[made.Panel].Ref, 100*made.Glued,
		overhang("panel", made.OverPanel, r.Card.Unit), overhang("closed card", made.OverCard, r.Card.Unit))
	return problems, nil
}

// panelRef reads wall.front or spring#1.tab.
func panelRef(text string) (card.PanelRef, error) {
	piece, panel, ok := strings.Cut(text, ".")
	ref := card.PanelRef{Piece: piece, Panel: panel}
	if name, number, copied := strings.Cut(piece, "#"); copied {
		ref.Piece = name
		if _, err := fmt.Sscanf(number, "%d", &ref.Copy); err != nil {
			ok = false
		}
	}
	if !ok {
		return ref, fail(exitUsage, "%q names no panel; write the piece and the panel, such as wall.front", text)
	}
	return ref, nil
}

func dieNamed(dies []stock.Die, name string) (stock.Die, error) {
	var names []string
	for _, d := range dies {
		if d.Name == name {
			return d, nil
		}
		names = append(names, d.Name)
	}
	if near, ok := problem.Suggest(name, names); ok {
		return stock.Die{}, fail(exitUsage, "there is no die %q; did you mean %q?", name, near)
	}
	return stock.Die{}, fail(exitUsage, "there is no die %q; name one of the file of --dies: %s", name, strings.Join(names, ", "))
}

func overhang(over string, o dress.Overhang, u length.Unit) string {
	var words []string
	for _, s := range []struct {
		by    length.Length
		where string
	}{{o.Left, "on the left"}, {o.Right, "on the right"}, {o.Above, "above"}, {o.Below, "below"}} {
		if s.by > 0 {
			words = append(words, s.by.Both(u)+" "+s.where)
		}
	}
	if len(words) == 0 {
		return ""
	}
	return "; beyond the " + over + " by " + strings.Join(words, ", ")
}

func shapeWord(k card.WindowKind) string {
	if k == card.Rect {
		return "rectangle"
	}
	return k.String()
}

// matches says which tools suit which panel.
func (c *dressCmd) matches(p *page, r *proof.Report, dies []stock.Die) {
	p.line("panels that your tools suit:")
	last := -1
	for _, m := range dress.New(r.Closed, r.Opening).Matches(dies, dress.UsualReveal(r.Card.Unit)) {
		if m.Panel != last {
			p.line("  %s", r.Assembly.Panels[m.Panel].Ref)
			last = m.Panel
		}
		turned := ""
		if m.Turned {
			turned = ", turned"
		}
		p.line("      %s%s, %s of the panel left beside it", m.Die.Name, turned, m.Margin.Both(r.Card.Unit))
	}
	if last < 0 {
		p.line("  none")
	}
}
