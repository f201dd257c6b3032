package stock

import (
	"strings"
	"testing"
)

const priceRows = priceColumns + "\nnz-medium,20,1.20,shells,2026-11\nnz-medium,,3,shells,2026-11\nnz-medium,50 g,2.40,shells,2026-11\nnz-large,1 oz,4,shells,2026-11\n"

func TestReadPrices(t *testing.T) {
	prices, probs := ReadPrices("prices.csv", []byte(priceRows), load(t).MailClasses())
	if len(probs) > 0 {
		t.Fatal(said(probs))
	}
	for _, c := range []struct {
		class string
		grams float64
		want  string
	}{
		{"nz-medium", 1, "1.20"}, {"nz-medium", 20, "1.20"}, {"nz-medium", 20.1, "2.40"}, {"nz-medium", 51, "3"},
		{"nz-large", 28.3, "4"}, {"nz-large", 28.4, ""}, {"nz-over", 5, ""},
	} {
		got, ok := prices.For(c.class, c.grams)
		if got.Amount != c.want || ok != (c.want != "") {
			t.Errorf("%s at %v g: got %+v, %v; want %q", c.class, c.grams, got, ok, c.want)
		}
	}
	if _, ok := (*Prices)(nil).For("nz-medium", 1); ok {
		t.Error("got a price of no table")
	}
}

func TestReadPrices_problems(t *testing.T) {
	for _, c := range []struct{ row, want string }{
		{"nz-medum,20,1,shells,2026", `prices.csv:2:1  there is no mail class "nz-medum"; did you mean "nz-medium"? [table-name]
    needs: an id from the first column of mail.csv`},
		{"nz-medium,20,\"1,20\",shells,2026", `prices.csv:2:14  the price is "1,20" [table-cell]
    needs: a number with a decimal point, such as 1.85`},
		{"nz-medium,20,NaN,shells,2026", `prices.csv:2:14  the price is "NaN" [table-cell]
    needs: a number with a decimal point, such as 1.85`},
		{"nz-medium,-2,1,shells,2026", `prices.csv:2:11  up_to is "-2" [table-cell]
    needs: a weight above 0 and at most 100000, in g or oz: 20, 3.5 oz`},
		{"nz-large,20,1,shells,", `prices.csv:2:22  the cell "as_of" is empty [table-cell]
    needs: a value in this column`},
		{"nz-over,100,2,shells,2026\nnz-over,100 g,1,shells,2026", `prices.csv:3:1  this class has a price up to this weight already [table-name]
    needs: each weight of a class once
    prices.csv:2:1  it stands here already`},
	} {
		prices, probs := ReadPrices("prices.csv", []byte(priceColumns+"\n"+c.row+"\nch-letter,,9,shells,2026\n"), load(t).MailClasses())
		if said(probs) != c.want {
			t.Errorf("%s: got\n%s\nwant\n%s", c.row, said(probs), c.want)
		}
		if p, ok := prices.For("ch-letter", 10); !ok || p.Amount != "9" {
			t.Errorf("%s: the row beside it: got %+v, %v", c.row, p, ok)
		}
	}
}

// FuzzReadPrices: whatever the file holds, there is no panic, problems have a place, and a price is one of its cells.
func FuzzReadPrices(f *testing.F) {
	classes := load(f).MailClasses()
	for _, s := range []string{"", priceColumns, priceRows, strings.ReplaceAll(priceRows, ",", "\t"), priceColumns + "\nnz-over,1e400 oz,1e5,\"s\",x"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		prices, probs := ReadPrices("prices.csv", text, classes)
		wellPlaced(t, probs)
		for _, c := range classes {
			if p, ok := prices.For(c.ID, 10); ok && (p.Class != c.ID || p.Amount == "" || p.UpToGrams != 0 && p.UpToGrams < 10) {
				t.Errorf("got %+v", p)
			}
		}
	})
}
