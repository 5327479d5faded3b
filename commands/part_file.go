package commands

import (
	"bytes"
	"fmt"
	"strings"

	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/commands/tables"
	"fettle/store"
)

// What becomes of the parts of an attached list that are on the list already with other sizes.
const (
	knownSlot  = "known"
	knownTaken = "take"   // they are changed to what the file says
	knownTwice = "beside" // they are added under another name
)

// partsFromFile puts the parts of an attached list on the list. What is there already as the file has
// it is left alone; what is there otherwise is asked about: people send a list again once they have
// changed it.
func (a *Ask) partsFromFile(f store.File) Answer {
	rows, err := tables.Parts(f.Name, bytes.NewReader(f.Data))
	if err != nil {
		return unreadable(err)
	}
	list, err := a.parts()
	if err != nil {
		return ask(store.Sentence(err))
	}
	delete(a.Request.Slots, "name") // of the words beside it no part is called
	var add, known []speech.Request
	same := 0
	for _, row := range rows {
		if row.Group == "" {
			row.Group = a.Word("group") // the cut list for the door
		}
		it := requestOf(row)
		have, there := partNamed(list, row.Name)
		now := partOf(it)
		if now.Species == "" {
			now.Species = have.Is.Species
		}
		switch {
		case !there:
			add = append(add, it)
		case sameByHand(have.Is, now):
			same++
		default:
			known = append(known, it)
		}
	}
	switch how := a.Word(knownSlot); {
	case len(known) > 0 && how == "":
		return a.askKnown(f, known)
	case len(known) > 0 && how == knownTaken:
		return a.takeKnown(add, known)
	case len(add)+len(known) == 0:
		ans := say(shorten(fmt.Sprintf("All of %s is on the list already", f.Name), MaxHeadline))
		ans.echo = true
		return ans
	}
	ans := a.addParts(append(add, known...))
	if same > 0 {
		ans.line(plural(same, "part is", "parts are") + " on the list already, just so.")
	}
	return ans
}

// askKnown asks what becomes of parts that are on the list with other sizes.
func (a *Ask) askKnown(f store.File, known []speech.Request) Answer {
	names := make([]string, len(known))
	for i, it := range known {
		names[i] = it.Word("name")
	}
	with := func(how string) speech.Request {
		r := takeFile("part")
		r.Slots[knownSlot] = speech.Slot{Word: how}
		return r
	}
	q := speech.Choice(fmt.Sprintf("On the list already, and not as in %s: %s. What of them?", shorten(f.Name, 40), shorten(strings.Join(names, ", "), 120)),
		speech.Option{Label: "change them to the new list", Words: []string{"change", "change them", "replace", "replace them", "new", "update", "update them"}, Request: with(knownTaken)},
		speech.Option{Label: "add them beside", Words: []string{"beside", "add", "add them", "both"}, Request: with(knownTwice)})
	ans := ask(q.Text)
	ans.open, ans.echo = q, true
	return ans
}

// takeKnown changes parts to what a file says of them, and adds the others.
func (a *Ask) takeKnown(add, known []speech.Request) Answer {
	ans := say("")
	if len(add) > 0 {
		ans = a.addParts(add)
	}
	ans.echo = true
	list, err := a.parts()
	if err != nil {
		return ask(store.Sentence(err))
	}
	var texts []string
	for _, it := range known {
		have, _ := partNamed(list, it.Word("name"))
		was, now := have.Is, partOf(it)
		have.Is.Quantity, have.Is.Length, have.Is.Width, have.Is.Thickness, have.Is.Stale = now.Quantity, now.Length, now.Width, now.Thickness, ""
		if now.Species != "" {
			have.Is.Species = now.Species
		}
		if now.Group != "" {
			have.Is.Group = now.Group
		}
		texts = append(texts, a.changedText(have, was))
		ans.about(book.WhatPart, have.Name)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPart, have.Name, have.Is))
	}
	head := fmt.Sprintf("Changed %s", plural(len(known), "part", "parts"))
	if len(add) > 0 {
		head += ", added " + fmt.Sprint(len(add))
	}
	ans.Answer = shorten(head+": "+strings.Join(texts, "; "), MaxHeadline)
	for _, t := range texts {
		ans.line("- " + t)
	}
	return ans
}
