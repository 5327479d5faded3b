package commands

import (
	"fmt"
	"maps"
	"math"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"fettle/calc/joinery"
	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// keepJoinery keeps what a group of parts was made from, so that it can be made again with
// something changed.
func keepJoinery(project int64, name string, slots map[string]speech.Slot) effect {
	return put(project, book.WhatJoinery, name, maps.Clone(slots))
}

// joineryParts are the parts as they stand in the book, before they have their names there.
func joineryParts(m joinery.Made, a *Ask) []book.Named[book.Part] {
	out := make([]book.Named[book.Part], len(m.Parts))
	measured := strings.HasPrefix(a.Word("read_as"), measuredWord)
	for i, p := range m.Parts {
		out[i] = book.Named[book.Part]{Name: p.Name, Is: book.Part{
			Quantity: p.Quantity, Length: bookMM(p.LengthMM), Width: bookMM(p.WidthMM), Thickness: bookMM(p.ThicknessMM), Species: materialOf(p, a.Word("species")),
			Group: a.Word("name"), From: a.Word("name"), LeftDeg: bookDeg(p.LeftDeg), RightDeg: bookDeg(p.RightDeg), Note: a.bookNote(p), Measured: measured,
		}}
		if p.AnyGrain {
			out[i].Is.Grain = "free"
		}
	}
	return out
}

// materialOf is a timber by its ID, as topics have it, or what a panel is of.
func materialOf(p joinery.Part, species string) string {
	switch p.Material {
	case joinery.Plywood, joinery.Acrylic, joinery.Glass:
		return p.Material
	}
	return species
}

// bookMM keeps a size to a hundredth of a millimetre: finer than anything is cut, and coarse
// enough to be read.
func bookMM(mm float64) book.MM {
	l, err := measure.FromMM(math.Round(mm*100) / 100)
	if err != nil { // joinery refuses sizes that long
		return 0
	}
	return book.MM(l)
}

// bookDeg keeps an angle to a ten-thousandth of a degree, which is a hundredth of a millimetre on
// the longest part; a square end is 0.
func bookDeg(deg float64) float64 {
	kept := math.Round(deg*1e4) / 1e4
	if kept == 90 {
		return 0
	}
	return kept
}

// hundredth prints a size to a hundredth of a mm, or as near as an inch rule shows it.
func (a *Ask) hundredth(mm float64) string {
	if a.Out() == measure.Imperial {
		return a.text(mm, measure.Nearest)
	}
	return measure.Decimal(mm, 2) + " mm"
}

// bookNote says what the sizes do not: how much of the length is tenon.
func (a *Ask) bookNote(p joinery.Part) string {
	if p.TenonMM == 0 {
		return p.Note
	}
	note := fmt.Sprintf("%s of tenon at each end, %s between the shoulders along the reference edge.", a.hundredth(p.TenonMM), a.hundredth(p.EdgeMM))
	if p.Note != "" {
		note += " " + p.Note
	}
	return note
}

// remakeParts puts the parts of a group in the place of those that it had.
func remakeParts(project int64, group string, named []book.Named[book.Part]) effect {
	return func(tx *store.Tx, entry int64) ([]store.Change, error) {
		all, err := book.Parts(tx, project)
		if err != nil {
			return nil, err
		}
		var out []store.Change
		for _, p := range named {
			c, err := tx.Put(entry, project, book.WhatPart, p.Name, p.Is)
			if err != nil {
				return nil, fmt.Errorf("put %s of %s: %w", p.Name, group, err)
			}
			out = append(out, c)
		}
		for _, old := range all {
			kept := slices.ContainsFunc(named, func(p book.Named[book.Part]) bool { return store.Fold(p.Name) == store.Fold(old.Name) })
			if old.Is.From != group || kept {
				continue
			}
			c, err := tx.Remove(entry, project, book.WhatPart, old.Name)
			if err != nil {
				return nil, fmt.Errorf("take away %s of %s: %w", old.Name, group, err)
			}
			out = append(out, c)
		}
		return out, nil
	}
}

// joineryNamed gives the parts their names in the book: where another group has a part of the
// name already, the group's own name goes before it.
func joineryNamed(all []book.Named[book.Part], group string, parts []book.Named[book.Part]) []book.Named[book.Part] {
	taken := map[string]bool{}
	for _, p := range all {
		if p.Is.From != group {
			taken[store.Fold(p.Name)] = true
		}
	}
	out := slices.Clone(parts)
	for i := range out {
		name := out[i].Name
		if taken[store.Fold(name)] {
			name = group + " " + name
		}
		for n := 2; taken[store.Fold(name)]; n++ {
			name = group + " " + out[i].Name + " " + strconv.Itoa(n)
		}
		out[i].Name = name
	}
	return out
}

// remade works out the parts of a group again from the request that was kept, with some of it
// changed: when a measure that it was made from has changed. It gives the parts as they would stand
// in the book, all that was made, and false when no such group is kept.
func (a *Ask) remade(group string, changed map[string]speech.Slot) ([]book.Named[book.Part], joinery.Made, bool, error) {
	old, ok, err := book.One[map[string]speech.Slot](a.Tx, a.Project.ID, book.WhatJoinery, group)
	if err != nil || !ok {
		return nil, joinery.Made{}, false, err
	}
	slots := maps.Clone(old.Is)
	maps.Copy(slots, changed)
	again := *a
	again.Request = speech.Request{Topic: "joinery", Slots: slots}
	m, err := again.joineryMade()
	if err != nil {
		return nil, joinery.Made{}, false, err
	}
	all, err := book.Parts(a.Tx, a.Project.ID)
	if err != nil {
		return nil, joinery.Made{}, false, err
	}
	return joineryNamed(all, old.Name, joineryParts(m, &again)), m, true, nil
}

// lengthOf is a length in mm as if it had been said.
func lengthOf(mm float64) speech.Slot {
	n, _ := new(big.Rat).SetString(measure.Decimal(mm, 4))
	return speech.Slot{Num: n, Said: n, Unit: "mm"}
}
