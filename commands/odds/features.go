package odds

import (
	"slices"
	"strings"

	"fettle/commands/speech"
)

// Buckets is how many features are told apart; the rest share a bucket by chance.
const Buckets = 1 << 15

// Features lists what the model looks at in a message, each once: words, pairs of neighbours,
// pieces of words of three to five letters, the letters of a word in any order (so that two
// swapped ones change nothing) and the kinds of its numbers.
func Features(s speech.Sentence) []uint32 {
	words := plainWords(s)
	out := make([]uint32, 0, 16*len(words))
	add := func(kind byte, parts ...string) { out = append(out, bucket(kind, parts...)) }
	add('b')
	before := "^"
	for _, w := range words {
		add('w', w)
		add('p', before, w)
		before = w
		if w[0] == '#' {
			continue
		}
		out = pieces(out, w)
		add('l', anyOrder(w))
	}
	add('p', before, "$")
	if len(words) > 0 {
		add('f', words[0])
	}
	if strings.ContainsRune(s.Text, '?') {
		add('q')
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// plainWords are the words of a message, with the kind in place of each number and one word for
// each size of several numbers.
func plainWords(s speech.Sentence) []string {
	out := make([]string, 0, len(s.Items))
	polite := len(s.Items) > fewItems
	for i := 0; i < len(s.Items); i++ {
		it := s.Items[i]
		switch {
		case it.Q == nil && strings.ContainsAny(it.Text, `,.;:!()"-`), it.Text == "?", it.Q == nil && it.Text == "":
		case polite && courtesies[it.Text]:
		case it.Q == nil:
			out = append(out, it.Text)
		default:
			n := 1
			for i+2 < len(s.Items) && s.Items[i+1].Text == "×" && s.Items[i+2].Q != nil {
				i += 2
				n++
			}
			if n > 1 {
				out = append(out, "#size"+string(rune('0'+min(n, 4))))
			} else {
				out = append(out, "#"+string(it.Q.Kind))
			}
		}
	}
	return out
}

// fewItems is how short a message is in which a courtesy may be all that it says.
const fewItems = 4

// courtesies are words that say nothing of what is asked.
var courtesies = map[string]bool{"please": true, "pls": true, "plz": true, "thanks": true, "thank": true, "cheers": true, "ta": true, "hi": true, "hello": true, "hey": true, "fettle": true}

// pieces adds the runs of letters of a word with its ends marked.
func pieces(out []uint32, word string) []uint32 {
	if len(word) < 3 {
		return out
	}
	w := "^" + word + "$"
	for n := 3; n <= 5; n++ {
		for i := 0; i+n <= len(w); i++ {
			out = append(out, bucket('c', w[i:i+n]))
		}
	}
	return out
}

// anyOrder is a word with its letters sorted.
func anyOrder(word string) string {
	letters := []byte(word)
	slices.Sort(letters)
	return string(letters)
}

// bucket is where a feature's weights are kept: FNV-1a over its parts.
func bucket(kind byte, parts ...string) uint32 {
	h := uint32(2166136261)
	mix := func(b byte) { h = (h ^ uint32(b)) * 16777619 }
	mix(kind)
	for _, p := range parts {
		for i := range len(p) {
			mix(p[i])
		}
		mix(' ')
	}
	return (h ^ h>>15) % Buckets
}
