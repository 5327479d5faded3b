package commands

import (
	"fmt"
	"slices"
	"strings"

	"fettle/calc/cutplan"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/store"
)

// plannedOdd is what was found of the cut plan that holds.
type plannedOdd struct {
	odd     []string
	leftOut map[string]bool // parts, folded, that the plan gives its reason for
	word    string          // of the plan as a whole, "" where there is nothing to say
}

// oddPlan finds where the cut plan does not agree with the list of parts, the boards on hand and what
// is ticked.
func (a *Ask) oddPlan(in *planInput) (plannedOdd, error) {
	p, ok, err := loadPlan(a.Tx, a.Project.ID)
	if err != nil || !ok {
		return plannedOdd{word: "There is no cut plan yet, so only the list was looked over."}, err
	}
	half, err := a.halfSawn(&p)
	if err != nil {
		return plannedOdd{}, err
	}
	out := plannedOdd{leftOut: map[string]bool{}}
	for _, l := range p.LeftOut {
		if part, there := partNamed(in.parts, l.Name); there && in.toSaw(part) > 0 {
			out.odd = append(out.odd, fmt.Sprintf("The plan leaves out %d × %s. %s", l.Quantity, l.Name, l.Reason))
			out.leftOut[store.Fold(l.Name)] = true
		}
	}
	since := a.changedSince(in, &p)
	out.odd = append(append(append(out.odd, since...), p.oddBoards(in)...), p.oddTicks(in, half)...)
	if stale := p.stale(in); stale != "" {
		out.word = "The " + stale + " have changed since the plan was made: “plan the cuts” makes it anew."
	}
	return out, nil
}

// wanted is a part as a plan was made for it.
type wanted struct {
	Name string    `json:"name"`
	Is   book.Part `json:"is"`
}

// wants are the parts as a plan is made for them.
func (in *planInput) wants() (out []wanted) {
	for _, p := range in.parts {
		if in.toSaw(p) > 0 {
			out = append(out, wanted{p.Name, p.Is})
		}
	}
	return out
}

// changedSince finds the parts that were added, changed or dropped since the plan was made.
func (a *Ask) changedSince(in *planInput, p *storedPlan) (out []string) {
	if p.Wanted == nil { // a plan from before this was kept
		return nil
	}
	var added, changed, dropped []string
	for _, part := range in.parts {
		i := slices.IndexFunc(p.Wanted, func(w wanted) bool { return store.Fold(w.Name) == store.Fold(part.Name) })
		if i < 0 {
			if in.toSaw(part) > 0 {
				added = append(added, part.Name)
			}
			continue
		}
		if was := p.Wanted[i].Is; was.Quantity != part.Is.Quantity {
			changed = append(changed, fmt.Sprintf("%s (%d, was %d)", part.Name, part.Is.Quantity, was.Quantity))
		} else if was.Length != part.Is.Length || was.Width != part.Is.Width || was.Thickness != part.Is.Thickness {
			changed = append(changed, fmt.Sprintf("%s (%s, was %s)", part.Name, a.partSizes(part.Is), a.partSizes(was)))
		} else if was.Species != part.Is.Species || was.Grain != part.Is.Grain {
			changed = append(changed, part.Name)
		}
	}
	for _, w := range p.Wanted {
		if _, there := partNamed(in.parts, w.Name); !there {
			dropped = append(dropped, w.Name)
		}
	}
	for _, f := range []struct {
		text  string
		names []string
	}{
		{"On the list since the plan was made, so not in it: %s.", added},
		{"Changed since the plan was made: %s.", changed},
		{"Off the list and still in the plan: %s.", dropped},
	} {
		if len(f.names) > 0 {
			out = append(out, fmt.Sprintf(f.text, strings.Join(f.names, ", ")))
		}
	}
	return out
}

// oddBoards finds boards of the plan that are still to be sawn and are no more on hand, sawn for
// something else, of another size, or have a fault now where a part is to come from.
func (p *storedPlan) oddBoards(in *planInput) (out []string) {
	for _, b := range p.Plan.Boards {
		if p.sawn(b) {
			continue
		}
		i := slices.IndexFunc(in.boards, func(n book.Named[book.Board]) bool { return n.Name == b.Name })
		if i < 0 {
			text := "%s is in the plan and no longer on hand: %s would come out of it."
			if slices.ContainsFunc(in.boards, func(n book.Named[book.Board]) bool { return n.Is.Offcut && n.Is.From == b.Name }) {
				text = "%s is in the plan and was sawn for something else: %s would come out of it."
			}
			out = append(out, fmt.Sprintf(text, capital(b.Name), contents(b)))
			continue
		}
		is := in.boards[i].Is
		if is.Length.Length() != b.Length || is.Width.Length() != b.Width || is.Thickness.Length() != b.Thickness {
			sizes := func(l, w, t measure.Length) string { return in.settings.System().Sizes(measure.Nearest, l, w, t) }
			out = append(out, fmt.Sprintf("%s is %s now, and the plan takes it for %s.", capital(b.Name), sizes(is.Length.Length(), is.Width.Length(), is.Thickness.Length()), sizes(b.Length, b.Width, b.Thickness)))
		}
		for _, f := range is.Faults {
			if names := hitBy(f, b); len(names) > 0 {
				out = append(out, fmt.Sprintf("The %s in %s lies where the plan has %s.", f.Kind, b.Name, strings.Join(names, ", ")))
			}
		}
	}
	return out
}

// hitBy names the blanks of a sawn board that a fault lies in.
func hitBy(f book.Fault, b cutplan.SawnBoard) (names []string) {
	for _, p := range b.Parts {
		apart := f.X.Length() >= p.X+p.Length || f.X.Length()+f.Length.Length() <= p.X || f.Y.Length() >= p.Y+p.Width || f.Y.Length()+f.Width.Length() <= p.Y
		if !apart && !slices.Contains(names, p.Name) {
			names = append(names, p.Name)
		}
	}
	return names
}

// oddTicks finds parts that are said to be cut, of which the plan still has pieces in boards that
// nobody said were sawn: more in all than there are to be.
func (p *storedPlan) oddTicks(in *planInput, half []halfway) (out []string) {
	for _, part := range in.parts {
		var holding []string
		for _, b := range p.unsawnBoards() {
			if p.holds(b, part.Name) {
				holding = append(holding, b.Name)
			}
		}
		still := p.made(p.unsawnBoards()...)[part.Name] - p.made(cutOf(half)...)[part.Name]
		all := part.Is.Quantity
		for _, w := range p.Wanted {
			if w.Name == part.Name {
				all = max(all, w.Is.Quantity)
			}
		}
		if done := reached(stored(in.done, part.Name), stageRoughed); done > 0 && still > 0 && done+still > all {
			out = append(out, fmt.Sprintf("%s: %d of %d said to be cut, and by the plan %d still in %s, which nobody said is sawn.", part.Name, done, part.Is.Quantity, still, strings.Join(holding, ", ")))
		}
	}
	return out
}
