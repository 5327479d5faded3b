package commands

import (
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"

	"fettle/calc/measure"
	"fettle/commands/book"
	"fettle/commands/speech"
	"fettle/store"
)

// findParts finds the parts that words name: by name ("top rail", in the plural, with a slip), by
// a size ("the 612 rail"), by group ("the door's rails", "the door"), by timber, several with
// "and" between, or as "it", "that one", "them": what was spoken of last at the place. Where
// nothing is found, or more than the words can mean, it asks; each option of the question is the
// request with its need "name" set to one part's name.
func (a *Ask) findParts(words string) ([]book.Named[book.Part], *speech.Question, error) {
	all, err := a.parts()
	if err != nil {
		return nil, nil, err
	}
	things := make([]referent, len(all))
	for i, p := range all {
		things[i] = a.referentOf(p.Name, []measure.Length{p.Is.Length.Length(), p.Is.Width.Length(), p.Is.Thickness.Length()}, p.Is.Group, p.Is.Species)
	}
	at, q, err := a.refer(words, kindOfThing{what: book.WhatPart, one: "part", list: "on the list"}, things)
	return pick(all, at), q, err
}

func pick[T any](all []T, at []int) []T {
	out := make([]T, len(at))
	for i, k := range at {
		out[i] = all[k]
	}
	return out
}

// referent is a thing of the book as words can mean it.
type referent struct {
	name  string
	label string   // as a question offers it
	own   []string // the stems and numbers of its name
	also  []string // those of its group and its timber
	sizes []measure.Length
}

// kindOfThing words questions about one kind of thing.
type kindOfThing struct{ what, one, list string }

func (a *Ask) referentOf(name string, sizes []measure.Length, also ...string) referent {
	return referent{name: name, label: fmt.Sprintf("%s (%s)", name, a.System.Sizes(measure.Nearest, sizes...)),
		own: stemsOf(name), also: stemsOf(strings.Join(also, " ")), sizes: sizes}
}

// stemsOf cuts a name into stems and numbers.
func stemsOf(name string) []string {
	var out []string
	for _, w := range wordsOf(name) {
		out = append(out, w.stem)
	}
	return out
}

// refWord is a word of a reference, or a number.
type refWord struct {
	text, stem string
	size       *speech.Quantity // of a number
}

// wordsOf cuts words into those that may mean something.
func wordsOf(text string) []refWord {
	var out []refWord
	for _, it := range speech.Read(strings.ReplaceAll(text, "_", " ")).Items {
		switch {
		case it.Q != nil && it.Q.Value != nil:
			out = append(out, refWord{text: it.Q.Value.RatString(), stem: it.Q.Value.RatString(), size: it.Q})
		case it.Q == nil && strings.ContainsFunc(it.Text, unicode.IsLetter):
			text := strings.TrimSuffix(strings.TrimSuffix(it.Text, "'"), "'s")
			out = append(out, refWord{text: text, stem: speech.Stem(text)})
		}
	}
	return out
}

// Words that only point: those that stand for what was spoken of, those that mean all of a kind,
// and those that say nothing.
var (
	pointing = set("it that them those these they this one ones same lot its")
	wholes   = set("all both every each everything")
	idle     = set("the a an of our my your his her their on in for from at to with and hand please pls now then again just also too which pieces piece parts part bits bit boards board planks plank mm long wide thick just two three")
)

func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// refer finds which of the things the words mean.
func (a *Ask) refer(words string, kind kindOfThing, things []referent) ([]int, *speech.Question, error) {
	words = strings.TrimSpace(words)
	if i := slices.IndexFunc(things, func(t referent) bool { return store.Fold(t.name) == store.Fold(words) }); i >= 0 {
		return []int{i}, nil, nil
	}
	if len(things) == 0 {
		return nil, &speech.Question{Text: fmt.Sprintf("There is no %s %s yet. Which one do you mean?", kind.one, kind.list)}, nil
	}
	whole := understand(words, things)
	if parts := splitAnd(words); len(parts) > 1 && len(whole.found) == 0 {
		return a.findEach(parts, kind, things)
	}
	return a.settle(words, whole, kind, things)
}

// findEach finds what each of several references means: "the rails and the left stile".
func (a *Ask) findEach(parts []string, kind kindOfThing, things []referent) ([]int, *speech.Question, error) {
	var out []int
	for i, p := range parts {
		found, q, err := a.settle(p, understand(p, things), kind, things)
		if err != nil {
			return nil, nil, err
		}
		if q != nil {
			for k := range q.Options {
				named := append(slices.Clone(parts[:i]), q.Options[k].Request.Word("name"))
				q.Options[k].Request = a.withName(strings.Join(append(named, parts[i+1:]...), " and "))
			}
			return nil, q, nil
		}
		for _, f := range found {
			if !slices.Contains(out, f) {
				out = append(out, f)
			}
		}
	}
	return out, nil, nil
}

// splitAnd cuts a reference at "and" and commas.
func splitAnd(words string) []string {
	var out []string
	for _, p := range strings.FieldsFunc(strings.NewReplacer(" and ", ",", " & ", ",", " plus ", ",", " AND ", ",").Replace(words), func(r rune) bool { return r == ',' || r == '&' || r == '+' || r == ';' }) {
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

// meaning is what words can mean.
type meaning struct {
	found  []int
	near   []int // what shares a word
	many   bool  // the words mean all that fit
	points bool  // nothing but "it" and the like
	empty  bool
}

// understand finds all the things that fit every word that says something.
func understand(words string, things []referent) meaning {
	var m meaning
	var tokens []refWord
	everything := false
	for _, w := range wordsOf(words) {
		known := slices.ContainsFunc(things, func(t referent) bool { return t.says(w) })
		switch {
		case wholes[w.text]:
			m.many = true
			everything = everything || w.text == "everything"
		case pointing[w.text] && !known:
			m.points = true
		case !known && idle[w.text]:
			everything = everything || m.many && (w.text == "parts" || w.text == "pieces" || w.text == "boards" || w.text == "bits")
		default:
			tokens = append(tokens, w)
		}
	}
	if len(tokens) == 0 {
		m.empty, m.points = true, m.points || m.many && !everything
		if everything {
			for i := range things {
				m.found = append(m.found, i)
			}
			m.points = false
		}
		return m
	}
	m.points = false
	counted := m
	if m.fit(tokens, things); len(m.found) == 0 && len(tokens) > 1 && tokens[0].size != nil {
		if counted.fit(tokens[1:], things); len(counted.found) > 0 && counted.many { // the 2 rails
			return counted
		}
	}
	return m
}

// fit takes the things that every word says something of.
func (m *meaning) fit(tokens []refWord, things []referent) {
	head := tokens[len(tokens)-1]
	own := false
	var exact []int
	for i, t := range things {
		hits, named := 0, 0
		for _, w := range tokens {
			if !t.says(w) {
				continue
			}
			hits++
			if t.named(w) {
				named++
			}
		}
		switch {
		case hits == len(tokens):
			m.found = append(m.found, i)
			own = own || named > 0
			if named == len(t.own) && named == hits {
				exact = append(exact, i)
			}
		case hits > 0:
			m.near = append(m.near, i)
		}
	}
	m.many = m.many || head.size == nil && (!own || m.allOf(head, things)) || slices.ContainsFunc(tokens, func(w refWord) bool { return manyWord(w.text) }) // a group or a timber is all of it
	if len(exact) == 1 && !m.many {
		m.found = exact
	}
}

// placing are the words that tell pieces of one kind apart: "the left" is one of them, where "the
// rack" is all that belongs to it.
var placing = set("left right top bottom upper lower middle centre center front back inner outer long short near far hinge latch first second third last")

// allOf says whether the word is what the pieces belong to: the door, of door stiles and door rails.
func (m *meaning) allOf(head refWord, things []referent) bool {
	return !placing[head.text] && !slices.ContainsFunc(m.found, func(i int) bool {
		own := things[i].own
		if n := len(own); n > 1 && strings.Trim(own[n-1], "0123456789") == "" { // counted up: rack slat 2
			own = own[:n-1]
		}
		return len(own) == 0 || own[len(own)-1] == head.stem || !slices.Contains(own, head.stem)
	})
}

// says whether a word is in the name, the group or the timber, or a number is one of the sizes.
func (t referent) says(w refWord) bool {
	if t.named(w) || slices.Contains(t.also, w.stem) {
		return true
	}
	if w.size == nil || w.size.Kind != measure.KindNumber && w.size.Kind != measure.KindLength {
		return false
	}
	l, err := measure.Times(w.size.Base(), measure.Millimetre)
	return err == nil && slices.ContainsFunc(t.sizes, func(s measure.Length) bool { return s > 0 && max(s-l, l-s) < measure.Millimetre/2 })
}

func (t referent) named(w refWord) bool {
	return slices.ContainsFunc(t.own, func(s string) bool { return s == w.stem || w.size == nil && speech.Misspelt(w.stem, s) })
}

func manyWord(w string) bool {
	return len(w) > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss")
}

// settle gives what the words mean, or the question that must be asked.
func (a *Ask) settle(words string, m meaning, kind kindOfThing, things []referent) ([]int, *speech.Question, error) {
	switch {
	case m.points:
		return a.spokenOf(kind, things)
	case m.empty && len(m.found) == 0:
		return nil, a.whichOf("Which "+kind.one+" do you mean?", nil, things), nil
	case len(m.found) == 0:
		text := fmt.Sprintf("I find no %s %s %s.", kind.one, quoted(words), kind.list)
		if len(m.near) == 0 {
			return nil, &speech.Question{Text: text + " Which one do you mean?"}, nil
		}
		return nil, a.whichOf(text+" Do you mean one of these?", m.near, things), nil
	case len(m.found) > 1 && !m.many:
		return nil, a.whichOf("Which one do you mean?", m.found, things), nil
	}
	return m.found, nil, nil
}

func quoted(s string) string { return "“" + shorten(s, 40) + "”" }

// mostOffered is how many things a question offers.
const mostOffered = 9

// whichOf asks which of some things is meant; of all, where none are given.
func (a *Ask) whichOf(text string, which []int, things []referent) *speech.Question {
	if which == nil {
		for i := range things {
			which = append(which, i)
		}
	}
	more := len(which) > mostOffered
	var options []speech.Option
	for _, i := range which[:min(len(which), mostOffered)] {
		options = append(options, speech.Option{Label: things[i].label, Words: []string{strings.ToLower(things[i].name)}, Request: a.withName(things[i].name)})
	}
	q := speech.Choice(text, options...)
	q.Need = "name"
	if more {
		q.Text += " · …"
	}
	return q
}

// withName copies the request with another name in it.
func (a *Ask) withName(name string) speech.Request {
	r := a.Request
	r.Open = nil
	r.Slots = maps.Clone(r.Slots)
	if r.Slots == nil {
		r.Slots = map[string]speech.Slot{}
	}
	r.Slots["name"] = speech.Slot{Word: name}
	return r
}

// about says what of the book an answer speaks of, so that "that one" can mean it afterwards.
func (ans *Answer) about(what string, names ...string) {
	for _, n := range names {
		ans.About = append(ans.About, Mention{What: what, Name: n})
	}
}

// Mention is a thing of the book that an answer spoke of.
type Mention struct {
	What string `json:"what"`
	Name string `json:"name"`
}

// furthestBack is how many requests back "that one" may reach.
const furthestBack = 12

// spokenOf finds what was spoken of last at the place. Where the person's own last word and what
// others have said since were about different things, it asks.
func (a *Ask) spokenOf(kind kindOfThing, things []referent) ([]int, *speech.Question, error) {
	theirs, err := a.lastSpokenOf(kind.what, things, a.Tx.LastRequestOfAnyone)
	if err != nil {
		return nil, nil, err
	}
	mine, err := a.lastSpokenOf(kind.what, things, func(place string, before int64) (store.Entry, bool, error) {
		return a.Tx.LastRequest(place, a.WhoKey, before)
	})
	switch {
	case err != nil:
		return nil, nil, err
	case len(theirs) == 0:
		return nil, a.whichOf("Which "+kind.one+" do you mean?", nil, things), nil
	case len(mine) == 0 || slices.Equal(mine, theirs):
		return theirs, nil, nil
	}
	return nil, a.whichOf("Which one do you mean?", append(mine, slices.DeleteFunc(theirs, func(i int) bool { return slices.Contains(mine, i) })...), things), nil
}

// lastSpokenOf goes back through requests until one of which the answer was about such things.
func (a *Ask) lastSpokenOf(what string, things []referent, last func(place string, before int64) (store.Entry, bool, error)) ([]int, error) {
	before := a.before
	for range furthestBack {
		e, ok, err := last(a.Place, before)
		if err != nil || !ok || a.Now.Sub(e.At) > QuestionLife {
			return nil, err
		}
		about, err := a.answerAbout(e.ID)
		if err != nil {
			return nil, err
		}
		var out []int
		for i, t := range things {
			if slices.ContainsFunc(about, func(m Mention) bool {
				return (m.What == what || what == book.WhatPart && (m.What == book.WhatClaim || m.What == book.WhatDone)) && store.Fold(m.Name) == store.Fold(t.name)
			}) {
				out = append(out, i)
			}
		}
		if len(out) > 0 {
			return out, nil
		}
		before = e.ID
	}
	return nil, nil
}

// answerAbout lists what the answer to a message spoke of or changed.
func (a *Ask) answerAbout(message int64) ([]Mention, error) {
	answers, err := a.Tx.AnswersTo(message)
	if err != nil || len(answers) == 0 {
		return nil, err
	}
	var ans struct {
		About   []Mention `json:"about"`
		Changes []Mention `json:"changes"`
	}
	if err := json.Unmarshal(answers[len(answers)-1].Answer, &ans); err != nil {
		return nil, fmt.Errorf("read what was answered: %w", err)
	}
	return append(ans.About, ans.Changes...), nil
}
