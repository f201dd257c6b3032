package main

import (
	"bytes"
	"context"
	"time"

	"foldwright/proof"
)

// proveCmd proves cards.
type proveCmd struct {
	Cards []string      `arg:"" name:"card" help:"Recipe files; - reads standard input." predictor:"card"`
	JSON  bool          `name:"json" help:"Answer in JSON, one object for each card; lengths in millimetres."`
	Limit time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run proves every card and ends with the worst of their exit codes.
func (c *proveCmd) Run(e *env) error {
	code := exitDone
	for i, path := range c.Cards {
		text, err := e.read(path)
		if err != nil {
			return err
		}
		r := prove(e.ctx, path, text, c.Limit)
		out, err := c.render(r)
		if err != nil {
			return err
		}
		if i > 0 && !c.JSON {
			out = append([]byte("\n"), out...)
		}
		if _, err := e.stdout.Write(out); err != nil {
			return err
		}
		code = max(code, codeOf(r))
	}
	if code != exitDone {
		return &exitError{code: code}
	}
	return nil
}

func prove(ctx context.Context, path string, text []byte, limit time.Duration) *proof.Report {
	ctx, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	return proof.Prove(ctx, nameOf(path), text)
}

func (c *proveCmd) render(r *proof.Report) ([]byte, error) {
	if c.JSON {
		return r.JSON()
	}
	var b bytes.Buffer
	err := r.Print(&b)
	return b.Bytes(), err
}

// codeOf returns the exit code that a report asks for.
func codeOf(r *proof.Report) int {
	switch {
	case r.Proven():
		return exitDone
	case r.Stopped:
		return exitStopped
	}
	return exitProblems
}
