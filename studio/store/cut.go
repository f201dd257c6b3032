package store

import (
	"context"
	"database/sql"
	"fmt"
	"time"

	"foldwright/kit"
	"foldwright/problem"
)

// mostPlan is how many bytes a plan has at most that is kept with its cut.
const mostPlan = 4 << 20

// Cut is a move of the drawer, with the plan that caused it.
type Cut struct {
	ID int64
	// Revision of the papers that the cut made, with its name and time.
	Revision int
	What     string
	Made     time.Time
	// Plan is what the caller gave; it is kept as it is.
	Plan string
	Move Move
	// Stands says that the drawer is as the cut left it, but for later changes: neither was the cut taken back, nor were the
	// papers brought to a state from before it.
	Stands bool
}

// Cut takes the sheets of a move out of the papers and puts its off-cuts in, as one revision, and keeps the plan with it. base
// is the revision of the papers for which it was planned. The error is a [*Conflict] if it is not the newest, and of the kind
// [Refused] if the drawer does not hold the sheets.
func (s *Store) Cut(ctx context.Context, base int, m Move, plan, what string) (Revision, error) {
	switch {
	case len(m.Take)+len(m.Put) == 0:
		return Revision{}, refused(Papers.String(), "the cut moves no sheets", "a plan that uses sheets of the drawer")
	case len(plan) > mostPlan:
		return Revision{}, refused(Papers.String(), fmt.Sprintf("the plan is %d bytes long", len(plan)), fmt.Sprintf("at most %d", mostPlan))
	}
	return s.revise(ctx, Papers, base, nil, func(tx *sql.Tx, now row) (row, error) {
		return now.move(ctx, tx, m, plan, what, 0)
	})
}

// Uncut takes a cut back, whatever was changed since: its sheets are put in again, and its off-cuts are taken out. Errors as
// for Cut; it is also refused where the cut does not stand any more.
//
// If nothing was changed since, Undo does the same.
func (s *Store) Uncut(ctx context.Context, base int, id int64) (Revision, error) {
	return s.revise(ctx, Papers, base, nil, func(tx *sql.Tx, now row) (row, error) {
		cuts, err := selectedCuts(ctx, tx, id)
		if err != nil {
			return now, err
		}
		if len(cuts) == 0 {
			return now, missing(Papers.String(), fmt.Sprintf("there is no cut %d", id))
		}
		if !cuts[0].Stands {
			return now, refused(Papers.String(), "the cut "+problem.Quote(cuts[0].What)+" was taken back already", "a cut that stands")
		}
		return now.move(ctx, tx, cuts[0].Move.back(), "", "taken back: "+cuts[0].What, id)
	})
}

const (
	insertCut      = `INSERT INTO cut (document, revision, undoes, plan) VALUES (?, ?, nullif(?, 0), ?)`
	insertMovement = `INSERT INTO movement (cut, place, change, stock, width, height, unit, grain, directed, note) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)`
)

// move returns the next revision of the papers, and writes down what makes it; undoes is the cut that it takes back, or 0.
func (r row) move(ctx context.Context, tx *sql.Tx, m Move, plan, what string, undoes int64) (row, error) {
	text, err := m.apply(r.text)
	if err != nil {
		return r, err
	}
	if text == r.text {
		return r, refused(Papers.String(), "the cut takes out what it puts in", "a plan that uses sheets of the drawer")
	}
	next := r.edit(text, r.tags, what)
	done, err := tx.ExecContext(ctx, insertCut, int64(r.doc), next.number, undoes, plan)
	if err != nil {
		return r, err
	}
	id, err := done.LastInsertId()
	if err != nil {
		return r, err
	}
	place := 0
	for _, list := range []struct {
		papers []kit.Paper
		sign   int
	}{{m.Take, -1}, {m.Put, 1}} {
		for _, p := range list.papers {
			if _, err := tx.ExecContext(ctx, insertMovement, id, place, list.sign*p.OnHand, p.Stock, int64(p.W), int64(p.H),
				p.Unit.String(), grainWord(p), p.Directed, p.Note); err != nil {
				return r, err
			}
			place++
		}
	}
	return next, nil
}

// Cuts lists all cuts, the newest first; those that took another one back are not among them.
func (s *Store) Cuts(ctx context.Context) ([]Cut, error) {
	var out []Cut
	err := s.view(ctx, func(tx *sql.Tx) (err error) {
		out, err = selectedCuts(ctx, tx, 0)
		return err
	})
	return out, err
}

// selectCuts: a cut stands if its revision lies on the way from what is shown now back to the beginning, and none that takes
// it back does. A return continues where the revision lies that it brought back. CROSS JOIN as in selectRedo.
const selectCuts = `WITH RECURSIVE way (number) AS (
		SELECT shows FROM revision WHERE document = ?1 AND number = (SELECT max(number) FROM revision WHERE document = ?1)
		UNION ALL
		SELECT CASE r.again WHEN 0 THEN r.back ELSE (SELECT shows FROM revision WHERE document = ?1 AND number = r.again) END
			FROM way CROSS JOIN revision r WHERE r.document = ?1 AND r.number = way.number AND r.back > 0)
	SELECT c.id, c.revision, r.what, r.made, c.plan, c.revision IN way
			AND NOT EXISTS (SELECT 1 FROM cut u WHERE u.undoes = c.id AND u.revision IN way)
		FROM cut c JOIN revision r ON r.document = c.document AND r.number = c.revision
		WHERE c.undoes IS NULL AND (?2 = 0 OR c.id = ?2) ORDER BY c.id DESC`

const selectMovements = `SELECT change, stock, width, height, unit, grain, directed, note FROM movement WHERE cut = ? ORDER BY place`

// selectedCuts returns one cut, or all of them for the id 0.
func selectedCuts(ctx context.Context, q querier, id int64) ([]Cut, error) {
	var out []Cut
	err := each(ctx, q, func(rows *sql.Rows) error {
		var c Cut
		var made int64
		err := rows.Scan(&c.ID, &c.Revision, &c.What, &made, &c.Plan, &c.Stands)
		c.Made = time.UnixMilli(made).UTC()
		out = append(out, c)
		return err
	}, selectCuts, int64(Papers), id)
	for i := range out {
		if err == nil {
			out[i].Move, err = movements(ctx, q, out[i].ID)
		}
	}
	return out, err
}

func movements(ctx context.Context, q querier, cut int64) (Move, error) {
	var m Move
	err := each(ctx, q, func(rows *sql.Rows) error {
		var p kit.Paper
		var unit, grain string
		if err := rows.Scan(&p.OnHand, &p.Stock, (*int64)(&p.W), (*int64)(&p.H), &unit, &grain, &p.Directed, &p.Note); err != nil {
			return err
		}
		p.Unit, p.Grain = unitNamed(unit), grainNamed(grain)
		if p.OnHand < 0 {
			p.OnHand = -p.OnHand
			m.Take = append(m.Take, p)
		} else {
			m.Put = append(m.Put, p)
		}
		return nil
	}, selectMovements, cut)
	return m, err
}
