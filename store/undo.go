package store

import (
	"bytes"
	"fmt"
)

// Undo takes back, on behalf of entry by, everything that entry of changed and that has not been
// taken back yet, newest first, and returns the changes that this made. Afterwards each thing
// stands exactly as it stood before. Taking back an undo puts what it took back in force again.
//
// If a later change by another entry stands on top of any of them the error is ErrChangedSince (a
// *ChangedSince) and nothing is changed. With nothing to take back the result is empty.
func (t *Tx) Undo(by, of int64) ([]Change, error) {
	todo, err := list(t, readChange, `
		SELECT `+changeColumns+` FROM changes c
		WHERE c.entry_id = ? AND c.undone_by IS NULL ORDER BY c.id DESC`, of)
	if err != nil {
		return nil, fmt.Errorf("undo: %w", err)
	}
	if err := t.nothingOnTop(todo); err != nil {
		return nil, fmt.Errorf("undo: %w", err)
	}
	var done []Change
	for _, c := range todo {
		reversed, err := t.reverse(by, c)
		if err != nil {
			return nil, fmt.Errorf("undo: %w", err)
		}
		done = append(done, reversed)
	}
	return done, nil
}

// nothingOnTop returns a *ChangedSince if any of the changes, which are all of one entry and come
// newest first, is not the last word on its thing.
func (t *Tx) nothingOnTop(todo []Change) error {
	type key struct {
		project    int64
		what, name string
	}
	seen := map[key]bool{}
	for _, c := range todo {
		if err := t.noLaterChange(c); err != nil {
			return err
		}
		// Only the newest change to a thing shows in its present state.
		k := key{c.Project, c.What, Fold(c.Name)}
		if seen[k] {
			continue
		}
		seen[k] = true
		if err := t.stillAsLeft(c); err != nil {
			return err
		}
	}
	return nil
}

// noLaterChange looks for a change by another entry, later than c, that is in force.
func (t *Tx) noLaterChange(c Change) error {
	return t.blockedBy(c, `
		SELECT c.entry_id, e.who, e.at_ms FROM changes c JOIN entries e ON e.id = c.entry_id
		WHERE c.project_id = ? AND c.what = ? AND c.folded = ? AND c.id > ? AND c.entry_id <> ?
			AND c.undoes IS NULL AND c.undone_by IS NULL
		ORDER BY c.id DESC LIMIT 1`,
		c.Project, c.What, Fold(c.Name), c.ID, c.Entry)
}

// stillAsLeft makes sure that the thing stands as c left it. An older change that was put in force
// again since can make it stand otherwise.
func (t *Tx) stillAsLeft(c Change) error {
	thing, _, err := t.Thing(c.Project, c.What, c.Name)
	if err != nil || bytes.Equal(thing.Data, c.After) {
		return err
	}
	return t.blockedBy(c, `
		SELECT c.entry_id, e.who, e.at_ms FROM changes c JOIN entries e ON e.id = c.entry_id
		WHERE c.project_id = ? AND c.what = ? AND c.folded = ?
		ORDER BY c.id DESC LIMIT 1`,
		c.Project, c.What, Fold(c.Name))
}

// blockedBy returns the *ChangedSince for the first row of a query, nil if it has none.
func (t *Tx) blockedBy(c Change, query string, args ...any) error {
	blocked := &ChangedSince{What: c.What, Name: c.Name}
	var ms int64
	found, err := t.row(query, args, &blocked.Entry, &blocked.Who, &ms)
	if err != nil || !found {
		return err
	}
	blocked.At = fromMillis(ms)
	return blocked
}

// reverse makes the opposite of c come true, on behalf of entry by.
func (t *Tx) reverse(by int64, c Change) (Change, error) {
	opposite := map[string]string{Added: Removed, Changed: Changed, Removed: Added}
	reversed, err := t.change(Change{
		Entry: by, Project: c.Project, What: c.What, Name: c.Name, Op: opposite[c.Op],
		Before: c.After, After: c.Before, Undoes: c.ID,
	})
	if err != nil {
		return Change{}, err
	}
	return reversed, t.markUndone(c, reversed.ID)
}

// markUndone notes that c was taken back. If c itself took something back, that is in force again;
// and if that one had taken something back, it is out of force again; and so on.
func (t *Tx) markUndone(c Change, by int64) error {
	for id, undone := c.ID, by; id != 0; {
		var target int64
		_, err := t.row("UPDATE changes SET undone_by = ? WHERE id = ? RETURNING coalesce(undoes, 0)",
			[]any{nullableID(undone), id}, &target)
		if err != nil {
			return fmt.Errorf("mark change %d: %w", id, err)
		}
		if undone == 0 {
			undone = id
		} else {
			undone = 0
		}
		id = target
	}
	return nil
}

// LastUndoable returns the newest entry in a project, or at a place if that is not "", by the person
// with this key or by anyone if it is "", that changed something which is still in force, and
// whether there is one. The place counts so that a change of project itself can be taken back.
// With before other than 0, only entries with a lower id count. Taking back an undo is not offered.
func (t *Tx) LastUndoable(project int64, place, whoKey string, before int64) (Entry, bool, error) {
	return t.oneEntry("last undoable entry", `
		SELECT `+entryColumns+` FROM changes c CROSS JOIN entries e ON e.id = c.entry_id
		WHERE c.undoes IS NULL AND c.undone_by IS NULL AND c.entry_id < ?
			AND (e.project_id = ? OR ? <> '' AND e.place = ?) AND (? = '' OR e.who_key = ?)
		ORDER BY c.entry_id DESC LIMIT 1`, bound(before), project, place, place, whoKey, whoKey)
}

// TakenBackBy lists the entries of which an entry took back something.
func (t *Tx) TakenBackBy(entry int64) ([]int64, error) {
	all, err := list(t, func(scan scanner) (id int64, err error) {
		err = scan(&id)
		return id, err
	}, `
		SELECT DISTINCT of.entry_id FROM changes c JOIN changes of ON of.id = c.undoes
		WHERE c.entry_id = ? AND of.entry_id <> c.entry_id ORDER BY of.entry_id`, entry)
	if err != nil {
		return nil, fmt.Errorf("taken back by an entry: %w", err)
	}
	return all, nil
}
