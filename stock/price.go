package stock

import (
	"cmp"
	"slices"
	"strconv"

	"foldwright/problem"
)

// Price is what a person pays for a class up to a weight. None is built in.
type Price struct {
	// Class is the ID of the mail class.
	Class string
	// UpToGrams is the weight up to which it holds; 0 for any weight that the class takes.
	UpToGrams float64
	// Amount is a plain decimal number as it was written, Currency a word of the person's own, AsOf the date.
	Amount, Currency, AsOf string
	Where                  problem.Place
}

// Prices is a price table of a person's own.
type Prices struct{ rows []Price }

const priceColumns = "class,up_to,price,currency,as_of"

// ReadPrices reads a person's own price table: CSV with the columns class (an id of the mail classes given), up_to (a weight
// in g or oz; may be empty), price, currency and as_of. file names the text in messages. Rows with a problem are left out.
func ReadPrices(file string, text []byte, classes []MailClass) (*Prices, problem.List) {
	g, probs := readRows(file, text, priceColumns)
	ids := map[string]bool{}
	for _, c := range classes {
		ids[c.ID] = true
	}
	out := &Prices{}
	for _, r := range g.rows {
		p := &parser{}
		price := Price{Class: p.text(r, "class"), UpToGrams: p.grams(r, "up_to"), Amount: r["price"].text,
			Currency: p.text(r, "currency"), AsOf: p.text(r, "as_of"), Where: r["class"].where}
		if price.Class != "" && !ids[price.Class] {
			p.add("table-name", r["class"].where, "an id from the first column of mail.csv",
				"there is no mail class %q%s", price.Class, didYouMean(price.Class, sortedKeys(ids)))
		}
		if n, err := strconv.ParseFloat(price.Amount, 64); err != nil || !(n >= 0 && n <= 1e9) {
			p.add("table-cell", r["price"].where, "a number with a decimal point, such as 1.85", "the price is %q", price.Amount)
		}
		if i := slices.IndexFunc(out.rows, func(o Price) bool { return o.Class == price.Class && o.UpToGrams == price.UpToGrams }); i >= 0 {
			p.probs.Add(problem.Problem{Rule: "table-name", Where: price.Where, What: "this class has a price up to this weight already",
				Needs: "each weight of a class once", Notes: []problem.Note{{Where: out.rows[i].Where, What: "it stands here already"}}})
		}
		if len(p.probs) == 0 {
			out.rows = append(out.rows, price)
		}
		probs = append(probs, p.probs...)
	}
	return out, probs.Sorted()
}

// For returns the price of a class at a weight: of its rows that reach so far, the one that reaches least. ok is false where
// the person wrote none.
func (p *Prices) For(class string, grams float64) (price Price, ok bool) {
	if p == nil {
		return Price{}, false
	}
	var rows []Price
	for _, r := range p.rows {
		if r.Class == class && (r.UpToGrams == 0 || grams <= r.UpToGrams) {
			rows = append(rows, r)
		}
	}
	if len(rows) == 0 {
		return Price{}, false
	}
	return slices.MinFunc(rows, func(a, b Price) int {
		if (a.UpToGrams == 0) != (b.UpToGrams == 0) { // without a bound it reaches furthest
			return cmp.Compare(b.UpToGrams, a.UpToGrams)
		}
		return cmp.Compare(a.UpToGrams, b.UpToGrams)
	}), true
}
