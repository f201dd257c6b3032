package kit

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"foldwright/card"
	"foldwright/length"
	"foldwright/problem"
)

// Paper is one kind of sheet in a drawer.
type Paper struct {
	// Stock is the name or the label by which recipes call it.
	Stock string
	// W runs across, H up, as the sheet is laid before the trimmer.
	W, H length.Length
	Unit length.Unit
	// Grain is card.GrainAcross (along W), card.GrainUp (along H), or not known.
	Grain card.Grain
	// Directed says that its pattern has a direction, so that nothing may be turned.
	Directed bool
	// OnHand is how many there are.
	OnHand int
	// Pack is how many a pack holds in which more can be bought; 0 where it cannot.
	Pack int
	// Price of a pack, in hundredths of the user's currency.
	Price int64
	Note  string
	Where problem.Place
}

// Drawer is what somebody has, and can buy, of each stock.
type Drawer struct{ Papers []Paper }

// Columns are those of a drawer file, in any order; stock, width and height must be there.
const Columns = "stock,width,height,unit,grain,direction,on_hand,pack,price,note"

// Limits of a drawer file.
const (
	mostRows   = 5000
	mostOnHand = 1_000_000
	mostPrice  = 10_000_000 // hundredths
)

// ReadDrawer reads a drawer file: CSV with a line of column names (see Columns); lines that start with # are remarks.
// Lengths are written as in recipes, in the row's unit. Rows with a mistake are left out and named; all others are kept.
//
// Problems: drawer-columns (the columns are not those of a drawer file), drawer-row (a row that cannot be read),
// drawer-cell (a value that cannot be), drawer-long (too many rows).
func ReadDrawer(file string, text []byte) (*Drawer, problem.List) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(text, []byte("\ufeff"))))
	r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = '#', -1, true
	d := &drawerReader{file: file}
	d.header(r)
	for d.columns != nil {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			line := 1
			var at *csv.ParseError
			if errors.As(err, &at) {
				line, err = at.Line, at.Err
			}
			d.report("drawer-row", line, fmt.Sprintf("the row cannot be read: %v", err), "values with commas between them, and quotes around those that hold a comma")
			break // behind a broken quote nothing can be told apart
		}
		line, _ := r.FieldPos(0)
		if len(d.out.Papers) >= mostRows {
			d.report("drawer-long", line, "the drawer holds too many rows", fmt.Sprintf("at most %d", mostRows))
			break
		}
		d.row(line, record)
	}
	return &d.out, d.problems.Sorted()
}

type drawerReader struct {
	file     string
	columns  []string
	out      Drawer
	problems problem.List
	line     int
	record   []string
	failed   bool
}

func (d *drawerReader) report(rule string, line int, what, needs string) {
	d.failed = true
	d.problems.Add(problem.Problem{Rule: rule, Where: problem.Place{File: d.file, Line: line, Column: 1}, What: what, Needs: needs})
}

func (d *drawerReader) header(r *csv.Reader) {
	record, err := r.Read()
	if err != nil {
		d.report("drawer-columns", 1, "the file does not start with the names of its columns", Columns)
		return
	}
	known := strings.Split(Columns, ",")
	for i, name := range record {
		name = strings.ToLower(strings.TrimSpace(name))
		record[i] = name
		if slices.Contains(known, name) && !slices.Contains(record[:i], name) {
			continue
		}
		what := fmt.Sprintf("there is no column %s, or it stands there twice", problem.Quote(name))
		if near, ok := problem.Suggest(name, known); ok && near != name {
			what += fmt.Sprintf("; did you mean %q?", near)
		}
		d.report("drawer-columns", 1, what, "columns out of "+Columns)
		return
	}
	for _, must := range []string{"stock", "width", "height"} {
		if !slices.Contains(record, must) {
			d.report("drawer-columns", 1, "the column "+must+" is missing", Columns)
			return
		}
	}
	d.columns = record
}

// cell returns the value of a column in the row at hand, "" where the row or the file does not have it.
func (d *drawerReader) cell(column string) string {
	i := slices.Index(d.columns, column)
	if i < 0 || i >= len(d.record) {
		return ""
	}
	return strings.TrimSpace(d.record[i])
}

func (d *drawerReader) row(line int, record []string) {
	d.line, d.record, d.failed = line, record, false
	if len(record) > len(d.columns) {
		d.report("drawer-row", line, fmt.Sprintf("the row has %d values for %d columns", len(record), len(d.columns)), "one value for each column; quotes around one that holds a comma")
		return
	}
	p := Paper{Stock: d.cell("stock"), Note: d.cell("note"), Where: problem.Place{File: d.file, Line: line, Column: 1}}
	if p.Stock == "" {
		d.report("drawer-cell", line, "the row names no stock", "the name or the label by which recipes call it")
	}
	p.Unit = d.unit()
	p.W, p.H = d.length("width", p.Unit), d.length("height", p.Unit)
	p.Grain = d.grain(p)
	p.Directed = d.choice("direction", map[string]int{"": 0, "no": 0, "yes": 1}) == 1
	p.OnHand = d.count("on_hand")
	p.Pack = d.count("pack")
	p.Price = d.price()
	if !d.failed {
		d.out.Papers = append(d.out.Papers, p)
	}
}

func (d *drawerReader) wrong(column, needs string) {
	d.report("drawer-cell", d.line, column+" is "+problem.Quote(d.cell(column)), needs)
}

// choice reads a word out of a few; the message lists them in the order of their numbers.
func (d *drawerReader) choice(column string, words map[string]int) int {
	v, ok := words[strings.ToLower(d.cell(column))]
	if !ok {
		var names []string
		for w := range words {
			if w != "" {
				names = append(names, w)
			}
		}
		slices.Sort(names)
		d.wrong(column, "one of "+strings.Join(names, ", "))
	}
	return v
}

func (d *drawerReader) unit() length.Unit {
	return []length.Unit{length.MM, length.CM, length.IN}[d.choice("unit", map[string]int{"": 0, "mm": 0, "cm": 1, "in": 2})]
}

func (d *drawerReader) length(column string, unit length.Unit) length.Length {
	l, err := length.Parse(d.cell(column), unit)
	if err != nil || l <= 0 || l > length.Max {
		d.wrong(column, "a length above 0, such as 210, 8 1/2 or 12 in, at most "+length.Length(length.Max).Human(unit))
		return 0
	}
	return l
}

// grain reads along which side the fibres run, and turns it to the way in which the sheet is laid.
func (d *drawerReader) grain(p Paper) card.Grain {
	g := d.choice("grain", map[string]int{"": 0, "unknown": 0, "long": 1, "short": 2, "across": 3, "up": 4})
	switch g {
	case 0:
		return card.GrainUnknown
	case 3:
		return card.GrainAcross
	case 4:
		return card.GrainUp
	}
	if p.W == p.H && !d.failed {
		d.wrong("grain", "across, up or unknown for a square sheet, whose sides are alike")
		return card.GrainUnknown
	}
	if (g == 1) == (p.W > p.H) {
		return card.GrainAcross
	}
	return card.GrainUp
}

func (d *drawerReader) count(column string) int {
	text := d.cell(column)
	if text == "" {
		return 0
	}
	n, err := strconv.Atoi(text)
	if err != nil || n < 0 || n > mostOnHand {
		d.wrong(column, fmt.Sprintf("a whole number from 0 to %d", mostOnHand))
		return 0
	}
	return n
}

func (d *drawerReader) price() int64 {
	text := d.cell("price")
	if text == "" {
		return 0
	}
	whole, cents, _ := strings.Cut(text, ".")
	for len(cents) < 2 {
		cents += "0"
	}
	n, err := strconv.ParseUint(whole+cents, 10, 63)
	if err != nil || len(cents) != 2 || whole == "" || n > mostPrice {
		d.wrong("price", "a price of a pack with a decimal point, such as 12.50")
		return 0
	}
	return int64(n)
}
