package commands

import (
	"encoding/json"
	"fmt"

	"fettle/store"
)

// effect is a change to the project that an answer makes, on behalf of the message's entry.
// Answers only describe their effects; they are carried out once the message is in the log.
type effect func(tx *store.Tx, entry int64) ([]store.Change, error)

// put adds a thing or changes it.
func put(project int64, what, name string, data any) effect {
	return func(tx *store.Tx, entry int64) ([]store.Change, error) {
		c, err := tx.Put(entry, project, what, name, data)
		return []store.Change{c}, err
	}
}

// remove takes a thing away.
func remove(project int64, what, name string) effect {
	return func(tx *store.Tx, entry int64) ([]store.Change, error) {
		c, err := tx.Remove(entry, project, what, name)
		return []store.Change{c}, err
	}
}

// takeBack undoes what an entry did.
func takeBack(of int64) effect {
	return func(tx *store.Tx, entry int64) ([]store.Change, error) { return tx.Undo(entry, of) }
}

// Place is what is remembered of a place beside its log: which project is talked about there
// and how the program behaves.
type Place struct {
	Project string `json:"project"`           // the name of the project
	Listen  bool   `json:"listen,omitempty"`  // answers unasked what it surely understands
	Threads bool   `json:"threads,omitempty"` // answers in threads always
}

// LoadPlace reads what is remembered of a place. One that is new has the project given.
func LoadPlace(tx *store.Tx, place, project string) (Place, error) {
	p := Place{Project: project}
	t, ok, err := tx.Thing(store.NoProject, whatPlace, place)
	if err != nil || !ok {
		return p, err
	}
	if err := json.Unmarshal(t.Data, &p); err != nil {
		return p, fmt.Errorf("read place %s: %w", place, err)
	}
	return p, nil
}
