package store_test

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"sync"
	"testing"
	"time"

	"fettle/store"
)

// report adds the median and the slowest of a hundred to a benchmark's figures.
func report(b *testing.B, took []time.Duration) {
	b.Helper()
	slices.Sort(took)
	ms := func(d time.Duration) float64 { return float64(d.Microseconds()) / 1000 }
	b.ReportMetric(ms(took[len(took)/2]), "ms-p50")
	b.ReportMetric(ms(took[len(took)*99/100]), "ms-p99")
}

// BenchmarkAnswer writes a message, what it changed, and the answer on its way out.
func BenchmarkAnswer(b *testing.B) {
	s := open(b, filepath.Join(b.TempDir(), "hut.db"))
	project := projectOf(b, s, "Hut")
	var took []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		write(b, s, func(tx *store.Tx) error { return exchange(tx, project, i) })
		took = append(took, time.Since(start))
	}
	report(b, took)
}

// exchange is what one answered message writes.
func exchange(tx *store.Tx, project int64, i int) error {
	asked, err := tx.Add(store.Entry{
		Project: project, Place: "terminal:hut", WhoKey: "petra", Who: "Petra", Kind: store.Message,
		Key: fmt.Sprintf("terminal:%d", i), Text: "rough size for a leg of 83 x 45 x 45 in oak",
		Topic: "rough", Request: json.RawMessage(`{"topic":"rough","length":83}`),
	})
	if err != nil {
		return err
	}
	if _, err := tx.Put(asked, project, "part", fmt.Sprintf("leg %d", i%20), map[string]int{"length": i}); err != nil {
		return err
	}
	answer, err := tx.Add(store.Entry{
		Project: project, Place: "terminal:hut", Who: "fettle", Kind: store.Answer, About: asked,
		Text: "Cut it 108 x 50 x 50.", Topic: "rough", Answer: json.RawMessage(`{"length":108}`),
	})
	if err != nil {
		return err
	}
	if err := tx.Queue(store.Out{Entry: answer, Place: "terminal:hut"}); err != nil {
		return err
	}
	return tx.SetCursor("terminal:hut", int64(i))
}

// BenchmarkOpen opens and closes a database that is there, and one that is not.
func BenchmarkOpen(b *testing.B) {
	folder := b.TempDir()
	b.Run("fresh", func(b *testing.B) {
		for i := 0; b.Loop(); i++ {
			closeStore(b, open(b, filepath.Join(folder, fmt.Sprintf("fresh%d.db", i))))
		}
	})
	b.Run("again", func(b *testing.B) {
		for b.Loop() {
			closeStore(b, open(b, filepath.Join(folder, "again.db")))
		}
	})
	b.Run("million", func(b *testing.B) {
		path := longLog(b)
		for b.Loop() {
			s := open(b, path)
			projectOf(b, s, "Hut")
			closeStore(b, s)
		}
	})
}

const (
	logLength  = 1_000_000
	logPerDay  = 1000
	otherEvery = 10 // every tenth day belongs to another project
	gilEvery   = 3
	odinEvery  = 50_000
	rareEvery  = 100_000
)

var logBegins = time.Date(2023, 5, 1, 6, 0, 0, 0, time.UTC)

// longLog returns a database with a log of a million entries, which is made once a run.
var longLog = func() func(testing.TB) string {
	var once sync.Once
	var path string
	return func(tb testing.TB) string {
		tb.Helper()
		once.Do(func() {
			folder, err := os.MkdirTemp(longLogFolder, "")
			if err != nil {
				tb.Fatal(err)
			}
			path = filepath.Join(folder, "long.db")
			fillLongLog(tb, path)
		})
		return path
	}
}()

// fillLongLog writes through a connection of its own with a prepared statement, which takes a
// third of the time that a million calls of Add take.
func fillLongLog(tb testing.TB, path string) {
	tb.Helper()
	s := open(tb, path)
	defer closeStore(tb, s)
	hut, other := projectOf(tb, s, "Hut"), projectOf(tb, s, "Other")
	random := rand.New(rand.NewPCG(1, 2))
	zipf := rand.NewZipf(random, 1.2, 4, 20_000)
	db, err := sql.Open("sqlite3", "file:"+path+"?_cache_size=-64000&_foreign_keys=1")
	if err != nil {
		tb.Fatal(err)
	}
	defer db.Close()
	for done := 0; done < logLength; done += 10_000 {
		if err := addLongLog(db, done, func(i int) store.Entry { return longLogEntry(i, hut, other, random, zipf) }); err != nil {
			tb.Fatal(err)
		}
	}
}

// addLongLog adds ten thousand entries from number done on.
func addLongLog(db *sql.DB, done int, entry func(i int) store.Entry) error {
	tx, err := db.Begin()
	if err != nil {
		return err
	}
	defer tx.Rollback()
	insert, err := tx.Prepare(`
		INSERT INTO entries (project_id, place, thread, who_key, who, who_folded, kind, key, at_ms,
			text, topic, request) VALUES (?, ?, '', ?, ?, ?, ?, ?, ?, ?, ?, nullif(?, ''))`)
	if err != nil {
		return err
	}
	for i := done; i < done+10_000; i++ {
		e := entry(i)
		_, err := insert.Exec(e.Project, e.Place, e.WhoKey, e.Who, store.Fold(e.Who), e.Kind, e.Key,
			e.At.UnixMilli(), e.Text, e.Topic, string(e.Request))
		if err != nil {
			return err
		}
	}
	return tx.Commit()
}

func longLogEntry(i int, hut, other int64, random *rand.Rand, zipf *rand.Zipf) store.Entry {
	e := store.Entry{
		Project: hut, Place: "terminal:hut", WhoKey: "petra", Who: "Petra", Kind: store.Message,
		Key: fmt.Sprintf("terminal:%d", i), Topic: fmt.Sprintf("topic%d", i%12),
		At: logBegins.AddDate(0, 0, i/logPerDay).Add(time.Duration(i%logPerDay) * 40 * time.Second),
	}
	text := make([]byte, 0, 80)
	if i%2 == 0 {
		text = append(text, "board "...)
	}
	if i%rareEvery == 5001 {
		text = append(text, "spokeshave "...)
	}
	if i/logPerDay%otherEvery == 0 {
		e.Project = other
		text = append(text, "elsewhere "...)
	}
	if i == 5555 {
		text = append(text, "elsewhere "...) // the one time in this project
	}
	for range 8 {
		text = append(text, fmt.Sprintf("w%dx ", zipf.Uint64())...)
	}
	switch {
	case i%odinEvery == 5001:
		e.WhoKey, e.Who = "odin", "Odin"
	case i%gilEvery == 0:
		e.WhoKey, e.Who = "gil", "Gil"
	}
	e.Text = string(text)
	if i%2 == 0 {
		e.Request = json.RawMessage(`{"topic":"rough"}`)
	}
	return e
}

// BenchmarkSearch asks a log of a million entries for a page of twenty.
func BenchmarkSearch(b *testing.B) {
	s := open(b, longLog(b))
	defer closeStore(b, s)
	day := logBegins.AddDate(0, 0, 301)
	for _, q := range []struct {
		name string
		store.Query
	}{
		{"newest", store.Query{}},
		{"day", store.Query{From: day, To: day.AddDate(0, 0, 1)}},
		{"wholeDay", store.Query{From: day, To: day.AddDate(0, 0, 1), Limit: 1000}},
		{"month", store.Query{From: day, To: day.AddDate(0, 1, 0)}},
		{"year", store.Query{From: day, To: day.AddDate(1, 0, 0)}},
		{"person", store.Query{Who: "gil"}},
		{"personSeldom", store.Query{Who: "odin"}},
		{"personUnknown", store.Query{Who: "nobody"}},
		{"topic", store.Query{Topic: "topic7"}},
		{"personTopic", store.Query{Who: "gil", Topic: "topic6"}},
		{"personDay", store.Query{Who: "odin", From: day, To: day.AddDate(0, 0, 1)}},
		{"wordRare", store.Query{Words: []string{"spokeshave"}}},
		{"wordUnknown", store.Query{Words: []string{"xylophone"}}},
		{"wordCommon", store.Query{Words: []string{"board"}}},
		{"wordCommonOld", store.Query{Words: []string{"board"}, Before: 8000}},
		{"wordCommonDay", store.Query{Words: []string{"board"}, From: day, To: day.AddDate(0, 0, 1)}},
		{"wordsTwo", store.Query{Words: []string{"board", "w7x"}}},
		{"wordsRareAndCommon", store.Query{Words: []string{"board", "spokeshave"}}},
		{"wordCommonElsewhere", store.Query{Words: []string{"elsewhere"}}},
		{"wordBegun", store.Query{Words: []string{"boa"}}},
		{"letter", store.Query{Words: []string{"b"}}},
		{"letterOfMany", store.Query{Words: []string{"w"}}},
	} {
		b.Run(q.name, func(b *testing.B) {
			q.Project = projectOf(b, s, "Hut")
			if q.Limit == 0 {
				q.Limit = 20
			}
			var took []time.Duration
			found := 0
			for b.Loop() {
				start := time.Now()
				found = len(search(b, s, q.Query))
				took = append(took, time.Since(start))
			}
			report(b, took)
			b.ReportMetric(float64(found), "found")
		})
	}
}

// BenchmarkLookUp asks a log of a million entries what every message asks.
func BenchmarkLookUp(b *testing.B) {
	s := open(b, longLog(b))
	defer closeStore(b, s)
	project := projectOf(b, s, "Hut")
	for name, look := range map[string]func(*store.Tx) error{
		"lastRequest": func(tx *store.Tx) error {
			_, _, err := tx.LastRequest("terminal:hut", "odin", 0)
			return err
		},
		"lastRequestOfAnyone": func(tx *store.Tx) error {
			_, _, err := tx.LastRequestOfAnyone("terminal:hut", 0)
			return err
		},
		"entryByKey": func(tx *store.Tx) error {
			_, _, err := tx.EntryByKey("terminal:7")
			return err
		},
		"lastUndoable": func(tx *store.Tx) error {
			_, _, err := tx.LastUndoable(project, "", "odin", 0)
			return err
		},
		"waiting": func(tx *store.Tx) error {
			_, err := tx.Waiting("")
			return err
		},
	} {
		b.Run(name, func(b *testing.B) {
			var took []time.Duration
			for b.Loop() {
				start := time.Now()
				read(b, s, look)
				took = append(took, time.Since(start))
			}
			report(b, took)
		})
	}
}

// BenchmarkTalk reads a page of talk out of a million entries: where nearly all of them are of it,
// where a tenth is, and where next to none is.
func BenchmarkTalk(b *testing.B) {
	s := open(b, longLog(b))
	defer closeStore(b, s)
	for _, of := range []struct{ name, place, project string }{
		{"busy", "terminal:hut", "Hut"}, {"other", "room:2", "Other"}, {"quiet", "room:3", "Quiet"},
	} {
		project := projectOf(b, s, of.project)
		b.Run(of.name, func(b *testing.B) {
			var took []time.Duration
			for b.Loop() {
				start := time.Now()
				read(b, s, func(tx *store.Tx) error {
					_, err := tx.Talk(of.place, project, 0, 40)
					return err
				})
				took = append(took, time.Since(start))
			}
			report(b, took)
		})
	}
}
