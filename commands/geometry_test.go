package commands_test

import (
	"context"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"fettle/bot/accuracy/phrases"
)

// cutTalk says the lines in one conversation on a fresh database and gives the answers.
func cutTalk(t *testing.T, lines ...string) []phrases.Answer {
	t.Helper()
	run := &phrases.Runner{Folder: t.TempDir()}
	for i, l := range lines {
		if !strings.Contains(l, "> ") {
			lines[i] = "Petra> " + l
		}
	}
	answers, err := run.Say(context.Background(), lines...)
	if err != nil {
		t.Fatal(err)
	}
	if len(answers) != len(lines) {
		t.Fatalf("%d answers to %d lines", len(answers), len(lines))
	}
	return answers
}

// cutSaid is one message with what must come of it: the topic, and values to within a
// thousandth, or a question when there are none.
type cutSaid struct {
	text, topic string
	values      map[string]float64
}

func (s cutSaid) check(t *testing.T, a phrases.Answer) {
	t.Helper()
	if a.Topic != s.topic {
		t.Errorf("%q: topic %s, want %s", s.text, a.Topic, s.topic)
		return
	}
	if s.values == nil {
		if a.Question == "" || len(a.Values) > 0 {
			t.Errorf("%q: answered %q with %v, want a question", s.text, a.Answer, a.Values)
		}
		return
	}
	if a.Question != "" {
		t.Errorf("%q: asked %q", s.text, a.Question)
		return
	}
	if n := len([]rune(a.Answer)); n == 0 || n > 120 {
		t.Errorf("%q: headline of %d characters", s.text, n)
	}
	for name, want := range s.values {
		got, ok := cutNumber(a, name)
		if !ok || math.Abs(got-want) > math.Max(0.001, math.Abs(want)*1e-5) {
			t.Errorf("%q: %s = %v, want %v", s.text, name, got, want)
		}
	}
}

// cutNumber finds a value, or what was understood under "given name".
func cutNumber(a phrases.Answer, name string) (float64, bool) {
	from := a.Values
	if g, ok := strings.CutPrefix(name, "given "); ok {
		from, name = a.Given, g
	}
	v, ok := from[name].(float64)
	return v, ok
}

// cutAlone checks messages that stand each on its own.
func cutAlone(t *testing.T, table []cutSaid) {
	t.Helper()
	for _, s := range table {
		s.check(t, cutTalk(t, s.text)[0])
	}
}

// cutInTurn checks messages that go on from one another.
func cutInTurn(t *testing.T, table []cutSaid) {
	t.Helper()
	lines := make([]string, len(table))
	for i, s := range table {
		lines[i] = s.text
	}
	for i, a := range cutTalk(t, lines...) {
		table[i].check(t, a)
	}
}

// cutWhy checks that "why" shows the formula of the answer to a message.
func cutWhy(t *testing.T, text string, parts ...string) {
	t.Helper()
	a := cutTalk(t, text, "why?")[1]
	for _, p := range parts {
		if !strings.Contains(a.Text, p) {
			data, _ := json.Marshal(a)
			t.Errorf("why of %q doesn't say %q: %s", text, p, data)
		}
	}
}

// cutValues are expected numbers by their names.
type cutValues = map[string]float64
