package store

import (
	"context"
	"database/sql"
	"io/fs"
	"time"
)

// Writer and Reader give tests the pools, to ask them for settings and to break things.
func (s *Store) Writer() *sql.DB { return s.writer }

// Reader is the pool for reading.
func (s *Store) Reader() *sql.DB { return s.reader }

// OpenWith is Open with other migrations than the program's own.
func OpenWith(ctx context.Context, path string, now func() time.Time, steps fs.FS) (*Store, error) {
	return open(ctx, path, now, steps)
}

// Migrations are the program's own.
func Migrations() fs.FS { return migrations() }

// ApplicationID is the stamp of fettle's files.
const ApplicationID = applicationID
