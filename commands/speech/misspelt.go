package speech

import (
	"slices"
	"strings"
	"time"

	"fettle/calc/measure"

	"github.com/hbollon/go-edlib"
)

// shortestMisspelt is from how many letters a word may be a misspelling of another, and
// lettersOfBoth how many the two must have together: a word of four letters is a slip only of one
// of five.
const (
	shortestMisspelt = 4
	lettersOfBoth    = 9
)

// findMisspelt looks for a word of the vocabulary with a slip of one letter.
func (v *Vocabulary) findMisspelt(s Sentence) (word string, at, used int) {
	for i, it := range s.Items {
		if it.Q != nil || len(it.Text) < shortestMisspelt || isCommon(it.Text) {
			continue
		}
		for w, stem := range v.texts {
			m, single := v.phrases[stem]
			if single && slip(it.Text, w) && (word == "" || m < word) {
				word, at, used = m, i, 1
			}
		}
		if used > 0 {
			return word, at, used
		}
	}
	return "", 0, 0
}

// slip says whether two words differ by one letter: wrong, missing, too much, or swapped
// with its neighbour. The first letter is seldom the wrong one, so it must agree.
func slip(a, b string) bool {
	d := len(a) - len(b)
	if a == "" || b == "" || len(a)+len(b) < lettersOfBoth || d > 1 || d < -1 || a[0] != b[0] && !swapped(a, b) {
		return false
	}
	return edlib.OSADamerauLevenshteinDistance(a, b) == 1
}

// Misspelt says whether a word is another one with a slip of one letter. Short words and those
// that are words in their own right never are.
func Misspelt(word, meant string) bool {
	return len(word) >= shortestMisspelt && !isCommon(word) && slip(word, meant)
}

func swapped(a, b string) bool { return len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] }

// exactWords are the words that are read before any topic is known: numbers, parts and units.
var exactWords = func() []string {
	out := []string{"hundred", "thousand", "dozen", "quarter", "quarters", "square", "cubic", "minus", "litre", "liter", "metre", "meter", "degree", "degrees"}
	for d := time.Sunday; d <= time.Saturday; d++ {
		out = append(out, strings.ToLower(d.String()), strings.ToLower(d.String())+"s")
	}
	for _, numbers := range []map[string]int64{ones, tens, parts} {
		for w := range numbers {
			out = append(out, w)
		}
	}
	for w := range roleWords {
		out = append(out, w)
	}
	out = append(out, longUnits...)
	slices.Sort(out)
	return slices.Compact(slices.DeleteFunc(out, func(w string) bool { return len(w) < shortestMisspelt }))
}()

// ExactWords lists the words for numbers and units that are also told with a slip of one letter.
func ExactWords() []string { return slices.Clone(exactWords) }

// mendExact puts right the numbers and units that were typed with a slip.
func mendExact(ts []token) []token {
	for i := range ts {
		w := ts[i].text
		if ts[i].isNumber() || len(w) < shortestMisspelt || !startsLetter(w) || isCommon(w) || isExact(w) {
			continue
		}
		for _, meant := range exactWords {
			if slip(w, meant) {
				ts[i].text = meant
				break
			}
		}
	}
	return ts
}

func isExact(w string) bool {
	if _, found := slices.BinarySearch(exactWords, w); found {
		return true
	}
	_, unit := measure.UnitNamed(w)
	return unit
}
