package store

import (
	"fmt"
	"math"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// Query says which entries of the log to find. A zero field asks for nothing.
type Query struct {
	Project  int64     // always asked for
	From, To time.Time // From <= At < To
	Who      string    // the name of a person, folded as Fold does
	Topic    string
	Words    []string // all of them; case and accents do not matter, three letters or more also begin a word
	Kinds    []string // any of them
	Place    string   // where it was said
	Media    string   // only what a file hangs on whose media type begins so: "image/"
	Limit    int      // at most so many; 0 means all
	Before   int64    // only entries with a lower id, for the next page
}

// Search returns the entries that match q, the newest in the log first. Words in which there is
// nothing but signs match nothing.
func (t *Tx) Search(q Query) ([]Entry, error) {
	match := matchAll(q.Words)
	if match == "" && len(q.Words) > 0 {
		return nil, nil
	}
	ids, err := t.idsOf(q)
	if err != nil || ids.low > ids.high {
		return nil, err
	}
	s := selection{from: "entries e", id: "e.id"}
	if match != "" {
		// The index of words leads, newest first, and each entry is looked up from it.
		s = selection{from: "words w CROSS JOIN entries e ON e.id = w.docid", id: "w.docid"}
		s.where("w.words MATCH ? AND w.project = ?", match, q.Project)
	}
	s.where(s.id+" BETWEEN ? AND ?", ids.low, ids.high)
	s.entriesOf(q)
	query, args := s.query(q.Limit)
	return t.entries("search the log", query, args...)
}

// selection is a query that is being put together. Only constants become text of it; whatever a
// person wrote becomes an argument.
type selection struct {
	from, id   string
	conditions []string
	args       []any
}

func (s *selection) where(condition string, args ...any) {
	s.conditions = append(s.conditions, condition)
	s.args = append(s.args, args...)
}

// entriesOf asks for all of q but its words and its bounds on ids.
func (s *selection) entriesOf(q Query) {
	s.where("e.project_id = ?", q.Project)
	if from, to := q.millis(); q.timed() {
		// The plus keeps this from being looked up in the index of times, which is not in order of id.
		s.where("+e.at_ms >= ? AND +e.at_ms < ?", from, to)
	}
	if q.Who != "" {
		s.where("e.who_folded = ?", Fold(q.Who))
	}
	if q.Topic != "" {
		s.where("e.topic <> '' AND e.topic = ?", q.Topic)
	}
	if q.Place != "" {
		s.where("e.place = ?", q.Place)
	}
	if q.Media != "" {
		s.where("EXISTS (SELECT 1 FROM files f WHERE f.entry_id = e.id AND substr(f.media, 1, ?) = ?)", len(q.Media), q.Media)
	}
	if len(q.Kinds) > 0 {
		s.where("e.kind IN (?"+strings.Repeat(", ?", len(q.Kinds)-1)+")", anys(q.Kinds)...)
	}
}

func (s *selection) query(limit int) (string, []any) {
	if limit <= 0 {
		limit = -1
	}
	return fmt.Sprintf("SELECT %s FROM %s WHERE %s ORDER BY %s DESC LIMIT ?",
		entryColumns, s.from, strings.Join(s.conditions, " AND "), s.id), append(s.args, limit)
}

// idRange is a range of ids, both ends included; empty if low is above high.
type idRange struct{ low, high int64 }

// idsOf returns the ids between which everything lies that q can find. Entries come into the log
// nearly, but not quite, in the order of their times: so the lowest and the highest id of the time
// asked for are looked up first, and the log is walked between those only.
func (t *Tx) idsOf(q Query) (idRange, error) {
	ids := idRange{low: 0, high: bound(q.Before) - 1}
	if !q.timed() {
		return ids, nil
	}
	from, to := q.millis()
	var low, high int64
	found, err := t.row(`
		SELECT min(id), max(id) FROM entries WHERE project_id = ? AND at_ms >= ? AND at_ms < ?
		HAVING count(*) > 0`,
		[]any{q.Project, from, to}, &low, &high)
	if err != nil {
		return ids, fmt.Errorf("search the log: %w", err)
	}
	if !found {
		return idRange{low: 1, high: 0}, nil
	}
	return idRange{low: low, high: min(high, ids.high)}, nil
}

// timed reports whether q asks for a time.
func (q Query) timed() bool { return !q.From.IsZero() || !q.To.IsZero() }

// millis returns the time of q as the database keeps it: from <= at < to.
func (q Query) millis() (from, to int64) {
	from, to = math.MinInt64, math.MaxInt64
	if !q.From.IsZero() {
		from = ceilMillis(q.From)
	}
	if !q.To.IsZero() {
		to = ceilMillis(q.To)
	}
	return from, to
}

// ceilMillis returns the first whole millisecond that is not before at.
func ceilMillis(at time.Time) int64 {
	ms := at.UnixMilli()
	if at.After(time.UnixMilli(ms)) {
		ms++
	}
	return ms
}

// shortestBeginning is how many letters it takes to ask for words that begin with them. With fewer
// nearly everything begins, and a number of one or two digits is meant as that number.
const shortestBeginning = 3

// matchAll returns what asks the index for all words of some texts, or "" if there are none. Only
// letters, marks and digits between quotes reach the index, so that nothing a person writes is
// taken for an operator.
func matchAll(texts []string) string {
	var terms []string
	for _, text := range texts {
		words := strings.FieldsFunc(text, func(r rune) bool {
			return !unicode.IsLetter(r) && !unicode.IsNumber(r) && !unicode.IsMark(r)
		})
		for _, word := range words {
			if utf8.RuneCountInString(word) >= shortestBeginning {
				word += "*"
			}
			terms = append(terms, `"`+word+`"`)
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
