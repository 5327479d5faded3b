package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/hours"
	"fettle/commands/speech"
)

// onceText names what holds on single days of the calendar, where nothing else was said.
func (a *Ask) onceText(days []daySaid, w hours.Week) string {
	var parts []string
	for _, d := range days {
		if !d.once {
			return ""
		}
		_, date := d.named(a.Now)
		text := "closed"
		if spans := w.Spans(date); len(spans) > 0 {
			text = "open " + spansText(spans)
		}
		parts = append(parts, date.Format("Mon 2 Jan")+" "+text)
	}
	return strings.Join(parts, ", ")
}

// weekOrder lists the days as people do, the week beginning on Monday.
var weekOrder = []time.Weekday{time.Monday, time.Tuesday, time.Wednesday, time.Thursday, time.Friday, time.Saturday, time.Sunday}

// weekText names the opening times of every week, days with the same ones together.
func weekText(w hours.Week) string {
	var parts []string
	var order []string
	days := map[string][]int{}
	for i, d := range weekOrder {
		if len(w.Days[d]) == 0 {
			continue
		}
		text := spansText(w.Days[d])
		if days[text] == nil {
			order = append(order, text)
		}
		days[text] = append(days[text], i)
	}
	for _, text := range order {
		parts = append(parts, runsText(days[text])+" "+text)
	}
	if len(parts) == 0 {
		return "on no day of the week"
	}
	return strings.Join(parts, ", ")
}

// runsText names days of the week, three and more in a row as from when till when.
func runsText(days []int) string {
	var parts []string
	short := func(i int) string { return weekOrder[i].String()[:3] }
	for i := 0; i < len(days); {
		j := i
		for j+1 < len(days) && days[j+1] == days[j]+1 {
			j++
		}
		if j < i+2 {
			j = i
			parts = append(parts, short(days[i]))
		} else {
			parts = append(parts, short(days[i])+"–"+short(days[j]))
		}
		i = j + 1
	}
	return strings.Join(parts, " ")
}

func spansText(spans []hours.Span) string {
	parts := make([]string, len(spans))
	for i, s := range spans {
		parts[i] = s.String()
	}
	return strings.Join(parts, " and ")
}

func unsaid(w hours.Week) bool {
	all := slices.Concat(w.Days[:]...)
	for _, d := range w.Dates {
		all = append(all, d...)
	}
	return slices.ContainsFunc(all, func(s hours.Span) bool { return s.To == 0 })
}

// exceptions lists the days that differ from the week, from today on.
func exceptions(ans *Answer, w hours.Week, now time.Time) {
	names := make([]string, 0, len(w.Dates))
	for name := range w.Dates {
		if name >= hours.DateName(now) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	for _, name := range names {
		day, err := time.ParseInLocation(time.DateOnly, name, now.Location())
		if err != nil {
			continue
		}
		text := "closed"
		if len(w.Dates[name]) > 0 {
			text = spansText(w.Dates[name])
		}
		ans.line(fmt.Sprintf("- Only %s: %s", day.Format("Mon 2 Jan"), text))
	}
}

// showHours answers when it is open next, or on which days.
func (a *Ask) showHours(s speech.Sentence, w hours.Week) Answer {
	if w.Empty() {
		return a.noHours()
	}
	if len(readHours(s).days) == 0 && s.Says("what|which|whats|what's|show|list|our|opening|^ days|hours|times") && !s.Says("next|today|tonight|tomorrow") && s.Says("days|hours|times|week") || s.Says("^ hours|times $") {
		ans := say(shorten("Open "+weekText(w), MaxHeadline))
		exceptions(&ans, w, a.Now)
		return ans
	}
	from, said := a.dayAsked(s)
	win, ok := w.Next(from)
	if said && (!ok || hours.DateName(win.From) != hours.DateName(from)) {
		ans := say("Closed on " + from.Format("Mon 2 Jan"))
		if ok {
			ans.line("Open next: " + a.windowText(win))
			ans.Times["opens"] = win.From
		}
		return ans
	}
	if !ok {
		return say("No opening is known from now on")
	}
	head := "Open next: " + a.windowText(win)
	if win.Holds(a.Now) {
		head = "Open now: " + a.windowText(win)
	}
	ans := say(head)
	ans.Times["opens"] = win.From
	if !win.To.IsZero() {
		ans.Times["closes"] = win.To
	}
	if after, more := w.After(win.From); more {
		ans.line("Then: " + a.windowText(after))
	}
	return ans
}

func (a *Ask) noHours() Answer {
	return say("No opening times are known yet", "Say for instance “tuesdays and thursdays six till nine, sundays nine to four”.")
}

// windowText names an opening with its day.
func (a *Ask) windowText(w hours.Window) string {
	day := w.From.Format("Mon 2 Jan")
	switch hours.DateName(w.From) {
	case hours.DateName(a.Now):
		day = "today"
	case hours.DateName(a.Now.AddDate(0, 0, 1)):
		day = "tomorrow"
	}
	if w.To.IsZero() {
		return fmt.Sprintf("%s from %s", day, w.From.Format("15:04"))
	}
	to := w.To.Format("15:04")
	if hours.DateName(w.To) != hours.DateName(w.From) {
		to = hours.Midnight.String()
	}
	return fmt.Sprintf("%s %s–%s", day, w.From.Format("15:04"), to)
}

// dayAsked is the moment from which a question looks: now, or the start of the day it names.
func (a *Ask) dayAsked(s speech.Sentence) (from time.Time, said bool) {
	days := readHours(s).days
	if len(days) == 0 {
		return a.Now, s.Says("today|tonight")
	}
	_, date := days[0].named(a.Now)
	if start := hours.Clock(0).On(date); start.After(a.Now) {
		return start, true
	}
	return a.Now, true
}

// windowAsked gives the opening that a question is about: the day it names, between the times
// it names, else the next one.
func (a *Ask) windowAsked(s speech.Sentence, w hours.Week) (win hours.Window, problem Answer, ok bool) {
	from, said := a.dayAsked(s)
	for _, d := range readHours(s).days {
		if _, date := d.named(a.Now); len(d.spans) > 0 && d.spans[0].Sound() && d.spans[0].To != 0 {
			return hours.Window{From: d.spans[0].From.On(date), To: d.spans[0].To.On(date)}, Answer{}, true
		}
	}
	if w.Empty() {
		return win, a.noHours(), false
	}
	win, found := w.Next(from)
	switch {
	case !found:
		return win, say("No opening is known from then on"), false
	case said && hours.DateName(win.From) != hours.DateName(from):
		ans := say("Closed on "+from.Format("Mon 2 Jan"), "Open next: "+a.windowText(win))
		ans.Times["opens"] = win.From
		return win, ans, false
	case win.To.IsZero():
		return win, ask(fmt.Sprintf("Until when are you in %s? Say for instance “%ss %s till 21:00”.", win.From.Format("on Mon 2 Jan"), dayName(win.From.Weekday()), win.From.Format("15:04"))), false
	}
	return win, Answer{}, true
}
