package commands

import (
	"os"
	"sort"
	"strings"
	"testing"
	"time"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// BenchmarkUnderstand measures understanding alone, without the memory, over all example
// messages.
func BenchmarkUnderstand(b *testing.B) {
	data, err := os.ReadFile("../testdata/phrases/single.tsv")
	if err != nil {
		b.Fatal(err)
	}
	var texts []string
	for _, line := range strings.Split(strings.TrimSpace(string(data)), "\n")[1:] {
		texts = append(texts, strings.Split(line, "\t")[1])
	}
	took := make([]time.Duration, 0, b.N)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		start := time.Now()
		all.language.Understand(texts[i%len(texts)], speech.Context{System: measure.Metric})
		took = append(took, time.Since(start))
	}
	sort.Slice(took, func(i, j int) bool { return took[i] < took[j] })
	b.ReportMetric(float64(took[len(took)/2].Microseconds()), "p50-µs")
	b.ReportMetric(float64(took[len(took)*99/100].Microseconds()), "p99-µs")
}
