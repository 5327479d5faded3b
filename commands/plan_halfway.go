package commands

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/cutplan/picture"
	"fettle/calc/cutplan/remaining"
	"fettle/calc/measure"
	"fettle/commands/book"
)

// halfway is a board of the plan of which some cuts are ticked and others not.
type halfway struct {
	sawn cutplan.SawnBoard
	done cutplan.SawnBoard // the board with what is cut out of it alone
	rest []cutplan.Rect    // pieces to plan on: what is still to be cut, and offcuts worth keeping
}

// halfSawn finds the boards that are sawn in part, by the ticks of the run sheet.
func (a *Ask) halfSawn(p *storedPlan) ([]halfway, error) {
	steps, _, _, err := runSheetOf(a.Tx, a.Project.ID, a.Out())
	if err != nil {
		return nil, err
	}
	made := map[string]map[int]bool{}
	for _, s := range steps {
		for _, c := range s.cuts {
			if s.ticked && made[c.Board] == nil {
				made[c.Board] = map[int]bool{}
			}
			if s.ticked {
				made[c.Board][c.Order] = true
			}
		}
	}
	var out []halfway
	for _, b := range p.Plan.Boards {
		if len(made[b.Name]) > 0 && !p.sawn(b) {
			out = append(out, p.halfway(b, made[b.Name]))
		}
	}
	return out, nil
}

func (p *storedPlan) halfway(b cutplan.SawnBoard, made map[int]bool) halfway {
	now := remaining.After(b, p.Plan.Kerf, made)
	done := b
	done.Parts, done.Offcuts = now.Out, now.Offcuts
	return halfway{sawn: b, done: done, rest: append(now.Uncut, picture.Kept(done)...)}
}

// cutOf are boards that are sawn in part, with what is cut out of them alone.
func cutOf(half []halfway) (out []cutplan.SawnBoard) {
	for _, h := range half {
		out = append(out, h.done)
	}
	return out
}

// takeApart takes boards that are sawn in part off the list: what is cut out of them counts as
// roughed out, but for what is spoiled of it, and their pieces are boards of their own to plan on.
func (a *Ask) takeApart(ans *Answer, in *planInput, p *storedPlan, all []halfway, spoiled map[string]int) error {
	boards, err := book.Boards(a.Tx, a.Project.ID)
	if err != nil {
		return err
	}
	names := newNames(boards)
	var taken []cutplan.SawnBoard
	for _, h := range all {
		at := slices.IndexFunc(in.boards, func(b book.Named[book.Board]) bool { return b.Name == h.sawn.Name })
		if at < 0 {
			continue
		}
		from := in.boards[at]
		in.boards = slices.Delete(slices.Clone(in.boards), at, at+1)
		ans.effects = append(ans.effects, remove(a.Project.ID, book.WhatBoard, from.Name))
		var pieces []string
		for _, o := range remaining.Offcuts(h.sawn, h.rest, from.Is.Species, from.Is.Sheet) {
			b := book.Named[book.Board]{Name: names.next(calledBy(from.Is)), Is: offcutOf(from, o)}
			in.boards = append(in.boards, b)
			ans.effects = append(ans.effects, put(a.Project.ID, book.WhatBoard, b.Name, b.Is))
			pieces = append(pieces, fmt.Sprintf("%s %s × %s", b.Name, a.Out().Number(o.Length, measure.Nearest), a.Out().Text(o.Width, measure.Nearest)))
		}
		taken = append(taken, h.done)
		ans.line(fmt.Sprintf("%s is sawn in part, by your ticks: %s. Its pieces to plan on: %s.", capital(from.Name), p.outText(h.done), cmp.Or(strings.Join(pieces, ", "), "none")))
	}
	out := p.made(taken...)
	p.loosen(taken...)
	in.loose = p.Loose
	for _, name := range slices.Sorted(maps.Keys(out)) {
		now := a.roughed(in, name, out[name]-spoiled[name])
		in.set(name, now)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatDone, name, now))
	}
	return nil
}

// outText says what is cut out of a board: finished pieces by part, and staves.
func (p *storedPlan) outText(done cutplan.SawnBoard) string {
	out := map[string]int{}
	for _, placed := range done.Parts {
		if b := p.Blanks[placed.Part]; b.Staves > 0 {
			out[b.Name]++
		} else {
			for _, part := range b.Parts {
				out[part]++
			}
		}
	}
	var parts []string
	for _, name := range slices.Sorted(maps.Keys(out)) {
		parts = append(parts, fmt.Sprintf("%d × %s", out[name], name))
	}
	return cmp.Or(strings.Join(parts, ", "), "no part") + " out of it"
}

// underWay shows the plan that is being sawn by: it stands as long as nothing of it has changed.
func (a *Ask) underWay(in *planInput, p storedPlan, all []halfway) Answer {
	ans := a.shownPlan(in, p)
	var names []string
	for _, h := range all {
		names = append(names, h.sawn.Name)
	}
	ans.line(fmt.Sprintf("The plan stands, as %s is sawn in part by your ticks.", strings.Join(names, ", ")))
	return ans
}
