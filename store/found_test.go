package store_test

import (
	"context"
	"path/filepath"
	"slices"
	"testing"

	"fettle/store"
)

// Entries are found by the kind of what hangs on them, and by where they were said.
func TestSearchByWhatHangsOnIt(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	defer closeStore(t, s)
	hut := projectOf(t, s, "Hut")
	add := func(place string, files ...store.File) int64 {
		id := say(t, s, store.Entry{Project: hut, Place: place, Text: "sill"})
		if err := s.Write(context.Background(), func(tx *store.Tx) error { return tx.Attach(id, files...) }); err != nil {
			t.Fatal(err)
		}
		return id
	}
	list, photo := store.File{Name: "a.csv", Media: "text/csv"}, store.File{Name: "a.jpg", Media: "image/jpeg"}
	lists, photos, both, none := add("room:1", list), add("room:1", photo), add("room:2", list, photo), add("room:1")
	for _, c := range []struct {
		q    store.Query
		want []int64
	}{
		{store.Query{Project: hut, Media: "image/"}, []int64{both, photos}},
		{store.Query{Project: hut, Media: "text/", Place: "room:1"}, []int64{lists}},
		{store.Query{Project: hut, Place: "room:1"}, []int64{none, photos, lists}},
		{store.Query{Project: hut, Media: "image/", Words: []string{"sill"}, Place: "room:2"}, []int64{both}},
		{store.Query{Project: hut, Media: "image/%"}, nil},
	} {
		var got []int64
		for _, e := range search(t, s, c.q) {
			got = append(got, e.ID)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%+v finds %v, want %v", c.q, got, c.want)
		}
	}
}

// What an entry took back is known, of an entry that took back another's taking back too.
func TestTakenBackBy(t *testing.T) {
	s := open(t, filepath.Join(t.TempDir(), "hut.db"))
	defer closeStore(t, s)
	hut := projectOf(t, s, "Hut")
	var entries []int64
	for range 4 {
		entries = append(entries, say(t, s, store.Entry{Project: hut, Text: "x"}))
	}
	err := s.Write(context.Background(), func(tx *store.Tx) error {
		if _, err := tx.Put(entries[0], hut, "part", "rail", 1); err != nil {
			return err
		}
		if _, err := tx.Undo(entries[1], entries[0]); err != nil {
			return err
		}
		if _, err := tx.Put(entries[1], hut, "part", "rail", 2); err != nil {
			return err
		}
		for _, of := range []int64{entries[1], entries[0]} {
			if _, err := tx.Undo(entries[2], of); err != nil {
				return err
			}
		}
		for i, want := range [][]int64{nil, {entries[0]}, {entries[0], entries[1]}, nil} {
			got, err := tx.TakenBackBy(entries[i])
			if err != nil || !slices.Equal(got, want) {
				t.Errorf("entry %d took back of %v, want %v (%v)", entries[i], got, want, err)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}
