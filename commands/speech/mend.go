package speech

import (
	_ "embed"
	"sort"
	"strings"
)

// lookalikes.txt lists ordinary English words that differ by one letter from a word that
// means something to a topic: they are words in their own right, never slips.
//
//go:embed lookalikes.txt
var lookalikeList string

var lookalikes = wordSet(lookalikeList)

// isCommon says whether a word is one in its own right and no misspelling.
func isCommon(w string) bool {
	_, ok := lookalikes[w]
	return ok || isSmall(w)
}

// mend gives words with a slip of one letter the stem of the word that was meant, where only
// a word that means something to a topic comes into question.
func (l *Language) mend(s Sentence) Sentence {
	for i := range s.Items {
		it := &s.Items[i]
		if it.Q != nil || len(it.Text) < shortestMisspelt || l.words[it.Stem] || isCommon(it.Text) {
			continue
		}
		if w := l.meant(it.Text, it.Stem); w != "" {
			it.Stem = w
		}
	}
	return s
}

func (l *Language) meant(text, stem string) string {
	var fit []string
	for w := range l.words {
		if len(w) >= shortestMisspelt-1 && (slip(stem, w) || slip(text, w)) {
			fit = append(fit, w)
		}
	}
	if len(fit) == 0 {
		return ""
	}
	sort.Slice(fit, func(a, b int) bool {
		if len(fit[a]) != len(fit[b]) {
			return len(fit[a]) > len(fit[b])
		}
		return strings.Compare(fit[a], fit[b]) < 0
	})
	return fit[0]
}
