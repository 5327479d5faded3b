package commands_test

import (
	"context"
	"encoding/json"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/calc/measure"
	"fettle/commands"
	"fettle/commands/book"
	"fettle/store"
)

var referTime = time.Date(2026, 3, 7, 10, 0, 0, 0, time.UTC)

// doorAndRack is a list of parts as the two of them might have it.
func doorAndRack(t *testing.T, then func(tx *store.Tx, p store.Project)) {
	t.Helper()
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), func() time.Time { return referTime })
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	err = db.Write(context.Background(), func(tx *store.Tx) error {
		p, err := tx.Project("hut")
		if err != nil {
			return err
		}
		e, err := tx.Add(store.Entry{Project: p.ID, Place: "test:hut", WhoKey: "petra", Who: "Petra", Kind: store.Message, At: referTime})
		if err != nil {
			return err
		}
		mm := func(n measure.Length) book.MM { return book.MM(n * measure.Millimetre) }
		for _, n := range []book.Named[book.Part]{
			{Name: "top rail", Is: book.Part{Quantity: 1, Length: mm(612), Width: mm(92), Thickness: mm(40), Group: "door", Species: "sapele"}},
			{Name: "bottom rail", Is: book.Part{Quantity: 1, Length: mm(612), Width: mm(140), Thickness: mm(40), Group: "door", Species: "sapele"}},
			{Name: "left stile", Is: book.Part{Quantity: 1, Length: mm(1720), Width: mm(92), Thickness: mm(40), Group: "door", Species: "sapele"}},
			{Name: "right stile", Is: book.Part{Quantity: 1, Length: mm(1705), Width: mm(92), Thickness: mm(40), Group: "door", Species: "sapele"}},
			{Name: "rack slat", Is: book.Part{Quantity: 6, Length: mm(742), Width: mm(38), Thickness: mm(16), Species: "ash"}},
			{Name: "rack slat 2", Is: book.Part{Quantity: 2, Length: mm(700), Width: mm(38), Thickness: mm(16), Species: "ash"}},
			{Name: "rack side", Is: book.Part{Quantity: 2, Length: mm(480), Width: mm(130), Thickness: mm(18), Species: "ash"}},
			{Name: "shelf", Is: book.Part{Quantity: 3, Length: mm(610), Width: mm(200), Thickness: mm(18)}},
		} {
			if _, err := tx.Put(e, p.ID, book.WhatPart, n.Name, n.Is); err != nil {
				return err
			}
		}
		then(tx, p)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

func TestPartsAreFound(t *testing.T) {
	doorAndRack(t, func(tx *store.Tx, p store.Project) {
		for words, want := range map[string]string{
			"top rail": "top rail", "the Top-Rail": "top rail", "the rails": "top rail, bottom rail", "both rails": "top rail, bottom rail",
			"all the rails": "top rail, bottom rail", "the door's stiles": "left stile, right stile", "stiles of the door": "left stile, right stile",
			"left hand stile": "left stile", "leftt hand stiles": "left stile", "bottom raill": "bottom rail", "the sides": "rack side", "2 rack sides": "rack side",
			"the door": "top rail, bottom rail, left stile, right stile", "the 1720 stile": "left stile", "the 612 rails": "top rail, bottom rail",
			"742 slat": "rack slat", "the 70 cm slat": "rack slat 2", "the rack slats": "rack slat, rack slat 2", "rack slat": "rack slat", "rack slat 2": "rack slat 2",
			"the top rail and the left stile": "top rail, left stile", "rails, stiles": "top rail, bottom rail, left stile, right stile",
			"ash parts": "rack slat, rack slat 2, rack side", "everything": "top rail, bottom rail, left stile, right stile, rack slat, rack slat 2, rack side, shelf",
			"the shelves": "shelf", "the rack": "rack slat, rack slat 2, rack side", "all of the parts": "top rail, bottom rail, left stile, right stile, rack slat, rack slat 2, rack side, shelf",
		} {
			names, question, _, err := commands.FindParts(tx, p, referTime, words)
			if err != nil || question != "" || strings.Join(names, ", ") != want {
				t.Errorf("%q finds %q and asks %q (%v), want %q", words, names, question, err, want)
			}
		}
	})
}

func TestPartsAreAskedFor(t *testing.T) {
	doorAndRack(t, func(tx *store.Tx, p store.Project) {
		for words, offered := range map[string]string{
			"the rail": "top rail, bottom rail", "the 612 rail": "top rail, bottom rail", "middle rail": "top rail, bottom rail", "the 38 one": "rack slat, rack slat 2", "the stile": "left stile, right stile",
			"the batten": "", "it": "top rail, bottom rail, left stile, right stile, rack slat, rack slat 2, rack side, shelf", "the 999 rail": "top rail, bottom rail",
			"the stile and the shelf": "left stile and the shelf, right stile and the shelf",
		} {
			names, question, got, err := commands.FindParts(tx, p, referTime, words)
			if err != nil || question == "" || len(names) > 0 || strings.Join(got, ", ") != offered {
				t.Errorf("%q finds %q, asks %q and offers %q (%v), want %q", words, names, question, got, err, offered)
			}
			for _, o := range got {
				if again, q, _, _ := commands.FindParts(tx, p, referTime, o); q != "" || len(again) == 0 {
					t.Errorf("the option %q of %q is asked about: %s", o, words, q)
				}
			}
		}
	})
}

// "It" is what was spoken of last, by anyone; where a person's own last word was about something
// else, that is asked.
func TestWhatWasSpokenOf(t *testing.T) {
	doorAndRack(t, func(tx *store.Tx, p store.Project) {
		speak := func(who, part string) {
			t.Helper()
			e, err := tx.Add(store.Entry{Project: p.ID, Place: "test:hut", WhoKey: who, Who: who, Kind: store.Message, At: referTime, Topic: "parts", Request: json.RawMessage(`{"topic":"parts"}`)})
			if err != nil {
				t.Fatal(err)
			}
			if _, err := tx.Add(store.Entry{Project: p.ID, Place: "test:hut", Who: "fettle", Kind: store.Answer, About: e, At: referTime,
				Answer: json.RawMessage(`{"about":[{"what":"part","name":"` + part + `"}]}`)}); err != nil {
				t.Fatal(err)
			}
		}
		for _, c := range []struct{ who, part, want, offered string }{
			{"gil", "shelf", "shelf", ""},
			{"petra", "top rail", "top rail", ""},
			{"gil", "rack side", "", "top rail, rack side"},
		} {
			speak(c.who, c.part)
			names, question, offered, err := commands.FindParts(tx, p, referTime.Add(time.Minute), "that one")
			if err != nil || strings.Join(names, ", ") != c.want || strings.Join(offered, ", ") != c.offered || (question != "") != (c.want == "") {
				t.Errorf("after %s spoke of %s: %q, question %q, offered %q (%v)", c.who, c.part, names, question, offered, err)
			}
		}
		late, _, offered, _ := commands.FindParts(tx, p, referTime.Add(time.Hour), "them")
		if len(late) > 0 || !slices.Contains(offered, "shelf") {
			t.Errorf("an hour later: %q, offered %q", late, offered)
		}
	})
}
