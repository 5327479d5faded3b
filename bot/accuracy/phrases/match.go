// Package phrases reads the example messages of testdata/phrases and compares answers with
// what each of them expects, by the rules written down beside the files.
package phrases

import (
	"encoding/json"
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"
)

// Answer is an answer object as it comes out of the program.
type Answer struct {
	Topic    string            `json:"topic"`
	Given    map[string]any    `json:"given"`
	Answer   string            `json:"answer"`
	Text     string            `json:"text"`
	Values   map[string]any    `json:"values"`
	Times    map[string]any    `json:"times"`
	Question string            `json:"question"`
	Changes  []map[string]any  `json:"changes"`
	Signs    map[string]string `json:"signs"`
}

// Fault is a rule that an answer breaks.
type Fault struct {
	Rule   string // shape, topic, question, given, values, changes, times, says
	Detail string
}

func fault(rule, format string, args ...any) *Fault {
	return &Fault{Rule: rule, Detail: fmt.Sprintf(format, args...)}
}

// Parse reads an answer object.
func Parse(data []byte) (Answer, error) {
	var a Answer
	err := json.Unmarshal(data, &a)
	return a, err
}

// topicMatches says whether the topic is one of those listed with | between.
func topicMatches(want, got string) bool { return slices.Contains(strings.Split(want, "|"), got) }

// question checks the rule for questions.
func question(want string, a Answer) *Fault {
	asked := a.Question != ""
	switch {
	case want == "no" && asked:
		return fault("question", "asked back: %s", a.Question)
	case want == "yes" && !asked:
		return fault("question", "did not ask; values %v", a.Values)
	case asked && (len(a.Values) > 0 || len(a.Changes) > 0):
		return fault("question", "asked, and yet gave values or changes")
	}
	return nil
}

// fields checks every expected entry of given or values.
func fields(rule string, want, got map[string]any) *Fault {
	for name, w := range want {
		g, ok := got[name]
		if !ok {
			return fault(rule, "%s is missing, want %v", name, w)
		}
		if !matches(w, g) {
			return fault(rule, "%s = %v, want %v", name, g, w)
		}
	}
	return nil
}

// noise is what binary fractions are off by: a number on the edge of its tolerance is within.
const noise = 1e-9

// matches compares one expected entry: a number, a number with its tolerance, a list, or words.
func matches(want, got any) bool {
	switch w := want.(type) {
	case float64:
		g, ok := got.(float64)
		return ok && math.Abs(math.Abs(g)-math.Abs(w)) <= math.Max(0.005*math.Abs(w), 0.01)
	case []any:
		g, ok := got.(float64)
		return ok && len(w) == 2 && math.Abs(g-w[0].(float64)) <= w[1].(float64)+noise
	case map[string]any:
		return listMatches(w, got)
	case string:
		g, ok := got.(string)
		return ok && wordMatches(w, g)
	}
	return false
}

func listMatches(want map[string]any, got any) bool {
	list, ok := want["list"].([]any)
	tol, ok2 := want["tol"].(float64)
	g, ok3 := got.([]any)
	if !ok || !ok2 || !ok3 || len(g) != len(list) {
		return false
	}
	for i := range list {
		v, ok := g[i].(float64)
		if !ok || math.Abs(v-list[i].(float64)) > tol+noise {
			return false
		}
	}
	return true
}

func wordMatches(want, got string) bool {
	for _, w := range strings.Split(want, "|") {
		if strings.Contains(bare(got), bare(w)) {
			return true
		}
	}
	return false
}

// bare keeps the letters and digits of a word, in lower case.
func bare(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsLetter(r) || unicode.IsDigit(r) {
			return unicode.ToLower(r)
		}
		return -1
	}, s)
}
