package main

import (
	"context"
	"encoding/json"
	"fmt"
	"io"
	"time"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/length"
	"foldwright/proof"
	"foldwright/resize"
	"foldwright/stock"
)

// resizeCmd brings a card to another size.
type resizeCmd struct {
	Card  string        `arg:"" help:"Recipe file; - reads standard input." predictor:"card"`
	To    string        `required:"" placeholder:"SIZE" help:"What the closed card must stay within: 6x6in, 120x170mm, or an envelope such as C6, DL or A7 (its size less the clearance)."`
	Marks string        `placeholder:"PITCH" help:"The ruler: 1mm, 5mm, 1/8in, 1/16in. Unsaid: that of the card."`
	Out   string        `short:"o" placeholder:"FILE" predictor:"card" help:"Write the new recipe to this file; - writes it to standard output and nothing else."`
	JSON  bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
	Limit time.Duration `default:"30s" help:"Stop after this long and say so (exit code 3)."`
}

// Run resizes one card, proves the new one, and writes it only where it was told to.
func (c *resizeCmd) Run(e *env) error {
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	old, table, err := e.toResize(ctx, c.Card)
	if err != nil {
		return err
	}
	request, note, err := requestFor(old, table, c.To, c.Marks)
	if err != nil {
		return fail(exitUsage, "%v", err)
	}
	result, proven, err := resizeProven(ctx, old, request)
	if err != nil {
		return fail(exitUsage, "%v", err)
	}
	if result.Recipe != nil && proven.Proven() && c.Out != "" && c.Out != "-" {
		if err := writeFile(c.Out, result.Recipe.Format()); err != nil {
			return err
		}
	}
	if err := c.answer(e, old, request, note, result, proven); err != nil {
		return err
	}
	if code := resizeCode(result, proven); code != exitDone {
		return &exitError{code: code}
	}
	return nil
}

// resizeProven brings a card to another size. A card that lies flat but is not proven gives way to the next nearest that
// is. The proof of the new card comes without remarks, and is nil where there is no new card.
func resizeProven(ctx context.Context, old *proof.Report, q resize.Request) (*resize.Result, *proof.Report, error) {
	reports := map[string]*proof.Report{}
	prove := func(text []byte) *proof.Report {
		if reports[string(text)] == nil {
			reports[string(text)] = proof.ProveBare(ctx, old.File, text)
		}
		return reports[string(text)]
	}
	q.Serves = func(recipe []byte) bool { return prove(recipe).Proven() }
	result, err := resize.Resize(ctx, old.Recipe, old.Closed, q)
	if err != nil || result.Recipe == nil {
		return result, nil, err
	}
	return result, prove(result.Recipe.Format()), nil
}

func resizeCode(r *resize.Result, proven *proof.Report) int {
	switch {
	case r.Status == flat.StoppedEarly:
		return exitStopped
	case r.Status == flat.Contradictory || proven == nil:
		return exitProblems
	}
	return codeOf(proven)
}

// toResize reads what resizing starts from: a card that lies flat, and the tables of envelopes. A card that does not lie
// flat is refused, with what is wrong printed.
func (e *env) toResize(ctx context.Context, path string) (*proof.Report, *stock.Table, error) {
	text, err := e.read(path)
	if err != nil {
		return nil, nil, err
	}
	r := proof.ProveFlat(ctx, nameOf(path), text)
	if r.Closed == nil || !r.Closed.LiesFlat() {
		if err := r.Print(e.stderr); err != nil {
			return nil, nil, err
		}
		return nil, nil, fail(max(codeOf(r), exitProblems), "a card that does not lie flat cannot be resized\n    try: foldwright mend %s", path)
	}
	table, err := stock.Load()
	return r, table, err
}

// requestFor puts together what a card is brought to: size, ruler and unit.
func requestFor(old *proof.Report, table *stock.Table, to, marks string) (resize.Request, string, error) {
	q := resize.Request{Marks: old.Card.Marks, MarksUnit: old.Card.Unit, Unit: old.Card.Unit}
	upright := old.Closed.Box.H() >= old.Closed.Box.W()
	if f := old.Card.Fits; f != nil {
		upright = f.H >= f.W
	}
	var note string
	var err error
	if q.To, note, err = resize.Target(to, table, upright); err != nil {
		return q, "", err
	}
	switch {
	case marks != "":
		if q.Marks, q.MarksUnit, err = resize.Marks(marks); err != nil {
			return q, "", err
		}
		q.Unit = q.MarksUnit
	case q.Marks == 0 && q.Unit == length.IN:
		q.Marks = length.Inch / 8
	case q.Marks == 0:
		q.Marks = length.Millimetre
	}
	return q, note, nil
}

func (c *resizeCmd) answer(e *env, old *proof.Report, q resize.Request, note string, r *resize.Result, proven *proof.Report) error {
	switch {
	case c.JSON:
		return writeJSON(e.stdout, jsonResize(q, r, proven))
	case c.Out == "-" && r.Recipe != nil && proven.Proven():
		_, err := e.stdout.Write(r.Recipe.Format())
		return err
	}
	w := e.words(c.Out)
	p := &page{w: w}
	p.line("%s", resizeVerdict(old.Card, q, r, proven))
	if note != "" {
		p.line("  %s", note)
	}
	printResult(p, old.Card.Unit, q, r)
	if r.Recipe != nil && !proven.Proven() {
		p.line("")
		if p.err == nil {
			p.err = proven.Print(w)
		}
	}
	if r.Recipe != nil && proven.Proven() {
		if c.Out != "" {
			p.line("\nwritten to %s", c.Out)
		} else {
			p.line("\nNothing was written. To have the new recipe: --out FILE")
		}
	}
	return p.err
}

// page writes lines and keeps the first error.
type page struct {
	w   io.Writer
	err error
}

func (p *page) line(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format+"\n", args...)
	}
}

func resizeVerdict(old *card.Card, q resize.Request, r *resize.Result, proven *proof.Report) string {
	size := sizeWords(q.To, q.Unit)
	switch {
	case r.Status == flat.Contradictory:
		return fmt.Sprintf("%s: no card like this fits %s on marks of %s.", old.Title, size, q.Marks.Human(q.MarksUnit))
	case r.Recipe == nil:
		return fmt.Sprintf("%s: stopped before a card for %s was found.", old.Title, size)
	case !proven.Proven():
		return fmt.Sprintf("%s: brought to %s it lies flat, but it is not proven.", old.Title, size)
	case r.Passed > 0 && r.Proven:
		return fmt.Sprintf("%s: brought to %s and proven. %s nearer to the old one, but not proven; no other proven card on these marks is nearer.", old.Title, size, nearer(r.Passed))
	case !r.Proven && r.Status == flat.Solved:
		return fmt.Sprintf("%s: brought to %s and proven, its slanted scores nearly as they were.", old.Title, size)
	case !r.Proven:
		return fmt.Sprintf("%s: brought to %s and proven; stopped before it was sure that no other card is nearer.", old.Title, size)
	}
	return fmt.Sprintf("%s: brought to %s and proven. No other card on these marks is nearer to the old one.", old.Title, size)
}

// nearer says how many cards were passed over because they lie flat and are not proven.
func nearer(n int) string {
	if n == 1 {
		return "One card that lies flat is"
	}
	return fmt.Sprintf("%d cards that lie flat are", n)
}

func sizeWords(s card.Size, u length.Unit) string { return s.W.Human(u) + " x " + s.H.Human(u) }

func printResult(p *page, was length.Unit, q resize.Request, r *resize.Result) {
	if r.Closed != nil {
		p.line("  closed %s wide, %s high", r.Closed.Box.W().Both(q.Unit), r.Closed.Box.H().Both(q.Unit))
	}
	if len(r.Changes) > 0 {
		p.line("")
		p.line("  %-40s %14s %14s %14s", "", "was", "is", "scaled alone")
		for _, c := range r.Changes {
			p.line("  %-40s %14s %14s %14s", c.Name, c.From.Human(was), c.To.Human(q.Unit), approximately(c.Scaled, q.Unit))
		}
	}
	list := func(head string, items []string) {
		if len(items) == 0 {
			return
		}
		p.line("")
		p.line("%s", head)
		for _, i := range items {
			p.line("    %s", i)
		}
	}
	list("what kept it from the scaled measures:", r.Because)
	list("given up, since nothing fits with it:", r.Released)
	list("to be noted:", r.Notes)
	head := "these conditions exclude each other; each of them is needed for that:"
	if len(r.Conflict) == 1 {
		head = "why not:"
	}
	list(head, r.Conflict)
}

// approximately prints a length that is on no mark, to a hundredth of a millimetre or a thousandth of an inch.
func approximately(nm float64, u length.Unit) string {
	if u == length.IN {
		return fmt.Sprintf("%.3f in", nm/float64(length.Inch))
	}
	return fmt.Sprintf("%.2f %s", nm/float64(u.Size()), u)
}

// The shape of the answer as JSON: names are a promise.
type resizeJSON struct {
	Status     string             `json:"status"`
	CostMarks2 float64            `json:"cost_marks2"`
	Changes    []resizeChangeJSON `json:"changes"`
	Because    []string           `json:"because"`
	Recipe     string             `json:"recipe"`
	// Beyond the promise above, names may be added.
	Proven   bool     `json:"proven"`
	Optimal  bool     `json:"optimal"`
	Passed   int      `json:"passed"` // nearer cards that lie flat and are not proven
	Released []string `json:"released"`
	Notes    []string `json:"notes"`
	ToWidth  float64  `json:"to_width_mm"`
	ToHeight float64  `json:"to_height_mm"`
	MarksMM  float64  `json:"marks_mm"`
	WidthMM  float64  `json:"width_mm"`
	HeightMM float64  `json:"height_mm"`
}

type resizeChangeJSON struct {
	Name     string  `json:"name"`
	FromMM   float64 `json:"from_mm"`
	ToMM     float64 `json:"to_mm"`
	ScaledMM float64 `json:"scaled_mm"`
}

func jsonResize(q resize.Request, r *resize.Result, proven *proof.Report) resizeJSON {
	out := resizeJSON{
		Status: r.Status.String(), CostMarks2: r.CostMarks2, Optimal: r.Proven, Passed: r.Passed,
		Changes: []resizeChangeJSON{}, Because: notNil(r.Because), Released: notNil(r.Released), Notes: notNil(r.Notes),
		ToWidth: q.To.W.MM(), ToHeight: q.To.H.MM(), MarksMM: q.Marks.MM(),
	}
	if r.Status == flat.Contradictory {
		out.Because = notNil(r.Conflict)
	}
	for _, c := range r.Changes {
		out.Changes = append(out.Changes, resizeChangeJSON{c.Name, c.From.MM(), c.To.MM(), c.Scaled / float64(length.Millimetre)})
	}
	if r.Recipe != nil {
		out.Recipe, out.Proven = string(r.Recipe.Format()), proven.Proven()
		out.WidthMM, out.HeightMM = r.Closed.Box.W().MM(), r.Closed.Box.H().MM()
	}
	return out
}

func notNil(list []string) []string {
	if list == nil {
		return []string{}
	}
	return list
}

func writeJSON(w io.Writer, v any) error {
	text, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		return err
	}
	_, err = w.Write(append(text, '\n'))
	return err
}
