package store

import (
	"context"
	"database/sql"
	"fmt"
	"strings"

	"foldwright/problem"
	"foldwright/recipe"
)

// mostWhat is how many characters the name of a step has at most.
const mostWhat = 200

// Save saves a text that was made out of the revision base; what names what was done: "score 3 to 52". If base is not the
// newest revision, nothing is saved and the error is a [*Conflict]. A text that is there already is no edit: the newest
// revision is returned, whatever the base was, so that a save whose answer was lost can be sent again.
func (s *Store) Save(ctx context.Context, doc Doc, base int, text, what string) (Revision, error) {
	return s.revise(ctx, doc, base, &text, func(_ *sql.Tx, now row) (row, error) {
		return now.edit(text, now.tags, what), nil
	})
}

// Undo shows the state before the newest step, as a new revision. The error is a [*Conflict] if base is not the newest
// revision, and of the kind [Refused] if there is nothing to undo.
func (s *Store) Undo(ctx context.Context, doc Doc, base int) (Revision, error) {
	return s.revise(ctx, doc, base, nil, func(tx *sql.Tx, now row) (row, error) {
		shown, err := load(ctx, tx, doc, now.shows)
		if err != nil {
			return now, err
		}
		if shown.back == 0 {
			return now, refused(doc.String(), "there is nothing to undo", "this is how it began")
		}
		return now.show(ctx, tx, shown.back, "undo: "+shown.what)
	})
}

// Redo shows again what was undone last, as a new revision. Errors as for Undo.
func (s *Store) Redo(ctx context.Context, doc Doc, base int) (Revision, error) {
	return s.revise(ctx, doc, base, nil, func(tx *sql.Tx, now row) (row, error) {
		number, what, err := now.redo(ctx, tx)
		if err != nil {
			return now, err
		}
		if number == 0 {
			return now, refused(doc.String(), "there is nothing to redo", "a redo follows an undo, with no edit between them")
		}
		return now.show(ctx, tx, number, "redo: "+what)
	})
}

// Return brings back the text and the tags of any revision. It is an edit like any other: undoing it leads to what was there
// before.
func (s *Store) Return(ctx context.Context, doc Doc, base, number int) (Revision, error) {
	return s.revise(ctx, doc, base, nil, func(tx *sql.Tx, now row) (row, error) {
		if number < 1 || number > now.number {
			return now, missing(doc.String(), fmt.Sprintf("there is no revision %d", number))
		}
		old, err := load(ctx, tx, doc, number)
		next := now.edit(old.text, old.tags, fmt.Sprintf("back to %d: %s", number, old.what))
		next.again = number
		return next, err
	})
}

// edit returns the next revision with another text or other tags.
func (r row) edit(text, tags, what string) row {
	n := r.number + 1
	return row{doc: r.doc, number: n, shows: n, back: r.shows, tip: n, what: what, tags: tags, text: text}
}

// show returns the next revision, which shows an earlier one.
func (r row) show(ctx context.Context, q querier, number int, what string) (row, error) {
	old, err := load(ctx, q, r.doc, number)
	return row{doc: r.doc, number: r.number + 1, shows: number, back: r.shows, tip: r.tip, what: what, tags: old.tags, text: old.text}, err
}

// revise writes the revision that next makes of the newest one, which must be base. Nothing is written if text and tags stay
// as they are, or if yours, the text that is to be saved, is there already.
func (s *Store) revise(ctx context.Context, doc Doc, base int, yours *string, next func(*sql.Tx, row) (row, error)) (Revision, error) {
	var out Revision
	err := s.change(ctx, func(tx *sql.Tx) error {
		now, err := load(ctx, tx, doc, 0)
		if err != nil {
			return err
		}
		to := now
		if yours == nil || now.text != *yours {
			if base != now.number {
				return conflict(ctx, tx, base, yours, now)
			}
			if to, err = next(tx, now); err != nil {
				return err
			}
		}
		if to.text != now.text || to.tags != now.tags {
			if to, err = s.insert(ctx, tx, to); err != nil {
				return err
			}
		} else {
			to = now
		}
		out, err = to.newest(ctx, tx)
		return err
	})
	return out, err
}

func conflict(ctx context.Context, q querier, base int, yours *string, now row) error {
	newest, err := now.newest(ctx, q)
	if err != nil {
		return err
	}
	out := &Conflict{Doc: now.doc, Base: base, Newest: newest}
	if yours != nil {
		out.Yours = *yours
	}
	return out
}

const insertRevision = `INSERT INTO revision (document, number, made, shows, back, tip, again, what, tags, text)
	VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`

// insert writes a revision, and into a card's row what is taken from it.
func (s *Store) insert(ctx context.Context, tx *sql.Tx, r row) (row, error) {
	r.what = problem.Clip(strings.Join(strings.Fields(r.what), " "), mostWhat)
	switch {
	case r.what == "":
		return r, refused(r.doc.String(), "the step has no name", "say what was done, so that the history can be read")
	case len(r.text) > recipe.MaxText:
		return r, refused(r.doc.String(), fmt.Sprintf("the text is %d bytes long", len(r.text)), fmt.Sprintf("at most %d", recipe.MaxText))
	}
	r.made = s.now().UnixMilli()
	_, err := tx.ExecContext(ctx, insertRevision, int64(r.doc), r.number, r.made, r.shows, r.back, r.tip, r.again, r.what, r.tags, r.text)
	if err != nil || r.doc < firstCard {
		return r, err
	}
	return r, updateCard(ctx, tx, r)
}
