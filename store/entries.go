package store

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"math"
	"time"
)

// The kinds of entries in the log.
const (
	Message  = "message"  // somebody said something
	Answer   = "answer"   // what was answered; About is the message
	Edit     = "edit"     // a message was rewritten; About is the message, Text the new text
	Deletion = "deletion" // a message was taken back; About is the message
)

// Entry is one line of the log.
type Entry struct {
	ID      int64
	Project int64
	Place   string    // where it was said
	Thread  string    // the root of the thread there, or ""
	WhoKey  string    // the person's own id there
	Who     string    // the name that the person goes by
	Kind    string    // Message, Answer, Edit or Deletion
	Key     string    // the source's own id, unique in the log, or ""
	About   int64     // the entry that this one is about, or 0
	At      time.Time // UTC, whole milliseconds; the zero time given to Add means now
	Text    string
	Topic   string          // what it was about, or ""
	Request json.RawMessage // what was understood, or nil
	Answer  json.RawMessage // the answer as data, or nil
}

const entryColumns = `e.id, e.project_id, e.place, e.thread, e.who_key, e.who, e.kind, e.key, e.about,
	e.at_ms, e.text, e.topic, e.request, e.answer`

func readEntry(scan scanner) (Entry, error) {
	var e Entry
	var key, request, answer sql.NullString
	var about sql.NullInt64
	var ms int64
	err := scan(&e.ID, &e.Project, &e.Place, &e.Thread, &e.WhoKey, &e.Who, &e.Kind, &key, &about,
		&ms, &e.Text, &e.Topic, &request, &answer)
	e.Key, e.About, e.At = key.String, about.Int64, fromMillis(ms)
	e.Request, e.Answer = raw(request), raw(answer)
	return e, err
}

// Add writes e into the log and returns its id, which is higher than that of every entry before.
// An e.Key that the log knows already is ErrDuplicate, and then nothing is written.
func (t *Tx) Add(e Entry) (id int64, err error) {
	at := e.At
	if at.IsZero() {
		at = t.now()
	}
	added, err := t.row(`
		INSERT INTO entries (project_id, place, thread, who_key, who, who_folded, kind, key, about,
			at_ms, text, topic, request, answer)
		VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)
		ON CONFLICT (key) DO NOTHING
		RETURNING id`,
		[]any{e.Project, e.Place, e.Thread, e.WhoKey, e.Who, Fold(e.Who), e.Kind, nullable(e.Key),
			nullableID(e.About), at.UnixMilli(), e.Text, e.Topic, nullable(string(e.Request)),
			nullable(string(e.Answer))},
		&id)
	if err == nil && !added {
		err = ErrDuplicate
	}
	if err != nil {
		return 0, fmt.Errorf("add %s %q to the log: %w", e.Kind, e.Key, err)
	}
	return id, nil
}

// EntryByID returns the entry with this id, and whether there is one.
func (t *Tx) EntryByID(id int64) (Entry, bool, error) {
	return t.oneEntry("entry by id", "SELECT "+entryColumns+" FROM entries e WHERE e.id = ?", id)
}

// EntryByKey returns the entry with the source's own id, and whether there is one.
func (t *Tx) EntryByKey(key string) (Entry, bool, error) {
	return t.oneEntry("entry by key", "SELECT "+entryColumns+" FROM entries e WHERE e.key = ?", key)
}

// AnswersTo returns the answers to a message, oldest first.
func (t *Tx) AnswersTo(id int64) ([]Entry, error) {
	return t.entries("answers to a message", `
		SELECT `+entryColumns+` FROM entries e
		WHERE e.about = ? AND e.kind = 'answer' ORDER BY e.id`, id)
}

// About returns everything that points back to an entry, oldest first: answers, edits, deletions.
func (t *Tx) About(id int64) ([]Entry, error) {
	return t.entries("entries about an entry",
		"SELECT "+entryColumns+" FROM entries e WHERE e.about = ? ORDER BY e.id", id)
}

// LastRequest returns the newest message or edit of a person at a place that has a Request, and
// whether there is one. With before other than 0, only entries with a lower id count.
func (t *Tx) LastRequest(place, whoKey string, before int64) (Entry, bool, error) {
	return t.oneEntry("last request of a person", `
		SELECT `+entryColumns+` FROM entries e
		WHERE e.place = ? AND e.who_key = ? AND e.request IS NOT NULL AND e.id < ?
			AND e.kind IN ('message', 'edit')
		ORDER BY e.id DESC LIMIT 1`, place, whoKey, bound(before))
}

// LastRequestOfAnyone is LastRequest for whoever spoke at the place.
func (t *Tx) LastRequestOfAnyone(place string, before int64) (Entry, bool, error) {
	return t.oneEntry("last request at a place", `
		SELECT `+entryColumns+` FROM entries e
		WHERE e.place = ? AND e.request IS NOT NULL AND e.id < ? AND e.kind IN ('message', 'edit')
		ORDER BY e.id DESC LIMIT 1`, place, bound(before))
}

// bound turns "no bound" into an id above all others.
func bound(before int64) int64 {
	if before == 0 {
		return math.MaxInt64
	}
	return before
}

// entries reads entries for doing what it says.
func (t *Tx) entries(doing, query string, args ...any) ([]Entry, error) {
	all, err := list(t, readEntry, query, args...)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", doing, err)
	}
	return all, nil
}

func (t *Tx) oneEntry(doing, query string, args ...any) (Entry, bool, error) {
	return first(t.entries(doing, query, args...))
}
