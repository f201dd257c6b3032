package trim

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// instances reads a file of published instances.
func instances(t testing.TB, file string) []Instance {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	out, l := ReadInstances(file, text)
	if len(l) > 0 {
		t.Fatalf("%s", l[0])
	}
	return out
}

// one returns an instance by its name, every part turnable if turned.
func one(t testing.TB, file, name string, turned bool) Job {
	t.Helper()
	for _, in := range instances(t, file) {
		if in.Name != name {
			continue
		}
		for i := range in.Job.Parts {
			in.Job.Parts[i].Turn = in.Job.Parts[i].Turn || turned
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
