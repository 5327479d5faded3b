package commands_test

import (
	"context"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// petra has Petra say lines one after another in a new database and gives the answers.
func petra(t *testing.T, lines ...string) []phrases.Answer {
	t.Helper()
	said := make([]string, len(lines))
	for i, l := range lines {
		said[i] = "Petra> " + l
	}
	run := &phrases.Runner{Folder: t.TempDir()}
	answers, err := run.Say(context.Background(), said...)
	if err != nil {
		t.Fatal(err)
	}
	return answers
}

// request is a message on a new database, with what must come of it.
type request struct {
	text   string
	given  map[string]any // numbers within a thousandth, or words
	values map[string]any
	says   []string // in the whole text
	not    []string // not in the whole text
}
