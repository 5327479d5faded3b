package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// elsewhere are the words for what a piece goes into or over: their sizes are not the piece's.
const elsewhere = "window|opening|doorway|hut|wall|room|van|gap|alcove|recess"

// passOpenings claims the sizes of what a piece goes into or over: how wide the window is.
func passOpenings(r *speech.Reading) {
	passAll(r,
		elsewhere+" is|was|measures|= about? # wide|high|tall|long|deep|across|between|apart|higher|lower|above|below|off|away",
		elsewhere+" it|that|which|they|we|one .. is|are|was # wide|high|tall|long|deep|across",
	)
}

// passBeside claims the numbers of a message that speak of something else than what is asked
// about: where the next shelf is, what somebody said first, what is to be forgotten.
func passBeside(r *speech.Reading) {
	passAll(r,
		"neighbour|next|previous|other one|shelf|board|piece is|was|sits about? # higher|lower|above|below|off|away|apart|longer|wider|further",
		"petra|gil|he|she|they said|says|thought|reckoned|reckons # but|first|before|at|though|)",
		"#number of us|you", "forget|ignore|scrap the? #", "rev|revision|drawing|page|version .? no|number? #", "board|part|piece|plank|sheet|drawing # of #",
		"# wide|long|thick|high|deep? forget|ignore|scrap that|it",
	)
}

// passAll claims every number that one of the patterns meets.
func passAll(r *speech.Reading, patterns ...string) {
	for _, p := range patterns {
		for _, i := range r.All(p) {
			r.Claim(i)
			if wordAt(r, i+1) == "of" && r.Free(i+2) { // board 3 of 8
				r.Claim(i + 2)
			}
		}
	}
}

// mostSaidAlone bounds how many pieces a number without a noun is believed to mean: I need 6.
const mostSaidAlone = 60

// readHowMany takes a small number that stands where a noun is left out: "I need 6, please", "6
// are left", "only 6 this time". It counts where every size was said otherwise.
func readHowMany(r *speech.Reading) {
	for _, p := range []string{
		"# is|are still|yet? left|wanted|needed|missing", "# still? left|remaining|needed|wanted|required to?", "# more? to go|do|make|glue|cut",
		"only|just # of? them|those|these", "need|needs|want|wants|make|making|require only|just|about? # and|so|but|(|,|please|because|this|altogether",
		"need|needs|want|wants|make|making|require only|just|about? # $", "need|needs|want|wants only|just|about? # .|?|;",
	} {
		for _, i := range r.All(p) {
			q := r.Items[i].Q
			if !q.Bare() || !q.Integer || q.High != nil || q.Value.Cmp(big.NewRat(mostSaidAlone, 1)) > 0 || q.Value.Sign() <= 0 || !othersThan(r, i) {
				continue
			}
			r.Set("quantity", i)
			return
		}
	}
}

// othersThan says whether the message has another free number that may be a size.
func othersThan(r *speech.Reading, item int) bool {
	for i := range r.Items {
		if i != item && r.Free(i) && (r.Items[i].Q.Kind == measure.KindLength || r.Items[i].Q.Bare()) {
			return true
		}
	}
	return false
}

// clauseOf gives the stretch of the message around an item up to the next stop or turn of thought.
func clauseOf(r *speech.Reading, item int) (from, to int) {
	for from = item; from > 0 && !turns(r.Items[from-1].Text); {
		from--
	}
	for to = item + 1; to < len(r.Items) && !turns(r.Items[to].Text); {
		to++
	}
	return from, to
}

func turns(w string) bool {
	return anyOf(w, ".|,|;|?|!|:|but|though|although|while|whereas|(|)|so|then")
}

// Words that tell of the figure beside them that it is the one that counts, or that it is not.
const (
	ofNow   = "now|today|currently|presently|here|tonight|moment|present|actual|actually|only"
	ofOther = "yesterday|was|were|last|label|tin|bottle|packet|sheet|says|recommends|recommended|outside|outdoors|earlier|before|overnight|tomorrow|summer|winter|usually|normally|used|came|come|delivered|bought|arrived|data|range|ideal|ideally|other|old|previous|first"
)

// weightOfClause is above nought for a figure of now, below it for one of another time or place.
func weightOfClause(r *speech.Reading, item int) int {
	from, to := clauseOf(r, item)
	n := 0
	for i := from; i < to; i++ {
		switch w := wordAt(r, i); {
		case anyOf(w, ofNow):
			n++
		case anyOf(w, ofOther):
			n--
		}
	}
	return n
}

// takePresent gives a need the figure that is said to hold now, where figures of other days and
// places and of a label stand beside it, and claims those.
func takePresent(r *speech.Reading, need string, fits func(*speech.Reading, int) bool) {
	best, weight, level := -1, 0, false
	var all []int
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Value == nil || !fits(r, i) {
			continue
		}
		all = append(all, i)
		switch w := weightOfClause(r, i); {
		case r.Items[i].Q.High != nil:
		case best < 0 || w > weight:
			best, weight, level = i, w, false
		case w == weight:
			level = true
		}
	}
	if best < 0 || level || len(all) < 2 && weight <= 0 {
		return
	}
	r.Set(need, best)
	for _, i := range all {
		if r.Free(i) {
			r.Claim(i)
		}
	}
}

// airTemperatureAt says whether the number at i may be how warm it is: by its unit, or bare behind
// a word that says so.
func airTemperatureAt(r *speech.Reading, i int) bool {
	q := r.Items[i].Q
	if q.Kind == measure.KindTemperature || q.Kind == measure.KindAngle {
		return true
	}
	if !q.Bare() || !r.Alone(i) {
		return false
	}
	if next := i + 2; wordAt(r, i+1) == "to" && next < len(r.Items) && r.Items[next].Q != nil { // 5 to 30 degrees
		return airTemperatureAt(r, next)
	}
	if i+1 < len(r.Items) && !anyOf(wordAt(r, i+1), ".|,|;|?|!|(|)|in|today|now|here|outside|outdoors|but|and|yesterday|though|at") {
		return false
	}
	v, _ := q.Value.Float64()
	return v >= coldestC && v <= warmestC && anyOf(wordAt(r, i-1), "is|it's|its|was|only|about|around|at|just|now|today|be|temperature|t")
}

// airHumidityAt says whether the number at i is a percentage.
func airHumidityAt(r *speech.Reading, i int) bool { return r.Items[i].Q.Kind == measure.KindPercent }
