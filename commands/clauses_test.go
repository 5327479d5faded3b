package commands_test

import (
	"testing"

	"fettle/bot/accuracy/phrases"
	"fettle/commands"
)

// FuzzClauses puts any text to the readers of clauses: hours that are taken are such as can be,
// and a text has no more clauses than characters.
func FuzzClauses(f *testing.F) {
	rows, err := phrases.ReadRows("../testdata/phrases/own/people.tsv")
	if err != nil {
		f.Fatal(err)
	}
	for _, r := range rows {
		f.Add(r.Text)
	}
	f.Add("mon-sun 0 to 24, 25:00 till 99 and 7-9.30pm; fri 12.75 to 1e400, 24:00-24:00")
	f.Fuzz(func(t *testing.T, text string) {
		claims, done, sound := commands.ReadClauses(text)
		if !sound {
			t.Errorf("%q: hours that can't be", text)
		}
		if n := len(text) + 1; claims > n || done > n {
			t.Errorf("%q: %d claims and %d things done", text, claims, done)
		}
	})
}
