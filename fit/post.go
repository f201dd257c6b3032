package fit

import (
	"fmt"
	"slices"

	"foldwright/length"
	"foldwright/problem"
	"foldwright/stock"
)

// Posting is how an item goes by one mail service.
type Posting struct {
	Operator, Country, Service string
	// Steps holds every class of the service, lowest first.
	Steps []Step
	// At is the index of the lowest class that takes the item, -1 where none does.
	At int
	// Price is what a person's own table says for it; nil where it says nothing.
	Price *stock.Price
}

// Step is one class, and what keeps the item out of it.
type Step struct {
	Class stock.MailClass
	// Misses is empty where the class takes the item. Changes all together would bring it in; nil where nothing simple does.
	Misses  []Miss
	Changes []Change
}

// Post finds the lowest class of a service that takes an item. prices may be nil.
//
// Problems: item-size, for an item without a size or a weight; then no class is judged.
func Post(i Item, ladder stock.Ladder, limits Limits, prices *stock.Prices) (Posting, problem.List) {
	p := Posting{Operator: ladder.Operator, Country: ladder.Country, Service: ladder.Service, At: -1}
	if probs := i.check(); len(probs) > 0 {
		return p, probs
	}
	i.Long, i.Short = max(i.Long, i.Short), min(i.Long, i.Short)
	for k, c := range ladder.Classes {
		s := Step{Class: c, Misses: Misses(i, c, limits.Bump)}
		if len(s.Misses) > 0 {
			s.Changes = changesInto(i, c, limits.Bump)
		} else if p.At < 0 {
			p.At = k
			if price, ok := prices.For(c.ID, i.Grams); ok {
				p.Price = &price
			}
		}
		p.Steps = append(p.Steps, s)
	}
	return p, nil
}

// Class returns the class that takes the item; ok is false where none does.
func (p Posting) Class() (c stock.MailClass, ok bool) {
	if p.At < 0 {
		return c, false
	}
	return p.Steps[p.At].Class, true
}

// Lower returns the step below the class that takes the item, or the highest class where none does; ok is false where it is
// in the lowest.
func (p Posting) Lower() (s Step, ok bool) {
	at := p.At
	if at < 0 {
		at = len(p.Steps)
	}
	if at == 0 {
		return s, false
	}
	return p.Steps[at-1], true
}

// Words says, a line each, how the item goes, what the maker has to look at, and what would bring it into the next lower
// class.
// Lengths are in unit. savings, which may be nil, are named where one of them is enough.
func (p Posting) Words(unit length.Unit, savings []Saving) []string {
	service := p.Operator + ", " + p.Service
	c, ok := p.Class()
	head := fmt.Sprintf("%s: no class of the table takes it", service)
	if ok {
		head = fmt.Sprintf("%s: %s", service, c.Name)
		if p.Price != nil {
			head += fmt.Sprintf(", %s %s by your own table of %s", p.Price.Amount, p.Price.Currency, p.Price.AsOf)
		}
	}
	lower, below := p.Lower()
	if !ok && below {
		c = lower.Class
	}
	asOf := "limits"
	if c.AsOf != "" {
		asOf += " as of " + c.AsOf
	}
	out := []string{fmt.Sprintf("%s (%s; check with your post office)", head, asOf)}
	if ok && c.Check != "" {
		out = append(out, "look at: "+c.Check)
	}
	if below {
		out = append(out, lower.words(unit, savings))
	}
	return out
}

// words says what would bring the item into the class.
func (s Step) words(unit length.Unit, savings []Saving) string {
	var why, how []string
	for _, m := range s.Misses {
		why = append(why, m.words(unit))
	}
	for _, c := range s.Changes {
		how = append(how, c.Words(unit))
	}
	text := fmt.Sprintf("not %s: %s", s.Class.Name, list(why))
	if len(how) > 0 {
		text += "; " + list(how) + " would bring it there"
	}
	if slices.ContainsFunc(s.Changes, func(c Change) bool { return c.Dim == Long || c.Dim == Short }) {
		text += " (another envelope)"
	}
	if enough := Enough(s.Changes, savings); len(enough) > 0 {
		text += ": " + enough[0]
	}
	return text
}

// words says the miss with both numbers: "26.4 g, at most 20 g".
func (m Miss) words(unit length.Unit) string {
	bound := "at most "
	if m.Under {
		bound = "at least "
	}
	switch m.Dim {
	case Mass:
		return "it weighs " + grams(m.HaveNumber, unit) + ", " + bound + grams(m.NeedNumber, unit)
	case Aspect:
		return fmt.Sprintf("its long side is %.2f times its short side, %s%.4g times", m.HaveNumber, bound, m.NeedNumber)
	case Stiffness:
		return "it does not bend"
	case Thickness:
		return "it is " + thin(m.Have, unit) + " thick, " + bound + thin(m.Need, unit)
	case Evenness:
		return "one place is " + thin(m.Have, unit) + " thicker than half of it, " + bound + thin(m.Need, unit)
	}
	return fmt.Sprintf("its %s is %s, %s%s", m.Dim, m.Have.Human(unit), bound, m.Need.Human(unit))
}
