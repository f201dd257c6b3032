package main

import (
	"context"
	"time"

	"foldwright/care"
	"foldwright/length"
)

// careCmd says what the errors of a hand do to a card.
type careCmd struct {
	Card  string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Cut   string        `placeholder:"ERROR" help:"How far a cut of yours is off, one standard deviation, such as 0.5mm. Unsaid: 0.5mm, assumed."`
	Score string        `placeholder:"ERROR" help:"The same for a score. Unsaid: 0.3mm, assumed."`
	Seed  uint64        `default:"1" help:"Chooses the sample from which chances are counted."`
	JSON  bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
	Limit time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run studies one card.
func (c *careCmd) Run(e *env) error {
	hand := care.Usual()
	for _, s := range []struct {
		said string
		into *length.Length
	}{{c.Cut, &hand.Cut}, {c.Score, &hand.Score}} {
		if s.said == "" {
			continue
		}
		l, err := length.Parse(s.said, length.MM)
		if err != nil {
			return fail(exitUsage, "%v", err)
		}
		*s.into = l
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, err := e.proven(c.Card, c.Limit)
	if err != nil {
		return err
	}
	study, err := care.New(ctx, r.Closed, hand, c.Seed)
	switch {
	case ctx.Err() != nil:
		return &exitError{code: exitStopped}
	case err != nil:
		return fail(exitUsage, "%v", err)
	}
	r.Hand = study
	if c.JSON {
		return e.print(r.HandJSON())
	}
	p := &page{w: e.stdout}
	p.line("%s, made by hand", r.Card.Title)
	for _, words := range r.HandWords() {
		p.line("  %s", words)
	}
	p.line("")
	p.line("  %-56s %10s %10s", "glue joint: one standard deviation of its gap", "across", "up")
	for _, g := range study.Gaps {
		p.line("  %-56s %7.2f mm %7.2f mm", g.Name, g.DX, g.DY)
	}
	p.line("")
	p.line("  %-56s %10s", "line", "share")
	for _, l := range study.Shares[:min(12, len(study.Shares))] {
		p.line("  %-56s %8.0f %%", l.Name(r.Card), 100*l.Share)
	}
	for _, l := range study.Unjudged {
		p.line("  not judged: %s", l.Name(r.Card))
	}
	return p.err
}
