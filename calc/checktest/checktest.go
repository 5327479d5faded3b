// Package checktest gives tests the published figures of testdata/reference/checks.csv, so
// that every check names where its value comes from.
package checktest

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
)

// Row is one published or computed value.
type Row struct {
	ID, Topic, Inputs, Expected, Unit, Tolerance, Source, Status, Note string
}

// Table is all rows by their ID.
type Table map[string]Row

// Read gives the table; it stops the test when the file cannot be read.
func Read(t testing.TB) Table {
	t.Helper()
	f, err := os.Open(filepath.Join(root(t), "testdata", "reference", "checks.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	all, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	out := Table{}
	for _, c := range all[1:] {
		out[c[0]] = Row{c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8]}
	}
	return out
}

// root walks up to the folder that holds go.mod.
func root(t testing.TB) string {
	t.Helper()
	dir, err := os.Getwd()
	if err != nil {
		t.Fatal(err)
	}
	for ; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir
		}
	}
	t.Fatal("no go.mod above the test")
	return ""
}

// Topic gives the rows of a topic; it stops the test when there are none.
func (tab Table) Topic(t testing.TB, topic string) []Row {
	t.Helper()
	var out []Row
	for _, r := range tab {
		if r.Topic == topic {
			out = append(out, r)
		}
	}
	if len(out) == 0 {
		t.Fatalf("no check of topic %q", topic)
	}
	return out
}

// Numbers gives the expected values of a row, of which there may be several with / between.
func (tab Table) Numbers(t testing.TB, id string) []float64 {
	t.Helper()
	row, ok := tab[id]
	if !ok {
		t.Fatalf("no check %s", id)
	}
	var out []float64
	for _, s := range strings.Split(row.Expected, "/") {
		v, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		if err != nil {
			t.Fatalf("check %s: %v", id, err)
		}
		out = append(out, v)
	}
	return out
}

// Holds compares what was worked out with the expected values of a row, within its own
// tolerance, and names the source when they differ.
func (tab Table) Holds(t testing.TB, id string, got ...float64) {
	t.Helper()
	want := tab.Numbers(t, id)
	if len(want) != len(got) {
		t.Fatalf("check %s has %d values, compared with %d", id, len(want), len(got))
	}
	row := tab[id]
	tolerance := row.tolerance(t)
	for i := range want {
		if d := math.Abs(got[i] - want[i]); !(d <= tolerance*(1+1e-9)) {
			t.Errorf("check %s (%s): got %v, want %v ± %v %s; %s, %s",
				id, row.Inputs, got[i], want[i], tolerance, row.Unit, row.Source, row.Status)
		}
	}
}

// tolerance reads the row's own; a value that is exact may still differ by the last bits.
func (r Row) tolerance(t testing.TB) float64 {
	t.Helper()
	if r.Tolerance == "exact" {
		return 1e-9
	}
	v, err := strconv.ParseFloat(r.Tolerance, 64)
	if err != nil {
		t.Fatalf("check %s: tolerance: %v", r.ID, err)
	}
	return v
}
