package store_test

import (
	"bytes"
	"context"
	"path/filepath"
	"testing"

	"fettle/store"
)

// What was attached to a message is there, whole and in order, after the file was closed.
func TestFilesHangOnTheirEntry(t *testing.T) {
	path := filepath.Join(t.TempDir(), "hut.db")
	s := open(t, path)
	p := projectOf(t, s, "Hut")
	with, without := say(t, s, store.Entry{Project: p, Text: "the list"}), say(t, s, store.Entry{Project: p, Text: "no list"})
	list := store.File{Name: "parts.csv", Media: "text/csv", Data: []byte("rail,3\x00\xff\n")}
	photo := store.File{Name: "sill.jpg", Media: "image/jpeg", Ref: "mattermost:abc"}
	if err := s.Write(context.Background(), func(tx *store.Tx) error { return tx.Attach(with, list, photo) }); err != nil {
		t.Fatal(err)
	}
	closeStore(t, s)
	s = open(t, path)
	err := s.Read(context.Background(), func(tx *store.Tx) error {
		got, err := tx.Files(with)
		if err != nil {
			return err
		}
		if len(got) != 2 || got[0].Name != list.Name || !bytes.Equal(got[0].Data, list.Data) || got[1].Ref != photo.Ref || got[1].Data != nil {
			t.Errorf("came back as %+v", got)
		}
		if got, err = tx.Files(without); len(got) != 0 {
			t.Errorf("an entry without files has %+v", got)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// Things of a kind are found in every project, and no others.
func TestThingsOfAKindEverywhere(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	a, b := projectOf(t, s, "Hut"), projectOf(t, s, "Wagon")
	e := say(t, s, store.Entry{Project: a, Text: "glued"})
	err := s.Write(context.Background(), func(tx *store.Tx) error {
		for _, put := range []struct {
			project int64
			what    string
			name    string
		}{{a, "timer", "bow"}, {b, "timer", "door"}, {b, "part", "rail"}, {b, "timer", "gone"}} {
			if _, err := tx.Put(e, put.project, put.what, put.name, 1); err != nil {
				return err
			}
		}
		if _, err := tx.Remove(e, b, "timer", "gone"); err != nil {
			return err
		}
		got, err := tx.ThingsEverywhere("timer")
		if len(got) != 2 || got[0].Project != a || got[0].Name != "bow" || got[1].Project != b || got[1].Name != "door" {
			t.Errorf("timers everywhere: %+v", got)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}
