package main

import (
	"bytes"
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"foldwright/forms"
	"foldwright/problem"
	"foldwright/proof"
	"foldwright/recipe"
	"foldwright/recipe/cutlist"
)

// readCmd turns a pasted cut list into a recipe.
type readCmd struct {
	List  string        `arg:"" help:"Text file with the cut list; - reads standard input."`
	Out   string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the recipe to this file; - writes it to standard output and nothing else."`
	JSON  bool          `name:"json" help:"Answer in JSON."`
	Limit time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run reads a cut list, proves the card that it makes, and writes the recipe only where it was told to.
func (c *readCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	text, err := e.read(c.List)
	if err != nil {
		return err
	}
	catalogue, err := catalogueForms()
	if err != nil {
		return err
	}
	result := cutlist.Read(ctx, nameOf(c.List), text, catalogue)
	var proven *proof.Report
	if !result.Problems.HasErrors() {
		proven = proof.Prove(ctx, "the recipe", []byte(result.Recipe))
	}
	if err := c.answer(e, result, proven); err != nil {
		return err
	}
	if result.Card != nil && c.Out != "" && c.Out != "-" {
		if err := writeFile(c.Out, []byte(result.Recipe)); err != nil {
			return err
		}
	}
	switch {
	case ctx.Err() != nil:
		return &exitError{code: exitStopped}
	case proven == nil:
		return &exitError{code: exitProblems}
	}
	if code := codeOf(proven); code != exitDone {
		return &exitError{code: code}
	}
	return nil
}

// catalogueForms reads the whole catalogue.
func catalogueForms() ([]cutlist.Form, error) {
	var out []cutlist.Form
	for _, name := range forms.Names() {
		text, err := forms.Text(name)
		if err != nil {
			return nil, err
		}
		r, problems := recipe.Parse(name, text)
		if r == nil {
			return nil, fmt.Errorf("the form %s cannot be read: %v", name, problems)
		}
		out = append(out, cutlist.Form{Name: name, Card: r.Card()})
	}
	return out, nil
}

func (c *readCmd) answer(e *env, result *cutlist.Result, proven *proof.Report) error {
	switch {
	case c.JSON:
		return writeJSON(e.stdout, jsonRead(result, proven))
	case c.Out == "-" && result.Card != nil:
		if _, err := e.stdout.Write([]byte(result.Recipe)); err != nil {
			return err
		}
		p := &page{w: e.stderr}
		if len(result.Lacks) > 0 {
			p.line("%s", unfinished(result, proven))
		}
		sayLacks(p, result)
		return p.err
	}
	p := &page{w: e.words(c.Out)}
	if len(result.Lacks) > 0 {
		p.line("%s", unfinished(result, proven))
		sayLacks(p, result)
		p.line("")
	}
	sayFound(p, result)
	if result.Card != nil {
		p.line("\n%s", result.Recipe)
	}
	if proven != nil && p.err == nil {
		p.err = printProof(p.w, result, proven)
		if !proven.Proven() {
			sayLikelySlips(p, result)
		}
	}
	if c.Out != "" && result.Card != nil {
		p.line("\nwritten to %s", c.Out)
	}
	return p.err
}

// sayFound says which card the list is like, what found no place in it, and what is wrong.
func sayFound(p *page, result *cutlist.Result) {
	if m := result.Matched; m != nil {
		p.line("Like %s in the catalogue, %.0f %% sure:", m.Form, 100*m.Sure)
		for _, why := range m.Why {
			p.line("    %s", why)
		}
	} else if result.Card != nil {
		p.line("Like no card of the catalogue.")
	}
	if len(result.Unplaced) > 0 {
		p.line("\nfound no place in the card:")
		for _, u := range result.Unplaced[:min(len(result.Unplaced), mostShown)] {
			p.line("    line %d: %s", u.Line, problem.Clip(u.Text, widestShown))
		}
		if n := len(result.Unplaced) - mostShown; n > 0 {
			p.line("    and %s", problem.Count(n, "more part"))
		}
	}
	sayProblems(p, result)
}

// mostShown is how many problems, or parts without a place, are printed, and widestShown how many characters of such a
// part: what a person reads. JSON holds all of them.
const (
	mostShown   = 20
	widestShown = 160
)

// sayProblems says what is wrong with a list; where that is too much, errors before warnings, and how much more there is.
func sayProblems(p *page, result *cutlist.Result) {
	if len(result.Problems) == 0 {
		return
	}
	p.line("")
	shown := result.Problems
	if len(shown) > mostShown {
		shown = slices.DeleteFunc(slices.Clone(shown), func(q problem.Problem) bool { return q.Rule == "more-problems" })
		slices.SortStableFunc(shown, func(a, b problem.Problem) int { return cmp.Compare(a.Severity, b.Severity) })
		shown = shown[:min(len(shown), mostShown)]
	}
	for _, q := range shown {
		p.line("%s", q.String())
	}
	if n := result.Found - len(shown); n > 0 {
		p.line("and %s", problem.Count(n, "more problem"))
	}
}

// unfinished is the headline of a list that does not give the whole card: whatever the proof says, it says it of a part.
func unfinished(result *cutlist.Result, proven *proof.Report) string {
	head := result.Card.Title + ": not finished. "
	if proven != nil && proven.Proven() {
		return head + "Only what was read is proven, and not all of it could be read."
	}
	return head + "Only a part was read: not all of it could be read, and that part is not proven."
}

// printProof writes the report of the recipe. Of a list that is not finished nobody is to read "proven" without the rest,
// so the verdict, which is the first line of a report, gives way to the headline.
func printProof(w io.Writer, result *cutlist.Result, proven *proof.Report) error {
	if len(result.Lacks) == 0 || !proven.Proven() {
		return proven.Print(w)
	}
	var report bytes.Buffer
	if err := proven.Print(&report); err != nil {
		return err
	}
	_, facts, _ := strings.Cut(report.String(), "\n")
	_, err := io.WriteString(w, unfinished(result, proven)+"\n"+facts)
	return err
}

// sayLacks says plainly which pieces, scores and joints the list does not give.
func sayLacks(p *page, result *cutlist.Result) {
	if len(result.Lacks) == 0 {
		return
	}
	p.line("missing:")
	for _, l := range result.Lacks {
		p.line("    %s", l)
	}
}

// sayLikelySlips repeats, last of all, which numbers of a list that is not proven are likely slips: the proof knows other
// cures too, and cannot tell which number was meant.
func sayLikelySlips(p *page, result *cutlist.Result) {
	for _, q := range result.Problems {
		if q.Rule == "width-pattern" {
			p.line("\nlikely slip in the list, line %d: %s", q.Where.Line, q.What)
			p.line("    should likely be: %s", q.Needs)
		}
	}
}

type readJSON struct {
	Recipe   string         `json:"recipe"`
	Matched  *matchedJSON   `json:"matched"`
	Unplaced []unplacedJSON `json:"unplaced"`
	// Beyond the promise above, names may be added.
	Proven bool `json:"proven"`
	// Finished says that nothing is missing: else Proven holds for a part only.
	Finished bool `json:"finished"`
	// Missing are the pieces, scores and joints that the list does not give.
	Missing  []string          `json:"missing"`
	Problems []readProblemJSON `json:"problems"`
}

type matchedJSON struct {
	Form string   `json:"form"`
	Sure float64  `json:"sure"`
	Why  []string `json:"why"`
}

type unplacedJSON struct {
	Text   string `json:"text"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
}

type readProblemJSON struct {
	Rule     string `json:"rule"`
	Severity string `json:"severity"`
	Line     int    `json:"line"`
	Column   int    `json:"column"`
	What     string `json:"what"`
	Needs    string `json:"needs"`
	Try      string `json:"try"`
	// Of says what line and column count in: the list, or the recipe that was made of it.
	Of string `json:"of"`
}

func jsonRead(result *cutlist.Result, proven *proof.Report) readJSON {
	out := readJSON{Recipe: result.Recipe, Unplaced: []unplacedJSON{}, Problems: []readProblemJSON{}, Missing: notNil(result.Lacks)}
	if m := result.Matched; m != nil {
		out.Matched = &matchedJSON{m.Form, m.Sure, notNil(m.Why)}
	}
	for _, u := range result.Unplaced {
		out.Unplaced = append(out.Unplaced, unplacedJSON{u.Text, u.Line, u.Column})
	}
	for _, p := range result.Problems {
		out.Problems = append(out.Problems, readProblemJSON{p.Rule, p.Severity.String(), p.Where.Line, p.Where.Column, p.What, p.Needs, p.Try, "list"})
	}
	if proven != nil {
		out.Proven = proven.Proven()
		out.Finished = len(result.Lacks) == 0
		for _, p := range proven.Problems {
			out.Problems = append(out.Problems, readProblemJSON{p.Rule, p.Severity.String(), p.Where.Line, p.Where.Column, p.What, p.Needs, p.Try, "recipe"})
		}
	}
	return out
}
