package commands_test

import (
	"context"
	"errors"
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

// politely are ways of dressing up a message that leave what it asks for alone.
var politely = []func(string) string{
	func(s string) string { return "please " + s },
	func(s string) string { return "ok so " + s },
	func(s string) string { return "hi, " + s },
	func(s string) string { return s + " please" },
	func(s string) string { return s + ", thanks" },
	func(s string) string { return "  " + s + "  " },
	strings.TrimSpace,
}

// TestMannersChangeNothing dresses example messages up: what was understood and what comes out
// stay as they were.
func TestMannersChangeNothing(t *testing.T) {
	db, err := store.Open(context.Background(), filepath.Join(t.TempDir(), "hut.db"), time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	rows := shopRows(t)
	rapid.Check(t, func(rt *rapid.T) {
		text := rapid.SampledFrom(rows).Draw(rt, "text")
		other := rapid.SampledFrom(politely).Draw(rt, "manner")(text)
		plain, dressed := heard(rt, db, text), heard(rt, db, other)
		if !reflect.DeepEqual(plain.Given, dressed.Given) || !reflect.DeepEqual(plain.Values, dressed.Values) {
			rt.Fatalf("%q: %v %v\n%q: %v %v", text, plain.Given, plain.Values, other, dressed.Given, dressed.Values)
		}
	})
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

func heard(t *rapid.T, db *store.Store, text string) (ans commands.Answer) {
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
