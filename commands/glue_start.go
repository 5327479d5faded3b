package commands

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/hours"
	"fettle/commands/speech"
)

// saysStart says whether a sentence tells when something began, otherwise than by how long ago.
func saysStart(s speech.Sentence) bool {
	for _, it := range s.Items {
		if it.Q != nil && it.Q.Kind == speech.KindClock {
			return true
		}
	}
	return s.Says("just|right now") || s.Says("since #") || s.Says("a minute|moment ago")
}

// readStart reads the time of day and the day on which something began.
func readStart(r *speech.Reading) {
	if r.Says("just now") || r.Says("right now") || r.Says("a|one|couple minute|moment ago") {
		r.Word("clock", "now")
	}
	for i, it := range r.Items {
		if it.Q == nil || !r.Free(i) || it.Q.High != nil || it.Q.Value == nil {
			continue
		}
		since := it.Q.Bare() && it.Q.Integer && (r.Follows(i, "since") || r.Follows(i, "at") && r.Says("morning|evening|afternoon|night|yesterday|o'clock"))
		if it.Q.Kind != speech.KindClock && !since {
			continue
		}
		t, ok := timeOf(it.Q.Kind == speech.KindClock, it.Q.Value.Num().Int64(), it.Q.Value.IsInt(), r.Text[it.Start:it.End])
		if !ok || t.at >= hours.Midnight {
			continue
		}
		if t.exact {
			r.Word("clock", "="+t.at.String())
		} else {
			r.Word("clock", t.at.String())
		}
		r.Claim(i)
		break
	}
	switch {
	case ahead(r):
		r.Word("day", toCome)
		return
	case r.Says("yesterday") || r.Says("last night|evening"):
		r.Word("day", "-1")
	case r.Says("this morning"):
		r.Word("day", "0")
	}
	for _, it := range r.Items {
		if d, every, ok := speech.Weekday(it.Text); ok && !every {
			r.Word("day", dayName(d))
		}
	}
	if w := r.Request.Word("clock"); w != "" && !strings.HasPrefix(w, "=") && w != "now" {
		switch {
		case r.Says("morning"):
			r.Word("clock", "="+w)
		case r.Says("evening|night|afternoon|tonight"):
			r.Word("clock", "="+later(w).String())
		}
	}
}

// toCome stands for the day of a glue-up that is still to come.
const toCome = "to come"

// ahead says whether a message tells of a glue-up that is still to come: tomorrow, on Friday where
// nothing says that it was, or in an hour.
func ahead(r *speech.Reading) bool {
	if r.Says("just|right now") || r.Says("ago") || r.Says("yesterday") || r.Says("just =glued|clamped|cramped") {
		return false
	}
	was := r.Says("=glued|=clamped|=cramped|was|were|went|been|since")
	switch {
	case r.Says("will|shall be =glued|=clamped"), r.Says("to be =glued|=clamped"):
		return true
	case was:
		return r.Says("=glued|=clamped tomorrow")
	case r.Says("tomorrow"), r.Says("will|shall|we'll|i'll|we're|i'm|going|gonna|about .. glue|glueing|gluing|clamp|laminate"), r.Says("in|within # $"), r.Says("in|within #duration"), r.Says("in|within an? half? an? hour|minute"):
		return true
	}
	return !r.Says("last|past|in|into the? clamps|cramps|press|sunday|monday|tuesday|wednesday|thursday|friday|saturday") && slices.ContainsFunc(r.Items, func(it speech.Item) bool {
		_, every, day := speech.Weekday(it.Text)
		return day && !every
	})
}

// later puts a time of day into the afternoon.
func later(text string) hours.Clock {
	var c hours.Clock
	if c.UnmarshalText([]byte(text)) != nil {
		return 0
	}
	return c%(hours.Midnight/2) + hours.Midnight/2
}

// clocksDiffer is by how much the clock in the workshop may be ahead of ours: what it shows then
// is now.
const clocksDiffer = 10 * time.Minute

// glueStart gives the moment at which a glue-up began. One that is later than now, or on a day
// without a time, is asked about.
func (a *Ask) glueStart() (start time.Time, problem Answer, ok bool) {
	if a.Word("heard") == "again" || a.again {
		if t, found, err := book.One[book.Timer](a.Tx, a.Project.ID, book.WhatTimer, a.gluedName()); err == nil && found {
			return t.Is.Start, problem, true
		}
	}
	if ago, said := a.Float("ago_min"); said {
		return a.Said.Add(-time.Duration(ago * float64(time.Minute))), problem, true
	}
	word := a.Word("clock")
	switch {
	case a.Word("day") == toCome:
		return start, a.stillToCome(), false
	case word == "now":
		return a.Said, problem, true
	case word == "" && a.Word("day") != "" && a.Word("day") != "0":
		return start, ask("At what time was that?"), false
	case word == "":
		return a.Said, problem, true
	}
	text, exact := strings.CutPrefix(word, "=")
	var c hours.Clock
	if c.UnmarshalText([]byte(text)) != nil {
		return start, ask("At what time was that?"), false
	}
	if a.Word("day") != "" {
		return a.startOn(a.Word("day"), c, exact)
	}
	return a.startToday(c, exact)
}

// startOn gives the moment on a day that was named. A time of day without its half is taken as
// one at which people are up: from seven till half past six.
func (a *Ask) startOn(day string, c hours.Clock, exact bool) (start time.Time, problem Answer, ok bool) {
	if !exact && c < 7*60 {
		c += hours.Midnight / 2
	}
	back := 0
	if n, err := strconv.Atoi(day); err == nil {
		back = -n
	} else if d, ok := weekdayNamed(day); ok {
		back = (int(a.Now.Weekday()) - int(d) + 7) % 7
	}
	start = c.On(a.Now.AddDate(0, 0, -back))
	if start.After(a.Now) {
		return start, a.later(start), false
	}
	return start, problem, true
}

// startToday gives the moment for a time of day alone. Where its half of the day was not said it
// is the last time that clocks showed it, unless it comes within minutes: then it is now.
func (a *Ask) startToday(c hours.Clock, exact bool) (start time.Time, problem Answer, ok bool) {
	first := c.On(a.Now)
	if exact || c >= hours.Midnight/2 {
		if first.After(a.Now) {
			return first, a.later(first), false
		}
		return first, problem, true
	}
	for _, half := range []hours.Clock{c, c + hours.Midnight/2} {
		if ahead := half.On(a.Now).Sub(a.Now); ahead > 0 && ahead <= clocksDiffer {
			return a.Now, problem, true
		}
	}
	for _, t := range []time.Time{(c + hours.Midnight/2).On(a.Now), first, (c + hours.Midnight/2).On(a.Now.AddDate(0, 0, -1))} {
		if !t.After(a.Now) {
			return t, problem, true
		}
	}
	return first, a.later(first), false
}

// later asks about a start that is still to come.
func (a *Ask) later(t time.Time) Answer {
	return a.whenGlued(fmt.Sprintf("%s is later than now (%s). When was it glued?", a.clockText(t), a.Now.Format("15:04")))
}

// stillToCome asks about a glue-up that is told before it is made.
func (a *Ask) stillToCome() Answer {
	return a.whenGlued("That is still to come, and a timer starts when the glue is on. Is it glued now?")
}

func (a *Ask) whenGlued(question string) Answer {
	r := a.Request
	r.Slots = map[string]speech.Slot{}
	for name, s := range a.Request.Slots {
		r.Slots[name] = s
	}
	delete(r.Slots, "day")
	r.Slots["clock"] = speech.Slot{Word: "now"}
	ans := ask(question + " “Now”, or say the time.")
	ans.open = &speech.Question{Text: ans.Question, Need: "ago_min", Options: []speech.Option{{Label: "now", Words: []string{"just now", "right now"}, Request: r}}}
	return ans
}
