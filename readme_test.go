package main_test

import (
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fettle/commands"
)

// go test -run Readme . -update writes what the program says now into the README.
var update = flag.Bool("update", false, "rewrite the transcripts and the table of topics in README.md")

// keep compares what the README says with what it should say, or writes it there.
func keep(t *testing.T, says, should string) {
	t.Helper()
	if says == should {
		return
	}
	if !*update {
		old, now := firstDifference(says, should)
		t.Errorf("the README is out of date; go test -run Readme . -update mends it.\nIt says:          %s\nThe program says: %s", old, now)
		return
	}
	text := strings.Replace(read(t, "README.md"), says, should, 1)
	if err := os.WriteFile("README.md", []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

// firstDifference gives the first lines in which two texts differ.
func firstDifference(a, b string) (inA, inB string) {
	as, bs := strings.Split(a, "\n"), strings.Split(b, "\n")
	for i := range min(len(as), len(bs)) {
		if as[i] != bs[i] {
			return as[i], bs[i]
		}
	}
	return fmt.Sprintf("%d lines", len(as)), fmt.Sprintf("%d lines", len(bs))
}

var transcript = regexp.MustCompile("(?ms)^```console\n(.*?)^```$")

// Every block of the kind "console" is held against the program: what is typed there is typed
// again, to a new project on a morning in March, and the answers must be the same.
func TestReadmeTranscripts(t *testing.T) {
	program := build(t)
	blocks := transcript.FindAllStringSubmatch(read(t, "README.md"), -1)
	if len(blocks) < 2 {
		t.Fatalf("the README has %d transcripts, want two or more", len(blocks))
	}
	for _, b := range blocks {
		db := filepath.Join(t.TempDir(), "fettle.db")
		var now strings.Builder
		typed := 0
		for _, line := range strings.Split(b[1], "\n") {
			args, in, ok := call(line)
			if !ok {
				continue
			}
			if typed++; typed > 1 && args != nil && args[0] == "chat" {
				now.WriteString("\n")
			}
			fmt.Fprintf(&now, "%s\n%s", line, run(t, program, append(args, "--db", db), in))
		}
		if typed == 0 {
			t.Fatalf("nothing is typed in this transcript:\n%s", b[1])
		}
		keep(t, b[1], now.String())
	}
}

var (
	asks   = regexp.MustCompile(`^\$ go run \. ask "(.*)"$`)
	plans  = regexp.MustCompile(`^\$ go run \. (plan .*)$`)
	chats  = regexp.MustCompile(`^\$ go run \. chat$`)
	speaks = regexp.MustCompile(`^[A-Z][a-z]+> `)
)

// call tells how a line that is typed in a transcript is put to the program. A conversation is
// put line by line: the database is what remembers it.
func call(line string) (args []string, in string, ok bool) {
	if m := asks.FindStringSubmatch(line); m != nil {
		return []string{"ask", m[1]}, "", true
	}
	if m := plans.FindStringSubmatch(line); m != nil {
		return strings.Fields(m[1]), "", true
	}
	if chats.MatchString(line) {
		return []string{"chat"}, "", true
	}
	return []string{"chat"}, line + "\n", speaks.MatchString(line)
}

func build(t *testing.T) string {
	t.Helper()
	program := filepath.Join(t.TempDir(), "fettle")
	if out, err := exec.Command("go", "build", "-buildvcs=false", "-o", program, ".").CombinedOutput(); err != nil {
		t.Fatalf("build fettle: %v\n%s", err, out)
	}
	return program
}

func run(t *testing.T, program string, args []string, in string) string {
	t.Helper()
	cmd := exec.Command(program, args...)
	cmd.Stdin = strings.NewReader(in)
	cmd.Env = append(os.Environ(), "FETTLE_NOW=2026-03-07T10:00:00Z", "FETTLE_TIMEZONE=UTC")
	out, err := cmd.Output()
	if err != nil {
		t.Fatalf("fettle %q: %v", args, err)
	}
	return string(out)
}

const (
	topicsFrom = "<!-- topics: written by go test -run Readme . -update -->\n"
	topicsTo   = "<!-- end of topics -->"
)

// The table of what can be asked is made from the topics themselves.
func TestReadmeTopics(t *testing.T) {
	_, rest, opened := strings.Cut(read(t, "README.md"), topicsFrom)
	table, _, closed := strings.Cut(rest, topicsTo)
	if !opened || !closed {
		t.Fatal("the README has no marks for the table of topics")
	}
	var b strings.Builder
	b.WriteString("| topic | what it does | asked as, for example |\n| --- | --- | --- |\n")
	for _, topic := range commands.Topics() {
		fmt.Fprintf(&b, "| %s | %s | %s |\n", strings.ReplaceAll(topic.Name, "-", " "), topic.Title, strings.Join(topic.Examples[:2], " · "))
	}
	keep(t, topicsFrom+table, topicsFrom+b.String())
}

var variable = regexp.MustCompile(`\bFETTLE_[A-Z_]+\b`)

// The README names each environment variable that the program reads, and no other.
func TestReadmeVariables(t *testing.T) {
	in := func(name string) []string {
		names := variable.FindAllString(read(t, name), -1)
		slices.Sort(names)
		return slices.Compact(names)
	}
	if says, reads := in("README.md"), in("main.go"); !slices.Equal(says, reads) {
		t.Errorf("README.md names %v, main.go reads %v", says, reads)
	}
}

// The first line that is run of the README is the program's main job, the second its tests.
func TestReadmeFirstCommands(t *testing.T) {
	m := regexp.MustCompile("(?ms)^```[a-z]+\n.*?^```$").FindAllString(read(t, "README.md"), 2)
	if len(m) < 2 || !strings.Contains(m[0], "\ngo run . serve\n") || !strings.Contains(m[1], "\ngo test -race ") {
		t.Errorf("the README begins with %q", m)
	}
}

// What DEVELOPERS.md names: a file or folder, and a name of the code in such a file.
var (
	named = regexp.MustCompile("`([a-z]+(?:/[A-Za-z0-9_.]+)+|[a-z_]+_test\\.go)/?`")
	inOne = regexp.MustCompile("`(\\w+)` in `([\\w/]+\\.go)`")
)

// DEVELOPERS.md sends readers to places in the code, which must be there.
func TestPlacesNamed(t *testing.T) {
	text := read(t, "DEVELOPERS.md")
	places := named.FindAllStringSubmatch(text, -1)
	if len(places) < 20 {
		t.Errorf("DEVELOPERS.md names %d places, or they are not found any more", len(places))
	}
	for _, m := range places {
		if _, err := os.Stat(m[1]); err != nil && m[1] != "export_test.go" {
			t.Errorf("DEVELOPERS.md names %s, which is not there", m[1])
		}
	}
	for _, m := range inOne.FindAllStringSubmatch(text, -1) {
		if !strings.Contains(read(t, m[2]), m[1]) {
			t.Errorf("DEVELOPERS.md names %s in %s, which is not there", m[1], m[2])
		}
	}
}
