package trim

import (
	"bufio"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"foldwright/length"
)

// pitch stands for the unit of published instances, which are whole numbers: a quarter of a millimetre, so that the largest
// of them (3500) stay below length.Max.
const pitch = mm / 4

// instance is one published instance.
type instance struct {
	name string
	Job
}

// instances reads a file of lines "instance NAME", "sheet W H COST QTY", "part W H DEMAND VALUE MAX ROT"; -1 is no limit.
func instances(t testing.TB, file string) []instance {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var out []instance
	for s := bufio.NewScanner(strings.NewReader(string(text))); s.Scan(); {
		line, _, _ := strings.Cut(s.Text(), "#")
		var w, h, a, b, c, d int
		if f := strings.Fields(line); len(f) == 2 && f[0] == "instance" {
			out = append(out, instance{name: f[1]})
		} else if n, _ := fmt.Sscanf(line, "sheet %d %d %d %d", &w, &h, &a, &b); n == 4 {
			in := &out[len(out)-1]
			in.Sheets = append(in.Sheets, Sheet{W: pitch * length.Length(w), H: pitch * length.Length(h), Price: int64(a), Quantity: b})
		} else if n, _ := fmt.Sscanf(line, "part %d %d %d %d %d %d", &w, &h, &a, &b, &c, &d); n == 6 {
			in := &out[len(out)-1]
			in.Parts = append(in.Parts, Part{W: pitch * length.Length(w), H: pitch * length.Length(h), Count: a, Value: int64(b), Most: c, Turn: d == 1})
		} else if len(f) > 0 {
			t.Fatalf("%s: cannot read %q", file, line)
		}
	}
	if len(out) == 0 {
		t.Fatalf("%s: no instance", file)
	}
	return out
}

// one returns an instance by its name, every part turnable if turned.
func one(t testing.TB, file, name string, turned bool) Job {
	t.Helper()
	for _, in := range instances(t, file) {
		if in.name != name {
			continue
		}
		for i := range in.Parts {
			in.Parts[i].Turn = in.Parts[i].Turn || turned
		}
		return in.Job
	}
	t.Fatalf("%s: no instance %s", file, name)
	return Job{}
}

// allInstances is the folder with every published instance and index.csv, named by TRIM_INSTANCES; without it the test
// is skipped.
func allInstances(t testing.TB) (dir string, rows []map[string]string) {
	t.Helper()
	dir = os.Getenv("TRIM_INSTANCES")
	if dir == "" {
		t.Skip("TRIM_INSTANCES does not name the folder of published instances: only those in testdata are checked")
	}
	f, err := os.Open(filepath.Join(dir, "index.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range all[1:] {
		m := map[string]string{}
		for i, c := range r {
			m[all[0][i]] = c
		}
		rows = append(rows, m)
	}
	return dir, rows
}

// audited runs the audit and fails the test where it finds anything.
func audited(t testing.TB, j Job, p Plan) Account {
	t.Helper()
	a, l := Audit(j, p)
	if len(l) != 0 {
		t.Fatalf("the plan is not right: %v", l)
	}
	return a
}
