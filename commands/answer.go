package commands

import (
	"cmp"
	"encoding/json"
	"maps"
	"time"

	"fettle/calc/sketch"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// MaxHeadline is the longest headline, in characters: what a phone shows at arm's length.
const MaxHeadline = 120

// The signs under an answer that have a meaning, beside the numbers "1" to "10".
const (
	SignCheck = "check"
	SignThumb = "thumbsup"
)

// Answer is what goes back for one message, as people and as programs read it.
type Answer struct {
	Topic    string               `json:"topic"`
	Given    map[string]any       `json:"given"`  // what was understood, by the names of the needs
	Answer   string               `json:"answer"` // the headline, readable on its own
	Text     string               `json:"text"`   // the whole reply as Markdown
	Values   map[string]any       `json:"values"` // the results in full precision
	Times    map[string]time.Time `json:"times"`
	Cautions []string             `json:"cautions"`
	Question string               `json:"question"` // not empty: something must be known first
	Changes  []map[string]any     `json:"changes"`  // what was written to the project

	About []Mention         `json:"about,omitempty"` // what of the project's book it speaks of
	Signs map[string]string `json:"signs,omitempty"` // what a sign under the answer says: "1", "check" → a message

	Photos []Photo `json:"photos,omitempty"` // what people posted that it speaks of

	Drawings []sketch.Sheet `json:"-"` // pictures that go with it
	Book     string         `json:"-"` // the format in which the project's book goes with it, or ""
	Sign     string         `json:"-"` // a sign to put on the message instead of a post, where the place has signs

	details []string         // lines of the text below the headline
	reasons []string         // what "why" shows: the formula with its numbers, the source, what is rule of thumb
	effects []effect         // what it changes, once the message is in the log
	open    *speech.Question // the question as it is to be answered, when it is more than a text
	shy     bool             // is for who speaks to the program only: it may not have been meant
	wants   string           // the address of a page that must be fetched before this can be answered
	echo    bool             // repeats what people wrote, so it must be made harmless
}

// empty makes an answer with nothing in it, so that its JSON has every field.
func empty(topic string) Answer {
	return Answer{
		Topic: topic, Given: map[string]any{}, Values: map[string]any{}, Times: map[string]time.Time{},
		Cautions: []string{}, Changes: []map[string]any{},
	}
}

// ask makes an answer that asks back.
func ask(question string) Answer {
	a := empty("")
	a.Question = question
	return a
}

// askFor makes an answer that asks back for one need.
func askFor(need, question string) Answer {
	a := ask(question)
	a.open = &speech.Question{Text: question, Need: need}
	return a
}

// say makes an answer of a headline and further lines.
func say(headline string, lines ...string) Answer {
	a := empty("")
	a.Answer = headline
	a.details = lines
	return a
}

func (a *Answer) line(text string) { a.details = append(a.details, text) }

// because says how the answer came about: the formula in one line with its numbers, the
// source in a few words, what is rule of thumb. It is shown when somebody asks why.
func (a *Answer) because(lines ...string) { a.reasons = append(a.reasons, lines...) }

// told are the kinds under which things are told that are kept under another.
var told = map[string]string{whatTick: book.WhatDone, book.WhatHours: whatSetting}

// changed lists what was written, with the new state (or, of what was removed, the old one).
func changed(cs []store.Change) []map[string]any {
	out := []map[string]any{}
	for _, c := range merge(cs) {
		m := map[string]any{}
		state := c.After
		if c.Op == store.Removed {
			state = c.Before
		}
		maps.Copy(m, shown(state))
		m["what"], m["name"], m["op"] = cmp.Or(told[c.What], c.What), c.Name, c.Op
		out = append(out, m)
	}
	return out
}

// merge makes one change of several to the same thing: from what stood before the first to
// what stands after the last. What comes out as it was is left out, and so is what nobody says: how
// a place is, the cut plan, which follows from parts and boards, and what parts were made from.
func merge(cs []store.Change) []store.Change {
	var out []store.Change
	at := map[[2]string]int{}
	for _, c := range cs {
		if c.Op == "" || c.What == whatPlace || c.What == book.WhatPlan || c.What == book.WhatJoinery {
			continue
		}
		key := [2]string{c.What, store.Fold(c.Name)}
		i, seen := at[key]
		if !seen {
			at[key] = len(out)
			out = append(out, c)
			continue
		}
		out[i].After = c.After
		switch {
		case out[i].Before == nil && c.After == nil:
			out[i].Op = ""
		case out[i].Before == nil:
			out[i].Op = store.Added
		case c.After == nil:
			out[i].Op = store.Removed
		default:
			out[i].Op = store.Changed
		}
	}
	kept := out[:0]
	for _, c := range out {
		if c.Op != "" {
			kept = append(kept, c)
		}
	}
	return kept
}

// shown gives the fields of a stored thing as numbers and words.
func shown(data json.RawMessage) map[string]any {
	var fields map[string]json.RawMessage
	if json.Unmarshal(data, &fields) != nil {
		return nil
	}
	out := map[string]any{}
	for name, raw := range fields {
		out[name] = shownField(raw)
	}
	return out
}
