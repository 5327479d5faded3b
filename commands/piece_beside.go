package commands

import (
	"fettle/calc/measure"
	"fettle/commands/speech"
)

// passPaid claims what was paid for a board, money without a sign: paid 40 for 2 of them.
func passPaid(r *speech.Reading) {
	passAll(r, "paid|paying|spent about|only? #", "cost|costs|costing me|us|him|her|them about|only? #", "# =cost|costs me|us|him|her")
}

// passJoints claims the size of what a piece goes into, told before its noun: a 24 mm groove. What
// is part of a size of several numbers stays.
func passJoints(r *speech.Reading) {
	for _, p := range []string{"# wide|deep|thick|=high? =groove|grooves|slot|slots|rebate|rebates|housing|housings|dado|mortise|mortises|mortice|mortices"} {
		for _, i := range r.All(p) {
			if wordAt(r, i-1) != "×" && wordAt(r, i+1) != "×" {
				r.Claim(i)
			}
		}
	}
}

// passSomeOf claims how many of the pieces are different from the rest, where the message has counted
// them all: 14 boards, two of them are cracked.
func passSomeOf(r *speech.Reading) {
	for _, i := range r.All("#number of them|these|those is|are|was|were|has|have|had|with|already") {
		for k := 0; k < i; k++ {
			if k != i && countsPieces(r, k) && r.Items[k].Q.Value.Cmp(r.Items[i].Q.Value) > 0 {
				r.Claim(i)
				break
			}
		}
	}
}

// countsPieces says whether the free number at i stands alone before a noun: 14 oak boards.
func countsPieces(r *speech.Reading, i int) bool {
	if !r.Free(i) || !r.Items[i].Q.Integer {
		return false
	}
	noun := wordAt(r, i+1)
	return r.Items[i].Q.Kind == speech.KindCount || r.Alone(i) && len(noun) > 2 && !anyOf(noun, "long|wide|thick|deep|high|and|mm")
}

// askWhichSize asks which of two figures for one size stands where the message leaves it open: 512 or
// maybe 520 by 60 by 18.
func askWhichSize(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || wordAt(r, i+1) != "or" || r.Question != nil {
			continue
		}
		k := i + 2
		for anyOf(wordAt(r, k), "maybe|perhaps|possibly|even|about|it's|its|is|could|be|might") {
			k++
		}
		if r.Free(k) && sameSort(r.Items[i].Q, r.Items[k].Q) && (sizeAround(r, i) || sizeAround(r, k)) {
			r.Question = &speech.Question{Text: "You give two figures for one size. Which one stands?"}
		}
	}
}

// askUnlike asks for one size at a time where some of the pieces are told to be longer than the others.
func askUnlike(r *speech.Reading) {
	if r.Question == nil && r.Says("half|rest|some|others|most of? them|these|those? .. # longer|shorter|wider|narrower|thicker|thinner") {
		r.Question = &speech.Question{Text: "Not all of them are of one size, then. What are the sizes, and how many of each?"}
	}
}

// sameSort says whether two numbers may be figures for the same size, not one in two units.
func sameSort(a, b *speech.Quantity) bool {
	size := func(q *speech.Quantity) bool {
		return q.Value != nil && q.High == nil && len(q.Per) == 0 && (q.Bare() || q.Kind == measure.KindLength)
	}
	return size(a) && size(b) && a.Value.Cmp(b.Value) != 0 && (a.Unit == nil || b.Unit == nil || a.Unit.Symbol == b.Unit.Symbol)
}

// sizeAround says whether the number at i is part of a size or has a word for its dimension behind it.
func sizeAround(r *speech.Reading, i int) bool {
	return wordAt(r, i-1) == "×" || wordAt(r, i+1) == "×" || anyOf(wordAt(r, i+1), "long|wide|thick")
}

// widerFirst turns round a section that was said with its thickness first, beside a length that was said
// apart: 25 x 50, 2.4 m long.
func widerFirst(r *speech.Reading) {
	width, thickness := r.Request.Slots["width_mm"], r.Request.Slots["thickness_mm"]
	if r.Paired("width_mm", "thickness_mm") && width.Num != nil && thickness.Num != nil && width.Num.Cmp(thickness.Num) < 0 {
		r.Request.Slots["width_mm"], r.Request.Slots["thickness_mm"] = thickness, width
	}
}
