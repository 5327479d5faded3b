package commands

import (
	"fmt"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/speech"
)

// readLonger reads by how much, or until when.
func readLonger(r *speech.Reading, more int) {
	switch {
	case more >= 0:
		r.Set("more_min", more)
	case r.Says("half an? hour"):
		r.Word("until", "+30m")
	case r.Says("another|extra|more|an hour"):
		r.Word("until", "+60m")
	}
	for i, it := range r.Items {
		if it.Q == nil || it.Q.Value == nil || it.Q.High != nil || !r.Free(i) || it.Q.Kind != speech.KindClock && !(it.Q.Bare() && (r.Follows(i, "till") || r.Follows(i, "until"))) {
			continue
		}
		if t, ok := timeOf(it.Q.Kind == speech.KindClock, it.Q.Value.Num().Int64(), it.Q.Value.IsInt(), r.Text[it.Start:it.End]); ok {
			word := t.at.String()
			if t.exact {
				word = "=" + word
			}
			r.Word("until", word)
			r.Claim(i)
		}
	}
}

// one does something with the only glue-up that is meant, or asks which.
func (a *Ask) one(found []book.Named[book.Timer], do func(book.Named[book.Timer]) Answer) Answer {
	switch len(found) {
	case 0:
		return say("No timer is running")
	case 1:
		return do(found[0])
	}
	options := make([]speech.Option, len(found))
	for i, t := range found {
		r := a.Request
		r.Slots = map[string]speech.Slot{}
		for name, s := range a.Request.Slots {
			r.Slots[name] = s
		}
		delete(r.Slots, "adhesive")
		r.Slots["name"] = speech.Slot{Word: t.Name}
		options[i] = speech.Option{Label: t.Name, Words: []string{strings.ToLower(t.Name)}, Request: r}
	}
	ans := ask("")
	ans.open = speech.Choice("Which one?", options...)
	ans.Question, ans.echo = ans.open.Text, true
	return ans
}

func (a *Ask) stopTimers(found []book.Named[book.Timer]) Answer {
	if len(found) > 1 && a.Word("all") == "" {
		return a.one(found, func(t book.Named[book.Timer]) Answer { return a.stopTimers([]book.Named[book.Timer]{t}) })
	}
	if len(found) == 0 {
		return say("No timer is running")
	}
	names := make([]string, len(found))
	for i, t := range found {
		names[i] = t.Name
	}
	ans := say(shorten(fmt.Sprintf("Stopped the timer of %s: I call nothing out", strings.Join(names, ", ")), MaxHeadline))
	ans.echo = true
	for _, t := range found {
		t.Is.Stopped = true
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatTimer, t.Name, t.Is))
	}
	return ans
}

// extend puts off everything that is still to come of a glue-up.
func (a *Ask) extend(t book.Named[book.Timer]) Answer {
	by, problem, ok := a.longer(t.Is)
	if !ok {
		return problem
	}
	was := t.Is
	t.Is.ClampsOff = putOff(was.ClampsOff, by, a.Now)
	shift := t.Is.ClampsOff.Sub(was.ClampsOff)
	t.Is.Workable, t.Is.Cured = was.Workable.Add(shift), was.Cured.Add(shift)
	t.Is.TakenOff, t.Is.Called = time.Time{}, past(t.Is, a.Now)
	ans := say(shorten(fmt.Sprintf("%s: clamps off %s, work it from %s", capital(t.Name), a.clockText(t.Is.ClampsOff), a.clockText(t.Is.Workable)), MaxHeadline))
	ans.echo = true
	ans.line(fmt.Sprintf("That is %s later than before.", durationText(shift)))
	timesInto(&ans, "", t.Is)
	ans.effects = append(ans.effects, put(a.Project.ID, book.WhatTimer, t.Name, t.Is))
	ans.because(fmt.Sprintf("%s + %s, as you said; what comes after is put off by as much.", a.clockText(was.ClampsOff), durationText(shift)))
	return ans
}

// putOff puts a moment off: from itself, or from now where it is past.
func putOff(was time.Time, by time.Duration, now time.Time) time.Time {
	if was.Before(now) {
		if was = now.Truncate(time.Minute); was.Before(now) {
			was = was.Add(time.Minute)
		}
	}
	return was.Add(by)
}

// longer gives by how much a glue-up is to stay longer.
func (a *Ask) longer(t book.Timer) (by time.Duration, problem Answer, ok bool) {
	if m, said := a.Float("more_min"); said {
		return minutes(m), problem, true
	}
	word := a.Word("until")
	if rest, plus := strings.CutPrefix(word, "+"); plus {
		by, err := time.ParseDuration(rest)
		return by, problem, err == nil
	}
	if word == "" {
		return 0, askFor("more_min", "How much longer?"), false
	}
	at, exact := a.clockAhead(word)
	if !exact || !at.After(t.ClampsOff) {
		return 0, ask(fmt.Sprintf("It stays in until %s anyway. How much longer?", a.clockText(t.ClampsOff))), false
	}
	from := t.ClampsOff
	if from.Before(a.Now) {
		from = a.Now
	}
	return at.Sub(from), problem, true
}

// takeOff notes that the clamps came off, and warns where that was too soon.
func (a *Ask) takeOff(t book.Named[book.Timer]) Answer {
	early := t.Is.ClampsOff.Sub(a.Now)
	t.Is.TakenOff = a.Now.Truncate(time.Second)
	ans := say(shorten(fmt.Sprintf("%s is out of the clamps; work it from %s", capital(t.Name), a.clockText(t.Is.Workable)), MaxHeadline))
	ans.echo = true
	if early > 0 {
		ans.line(fmt.Sprintf("That is %s too soon: clamp it again if the joint can still be closed, and don't load it before %s.", durationText(early+time.Minute-1), a.clockText(t.Is.Cured)))
	}
	timesInto(&ans, "", t.Is)
	ans.effects = append(ans.effects, put(a.Project.ID, book.WhatTimer, t.Name, t.Is))
	return ans
}
