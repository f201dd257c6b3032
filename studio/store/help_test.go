package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"foldwright/forms"
)

// ctx is the context of tests that do not end one.
var ctx = context.Background()

// start is the time at which the clock of tests begins.
var start = time.Date(2026, 3, 14, 9, 26, 53, 0, time.UTC)

// ticking returns a clock that goes on by a second whenever it is read.
func ticking() func() time.Time {
	n := 0
	return func() time.Time {
		n++
		return start.Add(time.Duration(n) * time.Second)
	}
}

// place returns a file name in a folder of the test, with what file names may hold and addresses may not.
func place(t testing.TB) string {
	t.Helper()
	return filepath.Join(t.TempDir(), "harbour? #1 ½ 100%.studio")
}

func opened(t testing.TB, path string) *Store {
	t.Helper()
	return openedWith(t, path, usual())
}

func openedWith(t testing.TB, path string, l limits) *Store {
	t.Helper()
	s, err := open(ctx, path, ticking(), l)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
	})
	return s
}

func form(t testing.TB, name string) string {
	t.Helper()
	text, err := forms.Text(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// must returns a revision that there must be.
func must(r Revision, err error) func(testing.TB) Revision {
	return func(t testing.TB) Revision {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return r
	}
}

// added puts a card on the shelf.
func added(t testing.TB, s *Store, text string) Revision {
	t.Helper()
	return must(s.Add(ctx, text, nil, "first"))(t)
}

// wantFault checks the kind of an error, and words that it must hold.
func wantFault(t testing.TB, err error, kind Kind, words ...string) {
	t.Helper()
	if !Is(err, kind) {
		t.Fatalf("got %v, want a fault of kind %d", err, kind)
	}
	for _, w := range words {
		if !strings.Contains(err.Error(), w) {
			t.Errorf("%q does not say %q", err, w)
		}
	}
}

// child is the variable that makes the test binary run as another program; its value says which, and arguments follow.
const child = "FOLDWRIGHT_STORE_CHILD"

// children are those programs. They print what a test reads, and return what went wrong.
func children() map[string]func(args []string) error {
	return map[string]func([]string) error{"save": saveForEver, "hold": holdLock, "full": fillDisk}
}

func TestMain(m *testing.M) {
	name := os.Getenv(child)
	if name == "" {
		os.Exit(m.Run())
	}
	run, ok := children()[name]
	if !ok {
		run = func([]string) error { return errors.New("there is no such child") }
	}
	if err := run(os.Args[1:]); err != nil {
		fmt.Println("error:", err)
		os.Exit(1)
	}
}
