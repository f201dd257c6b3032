package main

import (
	"context"
	"fmt"
	"slices"
	"time"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/recipe"
	"foldwright/resize"
)

// mendCmd finds the fewest and smallest changes that make a card lie flat again.
type mendCmd struct {
	Card  string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	Way   int           `default:"1" help:"Which of the ways to take, counted from 1."`
	Write bool          `short:"w" help:"Write the mended recipe back to the file."`
	Out   string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the mended recipe to this file; - for standard output and nothing else."`
	JSON  bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
	Limit time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// way is one set of changes after which the card lies flat.
type way struct {
	cures  []flat.Cure
	card   *card.Card
	recipe *recipe.Recipe
	report *proof.Report
}

// Run lists the ways to mend a card, and writes one of them only where it was told to.
func (c *mendCmd) Run(e *env) error {
	if c.Write && c.Card == "-" {
		return fail(exitUsage, "standard input cannot be written back\n    try: foldwright mend - --out FILE")
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	text, err := e.read(c.Card)
	if err != nil {
		return err
	}
	r := proof.Prove(ctx, nameOf(c.Card), text)
	if r.Assembly == nil {
		if err := r.Print(e.stderr); err != nil {
			return err
		}
		return fail(exitProblems, "what cannot be folded cannot be mended; put these right first")
	}
	ways := waysToMend(ctx, r)
	if len(ways) > 0 && (c.Way < 1 || c.Way > len(ways)) {
		return fail(exitUsage, "there is no way %d; there are %d", c.Way, len(ways))
	}
	if ctx.Err() != nil && c.Out != "-" {
		c.Write, c.Out = false, "" // the ways may not be all: nothing is written
	}
	if target := c.target(); len(ways) > 0 && target != "" && target != "-" {
		if err := writeFile(target, ways[c.Way-1].recipe.Format()); err != nil {
			return err
		}
	}
	if err := c.answer(e, r, ways); err != nil {
		return err
	}
	switch {
	case ctx.Err() != nil:
		return &exitError{code: exitStopped}
	case len(ways) == 0:
		if code := codeOf(r); code != exitDone {
			return &exitError{code: code}
		}
		return nil
	}
	if code := codeOf(ways[c.Way-1].report); code != exitDone {
		return &exitError{code: code}
	}
	return nil
}

// target is the file that the mended recipe is written to; "" for none.
func (c *mendCmd) target() string {
	if c.Write {
		return c.Card
	}
	return c.Out
}

// waysToMend lists the ways to mend a card: single changes, or pairs where no single one serves; for a card that does lie
// flat, the slips that it seems to have. Those after which the card is proven come first.
func waysToMend(ctx context.Context, r *proof.Report) []way {
	var sets [][]flat.Cure
	switch {
	case r.Closed.LiesFlat():
		for _, c := range r.Shrinks {
			sets = append(sets, []flat.Cure{c})
		}
		for _, s := range r.Slips {
			sets = append(sets, []flat.Cure{s.Cure})
		}
	case r.Miss != nil && len(r.Miss.Cures) > 0:
		for _, c := range r.Miss.Cures {
			sets = append(sets, []flat.Cure{c})
		}
	default:
		for _, p := range flat.Pairs(ctx, r.Assembly) {
			sets = append(sets, []flat.Cure{p[0], p[1]})
		}
	}
	var ways []way
	for _, set := range sets {
		changed := r.Card
		for _, c := range set {
			changed = c.Apply(changed)
		}
		text := resize.Write(r.Recipe, r.Card, changed)
		if text == nil {
			continue
		}
		ways = append(ways, way{set, changed, text, proof.Prove(ctx, r.File, text.Format())})
	}
	slices.SortStableFunc(ways, func(a, b way) int {
		switch x, y := a.report.Proven(), b.report.Proven(); {
		case x == y:
			return 0
		case x:
			return -1
		}
		return 1
	})
	return ways
}

func (c *mendCmd) answer(e *env, r *proof.Report, ways []way) error {
	switch {
	case c.JSON:
		return writeJSON(e.stdout, c.json(r, ways))
	case c.Out == "-" && len(ways) > 0:
		_, err := e.stdout.Write(ways[c.Way-1].recipe.Format())
		return err
	}
	p := &page{w: e.words(c.Out)}
	p.line("%s", r.Verdict())
	switch {
	case len(ways) == 0 && r.Closed.LiesFlat() && r.Proven():
		p.line("There is nothing to mend.")
		return p.err
	case len(ways) == 0 && r.Closed.LiesFlat():
		p.line("It lies flat, and that is all that is mended here. What is wrong with it:")
		for _, q := range r.Problems {
			p.line("%s", q.String())
		}
		return p.err
	case len(ways) == 0:
		p.line("No change of one or two measurements on the marks of its ruler makes it lie flat.")
		for _, q := range r.Problems {
			p.line("%s", q.String())
		}
		return p.err
	case len(r.Shrinks) > 0:
		p.line("It lies flat, but is larger than it may be. With one of these changes it fits; each was tried.")
	case r.Closed.LiesFlat():
		p.line("It lies flat, but a measurement looks mistaken: with one of these changes more of its scores fold shut.")
	default:
		p.line("Any one of these makes it lie flat; each was tried.")
	}
	for i, w := range ways {
		p.line("")
		for k, cure := range w.cures {
			head := "    "
			if k == 0 {
				head = fmt.Sprintf("%3d ", i+1)
			}
			p.line("%s%s", head, r.Say(cure))
		}
		if w.report.Proven() {
			p.line("    it is then proven")
		} else {
			p.line("    it then lies flat, but is not proven: %s", whyNot(w.report))
		}
	}
	p.line("")
	proven := ways[c.Way-1].report.Proven()
	switch target := c.target(); {
	case target == "":
		p.line("Nothing was written. To take way %d: foldwright mend %s --way %d --write", c.Way, c.Card, c.Way)
	case proven:
		p.line("way %d written to %s", c.Way, target)
	default:
		p.line("way %d written to %s, though it is not proven", c.Way, target)
	}
	return p.err
}

// whyNot says in a few words why a card is not proven.
func whyNot(r *proof.Report) string {
	for _, p := range r.Problems {
		if p.Severity == problem.Error {
			return p.What
		}
	}
	return r.Verdict()
}

type mendJSON struct {
	Status string        `json:"status"`
	Ways   []mendWayJSON `json:"ways"`
	Recipe string        `json:"recipe"`
}

type mendWayJSON struct {
	Changes []mendChangeJSON `json:"changes"`
	Proven  bool             `json:"proven"`
}

type mendChangeJSON struct {
	What   string  `json:"what"`
	Kind   string  `json:"kind"`
	Piece  string  `json:"piece"`
	Score  int     `json:"score"`
	FromMM float64 `json:"from_mm"`
	ToMM   float64 `json:"to_mm"`
}

func (c *mendCmd) json(r *proof.Report, ways []way) mendJSON {
	out := mendJSON{Status: "mended", Ways: []mendWayJSON{}}
	switch {
	case len(ways) == 0 && r.Closed.LiesFlat():
		out.Status = "nothing to mend"
	case len(ways) == 0:
		out.Status = "no way found"
	case len(r.Shrinks) > 0:
		out.Status = "too large"
	case r.Closed.LiesFlat():
		out.Status = "likely slips"
	}
	for _, w := range ways {
		j := mendWayJSON{Proven: w.report.Proven(), Changes: []mendChangeJSON{}}
		for _, cure := range w.cures {
			j.Changes = append(j.Changes, mendChangeJSON{r.Say(cure), cure.Kind.String(), r.PieceOf(cure), cure.Score, cure.From.MM(), cure.To.MM()})
		}
		out.Ways = append(out.Ways, j)
	}
	if len(ways) > 0 {
		out.Recipe = string(ways[c.Way-1].recipe.Format())
	}
	return out
}
