package commands_test

import (
	"context"
	"errors"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
	"fettle/store"
)

// TestChatterIsLeftAlone puts every line of the example messages that is no request into a
// conversation, after requests of several kinds: none may be answered unasked.
func TestChatterIsLeftAlone(t *testing.T) {
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	before := []string{"", "rough size for 600 by 45 by 22", "5 hooks along 880, 40 in from each end", "kerf is 3", "epoxy at 15 degrees",
		"clamps for a 900 long edge joint, boards 70 wide, oak", "13/16 in mm", "rough size for the rail"}
	for _, text := range []string{"2 of us", "see you at 6", "back in 10", "in 5", "3 left", "for 2?", "1150", "yes 4", "the 3 of you", "20 mins", "half past", "6 ok?", "I have 2", "5 more to go", "we are 3",
		"we need 3 more evenings I reckon", "is 5 ok for you?", "what do you think of ash for the shelf", "lovely mitre on that corner", "the board is 2400 long",
		"undo the clamps please Gil", "scratch that itch", "can you help me lift it at 4", "that gap looks like 5 mm to me", "got the oak for 1100 a cube, bargain",
		"clamps are in the van", "it's 12 degrees in here, brrr", "where's the 10 mm bit", "my thumb measures 2 inches now", "I'd say 600 is about right"} {
		for _, b := range before {
			if unasked(t, db, b, text) {
				t.Errorf("after %q, %q is answered unasked", b, text)
			}
		}
	}
	lines := 0
	for _, folder := range []string{"../testdata/phrases", "../testdata/phrases/own", "../testdata/phrases/aside"} {
		rows, err := phrases.ReadRows(filepath.Join(folder, "single.tsv"))
		if err != nil {
			t.Fatal(err)
		}
		for _, r := range rows {
			if !strings.HasPrefix(r.Topic, commands.Unknown) || r.Question == "any" {
				continue
			}
			lines++
			for _, b := range before {
				if unasked(t, db, b, r.Text) {
					t.Errorf("after %q, %q is answered unasked", b, r.Text)
				}
			}
		}
	}
	if lines < 30 {
		t.Errorf("only %d lines of chatter were tried", lines)
	}
}

// unasked says whether the second message would be answered in a place that is listened to.
func unasked(t *testing.T, db *store.Store, first, second string) (yes bool) {
	t.Helper()
	thrownAway := errors.New("thrown away")
	err := db.Write(context.Background(), func(tx *store.Tx) error {
		if first != "" {
			say(t, tx, first)
		}
		h, err := commands.Hear(commands.Turn{Tx: tx, Project: "hut", Place: "p", WhoKey: "petra", Who: "Petra", Text: second, Now: time.Now()})
		if err != nil {
			t.Fatal(err)
		}
		yes = h.Sure && h.Understood() && h.Answer.Topic != "note"
		return thrownAway
	})
	if !errors.Is(err, thrownAway) {
		t.Fatal(err)
	}
	return yes
}
