package speech

import "fettle/calc/measure"

// superseded marks the numbers of which the message says that they stood once and others stand now:
// "was to be 18 thick, now 22", "the old sill was 902 × 110, the new one is 915 × 124".
func (s *Sentence) superseded() {
	for i := 0; i < len(s.Items); {
		n := s.chain(i)
		if n == 0 {
			i++
			continue
		}
		last := i + 2*(n-1)
		to := s.standsNow(last + 1)
		replaced := to > 0 && s.chain(to) == n && comparable(s.Items[i].Q, s.Items[to].Q) && (s.Items[i].Q.Kind != measure.KindPercent || s.movesOn(to))
		if replaced && (s.insteadBehind(to+2*(n-1)+1) || s.oncePlaced(i) && s.nowBetween(last+1, to)) {
			for k := 0; k < n; k++ {
				s.Items[i+2*k].Q.yield(s.Items[to+2*k].Q)
			}
		}
		i = last + 1
	}
}

// yield gives a number's place, and its unit where none was said, to another.
func (q *Quantity) yield(to *Quantity) {
	if to.Bare() && q.Unit != nil {
		to.Unit, to.Kind = q.Unit, q.Kind
	}
	q.Kind = KindBefore
}

// movesOn says whether a moisture or a humidity goes on to another one from the number at i, so that
// one before it is no end of the way: it was 17 %, it's 14 now, and going to 9.
func (s *Sentence) movesOn(i int) bool {
	for j := i + 1; j < len(s.Items); j++ {
		if q := s.quantity(j); q != nil && (q.Kind == measure.KindPercent || q.Bare() && (s.word(j-1) == "to" || s.word(j-1) == "from")) {
			return true
		}
	}
	return false
}

// chain tells of how many numbers the size that starts at item i is made: 1 for a number alone.
func (s *Sentence) chain(i int) int {
	if s.quantity(i) == nil || s.word(i-1) == "×" {
		return 0
	}
	n := 1
	for s.word(i+2*n-1) == "×" && s.quantity(i+2*n) != nil {
		n++
	}
	return n
}

// comparable says whether two numbers measure the same sort of thing.
func comparable(a, b *Quantity) bool {
	if a.High != nil || b.High != nil || len(a.Per) > 0 || len(b.Per) > 0 {
		return false
	}
	switch a.Kind {
	case measure.KindNumber:
		return b.Kind == measure.KindNumber || b.Kind == measure.KindLength || b.Kind == KindCount
	case measure.KindLength, measure.KindPercent, measure.KindArea, measure.KindMass, measure.KindAngle, KindGauge, KindCount:
		return a.Kind == b.Kind || b.Bare()
	}
	return false
}

// reach is over how many words one number is believed to take the place of another.
const reach = 9

// standsNow finds the next number from item i on that may stand in another's place, or gives 0.
func (s *Sentence) standsNow(i int) int {
	for j := i; j < len(s.Items) && j <= i+reach; j++ {
		switch q := s.Items[j].Q; {
		case q == nil:
		case q.Kind == KindPrice || q.Kind == KindDate || q.Kind == KindClock || q.Kind == KindOrdinal:
		case q.Value == nil:
			return 0
		default:
			return j
		}
	}
	return 0
}

// onceWords are the words in front of a number that stood once.
var onceWords = wordSet("was were had been old first originally previously before said reckoned thought planned supposed meant chalked marked guessed drew wrote wanted used been")

// oncePlaced says whether the number at i is told as one that stood once: by a word before it in
// its clause, with no other number between.
func (s *Sentence) oncePlaced(i int) bool {
	for j := i - 1; j >= 0 && j >= i-6; j-- {
		w := s.word(j)
		if s.Items[j].Q != nil || clauseEnd(w) || w == "," || w == "now" {
			return false
		}
		if _, ok := onceWords[w]; ok {
			return true
		}
	}
	return false
}

// nowWords say that the number behind them stands.
var nowWords = wordSet("now new really actually instead fact turns truth made")

func (s *Sentence) nowBetween(from, to int) bool {
	for j := from; j < to; j++ {
		if _, ok := nowWords[s.word(j)]; ok {
			return true
		}
	}
	return s.word(to+1) == "now" || s.word(to+2) == "now" && isRoleWord(s.word(to+1))
}

// insteadBehind says whether "instead" stands behind a number, at most a noun and its role between.
func (s *Sentence) insteadBehind(i int) bool {
	for j := i; j < i+3; j++ {
		if s.word(j) == "instead" {
			return true
		}
		if s.word(j) == "" || clauseEnd(s.word(j)) {
			return false
		}
	}
	return false
}
