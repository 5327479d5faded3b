package commands

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"fettle/commands/book"
	"fettle/store"
)

// job is what is left to do of a part, or a task.
type job struct {
	work
	done  book.Done
	on    []book.Named[book.Claim]
	stage string // the next stage
	count int    // pieces that have not reached it
	dries *book.Named[book.Timer]
}

// machineWork are the stages of making a part, in the order of the machines: rough crosscut,
// rip, face, edge and thickness, final length, then what is joined and fitted. Common practice, no source.
var machineWork = []string{stageRoughed, stageRipped, stageMachined, stageCut, stageFitted}

var stageTasks = map[string]string{stageRoughed: "rough crosscut", stageRipped: "rip", stageMachined: "face, edge and thickness", stageCut: "cut to final length", stageFitted: "joints, glue, fit", stageFinished: "finish"}

// jobs lists what is left of all parts and tasks.
func (a *Ask) jobs() ([]job, error) {
	parts, err := a.parts()
	if err != nil {
		return nil, err
	}
	claims, err := a.claims()
	if err != nil {
		return nil, err
	}
	done, err := a.doneSoFar()
	if err != nil {
		return nil, err
	}
	timers, err := a.timers()
	if err != nil {
		return nil, err
	}
	var out []job
	onList := map[string]bool{}
	for _, p := range parts {
		onList[store.Fold(p.Name)] = true
		j := job{work: work{p.Name, &p.Is}, done: stored(done, p.Name), on: on(claims, p.Name)}
		if wasGlued(timers, p.Name) { // what was glued had been made
			if j.done.Stages == nil {
				j.done.Stages = map[string]int{}
			}
			j.done.Stages[stageGlued] = p.Is.Quantity
		}
		for _, s := range machineWork {
			if n := p.Is.Quantity - reached(j.done, s); n > 0 {
				j.stage, j.count = s, n
				break
			}
		}
		if j.count > 0 {
			j.dries = waitsFor(timers, p.Name, a.Now)
			out = append(out, j)
		}
	}
	for _, c := range claims {
		if d := stored(done, c.Name); c.Is.Of == "" && !onList[store.Fold(c.Name)] && d.Quantity == 0 && reached(d, stageCoated) == 0 {
			out = append(out, job{work: work{name: c.Name}, done: d, on: []book.Named[book.Claim]{c}, stage: stageFinished, count: 1, dries: waitsFor(timers, c.Name, a.Now)})
		}
	}
	return out, nil
}

func wasGlued(timers []book.Named[book.Timer], name string) bool {
	return slices.ContainsFunc(timers, func(t book.Named[book.Timer]) bool { return slices.Equal(nameWords(t.Is.What), nameWords(name)) })
}

// waitsFor finds the glue-up that has to dry before work on something goes on.
func waitsFor(timers []book.Named[book.Timer], name string, now time.Time) *book.Named[book.Timer] {
	for _, t := range timers {
		if !t.Is.Stopped && now.Before(t.Is.Workable) && slices.Equal(nameWords(t.Name), nameWords(name)) {
			return &t
		}
	}
	return nil
}

func isOn(j job, who string) bool {
	return slices.ContainsFunc(j.on, func(c book.Named[book.Claim]) bool {
		return store.Fold(c.Is.Who) == store.Fold(who) || c.Is.Who == "both"
	})
}

func (j job) short() string {
	if j.part == nil {
		return j.name
	}
	return fmt.Sprintf("%d × %s", j.count, j.name)
}

// jobLine says of one part what is next, how far it is, and who is on it.
func (a *Ask) jobLine(j job) string {
	text := j.name
	if j.part != nil {
		text = fmt.Sprintf("%s: %s, %d of %d", j.name, stageTasks[j.stage], j.count, j.part.Quantity)
		var further []string
		for _, s := range machineWork[slices.Index(machineWork, j.stage)+1:] {
			if n := j.part.Quantity - reached(j.done, s); n != j.count && n > 0 {
				further = append(further, fmt.Sprintf("%s %d", stageTasks[s], n))
			}
		}
		if len(further) > 0 {
			text += "; then " + strings.Join(further, ", ")
		}
		if j.done.Spoiled > 0 {
			text += fmt.Sprintf(" (%d spoiled)", j.done.Spoiled)
		}
	}
	if names := claimants(j.on); names != "" {
		text += " – " + names
	}
	if j.dries != nil {
		text += fmt.Sprintf(" – glued, wait until %s", a.clockText(j.dries.Is.Workable))
	}
	return text
}

func claimants(cs []book.Named[book.Claim]) string {
	var out []string
	for _, c := range cs {
		text := c.Is.Who
		if c.Is.Count > 0 {
			text = fmt.Sprintf("%s %d", c.Is.Who, c.Is.Count)
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}
