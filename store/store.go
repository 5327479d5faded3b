package store

import (
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"
)

// Store is an open database. It is safe for use by several goroutines.
type Store struct {
	path   string
	now    func() time.Time
	writer *sql.DB // one connection
	reader *sql.DB
}

// Open opens the database at path, which it makes if it is not there, together with its folder;
// both are for the owner's eyes only. An older file is copied and then brought up to date. now is
// the clock.
//
// It returns ErrForeign for a file that is not fettle's, ErrNewer for one that a later fettle
// wrote, ErrReadOnly where it may not write, and ErrLocked if the file has to be brought up to
// date while another fettle runs on it.
func Open(ctx context.Context, path string, now func() time.Time) (*Store, error) {
	return open(ctx, path, now, migrations())
}

func open(ctx context.Context, path string, now func() time.Time, steps fs.FS) (*Store, error) {
	path, err := filepath.Abs(path)
	if err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	if err := makeFile(path); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	if err := prepare(ctx, path, steps); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	s := &Store{path: path, now: now}
	if s.writer, err = connect(path, writerSettings, 1); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, err)
	}
	if s.reader, err = connect(path, readerSettings, readers); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, errors.Join(err, s.writer.Close()))
	}
	if err := checkWAL(ctx, s.writer); err != nil {
		return nil, fmt.Errorf("open %s: %w", path, errors.Join(err, s.Close()))
	}
	return s, nil
}

// makeFile makes an empty file, and its folder, unless they are there. A file that is there is not
// even opened: closing it again would drop the locks that SQLite holds on it in this process.
func makeFile(path string) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o700); err != nil {
		return unwritable(err)
	}
	f, err := os.OpenFile(path, os.O_CREATE|os.O_EXCL|os.O_RDWR, 0o600)
	if errors.Is(err, fs.ErrExist) {
		return nil
	}
	if err != nil {
		return unwritable(err)
	}
	return f.Close()
}

// unwritable says ErrReadOnly where the system refused for want of permission.
func unwritable(err error) error {
	if errors.Is(err, fs.ErrPermission) {
		return fmt.Errorf("%w (%w)", ErrReadOnly, err)
	}
	return err
}

// Path returns the file's name, absolute. What belongs beside it is named after it.
func (s *Store) Path() string { return s.path }

// Close ends all connections. What was committed is safe with or without it.
func (s *Store) Close() error {
	if err := errors.Join(s.reader.Close(), s.writer.Close()); err != nil {
		return fmt.Errorf("close store: %w", err)
	}
	return nil
}

// Check looks whether the file still holds together. It reads all of it, so it takes a while on
// a large one. It returns ErrDamaged, with what was found, if not.
func (s *Store) Check(ctx context.Context) error {
	if err := examine(ctx, s.reader, "PRAGMA quick_check"); err != nil {
		return fmt.Errorf("check store: %w", err)
	}
	return nil
}

// examine runs quick_check or integrity_check, which answer with one row "ok" or with a list of
// faults.
func examine(ctx context.Context, db *sql.DB, pragma string) error {
	rows, err := db.QueryContext(ctx, pragma)
	if err != nil {
		return explain(err)
	}
	faults, err := collect(rows, func(scan scanner) (fault string, err error) {
		return fault, scan(&fault)
	})
	if err != nil {
		return explain(err)
	}
	if len(faults) != 1 || faults[0] != "ok" {
		return fmt.Errorf("%w (%q)", ErrDamaged, faults)
	}
	return nil
}
