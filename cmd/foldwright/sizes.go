package main

import (
	"context"
	"encoding/csv"
	"fmt"
	"io"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"foldwright/flat"
	"foldwright/length"
	"foldwright/plane"
	"foldwright/proof"
	"foldwright/resize"
)

// sizesCmd brings one card to many sizes.
type sizesCmd struct {
	Card  string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	To    []string      `default:"C6,DL,A7,6x6in,150x150mm" help:"Sizes and envelopes, with commas between them."`
	Marks []string      `placeholder:"PITCH" help:"Rulers, with commas between them; each size is solved on each. Unsaid: that of the card."`
	CSV   bool          `name:"csv" xor:"form" help:"Answer as CSV, one row for each size and ruler; lengths in millimetres."`
	JSON  bool          `name:"json" xor:"form" help:"Answer in JSON; lengths in millimetres."`
	Limit time.Duration `default:"60s" help:"Stop after this long and say so (exit code 3)."`
}

// sized is the outcome for one size on one ruler.
type sized struct {
	to      string
	request resize.Request
	result  *resize.Result
	proven  bool
	why     string // not proven
}

// Run solves every size on every ruler and prints one table.
func (c *sizesCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	old, table, err := e.toResize(ctx, c.Card)
	if err != nil {
		return err
	}
	rulers := c.Marks
	if len(rulers) == 0 {
		rulers = []string{""}
	}
	var rows []sized
	for _, to := range c.To {
		for _, marks := range rulers {
			q, _, err := requestFor(old, table, to, marks)
			if err != nil {
				return fail(exitUsage, "%v", err)
			}
			rows = append(rows, sized{to: to, request: q})
		}
	}
	solveAll(ctx, old, rows)
	switch {
	case c.JSON:
		err = writeJSON(e.stdout, sizesJSON(rows))
	case c.CSV:
		err = sizesCSV(e.stdout, rows)
	default:
		err = sizesText(e.stdout, old, rows)
	}
	switch {
	case err != nil:
		return err
	case ctx.Err() != nil:
		return &exitError{code: exitStopped}
	case slices.ContainsFunc(rows, func(r sized) bool { return !r.proven }):
		return &exitError{code: exitProblems}
	}
	return nil
}

// solveAll solves every row, as many at a time as there are processors.
func solveAll(ctx context.Context, old *proof.Report, rows []sized) {
	var workers sync.WaitGroup
	next := make(chan *sized)
	for range runtime.GOMAXPROCS(0) {
		workers.Go(func() {
			for r := range next {
				r.solve(ctx, old)
			}
		})
	}
	for i := range rows {
		next <- &rows[i]
	}
	close(next)
	workers.Wait()
}

// solve brings the card to one size and proves it.
func (r *sized) solve(ctx context.Context, old *proof.Report) {
	result, report, err := resizeProven(ctx, old, r.request)
	if err != nil {
		r.why = err.Error()
		return
	}
	r.result = result
	switch {
	case result.Status == flat.Contradictory:
		r.why = strings.Join(result.Conflict, "; ")
	case report == nil:
		r.why = "stopped early"
	case report.Proven():
		r.proven = true
	default:
		r.why = whyNot(report)
	}
}

// measureNames lists the names of all measures, in the order of the first row that has them.
func measureNames(rows []sized) []string {
	var names []string
	for _, r := range rows {
		if r.result == nil {
			continue
		}
		for _, c := range r.result.Changes {
			if !slices.Contains(names, c.Name) {
				names = append(names, c.Name)
			}
		}
	}
	return names
}

// measured returns a measure of a row; ok is false where the row has none.
func (r sized) measured(name string) (length.Length, bool) {
	if r.result == nil {
		return 0, false
	}
	i := slices.IndexFunc(r.result.Changes, func(c resize.Change) bool { return c.Name == name })
	if i < 0 {
		return 0, false
	}
	return r.result.Changes[i].To, true
}

// columns is how many sizes stand beside each other, so that the table fits a screen and a sheet of paper.
const columns = 5

func sizesText(w io.Writer, old *proof.Report, rows []sized) error {
	p := &page{w: w}
	p.line("%s in %d sizes", old.Card.Title, len(rows))
	for block := range slices.Chunk(rows, columns) {
		p.line("")
		sizesBlock(p, block)
	}
	for _, r := range rows {
		if r.why != "" {
			p.line("\n%s on %s: %s", r.to, r.request.Marks.Human(r.request.MarksUnit), r.why)
		}
	}
	return p.err
}

// sizesBlock prints some sizes beside each other.
func sizesBlock(p *page, rows []sized) {
	names := measureNames(rows)
	wide := 14
	for _, n := range names {
		wide = max(wide, len([]rune(n)))
	}
	line := func(head string, text func(sized) string) {
		var b strings.Builder
		fmt.Fprintf(&b, "  %-*s", wide, head)
		for _, r := range rows {
			fmt.Fprintf(&b, "  %14s", text(r))
		}
		p.line("%s", b.String())
	}
	line("for", func(r sized) string { return r.to })
	line("ruler", func(r sized) string { return r.request.Marks.Human(r.request.MarksUnit) })
	line("proven", func(r sized) string {
		if r.proven {
			return "yes"
		}
		return "no"
	})
	cell := func(f func(sized) (length.Length, bool)) func(sized) string {
		return func(r sized) string {
			l, ok := f(r)
			if !ok {
				return "-"
			}
			return l.Human(r.request.Unit)
		}
	}
	closed := func(side func(plane.Box) length.Length) func(sized) string {
		return cell(func(r sized) (length.Length, bool) {
			if r.result == nil || r.result.Closed == nil {
				return 0, false
			}
			return side(r.result.Closed.Box), true
		})
	}
	line("closed width", closed(plane.Box.W))
	line("closed height", closed(plane.Box.H))
	for _, n := range names {
		line(n, cell(func(r sized) (length.Length, bool) { return r.measured(n) }))
	}
}

func sizesCSV(w io.Writer, rows []sized) error {
	out := csv.NewWriter(w)
	names := measureNames(rows)
	if err := out.Write(append([]string{"to", "width_mm", "height_mm", "marks_mm", "proven", "why", "cost_marks2", "closed_width_mm", "closed_height_mm"}, names...)); err != nil {
		return err
	}
	number := func(l length.Length) string { return strconv.FormatFloat(l.MM(), 'f', -1, 64) }
	for _, r := range rows {
		line := []string{r.to, number(r.request.To.W), number(r.request.To.H), number(r.request.Marks), strconv.FormatBool(r.proven), r.why, "", "", ""}
		if r.result != nil && r.result.Closed != nil {
			line[6] = strconv.FormatFloat(r.result.CostMarks2, 'g', -1, 64)
			line[7], line[8] = number(r.result.Closed.Box.W()), number(r.result.Closed.Box.H())
		}
		for _, n := range names {
			l, ok := r.measured(n)
			if !ok {
				line = append(line, "")
				continue
			}
			line = append(line, number(l))
		}
		if err := out.Write(line); err != nil {
			return err
		}
	}
	out.Flush()
	return out.Error()
}

type sizeJSON struct {
	To       string             `json:"to"`
	WidthMM  float64            `json:"width_mm"`
	HeightMM float64            `json:"height_mm"`
	MarksMM  float64            `json:"marks_mm"`
	Status   string             `json:"status"`
	Proven   bool               `json:"proven"`
	Why      string             `json:"why"`
	Cost     float64            `json:"cost_marks2"`
	ClosedW  float64            `json:"closed_width_mm"`
	ClosedH  float64            `json:"closed_height_mm"`
	Measures map[string]float64 `json:"measures_mm"`
}

func sizesJSON(rows []sized) []sizeJSON {
	out := []sizeJSON{}
	for _, r := range rows {
		j := sizeJSON{To: r.to, WidthMM: r.request.To.W.MM(), HeightMM: r.request.To.H.MM(), MarksMM: r.request.Marks.MM(),
			Status: flat.Contradictory.String(), Proven: r.proven, Why: r.why, Measures: map[string]float64{}}
		if r.result != nil {
			j.Status, j.Cost = r.result.Status.String(), r.result.CostMarks2
			for _, c := range r.result.Changes {
				j.Measures[c.Name] = c.To.MM()
			}
			if r.result.Closed != nil {
				j.ClosedW, j.ClosedH = r.result.Closed.Box.W().MM(), r.result.Closed.Box.H().MM()
			}
		}
		out = append(out, j)
	}
	return out
}
