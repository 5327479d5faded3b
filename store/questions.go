package store

import (
	"fmt"
	"time"
)

// Ask notes that a question was asked back about a message, to the person at the place. A message
// that was asked about before is open again.
func (t *Tx) Ask(entry int64, place, whoKey string, at time.Time) error {
	_, err := t.exec(`
		INSERT INTO questions (entry_id, place, who_key, asked_at_ms) VALUES (?, ?, ?, ?)
		ON CONFLICT (entry_id) DO UPDATE SET asked_at_ms = excluded.asked_at_ms, closed_by = NULL`,
		entry, place, whoKey, at.UnixMilli())
	if err != nil {
		return fmt.Errorf("ask about entry %d: %w", entry, err)
	}
	return nil
}

// OpenQuestions returns the messages at a place that were asked about at or after since and whose
// question is open, the one asked last first.
func (t *Tx) OpenQuestions(place string, since time.Time) ([]Entry, error) {
	return t.entries("open questions", `
		SELECT `+entryColumns+` FROM questions q JOIN entries e ON e.id = q.entry_id
		WHERE q.place = ? AND q.asked_at_ms >= ? AND q.closed_by IS NULL
		ORDER BY q.asked_at_ms DESC, q.entry_id DESC`, place, since.UnixMilli())
}

// Close notes that the question about a message was answered, or overtaken, by another entry. One
// that is closed stays as it is. ErrNotFound if nothing was ever asked about the message.
func (t *Tx) Close(entry, by int64) error {
	n, err := t.exec("UPDATE questions SET closed_by = coalesce(closed_by, ?) WHERE entry_id = ?", by, entry)
	if err == nil && n == 0 {
		err = ErrNotFound
	}
	if err != nil {
		return fmt.Errorf("close the question about entry %d: %w", entry, err)
	}
	return nil
}
