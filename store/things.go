package store

import (
	"bytes"
	"database/sql"
	"encoding/json"
	"fmt"
)

// Thing is a piece of a project's state: a part, a board, a measure, a setting and so on.
type Thing struct {
	Name string // as it was typed when it was added
	What string // the kind of thing
	Data json.RawMessage
}

// The operations of a Change.
const (
	Added   = "add"
	Changed = "change"
	Removed = "remove"
)

// Change is what an entry did to a thing.
type Change struct {
	ID      int64
	Entry   int64 // the entry that did it
	Project int64
	What    string
	Name    string
	Op      string          // Added, Changed, Removed, or "" for a Put that changed nothing
	Before  json.RawMessage // nil if it was added
	After   json.RawMessage // nil if it was removed
	Undoes  int64           // the change that this one takes back, or 0
	Undone  bool            // whether it has been taken back itself
}

// Thing returns the thing with a name, folded as Fold does, and whether there is one.
func (t *Tx) Thing(project int64, what, name string) (Thing, bool, error) {
	thing, found, err := first(list(t, readThing, `
		SELECT name, what, data FROM things
		WHERE project_id = ? AND what = ? AND folded = ? AND data IS NOT NULL`, project, what, Fold(name)))
	if err != nil {
		return Thing{}, false, fmt.Errorf("%s %q: %w", what, name, err)
	}
	return thing, found, nil
}

// Things returns a project's things of one kind in the order in which they were first added.
func (t *Tx) Things(project int64, what string) ([]Thing, error) {
	all, err := list(t, readThing, `
		SELECT name, what, data FROM things
		WHERE project_id = ? AND what = ? AND data IS NOT NULL ORDER BY id`, project, what)
	if err != nil {
		return nil, fmt.Errorf("things %s: %w", what, err)
	}
	return all, nil
}

// Owned is a thing and the project that it belongs to.
type Owned struct {
	Project int64
	Thing
}

// ThingsEverywhere returns the things of one kind of all projects, in the order in which they
// were first added.
func (t *Tx) ThingsEverywhere(what string) ([]Owned, error) {
	all, err := list(t, func(scan scanner) (o Owned, err error) {
		o.Thing, err = readThing(func(to ...any) error { return scan(append([]any{&o.Project}, to...)...) })
		return o, err
	}, "SELECT project_id, name, what, data FROM things WHERE what = ? AND data IS NOT NULL ORDER BY id", what)
	if err != nil {
		return nil, fmt.Errorf("things %s of all projects: %w", what, err)
	}
	return all, nil
}

func readThing(scan scanner) (Thing, error) {
	var thing Thing
	var data string
	err := scan(&thing.Name, &thing.What, &data)
	thing.Data = json.RawMessage(data)
	return thing, err
}

// Put adds a thing or changes it, on behalf of an entry, and returns what that changed. data is
// kept as encoding/json writes it. A thing that is there keeps the name under which it was added;
// one that was removed comes back under the new name, at its old place in the order. A Put that
// changes nothing is not recorded and returns a Change whose Op is "". A blank name is ErrNoName.
func (t *Tx) Put(entry, project int64, what, name string, data any) (Change, error) {
	after, err := json.Marshal(data)
	if err != nil {
		return Change{}, fmt.Errorf("put %s %q: %w", what, name, err)
	}
	before, found, err := t.Thing(project, what, name)
	if err != nil {
		return Change{}, fmt.Errorf("put: %w", err)
	}
	c := Change{Entry: entry, Project: project, What: what, Name: name, Op: Added, After: after}
	if found {
		c.Name, c.Op, c.Before = before.Name, Changed, before.Data
	}
	if found && bytes.Equal(c.Before, after) {
		c.Op = ""
		return c, nil
	}
	return t.change(c)
}

// Remove takes a thing away, on behalf of an entry, and returns what that changed. ErrNotFound if
// there is no such thing.
func (t *Tx) Remove(entry, project int64, what, name string) (Change, error) {
	before, found, err := t.Thing(project, what, name)
	if err == nil && !found {
		err = fmt.Errorf("%s %q: %w", what, name, ErrNotFound)
	}
	if err != nil {
		return Change{}, fmt.Errorf("remove: %w", err)
	}
	return t.change(Change{
		Entry: entry, Project: project, What: what, Name: before.Name, Op: Removed, Before: before.Data,
	})
}

// change makes c come true and records it.
func (t *Tx) change(c Change) (Change, error) {
	folded := Fold(c.Name)
	if folded == "" {
		return Change{}, fmt.Errorf("%s: %w", c.What, ErrNoName)
	}
	_, err := t.exec(`
		INSERT INTO things (project_id, what, name, folded, data) VALUES (?, ?, ?, ?, ?)
		ON CONFLICT (project_id, what, folded) DO UPDATE SET name = excluded.name, data = excluded.data`,
		c.Project, c.What, c.Name, folded, nullable(string(c.After)))
	if err == nil {
		_, err = t.row(`
			INSERT INTO changes (entry_id, project_id, what, name, folded, op, before, after, undoes)
			VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?) RETURNING id`,
			[]any{c.Entry, c.Project, c.What, c.Name, folded, c.Op, nullable(string(c.Before)),
				nullable(string(c.After)), nullableID(c.Undoes)}, &c.ID)
	}
	if err != nil {
		return Change{}, fmt.Errorf("%s %s %q: %w", c.Op, c.What, c.Name, err)
	}
	return c, nil
}

const changeColumns = `c.id, c.entry_id, c.project_id, c.what, c.name, c.op, c.before, c.after, c.undoes,
	c.undone_by IS NOT NULL`

func readChange(scan scanner) (Change, error) {
	var c Change
	var before, after sql.NullString
	var undoes sql.NullInt64
	err := scan(&c.ID, &c.Entry, &c.Project, &c.What, &c.Name, &c.Op, &before, &after, &undoes, &c.Undone)
	c.Before, c.After, c.Undoes = raw(before), raw(after), undoes.Int64
	return c, err
}

// ChangesBy returns what an entry did, in the order in which it did it.
func (t *Tx) ChangesBy(entry int64) ([]Change, error) {
	all, err := list(t, readChange, "SELECT "+changeColumns+" FROM changes c WHERE c.entry_id = ? ORDER BY c.id", entry)
	if err != nil {
		return nil, fmt.Errorf("changes by an entry: %w", err)
	}
	return all, nil
}

// ChangesTo returns the history of one thing, oldest first.
func (t *Tx) ChangesTo(project int64, what, name string) ([]Change, error) {
	all, err := list(t, readChange, `
		SELECT `+changeColumns+` FROM changes c
		WHERE c.project_id = ? AND c.what = ? AND c.folded = ? ORDER BY c.id`, project, what, Fold(name))
	if err != nil {
		return nil, fmt.Errorf("changes to a thing: %w", err)
	}
	return all, nil
}
