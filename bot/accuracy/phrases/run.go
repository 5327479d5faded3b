package phrases

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"time"

	"fettle/bot"
	"fettle/bot/terminal"
	"fettle/store"
)

// Runner puts messages to the program, each on a database of its own.
type Runner struct {
	Folder string // for the databases
	n      int
}

// Say has the lines said in a new database, through the terminal, and gives the answers.
func (r *Runner) Say(ctx context.Context, lines ...string) ([]Answer, error) {
	r.n++
	path := filepath.Join(r.Folder, fmt.Sprintf("%d.db", r.n))
	db, err := store.Open(ctx, path, time.Now)
	if err != nil {
		return nil, err
	}
	defer os.Remove(path)
	defer db.Close()
	var out bytes.Buffer
	t := &terminal.Terminal{Desk: bot.NewDesk(db, time.Now, time.Local, slog.New(slog.NewTextHandler(io.Discard, nil))),
		Project: "workshop", Who: "Petra", JSON: true, Now: time.Now, Out: &out}
	if err := t.Chat(ctx, strings.NewReader(strings.Join(lines, "\n")+"\n")); err != nil {
		return nil, err
	}
	var answers []Answer
	for _, line := range bytes.Split(bytes.TrimSpace(out.Bytes()), []byte("\n")) {
		a, err := Parse(line)
		if err != nil {
			return nil, fmt.Errorf("answer %q: %w", line, err)
		}
		answers = append(answers, a)
	}
	if len(answers) != len(lines) {
		return nil, fmt.Errorf("%d answers to %d lines", len(answers), len(lines))
	}
	return answers, nil
}

// Lines gives a conversation as the lines of a chat.
func (d Dialogue) Lines() []string {
	lines := make([]string, len(d.Turns))
	for i, t := range d.Turns {
		lines[i] = t.Who + "> " + t.Say
	}
	return lines
}
