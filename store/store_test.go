package store_test

import (
	"context"
	"os"
	"path/filepath"
	"testing"
	"time"

	"fettle/store"
)

// longLogFolder is where the benchmarks keep what they make once a run.
var longLogFolder string

func TestMain(m *testing.M) {
	os.Exit(run(m))
}

func run(m *testing.M) int {
	if child() {
		return 0
	}
	folder, err := os.MkdirTemp("", "fettle-store")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(folder)
	longLogFolder = folder
	return m.Run()
}

// noon is what the clock of the tests says.
var noon = time.Date(2026, 3, 14, 12, 0, 0, 0, time.UTC)

func clock() time.Time { return noon }

func open(tb testing.TB, path string) *store.Store {
	tb.Helper()
	s, err := store.Open(context.Background(), path, clock)
	if err != nil {
		tb.Fatal(err)
	}
	return s
}

func closeStore(tb testing.TB, s *store.Store) {
	tb.Helper()
	if err := s.Close(); err != nil {
		tb.Fatal(err)
	}
}

// fresh opens a new database in a folder of the test's own, and checks at the end of the test
// that it holds together.
func fresh(tb testing.TB) *store.Store {
	tb.Helper()
	s := open(tb, filepath.Join(tb.TempDir(), "hut.db"))
	tb.Cleanup(func() {
		sound(tb, s)
		closeStore(tb, s)
	})
	return s
}

func write(tb testing.TB, s *store.Store, fn func(*store.Tx) error) {
	tb.Helper()
	if err := s.Write(context.Background(), fn); err != nil {
		tb.Fatal(err)
	}
}

func read(tb testing.TB, s *store.Store, fn func(*store.Tx) error) {
	tb.Helper()
	if err := s.Read(context.Background(), fn); err != nil {
		tb.Fatal(err)
	}
}

func projectOf(tb testing.TB, s *store.Store, name string) (id int64) {
	tb.Helper()
	write(tb, s, func(tx *store.Tx) error {
		p, err := tx.Project(name)
		id = p.ID
		return err
	})
	return id
}

func search(tb testing.TB, s *store.Store, q store.Query) (found []store.Entry) {
	tb.Helper()
	read(tb, s, func(tx *store.Tx) (err error) {
		found, err = tx.Search(q)
		return err
	})
	return found
}

// sound checks that the file holds together: its pages, its references, and the index of words
// against the log.
func sound(tb testing.TB, s *store.Store) {
	tb.Helper()
	if err := s.Check(context.Background()); err != nil {
		tb.Error(err)
	}
	rows, err := s.Writer().Query("PRAGMA foreign_key_check")
	if err != nil {
		tb.Fatal(err)
	}
	defer rows.Close()
	if rows.Next() {
		tb.Error("foreign_key_check found a reference to nothing")
	}
	if err := rows.Close(); err != nil {
		tb.Error(err)
	}
	if _, err := s.Writer().Exec("INSERT INTO words (words) VALUES ('integrity-check')"); err != nil {
		tb.Errorf("the index of words does not fit the log: %v", err)
	}
}

// say adds a message to the log.
func say(tb testing.TB, s *store.Store, e store.Entry) (id int64) {
	tb.Helper()
	if e.Kind == "" {
		e.Kind = store.Message
	}
	write(tb, s, func(tx *store.Tx) (err error) {
		id, err = tx.Add(e)
		return err
	})
	return id
}

// ids are the ids of entries.
func ids(entries []store.Entry) []int64 {
	all := make([]int64, len(entries))
	for i, e := range entries {
		all[i] = e.ID
	}
	return all
}
