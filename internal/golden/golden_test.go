package golden

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// fake is a test whose end and whose failures this test watches.
type fake struct {
	testing.TB
	errors   []string
	cleanups []func()
}

func (f *fake) Helper()          {}
func (f *fake) Cleanup(c func()) { f.cleanups = append(f.cleanups, c) }
func (f *fake) Failed() bool     { return len(f.errors) > 0 }
func (f *fake) Skipped() bool    { return false }
func (f *fake) Errorf(format string, args ...any) {
	f.errors = append(f.errors, fmt.Sprintf(format, args...))
}

func (f *fake) end() {
	for _, c := range f.cleanups {
		c()
	}
}

func exists(path string) bool {
	_, err := os.Stat(path)
	return err == nil
}

func TestCompare(t *testing.T) {
	if Updating() {
		t.Skip("this test watches what happens when files are not rewritten")
	}
	path := filepath.Join(t.TempDir(), "kept.svg")
	f := &fake{TB: t}
	Compare(f, path, []byte("one\ntwo\n"))
	if len(f.errors) != 1 || !strings.Contains(f.errors[0], "is missing") || !exists(path+".out") || exists(path) {
		t.Fatalf("a missing file: %q, .out written %v, file written %v", f.errors, exists(path+".out"), exists(path))
	}
	if err := os.WriteFile(path, []byte("one\ntwo\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	f = &fake{TB: t}
	Compare(f, path, []byte("one\ntwo\n"))
	if len(f.errors) != 0 || exists(path+".out") {
		t.Fatalf("an equal file: %q, .out left %v", f.errors, exists(path+".out"))
	}
	f = &fake{TB: t}
	Compare(f, path, []byte("one\nthree\n"))
	if len(f.errors) != 1 || !strings.Contains(f.errors[0], "line 2\n  got:  three\n  want: two") {
		t.Fatalf("a different file: %q", f.errors)
	}
}

func TestDir_Unused(t *testing.T) {
	if Updating() {
		t.Skip("this test watches what happens when files are not rewritten")
	}
	dir := t.TempDir()
	for _, name := range []string{"a.svg", "b.svg"} {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(name), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	f := &fake{TB: t}
	d := In(f, dir)
	d.Compare(f, "a.svg", []byte("a.svg"))
	f.end()
	if len(f.errors) != 1 || !strings.Contains(f.errors[0], "b.svg is kept but no test compares it") {
		t.Fatalf("an unused file: %q", f.errors)
	}
	f = &fake{TB: t}
	d = In(f, dir)
	d.Compare(f, "a.svg", []byte("a.svg"))
	d.Compare(f, "b.svg", []byte("b.svg"))
	f.end()
	if len(f.errors) != 0 {
		t.Fatalf("no unused file: %q", f.errors)
	}
}
