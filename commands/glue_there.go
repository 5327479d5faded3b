package commands

import (
	"errors"
	"fmt"
	"math"

	"fettle/calc/glue"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// lastGlue stands in a request for the glue of the glue-up before.
const lastGlue = "same glue"

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
