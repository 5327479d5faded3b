package phrases

import (
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"strings"
	"unicode/utf8"
)

// Row is one message of single.tsv, on its own.
type Row struct {
	ID, Text, Topic string
	Given, Values   map[string]any
	Question, Note  string
}

// ReadRows reads a single.tsv.
func ReadRows(file string) ([]Row, error) {
	data, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	var rows []Row
	for i, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		if i == 0 {
			continue
		}
		f := strings.Split(line, "\t")
		if len(f) != 7 {
			return nil, fmt.Errorf("%s line %d has %d columns, want 7", file, i+1, len(f))
		}
		r := Row{ID: f[0], Text: f[1], Topic: f[2], Question: f[5], Note: f[6]}
		if err := errors.Join(json.Unmarshal([]byte(f[3]), &r.Given), json.Unmarshal([]byte(f[4]), &r.Values)); err != nil {
			return nil, fmt.Errorf("%s line %d: %w", file, i+1, err)
		}
		rows = append(rows, r)
	}
	return rows, nil
}

// maxHeadline is the longest headline that counts.
const maxHeadline = 120

// Compare gives the first rule that the answer breaks, or nil.
func (r Row) Compare(a Answer) *Fault {
	if a.Answer == "" || utf8.RuneCountInString(a.Answer) > maxHeadline {
		return fault("shape", "headline of %d characters: %q", utf8.RuneCountInString(a.Answer), a.Answer)
	}
	if !topicMatches(r.Topic, a.Topic) {
		return fault("topic", "%s, want %s", a.Topic, r.Topic)
	}
	if f := question(r.Question, a); f != nil {
		return f
	}
	if f := fields("given", r.Given, a.Given); f != nil {
		return f
	}
	if !(r.Question == "any" && a.Question != "") {
		if f := fields("values", r.Values, a.Values); f != nil {
			return f
		}
	}
	if a.Topic == "unknown" && len(a.Changes) > 0 {
		return fault("changes", "an unknown message changed %v", a.Changes)
	}
	return nil
}

// Confident says whether the answer states numbers without asking, so that a wrong one would
// spoil timber.
func (a Answer) Confident() bool { return a.Question == "" && len(a.Values) > 0 }
