package card

import "slices"

// Clone returns a copy of the card that shares nothing with it, so that a measurement can be tried out on the copy.
func (c *Card) Clone() *Card {
	out := *c
	if c.Fits != nil {
		fits := *c.Fits
		out.Fits = &fits
	}
	out.Stocks = slices.Clone(c.Stocks)
	out.Pieces = slices.Clone(c.Pieces)
	for i := range out.Pieces {
		p := &out.Pieces[i]
		p.Outline = slices.Clone(p.Outline)
		p.Scores = slices.Clone(p.Scores)
		p.Slits = slices.Clone(p.Slits)
		p.Windows = slices.Clone(p.Windows)
		for k := range p.Windows {
			p.Windows[k].Points = slices.Clone(p.Windows[k].Points)
		}
		p.Strip = slices.Clone(p.Strip)
		p.PanelsAt = slices.Clone(p.PanelsAt)
		p.Wedges = slices.Clone(p.Wedges)
		p.Rest = cloneValues(p.Rest)
		p.Crease = cloneValues(p.Crease)
		p.ClosedFolds = slices.Clone(p.ClosedFolds)
		p.ClosedPlaces = slices.Clone(p.ClosedPlaces)
	}
	out.Glues = slices.Clone(c.Glues)
	out.Keeps = slices.Clone(c.Keeps)
	for i := range out.Keeps {
		out.Keeps[i].Left.Terms = slices.Clone(out.Keeps[i].Left.Terms)
		out.Keeps[i].Right.Terms = slices.Clone(out.Keeps[i].Right.Terms)
	}
	out.Mats = slices.Clone(c.Mats)
	for i := range out.Mats {
		out.Mats[i].Panels = slices.Clone(out.Mats[i].Panels)
	}
	out.Toppers = slices.Clone(c.Toppers)
	for i := range out.Toppers {
		out.Toppers[i].Points = slices.Clone(out.Toppers[i].Points)
	}
	return &out
}

func cloneValues(values []CreaseValue) []CreaseValue {
	out := slices.Clone(values)
	for i := range out {
		out[i].Scores = slices.Clone(out[i].Scores)
		out[i].Places = slices.Clone(out[i].Places)
	}
	return out
}

// StockNamed returns the stock of a name, nil if there is none.
func (c *Card) StockNamed(name string) *Stock {
	for i := range c.Stocks {
		if c.Stocks[i].Name == name {
			return &c.Stocks[i]
		}
	}
	return nil
}
