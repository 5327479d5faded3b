package store

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"time"
)

// Tx is a transaction: everything in it happens, or nothing. It is valid only inside the function
// that Write or Read calls, and for one goroutine.
type Tx struct {
	ctx context.Context
	sql *sql.Tx
	now func() time.Time
	// broken is the first error of the database itself. SQLite may have undone the transaction
	// at that moment, and whatever came after it would be saved on its own: so nothing may.
	broken error
}

// Write runs fn in a transaction that may write. There is one at a time; others wait for it, up to
// two seconds if it belongs to another program (then ErrBusy). When fn returns nil everything is
// on the disk before Write returns, even if ctx was cancelled meanwhile; when fn returns an error
// or panics, nothing of it remains.
//
// fn must use tx alone: a Write or Read inside of it waits for ever.
func (s *Store) Write(ctx context.Context, fn func(*Tx) error) error {
	if err := s.transact(ctx, s.writer, fn); err != nil {
		return fmt.Errorf("write to store: %w", err)
	}
	return nil
}

// Read runs fn in a transaction that sees one moment of the database and cannot write. It waits
// for no writer.
func (s *Store) Read(ctx context.Context, fn func(*Tx) error) error {
	if err := s.transact(ctx, s.reader, fn); err != nil {
		return fmt.Errorf("read from store: %w", err)
	}
	return nil
}

func (s *Store) transact(ctx context.Context, db *sql.DB, fn func(*Tx) error) error {
	conn, err := db.Conn(ctx)
	if err != nil {
		return fmt.Errorf("connect: %w", explain(err))
	}
	defer conn.Close()
	// The transaction outlives ctx: between fn's last word and the commit nothing may undo it.
	// Every statement inside still heeds ctx.
	begun, err := conn.BeginTx(context.WithoutCancel(ctx), nil)
	if err != nil {
		return fmt.Errorf("begin: %w", explain(err))
	}
	defer begun.Rollback() // after an error or a panic; does nothing after Commit
	tx := &Tx{ctx: ctx, sql: begun, now: s.now}
	if err := fn(tx); err != nil {
		return err
	}
	if tx.broken != nil {
		return tx.broken
	}
	if err := begun.Commit(); err != nil {
		return fmt.Errorf("commit: %w", explain(err))
	}
	return nil
}

// fail notes an error of the database, which ends the transaction, and says what it means.
func (t *Tx) fail(err error) error {
	err = explain(err)
	if t.broken == nil {
		t.broken = err
	}
	return err
}

// exec runs a statement and returns how many rows it touched.
func (t *Tx) exec(query string, args ...any) (int64, error) {
	if t.broken != nil {
		return 0, t.broken
	}
	result, err := t.sql.ExecContext(t.ctx, query, args...)
	if err != nil {
		return 0, t.fail(err)
	}
	return result.RowsAffected()
}

// row reads one row into dest, and reports whether there was one.
func (t *Tx) row(query string, args []any, dest ...any) (bool, error) {
	if t.broken != nil {
		return false, t.broken
	}
	err := t.sql.QueryRowContext(t.ctx, query, args...).Scan(dest...)
	if errors.Is(err, sql.ErrNoRows) {
		return false, nil
	}
	if err != nil {
		return false, t.fail(err)
	}
	return true, nil
}

// scanner is the Scan of one row.
type scanner func(dest ...any) error

// list reads all rows of a query, each through read. The rows are closed when it returns: in a
// pool of one an open list would block the next write for ever.
func list[T any](t *Tx, read func(scanner) (T, error), query string, args ...any) ([]T, error) {
	if t.broken != nil {
		return nil, t.broken
	}
	rows, err := t.sql.QueryContext(t.ctx, query, args...)
	if err != nil {
		return nil, t.fail(err)
	}
	all, err := collect(rows, read)
	if err != nil {
		return nil, t.fail(err)
	}
	return all, nil
}

func collect[T any](rows *sql.Rows, read func(scanner) (T, error)) ([]T, error) {
	defer rows.Close()
	var all []T
	for rows.Next() {
		one, err := read(rows.Scan)
		if err != nil {
			return nil, err
		}
		all = append(all, one)
	}
	return all, rows.Err()
}

// first returns the first of a list, and whether there is one.
func first[T any](all []T, err error) (one T, found bool, _ error) {
	if err != nil || len(all) == 0 {
		return one, false, err
	}
	return all[0], true, nil
}

// nullable turns "" into NULL.
func nullable(s string) sql.NullString { return sql.NullString{String: s, Valid: s != ""} }

// nullableID turns 0 into NULL.
func nullableID(id int64) sql.NullInt64 { return sql.NullInt64{Int64: id, Valid: id != 0} }

// raw turns NULL into nil.
func raw(s sql.NullString) json.RawMessage {
	if !s.Valid {
		return nil
	}
	return json.RawMessage(s.String)
}

// fromMillis reads a time as the database keeps it: whole milliseconds, UTC.
func fromMillis(ms int64) time.Time { return time.UnixMilli(ms).UTC() }
