package commands

import (
	"math/big"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

// lessWords are the words before what is taken off an area, openings what is not painted.
const (
	lessWords = "minus|less|without|except|excluding|excl|deduct|deducting|subtract|subtracting|omit|omitting"
	openings  = "window|windows|opening|openings|door|doors|doorway|doorways|hatch|hatches|hole|holes|pane|panes|glass|stove|vent"
)

// readLess takes the area that is left out: less one window 0.6 m by 0.5 m, minus 1.2 m² of glass.
func readLess(r *speech.Reading) {
	m2, open := new(big.Rat), 0
	for i := range r.Items {
		if r.Free(i) && belowNought(r, i) {
			r.Items[i].Q = positive(r.Items[i].Q)
		} else if r.Items[i].Q != nil || !leavesOut(r, i) {
			continue
		}
		for k := i; k < len(r.Items) && !anyOf(wordAt(r, k), ".|;|?|!"); k++ {
			if anyOf(wordAt(r, k), ",") && !openingBehind(r, k+1) {
				break
			}
			one, last := leftOutAt(r, i, k)
			if one == nil {
				continue
			}
			m2.Add(m2, one)
			open++
			k = last
		}
	}
	if open > 0 {
		r.Put("less_m2", speech.Quantity{Kind: measure.KindNumber, Value: m2})
	}
}

// belowNought says whether the number at i is one with a minus before what is left out: minus two windows.
func belowNought(r *speech.Reading, i int) bool {
	q := r.Items[i].Q
	return q.Value != nil && q.Value.Sign() < 0 && (openingBehind(r, i+1) || q.Kind == measure.KindArea && i > 0)
}

func positive(q *speech.Quantity) *speech.Quantity {
	p := *q
	p.Value = new(big.Rat).Abs(q.Value)
	return &p
}

// leavesOut says whether the word at i takes something off: less, minus, not counting; and "with", before
// a window.
func leavesOut(r *speech.Reading, i int) bool {
	switch w := wordAt(r, i); {
	case anyOf(w, lessWords):
		return wordAt(r, i-1) != "no" && wordAt(r, i+1) != "than"
	case w == "counting", w == "painting":
		return wordAt(r, i-1) == "not"
	case w == "out":
		return anyOf(wordAt(r, i-1), "leaving|leave")
	case w == "off":
		return anyOf(wordAt(r, i-1), "take|taking")
	case w == "with":
		return openingBehind(r, i+1) && r.Says("wall|walls|side|sides|gable|end|panel|ceiling|boarding")
	}
	return false
}

// openingBehind says whether what starts at item i is a window or the like: one small window.
func openingBehind(r *speech.Reading, i int) bool {
	for k := i; k < i+4 && k < len(r.Items); k++ {
		if anyOf(wordAt(r, k), openings) {
			return true
		}
	}
	return false
}

// leftOutAt reads what is left out at item k: an area, or the size of an opening times how many are
// counted before it. It gives nil where there is none, and the last item that it took.
func leftOutAt(r *speech.Reading, from, k int) (m2 *big.Rat, last int) {
	if !r.Free(k) || r.Items[k].Q.Value == nil {
		return nil, k
	}
	if q := r.Items[k].Q; q.Kind == measure.KindArea && len(q.Per) == 0 {
		r.Claim(k)
		m2 = new(big.Rat).Set(q.Base())
		return m2.Mul(m2, countedBefore(r, from, k)), k
	}
	if wordAt(r, k+1) != "×" || !r.Free(k+2) || wordAt(r, k+3) == "×" {
		return nil, k
	}
	wide, high := r.Sized("length_mm", *r.Items[k].Q), r.Sized("length_mm", *r.Items[k+2].Q)
	if high.Num == nil || wide.Num == nil {
		return nil, k
	}
	if wide.Bare && !high.Bare { // 0.6 × 0.5 m
		u, _ := measure.UnitNamed(high.Unit)
		wide.Num, wide.Bare = u.Base(wide.Said), false
	}
	if least := big.NewRat(leastOpening, 1); wide.Num.Cmp(least) < 0 || high.Num.Cmp(least) < 0 {
		r.Question = &speech.Question{Text: "In which unit is the size of what is left out? Please say it with its unit."}
	}
	m2 = new(big.Rat).Mul(wide.Num, high.Num)
	m2.Mul(m2, big.NewRat(1, 1e6)).Mul(m2, countedBefore(r, from, k))
	r.Claim(k)
	r.Claim(k + 2)
	return m2, k + 2
}

// leastOpening is the narrowest opening that is believed, in mm: common practice, no source.
const leastOpening = 50

// countedBefore gives how many the whole number between two items counts, and claims it: less 2 windows
// of 0.6 × 0.5.
func countedBefore(r *speech.Reading, from, to int) *big.Rat {
	for i := to - 1; i >= from; i-- {
		if r.Free(i) && r.Items[i].Q.Integer && (r.Items[i].Q.Bare() || r.Items[i].Q.Kind == speech.KindCount) {
			r.Claim(i)
			return r.Items[i].Q.Value
		}
	}
	return big.NewRat(1, 1)
}

// readCoatsChanged takes the coats that hold now where more or fewer were planned: 5 coats planned, but will do 3.
func readCoatsChanged(r *speech.Reading) {
	for _, i := range r.All("#number =coats|coat") {
		turned := false
		for k := i + 2; k < len(r.Items) && k < i+12; k++ {
			turned = turned || anyOf(wordAt(r, k), "but|now|actually|decided|instead|changed|dropped|settled|cut|make")
			if !turned || !r.Free(k) {
				continue
			}
			q := r.Items[k].Q
			alone := k+1 == len(r.Items) || anyOf(wordAt(r, k+1), ".|,|;|?|!|)|now|instead|coats|only|will|for|on")
			if q.Bare() && q.Integer && alone && r.Alone(k) && !anyOf(wordAt(r, k-1), "at|for|by") {
				r.Set("coats", k)
				r.Claim(i)
				return
			}
			break
		}
	}
}

// readTimesOver takes "twice over" for two coats where no coats were counted.
func readTimesOver(r *speech.Reading) {
	if r.Says("# =coats|coat") || r.Says("twice as|the|a|what|that|size") {
		return
	}
	for n, w := range []string{"", "=once over|round", "=twice", "=thrice"} {
		if n > 0 && r.Says(w) {
			r.Put("coats", speech.Quantity{Kind: speech.KindCount, Value: big.NewRat(int64(n), 1), Integer: true})
		}
	}
}

// coatsOf is how many coats of one finish a message counts.
type coatsOf struct {
	item   int
	finish string
}

// readSeveralFinishes takes the finish that is asked for where coats of several are counted: one coat
// primer, two coats paint, litres of paint? Where nothing says which, it asks.
func readSeveralFinishes(r *speech.Reading) {
	var all []coatsOf
	for _, i := range r.All("# =coats|coat of?") {
		k := i + 2
		if wordAt(r, k) == "of" {
			k++
		}
		if f, used := finishWords.At(r.Sentence, k); used > 0 {
			all = append(all, coatsOf{i, f})
		}
	}
	several := false
	for _, c := range all {
		several = several || c.finish != all[0].finish
	}
	if !several {
		return
	}
	wanted := finishAsked(r)
	for _, c := range all {
		if c.finish == wanted {
			r.Set("coats", c.item)
			r.Word("finish", wanted)
		}
		r.Claim(c.item)
	}
	if wanted == "" {
		r.Question = &speech.Question{Text: "How much of which finish? Ask for one of them at a time."}
	}
}

// finishAsked finds the finish behind the words that ask how much.
func finishAsked(r *speech.Reading) string {
	for i := range r.Items {
		if !anyOf(wordAt(r, i), "much|many|litres|litre|liters|tins|tin|amount|quantity|enough") {
			continue
		}
		k := i + 1
		for anyOf(wordAt(r, k), "of|the|litres|tins|do|we|i") {
			k++
		}
		if f, used := finishWords.At(r.Sentence, k); used > 0 {
			return f
		}
	}
	return ""
}

// coatsNotPieces asks which figure for the coats stands where the second was taken for a number of pieces.
func coatsNotPieces(r *speech.Reading) {
	for i := range r.Items {
		if q := r.Items[i].Q; q != nil && q.Value != nil && r.Request.Slots["quantity"].Said == q.Value && anyOf(wordAt(r, i+1), "coat|coats") {
			r.Drop("quantity")
			coats := r.Request.Slots["coats"].Num
			if coats != nil && q.Value.Cmp(coats) != 0 && !anyOf(wordAt(r, i-1), "in|per|each|a|every|with|for") { // 10 m² in one coat
				r.Question = &speech.Question{Text: "I heard two figures for the coats. How many are they?", Need: "coats"}
			}
		}
	}
}
