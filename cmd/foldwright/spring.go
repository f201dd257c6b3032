package main

import (
	"context"
	"fmt"
	"math"
	"time"

	"foldwright/drawing"
	"foldwright/drawing/png"
	"foldwright/drawing/svg"
	"foldwright/drawing/view"
	"foldwright/fold"
	"foldwright/proof"
	"foldwright/spring"
)

// springCmd says where the folds of a card bring it to rest, and how strongly they push.
type springCmd struct {
	Card   string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Steps  int           `default:"60" help:"In how many steps the way open is followed, 5 to 400."`
	Starts int           `default:"32" help:"From how many starts other poses are looked for in which the card could stay; 0 for none."`
	Seed   uint64        `default:"1" help:"Chooses those starts."`
	Plot   string        `placeholder:"FOLDER" predictor:"folder" help:"Draw force against opening into this folder, as SVG and PNG."`
	JSON   bool          `name:"json" help:"Answer in JSON; lengths in millimetres, forces in newtons, energies in millijoules."`
	Limit  time.Duration `default:"60s" help:"Stop after this long and say so (exit code 3)."`
}

// sprung is all that is known of how a card springs.
type sprung struct {
	report *proof.Report
	model  *spring.Model
	rest   spring.Rest
	push   spring.Push
	others []spring.Rest
	all    bool // the search for others came to its end
}

// Run finds the rest pose, the way there and other rest poses.
func (c *springCmd) Run(e *env) error {
	if c.Steps < 5 || c.Steps > 400 || c.Starts < 0 || c.Starts > 1000 {
		return fail(exitUsage, "say 5 to 400 steps and 0 to 1000 starts")
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, err := e.proven(c.Card, c.Limit)
	if err != nil {
		return err
	}
	assumed, problems := spring.Assume()
	if problems.HasErrors() {
		return refuse(e, problems, exitFiles)
	}
	s := &sprung{report: r, model: spring.New(fold.New(r.Closed), assumed)}
	s.rest = s.model.Rest(ctx)
	if !s.rest.Found {
		if ctx.Err() != nil {
			return &exitError{code: exitStopped}
		}
		return fail(exitProblems, "no pose was found in which the folds of this card balance: it is locked, or its folds push nothing open")
	}
	s.push = s.model.Opening(ctx, s.rest, c.Steps)
	if c.Starts > 0 {
		s.others, s.all = s.model.Others(ctx, s.rest, c.Starts, c.Seed)
	}
	if c.Plot != "" {
		files, err := s.plot(stem(c.Card))
		if err != nil {
			return err
		}
		if err := writeAll(c.Plot, files); err != nil {
			return err
		}
	}
	if c.JSON {
		err = writeJSON(e.stdout, s.json())
	} else {
		err = s.say(&page{w: e.stdout})
	}
	if err == nil && ctx.Err() != nil {
		err = &exitError{code: exitStopped}
	}
	return err
}

// say tells it in words, with the numbers behind them.
func (s *sprung) say(p *page) error {
	r := s.report
	o := s.rest.Standing
	p.line("%s", r.Card.Title)
	p.line("  %-9s %s wide, %s deep, %s high", "rests", rough(o.Width, r.Card), rough(o.Depth, r.Card), rough(o.Height, r.Card))
	p.line("  %-9s %.1f mJ are left in its folds", "", s.rest.Energy)
	switch {
	case !s.push.Complete:
		p.line("  %-9s the way from closed could not be followed to its end, so nothing is said of forces", "opens")
	case s.push.ByItself:
		p.line("  %-9s by itself", "opens")
	default:
		p.line("  %-9s with a push: its folds do not open it all the way", "opens")
	}
	if s.push.Complete && s.push.HoldShut > 0 {
		p.line("  %-9s %.2g N, the weight of %.0f g: what the envelope feels", "held shut", s.push.HoldShut, s.push.HoldShut/9.80665*1000)
	}
	if n := len(s.push.Snaps); n > 0 {
		p.line("  %-9s it flips at %s of the way, and does not move on steadily", "flips", share(s.push.Snaps[0], len(s.push.Steps)))
	}
	if len(s.push.Crosses) > 0 || len(s.rest.Crossings) > 0 {
		p.line("  %-9s panels pass through each other on the way that was followed; no real card goes that way", "beware")
	}
	if !s.rest.Stable {
		p.line("  %-9s a nudge makes it lean to one side: stood up straight it is not stable", "beware")
	}
	for _, q := range s.others {
		p.line("  %-9s it can also stay %s deep, with %.1f mJ in its folds", "two ways", rough(q.Standing.Depth, r.Card), q.Energy)
	}
	p.line("  %-9s stiffness, crease and remembered angles are assumed where the recipe says nothing (foldwright bench-test)", "assumed")
	return p.err
}

func share(step, steps int) string { return fmt.Sprintf("%.0f %%", 100*float64(step)/float64(steps-1)) }

// plot draws force against opening.
func (s *sprung) plot(stem string) ([]file, error) {
	if !s.push.Complete {
		return nil, nil
	}
	p := view.Plot{Name: "force", Title: s.report.Card.Title + ": how strongly it pushes", Across: "how far open, mm", Up: "force, N", SmallestSpan: 0.1}
	if s.push.Plates {
		p.Notes = []string{"held between two plates, as an envelope holds it"}
	}
	for _, step := range s.push.Steps {
		p.Points = append(p.Points, drawing.Point{X: step.Apart, Y: step.Force})
	}
	first, last := s.push.Steps[0], s.push.Steps[len(s.push.Steps)-1]
	p.Marks = []view.PlotMark{
		{At: drawing.Point{X: first.Apart, Y: first.Force}, Words: fmt.Sprintf("shut: %.2g N", s.push.HoldShut)},
		{At: drawing.Point{X: last.Apart, Y: last.Force}, Words: fmt.Sprintf("rests at %.0f mm", last.Apart)},
	}
	d := view.Curve(p)
	if d == nil {
		return nil, nil
	}
	var files []file
	for ext, dev := range map[string]drawing.Device{"svg": svg.Device{}, "png": png.Device{DPI: 150}} {
		data, err := write(dev, d)
		if err != nil {
			return nil, err
		}
		files = append(files, file{stem + "-force." + ext, data})
	}
	return files, nil
}

// The shape of the answer as JSON: names are a promise.
type springJSON struct {
	Rest     restJSON    `json:"rest"`
	Others   []restJSON  `json:"others"`
	HoldShut float64     `json:"hold_shut_N"`
	ByItself bool        `json:"opens_by_itself"`
	Curve    []curveJSON `json:"curve"`
	// Beyond the promise above, names may be added.
	Card      string `json:"card"`
	Complete  bool   `json:"complete"`
	Stable    bool   `json:"stable"`
	Plates    bool   `json:"between_plates"`
	Snaps     []int  `json:"snaps"`
	Crosses   []int  `json:"crosses"`
	OthersAll bool   `json:"others_searched"`
}

type restJSON struct {
	Depth  float64              `json:"depth_mm"`
	Width  float64              `json:"width_mm"`
	Height float64              `json:"height_mm"`
	Energy float64              `json:"energy_mJ"`
	Angles map[string][]float64 `json:"angles_deg"`
}

type curveJSON struct {
	Depth  float64 `json:"depth_mm"`
	Apart  float64 `json:"apart_mm"`
	Force  float64 `json:"force_N"`
	Energy float64 `json:"energy_mJ"`
}

func (s *sprung) json() springJSON {
	out := springJSON{Card: s.report.Card.Title, Rest: s.restJSON(s.rest), Others: []restJSON{}, HoldShut: s.push.HoldShut, ByItself: s.push.ByItself,
		Curve: []curveJSON{}, Complete: s.push.Complete, Stable: s.rest.Stable, Plates: s.push.Plates, Snaps: orNone(s.push.Snaps), Crosses: orNone(s.push.Crosses), OthersAll: s.all}
	for _, o := range s.others {
		out.Others = append(out.Others, s.restJSON(o))
	}
	for _, k := range s.push.Steps {
		out.Curve = append(out.Curve, curveJSON{k.Depth, k.Apart, k.Force, k.Energy})
	}
	return out
}

func orNone(list []int) []int {
	if list == nil {
		return []int{}
	}
	return list
}

// restJSON gives the fold angles of every copy in the order of its scores.
func (s *sprung) restJSON(r spring.Rest) restJSON {
	out := restJSON{Depth: r.Standing.Depth, Width: r.Standing.Width, Height: r.Standing.Height, Energy: r.Energy, Angles: map[string][]float64{}}
	a := s.report.Assembly
	for i, h := range a.Hinges {
		name := a.Copies[h.Copy].Name
		out.Angles[name] = append(out.Angles[name], r.Angles[i]*180/math.Pi)
	}
	return out
}
