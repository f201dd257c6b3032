package golden

import (
	"bytes"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite the kept files in testdata with what the tests make")

// Updating says whether kept files are to be rewritten.
func Updating() bool { return *update || os.Getenv("FOLDWRIGHT_GOLDEN") == "update" }

// Compare checks got against the kept file at path, or rewrites the file when [Updating].
func Compare(t testing.TB, path string, got []byte) {
	t.Helper()
	if Updating() {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		os.Remove(path + ".out")
		return
	}
	want, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		writeOut(t, path, got)
		t.Errorf("%s is missing; what was made is in %[1]s.out. If it is right, run the test with -update", path)
		return
	}
	if err != nil {
		t.Fatal(err)
	}
	if bytes.Equal(got, want) {
		os.Remove(path + ".out")
		return
	}
	writeOut(t, path, got)
	t.Errorf("%s differs; what was made is in %[1]s.out\n%s", path, firstDifference(got, want))
}

func writeOut(t testing.TB, path string, got []byte) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path+".out", got, 0o644); err != nil {
		t.Fatal(err)
	}
}

// firstDifference shows the first line that is not the same.
func firstDifference(got, want []byte) string {
	g, w := strings.Split(string(got), "\n"), strings.Split(string(want), "\n")
	for i := range max(len(g), len(w)) {
		a, b := lineAt(g, i), lineAt(w, i)
		if a != b {
			return "line " + strconv.Itoa(i+1) + "\n  got:  " + a + "\n  want: " + b
		}
	}
	return "the difference is not in the lines"
}

func lineAt(lines []string, i int) string {
	if i >= len(lines) {
		return "(no such line)"
	}
	const most = 300
	if l := lines[i]; len(l) > most {
		return l[:most] + "…"
	}
	return lines[i]
}

// Dir is a directory of kept files that belongs to one test.
type Dir struct {
	t    testing.TB
	path string
	used map[string]bool
}

// In returns the directory of kept files of this test. When the test ends, each file in it that was not compared is a
// failure, or is removed when [Updating]; not so where only a part of the test was run or it has stopped early.
func In(t testing.TB, path string) *Dir {
	d := &Dir{t: t, path: path, used: map[string]bool{}}
	t.Cleanup(d.unused)
	return d
}

// Compare checks got against the kept file of that name. t is the subtest at work.
func (d *Dir) Compare(t testing.TB, name string, got []byte) {
	t.Helper()
	d.used[name] = true
	Compare(t, filepath.Join(d.path, name), got)
}

func (d *Dir) unused() {
	if run := flag.Lookup("test.run"); d.t.Failed() || d.t.Skipped() || run != nil && strings.Contains(run.Value.String(), "/") {
		return
	}
	entries, err := os.ReadDir(d.path)
	if err != nil {
		d.t.Errorf("read kept files: %v", err)
		return
	}
	for _, e := range entries {
		name := e.Name()
		if e.IsDir() || d.used[name] || strings.HasSuffix(name, ".out") {
			continue
		}
		if Updating() {
			os.Remove(filepath.Join(d.path, name))
			continue
		}
		d.t.Errorf("%s is kept but no test compares it; remove it, or run the test with -update", filepath.Join(d.path, name))
	}
}
