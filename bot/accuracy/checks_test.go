package main

import (
	"strings"
	"testing"
)

func TestCountChecks(t *testing.T) {
	rows := [][]string{{"id", "topic", "status"}, {"A1", "x", "seen"}, {"A2", "x", "seen"}, {"B1", "y", "memory"}}
	got, err := countChecks(rows, map[string]bool{"A2": true, "Z9": true})
	if err != nil || !strings.HasSuffix(got, "1 of 3 (33.3 %); memory 0 of 1, seen 1 of 2") {
		t.Errorf("%q, %v", got, err)
	}
	for _, bad := range [][][]string{nil, {{"id", "status"}}, {{"topic", "status"}, {"x", "seen"}}} {
		if got, err := countChecks(bad, nil); err == nil {
			t.Errorf("%v: %q, want an error", bad, got)
		}
	}
}
