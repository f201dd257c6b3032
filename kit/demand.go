package kit

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"foldwright/card"
	"foldwright/flat"
	"foldwright/plane"
	"foldwright/problem"
	"foldwright/trim"
)

// MostCards is how many cards of one kind may be asked for.
const MostCards = 100_000

// Order is one card that is to be made so many times.
type Order struct {
	Closed *flat.Closed
	Cards  int
}

// Spares says how many parts are cut beyond what the cards need: a share of the count, rounded up, and a number.
type Spares struct {
	Share float64
	Count int
}

// Of returns how many spares are cut for a count of parts.
func (s Spares) Of(count int) int { return int(math.Ceil(s.Share*float64(count)-1e-9)) + s.Count }

// Need is what has to be cut of one stock.
type Need struct {
	Stock card.Stock
	Parts []trim.Part
}

// Demand lists what has to be cut for some cards, by stock in the order in which stocks first appear. Stocks of several
// cards are one where name and label, grammage and caliper are the same. Parts of one stock that are alike in size and grain
// are one part.
//
// Problems: cards-count for a number of cards below 1 or beyond MostCards, spares-range for spares below 0.
func Demand(orders []Order, spares Spares) ([]Need, problem.List) {
	var list problem.List
	d := &demand{spares: spares}
	if !(spares.Share >= 0 && spares.Share <= 10) || spares.Count < 0 || spares.Count > MostCards {
		list.Add(problem.Problem{Rule: "spares-range", What: fmt.Sprintf("spares of %g %% and %d", 100*spares.Share, spares.Count), Needs: "0 or more, at most 1000 %"})
	}
	for _, o := range orders {
		if o.Cards < 1 || o.Cards > MostCards {
			list.Add(problem.Problem{Rule: "cards-count", Where: o.Closed.Assembly.Card.Where,
				What: fmt.Sprintf("%d cards of %s", o.Cards, o.Closed.Assembly.Card.Title), Needs: fmt.Sprintf("from 1 to %d", MostCards)})
		}
	}
	if len(list) > 0 {
		return nil, list
	}
	for _, o := range orders {
		d.card(o, len(orders) > 1)
	}
	for i := range d.needs {
		for k := range d.needs[i].Parts {
			p := &d.needs[i].Parts[k]
			p.Count += spares.Of(p.Count)
		}
	}
	return d.needs, nil
}

type demand struct {
	needs  []Need
	spares Spares
}

// card adds what one order wants. several says that part names have to name the card as well.
func (d *demand) card(o Order, several bool) {
	c := o.Closed.Assembly.Card
	name := func(words string) string {
		if several {
			return c.Title + ": " + words
		}
		return words
	}
	for i := range c.Pieces {
		p := &c.Pieces[i]
		d.add(c.StockNamed(p.Stock), trim.Part{Name: name(p.Name), W: p.Size.W, H: p.Size.H, Count: o.Cards * p.Copies, Turn: true, Grain: p.Grain, Where: p.Where})
	}
	a := o.Closed.Assembly
	for _, layer := range o.Closed.Decorations() {
		words, where := "topper on ", problem.Place{}
		if layer.Topper {
			where = c.Toppers[layer.Index].Where
		} else {
			words, where = "mat on ", c.Mats[layer.Index].Where
		}
		box := plane.BoxOf(layer.Cut...)
		d.add(c.StockNamed(layer.Stock), trim.Part{Name: name(words + a.Panels[layer.Panel].Ref), W: box.W(), H: box.H(), Count: o.Cards, Turn: true, Where: where})
	}
}

// add adds a part to what is wanted of a stock.
func (d *demand) add(s *card.Stock, p trim.Part) {
	if s == nil || p.W <= 0 || p.H <= 0 {
		return
	}
	i := slices.IndexFunc(d.needs, func(n Need) bool {
		o := n.Stock
		return o.Name == s.Name && o.Label == s.Label && o.Grammage == s.Grammage && o.Caliper == s.Caliper
	})
	if i < 0 {
		i = len(d.needs)
		d.needs = append(d.needs, Need{Stock: *s})
	}
	n := &d.needs[i]
	for k := range n.Parts {
		q := &n.Parts[k]
		if q.W == p.W && q.H == p.H && wish(q.Grain) == wish(p.Grain) {
			q.Count += p.Count
			q.Name = joined(q.Name, p.Name)
			return
		}
	}
	n.Parts = append(n.Parts, p)
}

// wish is how the grain must run; what is not said is no wish.
func wish(g card.Grain) card.Grain {
	if g == card.GrainAcross || g == card.GrainUp {
		return g
	}
	return card.GrainUnsaid
}

// joined names a part that serves for several things: "mat on wall.left, wall.right".
func joined(a, b string) string {
	if a == b || strings.HasSuffix(a, ", "+b) {
		return a
	}
	for _, head := range []string{"mat on ", "topper on "} {
		if i, j := strings.LastIndex(a, head), strings.LastIndex(b, head); i >= 0 && j >= 0 && a[:i] == b[:j] {
			return a + ", " + b[j+len(head):]
		}
	}
	return a + ", " + b
}
