// Package commands holds what can be asked. A topic is one value in one file: what points to
// it, what it needs, two or three example sentences and the function from a request to an
// answer. Help, the list of topics and what is offered when nothing was understood are made
// from these values.
package commands

import (
	"fettle/commands/speech"
)

// Topic is one thing that can be asked.
type Topic struct {
	speech.Form
	Title    string   // what it does, in a few words
	Examples []string // sentences that work
	Answer   func(*Ask) Answer
	Restates bool // the headline says what was read
	Shy      bool // answers only who speaks to the program
	Quiet    bool // never takes part in follow-ups: help, log, undo
}

// house is every topic and the language that their forms make together.
type house struct {
	topics   []*Topic
	language *speech.Language
}

var all = newHouse(
	roughSize(), finishedSize(), glueTime(), glueAmount(), clamps(), screw(), spacing(),
	mitre(), taper(), squareCheck(), compound(), arcOf(), lamination(),
	movement(), moisture(), expansion(), sag(), coverage(), convert(), amountOf(),
	part(), partsList(), measured(), check(), board(), stock(), joineryOf(), planTopic(), runSheet(), buy(),
	glueUp(), timers(), openingHours(), claim(), done(), left(),
	setting(), note(), logbook(), project(), undo(), help(),
)

func newHouse(topics ...*Topic) *house {
	forms := formsOf(topics)
	return &house{topics: topics, language: speech.NewLanguage(forms, oddsOf(forms))}
}

func formsOf(topics []*Topic) []*speech.Form {
	forms := make([]*speech.Form, len(topics))
	for i, t := range topics {
		forms[i] = &t.Form
	}
	return forms
}

// Topics lists what can be asked, in the order of help.
func Topics() []*Topic { return all.topics }

// named finds a topic by its name.
func (h *house) named(name string) (*Topic, bool) {
	for _, t := range h.topics {
		if t.Name == name {
			return t, true
		}
	}
	return nil, false
}
