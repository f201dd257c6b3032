package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"strings"
	"time"
)

// Doc is a document: a text that is kept with its history. It is a file of the drawer, or a card.
type Doc int64

// The files of the drawer, each in the form that its reader reads.
const (
	Papers    Doc = 1 + iota // sheets and off-cuts: kit.ReadDrawer
	Dies                     // dies, punches and stamps: stock.ReadDies
	Envelopes                // own envelopes and boxes: stock.ReadOwnEnvelopes
	Mail                     // own mail classes: stock.Table.WithMail
	Prices                   // what mail costs: stock.ReadPrices
)

// Drawer returns the files of the drawer.
func Drawer() []Doc { return []Doc{Papers, Dies, Envelopes, Mail, Prices} }

// String names the document as messages do: "papers", "card 1003".
func (d Doc) String() string {
	if d >= Papers && d <= Prices {
		return []string{"papers", "dies", "envelopes", "mail", "prices"}[d-Papers]
	}
	return fmt.Sprintf("card %d", int64(d))
}

// Step is one line of a history.
type Step struct {
	Number int
	// What was done, as it was named.
	What string
	// Made is zero for the first revision of the drawer's files.
	Made time.Time
	// As is the earlier revision that an undo, a redo or a return shows again; 0 for an edit.
	As int
}

// Revision is one state of a document.
type Revision struct {
	Step
	Doc  Doc
	Text string
	// Tags are those of a card, sorted; they have the same history as the text.
	Tags []string
	// Undo and Redo are what would be undone and redone from here, by the names of those steps; "" where there is nothing.
	// They are known for the newest revision only.
	Undo, Redo string
}

// row is a revision as it is stored: see migrations/0001_cards.sql.
type row struct {
	doc                             Doc
	number, shows, back, tip, again int
	made                            int64
	what, tags, text                string
}

// querier is a database or a transaction.
type querier interface {
	QueryRowContext(ctx context.Context, query string, args ...any) *sql.Row
	QueryContext(ctx context.Context, query string, args ...any) (*sql.Rows, error)
}

const selectRevision = `SELECT number, made, shows, back, tip, again, what, tags, text FROM revision
	WHERE document = ?1 AND number = CASE ?2 WHEN 0 THEN (SELECT max(number) FROM revision WHERE document = ?1) ELSE ?2 END`

// load reads a revision; number 0 is the newest.
func load(ctx context.Context, q querier, doc Doc, number int) (row, error) {
	r := row{doc: doc}
	err := q.QueryRowContext(ctx, selectRevision, int64(doc), number).
		Scan(&r.number, &r.made, &r.shows, &r.back, &r.tip, &r.again, &r.what, &r.tags, &r.text)
	if !errors.Is(err, sql.ErrNoRows) {
		return r, err
	}
	if number == 0 {
		return r, missing(doc.String(), "there is no such card")
	}
	return r, missing(doc.String(), fmt.Sprintf("there is no revision %d", number))
}

func (r row) step() Step {
	s := Step{Number: r.number, What: r.what, As: r.again}
	if r.made != 0 {
		s.Made = time.UnixMilli(r.made).UTC()
	}
	if r.shows != r.number {
		s.As = r.shows
	}
	return s
}

func (r row) revision() Revision {
	return Revision{Step: r.step(), Doc: r.doc, Text: r.text, Tags: lines(r.tags)}
}

func lines(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "\n")
}

// selectRedo goes from the tip of the way back until what is shown is the step before. CROSS JOIN has SQLite take each step of
// the way and look up one revision; it would read the whole history for each otherwise.
const selectRedo = `WITH RECURSIVE way (number, back, what) AS (
		SELECT number, back, what FROM revision WHERE document = ?1 AND number = ?2
		UNION ALL
		SELECT r.number, r.back, r.what FROM way CROSS JOIN revision r WHERE r.document = ?1 AND r.number = way.back AND way.back > ?3)
	SELECT number, what FROM way WHERE back = ?3`

// redo returns what a redo would show, and its name; 0 where there is nothing.
func (r row) redo(ctx context.Context, q querier) (number int, what string, err error) {
	if r.tip == r.shows {
		return 0, "", nil
	}
	err = q.QueryRowContext(ctx, selectRedo, int64(r.doc), r.tip, r.shows).Scan(&number, &what)
	return number, what, err
}

// newest returns the revision with what can be undone and redone from it.
func (r row) newest(ctx context.Context, q querier) (Revision, error) {
	out := r.revision()
	shown, err := load(ctx, q, r.doc, r.shows)
	if err != nil {
		return out, err
	}
	if shown.back > 0 {
		out.Undo = shown.what
	}
	_, out.Redo, err = r.redo(ctx, q)
	return out, err
}

// Newest returns the newest revision of a document.
func (s *Store) Newest(ctx context.Context, doc Doc) (Revision, error) {
	var out Revision
	err := s.view(ctx, func(tx *sql.Tx) error {
		r, err := load(ctx, tx, doc, 0)
		if err == nil {
			out, err = r.newest(ctx, tx)
		}
		return err
	})
	return out, err
}

// Revision returns a revision of a document; its Undo and Redo are left empty.
func (s *Store) Revision(ctx context.Context, doc Doc, number int) (Revision, error) {
	if number < 1 {
		return Revision{}, missing(doc.String(), fmt.Sprintf("there is no revision %d", number))
	}
	r, err := load(ctx, s.read, doc, number)
	if err != nil {
		return Revision{}, explain(ctx, s.path, err)
	}
	return r.revision(), nil
}

const selectHistory = `SELECT number, made, shows, again, what FROM revision WHERE document = ?1 AND (?2 = 0 OR number < ?2)
	ORDER BY number DESC LIMIT ?3`

// History returns the steps of a document, the newest first: at most so many, and only those before a revision if before is
// not 0.
func (s *Store) History(ctx context.Context, doc Doc, before, most int) ([]Step, error) {
	var out []Step
	err := each(ctx, s.read, func(rows *sql.Rows) error {
		r := row{doc: doc}
		err := rows.Scan(&r.number, &r.made, &r.shows, &r.again, &r.what)
		out = append(out, r.step())
		return err
	}, selectHistory, int64(doc), before, most)
	if err == nil && len(out) == 0 && before == 0 {
		err = missing(doc.String(), "there is no such card")
	}
	return out, explain(ctx, s.path, err)
}

// each calls scan for every row of an answer.
func each(ctx context.Context, q querier, scan func(*sql.Rows) error, query string, args ...any) error {
	rows, err := q.QueryContext(ctx, query, args...)
	if err != nil {
		return err
	}
	defer rows.Close()
	for rows.Next() {
		if err := scan(rows); err != nil {
			return err
		}
	}
	return rows.Err()
}

// view runs a function that reads, on one state of the studio.
func (s *Store) view(ctx context.Context, read func(*sql.Tx) error) error {
	return explain(ctx, s.path, within(ctx, s.read, read))
}

// change runs a function that writes: all of it is done, or nothing.
func (s *Store) change(ctx context.Context, write func(*sql.Tx) error) error {
	return explain(ctx, s.path, within(ctx, s.write, write))
}

func within(ctx context.Context, db *sql.DB, do func(*sql.Tx) error) error {
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing behind a commit
	if err := do(tx); err != nil {
		return err
	}
	return tx.Commit()
}
