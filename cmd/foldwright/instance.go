package main

import (
	"context"
	"encoding/json"
	"slices"
	"strings"
	"time"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/trim"
)

// instanceFlags plan a published cutting problem, to compare the planner with what is known of it.
type instanceFlags struct {
	File, Name string
	Turn       bool
	Limit      time.Duration
	JSON       bool
}

// run plans the problem and prints the plan; exit code 3 where the time was over before the search was.
func (c *instanceFlags) run(e *env) error {
	in, err := c.read(e)
	if err != nil {
		return err
	}
	for i := range in.Job.Parts {
		in.Job.Parts[i].Turn = in.Job.Parts[i].Turn || c.Turn
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	start := time.Now()
	r, problems, err := planInstance(ctx, in)
	took := time.Since(start)
	if err != nil {
		return err
	}
	a, faults := trim.Audit(in.Job, r.Plan)
	if !problems.HasErrors() {
		problems = append(problems, faults...)
	}
	if problems.HasErrors() {
		code := exitProblems
		if ctx.Err() != nil {
			code = exitStopped
		}
		return refuse(e, problems, code)
	}
	if c.JSON {
		err = json.NewEncoder(e.stdout).Encode(instanceJSONOf(in, r, took))
	} else {
		err = sayInstance(&page{w: e.stdout}, in, r, a, took)
	}
	if err == nil && r.Status == trim.Stopped {
		return &exitError{code: exitStopped}
	}
	return err
}

func planInstance(ctx context.Context, in trim.Instance) (trim.Result, problem.List, error) {
	if !in.Knapsack() {
		r, problems := trim.Cheapest(ctx, in.Job, nil)
		return r, problems, nil
	}
	if len(in.Job.Sheets) > 1 {
		return trim.Result{}, nil, fail(exitUsage, "%s wants the most value out of one sheet, but names %d", in.Name, len(in.Job.Sheets))
	}
	r, problems := trim.MostValue(ctx, in.Job.Sheets[0], in.Job.Parts)
	return r, problems, nil
}

// read returns the instance that is meant.
func (c *instanceFlags) read(e *env) (trim.Instance, error) {
	text, err := e.read(c.File)
	if err != nil {
		return trim.Instance{}, err
	}
	all, problems := trim.ReadInstances(nameOf(c.File), text)
	if problems.HasErrors() {
		return trim.Instance{}, refuse(e, problems, exitProblems)
	}
	var names []string
	for _, in := range all {
		if in.Name == c.Name || c.Name == "" && len(all) == 1 {
			return in, nil
		}
		names = append(names, in.Name)
	}
	if c.Name == "" {
		return trim.Instance{}, fail(exitUsage, "%s holds %d instances; say which with --name: %s", nameOf(c.File), len(all), someOf(names))
	}
	if near, ok := problem.Suggest(c.Name, names); ok {
		return trim.Instance{}, fail(exitUsage, "there is no instance %s; did you mean %q?", problem.Quote(c.Name), near)
	}
	return trim.Instance{}, fail(exitUsage, "there is no instance %s; there are %s", problem.Quote(c.Name), someOf(names))
}

// someOf lists the first few names.
func someOf(names []string) string {
	const few = 8
	if len(names) > few {
		names = append(slices.Clone(names[:few]), "…")
	}
	return strings.Join(names, ", ")
}

// refuse prints problems on standard error and ends the command with the code.
func refuse(e *env, problems problem.List, code int) error {
	p := &page{w: e.stderr}
	for _, q := range problems.Sorted() {
		p.line("%s", q.String())
	}
	if p.err != nil {
		return p.err
	}
	return &exitError{code: code}
}

func sayInstance(p *page, in trim.Instance, r trim.Result, a trim.Account, took time.Duration) error {
	sought, limit := "costs", "none can cost less than"
	if in.Knapsack() {
		sought, limit = "is worth", "none can be worth more than"
	}
	p.line("%s: the plan %s %d; %s %d (%s, %.2f s)", in.Name, sought, r.Value, limit, r.Bound, r.Status, took.Seconds())
	p.line("  %s out of %s, %s at %s of the fence", problem.Count(sum(a.Made), "part"), problem.Count(sum(a.Sheets), "sheet"),
		problem.Count(a.Cuts, "cut"), problem.Count(a.Fences, "setting"))
	for _, l := range r.Plan.Layouts {
		s := in.Job.Sheets[l.Sheet]
		p.line("  %d x sheet %d, %d by %d", l.Times, l.Sheet+1, s.W/trim.InstanceUnit, s.H/trim.InstanceUnit)
		sayCuts(p, l.Root, "    ")
	}
	return p.err
}

func sum(counts []int) (n int) {
	for _, c := range counts {
		n += c
	}
	return n
}

// sayCuts prints a tree of cuts, what comes of a cut further in than the cut.
func sayCuts(p *page, c *trim.Cut, indent string) {
	switch {
	case c == nil || c.Kind == trim.Rest:
		p.line("%swaste", indent)
	case c.Kind == trim.IsPart && c.Turned:
		p.line("%spart %d, turned", indent, c.Part+1)
	case c.Kind == trim.IsPart:
		p.line("%spart %d", indent, c.Part+1)
	default:
		way := "upright, from the left"
		if c.Kind == trim.AtY {
			way = "level, from below"
		}
		p.line("%scut at %d, %s", indent, units(c.At), way)
		sayCuts(p, c.First, indent+"  ")
		sayCuts(p, c.Second, indent+"  ")
	}
}

// instanceJSON is the answer as JSON; its names are a promise.
type instanceJSON struct {
	Instance string   `json:"instance"`
	Problem  string   `json:"problem"`
	Value    int64    `json:"value"`
	Bound    int64    `json:"bound"`
	Status   string   `json:"status"`
	Seconds  float64  `json:"seconds"`
	Plan     [][3]any `json:"plan"`
}

func instanceJSONOf(in trim.Instance, r trim.Result, took time.Duration) instanceJSON {
	out := instanceJSON{in.Name, "stock", r.Value, r.Bound, r.Status.String(), took.Seconds(), [][3]any{}}
	if in.Knapsack() {
		out.Problem = "knapsack"
	}
	for _, l := range r.Plan.Layouts {
		out.Plan = append(out.Plan, [3]any{l.Sheet, l.Times, treeJSON(l.Root, units)})
	}
	return out
}

// units is a length in the whole numbers of an instance.
func units(l length.Length) int64 { return int64(l / trim.InstanceUnit) }

// treeJSON is a tree of cuts: ["x", p, left, right], ["y", q, lower, upper], ["part", number from 0, 1 if turned] or
// ["waste"].
func treeJSON[T any](c *trim.Cut, at func(length.Length) T) []any {
	switch {
	case c == nil || c.Kind == trim.Rest:
		return []any{"waste"}
	case c.Kind == trim.IsPart:
		turned := 0
		if c.Turned {
			turned = 1
		}
		return []any{"part", c.Part, turned}
	case c.Kind == trim.AtX:
		return []any{"x", at(c.At), treeJSON(c.First, at), treeJSON(c.Second, at)}
	}
	return []any{"y", at(c.At), treeJSON(c.First, at), treeJSON(c.Second, at)}
}
