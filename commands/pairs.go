package commands

import (
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// fromTo is two figures between which something goes, with the items that hold them.
type fromTo struct {
	from, to speech.Quantity
	items    []int
}

// between reads "from 9 to 14 %", "8-12 %" or "between -10 and 40 degrees": two figures of a
// kind, which the second, the first or the word before them may tell.
func between(r *speech.Reading, fits func(q *speech.Quantity) bool) (fromTo, bool) {
	for i := range r.Items {
		if !r.Free(i) || r.Items[i].Q.Value == nil {
			continue
		}
		q := r.Items[i].Q
		if q.High != nil && fits(q) {
			from, to := *q, *q
			from.High, to.High, to.Value = nil, nil, q.High
			return fromTo{from, to, []int{i}}, true
		}
		j := farEnd(r, i)
		if j < 0 {
			continue
		}
		from, to := *q, *r.Items[j].Q
		switch {
		case fits(&to) && from.Bare():
			from.Unit, from.Kind = to.Unit, to.Kind
		case fits(&from) && to.Bare():
			to.Unit, to.Kind = from.Unit, from.Kind
		case from.Bare() && to.Bare() && before(r, i) == "from":
		case !fits(&from) || !fits(&to):
			continue
		}
		return fromTo{from, to, []int{i, j}}, true
	}
	return fromTo{}, false
}

// before is the word before an item, or "".
func before(r *speech.Reading, i int) string {
	if i == 0 {
		return ""
	}
	return r.Items[i-1].Text
}

// farEnd finds the second figure: behind "to" or a dash, with no more than a few small words
// between.
func farEnd(r *speech.Reading, i int) int {
	linked := false
	for j := i + 1; j < len(r.Items) && j <= i+5; j++ {
		if r.Items[j].Q != nil {
			if linked && r.Free(j) && r.Items[j].Q.High == nil && r.Items[j].Q.Value != nil {
				return j
			}
			return -1
		}
		switch r.Items[j].Text {
		case "to", "-", ">", "→", "until", "till":
			linked = true
		case "and":
			linked = linked || before(r, i) == "between"
		case "winter", "summer", "night", "nights", "day", "days", "in", "at", "a", "max", "high", "highs", "heat", "sun":
		case "up", "down", "on", "about", "around", "plus", "+", "", "mc", "moisture", "rh", "humidity", "then", "back", "say", "now":
		default:
			return -1
		}
	}
	return -1
}

// ofKind accepts figures of a kind.
func ofKind(kind measure.Kind) func(*speech.Quantity) bool {
	return func(q *speech.Quantity) bool { return q.Kind == kind }
}

// takeOf gives a need the size in "300 of oak": before "of", where what follows is no number.
func takeOf(r *speech.Reading, need string) {
	for i := 0; i+2 < len(r.Items); i++ {
		q := r.Items[i].Q
		if r.Free(i) && q.Value != nil && q.Value.Sign() > 0 && (q.Bare() || q.Kind == measure.KindLength) && r.Items[i+1].Text == "of" && r.Items[i+2].Q == nil && r.Items[i+2].Text != "them" {
			r.Set(need, i)
			return
		}
	}
}
