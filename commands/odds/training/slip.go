package training

import (
	"math/rand/v2"
	"strings"
)

// slipped is a text with slips of the thumb in some of its longer words: two letters swapped, one
// left out or one doubled. The same seed makes the same slips.
func slipped(text string, seed uint64) string {
	r := rand.New(rand.NewPCG(seed, 1))
	words := strings.Fields(text)
	for i, w := range words {
		if len(w) < 4 || r.IntN(4) != 0 || strings.ContainsAny(w, "0123456789") {
			continue
		}
		at := 1 + r.IntN(len(w)-2)
		switch r.IntN(3) {
		case 0:
			words[i] = w[:at] + w[at+1:at+2] + w[at:at+1] + w[at+2:]
		case 1:
			words[i] = w[:at] + w[at+1:]
		case 2:
			words[i] = w[:at] + w[at:at+1] + w[at:]
		}
	}
	return strings.Join(words, " ")
}
