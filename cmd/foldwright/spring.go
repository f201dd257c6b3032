package main

import (
	"context"
	"fmt"
	"time"

	"foldwright/card"
	"foldwright/drawing"
	"foldwright/drawing/png"
	"foldwright/drawing/svg"
	"foldwright/drawing/view"
	"foldwright/fold"
	"foldwright/proof"
	"foldwright/recipe"
	"foldwright/spring"
)

// springCmd says where the folds of a card bring it to rest, how strongly they push, and what to change.
type springCmd struct {
	Card   string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Steps  int           `default:"60" help:"In how many steps the way open is followed, 5 to 400."`
	Starts int           `default:"32" help:"From how many starts other poses are looked for in which the card could stay; 0 for none."`
	Seed   uint64        `default:"1" help:"Chooses those starts."`
	Plot   string        `placeholder:"FOLDER" predictor:"folder" help:"Draw force against opening into this folder, as SVG and PNG."`
	Cure   int           `placeholder:"N" help:"Take this one of the changes that are listed."`
	Out    string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the recipe with that change to this file; - writes it to standard output and nothing else."`
	JSON   bool          `name:"json" help:"Answer in JSON; lengths in millimetres, forces in newtons, energies in millijoules."`
	Limit  time.Duration `default:"60s" help:"Stop after this long and say so (exit code 3)."`
}

// Run works out all there is to say of how a card springs.
func (c *springCmd) Run(e *env) error {
	if c.Steps < 5 || c.Steps > 400 || c.Starts < 0 || c.Starts > 1000 {
		return fail(exitUsage, "say 5 to 400 steps and 0 to 1000 starts")
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, model, assumed, err := e.sprung(ctx, c.Card)
	if err != nil {
		return err
	}
	said := model.Report(ctx, spring.Ask{Steps: c.Steps, Starts: c.Starts, Seed: c.Seed, Cures: true}, assumed)
	if c.Cure < 0 || c.Cure > len(said.Cures) {
		return fail(exitUsage, "there is no change %d; there are %d", c.Cure, len(said.Cures))
	}
	if c.Plot != "" {
		files, err := springPlot(r, said, stem(c.Card))
		if err != nil {
			return err
		}
		if err := writeAll(c.Plot, files); err != nil {
			return err
		}
	}
	switch {
	case c.Cure > 0:
		err = e.writeChanged(c.Out, said.Cures[c.Cure-1].Card, c.Limit)
	case c.JSON:
		err = writeJSON(e.stdout, said)
	default:
		err = saySpring(&page{w: e.stdout}, r, said, c.Card)
	}
	switch {
	case err != nil:
		return err
	case said.Status == "stopped":
		return &exitError{code: exitStopped}
	case said.Status != "solved":
		return &exitError{code: exitProblems}
	}
	return nil
}

// sprung makes a card that lies flat springy. Whether it is proven besides does not matter here: that follows the card as
// if it had no springs.
func (e *env) sprung(ctx context.Context, path string) (*proof.Report, *spring.Model, *spring.Assumptions, error) {
	r, err := e.flat(ctx, path)
	if err != nil {
		return nil, nil, nil, err
	}
	assumed, problems := spring.Assume()
	if problems.HasErrors() {
		return nil, nil, nil, refuse(e, problems, exitFiles)
	}
	model := spring.New(fold.New(r.Closed), assumed)
	if problems := model.Check(); problems.HasErrors() {
		return nil, nil, nil, refuse(e, problems, exitProblems)
	}
	return r, model, assumed, nil
}

// writeChanged proves a changed card and writes its recipe. Comments of the old recipe are not in it: whole pieces may be gone.
func (e *env) writeChanged(out string, c *card.Card, limit time.Duration) error {
	text := recipe.FromCard(c).Format()
	r := prove(e.ctx, "changed card", text, limit)
	if !r.Proven() {
		if err := r.Print(e.stderr); err != nil {
			return err
		}
		return fail(codeOf(r), "with this change the card lies flat but is not proven; nothing was written")
	}
	if out == "" || out == "-" {
		_, err := e.stdout.Write(text)
		return err
	}
	if err := writeFile(out, text); err != nil {
		return err
	}
	_, err := fmt.Fprintf(e.stdout, "proven, and written to %s (without the comments of the old recipe)\n", out)
	return err
}

// saySpring tells it in words, with the numbers behind them.
func saySpring(p *page, r *proof.Report, s spring.Report, path string) error {
	if s.Status == "no rest" {
		p.line("%s: %s", r.Card.Title, s.Notes[0])
		return p.err
	}
	p.line("%s: %s.", r.Card.Title, feelWords(s))
	p.line("  %-9s %s wide, %s deep, %s high, with %.1f mJ left in its folds", "rests", rough(s.Rest.WidthMM, r.Card), rough(s.Rest.DepthMM, r.Card), rough(s.Rest.HeightMM, r.Card), s.Rest.EnergyMJ)
	if s.OwnDepth > 0 {
		p.line("  %-9s %s deep without its springs; they pull it %.0f %% of the way to straight (too strong from 50 %% on)", "by itself", rough(s.OwnDepth, r.Card), 100*s.Pull)
	}
	if len(s.Crosses) > 0 {
		p.line("  %-9s not known: the way that was found leads through its own panels", "opens")
		return sayRest(p, r, s, path)
	}
	opens := "with a push: its folds do not open it all the way"
	if s.OpensByItself {
		opens = "by itself"
		if s.OpeningS > 0 {
			opens += fmt.Sprintf(", in about %.2g s where nothing holds it back", s.OpeningS)
		}
	}
	p.line("  %-9s %s", "opens", opens)
	if s.HoldShutN > 0 {
		p.line("  %-9s with %.2g N, the weight of %.0f g: what the envelope feels", "held shut", s.HoldShutN, s.HoldShutN/newtonsPerKilo*1000)
	}
	return sayRest(p, r, s, path)
}

// sayRest says what there is besides the way open: other poses, notes, and what to change.
func sayRest(p *page, r *proof.Report, s spring.Report, path string) error {
	for _, o := range s.Others {
		p.line("  %-9s it can also stay %s deep, with %.1f mJ in its folds", "two ways", rough(o.DepthMM, r.Card), o.EnergyMJ)
	}
	for _, n := range s.Notes {
		p.line("  %-9s %s", "note", n)
	}
	p.line("  %-9s what the recipe does not say of its stocks; measure them with foldwright bench-test", "assumed")
	if len(s.Cures) > 0 {
		p.line("")
		sayCures(p, r, s.Cures)
		p.line("")
		p.line("To have one: foldwright spring %s --cure 1 --out FILE", path)
	}
	return p.err
}

// newtonsPerKilo is the weight of a kilogram (standard gravity, ISO 80000-3).
const newtonsPerKilo = 9.80665

func feelWords(s spring.Report) string {
	if s.Almost {
		return s.Feel.String() + ", almost too strong"
	}
	return s.Feel.String()
}

// sayCures prints what changes would do, each solved again.
func sayCures(p *page, r *proof.Report, cures []spring.Cure) {
	p.line("  %-3s %-68s %10s %10s  %s", "", "change", "depth", "held shut", "feel")
	for i, c := range cures {
		force := "not known"
		if c.HoldShutN > 0 {
			force = fmt.Sprintf("%.2g N", c.HoldShutN)
		}
		p.line("  %-3d %-68s %7.0f mm %10s  %s", i+1, c.Change, c.DepthMM, force, c.Feel)
	}
}

// springPlot draws force against opening.
func springPlot(r *proof.Report, s spring.Report, stem string) ([]file, error) {
	if len(s.Curve) < 2 {
		return nil, nil
	}
	first, last := s.Curve[0], s.Curve[len(s.Curve)-1]
	p := view.Plot{
		Name: "force", Title: r.Card.Title + ": how strongly it pushes", Notes: []string{"let go slowly; feel: " + feelWords(s)},
		Across: "how far open, mm", Up: "force, N", SmallestSpan: 0.1,
		Marks: []view.PlotMark{
			{At: drawing.Point{X: first.DepthMM, Y: first.ForceN}, Words: fmt.Sprintf("shut: %.2g N", s.HoldShutN)},
			{At: drawing.Point{X: last.DepthMM, Y: last.ForceN}, Words: fmt.Sprintf("rests at %.0f mm", last.DepthMM)},
		},
	}
	for _, step := range s.Curve {
		p.Points = append(p.Points, drawing.Point{X: step.DepthMM, Y: step.ForceN})
	}
	d := view.Curve(p)
	svgText, err := write(svg.Device{}, d)
	if err != nil {
		return nil, err
	}
	picture, err := write(png.Device{DPI: 150}, d)
	if err != nil {
		return nil, err
	}
	return []file{{stem + "-force.svg", svgText}, {stem + "-force.png", picture}}, nil
}
