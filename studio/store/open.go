package store

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"net/url"
	"os"
	"path/filepath"
	"strconv"
	"time"

	_ "modernc.org/sqlite" // the driver "sqlite"
)

// Store is an open studio. Its methods may be called at the same time.
type Store struct {
	path string
	now  func() time.Time
	// write is one connection, so that changes stand in line here and not in front of the file; read are a few.
	write, read *sql.DB
}

// limits are what a test sets tighter.
type limits struct {
	// wait is how long another program that writes is waited for.
	wait time.Duration
	// pages is how many pages the file may have (of 4096 bytes), and log after how many the log is written back; 0 for
	// SQLite's own.
	pages, log int
}

func usual() limits { return limits{wait: 5 * time.Second} }

// readers is how many connections read at a time; each may take 2 MB of memory.
const readers = 4

// Open opens the studio in a file, and makes it if there is none. now tells the time of changes. A file of an older program
// is brought up to date; any other file that is not a sound studio is refused and left as it is.
func Open(ctx context.Context, path string, now func() time.Time) (*Store, error) {
	return open(ctx, path, now, usual())
}

func open(ctx context.Context, path string, now func() time.Time, l limits) (s *Store, err error) {
	err = patiently(ctx, l.wait, func() error {
		s, err = openOnce(ctx, path, now, l)
		return err
	})
	return s, err
}

// patiently tries again for so long while another program is busy. SQLite waits by itself nearly everywhere, but not where two
// programs begin one new file, nor where one closes it while another opens it.
func patiently(ctx context.Context, wait time.Duration, try func() error) error {
	for over := time.After(wait); ; {
		err := try()
		if !Is(err, Busy) {
			return err
		}
		select {
		case <-over:
			return err
		case <-ctx.Done():
			return err
		case <-time.After(10 * time.Millisecond):
		}
	}
}

func openOnce(ctx context.Context, path string, now func() time.Time, l limits) (*Store, error) {
	full, err := filepath.Abs(path)
	if err != nil {
		return nil, explain(ctx, path, err)
	}
	if err := inspect(ctx, full, l); err != nil {
		return nil, explain(ctx, path, err)
	}
	s := &Store{path: path, now: now}
	if s.write, err = sql.Open("sqlite", source(full, l, false)); err == nil {
		s.read, err = sql.Open("sqlite", source(full, l, true))
	}
	if err == nil {
		s.write.SetMaxOpenConns(1)
		s.read.SetMaxOpenConns(readers)
		err = migrate(ctx, s.write, latest())
	}
	if err != nil {
		return nil, explain(ctx, path, errors.Join(err, s.Close()))
	}
	return s, nil
}

// Close ends all work on the studio. The last program that closes it leaves one file with everything in it.
func (s *Store) Close() error {
	var errs []error
	for _, db := range []*sql.DB{s.read, s.write} { // the log is written back by the last connection, which must be able to write
		if db != nil {
			errs = append(errs, db.Close())
		}
	}
	return errors.Join(errs...)
}

// source names a file to the driver, with what every connection is set to.
func source(path string, l limits, readOnly bool) string {
	q := url.Values{
		"_defensive": {"1"}, "_dqs": {"0"}, "_error_rc": {"1"}, "_txlock": {"immediate"},
		"_busy_timeout": {strconv.FormatInt(l.wait.Milliseconds(), 10)},
		// 2 syncs the log at every commit, so that a power cut takes nothing that was shown as saved
		"_pragma": {"journal_mode(wal)", "synchronous(2)", "foreign_keys(1)", "trusted_schema(0)"},
	}
	if l.pages > 0 {
		q.Add("_pragma", "max_page_count("+strconv.Itoa(l.pages)+")")
	}
	if l.log > 0 {
		q.Add("_pragma", "wal_autocheckpoint("+strconv.Itoa(l.log)+")")
	}
	if readOnly {
		q.Set("_txlock", "deferred")
		q.Set("_query_only", "1")
	}
	return fileURL(path, q)
}

func fileURL(path string, q url.Values) string {
	return (&url.URL{Scheme: "file", Path: filepath.ToSlash(path), RawQuery: q.Encode()}).String()
}

// application is the id of our files in their header, "FWst".
const application = 0x46577374

// inspect refuses a file that is not a sound studio which this program can read. It changes nothing. A file that is not there
// is fine.
func inspect(ctx context.Context, path string, l limits) error {
	empty, err := inspectHeader(path)
	if err != nil || empty {
		return err
	}
	// The log of a program that was killed may know more than the header, so SQLite is asked as well; without the settings
	// of source, which would write.
	db, err := sql.Open("sqlite", fileURL(path, url.Values{
		"mode": {"rw"}, "_query_only": {"1"}, "_defensive": {"1"}, "_error_rc": {"1"}, "_pragma": {"trusted_schema(0)"},
		"_busy_timeout": {strconv.FormatInt(l.wait.Milliseconds(), 10)}}))
	if err != nil {
		return err
	}
	defer db.Close()
	db.SetMaxOpenConns(1)
	var id, version, tables int64
	err = db.QueryRowContext(ctx, `SELECT (SELECT application_id FROM pragma_application_id),
		(SELECT user_version FROM pragma_user_version), (SELECT count(*) FROM sqlite_schema)`).Scan(&id, &version, &tables)
	switch {
	case err != nil:
		return explain(ctx, path, err)
	case tables == 0 && id == 0:
		return nil // killed before the first table was there
	}
	if err := known(path, id, version); err != nil {
		return err
	}
	return sound(ctx, db, path, `PRAGMA quick_check(1)`)
}

// inspectHeader looks at the first bytes of a file, which needs no database and so cannot change anything.
func inspectHeader(path string) (empty bool, err error) {
	f, err := os.Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return true, orphanedLog(path)
	}
	if err != nil {
		return false, err
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return false, err
	case !info.Mode().IsRegular():
		return false, &Fault{Kind: Foreign, Where: path, What: "this is a folder or a device", Needs: "name a file"}
	case info.Size() == 0:
		return true, orphanedLog(path)
	}
	var head [100]byte
	if _, err := io.ReadFull(f, head[:]); err != nil && !errors.Is(err, io.ErrUnexpectedEOF) {
		return false, err
	}
	if !bytes.HasPrefix(head[:], []byte("SQLite format 3\x00")) {
		return false, &Fault{Kind: Foreign, Where: path, What: "the file is no studio; it is left as it is", Needs: "name a studio, or a file that is not there yet"}
	}
	// places of the header: https://www.sqlite.org/fileformat2.html#the_database_header, from memory
	version, id := binary.BigEndian.Uint32(head[60:]), binary.BigEndian.Uint32(head[68:])
	if id == 0 && version == 0 {
		return false, nil // a studio whose tables are in the log yet, or a foreign file: inspect finds out
	}
	return false, known(path, int64(id), int64(version))
}

// orphanedLog refuses to begin a new studio over the log of one whose file is gone: the log may hold the last edits, and
// SQLite would delete it.
func orphanedLog(path string) error {
	info, err := os.Stat(path + "-wal")
	if err != nil || info.Size() == 0 {
		return nil
	}
	return &Fault{Kind: Damaged, Where: path, What: "the studio is gone or empty, but its log " + filepath.Base(path) + "-wal is there and may hold the last edits",
		Needs: "put the studio back beside it, or move the log away"}
}

// known refuses files of other programs, and those of a newer one.
func known(path string, id, version int64) error {
	switch {
	case id != application:
		return &Fault{Kind: Foreign, Where: path, What: "the file belongs to another program; it is left as it is", Needs: "name a studio, or a file that is not there yet"}
	case version > int64(latest()):
		return &Fault{Kind: Newer, Where: path, What: fmt.Sprintf("a newer Foldwright wrote this studio (its form is %d, this program knows up to %d); it is left as it is", version, latest()),
			Needs: "open it with the newer program"}
	}
	return nil
}

// sound runs one of SQLite's checks on the whole file.
func sound(ctx context.Context, db *sql.DB, path, check string) error {
	var answer string
	if err := db.QueryRowContext(ctx, check).Scan(&answer); err != nil {
		return explain(ctx, path, err)
	}
	if answer != "ok" {
		return &Fault{Kind: Damaged, Where: path, What: "the file is damaged; it is left as it is",
			Needs: "bring in a copy of the studio, and keep this file: most of it may still be read", Err: errors.New(answer)}
	}
	return nil
}
