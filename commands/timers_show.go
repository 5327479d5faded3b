package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/commands/hours"
)

// momentText says what may be done from a moment on.
var momentText = map[string]string{
	book.OpenUntil: "close it up by", book.ClampsOff: "clamps off", book.Workable: "sand or plane it from", book.Cured: "full strength",
}

// showTimers answers what is in the clamps and when what may be done with it.
func (a *Ask) showTimers(found []book.Named[book.Timer]) Answer {
	moment := a.Word("moment")
	if len(found) == 0 {
		if moment == book.Workable || moment == book.Cured {
			return say("Nothing is waiting for glue: no timer is running")
		}
		return say("Nothing is in the clamps")
	}
	slices.SortStableFunc(found, func(x, y book.Named[book.Timer]) int { return x.Is.ClampsOff.Compare(y.Is.ClampsOff) })
	if len(found) == 1 {
		return a.showTimer(found[0], moment)
	}
	heads := make([]string, len(found))
	ans := say("")
	ans.echo = true
	for i, t := range found {
		heads[i] = t.Name + ": " + a.state(t.Is, moment)
		ans.line("- " + a.timerLine(t))
		timesInto(&ans, t.Name+" ", t.Is)
	}
	ans.Answer = shorten(capital(strings.Join(heads, "; ")), MaxHeadline)
	ans.because("By the times that each glue-up was started with; “why” after a glue-up shows where they come from.")
	return ans
}

func (a *Ask) showTimer(t book.Named[book.Timer], moment string) Answer {
	ans := say(shorten(capital(t.Name)+": "+a.state(t.Is, moment), MaxHeadline))
	ans.echo = true
	ans.line(a.timerLine(t))
	timesInto(&ans, "", t.Is)
	ans.because("By the times that the glue-up was started with; “why” after it shows where they come from.")
	return ans
}

// state says how far a glue-up is: to the moment asked for, else to the next one.
func (a *Ask) state(t book.Timer, moment string) string {
	if moment == "" {
		moment = next(t, a.Now)
	}
	if moment == book.ClampsOff && !t.TakenOff.IsZero() {
		return "out of the clamps since " + a.clockText(t.TakenOff)
	}
	at := t.At(moment)
	if !at.After(a.Now) {
		return fmt.Sprintf("%s since %s", map[string]string{book.OpenUntil: "open time over", book.ClampsOff: "clamps can come off", book.Workable: "may be sanded or planed", book.Cured: "cured"}[moment], a.clockText(at))
	}
	return fmt.Sprintf("%s %s (%s to go)", momentText[moment], a.clockText(at), durationText(at.Sub(a.Now)+time.Minute-1))
}

// next is the first moment that is to come; the clamps stay the matter until somebody says that
// they are off.
func next(t book.Timer, now time.Time) string {
	for _, m := range book.Moments() {
		if m == book.OpenUntil || m == book.ClampsOff && !t.TakenOff.IsZero() {
			continue
		}
		if m == book.ClampsOff || t.At(m).After(now) {
			return m
		}
	}
	return book.Cured
}

func (a *Ask) timerLine(t book.Named[book.Timer]) string {
	off := "clamps off " + a.clockText(t.Is.ClampsOff)
	if !t.Is.TakenOff.IsZero() {
		off = "clamps off since " + a.clockText(t.Is.TakenOff)
	}
	return fmt.Sprintf("%s (%s, %s, from %s): %s, sand or plane it from %s, full strength %s", t.Name, t.Is.Adhesive, t.Is.Who,
		a.clockText(t.Is.Start), off, a.clockText(t.Is.Workable), a.clockText(t.Is.Cured))
}

// clockAhead gives the next moment at which clocks show a time of day.
func (a *Ask) clockAhead(word string) (time.Time, bool) {
	text, exact := strings.CutPrefix(word, "=")
	var c hours.Clock
	if c.UnmarshalText([]byte(text)) != nil {
		return time.Time{}, false
	}
	for day := range 2 {
		for _, t := range []hours.Clock{c, c + hours.Midnight/2} {
			at := t.On(a.Now.AddDate(0, 0, day))
			if at.After(a.Now) && (t == c || !exact && t < hours.Midnight) {
				return at, true
			}
		}
	}
	return time.Time{}, false
}
