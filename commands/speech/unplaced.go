package speech

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"fettle/calc/measure"
)

// unplaced asks about a number that was said beside others that count, and that has no place in the
// request: an answer without it may be the wrong one.
func (r *Reading) unplaced() *Question {
	if !r.Form.Exact {
		return nil
	}
	for _, b := range r.sentences() {
		if !r.contributes(b) {
			continue
		}
		for i := b.from; i < b.to; i++ {
			if r.Items[i].Q != nil && !r.placed(i) && !r.explained(i) {
				if q := r.whatIs(i); q != nil {
					return q
				}
			}
		}
	}
	return nil
}

// contributes says whether a sentence has given the request a number, or is the only one.
func (r *Reading) contributes(b bounds) bool {
	if b.from == 0 && b.to == len(r.Items) {
		return true
	}
	for i := b.from; i < b.to; i++ {
		if r.Items[i].Q != nil && r.filled(i) {
			return true
		}
	}
	return false
}

// placed says whether the number at i has been used or set aside.
func (r *Reading) placed(i int) bool { return r.claimed[i] || r.filled(i) }

// filled says whether the number at i stands in the request.
func (r *Reading) filled(i int) bool {
	v := r.Items[i].Q.Value
	holds := func(req Request) bool {
		for _, s := range req.Slots {
			if s.Said == v {
				return true
			}
			for _, one := range s.List {
				if one.Said == v {
					return true
				}
			}
		}
		return false
	}
	for _, it := range r.Request.Items {
		if holds(it) {
			return true
		}
	}
	return holds(r.Request)
}

// explained says whether the message itself tells that the number at i is about something else.
func (r *Reading) explained(i int) bool {
	q := r.Items[i].Q
	switch q.Kind {
	case KindPrice, KindClock, KindDate, KindOrdinal, KindLabel, KindBefore, KindTolerance, KindTold, KindUnread:
		return true
	case measure.KindNumber, KindCount, measure.KindLength:
	default:
		return !r.takes(q)
	}
	if q.Value == nil || q.Value.Cmp(big.NewRat(1, 1)) == 0 {
		return true
	}
	return r.counts(i) || q.Kind == KindCount || r.besideRole(i) || r.saidAgain(i) || r.few(i) || r.boughtFor(i) || r.otherSize(i) || r.bracketed(i) || r.otherTimes(i)
}

// besideRole says whether a word for a size or for a place stands by the number at i, so that it is
// the size of something that is not asked for.
func (r *Reading) besideRole(i int) bool {
	next, before := r.word(i+1), i-1
	if inReach(next) || isRoleWord(next) || letters(next) && i+1 < len(r.Items) && r.inRole(r.Items[i+1].Stem) && !stopsNoun(next) {
		return true
	}
	for r.word(before) == "=" || r.word(before) == ":" || r.word(before) == "is" || r.word(before) == "of" {
		before--
	}
	return isRoleWord(r.word(before))
}

// saidAgain says whether the request holds the same number already: "got 4 clamps ... are 4 enough".
func (r *Reading) saidAgain(i int) bool {
	q := r.Items[i].Q
	for k := range r.Items {
		if o := r.Items[k].Q; k != i && o != nil && o.Value != nil && r.placed(k) && o.Value.Cmp(q.Value) == 0 {
			return true
		}
	}
	return false
}

// few says whether a small number is said of things that were named before: "the outer two", "two are
// spare", "four on them are done", "would five do".
func (r *Reading) few(i int) bool {
	q := r.Items[i].Q
	if !q.Bare() || !q.Integer || q.Value.Cmp(big.NewRat(mostFew, 1)) > 0 {
		return false
	}
	_, before := fewBefore[r.word(i-1)]
	if q.Value.Cmp(big.NewRat(4, 1)) == 0 && article(r.word(i+1)) {
		return true // how many clamps 4 a joint
	}
	if r.word(i+1) == "," && isPast(r.word(i-1)) {
		return true // Gil dropped 2, so it's 10
	}
	for k := i + 1; k <= i+3; k++ {
		if _, piece := pieceNouns[r.word(k)]; piece {
			return true
		}
	}
	_, behind := fewBehind[r.word(i+1)]
	return before || behind || article(r.word(i-1)) && plural(r.word(i+1)) || r.word(i+1) == "in" && (r.word(i+2) == "all" || r.word(i+2) == "total")
}

// mostFew is up to which number things that were named before are spoken of by it.
const mostFew = 60

var (
	fewBefore  = wordSet("outer outside other last first inner inside end middle all these those them next")
	pieceNouns = wordSet("board plank slat batten strip piece screw joint stick trim rail post shelf")
	fewBehind  = wordSet("are is of on were at left more done spare to be will do enough sufficient")
)

// bracketed says whether the number at i stands in brackets.
func (r *Reading) bracketed(i int) bool {
	return slices.ContainsFunc(r.asides, func(b bounds) bool { return i >= b.from && i < b.to })
}

// otherSize says whether the number at i is one of a size of which the request holds none: that is
// the size of another thing.
func (r *Reading) otherSize(i int) bool {
	for _, g := range r.groups() {
		if slices.Contains(g, i) {
			return !slices.ContainsFunc(g, r.filled)
		}
	}
	return false
}

// boughtFor says whether the number at i is money, or what a packet holds: "it cost 12.50", "for 74 the lot",
// "a box of 200".
func (r *Reading) boughtFor(i int) bool {
	q := r.Items[i].Q
	switch r.word(i - 1) {
	case "cost", "costs", "paid", "pay", "spent":
		return !r.wantsPrice()
	}
	if !q.Bare() {
		return false
	}
	switch r.word(i - 1) {
	case "for", "(":
		cents := !q.Integer && new(big.Rat).Mul(q.Value, big.NewRat(20, 1)).IsInt() && q.Value.Cmp(big.NewRat(2, 1)) > 0
		return !r.wantsPrice() && (cents || r.Says("bought|paid|got|picked|sold|collected") || r.word(i+1) == "the" && r.word(i+2) == "lot")
	case "of":
		return isPacket(r.word(i - 2))
	}
	return r.word(i+1) == "in" && (isPacket(r.word(i+2)) || isPacket(r.word(i+3)))
}

func isPacket(w string) bool {
	switch w {
	case "box", "bag", "pack", "packet", "tub", "jar", "pot", "tin", "boxes":
		return true
	}
	return false
}

// wantsPrice says whether the topic needs a price that has not been found.
func (r *Reading) wantsPrice() bool {
	n := r.Form.need("price")
	return n != nil && !r.Request.Has(n.Name)
}

// otherTimes says whether the number at i is told as one of another time, or instead of which another
// stands: a year, "580 last year", "it was 88", "in place of 90".
func (r *Reading) otherTimes(i int) bool {
	q := r.Items[i].Q
	switch r.word(i + 1) {
	case "last", "ago", "before", "yesterday", "earlier", "previously":
		return true
	}
	switch r.word(i - 1) {
	case "was", "were", "been":
		return true
	case "until", "till":
		return q.Bare()
	case "on":
		return q.Fraction
	case "of":
		if w := r.word(i - 2); w == "place" || w == "instead" {
			return true
		}
	}
	switch r.word(i - 1) {
	case "in", "since", "from", "of", "before", "after":
		return q.mayBeYear()
	}
	return false
}

// takes says whether some need takes numbers of this kind.
func (r *Reading) takes(q *Quantity) bool {
	for k := range r.Form.Needs {
		if n := &r.Form.Needs[k]; !n.Own && n.Kind == q.Kind && r.open(n) {
			return true
		}
	}
	return false
}

var reachWords = wordSet("up off away apart higher lower above below from back past left each")

func inReach(w string) bool { _, ok := reachWords[w]; return ok }

// lateness sorts the places for a number: sizes before counts.
func lateness(n *Need) int {
	if n.Kind == KindCount {
		return 1
	}
	return 0
}

// mostPlaces is how many places for a number are offered.
const mostPlaces = 3

// whatIs asks what the number at i is: one of the needs that are still open, or nothing. Without
// such a need there is no question.
func (r *Reading) whatIs(i int) *Question {
	q := *r.Items[i].Q
	var options []Option
	needs := make([]*Need, 0, len(r.Form.Needs))
	for k := range r.Form.Needs {
		needs = append(needs, &r.Form.Needs[k])
	}
	slices.SortStableFunc(needs, func(a, b *Need) int { return cmp.Compare(lateness(a), lateness(b)) })
	for _, n := range needs {
		if len(options) == mostPlaces || r.Request.Has(n.Name) || !n.accepts(&q) || q.Bare() && n.Kind != measure.KindLength && n.Kind != KindCount && n.Kind != KindPrice && n.Kind != measure.KindNumber {
			continue
		}
		s := r.slot(n, q)
		if s.Num == nil || !n.sound(s) {
			continue
		}
		c := r.Request.clone()
		c.Slots[n.Name] = s
		options = append(options, Option{Label: n.Label, Words: []string{n.Label}, Request: c})
	}
	if len(options) == 0 {
		return nil // no place is open: what it tells is not asked for
	}
	options = append(options, Option{Label: "leave it out", Words: []string{"nothing", "none", "leave it", "ignore it"}, Request: r.Request.clone()})
	said := Slot{Num: q.Base(), Said: q.Value}
	if q.Unit != nil {
		said.Unit = q.Unit.Symbol
	}
	return Choice(fmt.Sprintf("What is the %s?", said.text()), options...)
}
