package speech

import (
	"math"
	"math/big"
	"slices"
	"strings"

	"fettle/calc/measure"
)

// followMarks open a message that changes the last request.
var followMarks = wordSet("and what how same make with or no not nope sorry actually but then instead again for at if in ditto try use rather oops wait i only it if's that's now also just from to when")

// correctMarks open a message that says that the last one was meant otherwise.
var correctPatterns = []string{
	"^ no|nope|nah ,? #", "^ no|nope|nah , ..", "^ no|nope wait|sorry|make|i|it|its|it's|that|that's|the|only|rather", "i meant|mean", "^ sorry|oops|whoops ,? ..",
	"^ actually ..", "^ correction", "should be|have", "^ not # ..", "^ wait ..", "^ i|it said|was # not",
}

// refersBack says whether a message that names its topic goes on from the last request:
// "and", "same", "what if", "again but".
func (l *Language) refersBack(s Sentence) bool {
	for i := range s.Items {
		w := s.word(i)
		if i <= 1 && (w == "and" || w == "same" || w == "ditto") {
			return true
		}
	}
	return s.Says("^ what|how if|about") || s.Says("again ,? but|with|only|and|this")
}

// mark says whether the message opens with a word that changes the last request.
func (s *Sentence) mark() bool {
	_, ok := followMarks[s.word(s.first())]
	if !ok && len(s.Items) > 0 {
		_, ok = followMarks[s.word(0)]
	}
	return ok || s.word(len(s.Items)-1) == "instead"
}

// plainMarks open a message that can hardly be about anything else than the last request.
var plainMarks = wordSet("and no nope sorry actually make rather oops same ditto instead change not")

// plainMark says whether the message opens so, or ends with "instead" or "again".
func (s *Sentence) plainMark() bool {
	_, first := plainMarks[s.word(0)]
	_, second := plainMarks[s.word(s.first())]
	last := s.word(len(s.Items) - 1)
	return first || second || last == "instead" || last == "again" || s.Says("what|how about") || s.Says("i meant|mean")
}

// opensWithNumber says whether the message starts with what it is to be: "50 from each end".
func (s *Sentence) opensWithNumber() bool {
	i := s.first()
	return i < len(s.Items) && s.Items[i].Q != nil
}

// followUp reads the message as the last request with something changed.
func (l *Language) followUp(s Sentence, c Context, ranked []rank) (Understanding, bool) {
	f := l.Form(c.Last.Topic)
	if f == nil || f.Text || f.Writes && !s.plainMark() {
		return Understanding{}, false
	}
	r := newReading(s, f, c.System)
	r.follow(c.Last)
	if !r.told || !l.explained(r, s.mark(), 2) {
		return Understanding{}, false
	}
	if len(ranked) > 0 && ranked[0].score >= 2 && ranked[0].form != f && !s.mark() &&
		l.fresh(s, Context{System: c.System}, ranked[0].form, false).Request.Open == nil {
		return Understanding{}, false // whole as a request of its own
	}
	u := l.finish(r, overlay(*c.Last, r), FollowUp, true)
	u.Sure = s.plainMark() || r.spoke && u.Request.Open == nil
	return u, true
}

// correction reads "no, I meant 83 cm". Where nothing was said before, it is for the topic
// that takes things back.
func (l *Language) correction(s Sentence, c Context, best rank) (Understanding, bool) {
	if !l.corrects(&s) {
		return Understanding{}, false
	}
	if best.score >= Sure && (c.Last == nil || best.form.Name != c.Last.Topic) {
		return Understanding{}, false
	}
	last := c.Last
	if c.Open != nil {
		last = c.Open
	}
	if last == nil {
		return l.nothingToCorrect(s)
	}
	f := l.Form(last.Topic)
	if f == nil || f.Text {
		return Understanding{}, false
	}
	r := newReading(s, f, c.System)
	r.follow(last)
	if !r.told || !l.explained(r, true, 2) {
		return Understanding{}, false
	}
	return l.finish(r, overlay(*last, r), Correction, true), true
}

func (l *Language) corrects(s *Sentence) bool {
	for _, p := range correctPatterns {
		if _, _, _, ok := compileOnce(p).find(s); ok {
			return true
		}
	}
	return false
}

// nothingToCorrect asks what is meant when there is no request to correct.
func (l *Language) nothingToCorrect(s Sentence) (Understanding, bool) {
	numbers := slices.ContainsFunc(s.Items, func(it Item) bool { return it.Q != nil && it.Q.Value != nil })
	f := l.Form("undo")
	if f == nil || !numbers || !s.meant() {
		return Understanding{}, false
	}
	req := Request{Topic: f.Name, Slots: map[string]Slot{}}
	req.Open = &Question{Text: "I have nothing here to correct. What was it about?"}
	return Understanding{Manner: Correction, Request: req, Sure: true}, true
}

func (s *Sentence) meant() bool {
	_, _, _, ok := compileOnce("i meant|mean").find(s)
	return ok
}

// follow fills what the message changes of the last request. A number without a role goes to
// the need whose last value it comes nearest to.
func (r *Reading) follow(last *Request) {
	if r.Form.Before != nil {
		r.Form.Before(r)
	}
	r.fillWords()
	r.fillRoles()
	r.fillGroups()
	r.fillCounts()
	r.fillSoleKinds()
	r.fillNearest(last)
	r.inOrder()
	r.wantedUnit()
}

// fillSoleKinds meets needs by the unit said, where the form has one need of that kind only.
func (r *Reading) fillSoleKinds() {
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		var fit []*Need
		for k := range r.Form.Needs {
			if n := &r.Form.Needs[k]; r.open(n) && n.exactly(r.Items[i].Q) {
				fit = append(fit, n)
			}
		}
		if len(fit) == 1 {
			r.Set(fit[0].Name, i)
			r.spoke = true
		}
	}
}

// clearlyNearer is how much nearer one value must be than the next for a number to be taken
// as a change of it.
const clearlyNearer = 1.5

// countBias makes "make it 5" mean how many rather than a size that lies as near.
const countBias = 0.6

// fillNearest gives each number that nothing spoke for to the need whose last value it comes
// nearest to, measured as a ratio. Where two come about as near, it stays unread and the
// message is not taken for a change.
func (r *Reading) fillNearest(last *Request) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.High != nil || len(r.Items[i].Q.Per) > 0 {
			continue
		}
		var near, next *Need
		best, second := math.Inf(1), math.Inf(1)
		for k := range r.Form.Needs {
			n := &r.Form.Needs[k]
			if !r.open(n) || !n.accepts(r.Items[i].Q) {
				continue
			}
			d := r.distance(n, last, *r.Items[i].Q)
			if d < best {
				near, next, best, second = n, near, d, best
			} else if d < second {
				next, second = n, d
			}
		}
		switch {
		case near == nil:
		case second > best*clearlyNearer || math.IsInf(second, 1) || near.Leads:
			r.Set(near.Name, i)
		default:
			r.either(i, near, next)
		}
	}
}

// either notes that a number may be a change of one need or of another; the person is asked.
func (r *Reading) either(item int, a, b *Need) {
	r.Claim(item)
	r.told = true
	for _, n := range []*Need{a, b} {
		r.doubt = append(r.doubt, Option{Label: n.Label, Request: Request{Topic: r.Form.Name,
			Slots: map[string]Slot{n.Name: r.slot(n, *r.Items[item].Q)}}})
	}
}

// inOrder settles two numbers that may each change either of the same two needs: they were
// said in the needs' order.
func (r *Reading) inOrder() {
	if len(r.doubt) != 4 {
		return
	}
	var names []string
	for i := range r.Form.Needs {
		n := r.Form.Needs[i].Name
		if r.doubt[0].Request.Has(n) && !r.Request.Has(n) || r.doubt[1].Request.Has(n) && !r.Request.Has(n) {
			names = append(names, n)
		}
	}
	var settled []Slot
	for k, first := range []int{0, 2} {
		for _, o := range r.doubt[first : first+2] {
			if len(names) == 2 && o.Request.Has(names[k]) {
				settled = append(settled, o.Request.Slots[names[k]])
			}
		}
	}
	if len(settled) != 2 {
		return
	}
	for k, s := range settled {
		r.Request.Slots[names[k]] = s
	}
	r.doubt = nil
}

// inDoubt makes the question of what a number changes, over the request as it stands.
func (r *Reading) inDoubt() *Question {
	if len(r.doubt) == 0 {
		return nil
	}
	options := make([]Option, len(r.doubt))
	said := ""
	for i, o := range r.doubt {
		c := r.Request.clone()
		for name, s := range o.Request.Slots {
			c.Slots[name] = s
			said = s.text()
		}
		options[i] = Option{Label: o.Label, Request: c}
	}
	return Choice("What is "+said+" now?", options...)
}

// distance is the ratio between a number and the last value of a need, at least 1; infinite
// when the need cannot take it. A need that was asked for comes first.
func (r *Reading) distance(n *Need, last *Request, q Quantity) float64 {
	if last.Open != nil && last.Open.Need == n.Name && len(last.Open.Options) == 0 {
		if n.plausible(r.slot(n, q).Num) || q.Bare() {
			return 0.1
		}
	}
	bias := 1.0
	if n.Kind == KindCount && r.Says("make|do it|that #") {
		bias = countBias
	}
	was, ok := last.Float(n.Name)
	now := ratFloat(r.slot(n, q).Num)
	if !ok || was <= 0 || now <= 0 || !n.plausible(r.slot(n, q).Num) {
		return math.Inf(1)
	}
	return math.Max(was/now, now/was) * bias
}

// overlay puts what a reading found over the last request.
func overlay(last Request, r *Reading) Request {
	c := last.clone()
	for name, s := range r.Request.Slots {
		c.Slots[name] = s
	}
	if n := len(r.Request.Items); n > 0 {
		c.Items = r.Request.Items
	}
	if r.Request.Out != "" {
		c.Out = r.Request.Out
	}
	if r.Request.Text != "" {
		c.Text = r.Request.Text
	}
	return c
}

// wantedUnit reads in which unit the results are wanted: "same in inches".
func (r *Reading) wantedUnit() {
	for i := range r.Items {
		if r.word(i) != "in" && r.word(i) != "to" && r.word(i) != "as" && r.word(i) != "into" {
			continue
		}
		switch u, ok := measure.UnitNamed(r.word(i + 1)); {
		case ok && u.Symbol == "in" && len(r.word(i+1)) > 2, r.word(i+1) == "imperial":
			r.Request.Out, r.told, r.spoke = "in", true, true
		case ok && (u.Symbol == "mm" || u.Symbol == "cm"), r.word(i+1) == "metric":
			r.Request.Out, r.told, r.spoke = "mm", true, true
		}
	}
}

// sameAsBefore takes from the last request what the message calls the same: "same wood".
func (r *Reading) sameAsBefore(last *Request) {
	for i := range r.Items {
		if r.word(i) != "same" {
			continue
		}
		for k := range r.Form.Needs {
			n := &r.Form.Needs[k]
			if n.Label != "" && strings.HasPrefix(r.word(i+1), n.Label) && last.Has(n.Name) && !r.Request.Has(n.Name) {
				r.Request.Slots[n.Name] = last.Slots[n.Name]
			}
		}
	}
}

// explained says whether what the reading did not use is little enough for the message to be
// about the request at all: nothing, or a few words behind a mark.
func (l *Language) explained(r *Reading, mark bool, allowed int) bool {
	left := 0
	for i, it := range r.Items {
		switch {
		case r.claimed[i], it.Q == nil && (it.Text == "" || isSmall(it.Text) || !letters(it.Text)):
		case it.Q != nil && it.Q.Value != nil && r.claimed[i]:
		case it.Q == nil && (r.knows(it.Stem) || isRoleWord(it.Text)):
		case it.Q != nil && (it.Q.Kind == measure.KindNumber || it.Q.Kind == measure.KindLength):
			return false
		default:
			left++
		}
	}
	if !mark {
		allowed = 0
	}
	return left <= allowed
}

func letters(w string) bool { return startsLetter(w) }

// shortestKnown is the length from which a word of a topic's cues says that a message is about
// it: shorter ones, such as "us", are everybody's.
const shortestKnown = 4

// knows says whether the form uses the word anywhere.
func (r *Reading) knows(stem string) bool {
	if slices.ContainsFunc(strings.Fields(r.Form.Knows), func(w string) bool { return Stem(w) == stem }) {
		return true
	}
	for _, c := range r.Form.Cues {
		if len(stem) >= shortestKnown && c.Weight > 0 && compileOnce(c.Pattern).has(stem) {
			return true
		}
	}
	for _, n := range r.Form.Needs {
		for _, source := range n.Roles {
			if compileOnce(source).has(stem) {
				return true
			}
		}
	}
	return false
}

func (p pattern) has(stem string) bool {
	for _, e := range p.elems {
		for _, w := range e.words {
			if w.stem == stem {
				return true
			}
		}
	}
	return false
}

// small words carry no meaning of their own in a short reply.
var smallWords = wordSet(`a an the and or but of in at for from to on with it its it's is are was were be will would i you we me my our this that these those
	down about what how much many if so then instead again same make just only all both one ones them there here do does did please pls actually sorry no not
	yes yeah yep ok okay but say says meant mean should have been got rather wait oops wide long thick deep high now also each per by as like more less than
	when i'm i've that's what's how's let's us'd can could please thanks ta cheers nope change try use take give put set go ones really still wrong`)

func isSmall(w string) bool { _, ok := smallWords[w]; return ok }

// reply reads the message as the answer to a question.
func (l *Language) reply(s Sentence, c Context, open *Request, best rank) (Understanding, bool) {
	if best.score >= Sure && best.form.Name != open.Topic {
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
	text := strings.Trim(strings.ToLower(s.Text), " .!?,")
	for _, o := range q.Options {
		if text == strings.ToLower(o.Label) || slices.Contains(o.Words, text) {
			return o.Request, true
		}
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
