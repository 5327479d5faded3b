package bot_test

import (
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"sort"
	"testing"
	"time"

	"fettle/bot"
	"fettle/store"
)

func bench(b *testing.B) (*store.Store, *bot.Desk) {
	b.Helper()
	db, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "bench.db"), time.Now)
	if err != nil {
		b.Fatal(err)
	}
	b.Cleanup(func() { db.Close() })
	return db, bot.NewDesk(db, time.Now, time.UTC, slog.New(slog.NewTextHandler(io.Discard, nil)))
}

// percentiles reports the median and the 99th percentile of what each run took.
func percentiles(b *testing.B, took []time.Duration) {
	sort.Slice(took, func(i, j int) bool { return took[i] < took[j] })
	b.ReportMetric(float64(took[len(took)/2].Microseconds())/1000, "p50-ms")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds())/1000, "p99-ms")
}

// BenchmarkReply measures a message from coming in to its answer being on the disk: understood,
// computed, logged, synced.
func BenchmarkReply(b *testing.B) {
	_, desk := bench(b)
	texts := []string{"rough size for %d by 45 by 22", "5 holes along %d, 40 in from each end", "clamps for a %d long edge joint, boards 70 wide, 20 thick, oak", "note: number %d"}
	var took []time.Duration
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		_, err := desk.Reply(context.Background(), bot.Message{Key: fmt.Sprint("bench:", i), Place: "bench", Project: "hut", WhoKey: "petra", Who: "Petra",
			Text: fmt.Sprintf(texts[i%len(texts)], 500+i%900), At: start, Direct: true})
		if err != nil {
			b.Fatal(err)
		}
		took = append(took, time.Since(start))
	}
	percentiles(b, took)
}

// entries is how many entries the log of BenchmarkLogQuestions holds.
const entries = 1_000_000

// BenchmarkLogQuestions asks a log of a million entries, of four years.
func BenchmarkLogQuestions(b *testing.B) {
	db, desk := bench(b)
	now := time.Date(2026, 3, 7, 14, 0, 0, 0, time.UTC)
	fill(b, db, now)
	for _, q := range []string{"what did we do yesterday", "what did we do on Saturday", "what happened last week", "who measured the sill", "show me the log for the door", "when did we glue bow 1", "what has Gil done today", "show the log"} {
		b.Run(q, func(b *testing.B) {
			var took []time.Duration
			for i := 0; b.Loop(); i++ {
				start := time.Now()
				ans, err := desk.Reply(context.Background(), bot.Message{Key: fmt.Sprint(q, i, start.UnixNano()), Place: "bench", Project: "hut", WhoKey: "petra", Who: "Petra", Text: q, At: now, Direct: true})
				if err != nil {
					b.Fatal(err)
				}
				if ans.Topic != "log" {
					b.Fatalf("%q is taken for %s", q, ans.Topic)
				}
				took = append(took, time.Since(start))
			}
			percentiles(b, took)
		})
	}
}

func fill(b *testing.B, db *store.Store, now time.Time) {
	b.Helper()
	words := []string{"sill", "door", "rail", "slat", "bow", "panel", "trim", "hinge", "stove", "bench", "window", "rack", "glued", "measured", "planed", "cut"}
	const batch = 20_000
	for from := 0; from < entries; from += batch {
		err := db.Write(context.Background(), func(tx *store.Tx) error {
			p, err := tx.Project("hut")
			if err != nil {
				return err
			}
			for i := from; i < from+batch; i++ {
				e := store.Entry{Project: p.ID, Place: "bench", WhoKey: "petra", Who: "Petra", Kind: store.Message,
					At:   now.Add(-time.Duration(entries-i) * 2 * time.Minute),
					Text: fmt.Sprintf("%s %s %d %s", words[i%16], words[(i/16)%16], i%2000, words[(i/256)%16]), Topic: "note"}
				if i%2 == 1 {
					e.WhoKey, e.Who = "gil", "Gil"
				}
				if _, err := tx.Add(e); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			b.Fatal(err)
		}
	}
}
