package main_test

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// The book is written in every format, from what was said; a project or a format that there is
// not is one clear line and exit status 2.
func TestExportWritesTheBook(t *testing.T) {
	db := filepath.Join(t.TempDir(), "hut.db")
	run := func(args ...string) (string, int) {
		c := exec.Command(fettleBinary(t), append(args, "--db", db)...)
		out, err := c.CombinedOutput()
		if err != nil && c.ProcessState == nil {
			t.Fatal(err)
		}
		return string(out), c.ProcessState.ExitCode()
	}
	run("ask", "got 3 sapele boards 2600 x 210 x 52, 48 each")
	run("ask", "note: the hinge side is the left one")
	for _, format := range []string{"md", "csv", "html", "json"} {
		if out, code := run("export", "--format", format); code != 0 || !strings.Contains(out, "sapele 3") || !strings.Contains(out, "the hinge side") {
			t.Errorf("%s: status %d, %s", format, code, out)
		}
	}
	file := filepath.Join(t.TempDir(), "book.pdf")
	if out, code := run("export", "--format", "pdf", "--out", file); code != 0 || out != "" {
		t.Errorf("pdf: status %d, %s", code, out)
	}
	if data, err := os.ReadFile(file); err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("pdf: %d bytes, %v", len(data), err)
	}
	if out, _ := run("export", "--format", "json"); !json.Valid([]byte(out)) {
		t.Errorf("not JSON: %s", out)
	}
	for _, args := range [][]string{{"export", "--format", "docx"}, {"export", "--project", "nowhere"}, {"export", "--out", "/nowhere/at/all"}, {"export", "more"}} {
		if out, code := run(args...); code != 2 || strings.Count(out, "\n") != 1 {
			t.Errorf("%v: status %d, %q", args, code, out)
		}
	}
}
