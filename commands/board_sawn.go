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
	saw := sawing{a: a, ans: &ans, plan: &p, in: &in, names: newNames(in.boards)}
	good, offcuts := saw.up(b, sawn)
	saw.keep()
	ans.Given["name"] = b.Name
	ans.Values["parts"], ans.Values["offcuts"] = good, offcuts
	ans.Answer = shorten(sawnUpText(b.Name, good, offcuts), MaxHeadline)
	if rest := p.unsawn(); len(rest) > 0 {
		ans.line("Still to saw: " + strings.Join(rest, ", ") + ".")
	}
	return ans
}

func sawnUpText(board string, parts, offcuts int) string {
	return fmt.Sprintf("%s is sawn: %s roughed out, %s kept", capital(board), plural(parts, "part", "parts"), plural(offcuts, "offcut", "offcuts"))
}

// sawUp takes boards off the list all of whose cuts were ticked, as boardCut does. One that is no
// more on the list stays as it is.
func (a *Ask) sawUp(ans *Answer, boards []string) error {
	if len(boards) == 0 {
		return nil
	}
	p, _, err := loadPlan(a.Tx, a.Project.ID)
	if err != nil {
		return err
	}
	in, err := a.planInput()
	if err != nil {
		return err
	}
	saw := sawing{a: a, ans: ans, plan: &p, in: &in, names: newNames(in.boards)}
	for _, name := range boards {
		i := slices.IndexFunc(in.boards, func(b book.Named[book.Board]) bool { return b.Name == name })
		sawn, planned := p.board(name)
		if i < 0 || !planned {
			continue
		}
		at := len(ans.details)
		good, offcuts := saw.up(in.boards[i], sawn)
		ans.details = slices.Insert(ans.details, at, sawnUpText(name, good, offcuts)+".")
	}
	saw.keep()
	return nil
}

// sawing is what changes when boards are sawn by the plan, one after the other.
type sawing struct {
	a     *Ask
	ans   *Answer
	plan  *storedPlan
	in    *planInput
	names *names
	short bool // a piece of it was spoiled already
}

// up takes a board off the list: its parts are roughed out, and its offcuts are boards.
func (s *sawing) up(b book.Named[book.Board], sawn cutplan.SawnBoard) (good, offcuts int) {
	project := s.a.Project.ID
	made := s.plan.made(sawn)
	for _, name := range slices.Sorted(maps.Keys(made)) {
		lost := min(s.plan.Lost[name], made[name])
		made[name] -= lost
		if lost > 0 {
			s.plan.Lost[name] -= lost
			s.short = true
			s.ans.line(fmt.Sprintf("%d × %s of it was spoiled; “plan again” makes up for it.", lost, name))
		}
		done := s.a.roughed(s.in, name, made[name])
		s.in.set(name, done)
		s.ans.effects = append(s.ans.effects, put(project, book.WhatDone, name, done))
		good += made[name]
	}
	s.plan.loosen(sawn)
	s.in.loose = s.plan.Loose
	for _, part := range slices.Sorted(maps.Keys(s.plan.Loose)) {
		if n := s.plan.Loose[part]; lies(s.plan, sawn, part) {
			s.ans.line(fmt.Sprintf("%s: %d of its %d staves are sawn.", capital(part), n.Count, n.Of))
		}
	}
	offcuts = s.a.keepOffcuts(s.ans, s.names, b, sawn)
	s.ans.effects = append(s.ans.effects, remove(project, book.WhatBoard, b.Name))
	s.plan.Sawn, s.plan.Begun = append(s.plan.Sawn, b.Name), true
	return good, offcuts
}

// lies says whether a stave of a part lies on a board.
func lies(p *storedPlan, b cutplan.SawnBoard, part string) bool {
	return slices.ContainsFunc(b.Parts, func(placed cutplan.Placed) bool {
		blank := p.Blanks[placed.Part]
		return blank.Staves > 0 && blank.Parts[0] == part
	})
}

// keep keeps the plan. One that lacks what was spoiled must not pass for one that holds.
func (s *sawing) keep() {
	project := s.a.Project.ID
	if s.short {
		s.ans.effects = append(s.ans.effects, put(project, book.WhatPlan, planName, *s.plan))
		return
	}
	s.ans.effects = append(s.ans.effects, keepPlan(project, *s.plan))
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
func (a *Ask) keepOffcuts(ans *Answer, names *names, b book.Named[book.Board], sawn cutplan.SawnBoard) int {
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
