package commands_test

import (
	"context"
	"errors"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
	"fettle/store"
)

// TestTheSameOtherwise says example messages otherwise: what was understood and what comes out stay
// as they were.
func TestTheSameOtherwise(t *testing.T) {
	db := hut(t)
	rows := shopRows(t)
	for _, l := range laws {
		t.Run(l.name, func(t *testing.T) {
			rapid.Check(t, func(rt *rapid.T) {
				text := rapid.SampledFrom(rows).Draw(rt, "text")
				other := l.say(text, rand.New(rand.NewPCG(rapid.Uint64().Draw(rt, "seed"), 1)))
				if other == "" {
					return
				}
				if plain, said := heard(rt, db, text), heard(rt, db, other); !sameAnswer(plain, said) {
					rt.Fatalf("%q: %v %v\n%q: %v %v %s", text, plain.Given, plain.Values, other, said.Given, said.Values, said.Question)
				}
			})
		})
	}
}

// slips is how many slips TestSlips makes, and mostHarmful in how many of them the meaning may be lost: a
// slip can make another word of a word, and the name of a thing is anybody's guess.
const (
	slips       = 600
	mostHarmful = 18
)

// TestSlips puts a wrong letter into one long word of a message: that changes nothing, but for a few.
func TestSlips(t *testing.T) {
	db := hut(t)
	rows := shopRows(t)
	r := rand.New(rand.NewPCG(1, 2))
	done := 0
	var harmed []string
	for done < slips {
		text := rows[r.IntN(len(rows))]
		other := slipped(text, r)
		if other == "" {
			continue
		}
		done++
		if !sameAnswer(heard(t, db, text), heard(t, db, other)) {
			harmed = append(harmed, other)
		}
	}
	t.Logf("%d of %d slips changed what was understood", len(harmed), slips)
	if len(harmed) > mostHarmful {
		t.Errorf("%d of %d slips changed what was understood, want at most %d:\n%s", len(harmed), slips, mostHarmful, strings.Join(harmed, "\n"))
	}
}

func sameAnswer(a, b commands.Answer) bool {
	return reflect.DeepEqual(a.Given, b.Given) && reflect.DeepEqual(a.Values, b.Values)
}

func hut(t *testing.T) *store.Store {
	t.Helper()
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { db.Close() })
	return db
}

// shopTopics compute something from the message alone: the text itself is no part of the result.
const shopTopics = "rough-size finished-size glue-time glue-amount clamps screw spacing mitre taper square-check compound arc lamination movement moisture expansion sag coverage amount"

func shopRows(t *testing.T) []string {
	t.Helper()
	rows, err := phrases.ReadRows("../testdata/phrases/single.tsv")
	if err != nil {
		t.Fatal(err)
	}
	var out []string
	for _, r := range rows {
		if r.Question == "no" && strings.Contains(" "+shopTopics+" ", " "+r.Topic+" ") {
			out = append(out, r.Text)
		}
	}
	if len(out) < 80 {
		t.Fatalf("only %d messages", len(out))
	}
	return out
}

var errThrownAway = errors.New("thrown away")

func heard(t interface{ Fatal(...any) }, db *store.Store, text string) (ans commands.Answer) {
	err := db.Write(context.Background(), func(tx *store.Tx) error {
		h, err := commands.Hear(commands.Turn{Tx: tx, Project: "hut", Place: "p", WhoKey: "petra", Who: "Petra", Text: text, Now: time.Now()})
		if err != nil {
			return err
		}
		ans = h.Answer
		return errThrownAway
	})
	if !errors.Is(err, errThrownAway) {
		t.Fatal(err)
	}
	return ans
}
