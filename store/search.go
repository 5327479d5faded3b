package store

import (
	"fmt"
	"strings"
	"time"
	"unicode"
)

// Query says which entries of the log to find. A zero field asks for nothing.
type Query struct {
	Project  int64     // always asked for
	From, To time.Time // From <= At < To
	Who      string    // the name of a person, folded as Fold does
	Topic    string
	Words    []string // all of them, each as the beginning of a word; case and accents do not matter
	Kinds    []string // any of them
	Limit    int      // at most so many; 0 means all
	Before   int64    // only entries with a lower id, for the next page
}

// Search returns the entries that match q, the newest in the log first. Words in which there is
// nothing but signs match nothing.
func (t *Tx) Search(q Query) ([]Entry, error) {
	s := selection{from: "entries e", order: "e.id"}
	s.where("e.project_id = ?", q.Project)
	s.where("e.id < ?", bound(q.Before))
	if len(q.Words) > 0 && !s.words(q) {
		return nil, nil
	}
	found, err := t.timeBounds(&s, q)
	if err != nil || !found {
		return nil, err
	}
	if q.Who != "" {
		s.where("e.who_folded = ?", Fold(q.Who))
	}
	if q.Topic != "" {
		s.where("e.topic <> '' AND e.topic = ?", q.Topic)
	}
	if len(q.Kinds) > 0 {
		s.where("e.kind IN (?"+strings.Repeat(", ?", len(q.Kinds)-1)+")", anys(q.Kinds)...)
	}
	query, args := s.query(q.Limit)
	return t.entries("search the log", query, args...)
}

// projectMark begins the word that says which project an entry is in; see the index of words in
// migrations/0001_book.sql.
const projectMark = '\uE000'

// selection is a query that is being put together. Only constants become text of it; whatever a
// person wrote becomes an argument.
type selection struct {
	from, order string
	conditions  []string
	args        []any
}

func (s *selection) where(condition string, args ...any) {
	s.conditions = append(s.conditions, condition)
	s.args = append(s.args, args...)
}

// words asks for the words of q, and reports whether there are any to ask for. The index of words
// leads, newest first, and each entry is looked up from it.
func (s *selection) words(q Query) bool {
	match := matchAll(q.Words)
	if match == "" {
		return false
	}
	s.from, s.order = "words w CROSS JOIN entries e ON e.id = w.docid", "w.docid"
	s.where("w.words MATCH ?", fmt.Sprintf(`%s "%c%d"`, match, projectMark, q.Project))
	return true
}

func (s *selection) query(limit int) (string, []any) {
	if limit <= 0 {
		limit = -1
	}
	return fmt.Sprintf("SELECT %s FROM %s WHERE %s ORDER BY %s DESC LIMIT ?",
		entryColumns, s.from, strings.Join(s.conditions, " AND "), s.order), append(s.args, limit)
}

// timeBounds asks for the time of q, and reports whether there is anything then. Entries come into
// the log nearly, but not quite, in the order of their times; so the lowest and the highest id of
// that time are looked up first, and the log is walked between them only.
func (t *Tx) timeBounds(s *selection, q Query) (bool, error) {
	if q.From.IsZero() && q.To.IsZero() {
		return true, nil
	}
	from, to := int64(-1<<63), int64(1<<63-1)
	if !q.From.IsZero() {
		from = ceilMillis(q.From)
	}
	if !q.To.IsZero() {
		to = ceilMillis(q.To)
	}
	var low, high int64
	found, err := t.row(`
		SELECT min(id), max(id) FROM entries WHERE project_id = ? AND at_ms >= ? AND at_ms < ?
		HAVING count(*) > 0`,
		[]any{q.Project, from, to}, &low, &high)
	if err != nil || !found {
		return false, err
	}
	s.where("e.id BETWEEN ? AND ?", low, high)
	// The plus keeps this from being looked up in the index of times, which is not in order of id.
	s.where("+e.at_ms >= ? AND +e.at_ms < ?", from, to)
	return true, nil
}

// ceilMillis returns the first whole millisecond that is not before at.
func ceilMillis(at time.Time) int64 {
	ms := at.UnixMilli()
	if at.After(time.UnixMilli(ms)) {
		ms++
	}
	return ms
}

// matchAll returns what asks the index for all words of a text, each as the beginning of a word,
// or "" if there are none. Only letters, marks and digits between quotes reach the index, so that
// nothing a person writes is taken for an operator.
func matchAll(texts []string) string {
	var terms []string
	for _, text := range texts {
		words := strings.FieldsFunc(text, func(r rune) bool {
			return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r)
		})
		for _, word := range words {
			terms = append(terms, `"`+word+`*"`)
		}
	}
	return strings.Join(terms, " ")
}

// anys turns strings into arguments.
func anys(values []string) []any {
	args := make([]any, len(values))
	for i, v := range values {
		args[i] = v
	}
	return args
}
