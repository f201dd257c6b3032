package stock

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"foldwright/length"
	"foldwright/problem"
)

// MailClass is one class of one mail service: what it takes, as published on the day in AsOf. A limit of 0 means that none
// was seen, not that there is none.
type MailClass struct {
	// ID is the stable name for programs, such as dp-standard.
	ID string
	// Operator is who carries it, under Operator, Country and the names of Also; Country has two letters where there is one.
	Operator string
	Also     []string
	Country  string
	// Service is a ladder of classes of one operator: domestic, international. Rank counts them from 1, the lowest.
	Service string
	Rank    int
	// Name is that of the class, for people.
	Name string
	// Unit is the one in which the limits are published.
	Unit                        length.Unit
	MinLong, MinShort, MinThick length.Length
	// MinUpTo is the thickness up to which MinLong and MinShort hold; 0 for any.
	MinUpTo                     length.Length
	MaxLong, MaxShort, MaxThick length.Length
	MaxSum                      length.Length // of length, width and thickness
	MaxGrams                    float64
	AspectMin, AspectMax        float64 // of the long side to the short side
	Flexible                    bool    // what does not bend is refused
	Even                        bool    // what is not about even in thickness is refused
	MaxBump                     length.Length
	// Check says what a program cannot judge and the maker looks at; may be empty.
	Check string
	// AsOf is the date of the limits as far as it is known, in words.
	AsOf string
	Origin
}

// Ladder holds the classes of one service, lowest first.
type Ladder struct {
	Operator, Country, Service string
	Classes                    []MailClass
}

const mailColumns = "id,operator,also,country,service,rank,class,unit,min_long,min_short,min_up_to,min_thick,max_long,max_short,max_thick,max_sum," +
	"max_weight,aspect_min,aspect_max,flexible,even,check,as_of,status,note,source"

func parseMail(g grid, sources map[string]Source) ([]MailClass, problem.List) {
	p := &parser{sources: sources}
	var out []MailClass
	for _, r := range g.rows {
		u := p.unit(r)
		c := MailClass{ID: p.text(r, "id"), Operator: p.text(r, "operator"), Also: several(r["also"].text), Country: p.text(r, "country"),
			Service: p.text(r, "service"), Rank: p.rank(r), Name: p.text(r, "class"), Unit: u,
			MinUpTo: p.limit(r, "min_up_to", u), MaxSum: p.limit(r, "max_sum", u), MaxGrams: p.grams(r, "max_weight"), Flexible: p.yes(r, "flexible"),
			Check: r["check"].text, AsOf: p.text(r, "as_of"), Origin: p.origin(r)}
		c.MinLong, c.MaxLong = p.limits(r, "min_long", "max_long", u)
		c.MinShort, c.MaxShort = p.limits(r, "min_short", "max_short", u)
		c.MinThick, c.MaxThick = p.limits(r, "min_thick", "max_thick", u)
		c.AspectMin, c.AspectMax = p.aspects(r)
		c.Even, c.MaxBump = p.evenness(r, u)
		out = append(out, c)
	}
	return out, append(p.probs, sameRanks(out)...)
}

// limit reads a measurement above zero; an empty cell is 0.
func (p *parser) limit(r row, column string, u length.Unit) length.Length {
	if r[column].text == "" {
		return 0
	}
	return p.length(r, column, u)
}

// limits reads a smallest and a largest measurement.
func (p *parser) limits(r row, low, high string, u length.Unit) (least, most length.Length) {
	least, most = p.limit(r, low, u), p.limit(r, high, u)
	if most > 0 && most < least {
		p.add("table-order", r[high].where, low+" at most as long as "+high,
			"%s is %s, which is shorter than %s, %s", high, r[high].text, low, r[low].text)
	}
	return least, most
}

// GramsPerOunce is how many grams one ounce has, exactly: 1/16 of the international pound of 453.59237 g (1959).
const GramsPerOunce = 453.59237 / 16

// grams reads a weight in g, or in oz where it says so; an empty cell is 0.
func (p *parser) grams(r row, column string) float64 {
	c := r[column]
	if c.text == "" {
		return 0
	}
	number, factor := strings.TrimSuffix(c.text, "g"), 1.0
	if rest, ok := strings.CutSuffix(c.text, "oz"); ok {
		number, factor = rest, GramsPerOunce
	}
	if n, ok := p.number(strings.TrimSpace(number), 0, 100_000); ok {
		return n * factor
	}
	p.add("table-cell", c.where, "a weight above 0 and at most 100000, in g or oz: 20, 3.5 oz", "%s is %q", column, c.text)
	return 0
}

// number reads a number above low and at most high.
func (p *parser) number(text string, low, high float64) (float64, bool) {
	n, err := strconv.ParseFloat(text, 64)
	return n, err == nil && n > low && n <= high // NaN is neither
}

// aspects reads the bounds of the ratio of the long side to the short side; an empty cell is 0.
func (p *parser) aspects(r row) (least, most float64) {
	var out [2]float64
	for i, column := range []string{"aspect_min", "aspect_max"} {
		c := r[column]
		if c.text == "" {
			continue
		}
		n, ok := p.number(c.text, 0, 100)
		if !ok || n < 1 {
			p.add("table-cell", c.where, "the long side divided by the short side, from 1 to 100, or nothing", "%s is %q", column, c.text)
			continue
		}
		out[i] = n
	}
	if out[1] > 0 && out[1] < out[0] {
		p.add("table-order", r["aspect_max"].where, "aspect_min at most as large as aspect_max",
			"aspect_max is %s, which is less than aspect_min, %s", r["aspect_max"].text, r["aspect_min"].text)
	}
	return out[0], out[1]
}

// yes reads a cell that says yes or nothing.
func (p *parser) yes(r row, column string) bool {
	c := r[column]
	if c.text != "" && c.text != "yes" {
		p.add("table-cell", c.where, "yes, or nothing", "%s is %q", column, c.text)
	}
	return c.text == "yes"
}

// evenness reads the column even: nothing, yes, or how much thicker than the rest a place may be.
func (p *parser) evenness(r row, u length.Unit) (even bool, most length.Length) {
	switch r["even"].text {
	case "", "yes":
		return r["even"].text == "yes", 0
	}
	return true, p.length(r, "even", u)
}

// rank reads the place of a class in its service.
func (p *parser) rank(r row) int {
	n, err := strconv.Atoi(r["rank"].text)
	if err != nil || n < 1 || n > 1000 {
		p.add("table-cell", r["rank"].where, "a whole number from 1, the lowest class, to 1000", "rank is %q", r["rank"].text)
		return 0
	}
	return n
}

// sameRanks finds classes that share an id or a place in their service.
func sameRanks(classes []MailClass) problem.List {
	var probs problem.List
	first := map[string]MailClass{}
	taken := func(key, what, needs string, c MailClass) {
		if before, twice := first[key]; twice {
			probs.Add(problem.Problem{Rule: "table-name", Where: c.Where, What: what, Needs: needs,
				Notes: []problem.Note{{Where: before.Where, What: "it stands here already"}}})
		}
		first[key] = c
	}
	for _, c := range classes {
		taken("id "+fold(c.ID), fmt.Sprintf("the id %q is taken", c.ID), "an id of its own for each class", c)
		if c.Rank > 0 {
			taken(fmt.Sprintf("rank %q %q %d", fold(c.Operator), fold(c.Service), c.Rank),
				fmt.Sprintf("rank %d of %s, %s is taken", c.Rank, c.Operator, c.Service), "a rank of its own for each class of a service", c)
		}
	}
	return probs
}

// several splits a cell at its semicolons.
func several(text string) []string {
	var out []string
	for s := range strings.SplitSeq(text, ";") {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// MailClasses returns every class of every mail service, service by service, lowest first.
func (t *Table) MailClasses() []MailClass { return slices.Clone(t.mail) }

// Ladders returns the services of every operator, in the order of the table.
func (t *Table) Ladders() []Ladder {
	var out []Ladder
	at := map[[2]string]int{}
	for _, c := range t.mail {
		service := [2]string{fold(c.Operator), fold(c.Service)}
		i, ok := at[service]
		if !ok {
			i = len(out)
			at[service] = i
			out = append(out, Ladder{Operator: c.Operator, Country: c.Country, Service: c.Service})
		}
		out[i].Classes = append(out[i].Classes, c)
	}
	for _, l := range out {
		slices.SortStableFunc(l.Classes, func(a, b MailClass) int { return cmp.Compare(a.Rank, b.Rank) })
	}
	return out
}

// LaddersOf returns the services of one operator, by its name, its country or that country's two letters. Upper and lower
// case and spaces do not matter. Errors: *UnknownError.
func (t *Table) LaddersOf(operator string) ([]Ladder, error) {
	of := map[string]bool{} // operators that go by the name
	var known []string
	for _, c := range t.mail {
		names := append([]string{c.Operator, c.Country}, c.Also...)
		if slices.ContainsFunc(names, func(n string) bool { return fold(n) == fold(operator) }) {
			of[fold(c.Operator)] = true
		}
		for _, n := range names {
			if len(n) > 3 { // of two letters each differs from each by no more than a slip
				known = append(known, n)
			}
		}
	}
	if len(of) == 0 {
		near, _ := problem.Suggest(operator, known)
		return nil, &UnknownError{Kind: "mail operator", Name: operator, Near: near}
	}
	return slices.DeleteFunc(t.Ladders(), func(l Ladder) bool { return !of[fold(l.Operator)] }), nil
}
