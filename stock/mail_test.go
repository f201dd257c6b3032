package stock

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"foldwright/length"
	"foldwright/problem"
)

func TestTable_LaddersOf(t *testing.T) {
	table := load(t)
	for _, c := range []struct{ name, want string }{
		{"deutsche post", "dp-standard dp-kompakt dp-gross dp-maxi"},
		{"DE", "dp-standard dp-kompakt dp-gross dp-maxi"},
		{"Germany", "dp-standard dp-kompakt dp-gross dp-maxi"},
		{"uk", "rm-letter rm-large rm-small"},
		{"Japan", "jp-teikei jp-teikeigai-in jp-teikeigai-out | jp-std-int"},
		{"abroad", "upu-std upu-letter"},
		{"Deutche Post", `there is no mail operator "Deutche Post"; did you mean "Deutsche Post"?`},
		{"Irland", `there is no mail operator "Irland"; did you mean "Ireland"?`},
		{"XX", `there is no mail operator "XX"`},
		{"", `there is no mail operator ""`},
	} {
		ladders, err := table.LaddersOf(c.name)
		var ids []string
		for i, l := range ladders {
			if i > 0 {
				ids = append(ids, "|")
			}
			for _, class := range l.Classes {
				ids = append(ids, class.ID)
			}
		}
		got := strings.Join(ids, " ")
		if err != nil {
			got = err.Error()
		}
		if got != c.want {
			t.Errorf("%q: got %s, want %s", c.name, got, c.want)
		}
	}
}

// TestMail_ladders: a higher class of a service takes no smaller or lighter thing than the one below it.
func TestMail_ladders(t *testing.T) {
	checked := 0
	for _, l := range load(t).Ladders() {
		for i := 1; i < len(l.Classes); i++ {
			a, b := l.Classes[i-1], l.Classes[i]
			checked++
			for what, pair := range map[string][2]float64{
				"long": {a.MaxLong.MM(), b.MaxLong.MM()}, "short": {a.MaxShort.MM(), b.MaxShort.MM()},
				"thick": {a.MaxThick.MM(), b.MaxThick.MM()}, "weight": {a.MaxGrams, b.MaxGrams},
			} {
				if pair[1] != 0 && pair[1] < pair[0] {
					t.Errorf("%s is above %s, and its %s is %v after %v", b.ID, a.ID, what, pair[1], pair[0])
				}
			}
		}
	}
	if checked != 19 {
		t.Errorf("got %d pairs, want 19", checked)
	}
}

// TestMail_values reads single cells back by hand. 3.5 oz are 99.2233 g: international pound of 0.45359237 kg (1959).
func TestMail_values(t *testing.T) {
	ladders, err := load(t).LaddersOf("USPS")
	if err != nil || len(ladders) != 1 {
		t.Fatal(ladders, err)
	}
	c := ladders[0].Classes[0]
	if math.Abs(c.MaxGrams-99.2233) > 5e-5 || c.MaxThick != length.Inch/4 || c.MinThick != 7*length.Inch/1000 ||
		c.AspectMin != 1.3 || !c.Flexible || !c.Even || c.MaxBump != 0 || c.AsOf != "2023 or later" {
		t.Errorf("got %+v", c)
	}
	if flat := ladders[0].Classes[2]; flat.MaxBump != length.Inch/4 || !flat.Even || flat.MaxLong != 15*length.Inch {
		t.Errorf("got %+v", flat)
	}
}

// own rows for a harbour's mail boat.
const boat = "boat-letter,Mail boat,,BT,domestic,1,Letter,mm,140,90,,0.18,235,125,5,,20,1.4,,yes,1.5,look,2026-11-25,verified,,own\n"

func TestTable_WithMail(t *testing.T) {
	table := load(t)
	before := len(table.MailClasses())
	more, probs := table.WithMail("boat.csv", []byte(mailColumns+"\n"+boat+
		"dp-standard,Deutsche Post,,DE,domestic,1,Standardbrief,mm,140,90,,,235,125,6,,25 g,1.4,,,,,2027-01-01,verified,,own\n"))
	if len(probs) > 0 {
		t.Fatal(probs)
	}
	if n := len(more.MailClasses()); n != before+1 || len(table.MailClasses()) != before {
		t.Errorf("got %d classes and %d in the old table, want %d and %d", n, len(table.MailClasses()), before+1, before)
	}
	ladders, err := more.LaddersOf("Germany") // its other names come from the rows that were left as they are
	if err != nil || ladders[0].Classes[0].MaxGrams != 25 || ladders[0].Classes[0].AsOf != "2027-01-01" || len(ladders[0].Classes) != 4 {
		t.Errorf("got %+v, %v", ladders, err)
	}
	if s, err := more.Source(Own); err != nil || !strings.Contains(s.Citation, "boat.csv") {
		t.Errorf("got %+v, %v", s, err)
	}
}

func TestTable_WithMail_problems(t *testing.T) {
	table := load(t)
	row := func(old, new string) string { return mailColumns + "\n" + strings.Replace(boat, old, new, 1) }
	for _, c := range []struct{ name, text, want string }{
		{"nothing in it", "", `boat.csv  the table is empty [table-empty]
    needs: a line with the names of the columns: ` + mailColumns},
		{"no rows", mailColumns + "\n", `boat.csv  the table has no rows [table-empty]
    needs: at least one row below the names of the columns`},
		{"weight in words", row(",20,", ",heavy,"), `boat.csv:2:72  max_weight is "heavy" [table-cell]
    needs: a weight above 0 and at most 100000, in g or oz: 20, 3.5 oz`},
		{"no weight at all", row(",20,", ",0 g,"), `boat.csv:2:72  max_weight is "0 g" [table-cell]
    needs: a weight above 0 and at most 100000, in g or oz: 20, 3.5 oz`},
		{"a length of zero", row(",235,", ",0,"), `boat.csv:2:61  max_long is 0 [table-cell]
    needs: a measurement above 0`},
		{"largest below smallest", row(",235,", ",100,"), `boat.csv:2:61  max_long is 100, which is shorter than min_long, 140 [table-order]
    needs: min_long at most as long as max_long`},
		{"aspect below 1", row(",1.4,", ",0.7,"), `boat.csv:2:75  aspect_min is "0.7" [table-cell]
    needs: the long side divided by the short side, from 1 to 100, or nothing`},
		{"aspects crossed", row(",1.4,,", ",1.4,1.2,"), `boat.csv:2:79  aspect_max is 1.2, which is less than aspect_min, 1.4 [table-order]
    needs: aspect_min at most as large as aspect_max`},
		{"flexible in other words", row(",yes,", ",maybe,"), `boat.csv:2:80  flexible is "maybe" [table-cell]
    needs: yes, or nothing`},
		{"rank of zero", row(",domestic,1,", ",domestic,0,"), `boat.csv:2:36  rank is "0" [table-cell]
    needs: a whole number from 1, the lowest class, to 1000`},
		{"rank taken", row("Mail boat,,BT", "an post,,IE"), `boat.csv:2:1  rank 1 of an post, domestic is taken [table-name]
    needs: a rank of its own for each class of a service
    mail.csv:26:1  it stands here already`},
		{"id twice", mailColumns + "\n" + boat + strings.Replace(boat, "domestic", "abroad", 1), `boat.csv:3:1  the id "boat-letter" is taken [table-name]
    needs: an id of its own for each class
    boat.csv:2:1  it stands here already`},
		{"a source that is none", row(",own", ",owm"), `boat.csv:2:114  there is no source "owm"; did you mean "own"? [table-source]
    needs: an id from the first column of sources.csv`},
		{"no date", row("2026-11-25", ""), `boat.csv:2:93  the cell "as_of" is empty [table-cell]
    needs: a value in this column`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, probs := table.WithMail("boat.csv", []byte(c.text))
			if got != table {
				t.Error("got another table, want the one that was there: it stays usable")
			}
			if text := said(probs); text != c.want {
				t.Errorf("got\n%s\nwant\n%s", text, c.want)
			}
		})
	}
}

func said(probs problem.List) string {
	var lines []string
	for _, p := range probs {
		lines = append(lines, p.String())
	}
	return strings.Join(lines, "\n")
}

// FuzzTable_WithMail: whatever the file holds, there is no panic; either there are problems, each with file and rule, and the
// table is the old one, or every class has an id, a name, a rank and a date, and its operator is found.
func FuzzTable_WithMail(f *testing.F) {
	table := load(f)
	for _, s := range []string{"", mailColumns, mailColumns + "\n" + boat, "\uFEFF" + mailColumns + "\r\n" + boat,
		mailColumns + "\n" + strings.Replace(boat, ",20,", ",NaN oz,", 1), strings.ReplaceAll(mailColumns, ",", ";"), mailColumns + "\n\"" + boat} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		got, probs := table.WithMail("boat.csv", text)
		if (len(probs) > 0) != (got == table) {
			t.Fatalf("got %d problems, and the old table: %v", len(probs), got == table)
		}
		wellPlaced(t, probs)
		for _, c := range got.MailClasses() {
			if c.Where.File != "boat.csv" {
				continue
			}
			if c.ID == "" || c.Name == "" || c.Rank < 1 || c.AsOf == "" || !(c.MaxGrams >= 0) {
				t.Errorf("got %+v", c)
			}
			if l, err := got.LaddersOf(c.Operator); err != nil || len(l) == 0 {
				t.Errorf("%q: got %v, %v", c.Operator, l, err)
			}
		}
	})
}

func wellPlaced(t *testing.T, probs problem.List) {
	t.Helper()
	for _, p := range probs {
		if p.Rule == "" || p.What == "" || p.Where.File == "" || p.Where.Line > 0 && p.Where.Column < 1 {
			t.Errorf("got %+v, want a rule, a text and a place", p)
		}
	}
}

// A card is sent in the lowest class that takes it.
func ExampleTable_LaddersOf() {
	table, err := Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	ladders, _ := table.LaddersOf("New Zealand")
	for _, c := range ladders[0].Classes {
		fmt.Printf("%d %s: up to %s x %s, %s thick, %g g (as of %s)\n", c.Rank, c.Name, c.MaxLong.Human(c.Unit), c.MaxShort.Human(c.Unit),
			c.MaxThick.Human(c.Unit), c.MaxGrams, c.AsOf)
	}
	// Output:
	// 1 Medium letter: up to 235 mm x 130 mm, 6 mm thick, 500 g (as of 2021-07-01)
	// 2 Large letter: up to 235 mm x 165 mm, 10 mm thick, 500 g (as of 2021-07-01)
	// 3 Oversize letter: up to 385 mm x 260 mm, 20 mm thick, 1000 g (as of 2021-07-01)
}
