package training

import (
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"

	"fettle/commands/odds"
	"fettle/commands/speech"
)

// Without splits the examples: those of one fold, and the others. Every n-th message of a topic
// is of the same fold.
func Without(examples []Example, fold, n int) (rest, left []Example) {
	seen := map[string]int{}
	for _, e := range examples {
		k := seen[e.Topics[0]]
		seen[e.Topics[0]]++
		if k%n == fold {
			left = append(left, e)
		} else {
			rest = append(rest, e)
		}
	}
	return rest, left
}

// Folds counts the messages whose topic a model tells that was trained without their fold.
func Folds(examples []Example, n int) (right int, err error) {
	for fold := range n {
		rest, left := Without(examples, fold, n)
		m, err := Train(rest)
		if err != nil {
			return 0, err
		}
		for _, e := range left {
			if slices.Contains(e.Topics, Best(m, e.Text)) {
				right++
			}
		}
	}
	return right, nil
}

// Best is the topic that the model takes for likeliest.
func Best(m *odds.Model, text string) string {
	of := m.Of(speech.Read(text))
	best := 0
	for t := range of {
		if of[t] > of[best] {
			best = t
		}
	}
	return m.Topics[best]
}

// Sum tells one set of examples from another.
func Sum(examples []Example) string {
	h := sha256.New()
	for _, e := range examples {
		h.Write([]byte(strings.Join(e.Topics, "|") + "\t" + e.Text + "\n"))
	}
	return hex.EncodeToString(h.Sum(nil))
}
