package speech

import (
	"cmp"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"fettle/calc/measure"
)

// Reading is one attempt to read a sentence as a request for one topic.
type Reading struct {
	Sentence
	Form    *Form
	Request Request
	System  measure.System // how bare numbers are read

	Replying bool      // the sentence answers a question
	Question *Question // raised by the topic: what must be known first

	guessed []string  // needs met by order alone
	doubt   []Option  // what a number may change, when it is not clear
	missing *Question // what the topic must have and has not
	claimed []bool    // items that have been used
	stated  string    // the unit that the message says of all its sizes
	part    bounds    // the stretch of the message that is looked at alone
	asides  []bounds  // what stands in brackets
	spoke   bool      // a word or a unit says what a number is for
	told    bool      // something of the topic was found in the sentence
}

func newReading(s Sentence, f *Form, system measure.System) *Reading {
	return &Reading{
		Sentence: s, Form: f, System: system,
		Request: Request{Topic: f.Name, Slots: map[string]Slot{}},
		claimed: make([]bool, len(s.Items)),
		part:    bounds{0, len(s.Items)},
		stated:  statedUnit(s),
	}
}

// statedUnit finds the unit that a message says of all its sizes: all in cm, measured in inches.
func statedUnit(s Sentence) string {
	for i := range s.Items {
		if s.word(i) != "in" && s.word(i) != "are" || s.Says("give|show|convert|answer|results|tell .. all|everything in") {
			continue
		}
		switch w := s.word(i - 1); w {
		case "all", "everything", "sizes", "measures", "measurements", "dimensions", "figures", "numbers", "measured":
		default:
			continue
		}
		if u, ok := measure.UnitNamed(s.word(i + 1)); ok && u.Kind == measure.KindLength {
			return u.Symbol
		}
	}
	return ""
}

// Claim marks an item as used, so that no other need takes it.
func (r *Reading) Claim(i int) { r.claimed[i] = true }

// Free says whether item i is a quantity that nothing has used yet.
func (r *Reading) Free(i int) bool {
	return i >= 0 && i < len(r.Items) && r.Items[i].Q != nil && !r.claimed[i]
}

// Find looks for a pattern whose # is a free quantity and gives the quantity's item.
func (r *Reading) Find(source string) (item int, ok bool) {
	return r.findFree(compileOnce(source), 0)
}

// All finds every free quantity that a pattern's # meets, in order.
func (r *Reading) All(source string) []int {
	p := *compileOnce(source)
	p.tight = true
	var out []int
	for i := range r.Items {
		if _, m, ok := p.match(&r.Sentence, i); ok && r.Free(m) {
			out = append(out, m)
		}
	}
	return out
}

// Says tells whether the pattern stands in the sentence.
func (r *Reading) Says(source string) bool {
	p := compileOnce(source)
	_, _, _, ok := p.find(&r.Sentence)
	return ok
}

func (r *Reading) findFree(p *pattern, from int) (int, bool) {
	for i := from; i <= len(r.Items); i++ {
		if _, m, ok := p.match(&r.Sentence, i); ok && (m < 0 || r.Free(m)) {
			return m, true
		}
	}
	return 0, false
}

// Set fills a need with a number of the sentence and claims it.
func (r *Reading) Set(name string, item int) {
	r.Put(name, *r.Items[item].Q)
	r.Claim(item)
}

// Put fills a need with a quantity.
func (r *Reading) Put(name string, q Quantity) {
	n := r.Form.need(name)
	if n == nil || q.Value == nil {
		return
	}
	r.Request.Slots[name] = r.slot(n, q)
	r.told = true
}

// Anew says whether the need holds a number of this very message, not one of the request that
// the message goes on from.
func (r *Reading) Anew(name string) bool {
	s, ok := r.Request.Slots[name]
	return ok && s.Said != nil && slices.ContainsFunc(r.Items, func(it Item) bool { return it.Q != nil && it.Q.Value == s.Said })
}

// Drop takes back what was filled in for a need.
func (r *Reading) Drop(name string) { delete(r.Request.Slots, name) }

// Word fills a need with a word.
func (r *Reading) Word(name, word string) {
	r.Request.Slots[name] = Slot{Word: word}
	r.told = true
}

// Means fills a need with a word where one of the patterns stands in the sentence, and claims
// the words that it met. It says whether one does.
func (r *Reading) Means(name, word string, patterns ...string) bool {
	for _, source := range patterns {
		from, to, ok := r.Stands(source)
		if !ok {
			continue
		}
		r.Word(name, word)
		r.spoke = true
		for i := from; i < to; i++ {
			if r.Items[i].Q == nil {
				r.Claim(i)
			}
		}
		return true
	}
	return false
}

// slot gives a quantity the unit that it has or takes, for the need.
func (r *Reading) slot(n *Need, q Quantity) Slot {
	if q.Value == nil { // a number that can't be read, or only an upper bound
		return Slot{}
	}
	s := Slot{Said: q.Value, Num: q.Value}
	switch {
	case q.Unit != nil && n.Kind == measure.KindTemperature && n.Change:
		s.Unit, s.Num = q.Unit.Symbol, q.Unit.Difference(q.Value)
	case q.Unit != nil && q.Unit.Kind == n.Kind:
		s.Unit, s.Num = q.Unit.Symbol, q.Unit.Base(q.Value)
	case n.Kind == measure.KindTemperature: // degrees, of which is not said
		s.Bare, s.Unit = true, "c"
	case q.Unit != nil:
	case n.Kind == measure.KindAngle:
		s.Bare, s.Unit = true, "deg"
	case n.Kind == measure.KindLength:
		unit := string(r.System)
		if (q.Fraction || q.Quarters) && r.System == measure.Metric {
			s.Unit = "in"
			s.Num = inUnit(q.Value, "in")
			return s
		}
		s.Bare, s.Unit = r.stated == "", cmp.Or(r.stated, unit)
		s.Num = inUnit(q.Value, s.Unit)
	default:
		s.Bare = n.Kind != KindCount
	}
	return s
}

func inUnit(v *big.Rat, symbol string) *big.Rat {
	u, ok := measure.UnitNamed(symbol)
	if !ok {
		return v
	}
	return u.Base(v)
}

// accepts says whether the quantity can fill the need, as far as its kind goes.
func (n *Need) accepts(q *Quantity) bool {
	if q == nil || q.Value == nil || q.Kind == KindUnread {
		return false
	}
	switch n.Kind {
	case measure.KindTemperature:
		return q.Kind == measure.KindTemperature || q.Kind == measure.KindAngle || q.Bare()
	case KindCount:
		return q.Kind == KindCount || q.Bare() && q.Integer
	case KindPrice:
		return q.Kind == KindPrice || q.Bare()
	case measure.KindNumber:
		return q.Bare() || q.Kind == KindCount
	case KindWord:
		return false
	}
	return q.Kind == n.Kind || q.Bare()
}

// exactly says whether the quantity is of the need's kind by the unit that was said.
func (n *Need) exactly(q *Quantity) bool {
	return n.accepts(q) && !q.Bare() && len(q.Per) == 0
}

// AskFor asks the question when none of the needs was met.
func (r *Reading) AskFor(need, question string, any ...string) {
	if r.missing != nil || slices.ContainsFunc(any, r.Request.Has) {
		return
	}
	r.missing = &Question{Text: question, Need: need}
}

// OnlyGuessed says whether the need was met by order alone and the others not at all.
func (r *Reading) OnlyGuessed(need string, others ...string) bool {
	for _, o := range others {
		if r.Request.Has(o) {
			return false
		}
	}
	return slices.Contains(r.guessed, need)
}

// Paired says whether the two needs, and no third, were met by a size of two bare numbers
// without roles.
func (r *Reading) Paired(first, second string) bool {
	for _, g := range r.groups() {
		if len(g) != 2 || !r.Items[g[0]].Q.Bare() || !r.Items[g[1]].Q.Bare() {
			continue
		}
		a, b := r.Request.Slots[first], r.Request.Slots[second]
		if a.Said == r.Items[g[0]].Q.Value && b.Said == r.Items[g[1]].Q.Value {
			return !isRoleWord(r.word(g[0]+1)) && !isRoleWord(r.word(g[1]+1))
		}
	}
	return false
}

// Moved copies the request with what was read for some needs given to others.
func (r *Reading) Moved(to map[string]string) Request {
	c := r.Request.clone()
	for from := range to {
		delete(c.Slots, from)
	}
	for from, name := range to {
		if s, ok := r.Request.Slots[from]; ok {
			c.Slots[name] = s
		}
	}
	return c
}

// Choice makes a question with options that are numbered in its text.
func Choice(text string, options ...Option) *Question {
	labels := make([]string, len(options))
	for i, o := range options {
		labels[i] = strconv.Itoa(i+1) + " " + o.Label
	}
	return &Question{Text: text + " " + strings.Join(labels, " · "), Options: options}
}

// List fills a need with several numbers.
func (r *Reading) List(name string, list []Slot) {
	r.Request.Slots[name] = Slot{List: list}
	r.told = true
}

// TargetUnit finds the unit that something is to be converted to: behind in, to or into, or
// behind "how many". It gives the unit's symbol, "imperial" or "metric" as in and mm, or "".
func (r *Reading) TargetUnit() string {
	for i := range r.Items {
		switch r.word(i) {
		case "in", "to", "into", "as", "=", "many", "much", "-":
		default:
			continue
		}
		for n := 2; n >= 1; n-- {
			if u, ok := measure.UnitNamed(r.words(i+1, n)); ok {
				return u.Symbol
			}
		}
		switch r.word(i + 1) {
		case "imperial":
			return "in"
		case "metric":
			return "mm"
		}
	}
	if n := len(r.Items); n > 0 {
		if u, ok := measure.UnitNamed(r.word(n - 1)); ok {
			return u.Symbol
		}
	}
	return ""
}

// words joins n words from item i on.
func (r *Reading) words(i, n int) string {
	parts := make([]string, n)
	for k := range parts {
		parts[k] = r.word(i + k)
	}
	return strings.Join(parts, " ")
}

// Before says whether one of the words (separated by |) stands before item i, with at most
// one item between.
func (r *Reading) Before(i int, words string) bool {
	for _, w := range strings.Split(words, "|") {
		if r.word(i-1) == w || r.word(i-2) == w {
			return true
		}
	}
	return i < len(r.Items) && strings.HasPrefix(strings.ToLower(r.Text[r.Items[i].Start:r.Items[i].End]), "1") ||
		strings.HasPrefix(strings.ToLower(r.Text[r.Items[i].Start:r.Items[i].End]), "one")
}

// Alone says whether the number at item i is bare and no part of a size.
func (r *Reading) Alone(i int) bool {
	return r.Items[i].Q.Bare() && r.word(i+1) != "×" && r.word(i-1) != "×"
}

// Named finds a word of a vocabulary in the sentence.
func (r *Reading) Named(v *Vocabulary) (string, bool) {
	w, _, used := v.findBest(r.Sentence)
	return w, used > 0
}

// Stands finds the first place where a pattern stands in the sentence: its first item and the
// item behind it.
func (r *Reading) Stands(source string) (from, to int, ok bool) {
	p := compileOnce(source)
	from, to, _, ok = p.find(&r.Sentence)
	return from, to, ok
}

// Rest is the text from item i on, as it was typed, without signs at its ends.
func (r *Reading) Rest(i int) string {
	if i >= len(r.Items) {
		return ""
	}
	return strings.Trim(r.Text[r.Items[i].Start:], " \t\n,;:.?!\"“”-")
}

// Upto is the text before item i, as it was typed, without signs at its ends.
func (r *Reading) Upto(i int) string {
	if i <= 0 || i >= len(r.Items) {
		return ""
	}
	return strings.Trim(r.Text[:r.Items[i].Start], " \t\n,;:.?!\"“”-")
}

// Holds says whether the number of a slot was said in this very message.
func (r *Reading) Holds(s Slot) bool {
	return s.Said != nil && slices.ContainsFunc(r.Items, func(it Item) bool { return it.Q != nil && it.Q.Value == s.Said })
}

// Said says whether the need was met by a number of this very message, not by an earlier one.
func (r *Reading) Said(need string) bool { return r.Holds(r.Request.Slots[need]) }

// Sized gives a quantity the unit that it has or takes, for the need.
func (r *Reading) Sized(need string, q Quantity) Slot { return r.slot(r.Form.need(need), q) }

// Follows says whether the word stands right before item i.
func (r *Reading) Follows(i int, word string) bool { return r.word(i-1) == word }

// Item reads a sentence, a stretch of this one or a line of a list, as one of several things of
// the same form.
func (r *Reading) Item(s Sentence) *Reading {
	it := newReading(s, r.Form, r.System)
	it.stated = r.stated
	it.fillWords()
	it.fillRoles()
	it.fillGroups()
	it.fillCounts()
	it.fillLoose()
	return it
}

// Used says whether something was made of item i.
func (r *Reading) Used(i int) bool { return r.claimed[i] }
