package main

import (
	"context"
	"os"
	"strings"
	"testing"
	"time"
)

// TestReport runs one instance and reads the family's line: one planned, proved, at best.
func TestReport(t *testing.T) {
	for instance, want := range map[string]string{
		"u120_00":   "falkenauer_u120 1 1 1 48 48 48",
		"ms_1_25_0": "multistock_recipe 1 1 1 1230 1230 1230",
	} {
		var out strings.Builder
		r := report{folder: os.DirFS("../../testdata/cutting"), limit: time.Minute, instance: instance, each: true, out: &out}
		if err := r.run(context.Background()); err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(strings.TrimSpace(out.String()), "\n")
		if len(lines) != 3 || !strings.HasPrefix(strings.TrimSpace(lines[1]), instance) ||
			!strings.HasPrefix(strings.Join(strings.Fields(lines[2]), " "), want+" ") {
			t.Errorf("%s: got\n%s", instance, out.String())
		}
	}
}

func TestReportRefuses(t *testing.T) {
	r := report{folder: os.DirFS(t.TempDir()), limit: time.Second, out: &strings.Builder{}}
	if err := r.run(context.Background()); err == nil || !strings.Contains(err.Error(), "index.csv") {
		t.Errorf("a folder without an index: got %v", err)
	}
}
