package store_test

import (
	"context"
	"database/sql"
	"testing"
	"time"
)

// pragmasOf reads the settings of one connection.
func pragmasOf(t *testing.T, conn *sql.Conn) map[string]string {
	t.Helper()
	got := map[string]string{}
	for _, name := range []string{"journal_mode", "synchronous", "foreign_keys", "busy_timeout", "query_only"} {
		var value string
		if err := conn.QueryRowContext(context.Background(), "PRAGMA "+name).Scan(&value); err != nil {
			t.Fatal(err)
		}
		got[name] = value
	}
	return got
}

// checkPragmas holds eight connections of a pool at once and compares the settings of each.
func checkPragmas(t *testing.T, pool *sql.DB, want map[string]string) {
	t.Helper()
	pool.SetMaxOpenConns(8)
	pool.SetMaxIdleConns(8)
	for i := range 8 {
		conn, err := pool.Conn(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		defer conn.Close()
		got := pragmasOf(t, conn)
		for name, value := range want {
			if got[name] != value {
				t.Errorf("connection %d: %s = %s, want %s", i, name, got[name], value)
			}
		}
	}
}

func TestSettingsOnEveryConnection(t *testing.T) {
	s := fresh(t)
	writer := map[string]string{
		"journal_mode": "wal", "synchronous": "2", "foreign_keys": "1", "busy_timeout": "2000", "query_only": "0",
	}
	reader := map[string]string{
		"journal_mode": "wal", "foreign_keys": "1", "busy_timeout": "2000", "query_only": "1",
	}
	checkPragmas(t, s.Writer(), writer)
	checkPragmas(t, s.Reader(), reader)

	// Every connection is now older than it may be, so each one is replaced.
	s.Writer().SetConnMaxLifetime(time.Nanosecond)
	s.Reader().SetConnMaxLifetime(time.Nanosecond)
	checkPragmas(t, s.Writer(), writer)
	checkPragmas(t, s.Reader(), reader)
	if n := s.Writer().Stats().MaxLifetimeClosed; n < 8 {
		t.Errorf("only %d of 8 connections were replaced: the test has not tested it", n)
	}
}

func TestWriterIsOneConnection(t *testing.T) {
	if n := fresh(t).Writer().Stats().MaxOpenConnections; n != 1 {
		t.Errorf("the writer has %d connections, want 1", n)
	}
}
