package speech

import (
	"math/big"
	"slices"
	"strings"
)

// reply reads the message as the answer to a question.
func (l *Language) reply(s Sentence, c Context, open *Request, best rank) (Understanding, bool) {
	if _, ok := wholeOption(s, open.Open); !ok && best.score >= Sure && best.form.Name != open.Topic {
		return Understanding{}, false
	}
	f := l.Form(open.Topic)
	if f == nil || open.Open == nil {
		return Understanding{}, false
	}
	if declines(&s) {
		return Understanding{Manner: Reply, Request: open.clone(), Sure: true, Declined: true}, true
	}
	if req, ok := choose(s, open.Open); ok {
		r := newReading(s, l.Form(req.Topic), c.System)
		for i := range r.claimed {
			r.claimed[i] = true
		}
		return l.finish(r, req, Reply, true), true
	}
	again := best.score >= Sure && best.form.Name == open.Topic
	if again && (f.Text || l.fresh(s, c, f, true).Request.Open == nil) {
		return Understanding{}, false // the same again, in full
	}
	if f.Text {
		return l.textReply(s, open, f)
	}
	r := newReading(s, f, c.System)
	r.answer(open)
	if !r.told || !l.explained(r, s.mark(), 3) {
		return Understanding{}, false
	}
	u := l.finish(r, overlay(*open, r), Reply, true)
	return u, !again || u.Request.Open == nil
}

func (l *Language) textReply(s Sentence, open *Request, f *Form) (Understanding, bool) {
	if open.Text != "" || len(s.Items) == 0 {
		return Understanding{}, false
	}
	req := open.clone()
	req.Text = strings.TrimSpace(s.Text)
	return Understanding{Manner: Reply, Request: req, Sure: true}, true
}

// answer fills in what a question left open. Numbers go first to what was asked for, then to
// the other open needs in order.
func (r *Reading) answer(open *Request) {
	r.Replying = true
	asked := r.Form.need(open.Open.Need)
	if r.Form.Before != nil {
		r.Form.Before(r)
	}
	r.fillWords()
	r.fillRoles()
	r.fillGroups()
	r.fillCounts()
	r.fillSoleKinds()
	if asked != nil && r.open(asked) {
		for i := range r.Items {
			if r.Free(i) && asked.accepts(r.Items[i].Q) {
				r.Set(asked.Name, i)
				break
			}
		}
	}
	r.fillOpenSizes(open)
	r.fillNearest(open)
	r.wantedUnit()
}

// fillOpenSizes gives loose numbers to the sizes that the request still lacks.
func (r *Reading) fillOpenSizes(open *Request) {
	for _, name := range r.Form.Sizes {
		n := r.Form.need(name)
		if !r.open(n) || open.Has(name) {
			continue
		}
		for i := range r.Items {
			if r.Free(i) && r.loose(n, i) {
				r.Set(name, i)
				break
			}
		}
	}
}

var ordinals = map[string]int64{"first": 1, "second": 2, "third": 3, "fourth": 4, "former": 1, "latter": 2}

// choose finds the option that the message names: by its label, one of its words, its number,
// or, of a single one, by yes.
func choose(s Sentence, q *Question) (Request, bool) {
	if len(q.Options) == 0 || len(s.Items) > 6 {
		return Request{}, false
	}
	if req, ok := wholeOption(s, q); ok {
		return req, true
	}
	if len(q.Options) == 1 && yes(&s) {
		return q.Options[0].Request, true
	}
	for i, o := range q.Options {
		if namesOption(&s, o, i) {
			return o.Request, true
		}
	}
	return Request{}, false
}

// wholeOption finds the option that is the whole message, letter for letter: that it is, whatever else
// the words could mean.
func wholeOption(s Sentence, q *Question) (Request, bool) {
	if q == nil {
		return Request{}, false
	}
	text := strings.Trim(strings.ToLower(s.Text), " .!?,")
	for _, o := range q.Options {
		if text == strings.ToLower(o.Label) || slices.Contains(o.Words, text) {
			return o.Request, true
		}
	}
	return Request{}, false
}

// declines says whether the whole message is that the question may rest.
func declines(s *Sentence) bool {
	for _, p := range []string{"^ no|nope|nah|nay $", "^ no|nope thanks|thank|need|don't|please|leave|neither you|it|that|of|them? $", "^ never mind|bother $", "^ nevermind $", "^ forget|leave|drop|skip|cancel it|that|this? $",
		"^ doesn't|does|not matter|important not? $", "^ neither|none of|them? those|them|it? $", "^ don't|do not? bother $", "^ stop $"} {
		if s.Says(p) {
			return true
		}
	}
	return false
}

func yes(s *Sentence) bool {
	switch s.word(s.first()) {
	case "yes", "yeah", "yep", "yup", "aye", "correct", "exactly", "sure", "right":
		return true
	}
	return strings.HasPrefix(s.Text, "ok") && len(s.Items) == 1 || s.word(0) == "right" || s.word(0) == "ok"
}

func namesOption(s *Sentence, o Option, index int) bool {
	number := big.NewRat(int64(index+1), 1)
	for i, it := range s.Items {
		switch {
		case it.Q != nil && len(s.Items) <= 2 && (it.Q.Bare() || it.Q.Kind == KindOrdinal) && it.Q.Value.Cmp(number) == 0:
			return true
		case it.Q == nil && ordinals[it.Text] == int64(index+1):
			return true
		case it.Q == nil && it.Text != "" && (it.Text == strings.ToLower(o.Label) || slices.Contains(o.Words, it.Text)) && (i > 0 || len(s.Items) <= 3) && it.Text != "in" && it.Text != "m":
			return true
		}
	}
	return false
}
