package main

import (
	"context"
	"time"

	"foldwright/card"
	"foldwright/length"
	"foldwright/proof"
	"foldwright/wrap"
)

// wrapCmd makes the envelope for a card.
type wrapCmd struct {
	Card    string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Kind    string        `enum:"envelope,box" default:"envelope" help:"What to fold round it: ${enum}; a box for a card that is thick."`
	Stock   string        `placeholder:"NAME" help:"Which stock of the recipe it is made of. Unsaid: the first."`
	Padding string        `placeholder:"LENGTH" help:"What lies round the card on every side, such as 3mm of bubble sheet."`
	Room    string        `placeholder:"LENGTH" help:"How much larger the inside is than the card, in all. Unsaid: 1/4 in or 6 mm."`
	Out     string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write its recipe to this file; - writes it to standard output and nothing else."`
	JSON    bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
	Limit   time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run makes an envelope or a box, proves it, and writes its recipe where it was told to.
func (c *wrapCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	r, err := e.flat(ctx, c.Card)
	if err != nil {
		return err
	}
	of, err := c.stock(r.Card)
	if err != nil {
		return err
	}
	kind := wrap.Plain
	if c.Kind == "box" {
		kind = wrap.Box
	}
	job := wrap.For(kind, r.Closed, of)
	for _, s := range []struct {
		said string
		into *length.Length
	}{{c.Padding, &job.Padding}, {c.Room, &job.Room}} {
		if s.said == "" {
			continue
		}
		if *s.into, err = length.Parse(s.said, job.Unit); err != nil {
			return fail(exitUsage, "%v", err)
		}
	}
	made, problems := wrap.Make(job)
	if made == nil || problems.HasErrors() {
		return refuse(e, problems, exitProblems)
	}
	text := made.Recipe().Format()
	proven := proof.Prove(ctx, c.Kind+".card", text)
	if c.Out != "" && c.Out != "-" && proven.Proven() {
		if err := writeFile(c.Out, text); err != nil {
			return err
		}
	}
	if err := c.say(e, job, made, proven, text); err != nil {
		return err
	}
	if code := codeOf(proven); code != exitDone {
		return &exitError{code: code}
	}
	return nil
}

// flat reads a card that must lie flat, and refuses any other with what is wrong printed.
func (e *env) flat(ctx context.Context, path string) (*proof.Report, error) {
	text, err := e.read(path)
	if err != nil {
		return nil, err
	}
	r := proof.ProveFlat(ctx, nameOf(path), text)
	if r.Closed == nil || !r.Closed.LiesFlat() {
		if err := r.Print(e.stderr); err != nil {
			return nil, err
		}
		return nil, &exitError{code: max(codeOf(r), exitProblems)}
	}
	return r, nil
}

// stock finds the stock that the envelope is made of.
func (c *wrapCmd) stock(of *card.Card) (card.Stock, error) {
	if len(of.Stocks) == 0 {
		return card.Stock{}, fail(exitUsage, "the recipe has no stock to make it of")
	}
	if c.Stock == "" {
		return of.Stocks[0], nil
	}
	if s := of.StockNamed(c.Stock); s != nil {
		return *s, nil
	}
	return card.Stock{}, fail(exitUsage, "there is no stock %q in this recipe", c.Stock)
}

type wrapJSON struct {
	Kind           string  `json:"kind"`
	Proven         bool    `json:"proven"`
	InsideWidthMM  float64 `json:"inside_width_mm"`
	InsideHeightMM float64 `json:"inside_height_mm"`
	WallMM         float64 `json:"wall_mm"`
	BlankWidthMM   float64 `json:"blank_width_mm"`
	BlankHeightMM  float64 `json:"blank_height_mm"`
	Recipe         string  `json:"recipe"`
}

func (c *wrapCmd) say(e *env, job wrap.Job, w *wrap.Wrap, proven *proof.Report, text []byte) error {
	if c.Out == "-" {
		_, err := e.stdout.Write(text)
		return err
	}
	if c.JSON {
		return writeJSON(e.stdout, wrapJSON{c.Kind, proven.Proven(), w.Inside.W.MM(), w.Inside.H.MM(), w.Wall.MM(), w.Blank.W.MM(), w.Blank.H.MM(), string(text)})
	}
	p := &page{w: e.stdout}
	p.line("%s", proven.Verdict())
	p.line("  %-9s %s wide, %s high, %s thick, decoration counted", "card", job.Size.W.Both(job.Unit), job.Size.H.Both(job.Unit), job.Thick.Human(length.MM))
	p.line("  %-9s %s wide, %s high", "inside", w.Inside.W.Both(job.Unit), w.Inside.H.Both(job.Unit))
	if w.Wall > 0 {
		p.line("  %-9s %s deep", "walls", w.Wall.Both(job.Unit))
	}
	p.line("  %-9s one sheet of %s, %s by %s", "cut from", job.Stock.Name, w.Blank.W.Both(job.Unit), w.Blank.H.Both(job.Unit))
	p.line("")
	if c.Out != "" {
		p.line("written to %s", c.Out)
		return p.err
	}
	p.line("Nothing was written. To have its recipe: --out FILE; then foldwright draw FILE makes the template.")
	return p.err
}
