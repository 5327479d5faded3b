package commands_test

import (
	"context"
	"path/filepath"
	"sort"
	"testing"
	"time"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
	"fettle/store"
)

// BenchmarkHear measures understanding and answering one message, without writing anything,
// over all example messages.
func BenchmarkHear(b *testing.B) {
	rows, err := phrases.ReadRows("../testdata/phrases/single.tsv")
	if err != nil {
		b.Fatal(err)
	}
	db, err := store.Open(context.Background(), filepath.Join(b.TempDir(), "bench.db"), time.Now)
	if err != nil {
		b.Fatal(err)
	}
	defer db.Close()
	took := make([]time.Duration, 0, b.N)
	err = db.Write(context.Background(), func(tx *store.Tx) error {
		b.ReportAllocs()
		for i := 0; b.Loop(); i++ {
			start := time.Now()
			if _, err := commands.Hear(commands.Turn{Tx: tx, Project: "workshop", Place: "bench", WhoKey: "petra", Who: "Petra",
				Text: rows[i%len(rows)].Text, Now: start}); err != nil {
				return err
			}
			took = append(took, time.Since(start))
		}
		return nil
	})
	if err != nil {
		b.Fatal(err)
	}
	sort.Slice(took, func(i, j int) bool { return took[i] < took[j] })
	b.ReportMetric(float64(took[len(took)/2].Microseconds()), "p50-µs")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
}
