package main

import (
	"context"
	"fmt"
	"os"
	"time"

	"foldwright/length"
	"foldwright/spring"
)

// tuneCmd finds the leaf width or the press with which a card springs as one wishes.
type tuneCmd struct {
	Card  string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Depth string        `xor:"wish" required:"" placeholder:"LENGTH" help:"How deep it shall stand, such as 60mm."`
	Feel  string        `xor:"wish" required:"" placeholder:"WORD" help:"How it shall feel: limp, gentle, lively or too strong."`
	By    string        `enum:"leaves,press" default:"leaves" help:"What may be changed: the width of the leaves, on marks, or how hard the folds between them are pressed (${enum})."`
	Out   string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the tuned recipe to this file; - writes it to standard output and nothing else."`
	JSON  bool          `name:"json" help:"Answer in JSON."`
	Limit time.Duration `default:"60s" help:"Stop after this long, with the best so far (exit code 3)."`
}

// Run turns one knob until the card comes nearest to the wish.
func (c *tuneCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	wish, err := c.wish()
	if err != nil {
		return err
	}
	r, model, assumed, err := e.sprung(ctx, c.Card)
	if err != nil {
		return err
	}
	knob := spring.LeafWidth
	if c.By == "press" {
		knob = spring.MiddlePress
	}
	best, ok := model.Tune(ctx, wish, knob, assumed, c.progress(e))
	switch {
	case !ok && ctx.Err() != nil:
		return &exitError{code: exitStopped}
	case !ok || len(model.Springs()) == 0:
		return fail(exitProblems, "this card has no springs that can be tuned so: no piece but the outer one has folds both ways, or nothing rests")
	case c.Out != "" && !best.Met:
		return fail(exitProblems, "the wish is not met: the nearest of the settings rests %s deep and feels %s; nothing was written\n    try: wish for that, or leave --out away to see what it is", rough(best.DepthMM, r.Card), best.Feel)
	case c.Out != "":
		return e.writeChanged(c.Out, best.Card, c.Limit)
	case c.JSON:
		err = writeJSON(e.stdout, struct {
			spring.Cure
			Met      bool `json:"met"`
			Tried    int  `json:"tried"`
			Complete bool `json:"complete"`
		}{best.Cure, best.Met, best.Tried, best.Complete})
	default:
		p := &page{w: e.stdout}
		p.line("%s: %s", r.Card.Title, best.Change)
		for _, l := range best.Lines {
			p.line("    %s", l)
		}
		p.line("  then it rests %s deep, is held shut with %.2g N, and feels %s", rough(best.DepthMM, r.Card), best.HoldShutN, best.Feel)
		if !best.Met {
			p.line("  that is the nearest of the %d settings that were tried; the wish itself is not met", best.Tried)
		}
		p.line("Nothing was written. To have the tuned recipe: --out FILE")
		err = p.err
	}
	switch {
	case err != nil:
		return err
	case !best.Complete:
		return &exitError{code: exitStopped}
	case !best.Met:
		return &exitError{code: exitProblems}
	}
	return nil
}

func (c *tuneCmd) wish() (spring.Wish, error) {
	if c.Depth != "" {
		l, err := length.Parse(c.Depth, length.MM)
		if err != nil {
			return spring.Wish{}, fail(exitUsage, "%v", err)
		}
		if l <= 0 {
			return spring.Wish{}, fail(exitUsage, "a depth of %s is none; say one above 0", c.Depth)
		}
		return spring.Wish{DepthMM: l.MM()}, nil
	}
	for _, f := range []spring.Feel{spring.Limp, spring.Gentle, spring.Lively, spring.TooStrong} {
		if f.String() == c.Feel {
			return spring.Wish{Feel: f}, nil
		}
	}
	return spring.Wish{}, fail(exitUsage, "%q is no feel; say limp, gentle, lively or too strong", c.Feel)
}

// progress tells how far it is, where somebody watches.
func (c *tuneCmd) progress(e *env) func(done, of int) {
	f := e.terminal()
	if f == nil || c.JSON {
		return nil
	}
	return func(done, of int) { fmt.Fprintf(f, "\r%d of %d settings\x1b[K", done, of) }
}

// terminal returns standard error where somebody watches it, else nil.
func (e *env) terminal() *os.File {
	f, ok := e.stderr.(*os.File)
	if !ok {
		return nil
	}
	if info, err := f.Stat(); err != nil || info.Mode()&os.ModeCharDevice == 0 {
		return nil
	}
	return f
}
