package commands

import (
	"cmp"
	"fmt"
	"slices"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
)

// nextJobs orders what somebody can do next: what that person is on comes first, then what nobody
// is on; each in the order of the machines, so that one setting does for all, thick before thin
// and long before short. What has to dry is left out.
func nextJobs(jobs []job, who string) (mine, waiting []job) {
	for _, j := range jobs {
		switch {
		case len(j.on) > 0 && !isOn(j, who):
		case j.dries != nil:
			waiting = append(waiting, j)
		default:
			mine = append(mine, j)
		}
	}
	slices.SortStableFunc(mine, func(x, y job) int {
		return cmp.Or(cmp.Compare(rank(x, who), rank(y, who)),
			cmp.Compare(slices.Index(stageOrder, x.stage), slices.Index(stageOrder, y.stage)),
			cmp.Compare(size(y, x.stage), size(x, x.stage)))
	})
	return mine, waiting
}

func rank(j job, who string) int {
	if isOn(j, who) {
		return 0
	}
	return 1
}

// size is what the pieces of a stage are ordered by.
func size(j job, stage string) measure.Length {
	if j.part == nil {
		return 0
	}
	if stage == stageMachined {
		return j.part.Thickness.Length()
	}
	return j.part.Length.Length()
}

// nextFor answers what somebody can do next, now.
func (a *Ask) nextFor(jobs []job, who string) Answer {
	mine, waiting := nextJobs(jobs, who)
	free := a.clampsDue()
	ans := say("")
	ans.echo = true
	switch {
	case len(free) > 0:
		ans.Answer = shorten(fmt.Sprintf("Next for %s: take %s out of the clamps", who, free[0].Name), MaxHeadline)
	case len(mine) > 0:
		ans.Answer = shorten(fmt.Sprintf("Next for %s: %s %s", who, stageTasks[mine[0].stage], mine[0].short()), MaxHeadline)
	case len(waiting) > 0:
		ans.Answer = shorten(fmt.Sprintf("Nothing to do for %s until %s is dry: %s", who, waiting[0].name, a.clockText(waiting[0].dries.Is.Workable)), MaxHeadline)
	default:
		ans.Answer = shorten("Nothing is left for "+who, MaxHeadline)
	}
	for _, t := range free {
		ans.line(fmt.Sprintf("- %s: clamps can come off since %s", t.Name, a.clockText(t.Is.ClampsOff)))
	}
	for _, j := range mine[:min(len(mine), mostNext)] {
		ans.line("- " + a.jobLine(j))
		ans.about(book.WhatPart, j.name)
	}
	if more := len(mine) - mostNext; more > 0 {
		ans.line(fmt.Sprintf("- and %d more; “what's left” lists all", more))
	}
	for _, j := range waiting {
		ans.line("- waits: " + a.jobLine(j))
	}
	a.timeLeft(&ans)
	ans.because("What " + who + " is on comes first, then what nobody is on; in the order of the machines, so that one setting does for all: rough crosscut, rip, face and thickness from thick to thin, final length, joints, glue, fit (common practice, no source).")
	return ans
}

// mostNext is how many jobs are shown as next.
const mostNext = 5

// clampsDue lists the glue-ups of which the clamps can come off.
func (a *Ask) clampsDue() (out []book.Named[book.Timer]) {
	timers, err := a.timers()
	if err != nil {
		return nil
	}
	for _, t := range timers {
		if ticking(t.Is, a.Now) && t.Is.TakenOff.IsZero() && !a.Now.Before(t.Is.ClampsOff) {
			out = append(out, t)
		}
	}
	return out
}

// timeLeft says how long the workshop is open yet today, where that is known, and what glue fits.
func (a *Ask) timeLeft(ans *Answer) {
	w, err := a.week()
	if err != nil || w.Empty() {
		return
	}
	win, ok := w.Next(a.Now)
	if !ok || !win.Holds(a.Now) && win.From.YearDay() != a.Now.YearDay() {
		if ok {
			ans.line("Open next: " + a.windowText(win))
		}
		return
	}
	left, said := win.Left(a.Now)
	if !said {
		return
	}
	ans.Values["left_min"] = left.Minutes()
	ans.Times["closes"] = win.To
	ans.line(fmt.Sprintf("Time: %s until %s.", durationText(left), win.To.Format("15:04")))
	if name, known := a.usualGlue(speech.Sentence{}); known {
		a.fitsGlue(ans, name, w, win)
	}
}

// fitsWork lists what the person can do next, below what else fits into an opening.
func (a *Ask) fitsWork(ans *Answer) {
	jobs, err := a.jobs()
	if err != nil {
		return
	}
	mine, _ := nextJobs(jobs, a.Who)
	for _, j := range mine[:min(len(mine), mostNext)] {
		ans.line("- next: " + a.jobLine(j))
	}
}
