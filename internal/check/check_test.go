package check

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

func TestEach(t *testing.T) {
	used := 0
	Each(t, "testdata/check/small.csv", func(t *testing.T, r Row) {
		used++
		r.Near(math.Hypot(r.Float("a_mm"), r.Float("b_mm")))
	})
	if used != 3 && !onlySomeSubtests() {
		t.Errorf("got %d rows, want 3", used)
	}
}

// recorder stands in for a test and writes down what would have failed.
type recorder struct {
	testing.TB
	said     []string
	cleanups []func()
}

func (r *recorder) Helper()                   {}
func (r *recorder) Failed() bool              { return len(r.said) > 0 }
func (r *recorder) Cleanup(f func())          { r.cleanups = append(r.cleanups, f) }
func (r *recorder) Error(a ...any)            { r.said = append(r.said, fmt.Sprint(a...)) }
func (r *recorder) Errorf(f string, a ...any) { r.said = append(r.said, fmt.Sprintf(f, a...)) }
func (r *recorder) Fatal(a ...any)            { r.Error(a...); runtime.Goexit() }
func (r *recorder) Fatalf(f string, a ...any) { r.Errorf(f, a...); runtime.Goexit() }

// record runs f as a test on a table with this text and returns what would have failed.
func record(t *testing.T, text string, f func(rows []Row)) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "t.csv")
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	r := &recorder{}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		defer func() {
			for _, c := range r.cleanups {
				c()
			}
		}()
		f(Rows(r, path))
	}()
	<-ended
	return strings.ReplaceAll(strings.Join(r.said, "\n"), path, "t.csv")
}

const (
	first  = "# rows: 2; source: somebody\n"
	names  = "name,source,x_mm,expected,tolerance,why\n"
	good   = first + names + "a,p. 1,1,2,exact,whole\nb,p. 2,2,4,0.5,read off\n"
	double = 2
)

// TestRows_fails shows that each way in which a check could vanish is noticed: a runner that never fails checks nothing.
func TestRows_fails(t *testing.T) {
	all := func(rows []Row) {
		for _, r := range rows {
			r.Near(double * r.Float("x_mm"))
		}
	}
	for _, c := range []struct {
		name, text string
		use        func(rows []Row)
		want       string // "" for a test that passes
	}{
		{"all used", good, all, ""},
		{"no file text", "", all, "t.csv:1: the first line says how many rows"},
		{"no count", names + "a,p. 1,1,2,exact,whole\n", all, "t.csv:1: the first line says how many rows"},
		{"no source in the head", "# rows: 2; source:\n" + names, all, "t.csv:1: the first line says how many rows"},
		{"no rows", "# rows: 0; source: somebody\n" + names, all, "there are no rows"},
		{"no header", "# rows: 0; source: somebody\n", all, "there are no rows"},
		{"a row too few", first + names + "a,p. 1,1,2,exact,whole\n", all, "the first line says 2 rows, there are 1"},
		{"a row too many", good + "c,p. 3,3,6,exact,whole\n", all, "the first line says 2 rows, there are 3"},
		{"two of one name", first + names + "a,p. 1,1,2,exact,whole\na,p. 2,2,4,exact,whole\n", all, `t.csv:4: the name "a" stands on line 3 already`},
		{"no source", first + names + "a,,1,2,exact,whole\nb,p. 2,2,4,exact,whole\n", all, `t.csv:3: the column "source" is empty`},
		{"no why", first + names + "a,p. 1,1,2,exact,\nb,p. 2,2,4,exact,whole\n", all, `t.csv:3: the column "why" is empty`},
		{"no tolerance column", first + "name,source,expected,why\na,b,1,c\nd,e,2,f\n", all, `there is no column "tolerance"`},
		{"no expected column", first + "name,source,tolerance,why\na,b,1,c\nd,e,2,f\n", all, `there is no column that starts with "expected"`},
		{"two columns of one name", first + "name,source,expected,expected,tolerance,why\na,b,1,1,1,c\nd,e,2,2,1,f\n", all, "every column has a name of its own"},
		{"a short row", first + names + "a,p. 1,1,2\n", all, "wrong number of fields"},
		{"a row not used", good, func(rows []Row) { all(rows[:1]) }, `t.csv:4: row "b" was not used`},
		{"a column not read", good, func(rows []Row) {
			for _, r := range rows {
				r.Near(r.Float("expected"))
			}
		}, `column "x_mm" was never read`},
		{"a column that is not there", good, func(rows []Row) { rows[0].Float("y_mm") }, `t.csv:3: a: there is no column "y_mm"`},
		{"a number that is none", strings.Replace(good, "1,2,exact", "one,2,exact", 1), all, `column "x_mm" holds "one", a number is needed`},
		{"not a number", strings.Replace(good, "1,2,exact", "NaN,2,exact", 1), all, `column "x_mm" holds "NaN", a number is needed`},
		{"not a whole number", strings.Replace(good, "1,2,exact", "1.5,2,exact", 1), func(rows []Row) { rows[0].Int("x_mm") }, "a whole number is needed"},
		{"a tolerance in words", strings.Replace(good, "exact", "some", 1), all, `the tolerance is "some"`},
		{"a tolerance below zero", strings.Replace(good, "0.5", "-1", 1), all, `the tolerance is "-1"`},
		{"too far", good, func(rows []Row) {
			rows[0].Near(rows[0].Float("x_mm") * 2.001)
			rows[1].Near(4.5)
		}, "t.csv:3: a: expected: got 2.001, want 2 within 0 (whole; source: p. 1)"},
		{"NaN is not near", good, func(rows []Row) {
			rows[0].Near(math.Sqrt(-rows[0].Float("x_mm")))
			rows[1].Near(4.5)
		}, "t.csv:3: a: expected: got NaN, want 2 within 0"},
		{"other words", good, func(rows []Row) {
			rows[0].Equal(rows[0].Text("x_mm"))
			rows[1].Equal("4")
		}, `t.csv:3: a: got "1", want "2" (whole; source: p. 1)`},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := record(t, c.text, c.use)
			if c.want == "" && got != "" || !strings.Contains(got, c.want) {
				t.Errorf("got %q, want %q in it", got, c.want)
			}
		})
	}
}

func TestRow_getters(t *testing.T) {
	got := record(t, strings.Replace(good, "0.5", "25 %", 1), func(rows []Row) {
		if n := rows[0].Int("x_mm"); n != 1 {
			t.Errorf("Int: got %d, want 1", n)
		}
		if s := rows[1].Source(); s != "p. 2" {
			t.Errorf("Source: got %q, want p. 2", s)
		}
		if tol := rows[1].Tolerance(-4); tol != 1 {
			t.Errorf("Tolerance: got %v, want 25 %% of 4", tol)
		}
		rows[0].NearColumn("expected", 2)
		rows[1].NearColumn("expected", 4.9)
	})
	if got != "" {
		t.Errorf("got %q, want nothing", got)
	}
}

func TestRows_missingFile(t *testing.T) {
	r := &recorder{}
	ended := make(chan struct{})
	go func() {
		defer close(ended)
		Rows(r, "testdata/check/none.csv")
	}()
	<-ended
	if len(r.said) != 1 || !strings.Contains(r.said[0], "read check values: open testdata/check/none.csv") {
		t.Errorf("got %q, want one message that names the file", r.said)
	}
}
