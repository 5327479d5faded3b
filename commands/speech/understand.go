package speech

import (
	"slices"
	"sort"
	"strings"

	"fettle/calc/measure"
)

// Manner is how a message stands to what was said before.
type Manner string

// The manners of a message.
const (
	Nothing    Manner = ""           // no request
	Fresh      Manner = "fresh"      // a request for itself
	FollowUp   Manner = "follow-up"  // the last request with something changed
	Correction Manner = "correction" // the last request was meant otherwise
	Reply      Manner = "reply"      // the answer to a question
)

// Context is what was said before, as far as it bears on the next message.
type Context struct {
	System measure.System // the project's unit for bare numbers
	Last   *Request       // the person's last request in this place
	Open   *Request       // the request with the question put to the person, if it is open
	Others *Request       // the same of somebody else in this place
	Anyone *Request       // the last request here, for a person who has made none yet
}

// Understanding is what was made of a message.
type Understanding struct {
	Manner   Manner
	Request  Request  // with Open set when something must be asked first
	Sure     bool     // certain enough to speak up unasked
	Guessed  bool     // the topic is the likeliest one, but nothing points to it plainly
	Declined bool     // it says that a question may rest
	Theirs   bool     // it answers the question put to somebody else
	Nearest  []string // topics that come nearest when nothing was understood
}

// Language holds the forms of all topics, ready to be matched.
type Language struct {
	forms []*Form
	cues  []scored
	byKey map[string][]int  // words → the cues that need one of them
	loose []int             // cues that need no word
	words map[string]bool   // stems that mean something to some topic
	texts map[string]string // the words themselves, with their stems
	odds  Odds
}

// scored is a cue of a form.
type scored struct {
	*pattern
	form   int
	weight int
}

// NewLanguage makes a language of the forms, with a second opinion on which of them is meant.
func NewLanguage(forms []*Form, odds Odds) *Language {
	l := &Language{forms: forms, odds: odds, byKey: map[string][]int{}, words: map[string]bool{}, texts: map[string]string{}}
	for i, f := range forms {
		for _, c := range f.Cues {
			p := compile(c.Pattern)
			l.learn(p)
			l.index(len(l.cues), p)
			l.cues = append(l.cues, scored{p, i, c.Weight})
		}
		for _, n := range f.Needs {
			for _, source := range n.Roles {
				l.learn(compile(source))
			}
			if n.Vocab != nil {
				for text, s := range n.Vocab.texts {
					l.words[s], l.texts[text] = true, s
				}
			}
		}
	}
	return l
}

// index files a cue under the words of the element that says most, so that only cues come
// into question of which the sentence holds a word.
func (l *Language) index(cue int, p *pattern) {
	var key *elem
	for i := range p.elems {
		if e := &p.elems[i]; e.kind == anyWord && !e.optional && (key == nil || len(e.words) < len(key.words)) {
			key = e
		}
	}
	if key == nil {
		l.loose = append(l.loose, cue)
		return
	}
	seen := map[string]bool{}
	for _, w := range key.words {
		for _, k := range []string{w.text, w.stem} {
			if !seen[k] {
				seen[k] = true
				l.byKey[k] = append(l.byKey[k], cue)
			}
		}
	}
}

func (l *Language) learn(p *pattern) {
	for _, e := range p.elems {
		for _, w := range e.words {
			l.words[w.stem], l.texts[w.text] = true, w.stem
		}
	}
}

// Form finds the form of a topic.
func (l *Language) Form(topic string) *Form {
	for _, f := range l.forms {
		if f.Name == topic {
			return f
		}
	}
	return nil
}

// Understand reads a message in its context.
func (l *Language) Understand(text string, c Context) Understanding {
	s := l.mend(Read(text))
	ranked := l.rank(&s)
	best := ranked[0]
	explicit := best.score >= Sure && best.score > ranked[1].score

	if c.Open != nil {
		if u, ok := l.reply(s, c, c.Open, best); ok {
			return u
		}
	}
	v := l.verdict(s, ranked)
	talk := l.talk(v, s)
	if u, ok := l.correction(s, c, best); ok && !talk {
		return u
	}
	if c.Last == nil && l.refersBack(s) {
		c.Last = c.Anyone
	}
	if explicit && (c.keeps(best.form, v[0]) && !talk || len(s.Items) <= shortest && v[0].p < certain) {
		v = append([]choice{{best.form, likely}}, v...)
	}
	if !explicit && c.Last != nil {
		if u, ok := l.followUp(s, c, v[0]); ok {
			return u
		}
	}
	if !explicit && c.Others != nil && c.Open == nil && !talk {
		if u, ok := l.reply(s, c, c.Others, best); ok {
			u.Theirs = true
			return u
		}
	}
	if v[0].form != nil && (v[0].p >= likely || v[0].p >= conceiving && explicit && best.form == v[0].form) {
		u := l.fresh(s, c, v[0].form, true)
		if next, ok := l.goesOn(s, c, u); ok {
			return next
		}
		u.Guessed = !explicit
		u.Sure = (v[0].p >= certain || explicit && best.form == v[0].form) && (u.Request.Open == nil || best.score >= plainlyAsked && (len(u.Request.Slots) > 0 || s.asks()))
		return u
	}
	if v[0].form != nil && v[1].form != nil && v[1].p >= conceiving && v[0].p+v[1].p >= oneOfTwo {
		u := l.either(s, c, v[0].form, v[1].form)
		u.Guessed = true
		return u
	}
	return Understanding{Nearest: nearest(v)}
}

// shortest is how many words say so little that the odds tell less than a cue.
const shortest = 2

// keeps says whether the topic that the cues point to stands against the odds, which know
// nothing of what was said before: in a conversation it does where they are less than certain, or
// where the topic is the one talked about.
func (c *Context) keeps(f *Form, against choice) bool {
	if c.Last == nil && c.Open == nil {
		return false
	}
	return against.p < certain || c.Last != nil && c.Last.Topic == f.Name
}

// amongPeople is how likely a message must be no request to answer nobody's question.
const amongPeople = 0.8

// talk says whether a message is most likely said among people: no short word or number that may
// answer a question.
func (l *Language) talk(v []choice, s Sentence) bool {
	p := 0.0
	for _, c := range v {
		if c.form == nil || c.form.Text {
			p += c.p
		}
	}
	return len(s.Items) > 2 && p >= amongPeople
}

// plainlyAsked is the evidence at which a message is worth a question back even where nobody
// spoke to the program.
const plainlyAsked = Sure + 2

// asks says whether the message is put as a question or a request.
func (s *Sentence) asks() bool {
	_, word := asking[s.word(s.first())]
	return word || strings.Contains(s.Text, "?") || s.Says("please|pls|plz")
}

// goesOn says whether a message that names another topic, but lacks what that needs, is whole
// as a change of the last request: "and to a 1200 radius", said of a lamination.
func (l *Language) goesOn(s Sentence, c Context, fresh Understanding) (Understanding, bool) {
	if c.Last == nil || c.Last.Topic == fresh.Request.Topic || fresh.Request.Open == nil || !s.plainMark() && !s.Says("that|this|it|those in|to inches|mm|millimetres|imperial|metric|cm") {
		return Understanding{}, false
	}
	u, ok := l.followUp(s, c, choice{})
	return u, ok && u.Request.Open == nil
}

type rank struct {
	form     *Form
	score    int
	evidence int // of the score, what no cue tells
}

// rank scores every topic by the cues that the sentence holds, best first.
func (l *Language) rank(s *Sentence) []rank {
	out := make([]rank, len(l.forms), len(l.forms)+2)
	for i, f := range l.forms {
		out[i].form = f
	}
	tried := make([]bool, len(l.cues))
	try := func(cues []int) {
		for _, k := range cues {
			if tried[k] {
				continue
			}
			tried[k] = true
			if c := &l.cues[k]; c.stands(s) {
				out[c.form].score += c.weight
			}
		}
	}
	try(l.loose)
	for _, it := range s.Items {
		try(l.byKey[it.Text])
		if it.Stem != it.Text {
			try(l.byKey[it.Stem])
		}
	}
	for i, f := range l.forms {
		if f.Evidence != nil {
			out[i].evidence = f.Evidence(*s)
			out[i].score += out[i].evidence
		}
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].score > out[b].score })
	return append(out, rank{form: &Form{}}, rank{form: &Form{}})
}

// nearly is how likely a topic must be to be offered where nothing was understood.
const nearly = 0.08

func nearest(v []choice) []string {
	var out []string
	for _, c := range v {
		if c.form != nil && c.p >= nearly && len(out) < 2 {
			out = append(out, c.form.Name)
		}
	}
	return out
}

// fresh reads the message as a request of its own.
func (l *Language) fresh(s Sentence, c Context, f *Form, sure bool) Understanding {
	r := newReading(s, f, c.System)
	r.fill()
	r.wantedUnit()
	if c.Last == nil {
		return l.finish(r, r.Request, Fresh, sure)
	}
	same := c.Last.Topic == f.Name && !f.Text
	if same && (l.refersBack(s) || c.Last.Open == nil && r.asidesAlone()) {
		return l.finish(r, overlay(*c.Last, r), FollowUp, sure)
	}
	r.sameAsBefore(c.Last)
	u := l.finish(r, r.Request, Fresh, sure)
	if same && u.Request.Open != nil && (s.mark() || s.opensWithNumber()) {
		if next, ok := l.followUp(s, c, choice{}); ok && next.Request.Open == nil {
			return next
		}
	}
	return u
}

// asidesAlone says whether the message holds asides and nothing else.
func (r *Reading) asidesAlone() bool {
	for name := range r.Request.Slots {
		if n := r.Form.need(name); n == nil || !n.Aside {
			return false
		}
	}
	return len(r.Request.Slots) > 0 && len(r.Request.Items) == 0
}

// finish checks a request and asks what must be asked.
func (l *Language) finish(r *Reading, req Request, m Manner, sure bool) Understanding {
	r.Request, r.missing = req, nil
	if r.Form.After != nil {
		r.Form.After(r)
	}
	q := r.check()
	if q == nil && m == Fresh {
		q = r.unplaced()
	}
	req = r.Request
	if q != nil {
		req = unsure(req, r.Form, q)
		req.Open = q
	}
	return Understanding{Manner: m, Request: req, Sure: sure}
}

// either is a message that may be about two topics. The one that the last request was about
// wins, or the only one that lacks nothing; else the person is asked.
func (l *Language) either(s Sentence, c Context, tied ...*Form) Understanding {
	for _, f := range tied {
		if c.Last != nil && c.Last.Topic == f.Name {
			return l.fresh(s, c, f, true)
		}
	}
	whole := l.onlyWhole(s, c, tied)
	if whole != nil {
		return l.fresh(s, c, whole, true)
	}
	u := l.fresh(s, c, tied[0], false)
	options := make([]Option, len(tied))
	for i, f := range tied {
		label := strings.ReplaceAll(f.Name, "-", " ")
		options[i] = Option{Label: label, Words: []string{f.Name, label}, Request: l.fresh(s, c, f, false).Request}
	}
	u.Request.Open = Choice("Which do you mean?", options...)
	return u
}

// onlyWhole finds the one topic among several for which nothing is missing.
func (l *Language) onlyWhole(s Sentence, c Context, forms []*Form) *Form {
	var whole *Form
	for _, f := range forms {
		if l.fresh(s, c, f, false).Request.Open == nil {
			if whole != nil {
				return nil
			}
			whole = f
		}
	}
	return whole
}

// Topic finds the topic that words name, by its name or by what points to it, leaving out one.
func (l *Language) Topic(words, without string) (string, bool) {
	s := l.mend(Read(words))
	for _, f := range l.forms {
		if f.Name == without {
			continue
		}
		name := Read(strings.ReplaceAll(f.Name, "-", " "))
		for i := 0; i+len(name.Items) <= len(s.Items); i++ {
			if sameStems(s.Items[i:], name) {
				return f.Name, true
			}
		}
	}
	ranked := slices.DeleteFunc(l.rank(&s), func(r rank) bool { return r.form.Name == without })
	if ranked[0].score > 0 && ranked[0].score > ranked[1].score {
		return ranked[0].form.Name, true
	}
	return "", false
}

func sameStems(items []Item, name Sentence) bool {
	for i := range name.Items {
		if items[i].Stem != name.Items[i].Stem {
			return false
		}
	}
	return true
}
