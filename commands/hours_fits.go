package commands

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"fettle/commands/book"
	"fettle/commands/hours"
	"fettle/commands/speech"
)

// usualGlue is the glue that a question about gluing is about: the one it names, the project's
// own, else the one that was used last. A question that names none and has none to go on is
// answered for every family.
func (a *Ask) usualGlue(s speech.Sentence) (name string, known bool) {
	r := speech.Reading{Sentence: s}
	if w, ok := r.Named(glueWords); ok {
		return w, true
	}
	if _, ok := a.Settings.ownGlue(); ok {
		return ourGlue, true
	}
	timers, err := a.timers()
	if err != nil || len(timers) == 0 {
		return "", false
	}
	last := slices.MaxFunc(timers, func(x, y book.Named[book.Timer]) int { return cmp.Compare(x.Is.Start.Unix(), y.Is.Start.Unix()) })
	return last.Is.Adhesive, true
}

// latestGlue answers until when to glue so that the clamps are off before the workshop closes.
func (a *Ask) latestGlue(s speech.Sentence, w hours.Week) Answer {
	name, known := a.usualGlue(s)
	if !known {
		var options []speech.Option
		for _, word := range []string{"pva", "polyurethane", "epoxy"} {
			r := a.Request
			r.Text += " with " + word
			options = append(options, speech.Option{Label: word, Request: r})
		}
		ans := ask("")
		ans.open = speech.Choice("With which glue?", options...)
		ans.Question = ans.open.Text
		return ans
	}
	win, problem, ok := a.windowAsked(s, w)
	if !ok {
		return problem
	}
	g, times, assumed, problem, ok := a.glueNow(name)
	if !ok {
		return problem
	}
	takes := minutes(times.ClampMin)
	begin := win.From
	if begin.Before(a.Now) {
		begin = a.Now
	}
	at, fits := win.Latest(takes, begin)
	ans := say(fmt.Sprintf("Glue by %s: then the clamps are off by %s", a.clockText(at.Truncate(time.Minute)), win.To.Format("15:04")))
	if !fits {
		left, _ := win.Left(a.Now)
		ans = say(fmt.Sprintf("%s needs %s in the clamps: too long for %s", capital(g.Name), minutesText(times.ClampMin), a.windowText(win)))
		ans.line(fmt.Sprintf("There are %s.", durationText(left)))
		ans.line(a.overnightText(w, win, takes))
	} else {
		ans.Times["latest"] = at.Truncate(time.Minute)
		ans.line(fmt.Sprintf("%s, %s in the clamps; %s.", capital(g.Name), minutesText(times.ClampMin), a.windowText(win)))
	}
	ans.Times["closes"] = win.To
	ans.Values["clamp_min"] = times.ClampMin
	ans.line(glueSource(g, assumed))
	ans.because(fmt.Sprintf("Closing at %s less %s in the clamps, rounded down to the minute.", win.To.Format("15:04"), minutesText(times.ClampMin)), "The clamp time is from the glue's table: ask “"+g.ID+" clamp time” and why for its source.")
	return ans
}

// overnightText says whether a glue-up that does not fit may stay in the clamps until the
// workshop opens again.
func (a *Ask) overnightText(w hours.Week, win hours.Window, takes time.Duration) string {
	next, ok := w.After(win.From)
	switch {
	case a.Settings.set["overnight"]["overnight"].Word == "no":
		return "Clamps may not stay on overnight here (your setting), so glue on a longer day."
	case !ok:
		return "Left in the clamps overnight it is ready when you are in next."
	case next.From.Before(win.To.Add(takes)):
		return fmt.Sprintf("Left in the clamps, glued as late as closing time it needs until %s.", a.clockText(win.To.Add(takes)))
	}
	return fmt.Sprintf("Left in the clamps it is ready when you are in next: %s.", a.windowText(next))
}

// whatFits answers what can be done within an opening: how long it is, and which glues come out
// of the clamps in it.
func (a *Ask) whatFits(s speech.Sentence, w hours.Week) Answer {
	win, problem, ok := a.windowAsked(s, w)
	if !ok {
		return problem
	}
	left, _ := win.Left(a.Now)
	ans := say(fmt.Sprintf("%s: %s", capital(a.windowText(win)), durationText(left)))
	ans.echo = true
	ans.Values["left_min"] = left.Minutes()
	ans.Times["opens"], ans.Times["closes"] = win.From, win.To
	name, known := a.usualGlue(s)
	glues := []string{name}
	if !known {
		glues = []string{"pva", "polyurethane", "epoxy"}
	}
	for _, name := range glues {
		a.fitsGlue(&ans, name, w, win)
	}
	a.fitsWork(&ans)
	ans.because("Closing less opening, or less now; glue by its clamp time at your temperature.")
	return ans
}

// fitsGlue says until when one glue can be used within an opening.
func (a *Ask) fitsGlue(ans *Answer, name string, w hours.Week, win hours.Window) {
	g, times, _, _, ok := a.glueNow(name)
	if !ok {
		return
	}
	begin := win.From
	if begin.Before(a.Now) {
		begin = a.Now
	}
	if at, fits := win.Latest(minutes(times.ClampMin), begin); fits {
		ans.line(fmt.Sprintf("- %s: glue by %s, clamps off before you close (%s)", capital(g.Name), at.Format("15:04"), minutesText(times.ClampMin)))
		return
	}
	ans.line(fmt.Sprintf("- %s: %s in the clamps does not fit. %s", capital(g.Name), minutesText(times.ClampMin), a.overnightText(w, win, minutes(times.ClampMin))))
}
