package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/cutplan/remaining"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// mistake says what it takes to make spoiled pieces of a part again, by the plan: from boards that
// are whole and the offcuts of those that are sawn. Where the board that a piece came from was not
// said to be sawn, the first of the plan that holds one is taken to be. It gives nothing where
// there is no plan, or none of the part in it.
func (a *Ask) mistake(ans *Answer, part string, now *book.Done, n int) (lines []string, planned bool) {
	p, ok, err := loadPlan(a.Tx, a.Project.ID)
	if err != nil || !ok {
		return nil, false
	}
	in, err := a.planInput()
	if err != nil {
		return nil, false
	}
	half, err := a.halfSawn(&p)
	if err != nil {
		return nil, false
	}
	cut := p.made(cutOf(half)...)[part]
	on := ""
	var off []string // boards of the plan that are no more
	switch uncounted := n - in.set(part, *now); {
	case len(half) > 0 && uncounted <= cut:
		if err := a.takeApart(ans, &in, &p, half, map[string]int{part: uncounted}); err != nil {
			return nil, false
		}
		*now, p.Begun = stored(in.done, part), true
		for _, h := range half {
			off = append(off, h.sawn.Name)
		}
	case uncounted > 0:
		if p.Lost == nil {
			p.Lost = map[string]int{}
		}
		p.Lost[part] += uncounted
		if on, lines = a.assumeSawn(&in, &p, part); on == "" {
			return nil, false
		}
		off = append(off, on)
	}
	next, err := in.makePlan(planNodes, a.Now)
	if err != nil {
		return nil, false
	}
	lines = append(lines, a.takesMore(&in, &p, &next, off)...)
	if on != "" {
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPlan, planName, p))
	} else {
		next.Begun, next.Lost = p.Begun, p.Lost
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPlan, planName, next))
		lines = append(lines, "The plan for what is left is made anew; nothing that is sawn moves.")
	}
	return lines, true
}

// set puts how far a part is now, and gives how many pieces more are to be sawn for it.
func (in *planInput) set(part string, now book.Done) int {
	of := func() (n int) {
		for _, p := range in.parts {
			if store.Fold(p.Name) == store.Fold(part) {
				n += in.toSaw(p)
			}
		}
		return n
	}
	was := of()
	in.done = slices.DeleteFunc(slices.Clone(in.done), func(d book.Named[book.Done]) bool { return store.Fold(d.Name) == store.Fold(part) })
	in.done = append(in.done, book.Named[book.Done]{Name: part, Is: now})
	return of() - was
}

// assumeSawn takes the first board of the plan that holds a part for sawn: its parts are no more to
// be sawn, the spoiled ones are to be sawn again, and its offcuts are there instead of it.
func (a *Ask) assumeSawn(in *planInput, p *storedPlan, part string) (name string, lines []string) {
	for _, b := range p.Plan.Boards {
		made := p.made(b)
		if p.sawn(b) || made[part] == 0 {
			continue
		}
		at := slices.IndexFunc(in.boards, func(n book.Named[book.Board]) bool { return n.Name == b.Name })
		if at < 0 {
			continue
		}
		from := in.boards[at]
		for name, n := range made {
			d := stored(in.done, name)
			d.Quantity = reached(d, stageRoughed) + n
			if name == part {
				d.Quantity = max(0, d.Quantity-p.Lost[part])
			}
			in.set(name, d)
		}
		in.boards = slices.Delete(slices.Clone(in.boards), at, at+1)
		for _, o := range remaining.Offcuts(b, picture.Kept(b), from.Is.Species, from.Is.Sheet) {
			in.boards = append(in.boards, book.Named[book.Board]{Name: o.Name, Is: offcutOf(from, o)})
		}
		return b.Name, []string{fmt.Sprintf("I take it that it came out of %s. Say “%s is cut” once that is sawn, and then “plan again”.", b.Name, b.Name)}
	}
	return "", nil
}

// takesMore says what a new plan takes of whole boards beyond the old one, but for those of it that
// are off the list now.
func (a *Ask) takesMore(in *planInput, was, now *storedPlan, off []string) (lines []string) {
	whole := func(b cutplan.SawnBoard) bool {
		return slices.ContainsFunc(in.boards, func(n book.Named[book.Board]) bool { return n.Name == b.Name && !n.Is.Offcut })
	}
	had := remaining.Whole(was.Plan, func(b cutplan.SawnBoard) bool { return !was.sawn(b) && !slices.Contains(off, b.Name) })
	more := remaining.Whole(now.Plan, whole).Beyond(had)
	for _, l := range now.LeftOut {
		lines = append(lines, l.text())
	}
	switch {
	case now.missing() > was.missing():
		return append(lines, "What is left does not give it again: “what do we need to buy”.")
	case more.Boards > 0:
		text := fmt.Sprintf("Making it again takes %s more, %s m²", plural(more.Boards, "board", "boards"), measure.Decimal(more.Area, 2))
		if more.Price > 0 {
			text += ", " + money(more.Price)
		}
		lines = append(lines, text+".")
	default:
		lines = append(lines, "Making it again takes no further board.")
	}
	return append(lines, "What is still to saw: "+strings.Join(now.perBoard(), "; ")+".")
}

// perBoard says in short what comes out of each board.
func (p *storedPlan) perBoard() (out []string) {
	for _, b := range p.Plan.Boards {
		out = append(out, b.Name+": "+contents(b))
	}
	return out
}
