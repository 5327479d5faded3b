package room

import (
	"time"

	"fettle/commands/book"
	"fettle/store"
)

// clock is a glue-up and what comes next of it.
type clock struct {
	What  string
	Who   string
	Start time.Time
	Next  string    // what may or must be done then, "" if nothing is left to wait for
	Ends  time.Time // when
	At    string    // when, in words
	moments
}

// moments are all times of a glue-up, in words.
type moments struct{ Close, Off, Work, Cured string }

// clocks lists the glue-ups that something is left to wait for, or that were taken up today.
func (r *Room) clocks(tx *store.Tx, project int64) (all []clock, err error) {
	timers, err := book.Timers(tx, project)
	now := r.cfg.Now()
	for _, t := range timers {
		if t.Is.Stopped || t.Is.Cured.Before(now) {
			continue
		}
		all = append(all, r.clock(t.Name, t.Is, now))
	}
	return all, err
}

// clocksIn lists the glue-ups of what is talked about in a room.
func (r *Room) clocksIn(tx *store.Tx, home store.Project) ([]clock, error) {
	in, err := current(tx, home)
	if err != nil {
		return nil, err
	}
	return r.clocks(tx, in.ID)
}

// soonest is how long it takes until the first of the clocks has run down, 0 if none runs.
func soonest(all []clock, now time.Time) (first time.Duration) {
	for _, c := range all {
		if left := c.Ends.Sub(now); c.Next != "" && (first == 0 || left < first) {
			first = left
		}
	}
	return first
}

func (r *Room) clock(name string, t book.Timer, now time.Time) clock {
	c := clock{What: t.What, Who: t.Who, Start: t.Start}
	if c.What == "" {
		c.What = name
	}
	c.moments = moments{Close: r.when(t.OpenUntil, now), Off: r.when(t.ClampsOff, now), Work: r.when(t.Workable, now), Cured: r.when(t.Cured, now)}
	for _, m := range []struct {
		name string
		at   time.Time
	}{{"closed up by", t.OpenUntil}, {"clamps off", t.ClampsOff}, {"plane or sand", t.Workable}} {
		if m.at.After(now) {
			c.Next, c.Ends, c.At = m.name, m.at, r.when(m.at, now)
			break
		}
	}
	return c
}

// when words a time: the time of day, and the day where it is another.
func (r *Room) when(at, now time.Time) string {
	if at.IsZero() {
		return ""
	}
	at, now = at.In(r.cfg.Zone), now.In(r.cfg.Zone)
	if at.YearDay() == now.YearDay() && at.Year() == now.Year() {
		return at.Format("15:04")
	}
	return at.Format("Mon 2 Jan 15:04")
}
