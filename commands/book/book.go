// Package book is a project's book: what is known of its parts, timber, measures, people and
// clamps, as the types in which it stands in the store. Topics read it here and write it by
// effects; what shows or exports the book reads it here too.
package book

import (
	"encoding/json"
	"fmt"

	"fettle/store"
)

// The kinds of things that stand in a project's book. Each is a name and one of the types of
// this package.
const (
	WhatPart    = "part"    // Part
	WhatBoard   = "board"   // Board
	WhatMeasure = "measure" // Measure
	WhatClaim   = "claim"   // Claim, by the name of a part or of any task
	WhatDone    = "done"    // Done, by the name of a part or of any task
	WhatTimer   = "timer"   // Timer
	WhatCalled  = "called"  // Called, by the name of a timer
	WhatJoinery = "joinery" // what a group of parts was made from; the topic's own
	WhatPlan    = "plan"    // the cut plan that holds; the topic's own
	WhatHours   = "hours"   // the workshop's opening times; the topic's own
)

// Named is a thing of the book with its name.
type Named[T any] struct {
	Name string
	Is   T
}

// Parts reads the parts in the order in which they were first added.
func Parts(tx *store.Tx, project int64) ([]Named[Part], error) {
	return All[Part](tx, project, WhatPart)
}

// Boards reads the boards and sheets on hand.
func Boards(tx *store.Tx, project int64) ([]Named[Board], error) {
	return All[Board](tx, project, WhatBoard)
}

// Measures reads what was measured.
func Measures(tx *store.Tx, project int64) ([]Named[Measure], error) {
	return All[Measure](tx, project, WhatMeasure)
}

// Claims reads who is on what.
func Claims(tx *store.Tx, project int64) ([]Named[Claim], error) {
	return All[Claim](tx, project, WhatClaim)
}

// DoneSoFar reads how far the work on each part has come.
func DoneSoFar(tx *store.Tx, project int64) ([]Named[Done], error) {
	return All[Done](tx, project, WhatDone)
}

// Timers reads the glue-ups.
func Timers(tx *store.Tx, project int64) ([]Named[Timer], error) {
	return All[Timer](tx, project, WhatTimer)
}

// All reads a project's things of one kind in the order in which they were first added.
func All[T any](tx *store.Tx, project int64, what string) ([]Named[T], error) {
	things, err := tx.Things(project, what)
	if err != nil {
		return nil, err
	}
	out := make([]Named[T], len(things))
	for i, t := range things {
		out[i].Name = t.Name
		if err := json.Unmarshal(t.Data, &out[i].Is); err != nil {
			return nil, fmt.Errorf("read %s %q: %w", what, t.Name, err)
		}
	}
	return out, nil
}

// One reads the thing with a name, and whether there is one.
func One[T any](tx *store.Tx, project int64, what, name string) (Named[T], bool, error) {
	t, ok, err := tx.Thing(project, what, name)
	if err != nil || !ok {
		return Named[T]{}, false, err
	}
	n := Named[T]{Name: t.Name}
	if err := json.Unmarshal(t.Data, &n.Is); err != nil {
		return n, false, fmt.Errorf("read %s %q: %w", what, name, err)
	}
	return n, true, nil
}
