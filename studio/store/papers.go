package store

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"slices"
	"strconv"
	"strings"

	"foldwright/kit"
	"foldwright/length"
)

// paperFile is the text of the papers, cut up into rows so that one can be changed and all else stays as it was written. What
// the rows mean is read by kit.ReadDrawer; here they are only found.
type paperFile struct {
	source  string
	columns []string // of the header, as kit reads them
	rows    []paperRow
	added   []string
	crlf    bool
}

// paperRow is a record of the file, the header first.
type paperRow struct {
	start, end int // in source
	record     []string
	paper      *kit.Paper // nil for the header, and for a row that cannot be read
	changed    bool
}

// readPapers finds the rows of a drawer file.
func readPapers(text string) (*paperFile, error) {
	drawer, problems := kit.ReadDrawer(Papers.String(), []byte(text))
	for _, p := range problems {
		if p.Rule == "drawer-columns" || p.Rule == "drawer-row" || p.Rule == "drawer-long" { // rows behind it were not read
			return nil, refused(p.Where.String(), p.What, p.Needs)
		}
	}
	const mark = "\ufeff" // some spreadsheets begin a file with it
	f := &paperFile{source: text, crlf: strings.Contains(text, "\r\n")}
	skipped := 0
	if strings.HasPrefix(text, mark) {
		skipped = len(mark)
	}
	starts := lineStarts(text[skipped:])
	r := csv.NewReader(strings.NewReader(text[skipped:]))
	r.Comment, r.FieldsPerRecord, r.TrimLeadingSpace = '#', -1, true // as kit.ReadDrawer
	for {
		record, err := r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, refused(Papers.String(), "a row cannot be read: "+err.Error(), "values with commas between them")
		}
		line, _ := r.FieldPos(0)
		row := paperRow{start: skipped + starts[line-1], end: skipped + int(r.InputOffset()), record: record}
		if i := slices.IndexFunc(drawer.Papers, func(p kit.Paper) bool { return p.Where.Line == line }); i >= 0 {
			row.paper = &drawer.Papers[i]
		}
		f.rows = append(f.rows, row)
	}
	for _, c := range f.rows[0].record { // there is a header, or kit had a problem with the columns
		f.columns = append(f.columns, strings.ToLower(strings.TrimSpace(c)))
	}
	return f, nil
}

func lineStarts(text string) []int {
	starts := []int{0}
	for i := range len(text) {
		if text[i] == '\n' {
			starts = append(starts, i+1)
		}
	}
	return starts
}

// column returns the place of a column, which is put into the header where it is not there yet.
func (f *paperFile) column(name string) int {
	if i := slices.Index(f.columns, name); i >= 0 {
		return i
	}
	head := &f.rows[0]
	f.columns, head.record, head.changed = append(f.columns, name), append(head.record, name), true
	return len(f.columns) - 1
}

// set returns a record with another value in a column.
func (f *paperFile) set(record []string, column, value string) []string {
	i := f.column(column)
	for len(record) <= i {
		record = append(record, "")
	}
	record[i] = value
	return record
}

func (f *paperFile) setOnHand(r *paperRow, n int) {
	r.paper.OnHand, r.changed = n, true
	r.record = f.set(r.record, "on_hand", strconv.Itoa(n))
}

// add puts a row for sheets that the file does not name behind all others.
func (f *paperFile) add(p kit.Paper) error {
	unit := p.Unit
	if _, exact := p.W.Exact(unit); !exact {
		unit = length.MM
	}
	if _, exact := p.H.Exact(unit); !exact {
		unit = length.MM // six decimals of a millimetre hold every length
	}
	w, _ := p.W.Exact(unit)
	h, _ := p.H.Exact(unit)
	var record []string
	for _, c := range [][2]string{{"stock", p.Stock}, {"width", w}, {"height", h}, {"on_hand", strconv.Itoa(p.OnHand)}} {
		record = f.set(record, c[0], c[1])
	}
	for _, c := range []struct {
		name, value, usual string
	}{{"unit", unit.String(), length.MM.String()}, {"grain", grainWord(p), "unknown"}, {"direction", yes(p.Directed), "no"}, {"note", p.Note, ""}} {
		if c.value != c.usual || slices.Contains(f.columns, c.name) { // no column is made for what goes without saying
			record = f.set(record, c.name, c.value)
		}
	}
	line, err := f.encode(record)
	f.added = append(f.added, line)
	return err
}

func yes(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

func (f *paperFile) encode(record []string) (string, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	w.UseCRLF = f.crlf
	err := w.Write(record)
	w.Flush()
	return b.String(), errors.Join(err, w.Error())
}

// text returns the file with its changes.
func (f *paperFile) text() (string, error) {
	var b strings.Builder
	at := 0
	for _, r := range f.rows {
		if !r.changed {
			continue
		}
		b.WriteString(f.source[at:r.start])
		at = r.end
		if r.paper != nil && r.paper.OnHand == 0 && r.paper.Pack == 0 && r.paper.Note == OffcutNote {
			continue // the last off-cut of its size is gone
		}
		line, err := f.encode(r.record)
		if err != nil {
			return "", err
		}
		b.WriteString(line)
	}
	b.WriteString(f.source[at:])
	if len(f.added) > 0 && !strings.HasSuffix(b.String(), "\n") {
		b.WriteString("\n")
	}
	b.WriteString(strings.Join(f.added, ""))
	return b.String(), nil
}
