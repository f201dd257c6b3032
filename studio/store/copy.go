package store

import (
	"context"
	"database/sql"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
)

// CopyTo writes a copy of the whole studio into a new file, consistent while others go on working. A file that is there is
// never written over; if the copy is not finished, nothing is left of it.
func (s *Store) CopyTo(ctx context.Context, to string) error {
	full, err := filepath.Abs(s.path)
	if err != nil {
		return explain(ctx, s.path, err)
	}
	return newFile(ctx, to, func(part string) error { return vacuum(ctx, full, part, to) })
}

const vacuumInto = `VACUUM INTO ?`

// vacuum writes the database of a file into an empty file. What is damaged is the former's fault; a full disk, say, is that
// of target, the name under which the user knows the latter.
func vacuum(ctx context.Context, from, into, target string) error {
	db, err := sql.Open("sqlite", fileURL(from, url.Values{"mode": {"rw"}, "_defensive": {"1"}, "_error_rc": {"1"},
		"_pragma": {"trusted_schema(0)"}, "_busy_timeout": {"5000"}}))
	if err != nil {
		return err
	}
	defer db.Close()
	_, err = db.ExecContext(ctx, vacuumInto, into)
	if its := explain(ctx, from, err); Is(its, Damaged) || Is(its, Foreign) {
		return its
	}
	return explain(ctx, target, err)
}

// newFile makes a file that was not there before: wholly, or not at all. write is given an empty file beside it.
func newFile(ctx context.Context, to string, write func(part string) error) (err error) {
	taken, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, 0o600) // holds the name until the file is complete
	if errors.Is(err, fs.ErrExist) {
		return &Fault{Kind: Refused, Where: to, What: "there is a file of this name already; it is left as it is", Needs: "choose another name", Err: err}
	}
	if err != nil {
		return explain(ctx, to, err)
	}
	defer func() {
		if err != nil {
			os.Remove(to)
		}
	}()
	part, err := emptyFile(to)
	if err = errors.Join(err, taken.Close()); err != nil {
		return explain(ctx, to, err)
	}
	defer os.Remove(part) // it is not there any more if all went well
	if err := write(part); err != nil {
		return explain(ctx, to, err)
	}
	return explain(ctx, to, errors.Join(synced(part), os.Rename(part, to), synced(filepath.Dir(to))))
}

// emptyFile makes an empty file with a name of its own beside another.
func emptyFile(beside string) (string, error) {
	f, err := os.CreateTemp(filepath.Dir(beside), filepath.Base(beside)+".*.part")
	if err != nil {
		return "", err
	}
	return f.Name(), f.Close()
}

// synced puts a file or the names in a folder on the disk.
func synced(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	return errors.Join(f.Sync(), f.Close())
}

// TakeIn puts a copy of a studio in the place of everything in this one. The copy is checked first and stays as it is; it may
// be of an older program. The studio as it was is kept beside it, in a new file whose name is returned.
//
// Pages that were opened before must be read again: numbers of revisions may mean other texts now.
func (s *Store) TakeIn(ctx context.Context, from string) (kept string, err error) {
	full, err := filepath.Abs(from)
	if err != nil {
		return "", explain(ctx, from, err)
	}
	incoming, err := emptyFile(s.path)
	if err != nil {
		return "", explain(ctx, s.path, err)
	}
	defer removeDatabase(incoming)
	if err := prepare(ctx, full, incoming, s.path); err != nil {
		return "", explain(ctx, s.path, err)
	}
	if kept, err = s.replace(ctx, incoming); err != nil {
		return "", explain(ctx, s.path, err)
	}
	return kept, nil
}

// prepare checks a copy, and writes it in the newest form into an empty file, which is beside target.
func prepare(ctx context.Context, from, into, target string) error {
	if _, err := os.Stat(from); err != nil {
		return &Fault{Kind: Missing, Where: from, What: "there is no such file", Needs: "name a copy of a studio", Err: err}
	}
	if err := inspect(ctx, from, usual()); err != nil {
		return explain(ctx, from, err)
	}
	if err := vacuum(ctx, from, into, target); err != nil {
		return err
	}
	db, err := sql.Open("sqlite", source(into, usual(), false))
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	if err := migrate(ctx, db, latest()); err != nil {
		return err
	}
	if err := sound(ctx, db, from, `PRAGMA integrity_check(1)`); err != nil {
		return err
	}
	return whole(ctx, db, from)
}

const (
	selectSchema = `SELECT coalesce(group_concat(type || ' ' || name || ' ' || coalesce(sql, ''), char(10) ORDER BY type, name), '') FROM sqlite_schema`
	selectLoose  = `SELECT count(*) FROM pragma_foreign_key_check`
)

// whole refuses a database that has other tables than ours, or rows that belong to none.
func whole(ctx context.Context, db *sql.DB, path string) error {
	fresh, err := sql.Open("sqlite", ":memory:")
	if err != nil {
		return err
	}
	defer fresh.Close()
	fresh.SetMaxOpenConns(1) // each connection has a memory of its own
	if err := migrate(ctx, fresh, latest()); err != nil {
		return err
	}
	var ours, theirs string
	var loose int
	err = errors.Join(
		fresh.QueryRowContext(ctx, selectSchema).Scan(&ours),
		db.QueryRowContext(ctx, selectSchema).Scan(&theirs),
		db.QueryRowContext(ctx, selectLoose).Scan(&loose))
	if err != nil {
		return err
	}
	if ours != theirs || loose > 0 {
		return &Fault{Kind: Damaged, Where: path, What: "this studio is not whole: its tables are not those that the program makes, or rows are missing",
			Needs: "another copy of the studio"}
	}
	return nil
}

//go:embed takein.sql
var takeInScript string

const (
	attach   = `ATTACH ? AS incoming`
	detach   = `DETACH incoming`
	begin    = `BEGIN IMMEDIATE`
	commit   = `COMMIT`
	rollback = `ROLLBACK`
)

// replace keeps the studio as it is beside it, and puts the incoming one in its place, in one transaction: nobody can save
// between the two, and who is killed leaves the old one.
func (s *Store) replace(ctx context.Context, incoming string) (kept string, err error) {
	conn, err := s.write.Conn(ctx)
	if err != nil {
		return "", err
	}
	defer conn.Close()
	if _, err := conn.ExecContext(ctx, attach, incoming); err != nil {
		return "", err
	}
	always := context.WithoutCancel(ctx) // the connection goes back to the others, so it is cleaned up in any case
	defer func() { _, e := conn.ExecContext(always, detach); err = errors.Join(err, e) }()
	if _, err := conn.ExecContext(ctx, begin); err != nil {
		return "", err
	}
	kept, err = s.keep(ctx)
	if err == nil {
		_, err = conn.ExecContext(ctx, takeInScript)
	}
	if err == nil {
		_, err = conn.ExecContext(ctx, commit)
	}
	if err != nil {
		_, e := conn.ExecContext(always, rollback)
		if kept != "" {
			e = errors.Join(e, os.Remove(kept))
		}
		return "", errors.Join(err, e)
	}
	return kept, nil
}

// keep copies the studio into a new file beside it that is named by the time.
func (s *Store) keep(ctx context.Context) (string, error) {
	name := s.path + s.now().UTC().Format(".before-20060102-150405")
	for n := 1; ; n++ {
		to := name
		if n > 1 {
			to = fmt.Sprintf("%s-%d", name, n)
		}
		err := s.CopyTo(ctx, to)
		if err == nil {
			return to, nil
		}
		if !errors.Is(err, fs.ErrExist) || n == 1000 {
			return "", err
		}
	}
}

// removeDatabase removes a file that SQLite had open, with what it may have left beside it.
func removeDatabase(path string) {
	for _, end := range []string{"", "-wal", "-shm", "-journal"} {
		os.Remove(path + end)
	}
}
