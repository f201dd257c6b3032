package dress

import (
	"foldwright/card"
	"foldwright/problem"
	"foldwright/recipe"
)

// Dressing is ornament to add to a card, behind what it has.
type Dressing struct {
	// Stocks are those of the ornament that the card does not have yet.
	Stocks  []card.Stock
	Mats    []card.Mat
	Toppers []card.Topper
}

// On returns the card with the ornament on it; c stays as it is.
func (d Dressing) On(c *card.Card) *card.Card {
	out := c.Clone()
	out.Stocks = append(out.Stocks, d.Stocks...)
	out.Mats = append(out.Mats, d.Mats...)
	out.Toppers = append(out.Toppers, d.Toppers...)
	return out
}

// Write adds the ornament to the text of a recipe; everything else of it stays as it is.
func (d Dressing) Write(r *recipe.Recipe) {
	for _, s := range d.Stocks {
		r.AddStock(s)
	}
	for _, m := range d.Mats {
		r.AddMat(m)
	}
	for _, t := range d.Toppers {
		r.AddTopper(t)
	}
}

// use takes a stock into the dressing, unless the card or the dressing has it, and reports one that is only a name.
func (d *Dressing) use(c *card.Card, s card.Stock) problem.List {
	if c.StockNamed(s.Name) != nil {
		return nil
	}
	for _, has := range d.Stocks {
		if has.Name == s.Name {
			return nil
		}
	}
	if s.Caliper <= 0 || s.Grammage <= 0 {
		var names []string
		for _, has := range c.Stocks {
			names = append(names, has.Name)
		}
		p := problem.Problem{Rule: "dress-stock", Where: c.Where, What: "the card has no stock " + problem.Quote(s.Name),
			Needs: "a stock of the card, or one with its grammage and caliper"}
		if near, ok := problem.Suggest(s.Name, names); ok {
			p.Try = near
		}
		return problem.List{p}
	}
	d.Stocks = append(d.Stocks, s)
	return nil
}

// stock returns the paper of a name, of the card or of the dressing.
func (d *Dressing) stock(c *card.Card, name string) card.Stock {
	if s := c.StockNamed(name); s != nil {
		return *s
	}
	for _, s := range d.Stocks {
		if s.Name == name {
			return s
		}
	}
	return card.Stock{}
}
