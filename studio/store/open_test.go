package store

import (
	"bytes"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"
)

// raw opens a database as another program would.
func raw(t testing.TB, path string) *sql.DB {
	t.Helper()
	db, err := sql.Open("sqlite", fileURL(path, nil))
	if err != nil {
		t.Fatal(err)
	}
	db.SetMaxOpenConns(1)
	t.Cleanup(func() { db.Close() })
	return db
}

// run runs a statement of a test.
func run(t testing.TB, db *sql.DB, statement string, args ...any) {
	t.Helper()
	if _, err := db.ExecContext(ctx, statement, args...); err != nil {
		t.Fatalf("%.60s: %v", statement, err)
	}
}

// studio makes a closed studio with some cards, of more than one page each.
func studio(t testing.TB, path string) {
	t.Helper()
	s, err := Open(ctx, path, ticking())
	if err != nil {
		t.Fatal(err)
	}
	for i := range 30 {
		added(t, s, fmt.Sprintf("card \"Gull %d\"\n", i)+strings.Repeat("# a remark about sea birds\n", 200))
	}
	if err := s.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestOpen_oneFile: after closing there is one file, and it holds everything.
func TestOpen_oneFile(t *testing.T) {
	path := place(t)
	studio(t, path)
	entries, err := os.ReadDir(filepath.Dir(path))
	if err != nil || len(entries) != 1 || entries[0].Name() != filepath.Base(path) {
		t.Errorf("there are %v, %v", entries, err)
	}
	cards, err := opened(t, path).Cards(ctx, Query{})
	if err != nil || len(cards) != 30 || cards[0].Title != "Gull 29" {
		t.Errorf("got %d cards, %v", len(cards), err)
	}
}

// TestOpen_refused: what is no sound studio is refused in words, and not a byte of it is changed.
func TestOpen_refused(t *testing.T) {
	sound := filepath.Join(t.TempDir(), "sound")
	studio(t, sound)
	whole, err := os.ReadFile(sound)
	if err != nil {
		t.Fatal(err)
	}
	torn := bytes.Clone(whole)
	for i := len(torn) / 2; i < len(torn)/2+3*4096; i++ {
		torn[i] = 0x55
	}
	foreign := filepath.Join(t.TempDir(), "foreign")
	db := raw(t, foreign)
	run(t, db, `CREATE TABLE birds (name)`)
	db.Close()
	other, err := os.ReadFile(foreign)
	if err != nil {
		t.Fatal(err)
	}
	newer := filepath.Join(t.TempDir(), "newer")
	studio(t, newer)
	db = raw(t, newer)
	run(t, db, `PRAGMA user_version = 99`)
	db.Close()
	future, err := os.ReadFile(newer)
	if err != nil {
		t.Fatal(err)
	}
	theirs := bytes.Clone(whole)
	theirs[68] ^= 1 // the id of the program
	for _, c := range []struct {
		name  string
		bytes []byte
		kind  Kind
		words string
	}{
		{"a recipe", []byte("card \"Gull\"\nunits mm\n"), Foreign, "no studio"},
		{"a long text", bytes.Repeat([]byte("sea birds\n"), 1000), Foreign, "no studio"},
		{"another program's file", other, Foreign, "belongs to another program"},
		{"another program's id", theirs, Foreign, "belongs to another program"},
		{"a newer file", future, Newer, "its form is 99, this program knows up to 3"},
		{"the first half", whole[:len(whole)/2/4096*4096], Damaged, "damaged"},
		{"a part of the first page", whole[:500], Damaged, "damaged"},
		{"pages written over", torn, Damaged, "damaged"},
	} {
		path := filepath.Join(t.TempDir(), "harbour.studio")
		if err := os.WriteFile(path, c.bytes, 0o600); err != nil {
			t.Fatal(err)
		}
		s, err := Open(ctx, path, ticking())
		if err == nil {
			s.Close()
			t.Errorf("%s was opened", c.name)
			continue
		}
		t.Log(err)
		if !Is(err, c.kind) || !strings.Contains(err.Error(), c.words) || !strings.Contains(err.Error(), "left as it is") {
			t.Errorf("%s: got %v", c.name, err)
		}
		if now, err := os.ReadFile(path); err != nil || !bytes.Equal(now, c.bytes) {
			t.Errorf("%s was changed: %v", c.name, err)
		}
	}
}

func TestOpen_noFile(t *testing.T) {
	dir := t.TempDir()
	_, err := Open(ctx, dir, ticking())
	wantFault(t, err, Foreign, "a folder or a device")
	_, err = Open(ctx, filepath.Join(dir, "not there", "harbour.studio"), ticking())
	wantFault(t, err, Disk, "the folder is there")

	empty := filepath.Join(dir, "empty") // what is left if the program is killed before it wrote anything
	if err := os.WriteFile(empty, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	opened(t, empty)

	gone := filepath.Join(dir, "gone")
	if err := os.WriteFile(gone+"-wal", []byte("the last edits"), 0o600); err != nil {
		t.Fatal(err)
	}
	_, err = Open(ctx, gone, ticking())
	wantFault(t, err, Damaged, "gone-wal is there and may hold the last edits", "put the studio back")
	if log, err := os.ReadFile(gone + "-wal"); err != nil || string(log) != "the last edits" {
		t.Errorf("the log became %q, %v", log, err)
	}
}

// TestOpen_settings: what keeps acknowledged changes is really set, on every connection that writes.
func TestOpen_settings(t *testing.T) {
	s := opened(t, place(t))
	for _, c := range []struct {
		query, want string
		db          *sql.DB
	}{
		{`PRAGMA journal_mode`, "wal", s.write}, {`PRAGMA synchronous`, "2", s.write}, {`PRAGMA foreign_keys`, "1", s.write},
		{`PRAGMA busy_timeout`, "5000", s.write}, {`PRAGMA busy_timeout`, "5000", s.read}, {`PRAGMA query_only`, "1", s.read},
		{`PRAGMA trusted_schema`, "0", s.write},
	} {
		var got string
		if err := c.db.QueryRowContext(ctx, c.query).Scan(&got); err != nil || got != c.want {
			t.Errorf("%s is %s, %v; want %s", c.query, got, err, c.want)
		}
	}
}

// TestOpen_together: stores that are opened on one new file at the same time all come up, and share it.
func TestOpen_together(t *testing.T) {
	path := place(t)
	var wg sync.WaitGroup
	errs := make([]error, 4)
	for i := range errs {
		wg.Go(func() {
			s, err := Open(ctx, path, ticking())
			if err == nil {
				for range 5 {
					_, e := s.Add(ctx, "card \"Gull\"", nil, "first")
					err = errors.Join(err, e)
				}
				err = errors.Join(err, s.Close())
			}
			errs[i] = err
		})
	}
	wg.Wait()
	if err := errors.Join(errs...); err != nil {
		t.Fatal(err)
	}
	if cards, err := opened(t, path).Cards(ctx, Query{}); err != nil || len(cards) != 20 {
		t.Errorf("got %d cards, %v; want 20", len(cards), err)
	}
}

// TestOpen_busy: a studio that has to be brought up to date while another program writes is waited for, and then left.
func TestOpen_busy(t *testing.T) {
	path := place(t)
	old(t, path, 1)
	db := raw(t, path)
	run(t, db, `BEGIN IMMEDIATE`)
	_, err := open(ctx, path, ticking(), limits{wait: 30 * time.Millisecond})
	wantFault(t, err, Busy, "another program is writing", "try again")
	run(t, db, `ROLLBACK`)
	must(openedWith(t, path, limits{wait: time.Minute}).Newest(ctx, Papers))(t)
}

// TestSave_tabs: many tabs save at once on what they saw; every revision is somebody's, and nobody's is lost.
func TestSave_tabs(t *testing.T) {
	s := opened(t, place(t))
	doc := added(t, s, "0").Doc
	var wg sync.WaitGroup
	saved := make([][]Revision, 4)
	for tab := range saved {
		wg.Go(func() {
			base := 1
			for i := 0; len(saved[tab]) < 10; i++ {
				r, err := s.Save(ctx, doc, base, fmt.Sprintf("tab %d, edit %d", tab, i), "edit")
				var c *Conflict
				switch {
				case errors.As(err, &c):
					base = c.Newest.Number
				case err != nil:
					t.Error(err)
					return
				default:
					saved[tab], base = append(saved[tab], r), r.Number
				}
			}
		})
	}
	wg.Wait()
	seen := map[int]bool{1: true}
	for _, tab := range saved {
		for _, r := range tab {
			if got, err := s.Revision(ctx, doc, r.Number); err != nil || got.Text != r.Text || seen[r.Number] {
				t.Errorf("revision %d is %q, %v; a tab was told %q", r.Number, got.Text, err, r.Text)
			}
			seen[r.Number] = true
		}
	}
	if r := must(s.Newest(ctx, doc))(t); r.Number != len(seen) || len(seen) != 41 {
		t.Errorf("the newest is %d, %d were told", r.Number, len(seen))
	}
}
