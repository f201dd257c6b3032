package main

import (
	"bytes"
	"fmt"

	"foldwright/problem"
	"foldwright/recipe"
)

// formatCmd writes recipes in their one form.
type formatCmd struct {
	Cards []string `arg:"" name:"card" help:"Recipe files; - reads standard input." predictor:"card"`
	Write bool     `short:"w" help:"Write the result back to the files instead of standard output."`
	Check bool     `help:"Write nothing; name the files that are not in their form and end with exit code 1."`
}

// Run formats every card. Nothing is written unless all of them can be read.
func (c *formatCmd) Run(e *env) error {
	type result struct {
		path     string
		old, new []byte
	}
	var results []result
	refused := false
	for _, path := range c.Cards {
		if path == "-" && c.Write {
			return fail(exitUsage, "standard input cannot be written back\n    try: foldwright format - without --write")
		}
		text, err := e.read(path)
		if err != nil {
			return err
		}
		r, problems := recipe.Read(nameOf(path), text)
		if r == nil {
			e.complain(problems)
			refused = true
			continue
		}
		results = append(results, result{path, text, r.Format()})
	}
	if refused {
		return &exitError{code: exitProblems}
	}
	unlike := false
	for _, r := range results {
		same := bytes.Equal(r.old, r.new)
		switch {
		case c.Check:
			if !same {
				unlike = true
				fmt.Fprintln(e.stdout, r.path)
			}
		case c.Write:
			if same {
				continue
			}
			if err := writeFile(r.path, r.new); err != nil {
				return err
			}
		default:
			if _, err := e.stdout.Write(r.new); err != nil {
				return err
			}
		}
	}
	if unlike {
		return &exitError{code: exitProblems}
	}
	return nil
}

// complain prints problems to standard error.
func (e *env) complain(problems problem.List) {
	for _, p := range problems {
		fmt.Fprintln(e.stderr, p.String())
	}
}
