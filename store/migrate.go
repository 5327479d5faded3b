package store

import (
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/pressly/goose/v3"
)

// applicationID is stamped into the file, so that a stranger's database is told apart.
const applicationID = 0x66657474 // "fett"

//go:embed migrations/*.sql
var embedded embed.FS

// migrations returns the steps from an empty file to the present one, one file a version.
func migrations() fs.FS {
	steps, err := fs.Sub(embedded, "migrations")
	if err != nil {
		panic(err) // only for a malformed path, and ours is a constant
	}
	return steps
}

// prepare brings the file at path up to date, if it is ours to touch.
func prepare(ctx context.Context, path string, steps fs.FS) error {
	newest, err := newestVersion(steps)
	if err != nil {
		return err
	}
	version, err := look(ctx, path)
	if err != nil || version == newest {
		return err
	}
	if version > newest {
		return ErrNewer
	}
	// Two programs that start at once must not both do the steps: the second waits, and then
	// finds them done.
	release, err := waitForLock(ctx, path)
	if err != nil {
		return err
	}
	defer release()
	if version, err = look(ctx, path); err != nil || version == newest {
		return err
	}
	if version > 0 {
		if err := copyBefore(ctx, path, version); err != nil {
			return err
		}
	}
	return migrate(ctx, path, steps)
}

// newestVersion returns the highest number that a step's file name starts with.
func newestVersion(steps fs.FS) (int64, error) {
	names, err := fs.Glob(steps, "*.sql")
	if err != nil {
		return 0, fmt.Errorf("list migrations: %w", err)
	}
	var newest int64
	for _, name := range names {
		digits, _, _ := strings.Cut(name, "_")
		n, err := strconv.ParseInt(digits, 10, 64)
		if err != nil {
			return 0, fmt.Errorf("number of migration %s: %w", name, err)
		}
		newest = max(newest, n)
	}
	return newest, nil
}

// look returns the version of a file, 0 if there is nothing in it yet, without changing anything. A
// stranger's file is ErrForeign.
func look(ctx context.Context, path string) (version int64, err error) {
	db, err := connect(path, visitorSettings, 1)
	if err != nil {
		return 0, err
	}
	defer db.Close()
	var id, tables int64
	var numbered bool
	err = db.QueryRowContext(ctx, `
		SELECT application_id, (SELECT count(*) FROM sqlite_schema),
			EXISTS (SELECT 1 FROM sqlite_schema WHERE name = 'goose_db_version')
		FROM pragma_application_id`).Scan(&id, &tables, &numbered)
	switch {
	case err != nil:
		return 0, fmt.Errorf("look at the file: %w", explain(err))
	case id != applicationID && tables > 0, id != applicationID && id != 0:
		return 0, ErrForeign
	case !numbered:
		return 0, nil
	}
	err = db.QueryRowContext(ctx, "SELECT coalesce(max(version_id), 0) FROM goose_db_version").Scan(&version)
	if err != nil {
		return 0, fmt.Errorf("read the file's version: %w", explain(err))
	}
	return version, nil
}

// copyBefore keeps a copy of the file as it was at a version, beside it.
func copyBefore(ctx context.Context, path string, version int64) error {
	file := filepath.Join(filepath.Dir(path), fmt.Sprintf("%s.version%d", filepath.Base(path), version))
	if err := copyTo(ctx, path, file); err != nil {
		return fmt.Errorf("copy before bringing the file up to date: %w", err)
	}
	return nil
}

// migrate does the steps that are missing, each in a transaction of its own together with its
// number.
func migrate(ctx context.Context, path string, steps fs.FS) (err error) {
	db, err := connect(path, writerSettings, 1)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, db.Close()) }()
	// Stamped first: a file that is left half made by a power cut is known as ours.
	if _, err := db.ExecContext(ctx, fmt.Sprintf("PRAGMA application_id = %d", applicationID)); err != nil {
		return fmt.Errorf("stamp the file: %w", explain(err))
	}
	provider, err := goose.NewProvider(goose.DialectSQLite3, db, steps, goose.WithDisableGlobalRegistry(true))
	if err != nil {
		return fmt.Errorf("read migrations: %w", err)
	}
	if _, err := provider.Up(ctx); err != nil {
		return fmt.Errorf("bring the file up to date: %w", explain(err))
	}
	return nil
}
