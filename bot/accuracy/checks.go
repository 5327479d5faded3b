package main

import (
	"encoding/csv"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
)

// checksUsed runs the tests of the calculations and says how many rows of the reference they
// compared something with and passed, by how the rows are known. The tests themselves leave
// the record (checktest.UsedIn).
func checksUsed() (string, error) {
	root, err := projectRoot()
	if err != nil {
		return "", err
	}
	used, err := rowsUsed(root)
	if err != nil {
		return "", err
	}
	f, err := os.Open(filepath.Join(root, "testdata", "reference", "checks.csv"))
	if err != nil {
		return "", err
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		return "", err
	}
	return countChecks(rows, used)
}

// projectRoot walks up to the folder that holds go.mod.
func projectRoot() (string, error) {
	dir, err := os.Getwd()
	if err != nil {
		return "", err
	}
	for ; dir != filepath.Dir(dir); dir = filepath.Dir(dir) {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return dir, nil
		}
	}
	return "", fmt.Errorf("no go.mod here or above")
}

// rowsUsed gives the IDs of the rows that passing tests compared with.
func rowsUsed(root string) (map[string]bool, error) {
	folder, err := os.MkdirTemp("", "checks")
	if err != nil {
		return nil, err
	}
	defer os.RemoveAll(folder)
	tests := exec.Command("go", "test", "-count=1", "./calc/...")
	tests.Dir = root
	tests.Env = append(os.Environ(), "FETTLE_CHECKS_USED="+folder)
	if out, err := tests.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("the tests of the calculations do not pass: %w\n%s", err, out)
	}
	files, err := filepath.Glob(filepath.Join(folder, "used*"))
	if err != nil {
		return nil, err
	}
	used := map[string]bool{}
	for _, name := range files {
		data, err := os.ReadFile(name)
		if err != nil {
			return nil, err
		}
		for _, id := range strings.Fields(string(data)) {
			used[id] = true
		}
	}
	return used, nil
}

// countChecks counts the rows used of those there are, by status. The first row is the header.
func countChecks(rows [][]string, used map[string]bool) (string, error) {
	if len(rows) < 2 {
		return "", fmt.Errorf("the reference holds no rows")
	}
	id, status := slices.Index(rows[0], "id"), slices.Index(rows[0], "status")
	if id < 0 || status < 0 {
		return "", fmt.Errorf("the reference has no column id or status")
	}
	var sum tally
	byStatus, bySource := map[string]*tally{}, map[string]*tally{}
	from := slices.Index(rows[0], "source")
	kind := ""
	for _, r := range rows[1:] {
		sum.add(used[r[id]])
		count(byStatus, r[status], used[r[id]])
		if from >= 0 {
			kind = sourceKind(r[from], kind)
			count(bySource, kind, used[r[id]])
		}
	}
	return fmt.Sprintf("reference rows that passing tests of the calculations compare with: %v\n  by status: %s\n  by source: %s",
		sum, inOrder(byStatus), inOrder(bySource)), nil
}

func inOrder(m map[string]*tally) string {
	parts := []string{}
	for _, name := range slices.Sorted(maps.Keys(m)) {
		parts = append(parts, fmt.Sprintf("%s %d of %d", name, m[name].passed, m[name].total))
	}
	return strings.Join(parts, ", ")
}

// sourceKinds sorts the sources of the reference by how they begin.
var sourceKinds = []struct{ kind, begins string }{
	{"Wood Handbook and other USDA papers", "WH2010|WH |WH,|WH/|USDA|FPL|Lemoine|older NDS"},
	{"standards", "EN |BS |BSI|NDS|PS |ISO"},
	{"building handbook", "Building Construction Handbook"},
	{"worked out from a stated formula", "computed|formula|geometry|derived|R=|result|S 7.8|coefficient|general structural"},
	{"journals", "Kurt|Forest Products|BioResources"},
}

// sourceKind gives the kind of a source; "same" is that of the row before.
func sourceKind(source, before string) string {
	if strings.HasPrefix(source, "same") {
		return before
	}
	for _, k := range sourceKinds {
		for _, b := range strings.Split(k.begins, "|") {
			if strings.HasPrefix(source, b) {
				return k.kind
			}
		}
	}
	return "trade, extension and web pages"
}
