package commands

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func undo() *Topic {
	return &Topic{
		Title:    "take back the last change, exactly",
		Examples: []string{"undo", "scratch that", "no, I meant 83 cm"},
		Quiet:    true,
		Form: speech.Form{
			Name: "undo",
			Cues: []speech.Cue{
				{Weight: 8, Pattern: "undo|revert please|pls|again? $"},
				{Weight: 8, Pattern: "undo|revert that|it|this|last|my|what|everything|please"},
				{Weight: 8, Pattern: "undo|revert the .. change|changes|entry|last|setting|kerf|allowance|note|unit|units|one"},
				{Weight: 2, Pattern: "undo|undone|revert"},
				{Weight: 7, Pattern: "scratch|cancel|scrap that|it|this one|last|again|please|pls|then|now? $"},
				{Weight: 7, Pattern: "scratch|cancel|scrap that|it|this|the? one|last|note|entry|change|setting"},
				{Weight: 7, Pattern: "scratch|cancel|scrap the .."},
				{Weight: 7, Pattern: "take|took|takes that|it|this|the|last .. back"},
				{Weight: 7, Pattern: "take back"},
				{Weight: 6, Pattern: "^ forget|delete|remove|drop|erase|kill|bin|strike|ignore that|it|this|last|the|what .. $"},
				{Weight: 6, Pattern: "delete|remove|cancel|scrap|drop|undo it|that|this again"},
				{Weight: 6, Pattern: "cancel|scrap|scratch what|everything"},
				{Weight: 6, Pattern: "delete|remove|drop|erase|forget|bin .. last|just|added|wrote|entered|said|entry"},
				{Weight: 6, Pattern: "roll|go|put|step|turn back|it .. change|last|was|before"},
				{Weight: 6, Pattern: "turn|put|set|change that|it|this|everything back"},
				{Weight: 6, Pattern: "strike|nix|wipe|cross|rub|kill the|that|my last .. off|out|entry|one"},
				{Weight: 6, Pattern: "nix|belay that|it|this|the|last"},
				{Weight: 6, Pattern: "go|step back a|one step|steps"},
				{Weight: 6, Pattern: "go|step back # step|steps"},
				{Weight: 5, Pattern: "that was|were wrong|a? mistake"},
				{Weight: 5, Pattern: "^ my mistake|bad|error"},
				{Weight: -5, Pattern: "note|remember|log : "},
				{Weight: -5, Pattern: "forget to"},
			},
		},
		Answer: answerUndo,
	}
}

func answerUndo(a *Ask) Answer {
	last, ok, err := a.Tx.LastUndoable(a.Project.ID, a.Place, a.WhoKey, 0)
	if err != nil {
		return ask(store.Sentence(err))
	}
	if !ok {
		return say("There is nothing of yours to take back here")
	}
	if ans, ok := a.dropsNamed(last.ID); ok {
		return ans
	}
	what, err := changedBy(a.Tx, last.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say(shorten(fmt.Sprintf("Taken back: %s (“%s”)", what, last.Text), MaxHeadline))
	ans.echo = true
	versions, err := versionsBefore(a.Tx, last)
	if err != nil {
		return ask(store.Sentence(err))
	}
	for _, v := range versions {
		ans.effects = append(ans.effects, takeBack(v))
	}
	return ans
}

// dropsNamed drops the parts that "scratch the rails" names, where the last change was not theirs:
// taking that back would be something else than what was said.
func (a *Ask) dropsNamed(last int64) (Answer, bool) {
	s := speech.Read(a.Typed)
	_, end, _, ok := s.Stands("scratch|cancel|scrap|delete|remove|drop the|both|all")
	if !ok {
		return Answer{}, false
	}
	found, q, err := a.findParts(idleEnd(strings.Trim(s.Text[s.Items[end-1].End:], " .!?,")))
	if err != nil || q != nil {
		return Answer{}, false
	}
	cs, err := a.Tx.ChangesBy(last)
	for _, c := range cs {
		if slices.ContainsFunc(found, func(p book.Named[book.Part]) bool {
			return c.What == book.WhatPart && store.Fold(p.Name) == store.Fold(c.Name)
		}) {
			return Answer{}, false
		}
	}
	return a.drop(found), err == nil
}

// changedBy names the things that an entry changed.
func changedBy(tx *store.Tx, entry int64) (string, error) {
	cs, err := tx.ChangesBy(entry)
	if err != nil {
		return "", err
	}
	var names []string
	for _, c := range merge(cs) {
		names = append(names, strings.ReplaceAll(c.Name, "_", " "))
	}
	if len(names) == 0 {
		return "the cut plan", nil // it alone is no change that is told
	}
	return strings.Join(names, ", "), nil
}

// versionsBefore lists an entry and, of an edited message, the versions that it replaced,
// newest first: taking back an edit would only put those in force again.
func versionsBefore(tx *store.Tx, last store.Entry) ([]int64, error) {
	out := []int64{last.ID}
	if last.Kind != store.Edit {
		return out, nil
	}
	about, err := tx.About(last.About)
	if err != nil {
		return nil, err
	}
	for _, e := range slices.Backward(about) {
		if e.Kind == store.Edit && e.ID < last.ID {
			out = append(out, e.ID)
		}
	}
	return append(out, last.About), nil
}

// overtaken words why something can't be taken back.
func overtaken(err error) (string, bool) {
	var c *store.ChangedSince
	if !errors.As(err, &c) {
		return "", false
	}
	return fmt.Sprintf("%s changed the %s %s since, so I leave it. Say what it should be now?", c.Who, c.What, strings.ReplaceAll(c.Name, "_", " ")), true
}
