package stock

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"foldwright/problem"
)

// maxTable bounds the work that one table can cause; the largest built-in one has 7 kB.
const maxTable = 1 << 20

// cell is one value of a table with its place.
type cell struct {
	text  string
	where problem.Place
}

// row is one line of a table by the names of its columns.
type row map[string]cell

// grid is a table whose header is as it must be and whose rows have a cell in every column.
type grid struct {
	file string
	rows []row
}

// readGrid reads a CSV text (RFC 4180, with commas) whose first line that is not a remark names the given columns, in any
// order. Every row that it can read is in the grid; what it cannot read is a problem.
func readGrid(file string, text []byte, columns []string) (grid, problem.List) {
	g := grid{file: file}
	text = bytes.TrimPrefix(text, []byte("\uFEFF")) // spreadsheets put a byte order mark in front
	if p, ok := unreadable(file, text); ok {
		return g, problem.List{p}
	}
	var probs problem.List
	r := newRecords(file, text)
	header, p := r.next()
	switch {
	case p != nil:
		return g, problem.List{*p}
	case header == nil:
		return g, problem.List{{Rule: "table-empty", Where: problem.Place{File: file}, What: "the table is empty",
			Needs: "a line with the names of the columns: " + strings.Join(columns, ",")}}
	}
	if probs = checkHeader(header, columns); probs.HasErrors() {
		return g, probs
	}
	for {
		record, p := r.next()
		if p != nil {
			probs.Add(*p)
			return g, probs // what follows a quotation mark that is not closed cannot be told apart
		}
		if record == nil {
			return g, probs
		}
		if len(record) != len(header) {
			probs.Add(problem.Problem{Rule: "table-row", Where: record[0].where,
				What:  fmt.Sprintf("the row has %d cells, the header %d", len(record), len(header)),
				Needs: "as many cells as columns; a cell with a comma in it stands in quotation marks"})
			continue
		}
		line := row{}
		for i, c := range record {
			line[header[i].text] = c
		}
		g.rows = append(g.rows, line)
	}
}

// unreadable judges what cannot be read as a table of text at all.
func unreadable(file string, text []byte) (problem.Problem, bool) {
	if len(text) > maxTable {
		return problem.Problem{Rule: "table-size", Where: problem.Place{File: file},
			What:  fmt.Sprintf("the table is %d bytes long", len(text)),
			Needs: fmt.Sprintf("%d bytes or fewer", maxTable)}, true
	}
	for i, line := range bytes.Split(text, []byte("\n")) {
		if !utf8.Valid(line) {
			return problem.Problem{Rule: "table-text", Where: problem.Place{File: file, Line: i + 1, Column: 1},
				What: "the line holds characters that are not UTF-8", Needs: "a file saved as UTF-8"}, true
		}
	}
	return problem.Problem{}, false
}

// checkHeader compares the names of the columns with those that must be there.
func checkHeader(header []cell, columns []string) problem.List {
	var probs problem.List
	if len(header) == 1 && strings.ContainsAny(header[0].text, ";\t") {
		probs.Add(problem.Problem{Rule: "table-column", Where: header[0].where,
			What:  "the columns are not separated by commas",
			Needs: "commas between the columns", Try: "save the table as CSV with commas"})
		return probs
	}
	var seen []string
	for _, c := range header {
		switch {
		case slices.Contains(seen, c.text):
			probs.Add(problem.Problem{Rule: "table-column", Where: c.where,
				What: fmt.Sprintf("the column %q is there twice", c.text), Needs: "each column once"})
		case !slices.Contains(columns, c.text):
			probs.Add(problem.Problem{Rule: "table-column", Where: c.where,
				What:  fmt.Sprintf("there is no column %q in this table%s", c.text, didYouMean(c.text, columns)),
				Needs: "the columns " + strings.Join(columns, ",")})
		}
		seen = append(seen, c.text)
	}
	for _, want := range columns {
		if !slices.Contains(seen, want) {
			probs.Add(problem.Problem{Rule: "table-column", Where: header[0].where,
				What: fmt.Sprintf("the column %q is missing", want), Needs: "the columns " + strings.Join(columns, ",")})
		}
	}
	return probs
}

// didYouMean returns "; did you mean …?" where a candidate is near enough, else nothing.
func didYouMean(word string, candidates []string) string {
	if near, ok := problem.Suggest(word, candidates); ok {
		return fmt.Sprintf("; did you mean %q?", near)
	}
	return ""
}

// records reads the lines of a table one by one, each cell with its place.
type records struct {
	file  string
	lines [][]byte
	csv   *csv.Reader
}

func newRecords(file string, text []byte) *records {
	r := csv.NewReader(bytes.NewReader(text))
	r.Comment = '#'
	r.FieldsPerRecord = -1 // judged in readGrid, so that one run shows every row
	r.TrimLeadingSpace = true
	return &records{file: file, lines: bytes.Split(text, []byte("\n")), csv: r}
}

// next returns the cells of the next line, none and no problem at the end.
func (r *records) next() ([]cell, *problem.Problem) {
	fields, err := r.csv.Read()
	if err == io.EOF {
		return nil, nil
	}
	if err != nil {
		p := r.explain(err)
		return nil, &p
	}
	cells := make([]cell, len(fields))
	for i, f := range fields {
		line, column := r.csv.FieldPos(i)
		cells[i] = cell{strings.TrimSpace(f), r.place(line, column)}
	}
	return cells, nil
}

// place turns a line and a column in bytes, both from 1, into a place with the column in characters.
func (r *records) place(line, column int) problem.Place {
	p := problem.Place{File: r.file, Line: line, Column: 1}
	if line >= 1 && line <= len(r.lines) {
		before := r.lines[line-1][:min(max(column-1, 0), len(r.lines[line-1]))]
		p.Column += utf8.RuneCount(before)
	}
	return p
}

// explain says what is wrong with a line that encoding/csv does not read.
func (r *records) explain(err error) problem.Problem {
	p := problem.Problem{Rule: "table-quote", Where: problem.Place{File: r.file}, What: err.Error(),
		Needs: `a cell with a quotation mark in it stands in quotation marks, and the mark is doubled: "a ""long"" card"`}
	var at *csv.ParseError
	if !errors.As(err, &at) {
		return p
	}
	p.Where = r.place(at.Line, at.Column)
	p.What = "a quotation mark stands inside a cell"
	if errors.Is(err, csv.ErrQuote) {
		p.Where = r.place(at.StartLine, 1) // the reader goes on to the end of the file before it notices
		p.What = "a cell of this row opens with a quotation mark that is not closed, or text follows behind it"
	}
	return p
}
