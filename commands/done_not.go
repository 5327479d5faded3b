package commands

import (
	"encoding/json"
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// How a message takes back what was ticked: a stage that it names, or the last tick.
const (
	notSo  = "not"
	untick = "untick"
)

// negations are the words that say that something is not so, with what they are without it.
var negations = strings.NewReplacer("isn't", "is", "aren't", "are", "wasn't", "was", "weren't", "were", "haven't", "have", "hasn't", "has", "isnt", "is", "arent", "are", "havent", "have", "hasnt", "has",
	" not ", " ", " never ", " ", " after all", " ", " yet", " ", " any more", " ", " anymore", " ", " really ", " ", " actually ", " ")

// unticks is how a tick is taken off in so many words; what follows is of what.
var unticks = regexp.MustCompile(`(?i)\b(?:un-?tick|un-?check)\b|\b(?:take|remove)\s+(?:the\s+|that\s+)?(?:ticks?|checks?|check ?marks?)\s+(?:off|from|back)(?:\s+(?:from|off|of))?\b`)

// notDoneIn finds what a message says is not done after all.
func notDoneIn(text string) (out []doneSaid) {
	text = strings.ToLower(strings.NewReplacer("’", "'", "‘", "'").Replace(text))
	if at := unticks.FindStringIndex(text); at != nil {
		for _, d := range doneIn(text[at[1]:] + " done") {
			d.how, d.stages = untick, nil
			out = append(out, d)
		}
		return out
	}
	plain := negations.Replace(" " + text + " ")
	if !saysNot.MatchString(text) && !strings.Contains(text, "never") || saysNot.MatchString(plain) {
		return nil
	}
	for _, d := range doneIn(plain) {
		switch d.how {
		case "spoiled", "but":
			return nil
		case "last", "half", "all":
			d.some = d.how
		}
		d.how = notSo
		out = append(out, d)
	}
	return out
}

// takeTick takes back a stage of one part or task, and all that comes after it.
func (a *Ask) takeTick(w work, d book.Done, total int) (now book.Done, head string) {
	stage := a.Word("what")
	if a.Word("how") == untick {
		stage = lastStage(d)
	}
	was := 0
	if stage != "" {
		stage = strings.Fields(stage)[0]
		was = reached(d, stage)
	}
	if was == 0 && stage == stageFinished && lastStage(d) != "" {
		last := lastStage(d)
		return d, fmt.Sprintf("%s was not ticked as finished, but %s: say “%s not %s” to take that back", w.name, last, w.name, last)
	}
	if was == 0 {
		return d, strings.TrimSpace(fmt.Sprintf("%s was not ticked as %s", w.name, stage))
	}
	is := max(0, was-a.takenBack(was, total))
	d = noMore(d, stage, is)
	if len(d.Stages) > 0 {
		for s, n := range d.Stages {
			if n == 0 {
				delete(d.Stages, s)
			}
		}
	}
	if len(d.Stages) == 0 {
		d.Stages = nil
	}
	if total == 1 || w.part == nil {
		return d, fmt.Sprintf("tick taken back: %s not %s", w.name, stage)
	}
	return d, fmt.Sprintf("tick taken back: %s %s %d of %d (was %d)", w.name, stage, is, total, was)
}

// takenBack is how many pieces a message says are not so: all of them where it says no number.
func (a *Ask) takenBack(was, total int) int {
	if n, said := a.Float("quantity"); said {
		return int(n)
	}
	switch a.Word("some") {
	case "last":
		return 1
	case "half":
		return total / 2
	}
	return was
}

// lastStage is the latest stage that anything is ticked as.
func lastStage(d book.Done) string {
	if d.Quantity > 0 {
		return stageFinished
	}
	for _, s := range slices.Backward(stageOrder) {
		if d.Stages[s] > 0 {
			return s
		}
	}
	return ""
}

// saysNotAll says whether a message leaves open how many are not so: not all of them.
func saysNotAll(s speech.Sentence) bool { return s.Says("=not =all|=every|=both|=everything") }

// takesBack says whether a request is that something is not so.
func (a *Ask) takesBack() bool { return a.Word("how") == notSo || a.Word("how") == untick }

// asksAboutNot asks what must be known before ticks are taken back.
func (a *Ask) asksAboutNot(asks []*Ask) *Answer {
	for _, one := range asks {
		if !one.takesBack() {
			continue
		}
		if saysNotAll(speech.Read(a.Typed)) {
			q := ask(fmt.Sprintf("How many are? Say for instance “2 of 3 %s %s”.", harmless(one.Word("name")), one.Word("what")))
			q.shy = true
			return &q
		}
		if _, problem, ok := one.workNamed(""); !ok && problem.open != nil && !strings.HasPrefix(problem.open.Text, "Which") {
			q := ask(fmt.Sprintf("There is no part %s on the list. Which one do you mean?", quoted(one.Word("name"))))
			q.echo, q.shy = true, true
			return &q
		}
	}
	return nil
}

func sameDone(a, b book.Done) bool { return a.Quantity == b.Quantity && maps.Equal(a.Stages, b.Stages) }

// tickTaken says whether a change of how far the work is took a tick back, and nothing was spoiled.
func tickTaken(c store.Change) bool {
	var was, now book.Done
	if json.Unmarshal(c.Before, &was) != nil || json.Unmarshal(c.After, &now) != nil || was.Spoiled != now.Spoiled || now.Quantity > was.Quantity {
		return false
	}
	less := now.Quantity < was.Quantity
	for _, s := range stageOrder {
		if now.Stages[s] > was.Stages[s] {
			return false
		}
		less = less || now.Stages[s] < was.Stages[s]
	}
	return less
}
