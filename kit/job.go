package kit

import (
	"fmt"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
	"foldwright/trim"
)

// Job is what has to be cut of one stock, and the sheets that there are of it.
type Job struct {
	Need
	// Trim is the job for the planner; its parts are those of the need that come out of some sheet.
	Trim trim.Job
	// Supply says of every sheet of Trim where it comes from.
	Supply []Supply
	// Unplaced are the parts of the need that come out of no sheet.
	Unplaced []trim.Part
}

// Tool is what is cut with: the trimmer, and how much is first cut off all round every sheet, to square it.
type Tool struct {
	Trimmer trim.Trimmer
	Edge    length.Length
}

// Supply is where a sheet comes from: the drawer, or a shop.
type Supply struct {
	Paper  Paper
	Bought bool
}

// The price of a sheet for the planner: what it costs where it is bought, in ten-thousandths of a hundredth, and a little for
// its size, so that of two plans for one price the one that uses less paper is taken.
const (
	perHundredth = 10_000
	// unpriced is what a sheet counts that must be bought and has no price, in hundredths: so that paper on hand is used first.
	unpriced = 100
)

// Jobs joins what is wanted to what there is. Needs of which the drawer has no paper, and parts that come out of no sheet,
// are told; all others become jobs.
//
// Problems: no-paper (the drawer holds no sheet of a stock), part-too-large (see trim.Part.Fits).
func Jobs(needs []Need, d *Drawer, tool Tool) ([]Job, problem.List) {
	var jobs []Job
	var list problem.List
	for _, n := range needs {
		j := Job{Need: n}
		j.Trim.Trimmer, j.Trim.Caliper = tool.Trimmer, n.Stock.Caliper
		directed := false
		for _, p := range d.Papers {
			if calls(p.Stock, n.Stock) {
				j.supply(p, tool.Edge)
				directed = directed || p.Directed
			}
		}
		if len(j.Trim.Sheets) == 0 {
			j.Unplaced = n.Parts
			list.Add(noPaper(n, d))
			jobs = append(jobs, j)
			continue
		}
		for _, p := range n.Parts {
			p.Turn = p.Turn && !directed
			if fits(p, j.Trim.Sheets) {
				j.Trim.Parts = append(j.Trim.Parts, p)
				continue
			}
			j.Unplaced = append(j.Unplaced, p)
			list.Add(tooLarge(p, n, j.Trim.Sheets))
		}
		jobs = append(jobs, j)
	}
	return jobs, list
}

// calls says whether a word of the drawer file means a stock.
func calls(word string, s card.Stock) bool {
	return strings.EqualFold(word, s.Name) || s.Label != "" && strings.EqualFold(word, s.Label) || word == AnyStock
}

// AnyStock stands for every stock, in place of a name: sheets that are the same for all.
const AnyStock = "*"

// supply adds the sheets of one paper: those on hand, and those that can be bought.
func (j *Job) supply(p Paper, edge length.Length) {
	sheet := trim.Sheet{Name: p.sheetName(), W: p.W, H: p.H, Edge: edge, Grain: p.Grain, Where: p.Where}
	size := int64(p.W.MM()*p.H.MM()/1000) + 1
	if p.OnHand > 0 {
		sheet.Quantity, sheet.Price = p.OnHand, size
		j.Trim.Sheets, j.Supply = append(j.Trim.Sheets, sheet), append(j.Supply, Supply{Paper: p})
	}
	if p.Pack > 0 {
		each := int64(unpriced * perHundredth)
		if p.Price > 0 {
			each = p.Price * perHundredth / int64(p.Pack)
		}
		sheet.Quantity, sheet.Price = trim.Unlimited, each+size
		j.Trim.Sheets, j.Supply = append(j.Trim.Sheets, sheet), append(j.Supply, Supply{Paper: p, Bought: true})
	}
}

func (p Paper) sheetName() string {
	return bare(p.W, p.Unit) + " x " + p.H.Human(p.Unit)
}

func bare(l length.Length, u length.Unit) string {
	return strings.TrimSuffix(l.Human(u), " "+u.String())
}

func fits(p trim.Part, sheets []trim.Sheet) bool {
	for _, s := range sheets {
		if p.Fits(s) {
			return true
		}
	}
	return false
}

func noPaper(n Need, d *Drawer) problem.Problem {
	var names []string
	for _, p := range d.Papers {
		names = append(names, p.Stock)
	}
	out := problem.Problem{Rule: "no-paper", Where: n.Stock.Where,
		What: fmt.Sprintf("the drawer holds no sheet of %s, of which %s wanted", n.Stock.Name, wanted(n)), Needs: "a row for it in the drawer file"}
	if near, ok := problem.Suggest(n.Stock.Name, names); ok {
		out.Try = fmt.Sprintf("%q in place of %q in that row, if it is meant", n.Stock.Name, near)
	}
	return out
}

func wanted(n Need) string {
	count := 0
	for _, p := range n.Parts {
		count += p.Count
	}
	if count == 1 {
		return "1 part is"
	}
	return fmt.Sprintf("%d parts are", count)
}

func tooLarge(p trim.Part, n Need, sheets []trim.Sheet) problem.Problem {
	largest := sheets[0]
	for _, s := range sheets {
		if s.W.MM()*s.H.MM() > largest.W.MM()*largest.H.MM() {
			largest = s
		}
	}
	out := problem.Problem{Rule: "part-too-large", Where: p.Where,
		What:  fmt.Sprintf("%s of %s, %s by %s, comes out of no sheet", p.Name, n.Stock.Name, p.W.Human(length.MM), p.H.Human(length.MM)),
		Needs: "a sheet that holds it; the largest is " + largest.Name,
	}
	bothWays := p
	bothWays.Grain, bothWays.Turn = card.GrainUnsaid, true
	if fits(bothWays, sheets) {
		out.Needs = "a sheet that holds it with the grain or the pattern as it must run; without that wish it would come out"
	}
	return out
}
