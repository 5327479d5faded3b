package store_test

import (
	"context"
	"database/sql"
	"encoding/json"
	"errors"
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fettle/store"
)

// count reads the number that countUp keeps.
func count(tx *store.Tx, project int64) (n int, err error) {
	thing, found, err := tx.Thing(project, "counter", "n")
	if err != nil || !found {
		return 0, err
	}
	return n, json.Unmarshal(thing.Data, &n)
}

// countUp reads a number and writes the next, on behalf of a new entry.
func countUp(tx *store.Tx, project int64) error {
	n, err := count(tx, project)
	if err != nil {
		return err
	}
	entry, err := tx.Add(store.Entry{Project: project, Kind: store.Message})
	if err != nil {
		return err
	}
	_, err = tx.Put(entry, project, "counter", "n", n+1)
	return err
}

func TestReadThenWriteAtOnce(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	const each = 100
	first, second := open(t, path), open(t, path) // as two programs would
	project := projectOf(t, first, "Hut")
	var wg sync.WaitGroup
	for _, s := range []*store.Store{first, second} {
		wg.Go(func() {
			for range each {
				if err := s.Write(context.Background(), func(tx *store.Tx) error { return countUp(tx, project) }); err != nil {
					t.Error(err)
					return
				}
			}
		})
	}
	wg.Wait()
	read(t, first, func(tx *store.Tx) error {
		n, err := count(tx, project)
		if n != 2*each {
			t.Errorf("counted %d, want %d: a write was lost", n, 2*each)
		}
		return err
	})
	sound(t, first)
	closeStore(t, second)
	closeStore(t, first)
}

func TestReadersDuringALongWrite(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
	defer cancel()
	write(t, s, func(tx *store.Tx) error { return countUp(tx, project) })
	write(t, s, func(tx *store.Tx) error {
		if err := countUp(tx, project); err != nil {
			return err
		}
		var wg sync.WaitGroup
		for range 8 {
			wg.Go(func() {
				err := s.Read(ctx, func(tx *store.Tx) error {
					n, err := count(tx, project)
					if n != 1 {
						t.Errorf("a reader saw %d before the commit, want 1", n)
					}
					return err
				})
				if err != nil {
					t.Error(err)
				}
			})
		}
		wg.Wait()
		return nil
	})
}

func TestReadCannotWrite(t *testing.T) {
	s := fresh(t)
	err := s.Read(context.Background(), func(tx *store.Tx) error {
		_, err := tx.Project("Hut")
		return err
	})
	if !errors.Is(err, store.ErrReadOnly) {
		t.Errorf("writing in Read: %v, want ErrReadOnly", err)
	}
}

func TestErrorAndPanicLeaveNothing(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	mine := errors.New("changed my mind")
	err := s.Write(context.Background(), func(tx *store.Tx) error {
		if err := countUp(tx, project); err != nil {
			return err
		}
		return mine
	})
	if !errors.Is(err, mine) {
		t.Errorf("Write = %v, want the function's own error", err)
	}
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic did not come through")
			}
		}()
		write(t, s, func(tx *store.Tx) error {
			if err := countUp(tx, project); err != nil {
				return err
			}
			panic("a topic that panics")
		})
	}()
	read(t, s, func(tx *store.Tx) error {
		if n, err := count(tx, project); n != 0 || err != nil {
			t.Errorf("count = %d, %v after a rollback, want 0", n, err)
		}
		return nil
	})
	write(t, s, func(tx *store.Tx) error { return countUp(tx, project) }) // the connection still works
}

// Cancelled at any step, either everything is saved and Write says so, or nothing is.
func TestCancelIsAllOrNothing(t *testing.T) {
	const steps = 4
	for at := range steps + 1 {
		t.Run(fmt.Sprintf("step %d", at), func(t *testing.T) {
			s := fresh(t)
			project := projectOf(t, s, "Hut")
			ctx, cancel := context.WithCancel(context.Background())
			defer cancel()
			err := s.Write(ctx, func(tx *store.Tx) error {
				for step := range steps {
					if step == at {
						cancel()
					}
					if err := countUp(tx, project); err != nil {
						return err
					}
				}
				cancel() // confirmed: from here on it must be saved
				return nil
			})
			want := 0
			if at == steps {
				want = steps
			}
			if (err == nil) != (want > 0) {
				t.Errorf("Write = %v after a cancel at step %d", err, at)
			}
			read(t, s, func(tx *store.Tx) error {
				if n, err := count(tx, project); n != want || err != nil {
					t.Errorf("count = %d, %v, want %d", n, err, want)
				}
				return nil
			})
		})
	}
}

func TestCancelledBeforeTheWriterIsFree(t *testing.T) {
	s := fresh(t)
	write(t, s, func(*store.Tx) error {
		ctx, cancel := context.WithCancel(context.Background())
		cancel()
		if err := s.Write(ctx, func(*store.Tx) error { return nil }); !errors.Is(err, context.Canceled) {
			t.Errorf("Write = %v, want context.Canceled", err)
		}
		return nil
	})
}

// limitPages lets the database grow by so many pages and no more.
func limitPages(t *testing.T, s *store.Store, more int) {
	t.Helper()
	var pages, limit int
	if err := s.Writer().QueryRow("PRAGMA page_count").Scan(&pages); err != nil {
		t.Fatal(err)
	}
	err := s.Writer().QueryRow(fmt.Sprintf("PRAGMA max_page_count = %d", pages+more)).Scan(&limit)
	if err != nil || limit != pages+more {
		t.Fatalf("max_page_count = %d, %v", limit, err)
	}
}

func TestFullDisk(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	kept := say(t, s, store.Entry{Project: project, Text: "before the disk was full"})
	limitPages(t, s, 3)
	long := store.Entry{Project: project, Kind: store.Message, Text: strings.Repeat("sawdust ", 10_000)}
	err := s.Write(context.Background(), func(tx *store.Tx) error {
		_, err := tx.Add(long)
		return err
	})
	if !errors.Is(err, store.ErrFull) {
		t.Fatalf("Write = %v, want ErrFull", err)
	}
	if said := store.Sentence(err); !strings.Contains(said, "could not be saved") {
		t.Errorf("Sentence = %q, want that it could not be saved", said)
	}
	// SQLite undid the transaction when the disk was full. What a careless caller does after that
	// must not be saved by itself.
	err = s.Write(context.Background(), func(tx *store.Tx) error {
		_, _ = tx.Add(long)
		_, _ = tx.Add(store.Entry{Project: project, Kind: store.Message, Text: "short"})
		return nil
	})
	if !errors.Is(err, store.ErrFull) {
		t.Errorf("Write = %v after a swallowed error, want ErrFull", err)
	}
	if got := ids(search(t, s, store.Query{Project: project})); len(got) != 1 || got[0] != kept {
		t.Errorf("the log holds %v, want only %d", got, kept)
	}
	limitPages(t, s, 10_000)
	say(t, s, store.Entry{Project: project, Text: "there is room again"})
}

// While another program writes for longer than the store waits, people get an answer all the same.
func TestBusy(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	defer closeStore(t, s)
	other, err := sql.Open("sqlite3", "file:"+path+"?_txlock=immediate")
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	held, err := other.Begin()
	if err != nil {
		t.Fatal(err)
	}
	err = s.Write(context.Background(), func(*store.Tx) error { return nil })
	if !errors.Is(err, store.ErrBusy) || store.Sentence(err) == "" {
		t.Errorf("Write = %v, want ErrBusy", err)
	}
	if err := held.Rollback(); err != nil {
		t.Fatal(err)
	}
	write(t, s, func(*store.Tx) error { return nil })
}

func TestStrictTables(t *testing.T) {
	s := fresh(t)
	for _, statement := range []string{
		"INSERT INTO cursors (place, position) VALUES ('terminal:hut', '83 cm')",
		"INSERT INTO things (project_id, what, name, folded, data) VALUES (0, 'part', 'leg', 'leg', '{broken')",
		"INSERT INTO things (project_id, what, name, folded, data) VALUES (99, 'part', 'leg', 'leg', '{}')",
		"INSERT INTO outbox VALUES (99, '', '', '', '', 'waiting', '')",
	} {
		if _, err := s.Writer().Exec(statement); err == nil {
			t.Errorf("accepted: %s", statement)
		}
	}
}
