package store

import (
	"fmt"
	"time"
)

// Talk returns what was said at a place, and anywhere about a project: the messages and answers
// with a lower id than before (0: all), the newest first, at most limit. Edits and deletions are
// not among them; see About.
func (t *Tx) Talk(place string, project, before int64, limit int) ([]Entry, error) {
	const said = "id < ? AND kind IN ('message', 'answer') ORDER BY id DESC LIMIT ?"
	return t.talk("what was said", said, "DESC", place, project, bound(before), limit)
}

// TalkSince returns all entries of the same talk with a higher id than after, edits and deletions
// too, oldest first, at most limit.
func (t *Tx) TalkSince(place string, project, after int64, limit int) ([]Entry, error) {
	return t.talk("what was said since", "id > ? ORDER BY id LIMIT ?", "ASC", place, project, after, limit)
}

// talk finds the first of a place and of a project apart, each by its own index, and then the first
// of both: however long the log is, no more than twice the limit is read.
func (t *Tx) talk(doing, which, order, place string, project, from int64, limit int) ([]Entry, error) {
	return t.entries(doing, `
		SELECT `+entryColumns+` FROM entries e WHERE e.id IN (
			SELECT id FROM (SELECT id FROM entries INDEXED BY entries_by_place WHERE place = ? AND `+which+`)
			UNION
			SELECT id FROM (SELECT id FROM entries INDEXED BY entries_by_project WHERE project_id = ? AND `+which+`))
		ORDER BY e.id `+order+` LIMIT ?`, place, from, limit, project, from, limit, limit)
}

// Talkers returns the keys of those who wrote any of the last messages at a place, since a time,
// in no order. At most so many messages are looked at.
func (t *Tx) Talkers(place string, since time.Time, last int) ([]string, error) {
	keys, err := list(t, func(scan scanner) (key string, err error) {
		return key, scan(&key)
	}, `SELECT DISTINCT who_key FROM (
			SELECT who_key, at_ms FROM entries INDEXED BY entries_by_place WHERE place = ? AND kind = 'message' ORDER BY id DESC LIMIT ?)
		WHERE at_ms >= ?`, place, last, since.UnixMilli())
	if err != nil {
		return nil, fmt.Errorf("who spoke at %s: %w", place, err)
	}
	return keys, nil
}

// LastEntry returns the id of the newest entry of the log, 0 if it is empty.
func (t *Tx) LastEntry() (id int64, err error) {
	if _, err := t.row("SELECT coalesce(max(id), 0) FROM entries", nil, &id); err != nil {
		return 0, fmt.Errorf("newest entry: %w", err)
	}
	return id, nil
}
