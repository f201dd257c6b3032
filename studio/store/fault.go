package store

import (
	"context"
	"errors"
	"fmt"

	"modernc.org/sqlite"
	sqlite3 "modernc.org/sqlite/lib"

	"foldwright/problem"
)

// Kind says what kind of trouble a [Fault] is, for exit codes and answers.
type Kind uint8

// The kinds of trouble.
const (
	// Missing: there is no such card, revision, cut or file.
	Missing Kind = iota
	// Refused: what was asked for cannot be done, such as an undo where there is nothing to undo.
	Refused
	// Foreign: the file is no studio.
	Foreign
	// Newer: the file was written by a newer program.
	Newer
	// Damaged: the file is a studio, and parts of it cannot be read.
	Damaged
	// Busy: another program has been writing for too long.
	Busy
	// Full: the disk is full.
	Full
	// Disk: the file cannot be read or written for another reason.
	Disk
)

// Fault is trouble with the store.
type Fault struct {
	Kind Kind
	// Where is the file, or the document.
	Where string
	// What is wrong, and Needs what would be right.
	What, Needs string
	// Err is what it comes from; may be nil.
	Err error
}

// Error says where, what is wrong, and what would be right.
func (f *Fault) Error() string {
	s := f.Where + ": " + f.What
	if f.Needs != "" {
		s += "; " + f.Needs
	}
	if f.Err != nil && f.Kind == Disk {
		s += " (" + f.Err.Error() + ")"
	}
	return s
}

// Unwrap returns what the fault comes from.
func (f *Fault) Unwrap() error { return f.Err }

// Is says whether an error is a fault of this kind.
func Is(err error, kind Kind) bool {
	var f *Fault
	return errors.As(err, &f) && f.Kind == kind
}

// Conflict is a change that was refused because the document was changed since its base was read.
type Conflict struct {
	Doc Doc
	// Base is the revision that was changed, and Yours the text that was to be saved; "" where it was not about a text.
	Base  int
	Yours string
	// Newest is the revision that is newest now.
	Newest Revision
}

// Error says what was saved since, and what to do.
func (c *Conflict) Error() string {
	return fmt.Sprintf("%v: revision %d (%s) was saved since revision %d, which was changed here; nothing is lost: look at both, and save again on revision %d",
		c.Doc, c.Newest.Number, problem.Quote(c.Newest.What), c.Base, c.Newest.Number)
}

func missing(where, what string) error {
	return &Fault{Kind: Missing, Where: where, What: what}
}

func refused(where, what, needs string) error {
	return &Fault{Kind: Refused, Where: where, What: what, Needs: needs}
}

// explain turns an error of the database into one that says what to do. path is the file at fault.
func explain(ctx context.Context, path string, err error) error {
	var fault *Fault
	var conflict *Conflict
	switch {
	case err == nil || errors.As(err, &fault) || errors.As(err, &conflict):
		return err
	case ctx.Err() != nil:
		return fmt.Errorf("%s: stopped before it was done, nothing was changed: %w", path, ctx.Err())
	}
	out := &Fault{Kind: Disk, Where: path, What: "the file cannot be read or written", Needs: "see that the folder is there and may be written", Err: err}
	var code *sqlite.Error
	if !errors.As(err, &code) {
		return out
	}
	switch code.Code() & 0xff { // the rest of the code says where in SQLite it happened
	case sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED:
		out.Kind, out.What, out.Needs = Busy, "another program is writing to the file, and was waited for; nothing was changed", "close that program, or try again"
	case sqlite3.SQLITE_FULL:
		out.Kind, out.What, out.Needs = Full, "the disk is full; nothing was changed, and what was saved before is still there", "free some room, and do it again"
	case sqlite3.SQLITE_CORRUPT:
		out.Kind, out.What, out.Needs = Damaged, "the file is damaged; it is left as it is", "bring in a copy of the studio, and keep this file: most of it may still be read"
	case sqlite3.SQLITE_NOTADB:
		out.Kind, out.What, out.Needs = Foreign, "the file is no studio; it is left as it is", "name a studio, or a file that is not there yet"
	}
	return out
}
