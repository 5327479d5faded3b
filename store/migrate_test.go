package store_test

import (
	"bytes"
	"context"
	"database/sql"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"testing/fstest"

	"fettle/store"
)

// withStep returns the program's own migrations and one more.
func withStep(t *testing.T, step string) fs.FS {
	t.Helper()
	steps := fstest.MapFS{"9001_later.sql": {Data: []byte("-- +goose Up\n" + step)}}
	names, err := fs.Glob(store.Migrations(), "*.sql")
	if err != nil || len(names) == 0 {
		t.Fatalf("migrations: %v, %v", names, err)
	}
	for _, name := range names {
		data, err := fs.ReadFile(store.Migrations(), name)
		if err != nil {
			t.Fatal(err)
		}
		steps[name] = &fstest.MapFile{Data: data}
	}
	return steps
}

// copies are the files that were kept before bringing a database up to date.
func copies(t *testing.T, path string) []string {
	t.Helper()
	found, err := filepath.Glob(path + ".version*")
	if err != nil {
		t.Fatal(err)
	}
	return found
}

func TestOlderFileIsCopiedAndBroughtUpToDate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	project := projectOf(t, s, "Hut")
	id := say(t, s, store.Entry{Project: project, Text: "oak for the legs"})
	closeStore(t, s)
	if found := copies(t, path); len(found) != 0 {
		t.Errorf("a new file was copied: %v", found)
	}

	steps := withStep(t, "CREATE TABLE later (id INTEGER PRIMARY KEY) STRICT;")
	for range 2 {
		later, err := store.OpenWith(context.Background(), path, clock, steps)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := later.Writer().Exec("INSERT INTO later DEFAULT VALUES"); err != nil {
			t.Error(err)
		}
		if got := ids(search(t, later, store.Query{Project: project})); len(got) != 1 || got[0] != id {
			t.Errorf("the log holds %v, want %d", got, id)
		}
		closeStore(t, later)
	}

	found := copies(t, path)
	if len(found) != 1 {
		t.Fatalf("copies: %v, want one", found)
	}
	old := open(t, found[0]) // it is of the old version, or this would be ErrNewer
	if got := ids(search(t, old, store.Query{Project: project, Words: []string{"legs"}})); len(got) != 1 || got[0] != id {
		t.Errorf("the copy's log holds %v, want %d", got, id)
	}
	closeStore(t, old)
}

func TestNewerFileIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s, err := store.OpenWith(context.Background(), path, clock, withStep(t, "CREATE TABLE later (id INTEGER);"))
	if err != nil {
		t.Fatal(err)
	}
	closeStore(t, s)
	refused(t, path, store.ErrNewer)
}

// refused makes sure that a file is refused and that not a byte of it changes.
func refused(t *testing.T, path string, want error) {
	t.Helper()
	before := content(t, path)
	s, err := store.Open(context.Background(), path, clock)
	if !errors.Is(err, want) {
		t.Errorf("Open = %v, want %v", err, want)
	}
	if store.Sentence(err) == "" {
		t.Errorf("there is no sentence for people in %v", err)
	}
	if err == nil {
		closeStore(t, s)
	}
	if !bytes.Equal(content(t, path), before) {
		t.Error("the file was changed")
	}
}

func TestStrangersFilesAreRefused(t *testing.T) {
	for name, make := range map[string]func(t *testing.T, path string){
		"text": func(t *testing.T, path string) {
			if err := os.WriteFile(path, bytes.Repeat([]byte("2 legs of 83 cm\n"), 500), 0o600); err != nil {
				t.Fatal(err)
			}
		},
		"a short text": func(t *testing.T, path string) {
			if err := os.WriteFile(path, []byte("glue"), 0o600); err != nil {
				t.Fatal(err)
			}
		},
		"a database without a stamp": func(t *testing.T, path string) {
			execSQL(t, path, "CREATE TABLE entries (id INTEGER PRIMARY KEY)")
		},
		"a database with another stamp": func(t *testing.T, path string) {
			execSQL(t, path, "PRAGMA application_id = 4711")
		},
		"a database with another stamp and tables": func(t *testing.T, path string) {
			execSQL(t, path, "PRAGMA application_id = 4711; CREATE TABLE goose_db_version (version_id INTEGER)")
		},
	} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "other.db")
			make(t, path)
			refused(t, path, store.ErrForeign)
		})
	}
}

func execSQL(t *testing.T, path, statements string) {
	t.Helper()
	db, err := sql.Open("sqlite3", path)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if _, err := db.Exec(statements); err != nil {
		t.Fatal(err)
	}
}

func TestFailingStepLeavesTheOldFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	project := projectOf(t, s, "Hut")
	say(t, s, store.Entry{Project: project, Text: "oak"})
	closeStore(t, s)
	steps := withStep(t, "CREATE TABLE half (id INTEGER); INSERT INTO nowhere VALUES (1);")
	if _, err := store.OpenWith(context.Background(), path, clock, steps); err == nil {
		t.Fatal("a step that cannot work did")
	}
	s = open(t, path)
	defer closeStore(t, s)
	sound(t, s)
	if _, err := s.Writer().Exec("SELECT * FROM half"); err == nil {
		t.Error("half of the step was done")
	}
	if got := search(t, s, store.Query{Project: project}); len(got) != 1 {
		t.Errorf("the log holds %d entries, want 1", len(got))
	}
}

// Whatever a power cut leaves of a file that was just being made is finished at the next start.
func TestHalfMadeFileIsFinished(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	execSQL(t, path, fmt.Sprintf("PRAGMA application_id = %d", store.ApplicationID))
	s := open(t, path)
	defer closeStore(t, s)
	projectOf(t, s, "Hut")
	sound(t, s)
}

func TestManyMakeTheSameFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shed", "hut.db")
	var wg sync.WaitGroup
	for range 6 {
		wg.Go(func() {
			s, err := store.Open(context.Background(), path, clock)
			if err != nil {
				t.Error(err)
				return
			}
			if err := s.Close(); err != nil {
				t.Error(err)
			}
		})
	}
	wg.Wait()
	s := open(t, path)
	defer closeStore(t, s)
	sound(t, s)
}

func TestFileIsForTheOwnerOnly(t *testing.T) {
	path := filepath.Join(t.TempDir(), "shed", "odd name ?#%41.db")
	s := open(t, path)
	defer closeStore(t, s)
	projectOf(t, s, "Hut")
	for name, want := range map[string]os.FileMode{
		filepath.Dir(path): 0o700, path: 0o600, path + "-wal": 0o600,
	} {
		info, err := os.Stat(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := info.Mode().Perm(); got != want {
			t.Errorf("%s may be used by %v, want %v", filepath.Base(name), got, want)
		}
	}
}

func TestLock(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	first, second := open(t, path), open(t, path)
	defer closeStore(t, first)
	defer closeStore(t, second)
	release, err := first.Lock()
	if err != nil {
		t.Fatal(err)
	}
	if _, err := second.Lock(); !errors.Is(err, store.ErrLocked) || store.Sentence(err) == "" {
		t.Errorf("second Lock = %v, want ErrLocked", err)
	}
	projectOf(t, second, "Hut") // reading and writing need no lock

	// Nobody brings the file up to date under a program that runs on it.
	_, err = store.OpenWith(context.Background(), path, clock, withStep(t, "CREATE TABLE later (id INTEGER);"))
	if !errors.Is(err, store.ErrLocked) {
		t.Errorf("open a later version while the lock is held: %v, want ErrLocked", err)
	}

	release()
	again, err := second.Lock()
	if err != nil {
		t.Fatalf("Lock after release: %v", err)
	}
	again()
}

func TestDamageIsFound(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	project := projectOf(t, s, "Hut")
	for n := 1; n <= 200; n++ {
		write(t, s, func(tx *store.Tx) error { return exchange(tx, project, n) })
	}
	closeStore(t, s)
	data := content(t, path)
	for page := len(data) / 4096 / 2; (page+1)*4096 <= len(data); page += 3 {
		copy(data[page*4096:], bytes.Repeat([]byte{0x5A}, 4096))
	}
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
	s = open(t, path) // opening is quick and does not look
	defer closeStore(t, s)
	if err := s.Check(context.Background()); !errors.Is(err, store.ErrDamaged) {
		t.Errorf("Check = %v, want ErrDamaged", err)
	}
}

// testdata holds a database of every version that was ever in use, with three answered messages
// in each. Brought up to date it must be the same as a new one: a step that people's files have
// gone through already is never rewritten.
func TestEveryPastVersionOpens(t *testing.T) {
	files, err := filepath.Glob("testdata/version*.sqlite")
	if err != nil || len(files) == 0 {
		t.Fatalf("past versions: %v, %v", files, err)
	}
	want := schemaOf(t, fresh(t))
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "hut.db")
			copyFile(t, file, path)
			s := open(t, path)
			defer closeStore(t, s)
			if last := checkTalk(t, s, 3); last != 3 {
				t.Errorf("%d messages, want 3", last)
			}
			if got := schemaOf(t, s); !maps.Equal(got, want) {
				t.Errorf("the tables differ from those of a new file:\n%v\n%v", got, want)
			}
		})
	}
}

// schemaOf returns the definition of every table, index, view and trigger.
func schemaOf(t *testing.T, s *store.Store) map[string]string {
	t.Helper()
	rows, err := s.Reader().Query("SELECT name, coalesce(sql, '') FROM sqlite_schema")
	if err != nil {
		t.Fatal(err)
	}
	defer rows.Close()
	all := map[string]string{}
	for rows.Next() {
		var name, definition string
		if err := rows.Scan(&name, &definition); err != nil {
			t.Fatal(err)
		}
		all[name] = definition
	}
	if err := rows.Err(); err != nil {
		t.Fatal(err)
	}
	return all
}
