package store

import (
	"context"
	"database/sql"
	"fmt"
	"net/url"

	_ "github.com/mattn/go-sqlite3" // the driver "sqlite3"
)

// Every setting is part of the data source name, because database/sql opens and replaces
// connections as it likes and each new one must come with all of them.
const (
	writerSettings = "_journal_mode=WAL&_synchronous=FULL&_foreign_keys=1&_busy_timeout=2000&_txlock=immediate"
	readerSettings = "mode=ro&_query_only=1&_foreign_keys=1&_busy_timeout=2000"
	// A connection that only looks at a file that may be a stranger's, or copies it.
	visitorSettings = "mode=ro&_busy_timeout=2000"

	readers = 4 // connections for reading at the same time
)

// dsn returns the data source name for an absolute path.
func dsn(path, settings string) string {
	return "file:" + (&url.URL{Path: path}).EscapedPath() + "?" + settings
}

// connect opens a pool of at most n connections, which are kept once opened.
func connect(path, settings string, n int) (*sql.DB, error) {
	db, err := sql.Open("sqlite3", dsn(path, settings))
	if err != nil {
		return nil, fmt.Errorf("connect: %w", err)
	}
	db.SetMaxOpenConns(n)
	db.SetMaxIdleConns(n)
	return db, nil
}

// checkWAL makes sure that the write-ahead log is really in use: SQLite falls back without an
// error where a file system cannot carry it.
func checkWAL(ctx context.Context, db *sql.DB) error {
	var mode string
	if err := db.QueryRowContext(ctx, "PRAGMA journal_mode").Scan(&mode); err != nil {
		return fmt.Errorf("read the journal mode: %w", explain(err))
	}
	if mode != "wal" {
		return fmt.Errorf("the file system under the project file cannot carry a write-ahead log (journal mode is %q); put the file on a local disk", mode)
	}
	return nil
}
