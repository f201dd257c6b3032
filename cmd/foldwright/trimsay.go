package main

import (
	"bytes"
	"fmt"
	"math"
	"path/filepath"
	"strings"

	"foldwright/drawing"
	"foldwright/drawing/pdf"
	"foldwright/drawing/svg"
	"foldwright/drawing/view"
	"foldwright/kit"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/trim"
)

// drawings draws every layout of every stock.
func (c *trimCmd) drawings(orders []kit.Order, plans []kit.Planned) ([]file, error) {
	unit := orders[0].Closed.Assembly.Card.Unit
	title := cardsWords(orders)
	var files []file
	var all []*drawing.Drawing
	for i := range plans {
		p := &plans[i]
		for k := range p.Result.Plan.Layouts {
			d := view.Sheet(fmt.Sprintf("%s: %s, layout %d of %d", title, p.Stock.Label, k+1, len(p.Result.Plan.Layouts)), p.Trim, p.Result.Plan, p.Account, k, unit)
			all = append(all, d)
			data, err := write(svg.Device{}, d)
			if err != nil {
				return nil, err
			}
			files = append(files, file{fmt.Sprintf("cut-%s-%d.svg", p.Stock.Name, k+1), data})
		}
		var lines []string
		for _, step := range trim.Steps(p.Trim, p.Result.Plan, c.Apart) {
			lines = append(lines, step.Words(p.Trim, unit))
		}
		all = append(all, view.Ticks("steps-"+p.Stock.Name, fmt.Sprintf("%s: %s, step by step", title, p.Stock.Label), lines)...)
	}
	if len(all) == 0 {
		return nil, nil
	}
	paper := pdf.A4()
	if c.Paper == "letter" {
		paper = pdf.Letter()
	}
	var b bytes.Buffer
	if err := pdf.Pages(&b, all, pdf.SheetOptions{Paper: paper, Title: title + ": how the sheets are cut", Created: made}); err != nil {
		return nil, fmt.Errorf("draw the cutting plan: %w", err)
	}
	return append(files, file{"cut-" + c.Paper + ".pdf", b.Bytes()}), nil
}

// cardsWords says what is made: "60 of Harbour light, 20 of Rising gull".
func cardsWords(orders []kit.Order) string {
	var cards []string
	for _, o := range orders {
		cards = append(cards, fmt.Sprintf("%d of %s", o.Cards, o.Closed.Assembly.Card.Title))
	}
	return strings.Join(cards, ", ")
}

func (c *trimCmd) say(e *env, orders []kit.Order, plans []kit.Planned, problems problem.List, files []file) error {
	p := &page{w: e.stdout}
	p.line("%s", cardsWords(orders))
	unit := orders[0].Closed.Assembly.Card.Unit
	for i := range plans {
		c.sayStock(p, &plans[i], unit)
	}
	if len(problems) > 0 {
		p.line("")
	}
	for _, q := range problems.Sorted() {
		p.line("%s", q.String())
	}
	p.line("")
	for _, f := range files {
		if c.Out != "" {
			p.line("%s", filepath.Join(c.Out, f.name))
		}
	}
	if c.PDF != "" && len(files) > 0 {
		p.line("%s", c.PDF)
	}
	p.line("Cut with care: blades cut fingers too. Keep them behind the guard, and do as the maker of your trimmer says.")
	return p.err
}

func (c *trimCmd) sayStock(p *page, s *kit.Planned, unit length.Unit) {
	if s.Sheets == 0 {
		return
	}
	p.line("")
	good := fmt.Sprintf("no plan can do with fewer than %d", s.Least)
	if s.Least >= s.Sheets {
		good = "no plan can do with fewer"
	}
	p.line("%s: %s; %s", s.Stock.Name, problem.Count(s.Sheets, "sheet"), good)
	for i, n := range s.Packs {
		if n > 0 {
			paper := s.Supply[i].Paper
			cost := "no price said"
			if paper.Price > 0 {
				cost = kit.Money(int64(n) * paper.Price)
			}
			if paper.Stock != kit.AnyStock {
				p.line("  to buy: %s of %d of %s, %s", problem.Count(n, "pack"), paper.Pack, s.Trim.Sheets[i].Name, cost)
			}
		}
	}
	if s.Cost > 0 {
		p.line("  that is %s for each card, at your prices", kit.Money(s.Cost/int64(c.total())))
	}
	for k, l := range s.Result.Plan.Layouts {
		var parts []string
		for _, c := range s.Contents(k) {
			parts = append(parts, fmt.Sprintf("%d %s", c.Count, c.Name))
		}
		p.line("  %s of %s: %s", problem.Count(l.Times, "sheet"), s.Trim.Sheets[l.Sheet].Name, strings.Join(parts, "; "))
	}
	for _, b := range s.Back() {
		p.line("  back into the drawer: %d of %s by %s", b.Count, b.W.Human(unit), b.H.Human(unit))
	}
	p.line("  %s, at %s of the fence", problem.Count(s.Account.Cuts, "cut"), problem.Count(s.Account.Fences, "setting"))
	steps := trim.Steps(s.Trim, s.Result.Plan, c.Apart)
	p.line("  about %s at an unhurried pace", minutes(trim.UsualPace().Time(steps)))
	if c.Steps {
		for i, step := range steps {
			p.line("  [ ] %2d  %s", i+1, step.Words(s.Trim, unit))
		}
	}
}

// minutes says a number of seconds to the next minute, or five of them where there are many.
func minutes(seconds float64) string {
	n := int(math.Ceil(seconds / 60))
	if n > 30 {
		n = (n + 4) / 5 * 5
	}
	if n >= 120 {
		return fmt.Sprintf("%d h %d min", n/60, n%60)
	}
	return problem.Count(n, "minute")
}

// total is how many cards are made in all.
func (c *trimCmd) total() int {
	if len(c.Cards) == 1 {
		return c.Cards[0] * len(c.Recipes)
	}
	n := 0
	for _, k := range c.Cards {
		n += k
	}
	return n
}

// The shape of the answer as JSON: names are a promise.
type trimJSON struct {
	Status     string            `json:"status"`
	Sheets     int               `json:"sheets"`
	LowerBound int               `json:"lower_bound"`
	Cost       float64           `json:"cost"`
	Fences     int               `json:"fence_settings"`
	Cuts       int               `json:"cuts"`
	Patterns   []trimPatternJSON `json:"patterns"`
	Unplaced   []trimPartJSON    `json:"unplaced"`
	// Beyond the promise above, names may be added.
	Priced   bool           `json:"priced"`
	Bought   []trimBuyJSON  `json:"to_buy"`
	Problems []problemsJSON `json:"problems"`
}

type trimPatternJSON struct {
	Stock   string          `json:"stock"`
	SheetMM [2]float64      `json:"sheet_mm"`
	Times   int             `json:"times"`
	Tree    []any           `json:"tree"`
	Pieces  []trimPieceJSON `json:"pieces"`
	Offcuts [][2]float64    `json:"offcuts"`
}

type trimPieceJSON struct {
	Name   string  `json:"name"`
	X      float64 `json:"x_mm"`
	Y      float64 `json:"y_mm"`
	W      float64 `json:"w_mm"`
	H      float64 `json:"h_mm"`
	Turned bool    `json:"turned"`
}

type trimPartJSON struct {
	Stock string  `json:"stock"`
	Name  string  `json:"name"`
	W     float64 `json:"w_mm"`
	H     float64 `json:"h_mm"`
	Count int     `json:"count"`
}

type trimBuyJSON struct {
	Stock string  `json:"stock"`
	Sheet string  `json:"sheet"`
	Packs int     `json:"packs"`
	Cost  float64 `json:"cost"`
}

type problemsJSON struct {
	Rule     string `json:"rule"`
	Severity string `json:"severity"`
	Line     int    `json:"line"`
	What     string `json:"what"`
	Needs    string `json:"needs"`
	Try      string `json:"try"`
}

func trimJSONOf(plans []kit.Planned, problems problem.List) trimJSON {
	out := trimJSON{Status: kit.Status(plans).String(), Patterns: []trimPatternJSON{}, Unplaced: []trimPartJSON{}, Priced: true, Bought: []trimBuyJSON{}}
	for i := range plans {
		p := &plans[i]
		out.Sheets, out.LowerBound = out.Sheets+p.Sheets, out.LowerBound+p.Least
		out.Cost += float64(p.Cost) / 100
		out.Fences, out.Cuts = out.Fences+p.Account.Fences, out.Cuts+p.Account.Cuts
		out.Priced = out.Priced && p.Priced
		for k := range p.Result.Plan.Layouts {
			out.Patterns = append(out.Patterns, patternJSON(p, k))
		}
		for _, u := range p.Unplaced {
			out.Unplaced = append(out.Unplaced, trimPartJSON{p.Stock.Name, u.Name, u.W.MM(), u.H.MM(), u.Count})
		}
		for k, n := range p.Packs {
			if n > 0 {
				out.Bought = append(out.Bought, trimBuyJSON{p.Stock.Name, p.Trim.Sheets[k].Name, n, float64(int64(n)*p.Supply[k].Paper.Price) / 100})
			}
		}
	}
	out.Problems = problemsJSONOf(problems)
	return out
}

func problemsJSONOf(problems problem.List) []problemsJSON {
	out := []problemsJSON{}
	for _, q := range problems.Sorted() {
		out = append(out, problemsJSON{q.Rule, q.Severity.String(), q.Where.Line, q.What, q.Needs, q.Try})
	}
	return out
}

func patternJSON(p *kit.Planned, layout int) trimPatternJSON {
	l := p.Result.Plan.Layouts[layout]
	sheet := p.Trim.Sheets[l.Sheet]
	out := trimPatternJSON{Stock: p.Stock.Name, SheetMM: [2]float64{sheet.W.MM(), sheet.H.MM()}, Times: l.Times,
		Tree: treeJSON(l.Root, length.Length.MM), Pieces: []trimPieceJSON{}, Offcuts: [][2]float64{}}
	for _, a := range p.Account.Placed {
		if a.Layout == layout {
			out.Pieces = append(out.Pieces, trimPieceJSON{p.Trim.Parts[a.Part].Name, a.X.MM(), a.Y.MM(), a.W.MM(), a.H.MM(), a.Turned})
		}
	}
	for _, o := range p.Account.Offcuts {
		if o.Layout == layout {
			out.Offcuts = append(out.Offcuts, [2]float64{o.W.MM(), o.H.MM()})
		}
	}
	return out
}
