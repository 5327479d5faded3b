package commands_test

import (
	"context"
	"path/filepath"
	"testing"
	"time"

	"fettle/commands"
	"fettle/store"
)

// TestCourtesies says thanks, hello and goodbye: each gets something short from who was spoken
// to, thanks a sign, and none is a reason to speak up unasked.
func TestCourtesies(t *testing.T) {
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, c := range []struct{ text, says, sign string }{
		{"thanks", "You're welcome", commands.SignThumb},
		{"Cheers mate!", "You're welcome", commands.SignThumb},
		{"ta", "You're welcome", commands.SignThumb},
		{"that's great, thank you very much", "You're welcome", commands.SignThumb},
		{"hello fettle", "Hello. Ask me in plain words, or say help", ""},
		{"Good morning all", "Hello. Ask me in plain words, or say help", ""},
		{"goodbye", "Bye", ""},
		{"bye then, thanks", "You're welcome", commands.SignThumb},
		{"hello, the kettle sings", "I didn't get that", ""},
		{"thanks for the tea", "I didn't get that", ""},
	} {
		err := db.Write(context.Background(), func(tx *store.Tx) error {
			h, err := commands.Hear(commands.Turn{Tx: tx, Project: "hut", Place: "p", WhoKey: "petra", Who: "Petra", Text: c.text, Now: time.Now()})
			if err != nil {
				return err
			}
			if h.Answer.Answer != c.says || h.Answer.Sign != c.sign || h.Sure && h.Understood() {
				t.Errorf("%q: %q, sign %q, sure %v", c.text, h.Answer.Answer, h.Answer.Sign, h.Sure)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}
