package speech

import (
	_ "embed"
)

// lookalikes.txt lists ordinary English words that differ by one letter from a word that
// means something to a topic: they are words in their own right, never slips. They come from the
// SCOWL word lists (small sizes, American and British); a test makes the list anew.
//
//go:embed lookalikes.txt
var lookalikeList string

var lookalikes = wordSet(lookalikeList)

// isCommon says whether a word is one in its own right and no misspelling.
func isCommon(w string) bool {
	_, ok := lookalikes[w]
	return ok || isSmall(w)
}

// mend puts the word that was meant in the place of one with a slip of one letter, where only
// a word that means something to a topic comes into question.
func (l *Language) mend(s Sentence) Sentence {
	for i := range s.Items {
		it := &s.Items[i]
		if it.Q != nil || len(it.Text) < shortestMisspelt || l.words[it.Stem] || isCommon(it.Text) {
			continue
		}
		if w := l.meant(it.Text, it.Stem); w != "" {
			it.Text, it.Stem = w, l.texts[w]
		}
	}
	return s
}

func (l *Language) meant(text, stem string) string {
	best := ""
	for w, s := range l.texts {
		if (slip(text, w) || len(text) > shortestMisspelt && slip(stem, s)) && (best == "" || closer(w, best)) {
			best = w
		}
	}
	return best
}

// closer settles which of two words was meant, the same way every time: the longer one, then
// the first by the alphabet.
func closer(a, b string) bool {
	if len(a) != len(b) {
		return len(a) > len(b)
	}
	return a < b
}
