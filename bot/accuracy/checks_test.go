package main

import (
	"strings"
	"testing"
)

func TestCountChecks(t *testing.T) {
	rows := [][]string{{"id", "source", "status"}, {"A1", "WH2010 p1", "seen"}, {"A2", "same", "seen"}, {"B1", "a forum", "memory"}}
	got, err := countChecks(rows, map[string]bool{"A2": true, "Z9": true})
	if err != nil || !strings.HasSuffix(got, "1 of 3 (33.3 %)\n  by status: memory 0 of 1, seen 1 of 2\n  by source: Wood Handbook and other USDA papers 1 of 2, trade, extension and web pages 0 of 1") {
		t.Errorf("%q, %v", got, err)
	}
	for _, bad := range [][][]string{nil, {{"id", "status"}}, {{"topic", "status"}, {"x", "seen"}}} {
		if got, err := countChecks(bad, nil); err == nil {
			t.Errorf("%v: %q, want an error", bad, got)
		}
	}
}
