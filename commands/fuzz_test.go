package commands_test

import (
	"context"
	"errors"
	"math"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
	"fettle/store"
)

// FuzzHear puts any two messages, one after the other, to the program: every answer has its
// shape, a question has no numbers and changes nothing, numbers are numbers, and no mention
// of people goes out active.
func FuzzHear(f *testing.F) {
	rows, err := phrases.ReadRows("../testdata/phrases/single.tsv")
	if err != nil {
		f.Fatal(err)
	}
	for i, r := range rows {
		f.Add(r.Text, rows[(i*7+1)%len(rows)].Text)
	}
	f.Add("note: @all **@channel** @petra", "no, 83 cm I meant")
	f.Add("start a project called @here `x`", "switch to | a |")
	f.Add("add 2 stiles 1720 x 92 x 40 and 3 rails 640 x 92 x 40", "no, the second one is 1702 not 1720")
	f.Add("rails 640 x 92 x 40 x 3\nslats 742 x 38 x 16 - 6\n1. lip (2) 742 x 30 x 12", "sorry, both 95 wide, 4 of them")
	f.Add("boards:\ntimber;qty;length;width;thickness;price\nlarch;3;3000;145;28;", "bought 4 larch 3000 x 145 x 28 - 4")
	f.Add("the rails are cut", "untick the last rail, it isn't cut after all")
	db, err := store.Open(context.Background(), filepath.Join(f.TempDir(), "fuzz.db"), time.Now)
	if err != nil {
		f.Fatal(err)
	}
	f.Cleanup(func() { db.Close() })
	f.Fuzz(func(t *testing.T, first, second string) {
		errEnd := context.Canceled // nothing of it is kept
		err := db.Write(context.Background(), func(tx *store.Tx) error {
			for _, text := range []string{first, second} {
				shape(t, text, say(t, tx, text))
			}
			return errEnd
		})
		if !errors.Is(err, errEnd) {
			t.Fatalf("%q, %q: %v", first, second, err)
		}
	})
}

// say hears a message and keeps it, as the desk does.
func say(t *testing.T, tx *store.Tx, text string) commands.Answer {
	t.Helper()
	now := time.Date(2026, 3, 7, 14, 20, 0, 0, time.UTC)
	h, err := commands.Hear(commands.Turn{Tx: tx, Project: "hut", Place: "p", WhoKey: "petra", Who: "Petra", Text: text, Now: now})
	if err != nil {
		t.Fatalf("Hear(%q): %v", text, err)
	}
	id, err := tx.Add(store.Entry{Project: h.Project.ID, Place: "p", WhoKey: "petra", Who: "Petra", Kind: store.Message, At: now,
		Text: text, Topic: h.Answer.Topic, Request: h.Request})
	if err != nil {
		t.Fatalf("keep %q: %v", text, err)
	}
	ans, err := h.Apply(id)
	if err != nil {
		t.Fatalf("Apply(%q): %v", text, err)
	}
	return ans
}

func shape(t *testing.T, text string, a commands.Answer) {
	t.Helper()
	if a.Answer == "" || utf8.RuneCountInString(a.Answer) > commands.MaxHeadline {
		t.Fatalf("%q: headline %q", text, a.Answer)
	}
	if a.Question != "" && (len(a.Values) > 0 || len(a.Changes) > 0) {
		t.Fatalf("%q asks %q and gives %v, changes %v", text, a.Question, a.Values, a.Changes)
	}
	for name, v := range a.Values {
		if n, ok := v.(float64); ok && (math.IsNaN(n) || math.IsInf(n, 0)) {
			t.Fatalf("%q: %s = %v", text, name, n)
		}
	}
	if strings.ContainsAny(a.Text, "@＠") {
		t.Fatalf("%q: an active mention in %q", text, a.Text)
	}
}
