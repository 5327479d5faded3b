package store

import "fmt"

// Talk returns what was said at a place, and anywhere about a project: the messages and answers
// with a lower id than before (0: all), the newest first, at most limit. Edits and deletions are
// not among them; see About.
func (t *Tx) Talk(place string, project, before int64, limit int) ([]Entry, error) {
	return t.entries("what was said", `
		SELECT `+entryColumns+` FROM entries e
		WHERE (e.place = ? OR e.project_id = ?) AND e.id < ? AND e.kind IN ('message', 'answer')
		ORDER BY e.id DESC LIMIT ?`, place, project, bound(before), limit)
}

// TalkSince returns all entries of the same talk with a higher id than after, edits and deletions
// too, oldest first, at most limit.
func (t *Tx) TalkSince(place string, project, after int64, limit int) ([]Entry, error) {
	return t.entries("what was said since", `
		SELECT `+entryColumns+` FROM entries e
		WHERE (e.place = ? OR e.project_id = ?) AND e.id > ?
		ORDER BY e.id LIMIT ?`, place, project, after, limit)
}

// LastEntry returns the id of the newest entry of the log, 0 if it is empty.
func (t *Tx) LastEntry() (id int64, err error) {
	if _, err := t.row("SELECT coalesce(max(id), 0) FROM entries", nil, &id); err != nil {
		return 0, fmt.Errorf("newest entry: %w", err)
	}
	return id, nil
}
