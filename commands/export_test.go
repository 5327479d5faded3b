package commands

import (
	"time"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// FindParts gives tests the names of the parts that words refer to, or the question with the
// names that it offers.
func FindParts(tx *store.Tx, project store.Project, now time.Time, words string) (names []string, question string, offered []string, err error) {
	a := &Ask{Tx: tx, Project: project, System: measure.Metric, Now: now, Place: "test:hut", WhoKey: "petra", Request: speech.Request{Topic: "part"}}
	found, q, err := a.findParts(words)
	for _, p := range found {
		names = append(names, p.Name)
	}
	if q != nil {
		question = q.Text
		for _, o := range q.Options {
			offered = append(offered, o.Request.Word("name"))
		}
	}
	return names, question, offered, err
}

// NotAsMade gives tests what is found of a group that its request makes as made.
func NotAsMade(group string, made, parts []book.Named[book.Part], item, board book.MM) []string {
	return lookingAt(parts).notAsMade(madeAs{name: group, parts: made, item: item, board: board})
}

// DoorOnSite gives tests what is found of doors beside a measured opening.
func DoorOnSite(parts []book.Named[book.Part], width, height book.MM) []string {
	return append(lookingAt(parts).doorOnSite(width, height), lookingAt(parts).doorByItself()...)
}

// Findings gives tests what is found of a list by itself.
func Findings(parts []book.Named[book.Part]) []string { return lookingAt(parts).findings() }

func lookingAt(parts []book.Named[book.Part]) *lookedOver {
	return &lookedOver{out: measure.Metric, parts: parts, lack: func(string) string { return "" }}
}
