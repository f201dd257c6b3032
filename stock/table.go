package stock

import (
	"embed"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"foldwright/problem"
)

//go:embed data/*.csv
var builtIn embed.FS

// Table is all that is known of sheets, envelopes, inserts, calipers and mail classes. It does not change once it is read.
type Table struct {
	sheets    []Sheet
	envelopes []Envelope
	inserts   []Insert
	calipers  []Caliper
	sources   map[string]Source
	// clearances holds a row for each unit.
	clearances []Clearance
	mail       []MailClass
}

// TableError says that tables cannot be used. Problems is sorted by place and not empty.
type TableError struct{ Problems problem.List }

// Error returns the problems as the command line prints them.
func (e *TableError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.String()
	}
	return strings.Join(lines, "\n")
}

// UnknownError says that a name is not in a table.
type UnknownError struct {
	// Kind is sheet, envelope, folded card, material, mail operator or source.
	Kind string
	Name string
	// Near is the name that was most likely meant; may be empty.
	Near string
	// Elsewhere is the kind of thing that does have this name; may be empty.
	Elsewhere string
}

// Error says what was meant, as far as that can be told.
func (e *UnknownError) Error() string {
	s := fmt.Sprintf("there is no %s %q", e.Kind, e.Name)
	switch {
	case e.Elsewhere != "":
		article := "a"
		if e.Elsewhere == "envelope" {
			article = "an"
		}
		s += fmt.Sprintf("; that is the name of %s %s", article, e.Elsewhere)
	case e.Near != "":
		s += fmt.Sprintf("; did you mean %q?", e.Near)
	}
	return s
}

// Load reads the built-in tables. Errors: *TableError, only if the program was built from broken tables.
func Load() (*Table, error) {
	dir, err := fs.Sub(builtIn, "data")
	if err != nil {
		return nil, fmt.Errorf("open built-in stock tables: %w", err)
	}
	return Read(dir)
}

// Read reads the seven tables papers.csv, envelopes.csv, clearance.csv, inserts.csv, caliper.csv, mail.csv and sources.csv
// from a folder.
//
// Errors: *TableError with every problem of every table; then the table is nil. A table that is not there is a problem,
// never taken as empty.
func Read(dir fs.FS) (*Table, error) {
	var probs problem.List
	load := func(file, columns string) grid {
		text, err := fs.ReadFile(dir, file)
		if err != nil {
			probs.Add(problem.Problem{Rule: "table-file", Where: problem.Place{File: file},
				What: fmt.Sprintf("the table cannot be read: %v", err), Needs: "a table with this name in the folder"})
			return grid{file: file}
		}
		g, p := readRows(file, text, columns)
		probs = append(probs, p...)
		return g
	}
	t := &Table{}
	var p [7]problem.List
	t.sources, p[0] = parseSources(load("sources.csv", "id,kind,citation,address,as_of,note"))
	t.sheets, p[1] = parseSheets(load("papers.csv", "id,name,also,system,unit,short,long,status,note,source"), t.sources)
	t.envelopes, p[2] = parseEnvelopes(load("envelopes.csv", "id,name,also,family,unit,short,long,status,note,source"), t.sources)
	t.inserts, p[3] = parseInserts(load("inserts.csv",
		"id,name,also,unit,folded_short,folded_long,flat_short,flat_long,envelope,status,note,source"), t.sources, t.envelopes)
	t.calipers, p[4] = parseCalipers(load("caliper.csv", "material,gsm,unit,low,typical,high,status,note,source"), t.sources)
	t.clearances, p[5] = parseClearances(load("clearance.csv", "unit,clearance,status,note,source"), t.sources)
	t.mail, p[6] = parseMail(load("mail.csv", mailColumns), t.sources)
	probs = append(probs, slices.Concat(p[:]...)...)
	probs = append(probs, t.sameNames()...)
	if len(probs) > 0 {
		return nil, &TableError{probs.Sorted()}
	}
	return t, nil
}

// sameNames finds names that two rows of one table share.
func (t *Table) sameNames() problem.List {
	var probs problem.List
	for _, entries := range [][]Entry{entriesOf(t.sheets), entriesOf(t.envelopes), entriesOf(t.inserts)} {
		first := map[string]Entry{}
		for _, e := range entries {
			for _, name := range e.names() {
				before, taken := first[fold(name)]
				if taken && before.Where != e.Where {
					probs.Add(problem.Problem{Rule: "table-name", Where: e.Where,
						What: fmt.Sprintf("the name %q is taken", name), Needs: "names of its own for each row",
						Notes: []problem.Note{{Where: before.Where, What: "it stands here already"}}})
				}
				first[fold(name)] = e
			}
		}
	}
	return probs
}
