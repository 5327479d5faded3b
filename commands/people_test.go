package commands_test

import (
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"fettle/bot/accuracy/phrases"
	"fettle/store"
)

// The example messages about people, clamps and hours are understood, each on a new database;
// the chatter among them is left alone where nobody spoke to the program.
func TestMessagesAboutPeopleAndClamps(t *testing.T) {
	rows, err := phrases.ReadRows("../testdata/phrases/own/people.tsv")
	if err != nil || len(rows) < 100 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	for _, r := range rows {
		if strings.HasPrefix(r.ID, "people-chatter-") {
			if unasked(t, db, "", r.Text) || unasked(t, db, "what's in the clamps", r.Text) {
				t.Errorf("%s %q is answered unasked", r.ID, r.Text)
			}
			continue
		}
		if f := r.Compare(petra(t, r.Text)[0]); f != nil {
			t.Errorf("%s %q: %s: %s", r.ID, r.Text, f.Rule, f.Detail)
		}
	}
}

// So are those about the cut plan, what to buy and the run sheet.
func TestMessagesAboutTimber(t *testing.T) {
	rows, err := phrases.ReadRows("../testdata/phrases/own/timber.tsv")
	if err != nil || len(rows) < 40 {
		t.Fatalf("%d rows, %v", len(rows), err)
	}
	for _, r := range rows {
		if f := r.Compare(petra(t, r.Text)[0]); f != nil {
			t.Errorf("%s %q: %s: %s", r.ID, r.Text, f.Rule, f.Detail)
		}
	}
}
