package kit

import (
	"cmp"
	"context"
	"fmt"
	"math"
	"slices"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/trim"
)

// Planned is the plan for one stock.
type Planned struct {
	Job
	Result  trim.Result
	Account trim.Account
	// Sheets is how many are used, Least the fewest that any plan needs, Bought how many of them have to be bought.
	Sheets, Least, Bought int
	// Packs holds, for every sheet of the job, how many packs have to be bought.
	Packs []int
	// Cost of the packs, in hundredths; Priced says that all of them have a price.
	Cost   int64
	Priced bool
}

// Plan plans every job. better, if not nil, is told of every better plan. A job without parts has an empty plan. The work
// ends early with the context; plans are then the best so far, and what has none is in the problems.
func Plan(ctx context.Context, jobs []Job, better func(stock string, r trim.Result)) ([]Planned, problem.List) {
	var out []Planned
	var list problem.List
	for _, j := range jobs {
		p := Planned{Job: j, Priced: true}
		if len(j.Trim.Parts) > 0 {
			result, problems := trim.Cheapest(ctx, j.Trim, func(r trim.Result) {
				if better != nil {
					better(j.Stock.Name, r)
				}
			})
			list = append(list, problems...)
			if problems.HasErrors() {
				p.Unplaced = append(p.Unplaced, j.Trim.Parts...)
				p.Trim.Parts = nil
				out = append(out, p)
				continue
			}
			p.Result = result
			p.Account, problems = trim.Audit(j.Trim, result.Plan)
			list = append(list, problems...)
			p.count()
			p.merge()
			p.Account, _ = trim.Audit(p.Trim, p.Result.Plan)
		}
		out = append(out, p)
	}
	return out, list
}

// count works out sheets, packs and what they cost.
func (p *Planned) count() {
	dearest := int64(0)
	p.Packs = make([]int, len(p.Trim.Sheets))
	for i, n := range p.Account.Sheets {
		p.Sheets += n
		dearest = max(dearest, p.Trim.Sheets[i].Price)
		if s := p.Supply[i]; s.Bought && n > 0 {
			p.Bought += n
			p.Packs[i] = (n + s.Paper.Pack - 1) / s.Paper.Pack
			p.Cost += int64(p.Packs[i]) * s.Paper.Price
			p.Priced = p.Priced && s.Paper.Price > 0
		}
	}
	p.Least = p.fewest(dearest)
}

// fewest returns how many sheets any plan needs at least: as many as the area of the parts fills, and as many as it takes to
// come to the bound on the price, since no sheet is dearer than the dearest. Where all sheets are of one size, those for the
// least price do as well as any, so they are counted.
func (p *Planned) fewest(dearest int64) int {
	area, largest := 0.0, 0.0
	for _, part := range p.Trim.Parts {
		area += part.W.MM() * part.H.MM() * float64(part.Count)
	}
	one := true
	for _, s := range p.Trim.Sheets {
		largest = max(largest, s.W.MM()*s.H.MM())
		one = one && s.W == p.Trim.Sheets[0].W && s.H == p.Trim.Sheets[0].H && s.Grain == p.Trim.Sheets[0].Grain
	}
	least := int(math.Ceil(area/largest - 1e-9))
	if !one {
		return max(least, int((p.Result.Bound+dearest-1)/dearest))
	}
	sheets := slices.SortedFunc(slices.Values(p.Trim.Sheets), func(a, b trim.Sheet) int { return cmp.Compare(a.Price, b.Price) })
	n, left := 0, p.Result.Bound
	for _, s := range sheets {
		need := int((left + s.Price - 1) / s.Price)
		if s.Quantity != trim.Unlimited {
			need = min(need, s.Quantity)
		}
		n, left = n+need, left-int64(need)*s.Price
	}
	return max(least, n)
}

// Status returns the worst status of some plans.
func Status(plans []Planned) trim.Status {
	worst := trim.Optimal
	for _, p := range plans {
		worst = max(worst, p.Result.Status)
	}
	return worst
}

// Contents says what comes out of one sheet of a layout: "2 wall, 4 mat on wall.left".
func (p *Planned) Contents(layout int) []Content {
	var out []Content
	for _, at := range p.Account.Placed {
		if at.Layout != layout {
			continue
		}
		name := p.Trim.Parts[at.Part].Name
		found := false
		for i := range out {
			if out[i].Name == name {
				out[i].Count++
				found = true
			}
		}
		if !found {
			out = append(out, Content{name, 1})
		}
	}
	return out
}

// Rest is an off-cut that is worth keeping, and how many of it there are.
type Rest struct {
	W, H  length.Length
	Count int
}

// narrowest is the narrowest off-cut that is kept: an inch. Common practice, no source.
const narrowest = length.Inch

// mostRests is how many kinds of off-cut are named.
const mostRests = 6

// Back lists what goes back into the drawer: off-cuts at least an inch wide, the largest first, at most six kinds.
func (p *Planned) Back() []Rest {
	var out []Rest
	for _, o := range p.Account.Offcuts {
		w, h := min(o.W, o.H), max(o.W, o.H)
		if w < narrowest {
			continue
		}
		n := p.Result.Plan.Layouts[o.Layout].Times
		if k := slices.IndexFunc(out, func(r Rest) bool { return r.W == w && r.H == h }); k >= 0 {
			out[k].Count += n
			continue
		}
		out = append(out, Rest{w, h, n})
	}
	slices.SortStableFunc(out, func(a, b Rest) int { return cmp.Compare(b.W.MM()*b.H.MM(), a.W.MM()*a.H.MM()) })
	return out[:min(len(out), mostRests)]
}

// Content is how many of a part come out of a sheet.
type Content struct {
	Name  string
	Count int
}

// Money prints hundredths of a currency: 1250 is 12.50.
func Money(hundredths int64) string { return fmt.Sprintf("%d.%02d", hundredths/100, hundredths%100) }

// merge makes one of layouts that differ only in where their sheets come from: at the trimmer a sheet that was bought is like
// one that was there. It comes after all counting; quantities no longer count then.
func (p *Planned) merge() {
	alike := func(a, b trim.Sheet) bool { return a.W == b.W && a.H == b.H && a.Edge == b.Edge && a.Grain == b.Grain }
	var layouts []trim.Layout
	for _, l := range p.Result.Plan.Layouts {
		l.Sheet = slices.IndexFunc(p.Trim.Sheets, func(s trim.Sheet) bool { return alike(s, p.Trim.Sheets[l.Sheet]) })
		k := slices.IndexFunc(layouts, func(o trim.Layout) bool { return o.Sheet == l.Sheet && sameCuts(o.Root, l.Root) })
		if k < 0 {
			layouts = append(layouts, l)
			continue
		}
		layouts[k].Times += l.Times
	}
	p.Result.Plan.Layouts = layouts
	p.Trim.Sheets = slices.Clone(p.Trim.Sheets)
	for i := range p.Trim.Sheets {
		p.Trim.Sheets[i].Quantity = trim.Unlimited
	}
}

func sameCuts(a, b *trim.Cut) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Kind == b.Kind && a.At == b.At && a.Part == b.Part && a.Turned == b.Turned && sameCuts(a.First, b.First) && sameCuts(a.Second, b.Second)
}
