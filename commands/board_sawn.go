package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/cutplan/remaining"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// boardCut takes a board off the list that is sawn as the plan has it: its parts count as roughed
// out, and its offcuts that are worth keeping are boards of their own.
func (a *Ask) boardCut() Answer {
	b, which := a.findBoard()
	if which != nil {
		return *which
	}
	p, ok, err := loadPlan(a.Tx, a.Project.ID)
	if err != nil {
		return ask(store.Sentence(err))
	}
	sawn, planned := p.board(b.Name)
	if !ok || !planned {
		ans := ask(fmt.Sprintf("The cut plan does not use %s, so I don't know what came out of it. Say “%s is used up” to take it off the list, and tell me of its offcuts as boards.", b.Name, b.Name))
		ans.echo = true
		return ans
	}
	in, err := a.planInput()
	if err != nil {
		return ask(store.Sentence(err))
	}
	ans := say("")
	ans.echo = true
	if why := p.stale(&in); why != "" {
		ans.line(fmt.Sprintf("I take it that it was sawn as the last plan has it, from before the %s changed. If not, “scratch that”.", why))
	}
	made, short := p.made(sawn), false
	for _, name := range slices.Sorted(maps.Keys(made)) {
		lost := min(p.Lost[name], made[name])
		made[name] -= lost
		if lost > 0 {
			p.Lost[name] -= lost
			short = true
			ans.line(fmt.Sprintf("%d × %s of it was spoiled; “plan again” makes up for it.", lost, name))
		}
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatDone, name, a.roughed(&in, name, made[name])))
	}
	offcuts := a.keepOffcuts(&ans, b, sawn)
	ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatBoard, b.Name))
	p.Sawn, p.Begun = append(p.Sawn, b.Name), true
	if short { // the plan lacks what was spoiled, so it must not pass for one that holds
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPlan, planName, p))
	} else {
		ans.effects = append(ans.effects, keepPlan(a.Project.ID, p))
	}
	ans.Given["name"] = b.Name
	good := 0
	for _, n := range made {
		good += n
	}
	ans.Values["parts"], ans.Values["offcuts"] = good, offcuts
	ans.Answer = shorten(fmt.Sprintf("%s is sawn: %s roughed out, %s kept", capital(b.Name), plural(good, "part", "parts"), plural(offcuts, "offcut", "offcuts")), MaxHeadline)
	if rest := p.unsawn(); len(rest) > 0 {
		ans.line("Still to saw: " + strings.Join(rest, ", ") + ".")
	}
	return ans
}

// unsawn names the boards of the plan that are still whole.
func (p *storedPlan) unsawn() (out []string) {
	for _, b := range p.Plan.Boards {
		if !p.sawn(b) {
			out = append(out, b.Name)
		}
	}
	return out
}

// roughed is how far a part is once so many more of it are roughed out.
func (a *Ask) roughed(in *planInput, name string, n int) book.Done {
	d := stored(in.done, name)
	total := n
	for _, p := range in.parts {
		if p.Name == name {
			total = p.Is.Quantity
		}
	}
	if d.Stages == nil {
		d.Stages = map[string]int{}
	}
	d.Stages[stageRoughed] = min(total, reached(d, stageRoughed)+n)
	d.Who, d.At = a.Who, a.Now.Format(time.RFC3339)
	return d
}

// keepOffcuts puts the offcuts of a board that are worth keeping on the list.
func (a *Ask) keepOffcuts(ans *Answer, b book.Named[book.Board], sawn cutplan.SawnBoard) int {
	all, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		ans.line(store.Sentence(err))
		return 0
	}
	names := newNames(all)
	offcuts := remaining.Offcuts(sawn, picture.Kept(sawn), b.Is.Species, b.Is.Sheet)
	for _, o := range offcuts {
		is := offcutOf(b, o)
		name := names.next(calledBy(is))
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, name, is))
		ans.line(fmt.Sprintf("- %s: %s × %s, offcut", name, a.Out().Number(o.Length, measure.Nearest), a.Out().Text(o.Width, measure.Nearest)))
	}
	return len(offcuts)
}

// offcutOf is an offcut as it stands on the list. It was paid for with its board.
func offcutOf(b book.Named[book.Board], o cutplan.Board) book.Board {
	is := book.Board{Quantity: 1, Length: book.MM(o.Length), Width: book.MM(o.Width), Thickness: book.MM(o.Thickness), Species: o.Species, Unpriced: b.Is.Unpriced, Sheet: o.Sheet, Offcut: true, From: b.Name}
	for _, f := range o.Faults {
		is.Faults = append(is.Faults, book.Fault{X: book.MM(f.X), Y: book.MM(f.Y), Length: book.MM(f.Length), Width: book.MM(f.Width), Kind: "fault"})
	}
	return is
}
