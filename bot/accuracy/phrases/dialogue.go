package phrases

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"time"
)

// Turn is one line of a conversation with what is expected of its answer.
type Turn struct {
	Who    string                     `json:"who"`
	Say    string                     `json:"say"`
	Expect map[string]json.RawMessage `json:"expect"`
}

// Dialogue is a conversation.
type Dialogue struct {
	Name  string
	Turns []Turn
}

// ReadDialogues reads the conversations of a folder, by name.
func ReadDialogues(folder string) ([]Dialogue, error) {
	files, err := filepath.Glob(filepath.Join(folder, "*.json"))
	if err != nil {
		return nil, err
	}
	sort.Strings(files)
	var out []Dialogue
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			return nil, err
		}
		d := Dialogue{Name: strings.TrimSuffix(filepath.Base(f), ".json")}
		if err := json.Unmarshal(data, &d.Turns); err != nil {
			return nil, fmt.Errorf("%s: %w", f, err)
		}
		out = append(out, d)
	}
	return out, nil
}

// Topics lists the topics that the conversation expects, without the alternatives where one
// of them is among those known.
func (d Dialogue) Topics(known map[string]bool) []string {
	var out []string
	for _, t := range d.Turns {
		var want string
		_ = json.Unmarshal(t.Expect["topic"], &want)
		pick := want
		for _, w := range strings.Split(want, "|") {
			if known[w] {
				pick = w
			}
		}
		out = append(out, pick)
	}
	return out
}

// Compare gives the first rule that the answer to the turn breaks, or nil.
func (t Turn) Compare(a Answer) *Fault {
	for _, name := range []string{"topic", "question", "given", "values", "changes", "times", "says", "says_not"} {
		raw, ok := t.Expect[name]
		if !ok {
			continue
		}
		if f := t.compare(name, raw, a); f != nil {
			return f
		}
	}
	return nil
}

func (t Turn) compare(name string, raw json.RawMessage, a Answer) *Fault {
	var word string
	var object map[string]any
	var list []any
	_ = json.Unmarshal(raw, &word)
	_ = json.Unmarshal(raw, &object)
	_ = json.Unmarshal(raw, &list)
	switch name {
	case "topic":
		if !topicMatches(word, a.Topic) {
			return fault("topic", "%s, want %s", a.Topic, word)
		}
	case "question":
		return question(word, a)
	case "given":
		return fields("given", object, a.Given)
	case "values":
		return fields("values", object, a.Values)
	case "changes":
		return changes(word, list, a)
	case "times":
		return times(raw, a)
	case "says":
		for _, w := range list {
			if !says(a, fmt.Sprint(w)) {
				return fault("says", "does not say %v: %s", w, a.Text)
			}
		}
	case "says_not":
		for _, w := range list {
			if says(a, fmt.Sprint(w)) {
				return fault("says", "says %v: %s", w, a.Text)
			}
		}
	}
	return nil
}

func times(raw json.RawMessage, a Answer) *Fault {
	var n int
	if err := json.Unmarshal(raw, &n); err != nil {
		return fault("times", "%v", err)
	}
	if len(a.Times) < n {
		return fault("times", "%d of them, want %d", len(a.Times), n)
	}
	for name, v := range a.Times {
		if _, err := time.Parse(time.RFC3339, fmt.Sprint(v)); err != nil {
			return fault("times", "%s: %v", name, err)
		}
	}
	return nil
}

func changes(word string, want []any, a Answer) *Fault {
	switch {
	case word == "some":
		if len(a.Changes) == 0 {
			return fault("changes", "nothing was written")
		}
		return nil
	case len(want) == 0:
		if len(a.Changes) > 0 {
			return fault("changes", "wrote %v, want nothing", a.Changes)
		}
		return nil
	}
	for _, w := range want {
		if !oneChange(w.(map[string]any), a.Changes) {
			return fault("changes", "%v has no %v", a.Changes, w)
		}
	}
	return nil
}

func oneChange(want map[string]any, got []map[string]any) bool {
	for _, g := range got {
		all := true
		for name, w := range want {
			all = all && matches(w, g[name])
		}
		if all {
			return true
		}
	}
	return false
}

var thousands = regexp.MustCompile(`(\d)[,  ](\d{3})\b`)

// says looks for a word, letter case apart; one of digits must stand as a whole number.
func says(a Answer, word string) bool {
	text := strings.ToLower(a.Answer + "\n" + a.Text)
	text = thousands.ReplaceAllString(text, "$1$2")
	word = strings.ToLower(word)
	if regexp.MustCompile(`^[\d.]+$`).MatchString(word) {
		return regexp.MustCompile(`(^|[^\d.])` + regexp.QuoteMeta(word) + `($|[^\d.]|\.($|\D))`).MatchString(text)
	}
	return strings.Contains(text, word)
}
