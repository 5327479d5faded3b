package commands

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fettle/calc/joinery"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// byHandSlot says, in a request to make a group again, what is to become of parts that somebody
// changed by hand and that would be otherwise now: asKept or asMade.
const (
	byHandSlot = "by_hand"
	asKept     = "keep"
	asMade     = "as made"
)

// remaking is a group that is made again: what its parts were made as, as they stand on the list,
// and as they are made now.
type remaking struct {
	was, have, now []book.Named[book.Part]
	sizes          func(book.Part) string
	renamed        map[string]string // what a part was made as → what somebody called it since, folded

	put   []book.Named[book.Part] // the parts as they are to be
	as    []*book.Part            // of each part of now what it is to be, nil if it is left off
	kept  []string                // what was changed by hand and stays
	clash []string                // what was changed by hand and would be otherwise now
}

// remakeGroup works out what the parts of a group are to be. What somebody changed by hand since they
// were made stays as long as the new request makes it as the old one did.
func (a *Ask) remakeGroup(group string, made []book.Named[book.Part]) (*remaking, error) {
	list, err := a.parts()
	if err != nil {
		return nil, err
	}
	return a.remakeNamed(group, list, joineryNamed(list, group, made), a.Word(byHandSlot))
}

// remakeNamed does so for parts that have their names in the book.
func (a *Ask) remakeNamed(group string, list, now []book.Named[book.Part], how string) (r *remaking, err error) {
	r = &remaking{now: now, renamed: map[string]string{}, sizes: a.partSizes}
	for _, p := range list {
		if p.Is.From == group {
			r.have = append(r.have, p)
		}
	}
	if r.was, err = a.madeBefore(group, list); err != nil {
		return nil, err
	}
	if err := a.findRenamed(r); err != nil {
		return nil, err
	}
	r.merge(how)
	return r, nil
}

// madeBefore gives the parts as the request that is kept of a group makes them; none where there is
// no such group, or it can't be made any more.
func (a *Ask) madeBefore(group string, list []book.Named[book.Part]) ([]book.Named[book.Part], error) {
	groups, err := a.joineryGroups()
	if err != nil {
		return nil, err
	}
	i := slices.IndexFunc(groups, func(g madeGroup) bool { return store.Fold(g.Name) == store.Fold(group) })
	if i < 0 {
		return nil, nil
	}
	before := *a
	before.Request = speech.Request{Topic: "joinery", Slots: maps.Clone(groups[i].Is)}
	made, err := before.joineryMade()
	if err != nil { // what can't be made any more can't be compared
		return nil, nil
	}
	return joineryNamed(list, group, joineryParts(made, &before)), nil
}

// findRenamed finds the parts that somebody gave another name: one message took the old one off the
// list and put the new one there.
func (a *Ask) findRenamed(r *remaking) error {
	for _, p := range r.have {
		if _, made := partNamed(r.was, p.Name); made {
			continue
		}
		to, err := a.lastChange(p.Name)
		if err != nil || to == nil {
			return err
		}
		cs, err := a.Tx.ChangesBy(to.Entry)
		if err != nil {
			return err
		}
		for _, c := range cs {
			if _, made := partNamed(r.was, c.Name); c.What == book.WhatPart && c.Op == store.Removed && made {
				r.renamed[store.Fold(c.Name)] = p.Name
			}
		}
	}
	return nil
}

// lastChange finds the change that put a part as it stands under its name.
func (a *Ask) lastChange(name string) (*store.Change, error) {
	cs, err := a.Tx.ChangesTo(a.Project.ID, book.WhatPart, name)
	for i := len(cs) - 1; i >= 0 && err == nil; i-- {
		if cs[i].Op == store.Added && !cs[i].Undone {
			return &cs[i], nil
		}
	}
	return nil, err
}

// merge settles each part of the group.
func (r *remaking) merge(how string) {
	for _, now := range r.now {
		if how == asMade {
			r.take(now)
			continue
		}
		was, made := partNamed(r.was, now.Name)
		have, there := partNamed(r.have, now.Name)
		if to, is := r.renamed[store.Fold(now.Name)]; is {
			have, there = partNamed(r.have, to)
		}
		switch {
		case made && !there:
			r.kept = append(r.kept, fmt.Sprintf("%s is off the list and stays off", now.Name))
			r.as = append(r.as, nil)
		case made && there:
			r.take(r.settle(was, have, now, how))
		default:
			r.take(now)
		}
	}
	if how == asMade {
		return
	}
	for _, was := range r.was {
		have, there := partNamed(r.have, was.Name)
		if _, again := partNamed(r.now, was.Name); !again && there && !sameByHand(have.Is, was.Is) {
			r.kept = append(r.kept, fmt.Sprintf("%s (%s, as it was changed) is not made any more and goes", have.Name, r.sizes(have.Is)))
		}
	}
}

// take makes a part what the next one of now is to be.
func (r *remaking) take(p book.Named[book.Part]) {
	r.put = append(r.put, p)
	r.as = append(r.as, &p.Is)
}

// shown gives the parts that were worked out as they stand on the list.
func (r *remaking) shown(made []joinery.Part) (out []joinery.Part) {
	for i, p := range made {
		is := r.as[i]
		if is == nil {
			continue
		}
		if is.Length != r.now[i].Is.Length { // the shoulders are not where they were worked out to be
			p.LengthMM, p.TenonMM = is.Length.MM(), 0
		}
		if is.Width != r.now[i].Is.Width {
			p.WidthMM = is.Width.MM()
		}
		if is.Thickness != r.now[i].Is.Thickness {
			p.ThicknessMM = is.Thickness.MM()
		}
		p.Quantity = is.Quantity
		out = append(out, p)
	}
	return out
}

// settle puts what was changed by hand of one part over what it is made as now.
func (r *remaking) settle(was, have, now book.Named[book.Part], how string) book.Named[book.Part] {
	out := book.Named[book.Part]{Name: have.Name, Is: now.Is}
	var kept, clash []string
	for _, f := range handFields {
		w, h, n := f.of(was.Is), f.of(have.Is), f.of(now.Is)
		switch {
		case h == w || h == n:
		case n == w || how == asKept:
			f.put(&out.Is, have.Is)
			kept = append(kept, f.name+" "+h)
		default:
			clash = append(clash, fmt.Sprintf("%s %s, made as %s", f.name, h, n))
		}
	}
	if store.Fold(have.Name) != store.Fold(now.Name) {
		kept = append(kept, "its name")
	}
	if len(kept) > 0 {
		r.kept = append(r.kept, have.Name+": "+strings.Join(kept, ", "))
	}
	if len(clash) > 0 {
		r.clash = append(r.clash, have.Name+" ("+strings.Join(clash, "; ")+")")
	}
	return out
}

// handFields are what people change of a part by a sentence.
var handFields = []struct {
	name string
	of   func(book.Part) string
	put  func(to *book.Part, from book.Part)
}{
	{"length", func(p book.Part) string { return inMM(p.Length) }, func(to *book.Part, from book.Part) { to.Length = from.Length }},
	{"width", func(p book.Part) string { return inMM(p.Width) }, func(to *book.Part, from book.Part) { to.Width = from.Width }},
	{"thickness", func(p book.Part) string { return inMM(p.Thickness) }, func(to *book.Part, from book.Part) { to.Thickness = from.Thickness }},
	{"quantity", func(p book.Part) string { return fmt.Sprint(p.Quantity) }, func(to *book.Part, from book.Part) { to.Quantity = from.Quantity }},
	{"timber", func(p book.Part) string { return p.Species }, func(to *book.Part, from book.Part) { to.Species = from.Species }},
}

// sameByHand says whether nothing of a part was changed by hand.
func sameByHand(p, q book.Part) bool {
	for _, f := range handFields {
		if f.of(p) != f.of(q) {
			return false
		}
	}
	return true
}

// askByHand asks what is to become of the parts that were changed by hand.
func (a *Ask) askByHand(group string, clash []string) Answer {
	with := func(how string) speech.Request {
		r := a.Request
		r.Slots = maps.Clone(r.Slots)
		r.Slots[byHandSlot] = speech.Slot{Word: how}
		return r
	}
	text := fmt.Sprintf("Changed by hand since the %s was made: %s. Which stands?", group, strings.Join(clash, ", "))
	ans := ask("")
	ans.echo = true
	ans.open = speech.Choice(text, speech.Option{Label: "keep what was changed", Words: []string{"keep", "keep it", "keep them", "by hand", "what was changed"}, Request: with(asKept)},
		speech.Option{Label: "take all as made now", Words: []string{"as made", "new", "take it", "take the new", "take the new ones", "take all"}, Request: with(asMade)})
	ans.Question = ans.open.Text
	return ans
}
