package store_test

import (
	"context"
	"crypto/sha256"
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"fettle/store"
)

// hashes returns a hash of the content of every table, the hidden ones of the index included.
// Where a table is only ever added to, upTo bounds the ids that count; 0 is no bound.
func hashes(t *testing.T, db *sql.DB, upTo map[string]int64) map[string]string {
	t.Helper()
	rows, err := db.Query("SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT IN ('words', 'sqlite_stat1')")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	var names []string
	for rows.Next() {
		var name string
		if err := rows.Scan(&name); err != nil {
			t.Fatal(err)
		}
		names = append(names, name)
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	all := map[string]string{}
	for _, name := range names {
		where := ""
		if upTo[name] > 0 {
			where = fmt.Sprintf("WHERE id <= %d", upTo[name])
		} else if upTo != nil {
			continue
		}
		all[name] = hash(t, db, fmt.Sprintf("SELECT * FROM %s %s ORDER BY 1, 2", name, where))
	}
	return all
}

func hash(t *testing.T, db *sql.DB, query string) string {
	t.Helper()
	rows, err := db.Query(query)
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	columns, err := rows.Columns()
	if err != nil {
		t.Fatal(err)
	}
	sum := sha256.New()
	n := 0
	for ; rows.Next(); n++ {
		values, into := make([]any, len(columns)), make([]any, len(columns))
		for i := range values {
			into[i] = &values[i]
		}
		if err := rows.Scan(into...); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(sum, "%q\n", values)
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return fmt.Sprintf("%d rows %x", n, sum.Sum(nil))
}

func same(t *testing.T, got, want map[string]string) {
	t.Helper()
	if len(got) != len(want) || len(got) == 0 {
		t.Errorf("%d tables in the backup, want %d", len(got), len(want))
	}
	for name := range want {
		if got[name] != want[name] {
			t.Errorf("table %s: backup has %s, want %s", name, got[name], want[name])
		}
	}
}

// lastIDs are the highest ids of the tables that are only added to.
func lastIDs(t *testing.T, s *store.Store) map[string]int64 {
	t.Helper()
	last := map[string]int64{}
	for _, table := range []string{"entries", "projects"} {
		var id int64
		if err := s.Reader().QueryRow("SELECT coalesce(max(id), 0) FROM " + table).Scan(&id); err != nil {
			t.Fatal(err)
		}
		last[table] = id
	}
	return last
}

func TestBackupUnderLoad(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	file := filepath.Join(t.TempDir(), "backups", "hut.db")
	var wg sync.WaitGroup
	stop := make(chan struct{})
	defer wg.Wait()
	defer close(stop)
	wg.Go(func() {
		for n := 1; ; n++ {
			select {
			case <-stop:
				return
			default:
			}
			err := s.Write(context.Background(), func(tx *store.Tx) error { return exchange(tx, project, n) })
			if err != nil {
				t.Error(err)
				return
			}
		}
	})
	before := 0
	for round := 0; round < 8 || before < 20; round++ {
		acknowledged := cursor(t, s)
		if err := s.Backup(context.Background(), file); err != nil {
			t.Fatal(err)
		}
		restored := open(t, file)
		got := checkTalk(t, restored, acknowledged)
		if got < before || got > cursor(t, s) {
			t.Errorf("the backup holds %d messages; the one before held %d, the database %d", got, before, cursor(t, s))
		}
		before = got
		last := lastIDs(t, restored)
		same(t, hashes(t, restored.Reader(), last), hashes(t, s.Reader(), last))
		closeStore(t, restored)
	}
}

func cursor(t *testing.T, s *store.Store) (pos int) {
	t.Helper()
	read(t, s, func(tx *store.Tx) error {
		cursors, err := tx.Cursors("terminal:")
		pos = int(cursors["terminal:hut"])
		return err
	})
	return pos
}

func TestBackupHoldsEveryTable(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	for n := 1; n <= 60; n++ {
		write(t, s, func(tx *store.Tx) error { return exchange(tx, project, n) })
	}
	folder := t.TempDir()
	file := filepath.Join(folder, "hut.backup")
	for range 2 { // the second replaces the first
		if err := s.Backup(context.Background(), file); err != nil {
			t.Fatal(err)
		}
	}
	names, err := os.ReadDir(folder)
	if err != nil || len(names) != 1 {
		t.Errorf("files beside the backup: %v, %v", names, err)
	}
	if info, err := os.Stat(file); err != nil || info.Mode().Perm() != 0o600 {
		t.Errorf("the backup: %v, %v; want it for the owner only", info, err)
	}
	want := hashes(t, s.Reader(), nil)
	restored := open(t, file)
	defer closeStore(t, restored)
	sound(t, restored)
	same(t, hashes(t, restored.Reader(), nil), want)
	if got := search(t, restored, store.Query{Project: project, Words: []string{"rough", "oak"}}); len(got) != 60 {
		t.Errorf("the restored log finds %d messages, want 60", len(got))
	}
	write(t, restored, func(tx *store.Tx) error { return exchange(tx, project, 61) })
}

func TestBackupRefusesTheDatabaseItself(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "hut.db")
	s := open(t, path)
	defer closeStore(t, s)
	project := projectOf(t, s, "Hut")
	link, hard := filepath.Join(folder, "link.db"), filepath.Join(folder, "hard.db")
	if err := errors.Join(os.Symlink(path, link), os.Link(path, hard)); err != nil {
		t.Fatal(err)
	}
	for _, file := range []string{
		path, filepath.Join(folder, ".", "x", "..", "hut.db"), link, hard, path + "-wal", path + "-shm", path + ".lock",
	} {
		if err := s.Backup(context.Background(), file); !errors.Is(err, store.ErrOwnFile) {
			t.Errorf("Backup to %s = %v, want ErrOwnFile", file, err)
		}
	}
	say(t, s, store.Entry{Project: project, Text: "still here"})
	sound(t, s)
}

func TestFailedBackupLeavesTheOldOne(t *testing.T) {
	s := fresh(t)
	project := projectOf(t, s, "Hut")
	write(t, s, func(tx *store.Tx) error { return exchange(tx, project, 1) })
	folder := t.TempDir()
	file := filepath.Join(folder, "hut.backup")
	if err := s.Backup(context.Background(), file); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if err := s.Backup(ctx, file); err == nil {
		t.Error("a cancelled backup said that it was done")
	}
	names, err := os.ReadDir(folder)
	if err != nil || len(names) != 1 {
		t.Errorf("files beside the backup: %v, %v", names, err)
	}
	restored := open(t, file)
	checkTalk(t, restored, 1)
	closeStore(t, restored)
}
