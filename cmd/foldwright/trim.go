package main

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"foldwright/kit"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/resize"
	"foldwright/stock"
	"foldwright/trim"
)

// trimCmd plans how the parts of some cards are cut out of the sheets in the drawer.
type trimCmd struct {
	Recipes   []string `arg:"" optional:"" name:"card" help:"Recipe files." predictor:"card"`
	Cards     []int    `default:"1" placeholder:"N" help:"How many cards are to be made; for several recipes one number for all, or one for each, with commas."`
	Drawer    string   `placeholder:"FILE" help:"What is in the drawer: CSV with the columns stock, width, height, unit, grain, direction, on_hand, pack, price, note."`
	Sheet     []string `placeholder:"SIZE" help:"In place of a drawer: sheets of this size for every stock, as many as it takes: A4, 12x12in, 305x305mm."`
	Longest   string   `placeholder:"LENGTH" help:"The longest cut that your trimmer makes, such as 12in. Unsaid: any."`
	Narrowest string   `placeholder:"LENGTH" help:"The narrowest strip that it holds."`
	Stack     string   `placeholder:"LENGTH" help:"How high a stack it cuts at once, such as 1mm. Unsaid: one sheet."`
	Blade     string   `placeholder:"LENGTH" help:"What the blade turns to dust. Unsaid: nothing."`
	Edge      string   `placeholder:"LENGTH" help:"What is first cut off all round every sheet, to square it."`
	Steps     bool     `help:"Say what to do at the trimmer, step by step."`
	Apart     bool     `help:"Finish every layout before the next: less room on the table, more moves of the fence."`
	Spare     string   `placeholder:"N" help:"Parts to cut beyond what the cards need: a number for each part, or a share such as 5%."`

	Out   string `short:"o" placeholder:"FOLDER" predictor:"folder" help:"Draw every sheet into this folder: SVG for each, and one PDF of all."`
	PDF   string `name:"pdf" placeholder:"FILE" help:"Write the PDF of all sheets and steps to this file."`
	Paper string `enum:"a4,letter" default:"a4" help:"Paper of that PDF: ${enum}."`

	Instance string        `placeholder:"FILE" help:"Plan a published cutting problem in the plain format instead of cards."`
	Name     string        `placeholder:"NAME" help:"Which problem of that file."`
	Turn     bool          `help:"Let every part of that problem be turned."`
	Limit    time.Duration `default:"60s" help:"Stop after this long, with the best plan so far (exit code 3)."`
	JSON     bool          `name:"json" help:"Answer in JSON; lengths in millimetres."`
}

// Run plans, and says how good the plan is.
func (c *trimCmd) Run(e *env) error {
	if c.Instance != "" {
		in := instanceFlags{c.Instance, c.Name, c.Turn, c.Limit, c.JSON}
		return in.run(e)
	}
	if len(c.Recipes) == 0 {
		return fail(exitUsage, "no recipe is named\n    try: foldwright trim my.card --cards 10 --sheet A4")
	}
	ctx, cancel := context.WithTimeout(e.ctx, c.Limit)
	defer cancel()
	orders, err := c.orders(ctx, e)
	if err != nil {
		return err
	}
	spares, err := readSpares(c.Spare)
	if err != nil {
		return err
	}
	drawer, problems, err := c.drawer(e)
	if err != nil {
		return err
	}
	needs, more := kit.Demand(orders, spares)
	problems = append(problems, more...)
	tool, err := c.tool()
	if err != nil {
		return err
	}
	jobs, more := kit.Jobs(needs, drawer, tool)
	problems = append(problems, more...)
	plans, more := kit.Plan(ctx, jobs, c.progress(e))
	problems = append(problems, more...)
	var files []file
	if c.Out != "" || c.PDF != "" {
		if files, err = c.drawings(orders, plans); err != nil {
			return err
		}
		if err := c.write(files); err != nil {
			return err
		}
	}
	if c.JSON {
		err = writeJSON(e.stdout, trimJSONOf(plans, problems))
	} else {
		err = c.say(e, orders, plans, problems, files)
	}
	switch {
	case err != nil:
		return err
	case problems.HasErrors():
		return &exitError{code: exitProblems}
	case kit.Status(plans) == trim.Stopped:
		return &exitError{code: exitStopped}
	}
	return nil
}

// progress tells of better plans on standard error, where somebody watches it.
func (c *trimCmd) progress(e *env) func(string, trim.Result) {
	f := e.terminal()
	if f == nil || c.JSON {
		return nil
	}
	return func(stock string, r trim.Result) {
		sheets := 0
		for _, l := range r.Plan.Layouts {
			sheets += l.Times
		}
		fmt.Fprintf(f, "\r%s: %d sheets so far; ctrl-C keeps the plan \x1b[K", stock, sheets)
	}
}

// orders reads the recipes. A card that does not lie flat is refused: its parts may not be the right ones.
func (c *trimCmd) orders(ctx context.Context, e *env) ([]kit.Order, error) {
	if len(c.Cards) != 1 && len(c.Cards) != len(c.Recipes) {
		return nil, fail(exitUsage, "%d numbers of cards for %d recipes; say one for all, or one for each", len(c.Cards), len(c.Recipes))
	}
	var orders []kit.Order
	for i, path := range c.Recipes {
		r, err := e.flat(ctx, path)
		if err != nil {
			return nil, err
		}
		orders = append(orders, kit.Order{Closed: r.Closed, Cards: c.Cards[min(i, len(c.Cards)-1)]})
	}
	return orders, nil
}

// drawer reads the drawer file, or makes one of the sheet sizes that were named.
func (c *trimCmd) drawer(e *env) (*kit.Drawer, problem.List, error) {
	switch {
	case c.Drawer != "" && len(c.Sheet) > 0:
		return nil, nil, fail(exitUsage, "say either a drawer file or sheet sizes, not both")
	case c.Drawer != "":
		text, err := e.read(c.Drawer)
		if err != nil {
			return nil, nil, err
		}
		d, problems := kit.ReadDrawer(nameOf(c.Drawer), text)
		return d, problems, nil
	case len(c.Sheet) == 0:
		return nil, nil, fail(exitUsage, "say what there is to cut from: --drawer FILE, or --sheet A4 or --sheet 12x12in\n    a drawer file starts with the line %s", kit.Columns)
	}
	table, err := stock.Load()
	if err != nil {
		return nil, nil, err
	}
	d := &kit.Drawer{}
	for _, s := range c.Sheet {
		p := kit.Paper{Stock: kit.AnyStock, Pack: 1, Unit: length.MM}
		if sheet, err := table.Sheet(s); err == nil {
			p.W, p.H, p.Unit = sheet.Short, sheet.Long, sheet.Unit
		} else if size, _, err := resize.Target(s, table, true); err == nil {
			p.W, p.H = size.W, size.H
			if strings.HasSuffix(strings.TrimSpace(s), "in") {
				p.Unit = length.IN
			}
		} else {
			return nil, nil, fail(exitUsage, "%q is no sheet: name a size such as A4 or Letter, or write 12x12in", s)
		}
		d.Papers = append(d.Papers, p)
	}
	return d, nil, nil
}

// write writes the drawings into the folder, the PDF into the file that was named.
func (c *trimCmd) write(files []file) error {
	if c.Out != "" {
		if err := writeAll(c.Out, files); err != nil {
			return err
		}
	}
	if c.PDF == "" || len(files) == 0 {
		return nil
	}
	return writeFile(c.PDF, files[len(files)-1].data)
}

// tool reads what the trimmer can do.
func (c *trimCmd) tool() (kit.Tool, error) {
	var t kit.Tool
	for _, s := range []struct {
		said string
		into *length.Length
	}{
		{c.Longest, &t.Trimmer.Longest}, {c.Narrowest, &t.Trimmer.Narrowest}, {c.Stack, &t.Trimmer.Stack}, {c.Blade, &t.Trimmer.Blade}, {c.Edge, &t.Edge},
	} {
		if s.said == "" {
			continue
		}
		l, err := length.Parse(s.said, length.MM)
		if err != nil {
			return t, fail(exitUsage, "%v", err)
		}
		*s.into = l
	}
	return t, nil
}

func readSpares(text string) (kit.Spares, error) {
	share, isShare := strings.CutSuffix(strings.TrimSpace(text), "%")
	if text == "" {
		return kit.Spares{}, nil
	}
	if isShare {
		v, err := strconv.ParseFloat(strings.TrimSpace(share), 64)
		if err != nil || math.IsNaN(v) {
			return kit.Spares{}, fail(exitUsage, "spares are %q; write a number such as 2, or a share such as 5%%", text)
		}
		return kit.Spares{Share: v / 100}, nil
	}
	n, err := strconv.Atoi(strings.TrimSpace(text))
	if err != nil {
		return kit.Spares{}, fail(exitUsage, "spares are %q; write a number such as 2, or a share such as 5%%", text)
	}
	return kit.Spares{Count: n}, nil
}
