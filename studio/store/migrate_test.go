package store

import (
	"context"
	"database/sql"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"foldwright/kit"
	"foldwright/problem"
	"foldwright/stock"
)

// old fills a studio of a version with what that version can hold.
func old(t testing.TB, path string, version int) {
	t.Helper()
	db := raw(t, path)
	run(t, db, `PRAGMA journal_mode = wal`)
	if err := migrate(ctx, db, version); err != nil {
		t.Fatal(err)
	}
	if version >= 1 {
		run(t, db, `INSERT INTO revision VALUES (1000, 1, 5, 1, 0, 1, 0, 'first', 'gulls', 'card "Old gull"')`)
		run(t, db, `INSERT INTO card VALUES (1000, 1, 5, 5, 0, NULL, 'Old gull', 'gulls')`)
		run(t, db, `INSERT INTO words VALUES (1000, 'old gull')`)
	}
	if version >= 2 {
		run(t, db, `INSERT INTO asked VALUES (114000000, 162000000, 'mm', 7)`)
	}
	if version >= 3 {
		run(t, db, `INSERT INTO revision VALUES (1, 2, 5, 2, 1, 2, 0, 'cut', '', 'stock,width,height')`)
		run(t, db, `INSERT INTO cut VALUES (1, 1, 2, NULL, 'a plan')`)
		run(t, db, `INSERT INTO movement VALUES (1, 0, -2, 'navy', 1, 2, 'mm', 'up', 0, '')`)
	}
	if err := db.Close(); err != nil {
		t.Fatal(err)
	}
}

// TestMigrate: a studio of every earlier version opens with everything that it held, and has the tables of a new one.
func TestMigrate(t *testing.T) {
	if latest() < 3 {
		t.Fatalf("there are %d migrations", latest())
	}
	for version := 0; version <= latest(); version++ {
		path := place(t)
		old(t, path, version)
		s := opened(t, path)
		if err := whole(ctx, s.write, path); err != nil {
			t.Errorf("version %d: %v", version, err)
		}
		cards, err := s.Cards(ctx, Query{Words: "gull"})
		if err != nil || (len(cards) == 1) != (version >= 1) {
			t.Errorf("version %d: %d cards, %v", version, len(cards), err)
		}
		if version >= 1 {
			r := must(s.Save(ctx, 1000, 1, "card \"Gull\"", "new title"))(t)
			if r = must(s.Undo(ctx, 1000, r.Number))(t); r.Text != `card "Old gull"` || len(r.Tags) != 1 {
				t.Errorf("version %d: %+v", version, r)
			}
		}
		asked, err := s.AskedFor(ctx)
		if err != nil || (len(asked) == 1 && asked[0].Times == 7) != (version >= 2) {
			t.Errorf("version %d: %v, %v", version, asked, err)
		}
		cuts, err := s.Cuts(ctx)
		if err != nil || (len(cuts) == 1 && cuts[0].Stands && cuts[0].Move.Take[0].OnHand == 2) != (version >= 3) {
			t.Errorf("version %d: %+v, %v", version, cuts, err)
		}
	}
}

// TestMigrate_stopped: a migration that does not end changes nothing.
func TestMigrate_stopped(t *testing.T) {
	path := place(t)
	old(t, path, 1)
	db := raw(t, path)
	run(t, db, `CREATE TABLE movement (in_the_way)`) // the last migration makes this table after all its others
	if err := migrate(ctx, db, latest()); err == nil || !strings.Contains(err.Error(), "migration 3") {
		t.Fatalf("got %v", err)
	}
	var version, drawer int
	if err := db.QueryRowContext(ctx, `SELECT user_version, (SELECT count(*) FROM revision WHERE document < 1000) FROM pragma_user_version`).Scan(&version, &drawer); err != nil {
		t.Fatal(err)
	}
	if version != 2 || drawer != 0 {
		t.Errorf("version %d with %d files of the drawer; want 2 with none", version, drawer)
	}
	over, cancel := context.WithCancel(ctx)
	cancel()
	if err := migrate(over, db, latest()); err == nil {
		t.Error("a context that has ended migrates")
	}
}

// TestMigrations_numbered: file n is named n and sets the version n, or an upgrade would stop half-way or run twice.
func TestMigrations_numbered(t *testing.T) {
	entries, err := os.ReadDir("migrations")
	if err != nil || len(entries) != latest() {
		t.Fatalf("%d files, %d embedded, %v", len(entries), latest(), err)
	}
	sets := regexp.MustCompile(`PRAGMA user_version = (\d+);\n$`)
	for i, e := range entries {
		text, err := os.ReadFile("migrations/" + e.Name())
		m := sets.FindStringSubmatch(string(text))
		if err != nil || m == nil || m[1] != strconv.Itoa(i+1) || !strings.HasPrefix(e.Name(), fmt.Sprintf("%04d_", i+1)) {
			t.Errorf("%s ends with %q, %v; want the version %d", e.Name(), m, err, i+1)
		}
	}
}

// TestTakeInScript: every table is emptied and filled.
func TestTakeInScript(t *testing.T) {
	s := opened(t, place(t))
	n := 0
	err := each(ctx, s.read, func(rows *sql.Rows) error {
		var table string
		err := rows.Scan(&table)
		n++
		for _, want := range []string{"\nDELETE FROM " + table + ";\n", "\nINSERT INTO " + table + " SELECT * FROM incoming." + table + ";\n"} {
			if !strings.Contains(takeInScript, want) {
				t.Errorf("takein.sql has no line %q", want)
			}
		}
		return err
	}, `SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%'`)
	if err != nil || n == 0 {
		t.Errorf("%d tables, %v", n, err)
	}
}

// TestDrawer_readers: the readers of the engine take the drawer's files as they begin: they only find them empty.
func TestDrawer_readers(t *testing.T) {
	s := opened(t, place(t))
	table, err := stock.Load()
	if err != nil {
		t.Fatal(err)
	}
	readers := map[Doc]func(string, []byte) problem.List{
		Papers:    func(f string, b []byte) problem.List { _, l := kit.ReadDrawer(f, b); return l },
		Dies:      func(f string, b []byte) problem.List { _, l := stock.ReadDies(f, b); return l },
		Envelopes: func(f string, b []byte) problem.List { _, l := stock.ReadOwnEnvelopes(f, b); return l },
		Mail:      func(f string, b []byte) problem.List { _, l := table.WithMail(f, b); return l },
		Prices:    func(f string, b []byte) problem.List { _, l := stock.ReadPrices(f, b, nil); return l },
	}
	for _, doc := range Drawer() {
		r := must(s.Newest(ctx, doc))(t)
		for _, p := range readers[doc](doc.String(), []byte(r.Text)) {
			if p.Rule != "table-empty" {
				t.Errorf("%v: %v", doc, p)
			}
		}
		if broken := readers[doc](doc.String(), []byte("sea,birds\n")); !broken.HasErrors() {
			t.Errorf("%v: other columns are taken as well, so nothing was checked", doc)
		}
	}
}
