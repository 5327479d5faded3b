package bot_test

import (
	"context"
	"fmt"
	"sync"
	"testing"

	"fettle/bot"
	"fettle/commands/book"
	"fettle/store"
)

// Two hundred changes at the same moment, by two people, lose nothing, and what stands is what
// the log's order of changes makes.
func TestPartsWrittenAtOnce(t *testing.T) {
	w := open(t)
	var all []bot.Message
	for i := range 100 {
		all = append(all, w.message("Petra", fmt.Sprintf("@add 2 rack slats %d x 38 x 16 ash", 500+i)))
		all = append(all, w.message("Gil", fmt.Sprintf("@the sill is %d at the left", 900+i%2)))
	}
	var wait sync.WaitGroup
	for _, m := range all {
		m.Cursor = 0
		wait.Add(1)
		go func() {
			defer wait.Done()
			if err := w.desk.Hear(context.Background(), m); err != nil {
				t.Errorf("%q: %v", m.Text, err)
			}
		}()
	}
	wait.Wait()
	err := w.db.Read(context.Background(), func(tx *store.Tx) error {
		p, err := tx.Project("hut")
		if err != nil {
			return err
		}
		parts, err := book.Parts(tx, p.ID)
		if err != nil {
			return err
		}
		lengths := map[float64]bool{}
		for _, part := range parts {
			lengths[part.Is.Length.MM()] = true
		}
		if len(parts) != 100 || len(lengths) != 100 {
			t.Errorf("%d parts of %d lengths stand, want 100 of each", len(parts), len(lengths))
		}
		measures, err := book.Measures(tx, p.ID)
		if err != nil || len(measures) != 1 {
			t.Fatalf("%d measures (%v), want 1", len(measures), err)
		}
		changes, err := tx.ChangesTo(p.ID, book.WhatMeasure, measures[0].Name)
		if err != nil {
			return err
		}
		for i := 1; i < len(changes); i++ {
			if string(changes[i].Before) != string(changes[i-1].After) {
				t.Errorf("change %d starts from %s, but the one before left %s", i, changes[i].Before, changes[i-1].After)
			}
		}
		if n := len(measures[0].Is.Earlier); n != 99 {
			t.Errorf("%d earlier readings are kept, want 99", n)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
