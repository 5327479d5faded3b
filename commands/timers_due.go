package commands

import (
	"encoding/json"
	"fmt"
	"maps"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/store"
)

// beforeOpenEnds is how long before the end of the open time it is called out; a third of a
// short open time. Common practice, no source.
const beforeOpenEnds = 5 * time.Minute

// callAt is when a moment of a glue-up is called out.
func callAt(t book.Timer, moment string) time.Time {
	at := t.At(moment)
	if moment == book.OpenUntil {
		return at.Add(-min(beforeOpenEnds, at.Sub(t.Start)/3))
	}
	return at
}

// Call is what is due to be called out about one glue-up.
type Call struct {
	Project int64
	Place   string
	Answer  Answer

	name   string
	called book.Called
}

// late is from when on a call says that it comes late.
const late = 5 * time.Minute

// Due lists what is to be called out now, of all projects, worded in the zone of now. What was
// called out before is not listed, nor what belongs to a glue-up that was stopped. A timer that
// can't be read is left out and given as an error beside the others.
func Due(tx *store.Tx, now time.Time) (calls []Call, broken []error, err error) {
	timers, err := tx.ThingsEverywhere(book.WhatTimer)
	if err != nil {
		return nil, nil, fmt.Errorf("look for what is due: %w", err)
	}
	before, err := calledBefore(tx)
	if err != nil {
		return nil, nil, err
	}
	for _, o := range timers {
		var t book.Timer
		if err := json.Unmarshal(o.Data, &t); err != nil {
			broken = append(broken, fmt.Errorf("read timer %q: %w", o.Name, err))
			continue
		}
		if t.Stopped || t.Place == "" {
			continue
		}
		if c, any := due(before[keyOf(o)], o, t, now); any {
			calls = append(calls, c)
		}
	}
	return calls, broken, nil
}

// timerKey tells the glue-ups of all projects apart.
type timerKey struct {
	project int64
	name    string
}

func keyOf(o store.Owned) timerKey { return timerKey{o.Project, store.Fold(o.Name)} }

// calledBefore reads what was called out of all glue-ups.
func calledBefore(tx *store.Tx) (map[timerKey]book.Called, error) {
	all, err := tx.ThingsEverywhere(book.WhatCalled)
	if err != nil {
		return nil, fmt.Errorf("look for what was called out: %w", err)
	}
	out := make(map[timerKey]book.Called, len(all))
	for _, o := range all {
		var c book.Called
		if err := json.Unmarshal(o.Data, &c); err != nil {
			return nil, fmt.Errorf("read what was called out of %q: %w", o.Name, err)
		}
		out[keyOf(o)] = c
	}
	return out, nil
}

func due(before book.Called, o store.Owned, t book.Timer, now time.Time) (Call, bool) {
	called := book.Called{}
	maps.Copy(called, before)
	var moments []string
	for _, m := range book.Moments() {
		if t.Called[m] || callAt(t, m).After(now) || called[m].Equal(t.At(m)) || m == book.ClampsOff && !t.TakenOff.IsZero() {
			continue
		}
		moments = append(moments, m)
		called[m] = t.At(m)
	}
	if len(moments) == 0 {
		return Call{}, false
	}
	a := &Ask{Now: now}
	return Call{Project: o.Project, Place: t.Place, Answer: a.callOut(o.Name, t, moments), name: o.Name, called: called}, true
}

// callOut words a call: the last of the moments that are due, and those that went by before it
// without a call.
func (a *Ask) callOut(name string, t book.Timer, moments []string) Answer {
	last := moments[len(moments)-1]
	ans := say(shorten(fmt.Sprintf("%s: %s", t.Who, a.callText(name, t, last)), MaxHeadline))
	ans.echo = true
	if overdue := a.Now.Sub(callAt(t, last)); overdue > late {
		ans.line(fmt.Sprintf("Late: this was due %s, I was not running.", a.clockText(callAt(t, last))))
	}
	for _, m := range moments[:len(moments)-1] {
		ans.line(fmt.Sprintf("Late as well: %s, due %s.", a.callText(name, t, m), a.clockText(callAt(t, m))))
	}
	if last == book.ClampsOff {
		ans.line(fmt.Sprintf("Sand or plane it from %s.", a.clockText(t.Workable)))
		ans.Signs = map[string]string{SignCheck: "took " + name + " out of the clamps"}
	}
	timesInto(&ans, "", t)
	return finish(ans, "timers", nil, nil)
}

func (a *Ask) callText(name string, t book.Timer, moment string) string {
	switch moment {
	case book.OpenUntil:
		if a.Now.Before(t.OpenUntil) {
			return fmt.Sprintf("%s must be closed up by %s", name, a.clockText(t.OpenUntil))
		}
		return fmt.Sprintf("the open time of %s ended %s", name, a.clockText(t.OpenUntil))
	case book.ClampsOff:
		return "clamps can come off " + name
	case book.Workable:
		return name + " may be sanded or planed"
	}
	return strings.TrimSpace(name + " has its full strength")
}

// Note puts on record that it was called out, on behalf of the entry that does so.
func (c Call) Note(tx *store.Tx, entry int64) error {
	if _, err := tx.Put(entry, c.Project, book.WhatCalled, c.name, c.called); err != nil {
		return fmt.Errorf("note what was called out: %w", err)
	}
	return nil
}
