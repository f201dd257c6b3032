package check

import (
	"flag"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
)

// Row is one check value. It fails the test that it is bound to where it is asked for something that it does not hold.
type Row struct {
	t     testing.TB
	table *table
	index int
}

// Rows reads a table of check values and binds its rows to t. When t ends, every row must have been marked as done, by
// [Row.Done], [Row.Near] or [Row.Equal], and every column of inputs must have been read.
//
// Errors: t fails at once where the file is missing, empty or not as the package comment says.
func Rows(t testing.TB, path string) []Row {
	t.Helper()
	text, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("read check values: %v", err)
	}
	table, err := parse(path, text)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if t.Failed() || onlySomeSubtests() {
			return // what was left out is no news beside what went wrong, or was left out on purpose
		}
		for _, left := range table.leftovers() {
			t.Error(left)
		}
	})
	rows := make([]Row, len(table.rows))
	for i := range rows {
		rows[i] = Row{t, table, i}
	}
	return rows
}

// Each runs f once for each row of a table, as a subtest with the row's name.
func Each(t *testing.T, path string, f func(t *testing.T, r Row)) {
	t.Helper()
	for _, r := range Rows(t, path) {
		t.Run(r.Name(), func(t *testing.T) { f(t, r.In(t)) })
	}
}

// onlySomeSubtests says whether the person at the keyboard asked for single subtests: then rows are left out on purpose.
func onlySomeSubtests() bool {
	for _, name := range []string{"test.run", "test.skip"} {
		if f := flag.Lookup(name); f != nil && strings.Contains(f.Value.String(), "/") {
			return true
		}
	}
	return false
}

// In binds the row to another test, such as a subtest.
func (r Row) In(t testing.TB) Row {
	r.t = t
	return r
}

// Name returns the row's name.
func (r Row) Name() string { return r.table.cell(r.index, "name") }

// Source returns where the row's values come from.
func (r Row) Source() string { return r.table.cell(r.index, "source") }

// where returns file, line and name of the row, to stand before a message.
func (r Row) where() string {
	return fmt.Sprintf("%s:%d: %s", r.table.path, r.table.lines[r.index], r.Name())
}

// Text returns a cell as it stands. A missing column fails the test.
func (r Row) Text(column string) string {
	r.t.Helper()
	found := false
	for _, c := range r.table.columns {
		found = found || c == column
	}
	if !found {
		r.t.Fatalf("%s: there is no column %q; there are %s", r.where(), column, strings.Join(r.table.columns, ", "))
	}
	r.table.mu.Lock()
	r.table.read[column] = true
	r.table.mu.Unlock()
	return r.table.cell(r.index, column)
}

// Float returns a cell as a number, in the unit that the column's name says. A cell without a finite number fails the
// test.
func (r Row) Float(column string) float64 {
	r.t.Helper()
	text := r.Text(column)
	f, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsInf(f, 0) || math.IsNaN(f) {
		r.t.Fatalf("%s: column %q holds %q, a number is needed", r.where(), column, text)
	}
	return f
}

// Int returns a cell as a whole number. A cell without one fails the test.
func (r Row) Int(column string) int64 {
	r.t.Helper()
	text := r.Text(column)
	n, err := strconv.ParseInt(text, 10, 64)
	if err != nil {
		r.t.Fatalf("%s: column %q holds %q, a whole number is needed", r.where(), column, text)
	}
	return n
}

// Tolerance returns how far a result may be from want, in want's unit: a number, a percentage of want, or 0 for "exact".
func (r Row) Tolerance(want float64) float64 {
	r.t.Helper()
	text := strings.TrimSpace(r.Text("tolerance"))
	if text == "exact" {
		return 0
	}
	number, percent := strings.CutSuffix(text, "%")
	f, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
	if err != nil || !(f >= 0) || math.IsInf(f, 0) {
		r.t.Fatalf(`%s: the tolerance is %q; it is a number, a percentage ("2 %%") or "exact"`, r.where(), text)
	}
	if percent {
		f *= math.Abs(want) / 100
	}
	return f
}

// Near compares a result with the column "expected" under the row's tolerance, and marks the row as done.
func (r Row) Near(got float64) {
	r.t.Helper()
	r.NearColumn("expected", got)
}

// NearColumn compares a result with another column whose name starts with "expected", and marks the row as done.
func (r Row) NearColumn(column string, got float64) {
	r.t.Helper()
	want := r.Float(column)
	tolerance := r.Tolerance(want)
	if !(math.Abs(got-want) <= tolerance) { // written so that NaN is not near
		r.t.Errorf("%s: %s: got %v, want %v within %v (%s; source: %s)", r.where(), column, got, want, tolerance, r.Text("why"), r.Source())
	}
	r.Done()
}

// Equal compares a result with the text in the column "expected", and marks the row as done.
func (r Row) Equal(got string) {
	r.t.Helper()
	if want := r.Text("expected"); got != want {
		r.t.Errorf("%s: got %q, want %q (%s; source: %s)", r.where(), got, want, r.Text("why"), r.Source())
	}
	r.Done()
}

// Done marks the row as used. Call it after the comparison that the row is for.
func (r Row) Done() {
	r.table.mu.Lock()
	r.table.done[r.index] = true
	r.table.mu.Unlock()
}
