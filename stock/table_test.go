package stock

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"foldwright/length"
)

func load(t testing.TB) *Table {
	t.Helper()
	table, err := Load()
	if err != nil {
		t.Fatal(err)
	}
	return table
}

// TestLoad asserts what the package comment says of every row: it can be found under its name, and its sources
// are known. The counts keep a table from shrinking unseen.
func TestLoad(t *testing.T) {
	table := load(t)
	for _, c := range []struct {
		name      string
		got, want int
	}{
		{"sheets", len(table.Sheets()), 60}, {"envelopes", len(table.Envelopes()), 42},
		{"inserts", len(table.Inserts()), 15}, {"calipers", len(table.Calipers()), 53}, {"sources", len(table.sources), 47},
		{"mail classes", len(table.MailClasses()), 35},
	} {
		if c.got != c.want {
			t.Errorf("%s: got %d rows, want %d", c.name, c.got, c.want)
		}
	}
	findAll(t, table)
	used := map[string]bool{}
	for _, o := range origins(table) {
		if len(o.Sources) == 0 {
			t.Errorf("%v: no source", o.Where)
		}
		for _, id := range o.Sources {
			used[id] = true
			if s, err := table.Source(id); err != nil || s.Citation == "" || s.AsOf == "" {
				t.Errorf("%v: source %q: got %+v, %v", o.Where, id, s, err)
			}
		}
	}
	for id := range table.sources {
		if !used[id] {
			t.Errorf("source %q is used by no row", id)
		}
	}
}

func origins(t *Table) []Origin {
	var out []Origin
	for _, x := range t.Sheets() {
		out = append(out, x.Origin)
	}
	for _, x := range t.Envelopes() {
		out = append(out, x.Origin)
	}
	for _, x := range t.Inserts() {
		out = append(out, x.Origin)
	}
	for _, x := range t.Calipers() {
		out = append(out, x.Origin)
	}
	for _, x := range t.MailClasses() {
		out = append(out, x.Origin)
	}
	return out
}

func TestTable_names(t *testing.T) {
	table := load(t)
	sheet := func(n string) (string, error) { x, err := table.Sheet(n); return x.ID, err }
	envelope := func(n string) (string, error) { x, err := table.Envelope(n); return x.ID, err }
	insert := func(n string) (string, error) { x, err := table.Insert(n); return x.ID, err }
	for _, c := range []struct {
		find      func(string) (string, error)
		name      string
		want, err string
	}{
		{sheet, "A4", "iso-a4", ""},
		{sheet, "a4", "iso-a4", ""},
		{sheet, "ISO A4", "iso-a4", ""},
		{sheet, "letter", "na-letter", ""},
		{sheet, "na-letter", "na-letter", ""},
		{sheet, "12x12", "craft-12x12", ""},
		{sheet, "12 × 12 in", "craft-12x12", ""},
		{sheet, "B5", "iso-b5", ""},
		{sheet, "JIS B5", "jis-b5", ""},
		{sheet, "A7", "iso-a7", ""},
		{envelope, "A7", "na-a7", ""},
		{envelope, "#10", "na-10", ""},
		{envelope, "no. 10", "na-10", ""},
		{envelope, "c6", "iso-c6", ""},
		{insert, "a7 card", "a7-card", ""},
		{insert, "5 x 7", "a7-card", ""},
		{sheet, "C6", "", `there is no sheet "C6"; that is the name of an envelope`},
		{envelope, "Letter", "", `there is no envelope "Letter"; that is the name of a sheet`},
		{sheet, "A7 card", "", `there is no sheet "A7 card"; that is the name of a folded card`},
		{sheet, "Leter", "", `there is no sheet "Leter"; did you mean "Letter"?`},
		{envelope, "Slimlin", "", `there is no envelope "Slimlin"; did you mean "Slimline"?`},
		{insert, "Sqare 6 in card", "", `there is no folded card "Sqare 6 in card"; did you mean "Square 6 in card"?`},
		{sheet, "quarto", "", `there is no sheet "quarto"`},
		{sheet, "", "", `there is no sheet ""`},
	} {
		got, err := c.find(c.name)
		if got != c.want || fmt.Sprint(err) != c.err && (err != nil || c.err != "") {
			t.Errorf("%q: got %q, %v; want %q, %q", c.name, got, err, c.want, c.err)
		}
	}
	if _, err := table.Source("PWD"); fmt.Sprint(err) != `there is no source "PWD"; did you mean "PWG"?` {
		t.Errorf("got %v", err)
	}
}

// files returns the built-in tables, with one of them replaced; an empty text takes it away.
func files(t testing.TB, name, text string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	for _, n := range []string{"papers.csv", "envelopes.csv", "inserts.csv", "caliper.csv", "clearance.csv", "mail.csv", "sources.csv"} {
		b, err := fs.ReadFile(builtIn, "data/"+n)
		if err != nil {
			t.Fatal(err)
		}
		out[n] = &fstest.MapFile{Data: b}
	}
	if text == "" {
		delete(out, name)
	} else {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

const (
	papersHead  = "id,name,also,system,unit,short,long,status,note,source\n"
	insertsHead = "id,name,also,unit,folded_short,folded_long,flat_short,flat_long,envelope,status,note,source\n"
	caliperHead = "material,gsm,unit,low,typical,high,status,note,source\n"
)

func TestRead_problems(t *testing.T) {
	for _, c := range []struct{ name, file, text, want string }{
		{"no file", "papers.csv", "", `papers.csv  the table cannot be read: open papers.csv: file does not exist [table-file]
    needs: a table with this name in the folder`},
		{"nothing in it", "papers.csv", "# only a remark\n", `papers.csv  the table is empty [table-empty]
    needs: a line with the names of the columns: id,name,also,system,unit,short,long,status,note,source`},
		{"no rows", "papers.csv", papersHead, `papers.csv  the table has no rows [table-empty]
    needs: at least one row below the names of the columns`},
		{"semicolons", "papers.csv", "id;name;also\na;b;c\n", `papers.csv:1:1  the columns are not separated by commas [table-column]
    needs: commas between the columns
    try:   save the table as CSV with commas`},
		{"a column misspelt", "papers.csv", strings.Replace(papersHead, "short", "shrot", 1), `papers.csv:1:1  the column "short" is missing [table-column]
    needs: the columns id,name,also,system,unit,short,long,status,note,source
papers.csv:1:26  there is no column "shrot" in this table; did you mean "short"? [table-column]
    needs: the columns id,name,also,system,unit,short,long,status,note,source`},
		{"a cell too few, and the next row is still read", "papers.csv", papersHead + "a,Sheet,,trade,mm,10\nb,Größe,,trade,mm,1O,20,verified,,PWG\n", `papers.csv:2:1  the row has 6 cells, the header 10 [table-row]
    needs: as many cells as columns; a cell with a comma in it stands in quotation marks
papers.csv:3:19  short: "1O" is not a measurement; write 10, 10.5, 10 1/2, 10½ or 1/8, with mm, cm, in or " if you like [table-cell]`},
		{"not exact", "papers.csv", papersHead + "a,Third,,trade,in,1/3,2,verified,,PWG\n", `papers.csv:2:19  short: 1/3 in cannot be held exactly; the nearest that can are 8.466666 mm and 8.466667 mm [table-cell]`},
		{"no length at all", "papers.csv", papersHead + "a,Flat,,trade,mm,0,2,verified,,PWG\n", `papers.csv:2:18  short is 0 [table-cell]
    needs: a measurement above 0`},
		{"long side first", "papers.csv", papersHead + "a,Tall,,trade,mm,20,10,verified,,PWG\n", `papers.csv:2:21  long is 10, which is shorter than short, 20 [table-order]
    needs: short at most as long as long`},
		{"unit, status and source", "papers.csv", papersHead + "a,Odd,,trade,inch,1,2,verifed,,PWD\n", `papers.csv:2:14  "inch" is not a unit [table-cell]
    needs: mm, cm or in
papers.csv:2:23  "verifed" is not a status; did you mean "verified"? [table-cell]
    needs: verified, verified (secondary), derived, common practice, from memory
papers.csv:2:32  there is no source "PWD"; did you mean "PWG"? [table-source]
    needs: an id from the first column of sources.csv`},
		{"no source, no system", "papers.csv", papersHead + "a,Odd,,,mm,1,2,verified,,\n", `papers.csv:2:8  the cell "system" is empty [table-cell]
    needs: a value in this column
papers.csv:2:26  the cell "source" is empty [table-cell]
    needs: a value in this column`},
		{"a name taken", "papers.csv", papersHead + "a,Odd,Other,trade,mm,1,2,verified,,PWG\nb,OTHER,,trade,mm,1,2,verified,,PWG\n", `papers.csv:3:1  the name "OTHER" is taken [table-name]
    needs: names of its own for each row
    papers.csv:2:1  it stands here already`},
		{"a quotation mark not closed", "papers.csv", papersHead + "a,\"Odd,,trade,mm,1,2,verified,,PWG\n", `papers.csv:2:1  a cell of this row opens with a quotation mark that is not closed, or text follows behind it [table-quote]
    needs: a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: "a ""long"" card"`},
		{"a quotation mark inside", "papers.csv", papersHead + "a,9\" sheet,,trade,mm,1,2,verified,,PWG\n", `papers.csv:2:4  a quotation mark stands inside a cell [table-quote]
    needs: a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: "a ""long"" card"`},
		{"not UTF-8", "papers.csv", papersHead + "a,Gr\xf6\xdfe,,trade,mm,1,2,verified,,PWG\n", `papers.csv:2:1  the line holds characters that are not UTF-8 [table-text]
    needs: a file saved as UTF-8`},
		{"too long", "papers.csv", papersHead + strings.Repeat("#", maxTable), `papers.csv  the table is 1048631 bytes long [table-size]
    needs: 1048576 bytes or fewer`},
		{"an envelope that is not there", "inserts.csv", insertsHead + "a,Card,,in,5,7,7,10,na-a77,verified,,ENV1\n", `inserts.csv:2:21  there is no envelope "na-a77"; did you mean "na-a7"? [table-name]
    needs: an id from the first column of envelopes.csv`},
		{"larger than its envelope", "inserts.csv", insertsHead + "a,Card,,in,5 1/2,7,7,11,na-a7,verified,,ENV1\n", `inserts.csv:2:25  the card is larger than the envelope A7, which is 5 1/4 in x 7 1/4 in [table-order]
    needs: a folded size within the envelope's`},
		{"a grammage in words", "caliper.csv", caliperHead + "card,heavy,mm,0.3,0.31,0.32,verified,,CAL1\n", `caliper.csv:2:6  the grammage is "heavy" [table-cell]
    needs: a number above 0 and at most 5000, or nothing`},
		{"a grammage twice", "caliper.csv", caliperHead + "card,200,mm,0.3,0.31,0.32,verified,,CAL1\nCard,200.0,mm,0.3,0.31,0.32,verified,,CAL1\n", `caliper.csv:3:1  Card of this grammage is there twice [table-name]
    needs: each grammage of a material once
    caliper.csv:2:1  the first row is here`},
		{"thickness out of order", "caliper.csv", caliperHead + "card,200,mm,0.3,0.31,0.30,verified,,CAL1\n", `caliper.csv:2:22  high is 0.30, which is shorter than typical, 0.31 [table-order]
    needs: typical at most as long as high`},
	} {
		t.Run(c.name, func(t *testing.T) {
			table, err := Read(files(t, c.file, c.text))
			if table != nil || err == nil {
				t.Fatalf("got a table and %v, want no table and an error", err)
			}
			// other tables may refer to rows that the replaced one no longer has; they are not what is asked here
			var own []string
			for _, p := range tableError(t, err).Problems {
				if p.Where.File == c.file {
					own = append(own, p.String())
				}
			}
			if got := strings.Join(own, "\n"); got != c.want {
				t.Errorf("got\n%s\nwant\n%s", got, c.want)
			}
		})
	}
}

func tableError(t testing.TB, err error) *TableError {
	t.Helper()
	var e *TableError
	if !errors.As(err, &e) {
		t.Fatalf("got %T %v, want *TableError", err, err)
	}
	return e
}

// TestRead_oneMissing shows that one table that is not there is one problem, not one for every row that refers to it.
func TestRead_oneMissing(t *testing.T) {
	for _, name := range []string{"papers.csv", "envelopes.csv", "inserts.csv", "caliper.csv", "clearance.csv", "mail.csv", "sources.csv"} {
		_, err := Read(files(t, name, ""))
		if e := tableError(t, err); len(e.Problems) != 1 || e.Problems[0].Where.File != name {
			t.Errorf("%s: got\n%v\nwant one problem", name, e)
		}
	}
}

func TestRead_spreadsheet(t *testing.T) {
	text := "\uFEFF" + papersHead + `a,"Harbour sheet, large",quay,trade,in,10 1/2,10½ in,common practice,,common-practice` + "\n"
	table, err := Read(files(t, "papers.csv", strings.ReplaceAll(text, "\n", "\r\n")))
	if err != nil {
		t.Fatal(err)
	}
	s, err := table.Sheet("QUAY")
	if err != nil || s.Name != "Harbour sheet, large" || s.Short != 21*length.Inch/2 || s.Long != s.Short || s.Status != CommonPractice {
		t.Errorf("got %+v, %v", s, err)
	}
	if got := s.Where.String(); got != "papers.csv:2:1" {
		t.Errorf("got place %s, want papers.csv:2:1", got)
	}
}

// small holds tables of one row each, so that a fuzzed table is most of the work.
func small() fstest.MapFS {
	file := func(s string) *fstest.MapFile { return &fstest.MapFile{Data: []byte(s)} }
	return fstest.MapFS{
		"papers.csv":    file(papersHead + "na-letter,US Letter,Letter,trade,in,8.5,11,verified,,PWG\n"),
		"envelopes.csv": file("id,name,also,family,unit,short,long,status,note,source\nna-a7,A7,,trade,in,5.25,7.25,verified,,PWG\n"),
		"inserts.csv":   file(insertsHead + "a7-card,A7 card,5 x 7,in,5,7,7,10,na-a7,verified,\"folded, once\",PWG\n"),
		"caliper.csv":   file(caliperHead + "card,200,mm,0.2,0.24,0.27,common practice,,PWG\ncard,240,mm,0.24,0.28,0.3,verified,,PWG\n"),
		"clearance.csv": file("unit,clearance,status,note,source\nin,0.25,verified,,PWG\nmm,6,verified,,PWG\n"),
		"mail.csv":      file(mailColumns + "\nquay-letter,Quay mail,Harbour,QY,domestic,1,Letter,mm,140,90,,0.18,235,125,5,900,3.5 oz,1.4,2.5,yes,2,look,2026,verified,,PWG\n"),
		"sources.csv":   file("id,kind,citation,address,as_of,note\nPWG,table,media names,,2025,\n"),
	}
}

// FuzzRead reads tables that somebody has edited. Whatever they hold: no panic; a table or problems, never both; every
// problem names its file and its rule; and in a table every row is found under its names.
func FuzzRead(f *testing.F) {
	all := []string{"papers.csv", "envelopes.csv", "inserts.csv", "caliper.csv", "clearance.csv", "mail.csv", "sources.csv"}
	if _, err := Read(small()); err != nil {
		f.Fatal(err)
	}
	whole := files(f, "", "").(fstest.MapFS)
	for i, n := range all {
		f.Add(uint8(i), small()[n].Data)
		f.Add(uint8(i), whole[n].Data)
	}
	for _, s := range []string{"", "a", papersHead, "\uFEFF" + papersHead, papersHead + "a,b,c;d,e,in,1,2,verified,,PWG\n",
		papersHead + "a,\"b\n\"\"\",,e,mm,1,2,verified,,PWG", "a;b\n", caliperHead + "card,NaN,mm,1,1,1,verified,,PWG\n", "\"", "#\r\n\r"} {
		f.Add(uint8(0), []byte(s))
		f.Add(uint8(3), []byte(s))
	}
	f.Fuzz(func(t *testing.T, which uint8, text []byte) {
		dir := small()
		dir[all[int(which)%len(all)]] = &fstest.MapFile{Data: text}
		table, err := Read(dir)
		if (table == nil) == (err == nil) {
			t.Fatalf("got table %v and error %v, want exactly one", table, err)
		}
		if err == nil {
			findAll(t, table)
			return
		}
		for _, p := range tableError(t, err).Problems {
			if p.Rule == "" || p.What == "" || p.Where.File == "" || p.Where.Line > 0 && p.Where.Column < 1 {
				t.Errorf("got %+v, want a rule, a text and a place", p)
			}
		}
	})
}

// findAll looks every row up by its own name.
func findAll(t *testing.T, table *Table) {
	for _, s := range table.Sheets() {
		if got, err := table.Sheet(s.Name); err != nil || got.ID != s.ID || s.Short <= 0 || s.Long < s.Short {
			t.Errorf("%q: got %+v, %v", s.Name, got, err)
		}
	}
	for _, e := range table.Envelopes() {
		if got, err := table.Envelope(e.ID); err != nil || got.ID != e.ID {
			t.Errorf("%q: got %+v, %v", e.ID, got, err)
		}
	}
	for _, c := range table.Calipers() {
		if got, err := table.Caliper(c.Material, c.Grammage); err != nil || got.Typical != c.Typical {
			t.Errorf("%q at %v: got %+v, %v", c.Material, c.Grammage, got, err)
		}
	}
}
