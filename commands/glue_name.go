package commands

import (
	"strings"

	"fettle/commands/speech"
)

// gluedThing finds what was glued: the words that are neither glue nor time nor the saying of it.
// Where somebody glued something, what stands behind that comes first: before it may stand a story.
func gluedThing(r *speech.Reading) string {
	if _, behind, ok := r.Stands("i|we|he|she|they|gil|petra|i've|we've|and|then|so have|has|now|just|also? =glued|=clamped|=cramped up|together? the|our|my|a|both"); ok {
		if name := thingFrom(r, behind); name != "" {
			return name
		}
	}
	return thingFrom(r, 0)
}

func thingFrom(r *speech.Reading, start int) string {
	from, to := -1, -1
	for i := start; i <= len(r.Items); i++ {
		if i < len(r.Items) && ofName(r, i) {
			if from < 0 {
				from = i
			}
			to = i + 1
			continue
		}
		if from >= 0 && !(i < len(r.Items) && inName(r, i, from)) {
			break
		}
	}
	if from < 0 {
		return ""
	}
	for i := from; i < to; i++ {
		r.Claim(i)
	}
	name := strings.Trim(r.Text[r.Items[from].Start:r.Items[to-1].End], " ,.:;!-")
	return strings.TrimSuffix(strings.TrimSuffix(name, "'s"), "’s")
}

// ofName says whether an item can be part of what a thing is called.
func ofName(r *speech.Reading, i int) bool {
	it := r.Items[i]
	if q := it.Q; q != nil {
		numbers := i > 1 && r.Items[i-1].Text == "and" && r.Items[i-2].Q != nil // bows 1 and 2
		return i > 0 && r.Items[i-1].Q == nil && (q.Kind == speech.KindLabel || q.Bare() && q.Integer && q.High == nil && (numbers || !notNaming(r.Items[i-1].Text)))
	}
	if _, n := glueWords.At(r.Sentence, i); n > 0 || len(it.Text) == 0 || !wordy(it.Text) {
		return false
	}
	for back := 1; back <= 3 && i >= back; back++ { // the second word of "hide glue"
		if _, n := glueWords.At(r.Sentence, i-back); n > back {
			return false
		}
	}
	_, _, day := speech.Weekday(it.Text)
	return !day && !notNaming(it.Text)
}

// inName says whether an item that names nothing may stand within a name: the top half of the
// door, bow no 3.
func inName(r *speech.Reading, i, from int) bool {
	switch r.Items[i].Text {
	case "of", "no", "the", "and", "&", "#", "-", "number", "nr":
		return i+1 < len(r.Items) && (ofName(r, i+1) || r.Items[i+1].Text == "the" || r.Items[i+1].Text == "." && i+2 < len(r.Items))
	}
	return false
}

func wordy(w string) bool {
	return strings.ContainsFunc(w, func(c rune) bool { return c >= 'a' && c <= 'z' || c > 127 })
}

// sayings are the words with which a glue-up is told, and those that say when and how.
var sayings = strings.Fields(`a an the this that these those i we i've we've we're i'm he she they you it its it's have has had having got get been be is are was were am just now then today yesterday
	stuck together stick sticking bonded bonding tonight morning evening afternoon night last ago since at in into on up under with using by from for of to and also too so ok okay right again please pls hi hello hey no not sorry actually oops
	glue glued gluing glueup glue-up clamped clamp clamps cramps cramp clamping pressed press pressing went gone go goes put spread closed start started starting timer timers set run clock
	here inside indoors workshop shed shop hut about around roughly some degrees degree temperature temp humidity rh same stuff mix batch all done already only one minute minutes hour hours past
	wait make meant mean it'll needs old back finally both both's petra gil me my our their new noon midnight shut
	tomorrow next coming week will we'll i'll shall gonna soon later glueing while kindly`)

func notNaming(w string) bool {
	for _, s := range sayings {
		if w == s {
			return true
		}
	}
	return false
}
