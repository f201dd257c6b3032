package main

import (
	"fmt"
	"math"
	"strings"
	"time"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/stance"
)

// standCmd says whether the open card stands.
type standCmd struct {
	Card   string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	On     string        `placeholder:"PANEL" help:"The panel to whose middle an ornament is fixed, such as wall.front. Unsaid: that of the first topper, else the front."`
	Weight float64       `placeholder:"GRAMS" help:"The weight of that ornament, beside the toppers of the recipe."`
	JSON   bool          `name:"json" help:"Answer in JSON; lengths in millimetres, weights in grams."`
	Limit  time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// heaviest is the weight of an ornament in grams beyond which somebody slipped.
const heaviest = 5000

// Run says how the card stands, and what ornament tips it.
func (c *standCmd) Run(e *env) error {
	if !(c.Weight >= 0 && c.Weight <= heaviest) {
		return fail(exitUsage, "an ornament of %g g is not one of a card; say a weight from 0 to %d", c.Weight, heaviest)
	}
	r, err := e.proven(c.Card, c.Limit)
	if err != nil {
		return err
	}
	panel, err := c.panel(r)
	if err != nil {
		return err
	}
	if c.Weight > 0 {
		r.StandsAt, r.Stance = stance.Standing(r.Closed, r.Opening, stance.Weight{Grams: c.Weight, Panel: panel})
	}
	pose := r.StandsAt
	if pose < 0 {
		pose = len(r.Opening.Poses) - 1
	}
	on := r.Assembly.Panels[panel].Ref
	grams, tips := r.Stance.Tipping(stance.Middle(r.Closed, r.Opening.Poses[pose], panel))
	if !tips {
		grams = math.Inf(1)
	}
	if c.JSON {
		return e.print(r.StandJSON(on, grams))
	}
	return c.say(&page{w: e.stdout}, r, on, grams)
}

// proven proves a card and refuses one that is not, with what is wrong printed.
func (e *env) proven(path string, limit time.Duration) (*proof.Report, error) {
	text, err := e.read(path)
	if err != nil {
		return nil, err
	}
	r := prove(e.ctx, path, text, limit)
	if !r.Proven() {
		if err := r.Print(e.stderr); err != nil {
			return nil, err
		}
		return nil, &exitError{code: codeOf(r)}
	}
	return r, nil
}

// print writes a text that was encoded, or hands on that it could not be.
func (e *env) print(text []byte, err error) error {
	if err == nil {
		_, err = e.stdout.Write(text)
	}
	return err
}

// panel finds the panel that carries the ornament.
func (c *standCmd) panel(r *proof.Report) (int, error) {
	on := c.On
	switch toppers := r.Card.Toppers; {
	case on == "" && len(toppers) > 0:
		on = toppers[0].On.String()
	case on == "":
		return r.Assembly.Front(), nil
	}
	var refs []string
	for i, p := range r.Assembly.Panels {
		if p.Ref == on {
			return i, nil
		}
		refs = append(refs, p.Ref)
	}
	if near, ok := problem.Suggest(on, refs); ok {
		return 0, fail(exitUsage, "there is no panel %q in this card; did you mean %q?", on, near)
	}
	return 0, fail(exitUsage, "there is no panel %q in this card; it has %s", on, strings.Join(refs, ", "))
}

func (c *standCmd) say(p *page, r *proof.Report, on string, tipping float64) error {
	s := r.Stance
	with := ""
	if c.Weight > 0 {
		with = fmt.Sprintf(", with an ornament of %g g on %s", c.Weight, on)
	}
	p.line("%s stands %s.", r.Card.Title, r.StandWords())
	p.line("  %-9s %.1f g, mats and toppers counted%s", "weighs", s.Grams, with)
	if !s.Stands() {
		return p.err
	}
	wide, deep := s.Span()
	p.line("  %-9s %s wide, %s deep", "feet", rough(wide, r.Card), rough(deep, r.Card))
	for side, tip := range s.Tips {
		name := ""
		if side == 0 {
			name = "tips"
		}
		p.line("  %-9s %s when the table is tilted by %.0f degrees", name, stance.Side(side), tip*180/math.Pi)
	}
	if r.StandsAt < 0 {
		return p.err // it tips as it is
	}
	if math.IsInf(tipping, 1) {
		p.line("  %-9s none in the middle of %s tips it: that is over its feet", "ornament", on)
	} else {
		p.line("  %-9s %.0f g more in the middle of %s tip it", "ornament", tipping, on)
	}
	return p.err
}

// rough prints some millimetres, in the card's unit first.
func rough(mm float64, c *card.Card) string {
	l, _ := length.FromMM(mm).Snap(length.Millimetre)
	return l.Both(c.Unit)
}
