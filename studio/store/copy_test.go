package store

import (
	"bytes"
	"context"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"
)

// files lists a folder.
func files(t testing.TB, dir string) []string {
	t.Helper()
	entries, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

// TestCopyTo: a copy is one file, complete though somebody saves all the time, and no file is ever written over.
func TestCopyTo(t *testing.T) {
	s := opened(t, place(t))
	doc := added(t, s, "0").Doc
	over, cancel := context.WithCancel(ctx)
	var wg sync.WaitGroup
	wg.Go(func() {
		for n := 1; over.Err() == nil; n++ {
			if _, err := s.Save(over, doc, n, string(rune('a'+n%26)), "edit"); err != nil && over.Err() == nil {
				t.Error(err)
				return
			}
		}
	})
	dir := t.TempDir()
	for _, name := range []string{"first", "second"} {
		before := must(s.Newest(ctx, doc))(t)
		to := filepath.Join(dir, name)
		if err := s.CopyTo(ctx, to); err != nil {
			t.Fatal(err)
		}
		c, err := Open(ctx, to, ticking())
		if err != nil {
			t.Fatal(err)
		}
		r := must(c.Newest(ctx, doc))(t)
		steps, err := c.History(ctx, doc, 0, 1_000_000)
		if r.Number < before.Number || len(steps) != r.Number || err != nil {
			t.Errorf("the copy ends with %d and has %d steps, %v; %d was there before", r.Number, len(steps), err, before.Number)
		}
		if err := c.Close(); err != nil {
			t.Fatal(err)
		}
	}
	cancel()
	wg.Wait()
	if got := files(t, dir); len(got) != 2 {
		t.Errorf("left behind: %v", got)
	}
	first := filepath.Join(dir, "first")
	bytesBefore, _ := os.ReadFile(first)
	wantFault(t, s.CopyTo(ctx, first), Refused, "there is a file of this name already", "another name")
	if now, err := os.ReadFile(first); err != nil || !bytes.Equal(now, bytesBefore) {
		t.Errorf("the file that was there was changed: %v", err)
	}
	wantFault(t, s.CopyTo(ctx, filepath.Join(dir, "not there", "copy")), Disk, "the folder is there")
	if err := s.CopyTo(over, filepath.Join(dir, "third")); !errors.Is(err, context.Canceled) || len(files(t, dir)) != 2 {
		t.Errorf("stopped: %v, and there are %v", err, files(t, dir))
	}
}

// TestTakeIn: what was copied comes back, what was there is kept beside it, and open stores see it.
func TestTakeIn(t *testing.T) {
	dir := t.TempDir()
	path, copied := filepath.Join(dir, "harbour.studio"), filepath.Join(t.TempDir(), "copy")
	s, other := opened(t, path), opened(t, path)
	r := must(s.Add(ctx, "card \"Gull\"", []string{"birds"}, "first"))(t)
	p := must(s.Save(ctx, Papers, 1, drawer, "the drawer"))(t)
	must(s.Cut(ctx, p.Number, navy(), "plan", "cut"))(t)
	if err := s.CopyTo(ctx, copied); err != nil {
		t.Fatal(err)
	}
	must(s.Save(ctx, r.Doc, 1, "card \"Tern\"", "another bird"))(t)
	added(t, s, "card \"Buoy\"")
	kept, err := s.TakeIn(ctx, copied)
	if err != nil {
		t.Fatal(err)
	}
	for name, s := range map[string]*Store{"this store": s, "another store": other} {
		if got := titles(t, s, Query{Words: "gull", Tags: []string{"birds"}}); got != "Gull" || titles(t, s, Query{}) != "Gull" {
			t.Errorf("%s shows %q of %q", name, got, titles(t, s, Query{}))
		}
		if got := standing(t, s); len(got) != 1 || !got[0] {
			t.Errorf("%s shows the cuts %v", name, got)
		}
	}
	before, err := Open(ctx, kept, ticking())
	if err != nil {
		t.Fatal(err)
	}
	if got := titles(t, before, Query{}); got != "Buoy, Tern" {
		t.Errorf("%s shows %q", kept, got)
	}
	if err := before.Close(); err != nil {
		t.Fatal(err)
	}
	if got := filepath.Base(kept); got != "harbour.studio.before-20260314-092701" { // the clock was read for seven changes before
		t.Errorf("the old one is kept as %s", got)
	}
	must(s.Save(ctx, r.Doc, 1, "card \"Gull 2\"", "work goes on"))(t)
	if err := whole(ctx, s.write, path); err != nil {
		t.Error(err)
	}
	s.now = func() time.Time { return start } // twice the same name
	for _, want := range []string{"harbour.studio.before-20260314-092653", "harbour.studio.before-20260314-092653-2"} {
		if kept, err := s.TakeIn(ctx, copied); err != nil || filepath.Base(kept) != want {
			t.Errorf("kept as %s, %v; want %s", kept, err, want)
		}
	}
	if got := files(t, dir); len(got) != 6 { // the studio, its log and index, and three that were kept
		t.Errorf("left behind: %v", got)
	}
}

// TestTakeIn_old: a copy of every earlier version comes in.
func TestTakeIn_old(t *testing.T) {
	for version := 1; version <= latest(); version++ {
		copied := place(t)
		old(t, copied, version)
		before, err := os.ReadFile(copied)
		if err != nil {
			t.Fatal(err)
		}
		s := opened(t, place(t))
		if _, err := s.TakeIn(ctx, copied); err != nil {
			t.Errorf("version %d: %v", version, err)
		}
		if got := titles(t, s, Query{}); got != "Old gull" {
			t.Errorf("version %d shows %q", version, got)
		}
		must(s.Newest(ctx, Papers))(t)
		if now, err := os.ReadFile(copied); err != nil || !bytes.Equal(now, before) {
			t.Errorf("version %d: the copy was changed, %v", version, err)
		}
	}
}

// TestTakeIn_refused: what is no whole studio does not come in, and changes nothing.
func TestTakeIn_refused(t *testing.T) {
	dir := t.TempDir()
	s := opened(t, filepath.Join(dir, "harbour.studio"))
	added(t, s, "card \"Gull\"")
	there := files(t, dir)
	spoilt := func(statements ...string) string {
		path := place(t)
		old(t, path, latest())
		db := raw(t, path)
		for _, q := range statements {
			run(t, db, q)
		}
		return path
	}
	text := place(t)
	if err := os.WriteFile(text, []byte("card \"Gull\"\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		from  string
		kind  Kind
		words string
	}{
		{place(t), Missing, "no such file"},
		{dir, Foreign, "folder"},
		{text, Foreign, "no studio"},
		{spoilt(`PRAGMA user_version = 99`), Newer, "99"},
		{spoilt(`PRAGMA application_id = 7`), Foreign, "another program"},
		{spoilt(`CREATE TABLE birds (name)`), Damaged, "not whole"},
		{spoilt(`CREATE TRIGGER t AFTER INSERT ON card BEGIN DELETE FROM asked; END`), Damaged, "not whole"},
		{spoilt(`PRAGMA user_version = 1`), Disk, "migration 2"}, // says that it is older than it is
		{spoilt(`PRAGMA foreign_keys = 0`, `DELETE FROM revision WHERE document = 1000`), Damaged, "rows are missing"},
	} {
		_, err := s.TakeIn(ctx, c.from)
		wantFault(t, err, c.kind, c.words)
	}
	if got := files(t, dir); titles(t, s, Query{}) != "Gull" || !slices.Equal(got, there) {
		t.Errorf("left %q and %v", titles(t, s, Query{}), got)
	}
	over, cancel := context.WithCancel(ctx)
	cancel()
	if _, err := s.TakeIn(over, spoilt()); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	added(t, s, "card \"Tern\"") // the connection that writes is free again
}

// TestTakeIn_full: where there is no room for what comes in, everything stays as it was.
func TestTakeIn_full(t *testing.T) {
	dir, copied := t.TempDir(), place(t)
	studio(t, copied)
	s := openedWith(t, filepath.Join(dir, "harbour.studio"), limits{wait: time.Second, pages: 60})
	added(t, s, "card \"Gull\"")
	there := files(t, dir)
	_, err := s.TakeIn(ctx, copied)
	wantFault(t, err, Full, "harbour.studio: the disk is full")
	if got := files(t, dir); titles(t, s, Query{}) != "Gull" || !slices.Equal(got, there) {
		t.Errorf("left %q and %v", titles(t, s, Query{}), got)
	}
	added(t, s, "card \"Tern\"")
}
