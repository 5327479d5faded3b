package commands

import (
	"encoding/json"
	"fmt"
	"slices"

	"fettle/commands/book"
	"fettle/store"
)

// booked reads the project's things of one kind as this message finds them. A message that
// corrects an earlier one, or is a new wording of it, finds them without what that one did: it
// will be taken back before this one's effects.
func booked[T any](a *Ask, what string) ([]book.Named[T], error) {
	all, err := book.All[T](a.Tx, a.Project.ID, what)
	if err != nil || len(a.instead) == 0 {
		return all, err
	}
	cs, err := a.replacedChanges(what)
	if err != nil {
		return nil, err
	}
	for _, c := range slices.Backward(cs) {
		if all, err = without(all, c); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// replacedChanges lists what the entries that this message takes the place of did to things of one kind and
// what is in force of it, in the order in which it was done. What one of them took back of another
// cancels out.
func (a *Ask) replacedChanges(what string) (out []store.Change, err error) {
	theirs := map[int64]bool{}
	for _, entry := range slices.Sorted(slices.Values(a.instead)) {
		cs, err := a.Tx.ChangesBy(entry)
		if err != nil {
			return nil, err
		}
		for _, c := range cs {
			theirs[c.ID] = true
			if c.What == what && !c.Undone && c.Project == a.Project.ID && !theirs[c.Undoes] {
				out = append(out, c)
			}
		}
	}
	return out, nil
}

// without takes one change back in a list.
func without[T any](all []book.Named[T], c store.Change) ([]book.Named[T], error) {
	at := slices.IndexFunc(all, func(n book.Named[T]) bool { return store.Fold(n.Name) == store.Fold(c.Name) })
	if c.Before == nil {
		if at >= 0 {
			all = slices.Delete(all, at, at+1)
		}
		return all, nil
	}
	was := book.Named[T]{Name: c.Name}
	if err := json.Unmarshal(c.Before, &was.Is); err != nil {
		return nil, fmt.Errorf("read what %s was: %w", c.Name, err)
	}
	if at < 0 {
		return append(all, was), nil
	}
	all[at] = was
	return all, nil
}

// parts reads the list of parts as this message finds it.
func (a *Ask) parts() ([]book.Named[book.Part], error) { return booked[book.Part](a, book.WhatPart) }

// stocked reads the timber on hand as this message finds it.
func (a *Ask) stocked() ([]book.Named[book.Board], error) {
	return booked[book.Board](a, book.WhatBoard)
}

// measures reads what was measured as this message finds it.
func (a *Ask) measures() ([]book.Named[book.Measure], error) {
	return booked[book.Measure](a, book.WhatMeasure)
}

// timers reads the glue-ups as this message finds them.
func (a *Ask) timers() ([]book.Named[book.Timer], error) {
	return booked[book.Timer](a, book.WhatTimer)
}

// claims reads who is on what as this message finds it.
func (a *Ask) claims() ([]book.Named[book.Claim], error) {
	return booked[book.Claim](a, book.WhatClaim)
}

// doneSoFar reads how far the work has come as this message finds it.
func (a *Ask) doneSoFar() ([]book.Named[book.Done], error) {
	return booked[book.Done](a, book.WhatDone)
}
