package store

import (
	"context"
	"database/sql"
	"fmt"

	"foldwright/card"
	"foldwright/length"
)

// Asked is a size that somebody asked for, and how often.
type Asked struct {
	Size card.Size
	// Unit is the one in which it was last said.
	Unit  length.Unit
	Times int
}

const insertAsked = `INSERT INTO asked (width, height, unit, times) VALUES (?1, ?2, ?3, 1)
	ON CONFLICT (width, height) DO UPDATE SET unit = ?3, times = times + 1`

// Ask counts that a size was asked for. Nothing else is kept.
func (s *Store) Ask(ctx context.Context, size card.Size, unit length.Unit) error {
	for _, l := range []length.Length{size.W, size.H} {
		if l <= 0 || l > length.Max {
			return refused("asked-for size", l.Human(unit)+" is no side of a card", "a length above 0, at most "+length.Length(length.Max).Human(unit))
		}
	}
	return s.change(ctx, func(tx *sql.Tx) error {
		_, err := tx.ExecContext(ctx, insertAsked, int64(size.W), int64(size.H), unit.String())
		return err
	})
}

const updateAsked = `UPDATE asked SET times = times - 1 WHERE width = ? AND height = ? AND times > 0`

// Unask takes back that a size was asked for once.
func (s *Store) Unask(ctx context.Context, size card.Size) error {
	return s.change(ctx, func(tx *sql.Tx) error {
		done, err := tx.ExecContext(ctx, updateAsked, int64(size.W), int64(size.H))
		if err != nil {
			return err
		}
		if n, err := done.RowsAffected(); err != nil || n == 0 {
			return missing("asked-for size", fmt.Sprintf("nobody asked for %s x %s", size.W.Human(length.MM), size.H.Human(length.MM)))
		}
		return nil
	})
}

const selectAsked = `SELECT width, height, unit, times FROM asked WHERE times > 0 ORDER BY times DESC, width, height`

// AskedFor lists the sizes that were asked for, the most frequent first.
func (s *Store) AskedFor(ctx context.Context) ([]Asked, error) {
	var out []Asked
	err := each(ctx, s.read, func(rows *sql.Rows) error {
		var a Asked
		var unit string
		err := rows.Scan((*int64)(&a.Size.W), (*int64)(&a.Size.H), &unit, &a.Times)
		a.Unit = unitNamed(unit)
		out = append(out, a)
		return err
	}, selectAsked)
	return out, explain(ctx, s.path, err)
}

// unitNamed returns the unit that is stored under its symbol.
func unitNamed(symbol string) length.Unit {
	for _, u := range []length.Unit{length.CM, length.IN} {
		if u.String() == symbol {
			return u
		}
	}
	return length.MM
}
