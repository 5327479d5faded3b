package commands_test

import (
	"math"
	"strings"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// answered puts requests and compares: none may be asked back.
func answered(t *testing.T, topic string, requests []request) {
	t.Helper()
	for _, r := range requests {
		got := petra(t, r.text)[0]
		if got.Topic != topic || got.Question != "" {
			t.Errorf("%q: topic %s, question %q; want an answer of %s", r.text, got.Topic, got.Question, topic)
			continue
		}
		meets(t, r.text, r, got)
	}
}

func meets(t *testing.T, name string, r request, got phrases.Answer) {
	t.Helper()
	for label, pair := range map[string][2]map[string]any{"given": {r.given, got.Given}, "values": {r.values, got.Values}} {
		for key, want := range pair[0] {
			if g := pair[1][key]; !same(want, g) {
				t.Errorf("%s: %s.%s = %v, want %v", name, label, key, g, want)
			}
		}
	}
	for _, s := range r.says {
		if !strings.Contains(got.Text, s) {
			t.Errorf("%s: %q is not said in\n%s", name, s, got.Text)
		}
	}
	for _, s := range r.not {
		if strings.Contains(got.Text, s) {
			t.Errorf("%s: %q is said in\n%s", name, s, got.Text)
		}
	}
}

// same compares a number within a thousandth, a word exactly; nil wants nothing there.
func same(want, got any) bool {
	g, number := got.(float64)
	switch w := want.(type) {
	case float64:
		return number && math.Abs(g-w) <= 0.001*math.Max(math.Abs(w), 0.01)
	case int:
		return number && math.Abs(g-float64(w)) <= 0.001*math.Max(math.Abs(float64(w)), 0.01)
	}
	return want == got
}

// askedBack puts requests that can't be answered safely.
func askedBack(t *testing.T, topic string, texts ...string) {
	t.Helper()
	for _, text := range texts {
		got := petra(t, text)[0]
		if got.Topic != topic || got.Question == "" || len(got.Values) > 0 {
			t.Errorf("%q: topic %s, question %q, values %v; want a question of %s", text, got.Topic, got.Question, got.Values, topic)
		}
	}
}
