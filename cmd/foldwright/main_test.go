package main

import (
	"bytes"
	"os"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"foldwright": main})
}

// TestScripts runs the pages of the manual: each is a script that shows one thing the program does.
func TestScripts(t *testing.T) {
	forms, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		UpdateScripts:       os.Getenv("FOLDWRIGHT_GOLDEN") == "update",
		RequireUniqueNames:  true,
		RequireExplicitExec: true,
		Setup: func(e *testscript.Env) error {
			e.Setenv("FORMS", forms+"/../../forms")
			return nil
		},
	})
}

// TestExitCodes holds the promise of the exit codes.
func TestExitCodes(t *testing.T) {
	wrong := t.TempDir() + "/wrong.card"
	if err := os.WriteFile(wrong, []byte("card \"Wrong\"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name string
		args []string
		want int
	}{
		{"proven", []string{"prove", "../../forms/rising-gull.card"}, exitDone},
		{"problems", []string{"prove", wrong}, exitProblems},
		{"the worst of several", []string{"prove", "../../forms/rising-gull.card", wrong}, exitProblems},
		{"unknown command", []string{"unfold"}, exitUsage},
		{"unknown flag", []string{"prove", "--colour", wrong}, exitUsage},
		{"no card named", []string{"prove"}, exitUsage},
		{"stopped", []string{"prove", "--limit", "1ns", "../../forms/harbour-light.card"}, exitStopped},
		{"no such file", []string{"prove", "nowhere.card"}, exitFiles},
		{"a folder", []string{"prove", "../../forms"}, exitFiles},
		{"help", []string{"--help"}, exitDone},
	} {
		t.Run(c.name, func(t *testing.T) {
			var out, errs bytes.Buffer
			got := run(env{t.Context(), strings.NewReader(""), &out, &errs}, c.args)
			if got != c.want {
				t.Errorf("exit code %d, want %d\n%s%s", got, c.want, &out, &errs)
			}
		})
	}
}

// TestAtomic: a file that cannot be written leaves no trace beside it.
func TestAtomic(t *testing.T) {
	dir := t.TempDir()
	if err := os.Mkdir(dir+"/card", 0o755); err != nil {
		t.Fatal(err)
	}
	if err := writeFile(dir+"/card", []byte("x")); err == nil {
		t.Fatal("a folder was overwritten")
	}
	entries, err := os.ReadDir(dir)
	if err != nil || len(entries) != 1 {
		t.Errorf("left behind: %v %v", entries, err)
	}
}
