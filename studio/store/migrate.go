package store

import (
	"context"
	"database/sql"
	"embed"
	"fmt"
)

// The files are numbered from 0001; each sets user_version to its number. A file that was ever released never changes.
//
//go:embed migrations/*.sql
var migrations embed.FS

// latest is the number of the last migration.
func latest() int {
	entries, err := migrations.ReadDir("migrations")
	if err != nil {
		return 0 // cannot happen: the folder is embedded
	}
	return len(entries)
}

// migrate brings a database up to a version, each step wholly or not at all.
func migrate(ctx context.Context, db *sql.DB, to int) error {
	entries, err := migrations.ReadDir("migrations")
	if err != nil {
		return err
	}
	var version int
	if err := db.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version); err != nil {
		return err
	}
	for n := version; n < to; n++ {
		if err := step(ctx, db, n, "migrations/"+entries[n].Name()); err != nil {
			return fmt.Errorf("migration %d: %w", n+1, err)
		}
	}
	return nil
}

// step runs one migration on a database of a version, unless another program did so in the meantime.
func step(ctx context.Context, db *sql.DB, from int, file string) error {
	script, err := migrations.ReadFile(file)
	if err != nil {
		return err
	}
	tx, err := db.BeginTx(ctx, nil)
	if err != nil {
		return err
	}
	defer tx.Rollback() // does nothing behind a commit
	var version int
	if err := tx.QueryRowContext(ctx, `PRAGMA user_version`).Scan(&version); err != nil || version > from {
		return err
	}
	if _, err := tx.ExecContext(ctx, string(script)); err != nil {
		return err
	}
	return tx.Commit()
}
