package main

import (
	"context"
	"path/filepath"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// leastRight is the share of the example messages that must be understood.
const leastRight = 0.97

// TestSingleMessages puts every example message of a topic that exists to the program. None
// may be answered with wrong numbers as sure, and every one that has to be asked about must be.
func TestSingleMessages(t *testing.T) {
	known := knownTopics()
	rows, err := phrases.ReadRows("../../testdata/phrases/single.tsv")
	if err != nil {
		t.Fatal(err)
	}
	run := &phrases.Runner{Folder: t.TempDir()}
	right, total := 0, 0
	for _, r := range rows {
		if !anyKnown(r.Topic, known) {
			continue
		}
		answers, err := run.Say(context.Background(), "Petra> "+r.Text)
		if err != nil {
			t.Fatal(err)
		}
		total++
		f := r.Compare(answers[0])
		if f == nil {
			right++
			continue
		}
		t.Logf("%s %q: %s: %s", r.ID, r.Text, f.Rule, f.Detail)
		if answers[0].Confident() || r.Question == "yes" && answers[0].Question == "" {
			t.Errorf("%s %q is answered as sure, and wrong: %s: %s", r.ID, r.Text, f.Rule, f.Detail)
		}
	}
	if total < 100 || float64(right) < leastRight*float64(total) {
		t.Errorf("%d of %d messages right, want %v", right, total, leastRight)
	}
}

// TestDialogues plays every conversation that uses only topics that exist.
func TestDialogues(t *testing.T) {
	known := knownTopics()
	run := &phrases.Runner{Folder: t.TempDir()}
	played := 0
	for _, folder := range []string{"../../testdata/phrases/dialogues", "../../testdata/phrases/own/dialogues", "../../testdata/phrases/aside/dialogues"} {
		ds, err := phrases.ReadDialogues(filepath.FromSlash(folder))
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range ds {
			if !allKnown(d.Topics(known), known) {
				continue
			}
			played++
			answers, err := run.Say(context.Background(), d.Lines()...)
			if err != nil {
				t.Fatal(err)
			}
			for i, turn := range d.Turns {
				if f := turn.Compare(answers[i]); f != nil {
					t.Errorf("%s turn %d %q: %s: %s", d.Name, i+1, turn.Say, f.Rule, f.Detail)
				}
			}
		}
	}
	if played < 8 {
		t.Errorf("%d dialogues played, want at least 8", played)
	}
}
