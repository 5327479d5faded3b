// Package checktest gives tests the published figures of testdata/reference/checks.csv, so
// that every check names where its value comes from.
package checktest

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// Row is one published or computed value.
type Row struct {
	ID, Topic, Inputs, Expected, Unit, Tolerance, Source, Status, Note string
}

// Table is all rows by their ID. It keeps a record of those that a test compared something with.
type Table struct {
	rows map[string]Row
	used map[string]bool
}

// UsedIn names the environment variable that holds a folder. Where it is set, each test that
// passes leaves there a file with the IDs of the rows it compared something with, one a line.
const UsedIn = "FETTLE_CHECKS_USED"

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
	out := Table{rows: map[string]Row{}, used: map[string]bool{}}
	for _, c := range all[1:] {
		out.rows[c[0]] = Row{c[0], c[1], c[2], c[3], c[4], c[5], c[6], c[7], c[8]}
	}
	if folder := os.Getenv(UsedIn); folder != "" {
		t.Cleanup(func() { out.report(t, folder) })
	}
	return out
}

func (tab Table) report(t testing.TB, folder string) {
	if t.Failed() || t.Skipped() || len(tab.used) == 0 {
		return
	}
	f, err := os.CreateTemp(folder, "used")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for id := range tab.used {
		if _, err := f.WriteString(id + "\n"); err != nil {
			t.Fatal(err)
		}
	}
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
	for _, r := range tab.rows {
		if r.Topic == topic {
			out = append(out, r)
		}
	}
	slices.SortFunc(out, func(a, b Row) int { return strings.Compare(a.ID, b.ID) })
	if len(out) == 0 {
		t.Fatalf("no check of topic %q", topic)
	}
	return out
}

// Row gives a whole row, for a test that compares with its inputs or its note.
func (tab Table) Row(t testing.TB, id string) Row {
	t.Helper()
	row, ok := tab.rows[id]
	if !ok {
		t.Fatalf("no check %s", id)
	}
	tab.used[id] = true
	return row
}

// Expected gives the expected value of a row as it is printed, for a test to compare with.
func (tab Table) Expected(t testing.TB, id string) string {
	t.Helper()
	return tab.Row(t, id).Expected
}

// Says fails the test when the inputs of a row do not hold the text given, word for word: for
// formulas that stand there, which the test then works out by itself.
func (tab Table) Says(t testing.TB, id, text string) {
	t.Helper()
	if got := tab.Row(t, id).Inputs; !strings.Contains(got, text) {
		t.Errorf("check %s says %q, and not %q", id, got, text)
	}
}

// Range is a published range, both ends in it.
type Range struct{ Low, High float64 }

// Holds says whether the value lies in the range, but for the last bits.
func (r Range) Holds(v float64) bool { return v >= r.Low*(1-1e-9) && v <= r.High*(1+1e-9) }

// Ranges gives the ranges that a row expects, "150-200" or "1 to 3", in the order printed.
func (tab Table) Ranges(t testing.TB, id string) []Range {
	t.Helper()
	var out []Range
	for _, m := range regexp.MustCompile(`([0-9.]+)(?:-| to )([0-9.]+)`).FindAllStringSubmatch(tab.Expected(t, id), -1) {
		low, err := strconv.ParseFloat(m[1], 64)
		if err != nil {
			t.Fatalf("check %s: %v", id, err)
		}
		high, err := strconv.ParseFloat(m[2], 64)
		if err != nil {
			t.Fatalf("check %s: %v", id, err)
		}
		out = append(out, Range{low, high})
	}
	if len(out) == 0 {
		t.Fatalf("check %s expects no range", id)
	}
	return out
}

// Prints fails the test when the expected value of a row is not the text given, word for word:
// for formulas, which the test then works out by itself.
func (tab Table) Prints(t testing.TB, id, text string) {
	t.Helper()
	if got := tab.Expected(t, id); got != text {
		t.Errorf("check %s prints %q, not %q", id, got, text)
	}
}

// Numbers gives the expected values of a row, of which there may be several with / between.
func (tab Table) Numbers(t testing.TB, id string) []float64 {
	t.Helper()
	var out []float64
	for _, s := range strings.Split(tab.Expected(t, id), "/") {
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
	row := tab.rows[id]
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
