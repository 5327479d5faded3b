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
// are whole and the offcuts of those that are sawn. Where the boards that the pieces came from were
// not said to be sawn, nor ticked so far, the first of the plan that hold as many are taken to be, and
// that is said. It gives nothing where there is no plan, or none of the part in it.
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
	assumed := false
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
		if off, lines = a.assumeSawn(&in, &p, part, cut); len(off) == 0 {
			return nil, false
		}
		assumed = true
	}
	next, err := in.makePlan(planNodes, a.Now)
	if err != nil {
		return nil, false
	}
	lines = append(lines, a.takesMore(&in, &p, &next, off)...)
	if assumed {
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

// assumeSawn takes the first boards of the plan that hold as many of a part as were lost for sawn:
// their parts are no more to be sawn, the spoiled ones are to be sawn again, and their offcuts are there
// instead of them. cut is how many of the part are cut out by the ticks.
func (a *Ask) assumeSawn(in *planInput, p *storedPlan, part string, cut int) (names, lines []string) {
	var taken []cutplan.SawnBoard
	lost := p.Lost[part]
	for _, b := range p.unsawnBoards() {
		at := slices.IndexFunc(in.boards, func(n book.Named[book.Board]) bool { return n.Name == b.Name })
		if at < 0 || !p.holds(b, part) {
			continue
		}
		from := in.boards[at]
		in.boards = slices.Delete(slices.Clone(in.boards), at, at+1)
		for _, o := range remaining.Offcuts(b, picture.Kept(b), from.Is.Species, from.Is.Sheet) {
			in.boards = append(in.boards, book.Named[book.Board]{Name: o.Name, Is: offcutOf(from, o)})
		}
		taken, names = append(taken, b), append(names, b.Name)
		if p.made(taken...)[part] >= lost {
			break
		}
	}
	made, then := p.made(taken...), *p
	then.loosen(taken...)
	in.loose = then.Loose
	for name, n := range made {
		d := stored(in.done, name)
		d.Quantity = reached(d, stageRoughed) + n
		if name == part {
			d.Quantity = max(0, d.Quantity-lost)
		}
		in.set(name, d)
	}
	if len(names) == 0 {
		return nil, nil
	}
	return names, assumedText(names, part, lost, cut, made[part])
}

// holds says whether something of a part lies on a board of the plan.
func (p *storedPlan) holds(b cutplan.SawnBoard, part string) bool {
	return slices.ContainsFunc(b.Parts, func(placed cutplan.Placed) bool { return slices.Contains(p.Blanks[placed.Part].Parts, part) })
}

// assumedText says which boards are taken for sawn and why, and what would be surer.
func assumedText(names []string, part string, lost, cut, holding int) (lines []string) {
	boards, it, are := strings.Join(names, " and "), "it", "is"
	if lost > 1 {
		it = "they"
	}
	if len(names) > 1 {
		are = "are"
	}
	why := "No board of it is said or ticked to be sawn"
	if cut > 0 {
		why = fmt.Sprintf("By your ticks %d × %s %s cut out, and %d %s lost", cut, part, map[bool]string{true: "is", false: "are"}[cut == 1], lost, map[bool]string{true: "is", false: "are"}[lost == 1])
	}
	lines = append(lines, fmt.Sprintf("%s, so I take it that %s came out of %s, and that the whole of what the plan has there is sawn. Say “%s is cut” once that is so, and then “plan again”.", why, it, boards, names[0]))
	if holding < lost {
		lines = append(lines, fmt.Sprintf("%s %s only %d of it by the plan: say which boards the others came from.", capital(boards), map[bool]string{true: "hold", false: "holds"}[are == "are"], holding))
	}
	return lines
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
