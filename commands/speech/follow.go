package speech

import (
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

// followUp reads the message as the last request with something changed, unless it is whole as
// a request for the other topic that the odds are certain of.
func (l *Language) followUp(s Sentence, c Context, other choice) (Understanding, bool) {
	f := l.Form(c.Last.Topic)
	if f == nil || f.Text || f.Writes && !s.plainMark() {
		return Understanding{}, false
	}
	r := newReading(s, f, c.System)
	r.follow(c.Last)
	if !r.told || !l.explained(r, s.mark(), mostUnexplained) {
		return Understanding{}, false
	}
	if other.form != nil && other.p >= certain && other.form != f && !s.mark() &&
		l.fresh(s, Context{System: c.System}, other.form, false).Request.Open == nil {
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
	if best.score >= Sure && l.changesAnother(s, c, best.form, last) {
		return Understanding{}, false
	}
	r := newReading(s, f, c.System)
	r.follow(last)
	if !r.told || !l.explained(r, true, mostUnexplained) {
		return Understanding{}, false
	}
	return l.finish(r, overlay(*last, r), Correction, true), true
}

// changesAnother says whether a message is a change of its own to something that it names: "the
// rails should be 612", said after something else was added, takes nothing back.
func (l *Language) changesAnother(s Sentence, c Context, f *Form, last *Request) bool {
	if !f.Writes {
		return false
	}
	fresh := l.fresh(s, Context{System: c.System}, f, true).Request
	return fresh.Open == nil && fresh.Word("action") == "change" && fresh.Has("name") &&
		(last.Word("action") != "change" || fresh.Word("name") != last.Word("name"))
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

// mostUnexplained is how many words a message may hold that say nothing to the topic that it is
// taken to go on about.
const mostUnexplained = 1

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
	for _, c := range r.Form.Cues {
		if len(stem) >= shortestKnown && c.Weight > 0 && compileOnce(c.Pattern).has(stem) {
			return true
		}
	}
	return r.inRole(stem)
}

// inRole says whether the word gives a number of the form its role.
func (r *Reading) inRole(stem string) bool {
	for _, n := range r.Form.Needs {
		for _, source := range n.Roles {
			if compileOnce(source).has(stem) {
				return true
			}
		}
	}
	return false
}

func (p *pattern) has(stem string) bool {
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
