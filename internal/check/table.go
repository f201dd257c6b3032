package check

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// table is one file of check values and the record of what was used of it.
type table struct {
	path    string
	columns []string
	rows    [][]string
	lines   []int // of each row in the file, from 1

	mu   sync.Mutex // rows may be used by parallel subtests
	done []bool
	read map[string]bool
}

// head is the shape of the first line; it is compiled where it is used, once a table.
const head = `^# rows: ([0-9]+); source: \S.*$`

// parse reads a table. Every error names the path and, where there is one, the line.
func parse(path string, text []byte) (*table, error) {
	first, rest, _ := bytes.Cut(text, []byte("\n"))
	m := regexp.MustCompile(head).FindSubmatch(bytes.TrimRight(first, "\r"))
	if m == nil {
		return nil, fmt.Errorf("%s:1: the first line says how many rows there are and where they come from: # rows: 12; source: Author (year), Title", path)
	}
	promised, err := strconv.Atoi(string(m[1]))
	if err != nil {
		return nil, fmt.Errorf("%s:1: the number of rows, %s, is too large", path, m[1])
	}
	t := &table{path: path, read: map[string]bool{}}
	if err := t.fill(rest); err != nil {
		return nil, err
	}
	if len(t.rows) == 0 {
		return nil, fmt.Errorf("%s: there are no rows", path)
	}
	if len(t.rows) != promised {
		return nil, fmt.Errorf("%s:1: the first line says %d rows, there are %d", path, promised, len(t.rows))
	}
	t.done = make([]bool, len(t.rows))
	return t, t.validate()
}

// fill reads the header and the rows that stand behind the first line.
func (t *table) fill(rest []byte) error {
	r := csv.NewReader(bytes.NewReader(rest))
	r.Comment = '#'
	for {
		record, err := r.Read()
		if err == io.EOF {
			return nil
		}
		if err != nil {
			return fmt.Errorf("%s: below the first line: %w", t.path, err)
		}
		line, _ := r.FieldPos(0)
		if t.columns == nil {
			t.columns = record
			continue
		}
		t.rows = append(t.rows, record)
		t.lines = append(t.lines, line+1)
	}
}

// validate looks for what every table must have.
func (t *table) validate() error {
	for i, c := range t.columns {
		if c == "" || slices.Contains(t.columns[:i], c) {
			return fmt.Errorf("%s: column %d is called %q; every column has a name of its own", t.path, i+1, c)
		}
	}
	for _, c := range []string{"name", "source", "tolerance", "why"} {
		if !slices.Contains(t.columns, c) {
			return fmt.Errorf("%s: there is no column %q", t.path, c)
		}
	}
	if !slices.ContainsFunc(t.columns, func(c string) bool { return strings.HasPrefix(c, "expected") }) {
		return fmt.Errorf("%s: there is no column that starts with %q", t.path, "expected")
	}
	names := map[string]int{}
	for i := range t.rows {
		for _, c := range []string{"name", "source", "tolerance", "why"} {
			if strings.TrimSpace(t.cell(i, c)) == "" {
				return fmt.Errorf("%s:%d: the column %q is empty", t.path, t.lines[i], c)
			}
		}
		name := t.cell(i, "name")
		if before, ok := names[name]; ok {
			return fmt.Errorf("%s:%d: the name %q stands on line %d already", t.path, t.lines[i], name, before)
		}
		names[name] = t.lines[i]
	}
	return nil
}

func (t *table) cell(i int, column string) string {
	c := slices.Index(t.columns, column)
	if c < 0 {
		return ""
	}
	return t.rows[i][c]
}

// leftovers says what of the table was not used: rows never marked done and columns never read. Columns that only people
// read (who says so, in which unit, why) need no reader.
func (t *table) leftovers() []string {
	t.mu.Lock()
	defer t.mu.Unlock()
	var out []string
	for i, done := range t.done {
		if !done {
			out = append(out, fmt.Sprintf("%s:%d: row %q was not used", t.path, t.lines[i], t.cell(i, "name")))
		}
	}
	forPeople := []string{"name", "source", "unit", "tolerance", "why", "note"}
	for _, c := range t.columns {
		if !t.read[c] && !slices.Contains(forPeople, c) {
			out = append(out, fmt.Sprintf("%s: column %q was never read", t.path, c))
		}
	}
	return out
}
