package commands_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"log/slog"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fettle/bot"
	"fettle/bot/accuracy/phrases"
	"fettle/bot/terminal"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// wednesday is a Wednesday at twenty past two in the afternoon, where no clocks are changed.
var wednesday = time.Date(2026, 3, 11, 14, 20, 0, 0, time.UTC)

// conversation is one on a database of its own, by a clock that the test sets.
type conversation struct {
	*testing.T
	db   *store.Store
	term *terminal.Terminal
	out  bytes.Buffer
	now  time.Time
}

func talking(t *testing.T) *conversation {
	t.Helper()
	k := &conversation{T: t, now: wednesday}
	clock := func() time.Time { return k.now }
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), clock)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	k.db = db
	k.term = &terminal.Terminal{Desk: bot.NewDesk(db, clock, time.UTC, slog.New(slog.NewTextHandler(io.Discard, nil))),
		Project: "hut", Who: "Petra", JSON: true, Now: clock, Out: &k.out}
	return k
}

// listing is a conversation with parts on the list.
func listing(t *testing.T) *conversation {
	k := talking(t)
	mm := func(n measure.Length) book.MM { return book.MM(n * measure.Millimetre) }
	err := k.db.Write(context.Background(), func(tx *store.Tx) error {
		p, err := tx.Project("hut")
		if err != nil {
			return err
		}
		e, err := tx.Add(store.Entry{Project: p.ID, Place: "terminal:hut", WhoKey: "nobody", Who: "nobody", Kind: store.Message, At: k.now})
		if err != nil {
			return err
		}
		for _, n := range []book.Named[book.Part]{
			{Name: "rack slat", Is: book.Part{Quantity: 6, Length: mm(742), Width: mm(38), Thickness: mm(16), Species: "ash", Group: "rack"}},
			{Name: "rack side", Is: book.Part{Quantity: 2, Length: mm(480), Width: mm(130), Thickness: mm(18), Species: "ash", Group: "rack"}},
			{Name: "top rail", Is: book.Part{Quantity: 1, Length: mm(612), Width: mm(92), Thickness: mm(40), Species: "sapele", Group: "door"}},
			{Name: "bottom rail", Is: book.Part{Quantity: 1, Length: mm(612), Width: mm(140), Thickness: mm(40), Species: "sapele", Group: "door"}},
			{Name: "stile", Is: book.Part{Quantity: 2, Length: mm(1720), Width: mm(92), Thickness: mm(40), Species: "sapele", Group: "door"}},
		} {
			if _, err := tx.Put(e, p.ID, book.WhatPart, n.Name, n.Is); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return k
}

// says has somebody speak ("Gil> …", else Petra) and gives the answer.
func (k *conversation) says(line string) phrases.Answer {
	k.Helper()
	k.out.Reset()
	if err := k.term.Chat(context.Background(), strings.NewReader(line+"\n")); err != nil {
		k.Fatal(err)
	}
	a, err := phrases.Parse(bytes.TrimSpace(k.out.Bytes()))
	if err != nil {
		k.Fatalf("%q: %v", line, err)
	}
	if testing.Verbose() {
		fmt.Printf("%s\n    %s\n", line, strings.ReplaceAll(a.Text, "\n", "\n    "))
	}
	return a
}

// wants says a line and wants these words in the answer, of this topic; "?" wants a question,
// "!" before a word wants it to be missing.
func (k *conversation) wants(line, topic string, words ...string) phrases.Answer {
	k.Helper()
	a := k.says(line)
	if a.Topic != topic {
		k.Errorf("%q: topic %s, want %s: %s", line, a.Topic, topic, a.Text)
	}
	if asked := slices.Contains(words, "?"); asked != (a.Question != "") {
		k.Errorf("%q: question %q, want one: %v", line, a.Question, asked)
	}
	if a.Question != "" && len(a.Changes) > 0 {
		k.Errorf("%q: asks and changes %v", line, a.Changes)
	}
	for _, w := range words {
		missing, not := strings.CutPrefix(w, "!")
		switch {
		case w == "?":
		case not && strings.Contains(a.Text, missing):
			k.Errorf("%q: %q stands in\n%s", line, missing, a.Text)
		case !not && !strings.Contains(a.Text, w):
			k.Errorf("%q: no %q in\n%s", line, w, a.Text)
		}
	}
	return a
}

// changed wants the changes of an answer: "claim add rack slat".
func (k *conversation) changed(a phrases.Answer, want ...string) {
	k.Helper()
	var got []string
	for _, c := range a.Changes {
		got = append(got, fmt.Sprintf("%v %v %v", c["what"], c["op"], c["name"]))
	}
	slices.Sort(got)
	slices.Sort(want)
	if !slices.Equal(got, want) {
		k.Errorf("changed %q, want %q: %s", got, want, a.Text)
	}
}
