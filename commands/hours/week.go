package hours

import (
	"slices"
	"time"
)

// Week is when the workshop is open: the same every week, but for the days that are listed.
type Week struct {
	Days  [7][]Span         // by time.Weekday, each in order
	Dates map[string][]Span // exceptions by DateName; an empty list: closed
}

// DateName names a day of the calendar, as in Week.Dates: 2006-01-02.
func DateName(day time.Time) string { return day.Format(time.DateOnly) }

// Empty says that no opening time is known at all.
func (w Week) Empty() bool {
	for _, d := range w.Days {
		if len(d) > 0 {
			return false
		}
	}
	for _, d := range w.Dates {
		if len(d) > 0 {
			return false
		}
	}
	return true
}

// Spans gives what holds on a day.
func (w Week) Spans(day time.Time) []Span {
	if s, ok := w.Dates[DateName(day)]; ok {
		return s
	}
	return w.Days[day.Weekday()]
}

// Window is one opening of the workshop. A zero To was not said.
type Window struct{ From, To time.Time }

// Holds says whether a moment lies within the window; one without an end lasts to the end of its day.
func (w Window) Holds(t time.Time) bool { return !t.Before(w.From) && t.Before(w.end()) }

func (w Window) end() time.Time {
	if w.To.IsZero() {
		return Midnight.On(w.From)
	}
	return w.To
}

// Left is how long the window lasts from a moment on; 0 once it is over, and ok false where its
// end was not said.
func (w Window) Left(t time.Time) (left time.Duration, ok bool) {
	if w.To.IsZero() {
		return 0, false
	}
	if t.Before(w.From) {
		t = w.From
	}
	return max(0, w.To.Sub(t)), true
}

// Latest is the last moment, not before a given one, at which something that takes so long can
// begin and be over within the window. ok is false where there is none, or no end was said.
func (w Window) Latest(takes time.Duration, notBefore time.Time) (at time.Time, ok bool) {
	if w.To.IsZero() {
		return time.Time{}, false
	}
	at = w.To.Add(-takes)
	return at, !at.Before(w.From) && !at.Before(notBefore)
}

// On lists a day's openings in order, on the calendar and in the zone of day.
func (w Week) On(day time.Time) []Window {
	var out []Window
	for _, s := range w.Spans(day) {
		win := Window{From: s.From.On(day)}
		if s.To != 0 {
			win.To = s.To.On(day)
		}
		if win.From.Before(win.end()) {
			out = append(out, win)
		}
	}
	slices.SortFunc(out, func(a, b Window) int { return a.From.Compare(b.From) })
	return out
}

// furthest is how many days ahead an opening is looked for: a year of exceptions.
const furthest = 400

// Next gives the opening that holds at a moment, else the first one after it, and whether there
// is one within 400 days.
func (w Week) Next(now time.Time) (Window, bool) {
	for d := range furthest {
		day := time.Date(now.Year(), now.Month(), now.Day()+d, 12, 0, 0, 0, now.Location())
		for _, win := range w.On(day) {
			if win.end().After(now) {
				return win, true
			}
		}
	}
	return Window{}, false
}

// After gives the first opening that begins after a moment, and whether there is one.
func (w Week) After(now time.Time) (Window, bool) {
	for {
		win, ok := w.Next(now)
		if !ok || win.From.After(now) {
			return win, ok
		}
		now = win.end()
	}
}
