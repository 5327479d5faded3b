package commands

import (
	"fmt"
	"time"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

func glueUp() *Topic {
	needs := glueNeeds("")
	return &Topic{
		Title:    "start the timers of a glue-up: open time, clamps off, workable, cured",
		Examples: []string{"bow 1 was just glued with epoxy, 18 degrees in here", "stiles went in the clamps twenty minutes ago, pva, 16 degrees", "glued the rack sides with polyurethane since quarter to three"},
		Form: speech.Form{
			Name: "glue-up", Writes: true,
			Cues: []speech.Cue{
				{Weight: 6, Pattern: "^ glued|just|have|i've|we've|i|we =glued|just|up"},
				{Weight: 5, Pattern: "just|is|are|was|were|been|got|i've|we've|i|we now|all|both|just|also|have? =glued"},
				{Weight: 6, Pattern: "^ =glued"},
				{Weight: 4, Pattern: "=glued .. ago|now|too|also|since|with"},
				{Weight: 4, Pattern: "=glued ,|.|:|-"},
				{Weight: 3, Pattern: "=glued .. #temperature"},
				{Weight: 5, Pattern: "=glued together|up? with"},
				{Weight: 4, Pattern: "in|into|under the? clamps|cramps|press .. since|ago|now|epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|glue"},
				{Weight: 5, Pattern: "=glued at|@|since #"},
				{Weight: 6, Pattern: "went|are|is|put|been|was|were|now|go|goes|got in|into|under the? clamps|cramps|press|cauls|vice"},
				{Weight: 6, Pattern: "clamped|cramped up? .. at|since|ago|now #?"},
				{Weight: 5, Pattern: "went|gone|put in .. ago|now|at|since"},
				{Weight: 5, Pattern: "same|that|this glue"},
				{Weight: 4, Pattern: "epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|glue on the|our|my|both|all|bow"},
				{Weight: 3, Pattern: "epoxy|pva|polyurethane|pu|pur|resorcinol|uf|urea|d3|d4|hide|glue .. #clock"},
				{Weight: 3, Pattern: "clamped|cramped|spread .. #duration ago"},
				{Weight: 3, Pattern: "clamped|cramped|spread|glued|gluing .. #clock"},
				{Weight: 3, Pattern: "start|set|run a|the? timer|timers|clock"},
				{Weight: -9, Pattern: "^ what|when|how|which|who|is|are|can|did|do|does|has|have|anything|should|may|could|will"},
				{Weight: -9, Pattern: "how long|much|many"},
				{Weight: -6, Pattern: "stop|cancel|another|extend|longer|more|off|out"},
				{Weight: -6, Pattern: "going to|will be|to be|must|should|need|needs|tomorrow|plan|want|wants glue|glued?"},
				{Weight: -9, Pattern: "?"},
				{Weight: -9, Pattern: "#area"},
				{Weight: -9, Pattern: "note|remember|remind|our|my glue|: :?"},
			},
			Needs: append(needs,
				speech.Need{Name: "name", Kind: speech.KindWord, Label: "what", Own: true},
				speech.Need{Name: "ago_min", Kind: measure.KindDuration, Label: "begun", Max: 7 * 24 * 60, Roles: []string{"# ago", "for # now|already", "since # now? $", "for # $", "# old|back"}},
			),
			Before: readGlueUp,
			After:  keepStart,
		},
		Answer: answerGlueUp,
	}
}

// readGlueUp reads what was glued and when.
func readGlueUp(r *speech.Reading) {
	readWarmth(r)
	if r.Says("same|that|this again? glue|epoxy|pva|stuff|adhesive|mix") || r.Says("glue|conditions|temperature as before|last|usual") {
		if _, named := r.Named(glueWords); !named {
			r.Word("adhesive", lastGlue)
		}
	} else if r.Says("our|usual glue") {
		r.Word("adhesive", ourGlue)
	}
	readStart(r)
	if name := gluedThing(r); name != "" {
		r.Word("name", name)
	}
}

// readWarmth takes the one number that has degrees for the temperature, and leaves out what is written
// as a score: 2-1. Any other number is then no temperature.
func readWarmth(r *speech.Reading) {
	warm, several := -1, false
	for i, it := range r.Items {
		switch {
		case it.Q == nil:
		case it.Q.High != nil && it.Q.Value != nil && it.Q.Bare() && it.Q.High.Cmp(it.Q.Value) < 0:
			r.Claim(i)
		case it.Q.Kind == measure.KindTemperature || it.Q.Kind == measure.KindAngle:
			several = warm >= 0
			warm = i
		}
	}
	if warm >= 0 && !several && r.Items[warm].Q.High == nil {
		r.Set("temperature_c", warm)
	}
}

// keepStart asks for the glue, and keeps the start of a glue-up that is only corrected.
func keepStart(r *speech.Reading) {
	if r.Request.Has("heard") && !r.Replying && !r.Said("ago_min") && !saysStart(r.Sentence) {
		r.Word("heard", "again")
	} else {
		r.Word("heard", "once")
	}
	if text, none := noTimeOfDay(r.Text); none && r.Question == nil {
		r.Question = &speech.Question{Text: fmt.Sprintf("%s is no time of day. When was it glued?", text), Need: "ago_min"}
	}
	if r.Request.Word("day") == toCome {
		if !r.Replying || ahead(r) {
			r.Drop("ago_min")
			return
		}
		r.Drop("day")
	}
	if r.Said("ago_min") {
		r.Drop("clock")
		r.Drop("day")
	} else if saysStart(r.Sentence) {
		r.Drop("ago_min")
	}
}

func answerGlueUp(a *Ask) Answer {
	g, temp, humidity, assumed, problem, ok := a.glueThere()
	if !ok {
		return problem
	}
	times, problem, ok := a.timesOf(g, temp, humidity)
	if !ok {
		return problem
	}
	start, problem, ok := a.glueStart()
	if !ok {
		return problem
	}
	t := timerOf(times, start)
	t.What, t.Adhesive, t.Temperature, t.Who, t.WhoKey, t.Place = a.gluedName(), g.ID, temp, a.Who, a.WhoKey, a.Place
	name, replaced, err := a.timerName(t)
	if err != nil {
		return ask(store.Sentence(err))
	}
	t.Called = past(t, a.Now)
	ans := say(shorten(fmt.Sprintf("%s: clamps off %s, work it from %s", capital(name), a.clockText(t.ClampsOff), a.clockText(t.Workable)), MaxHeadline))
	ans.echo = true
	ans.Given["at"], ans.Given["adhesive"], ans.Given["temperature_c"] = t.Start.Format(time.RFC3339), g.ID, temp
	timesInto(&ans, "", t)
	ans.Values["open_min"], ans.Values["clamp_min"], ans.Values["work_min"], ans.Values["cure_min"] = times.OpenMin, times.ClampMin, times.WorkMin, times.CureMin
	ans.line(fmt.Sprintf("%s at %s °C, from %s. %s", capital(g.Name), measure.Decimal(temp, 1), a.clockText(t.Start), a.openText(t)))
	ans.line(fmt.Sprintf("Full strength %s. I say so here when each comes; “stop the timer” ends that.", a.clockText(t.Cured)))
	if replaced != "" {
		ans.line(replaced)
	}
	ans.line(glueSource(g, assumed))
	glueReasons(&ans, g, temp, humidity, times)
	for _, c := range g.Cautions {
		ans.caution(c)
	}
	ans.effects = append(ans.effects, put(a.Project.ID, book.WhatTimer, name, t))
	return ans
}

// openText says whether the parts still have to be closed up, or should have been.
func (a *Ask) openText(t book.Timer) string {
	if left := t.OpenUntil.Sub(a.Now); left >= 0 {
		return fmt.Sprintf("Close it up by %s (%s left).", a.clockText(t.OpenUntil), durationText(left))
	}
	return fmt.Sprintf("The open time ended %s: if it was not closed up by then, take it apart, clean and glue again.", a.clockText(t.OpenUntil))
}

// timerOf works out the moments of a glue-up: the time to work in rounded down to the minute,
// waiting times up.
func timerOf(times glue.Times, start time.Time) book.Timer {
	start = start.Truncate(time.Second)
	up := func(min float64) time.Time {
		at := start.Add(minutes(min))
		if r := at.Truncate(time.Minute); r.Before(at) {
			return r.Add(time.Minute)
		}
		return at
	}
	return book.Timer{Start: start, OpenUntil: start.Add(time.Duration(times.OpenMin * float64(time.Minute))).Truncate(time.Minute),
		ClampsOff: up(times.ClampMin), Workable: up(times.WorkMin), Cured: up(times.CureMin)}
}

// past lists the moments that are over already, or so near that the answer itself is the call.
func past(t book.Timer, now time.Time) map[string]bool {
	out := map[string]bool{}
	for _, m := range book.Moments() {
		if !callAt(t, m).After(now) {
			out[m] = true
		}
	}
	return out
}

// timesInto gives the moments of a timer to programs.
func timesInto(ans *Answer, prefix string, t book.Timer) {
	for _, m := range book.Moments() {
		ans.Times[prefix+m] = t.At(m)
	}
}

func (a *Ask) gluedName() string {
	if n := a.Word("name"); n != "" {
		return n
	}
	return "glue-up"
}

// timerName gives the name under which a glue-up is kept. One of the same name that is in the
// clamps is replaced, and that is said; one that has come out stays as it is.
func (a *Ask) timerName(t book.Timer) (name, replaced string, err error) {
	timers, err := a.timers()
	if err != nil {
		return "", "", err
	}
	taken := map[string]book.Timer{}
	for _, o := range timers {
		taken[store.Fold(o.Name)] = o.Is
	}
	name = t.What
	for n := 2; ; n++ {
		old, there := taken[store.Fold(name)]
		if !there || a.again { // asked why, it is the one that was begun
			return name, "", nil
		}
		if a.again && old.Start.Equal(t.Start) {
			return name, "", nil // the very one that is asked about
		}
		if inClamps(old, a.Now) {
			return name, fmt.Sprintf("This replaces its timer from %s; “undo” puts that back.", a.clockText(old.Start)), nil
		}
		name = fmt.Sprintf("%s (%d)", t.What, n)
	}
}
