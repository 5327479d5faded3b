package commands

import (
	"strings"

	"fettle/commands/speech"
)

// stuffWords are what things are set out on or cut from: their sizes are not those of what is
// asked about. Only the words as they stand: "6 rails" are the things themselves.
const stuffWords = flatStuff + "|beam"

// flatStuff is what no arc is called by, as it may be a roof beam.
const flatStuff = "strip|board|rail|batten|plank|stile|cleat|lath|member|ledger|timber|wood|stock|section|blank|slab"

// sizeWord says whether a word makes the number before it a size of something.
func sizeWord(w string) bool {
	return anyOf(w, "wide|width|broad|thick|thickness|long|length|deep|high|tall|height|across")
}

// textAt is the word at an item, or "".
func textAt(r *speech.Reading, i int) string {
	if i < 0 || i >= len(r.Items) {
		return ""
	}
	return r.Items[i].Text
}

// ownerOf finds the word, of those separated by |, that the number at i is a size of: the one right
// behind it, "a 40 wide strip", or the nearest before it in its sentence, "the strip is 18 thick
// and 40 wide".
func ownerOf(r *speech.Reading, i int, words string) string {
	k := i + 1
	for textAt(r, k) == "×" && k+1 < len(r.Items) && r.Items[k+1].Q != nil {
		k += 2
	}
	if sizeWord(textAt(r, k)) {
		k++
	}
	if anyOf(textAt(r, k), words) {
		return textAt(r, k)
	}
	for k = i - 1; k >= 0 && !anyOf(r.Items[k].Text, ".|?|!|;"); k-- {
		if w := strings.TrimSuffix(r.Items[k].Text, "'s"); w != "" && anyOf(w, words) {
			return w
		}
	}
	return ""
}

// claimSizesOf sets aside the sizes of some things, said with one of the size words or as 60 × 40,
// where others may be the ones that they belong to.
func claimSizesOf(r *speech.Reading, things, others, sizes string) {
	for i := range r.Items {
		if !r.Free(i) {
			continue
		}
		crossed := joined(r, i, "×") || joined(r, i-2, "×")
		said := anyOf(textAt(r, i+1), sizes)
		if (said || crossed && anyOf("×", sizes)) && anyOf(ownerOf(r, i, things+"|"+others), things) {
			r.Claim(i)
		}
	}
}

// claimAsides sets aside bare numbers that are no size of anything: how often something was done,
// and what the person takes back.
func claimAsides(r *speech.Reading) {
	for _, i := range r.All("# times") {
		if r.Items[i].Q.Bare() {
			r.Claim(i)
		}
	}
	for _, p := range []string{"forget|ignore|disregard|scrap about? the|that|my? #", "# i|we|he|she said|had|gave|told before|earlier|first|yesterday"} {
		for _, i := range r.All(p) {
			r.Claim(i)
		}
	}
}
