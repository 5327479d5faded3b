// Package odds says how likely each topic is for a message, by a linear model over its words and
// pieces of words. It was trained on the messages of the corpus folder and of testdata/phrases
// by
//
//	go run ./commands/odds/train
//
// which writes the weights again whenever the corpus has changed. It is a second opinion beside
// the topics' own cues: it knows slips of the thumb and ways of speaking that no cue foresees.
package odds

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/gob"
	"fmt"
	"math"
	"sync"

	"fettle/commands/speech"
)

//go:embed weights.gob.gz
var trained []byte

// Model gives each of its topics a likelihood.
type Model struct {
	Topics []string  // in the order of the odds
	Scale  []float32 // of each topic: what a weight of one stands for
	Weight []int8    // Buckets rows of as many weights as there are topics
	Source string    // a sum over the messages that it was trained on
}

// Trained is the model whose weights are kept with the program.
var Trained = sync.OnceValues(func() (*Model, error) {
	zipped, err := gzip.NewReader(bytes.NewReader(trained))
	if err != nil {
		return nil, fmt.Errorf("unpack the weights of topics: %w", err)
	}
	m := &Model{}
	if err := gob.NewDecoder(zipped).Decode(m); err != nil {
		return nil, fmt.Errorf("read the weights of topics: %w", err)
	}
	if len(m.Weight) != Buckets*len(m.Topics) || len(m.Scale) != len(m.Topics) {
		return nil, fmt.Errorf("read the weights of topics: %d for %d topics", len(m.Weight), len(m.Topics))
	}
	return m, nil
})

// Of gives the likelihood of each topic for a message, in the order of Topics; together they
// make one.
func (m *Model) Of(s speech.Sentence) []float64 {
	n := len(m.Topics)
	sums := make([]float32, n)
	features := Features(s)
	for _, f := range features {
		row := m.Weight[int(f)*n : int(f)*n+n]
		for t, w := range row {
			sums[t] += float32(w)
		}
	}
	out := make([]float64, n)
	value := Value(len(features))
	for t := range out {
		out[t] = float64(sums[t]*m.Scale[t]) * value
	}
	Soften(out)
	return out
}

// Value is what each of n features of a message counts, so that long messages weigh no more than
// short ones.
func Value(n int) float64 { return 1 / math.Sqrt(float64(max(n, 1))) }

// Soften turns scores into likelihoods in place.
func Soften(scores []float64) {
	most := math.Inf(-1)
	for _, s := range scores {
		most = max(most, s)
	}
	total := 0.0
	for i, s := range scores {
		scores[i] = math.Exp(s - most)
		total += scores[i]
	}
	for i := range scores {
		scores[i] /= total
	}
}
