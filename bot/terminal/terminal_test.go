package terminal_test

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/terminal"
	"fettle/store"
)

var update = flag.Bool("update", false, "write the golden files anew")

func open(t *testing.T, out io.Writer) *terminal.Terminal {
	t.Helper()
	now := func() time.Time { return time.Date(2026, 3, 7, 14, 20, 0, 0, time.UTC) }
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return &terminal.Terminal{Desk: bot.NewDesk(db, now, time.UTC, slog.New(slog.NewTextHandler(io.Discard, nil))),
		Project: "hut", Who: "Petra", Now: now, Out: out}
}

// TestWording plays the conversations of testdata/golden and compares every word. A line
// that starts with a name and > is what is typed; what follows is the answer.
func TestWording(t *testing.T) {
	files, err := filepath.Glob("../../testdata/golden/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no golden files: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			want, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			got := play(t, string(want))
			if *update {
				if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if got != string(want) {
				t.Errorf("the wording changed; if that is meant, run with -update\ngot:\n%s\nwant:\n%s", got, want)
			}
		})
	}
}

// play says every typed line of a golden file again and writes it with its answer.
func play(t *testing.T, golden string) string {
	t.Helper()
	var all, one bytes.Buffer
	term := open(t, &one)
	for _, line := range strings.Split(golden, "\n") {
		if !strings.HasPrefix(line, "Petra> ") && !strings.HasPrefix(line, "Gil> ") {
			continue
		}
		one.Reset()
		if err := term.Chat(context.Background(), strings.NewReader(line+"\n")); err != nil {
			t.Fatal(err)
		}
		all.WriteString(line + "\n" + one.String() + "\n")
	}
	return all.String()
}

// TestOneObjectForEveryLine holds the contract of --json: chatter and empty lines count.
func TestOneObjectForEveryLine(t *testing.T) {
	var out bytes.Buffer
	term := open(t, &out)
	term.JSON = true
	lines := []string{"Petra> rough size for 600 by 45", "Gil> kettle's on", "", "and at 32 thick?", "Gil> <b>%s</b>"}
	if err := term.Chat(context.Background(), strings.NewReader(strings.Join(lines, "\n")+"\n")); err != nil {
		t.Fatal(err)
	}
	got := strings.Split(strings.TrimSpace(out.String()), "\n")
	if len(got) != len(lines) {
		t.Fatalf("%d objects for %d lines: %s", len(got), len(lines), out.String())
	}
	for i, g := range got {
		var a map[string]any
		if err := json.Unmarshal([]byte(g), &a); err != nil {
			t.Fatalf("line %d: %v: %s", i+1, err, g)
		}
		for _, field := range []string{"topic", "given", "answer", "text", "values", "times", "cautions", "question", "changes"} {
			if a[field] == nil {
				t.Errorf("line %d lacks %s: %s", i+1, field, g)
			}
		}
	}
}

// TestPromptsWhereAPersonTypes shows the prompt before each line.
func TestPromptsWhereAPersonTypes(t *testing.T) {
	var out bytes.Buffer
	term := open(t, &out)
	term.Prompt = "> "
	if err := term.Chat(context.Background(), strings.NewReader("13/16 in mm\n")); err != nil {
		t.Fatal(err)
	}
	if got := out.String(); !strings.HasPrefix(got, "> 13/16 in = 20.6375 mm\n") || !strings.HasSuffix(got, "> ") {
		t.Errorf("printed %q", got)
	}
}
