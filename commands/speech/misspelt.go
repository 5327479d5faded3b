package speech

import (
	"github.com/hbollon/go-edlib"
)

// shortestMisspelt is the length from which a word may be a misspelling of another.
const shortestMisspelt = 5

// findMisspelt looks for a word of the vocabulary with a slip of one letter.
func (v *Vocabulary) findMisspelt(s Sentence) (word string, at, used int) {
	for i, it := range s.Items {
		if it.Q != nil || len(it.Text) < shortestMisspelt || isCommon(it.Text) {
			continue
		}
		for w, stem := range v.texts {
			m, single := v.phrases[stem]
			if single && len(w) >= shortestMisspelt-1 && slip(it.Text, w) && (word == "" || m < word) {
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
	if a == "" || b == "" || d > 1 || d < -1 || a[0] != b[0] && !swapped(a, b) {
		return false
	}
	return edlib.OSADamerauLevenshteinDistance(a, b) == 1
}

// Misspelt says whether a word is another one with a slip of one letter. Short words and those
// that are words in their own right never are.
func Misspelt(word, meant string) bool {
	return len(word) >= shortestMisspelt && len(meant) >= shortestMisspelt-1 && !isCommon(word) && slip(word, meant)
}

func swapped(a, b string) bool { return len(a) > 1 && len(b) > 1 && a[0] == b[1] && a[1] == b[0] }
