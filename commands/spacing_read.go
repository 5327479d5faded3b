package commands

import (
	"math/big"
	"strings"

	"fettle/calc/measure"
	"fettle/commands/speech"
)

const (
	// setOutThings are what is set out, in the plural: "slats of 70", "hooks: 6".
	setOutThings = "holes|hooks|pegs|slats|mugs|dowels|pins|screws|plugs|spindles|balusters|battens|rungs|cups|bars|posts|knobs|nails|rails|jars|plates|hangers|brackets|shelves|drawers|boards|planks|strips|uprights|dividers|partitions|bolts|studs|things|pieces"
	// stackedThings lie one above the other: the row goes by how thick they are.
	stackedThings = "shelves|shelf|drawers|rungs|rung"
	// rowFurniture is what a row may stand in or on, beside rowWords.
	rowFurniture = "cupboard|carcase|cabinet|case|ladder|gate|bench|table|bed|bunk|seat|crate|rack|railing|lid|top"
	// boundThings stand at the ends of a row.
	boundThings = "posts|walls|cheeks|uprights|jambs|sides|stiles|ends|newels|rails"
)

// readThings reads which size of the things is the one along the row, and sets aside their others: slats
// 70 wide and 22 thick, spindles of 32 and 900 long, shelves 20 thick and 250 deep.
func readThings(r *speech.Reading) {
	for _, p := range []string{"between|inside the? # " + boundThings, "the|both|all # =ends|sides|edges", "the|those|both # at|by|near|against the? =ends|sides|walls|edges"} {
		for _, i := range r.All(p) {
			if r.Alone(i) && saidNumberAt(r, i) <= 4 {
				r.Claim(i) // between two posts, at the two ends
			}
		}
	}
	readEachOf(r)
	along, across := "wide|broad|across|width", "thick|thickness|deep|high|tall|long"
	if r.Says("=" + stackedThings) {
		along, across = "thick|thickness|high|tall", "wide|broad|deep|long"
	}
	if r.Says("=uprights|dividers|partitions") && !r.Says("# wide|broad|across") {
		along, across = "thick|thickness", "wide|broad|deep|high|tall|long"
	}
	sized := r.Request.Has("item_mm")
	for i := range r.Items {
		if r.Free(i) && anyOf(textAt(r, i+1), along) && ofThings(r, i) && (!sized || r.Says("=each")) {
			r.Set("item_mm", i)
			sized = true
		}
	}
	if !sized && !r.Says("# diameter|dia|ø|square|sq") {
		return
	}
	for i := range r.Items {
		if r.Free(i) && anyOf(textAt(r, i+1), across) && ofThings(r, i) && !joined(r, i, "×") && (textAt(r, i+1) != "long" || otherSpan(r, i)) {
			r.Claim(i)
		}
	}
}

// ofThings says whether the number at i is a size of what is set out, not of what it stands in.
func ofThings(r *speech.Reading, i int) bool {
	of := ownerOf(r, i, stuffWords+"|"+rowWords+"|"+setOutWords+"|"+setOutThings+"|"+rowFurniture)
	return anyOf(of, setOutWords+"|"+setOutThings) && (of == "each" || of == "one" || of == "ones" || !anyOf(of, rowWords+"|"+stuffWords+"|"+rowFurniture) || severalOf(r, of))
}

// otherSpan says whether a number other than the one at i is said to be what the row goes along.
func otherSpan(r *speech.Reading, i int) bool {
	for _, k := range r.All("over|along|across|between|within|in|into a|an|the|my|our|clear? #") {
		if k != i {
			return true
		}
	}
	return false
}

// readEachOf reads "slats of 70 × 22" and "7 slats, each 70", where how many there are was said as well.
func readEachOf(r *speech.Reading) {
	const things = "=" + setOutThings
	patterns := []string{things + " of # ", things + " .. , each|all is|are|of? # ", things + " each|all is|are|of|being # ", "each is|of|being|measures? # wide|across|broad|thick|square|dia|diameter"}
	if r.Says("# equal|even? " + things + "|=gaps|=spaces") {
		patterns = append(patterns, "=slats|battens|spindles|balusters|mugs|rungs|bars|cups|jars|plates # with|over|across|,")
	}
	for k, p := range patterns {
		for _, i := range r.All(p) {
			q := r.Items[i].Q
			behind := textAt(r, i+1)
			if !q.Bare() && q.Kind != measure.KindLength || q.High != nil || k > 0 && behind == "in" || anyOf(behind, "long|high|tall|deep|apart|centres|centers|c|from|off|"+setOutThings) || r.Request.Has("item_mm") {
				continue
			}
			r.Set("item_mm", i)
			for k := i; joined(r, k, "×"); k += 2 {
				r.Claim(k + 2)
			}
		}
	}
}

// readRowStock takes the first number of a size of the board that the row is on for the length along
// which it goes: hooks on a rail 900 × 70 × 20.
func readRowStock(r *speech.Reading) {
	for i := range r.Items {
		if !r.Free(i) || !joined(r, i, "×") || before(r, i) == "×" || !anyOf(ownerOf(r, i, stuffWords+"|"+rowWords+"|"+setOutWords+"|"+setOutThings), stuffWords+"|shelf") {
			continue
		}
		if !r.Request.Has("span_mm") {
			r.Put("span_mm", *r.Items[i].Q)
		}
		r.Claim(i)
		for k := i; joined(r, k, "×"); k += 2 {
			r.Claim(k + 2)
		}
	}
}

// readInFromEnds takes "75 in" for a distance in from the ends where so many inches would not go twice
// into the length.
func readInFromEnds(r *speech.Reading) {
	span, said := r.Request.Float("span_mm")
	if !said || r.Request.Has("end_mm") || r.Request.Slots["span_mm"].Unit == "in" || r.System == measure.Imperial {
		return
	}
	for i := range r.Items {
		it := r.Items[i]
		if !r.Free(i) || it.Q.Unit == nil || it.Q.Unit.Symbol != "in" || !strings.HasSuffix(strings.ToLower(r.Text[it.Start:it.End]), " in") || sizeWord(textAt(r, i+1)) || it.Q.High != nil || len(it.Q.Per) > 0 {
			continue
		}
		bare := *it.Q
		bare.Unit, bare.Kind = nil, measure.KindNumber
		inches, _ := it.Q.Base().Float64()
		if mm := r.Sized("end_mm", bare); mm.Num != nil && 2*inches >= span && mm.Num.Cmp(big.NewRat(int64(span/2), 1)) < 0 {
			r.Put("end_mm", bare)
			r.Claim(i)
		}
	}
}
