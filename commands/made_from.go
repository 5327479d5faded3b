package commands

import (
	"fmt"
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// madeGroup is what a group of parts was made from.
type madeGroup = book.Named[map[string]speech.Slot]

// joineryGroups reads what was made of an opening or a wish as this message finds it.
func (a *Ask) joineryGroups() ([]madeGroup, error) {
	return booked[map[string]speech.Slot](a, book.WhatJoinery)
}

// measureChange is a size of an opening that was measured otherwise since a group was made.
type measureChange struct {
	measure, need string
	was, now      book.Reading
}

// measuredSince finds the measures that a group was made from and that are another size now.
func measuredSince(g madeGroup, measures []book.Named[book.Measure]) (out []measureChange) {
	names, read := strings.CutPrefix(g.Is["read_as"].Word, measuredWord)
	if !read {
		return nil
	}
	for _, name := range strings.Split(names, ", ") {
		i := slices.IndexFunc(measures, func(m book.Named[book.Measure]) bool { return sameMeasure(m.Name, name) })
		if i < 0 {
			continue
		}
		if c, ok := sizeOfOpening(g, measures[i]); ok && !c.same() {
			out = append(out, c)
		}
	}
	return out
}

// same says whether a measure is what a group was made from, as finely as requests are kept.
func (c measureChange) same() bool {
	return within(c.was.Size, c.now.Size, 10_000) && math.Abs(c.was.Deg-c.now.Deg) < 1e-4
}

// sizeOfOpening finds which size of a group's opening a measure is.
func sizeOfOpening(g madeGroup, m book.Named[book.Measure]) (measureChange, bool) {
	need := slotOf(shapeNeed(m), g.Is["diagonal_from"].Word)
	s, has := g.Is[need]
	if !has || s.Num == nil {
		return measureChange{}, false
	}
	c := measureChange{measure: m.Name, need: need, now: book.Reading{Size: m.Is.Size, Deg: m.Is.Deg}}
	if strings.HasSuffix(need, "_deg") {
		c.was.Deg = s.Float()
	} else {
		c.was.Size = bookMM(s.Float())
	}
	return c, true
}

// slotOf is the need of a request that a diagonal is, by where its first one starts; other needs are
// what they are.
func slotOf(need, from string) string {
	switch {
	case need != rising && need != falling:
		return need
	case (need == falling) == (from == fromTopLeft):
		return "diagonal_mm"
	}
	return "diagonal2_mm"
}

// changedSlots are changed sizes as the request of a group has them.
func (a *Ask) changedSlots(changes []measureChange) map[string]speech.Slot {
	out := map[string]speech.Slot{}
	for _, c := range changes {
		out[c.need] = a.readingSlot(c.now)
	}
	return out
}

// readingSlot is a reading as if it had been said, in the project's unit.
func (a *Ask) readingSlot(r book.Reading) speech.Slot {
	if r.Deg != 0 {
		s := lengthOf(r.Deg)
		s.Unit = "deg"
		return s
	}
	mm := big.NewRat(int64(r.Size), int64(measure.Millimetre))
	if a.System != measure.Imperial {
		return speech.Slot{Num: mm, Said: mm, Unit: "mm"}
	}
	return speech.Slot{Num: mm, Said: big.NewRat(int64(r.Size), int64(measure.Inch)), Unit: "in"}
}

// markMade marks the parts of the groups that were made from one of the measures that changed, and
// offers their new sizes. measures are as they are with this message.
func (a *Ask) markMade(ans *Answer, measures []book.Named[book.Measure], changed []string) error {
	groups, err := a.joineryGroups()
	if err != nil || len(changed) == 0 {
		return err
	}
	parts, err := a.parts()
	if err != nil {
		return err
	}
	if without, more := notMadeFrom(groups, measures, changed); len(without) > 0 {
		ans.line(fmt.Sprintf("Made without the %s: the %s. Say it again with “for that opening” to take it in.", more, strings.Join(without, ", the ")))
	}
	for _, g := range groups {
		since := measuredSince(g, measures)
		if !slices.ContainsFunc(since, func(c measureChange) bool { return slices.Contains(changed, c.measure) }) {
			continue
		}
		now, _, _, err := a.remade(g.Name, a.changedSlots(since))
		if err != nil {
			ans.line(fmt.Sprintf("The %s was made from it and can't be made to the new size: %s.", g.Name, strings.TrimSuffix(err.Error(), ".")))
			continue
		}
		again, err := a.remakeNamed(g.Name, parts, now, asKept)
		if err != nil {
			return err
		}
		a.offerMade(ans, g.Name, since, parts, again.put)
	}
	return nil
}

// notMadeFrom names the groups that were made from measures of an opening of which another one was
// taken since, and that one. A corner counts for nothing where a diagonal is known.
func notMadeFrom(groups []madeGroup, measures []book.Named[book.Measure], changed []string) (without []string, more string) {
	for _, m := range measures {
		need := shapeNeed(m)
		if need == "" || !slices.Contains(changed, m.Name) {
			continue
		}
		for _, g := range groups {
			from, read := strings.CutPrefix(g.Is["read_as"].Word, measuredWord)
			names := strings.Split(from, ", ")
			_, fixed := g.Is["diagonal_mm"]
			known := slices.ContainsFunc(names, func(n string) bool { return sameMeasure(n, m.Name) })
			if read && !known && sameMeasure(thingShaped(m.Name), thingShaped(names[0])) && !(fixed && strings.HasSuffix(need, "_deg")) {
				without, more = append(without, g.Name), m.Name
			}
		}
		if len(without) > 0 {
			break
		}
	}
	return without, more
}

// offerMade marks the parts of a group whose sizes are others now and says the new ones.
func (a *Ask) offerMade(ans *Answer, group string, since []measureChange, parts, now []book.Named[book.Part]) {
	var sizes []string
	for _, p := range parts {
		i := slices.IndexFunc(now, func(n book.Named[book.Part]) bool { return store.Fold(n.Name) == store.Fold(p.Name) })
		if p.Is.From != group || i < 0 || sameSizes(p.Is, now[i].Is) {
			continue
		}
		p.Is.Stale = a.staleSince(since) + ", which makes it " + a.partSizes(now[i].Is)
		ans.effects = append(ans.effects, put(a.Project.ID, book.WhatPart, p.Name, p.Is))
		sizes = append(sizes, p.Name+" "+a.partSizes(now[i].Is))
	}
	if len(sizes) > 0 {
		ans.line(fmt.Sprintf("The %s was made from it. New sizes: %s. Say “remake the %s” to take them.", group, strings.Join(sizes, "; "), group))
	}
}

// sameSizes says whether two parts are cut alike.
func sameSizes(p, q book.Part) bool {
	return p.Length == q.Length && p.Width == q.Width && p.Thickness == q.Thickness && p.LeftDeg == q.LeftDeg && p.RightDeg == q.RightDeg
}

// staleSince says which measures changed since a part was made from them.
func (a *Ask) staleSince(since []measureChange) string {
	texts := make([]string, len(since))
	for i, c := range since {
		texts[i] = fmt.Sprintf("the %s it was made from is %s now, was %s", c.measure, a.readingText(c.now), a.readingText(c.was))
	}
	return strings.Join(texts, ", ")
}

// anyGroup opens the word that says which group is to be remade: alone it is the one whose measures
// changed.
const anyGroup = "remake "

// takeMeasured completes a wish to remake a group with the measures as they are now. It gives an
// answer instead where there is nothing to remake, or more than one group.
func (a *Ask) takeMeasured() *Answer {
	groups, err := a.joineryGroups()
	if err != nil {
		q := ask(store.Sentence(err))
		return &q
	}
	measures, err := a.measures()
	if err != nil {
		q := ask(store.Sentence(err))
		return &q
	}
	said := strings.TrimSpace(strings.TrimPrefix(a.Word("remake"), strings.TrimSpace(anyGroup)))
	delete(a.Request.Slots, "remake")
	fits := slices.DeleteFunc(slices.Clone(groups), func(g madeGroup) bool {
		if said == "" || said == theOne {
			return len(measuredSince(g, measures)) == 0
		}
		return !namesGroup(said, g.Name)
	})
	if said == theOne && len(groups) == 1 {
		fits = groups
	}
	switch {
	case len(fits) == 0:
		q := ask("I know of nothing to remake. Say what was measured, then for instance “a door for that opening”.")
		return &q
	case len(fits) > 1:
		names := make([]string, len(fits))
		for i, g := range fits {
			names[i] = "“remake the " + g.Name + "”"
		}
		q := ask("Which one? Say " + strings.Join(names, " or ") + ".")
		q.echo = true
		return &q
	}
	clear(a.Request.Slots)
	for need, s := range fits[0].Is {
		a.Request.Slots[need] = s
	}
	for need, s := range a.changedSlots(measuredSince(fits[0], measures)) {
		a.Request.Slots[need] = s
	}
	a.Request.Slots["name"] = speech.Slot{Word: fits[0].Name}
	return nil
}

// namesGroup says whether every word that was said is one of a group's name: the door, of the
// stable door.
func namesGroup(said, name string) bool {
	have := stemsOf(name)
	return !slices.ContainsFunc(stemsOf(said), func(w string) bool { return !slices.Contains(have, w) })
}
