package commands

import (
	"errors"
	"fmt"
	"math"
	"strings"
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

// lastGlue stands in a request for the glue of the glue-up before.
const lastGlue = "same glue"

// gluedThing finds what was glued: the words that are neither glue nor time nor the saying of it.
func gluedThing(r *speech.Reading) string {
	from, to := -1, -1
	for i := 0; i <= len(r.Items); i++ {
		if i < len(r.Items) && ofName(r, i) {
			if from < 0 {
				from = i
			}
			to = i + 1
			continue
		}
		if from >= 0 && !(i < len(r.Items) && inName(r, i, from)) {
			break
		}
	}
	if from < 0 {
		return ""
	}
	for i := from; i < to; i++ {
		r.Claim(i)
	}
	name := strings.Trim(r.Text[r.Items[from].Start:r.Items[to-1].End], " ,.:;!-")
	return strings.TrimSuffix(strings.TrimSuffix(name, "'s"), "’s")
}

// ofName says whether an item can be part of what a thing is called.
func ofName(r *speech.Reading, i int) bool {
	it := r.Items[i]
	if q := it.Q; q != nil {
		return i > 0 && r.Items[i-1].Q == nil && (q.Kind == speech.KindLabel || q.Bare() && q.Integer && q.High == nil && !notNaming(r.Items[i-1].Text))
	}
	if _, n := glueWords.At(r.Sentence, i); n > 0 || len(it.Text) == 0 || !wordy(it.Text) {
		return false
	}
	for back := 1; back <= 3 && i >= back; back++ { // the second word of "hide glue"
		if _, n := glueWords.At(r.Sentence, i-back); n > back {
			return false
		}
	}
	_, _, day := speech.Weekday(it.Text)
	return !day && !notNaming(it.Text)
}

// inName says whether an item that names nothing may stand within a name: the top half of the
// door, bow no 3.
func inName(r *speech.Reading, i, from int) bool {
	switch r.Items[i].Text {
	case "of", "no", "the", "and", "&", "#", "-", "number", "nr":
		return i+1 < len(r.Items) && (ofName(r, i+1) || r.Items[i+1].Text == "the" || r.Items[i+1].Text == "." && i+2 < len(r.Items))
	}
	return false
}

func wordy(w string) bool {
	return strings.ContainsFunc(w, func(c rune) bool { return c >= 'a' && c <= 'z' || c > 127 })
}

// sayings are the words with which a glue-up is told, and those that say when and how.
var sayings = strings.Fields(`a an the this that these those i we i've we've we're i'm he she they you it its it's have has had having got get been be is are was were am just now then today yesterday
	tonight morning evening afternoon night last ago since at in into on up under with using by from for of to and also too so ok okay right again please pls hi hello hey no not sorry actually oops
	glue glued gluing glueup glue-up clamped clamp clamps cramps cramp clamping pressed press pressing went gone go goes put spread closed start started starting timer timers set run clock
	here inside indoors workshop shed shop hut about around roughly some degrees degree temperature temp humidity rh same stuff mix batch all done already only one minute minutes hour hours quarter half past
	wait make meant mean it'll needs old back finally both both's petra gil me my our their new noon midnight shut`)

func notNaming(w string) bool {
	for _, s := range sayings {
		if w == s {
			return true
		}
	}
	return false
}

// keepStart asks for the glue, and keeps the start of a glue-up that is only corrected.
func keepStart(r *speech.Reading) {
	if r.Request.Has("heard") && !r.Replying && !r.Said("ago_min") && !saysStart(r.Sentence) {
		r.Word("heard", "again")
	} else {
		r.Word("heard", "once")
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
		if !there {
			return name, "", nil
		}
		if inClamps(old, a.Now) {
			return name, fmt.Sprintf("This replaces its timer from %s; “undo” puts that back.", a.clockText(old.Start)), nil
		}
		name = fmt.Sprintf("%s (%d)", t.What, n)
	}
}

// glueThere gives the glue and the climate of a glue-up: those said, else those of the glue-up
// before where that was meant, else the project's.
func (a *Ask) glueThere() (g glue.Glue, temp, humidity float64, assumed string, problem Answer, ok bool) {
	humidity = math.NaN()
	if h, said := a.Float("humidity_pct"); said {
		humidity = h
	}
	last, known := a.lastTimer()
	word := a.Word("adhesive")
	switch {
	case word == lastGlue && !known:
		return g, 0, 0, "", askFor("adhesive", "I know of no glue-up before. Which glue?"), false
	case word == lastGlue:
		word = last.Adhesive
	}
	g, ok = a.glueNamedHere(word)
	if !ok {
		return g, 0, 0, "", a.whichGlue(last, known), false
	}
	if _, said := a.Float("temperature_c"); !said && a.Word("adhesive") == lastGlue {
		return g, last.Temperature, humidity, "Temperature as at the glue-up before. ", problem, true
	}
	temp, assumed = a.temperature(g)
	return g, temp, humidity, assumed, problem, true
}

// glueNamedHere finds a glue by its word, by the project's data sheet where that is for it.
func (a *Ask) glueNamedHere(word string) (glue.Glue, bool) {
	own, set := a.Settings.ownGlue()
	if set && (word == "" || word == ourGlue || word == a.Settings.set["glue"]["adhesive"].Word || word == own.ID) {
		return own, true
	}
	return glueNamed(word)
}

// whichGlue asks for the glue; the one that was used last is offered.
func (a *Ask) whichGlue(last book.Timer, known bool) Answer {
	ans := askFor("adhesive", "Which glue, and how warm is it? Without the glue I can't say a time.")
	if g, ok := glueNamed(last.Adhesive); ok && known {
		r := a.Request
		r.Slots = map[string]speech.Slot{}
		for name, s := range a.Request.Slots {
			r.Slots[name] = s
		}
		r.Slots["adhesive"] = speech.Slot{Word: lastGlue}
		ans.Question = fmt.Sprintf("Which glue? %s as for %s?", capital(g.Name), last.What)
		ans.echo = true
		ans.open = &speech.Question{Text: ans.Question, Need: "adhesive", Options: []speech.Option{{Label: "the same", Words: []string{"same", "same glue", "yes", "same again", last.Adhesive}, Request: r}}}
	}
	return ans
}

// lastTimer is the glue-up that was written down last.
func (a *Ask) lastTimer() (book.Timer, bool) {
	timers, err := a.timers()
	if err != nil || len(timers) == 0 {
		return book.Timer{}, false
	}
	return timers[len(timers)-1].Is, true
}

// timesOf works out the times, or says why there are none.
func (a *Ask) timesOf(g glue.Glue, temp, humidity float64) (t glue.Times, problem Answer, ok bool) {
	t, err := g.At(temp, humidity)
	var cold *glue.TooColdError
	var hot *glue.TooHotError
	switch {
	case err == nil:
		return t, problem, true
	case errors.As(err, &cold):
		return t, ask(fmt.Sprintf("%s does not bond at %s °C: %s. No time makes up for it, so I start no timer. Is it warmer there? Else take it apart while it is wet.",
			capital(g.Name), measure.Decimal(temp, 1), cold.Reason)), false
	case errors.As(err, &hot):
		return t, ask(fmt.Sprintf("%s sets before the parts are together at %s °C (highest %s °C), so I start no timer. What is the temperature really?",
			capital(g.Name), measure.Decimal(temp, 1), measure.Decimal(hot.MaxC, 1))), false
	}
	return t, ask(err.Error()), false
}

// glueNow gives a glue by its word with its times as they are in the workshop.
func (a *Ask) glueNow(word string) (g glue.Glue, t glue.Times, assumed string, problem Answer, ok bool) {
	g, ok = a.glueNamedHere(word)
	if !ok {
		return g, t, "", askFor("adhesive", "Which glue?"), false
	}
	temp, assumed := a.temperature(g)
	t, problem, ok = a.timesOf(g, temp, math.NaN())
	return g, t, assumed, problem, ok
}
