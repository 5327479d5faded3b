// Package training makes the model of package odds from messages whose topics are known.
package training

import (
	"fmt"
	"math"
	"slices"

	"fettle/commands/odds"
	"fettle/commands/speech"

	"gonum.org/v1/gonum/floats"
	"gonum.org/v1/gonum/optimize"
)

// Example is a message with the topics that are right for it.
type Example struct {
	Text   string
	Topics []string
}

// strength is how much large weights cost. Chosen by leaving out a fifth of the messages in turn.
const strength = 0.05

// Train fits the model to the examples. It gives the same weights for the same examples.
func Train(examples []Example) (*odds.Model, error) {
	p := newProblem(examples)
	problem := optimize.Problem{
		Func: func(x []float64) float64 { return p.loss(x, nil) },
		Grad: func(grad, x []float64) { p.loss(x, grad) },
	}
	settings := &optimize.Settings{MajorIterations: 80, GradientThreshold: 1e-2}
	got, err := optimize.Minimize(problem, make([]float64, odds.Buckets*len(p.topics)), settings, &optimize.LBFGS{Store: 8})
	if got == nil {
		return nil, fmt.Errorf("fit the weights of topics: %w", err)
	}
	return rounded(p.topics, got.X), nil
}

// problem is the examples as the fit sees them.
type problem struct {
	topics   []string
	features [][]uint32
	want     [][]float64
}

func newProblem(examples []Example) *problem {
	p := &problem{}
	for _, e := range examples {
		for _, t := range e.Topics {
			if !slices.Contains(p.topics, t) {
				p.topics = append(p.topics, t)
			}
		}
	}
	slices.Sort(p.topics)
	for i, e := range examples {
		want := make([]float64, len(p.topics))
		for _, t := range e.Topics {
			want[slices.Index(p.topics, t)] = 1 / float64(len(e.Topics))
		}
		for _, text := range []string{e.Text, slipped(e.Text, uint64(i))} {
			p.features = append(p.features, odds.Features(speech.Read(text)))
			p.want = append(p.want, want)
		}
	}
	return p
}

// loss is the surprise at the right topics, with the cost of large weights; grad, unless nil,
// becomes its slope.
func (p *problem) loss(x, grad []float64) float64 {
	n := len(p.topics)
	for i := range grad {
		grad[i] = strength * x[i]
	}
	total := strength / 2 * floats.Dot(x, x)
	got := make([]float64, n)
	for i, features := range p.features {
		value := odds.Value(len(features))
		clear(got)
		for _, f := range features {
			floats.Add(got, x[int(f)*n:int(f)*n+n])
		}
		floats.Scale(value, got)
		odds.Soften(got)
		for t, w := range p.want[i] {
			if w > 0 {
				total -= w * math.Log(max(got[t], 1e-12))
			}
			got[t] = (got[t] - w) * value
		}
		if grad == nil {
			continue
		}
		for _, f := range features {
			floats.Add(grad[int(f)*n:int(f)*n+n], got)
		}
	}
	return total
}

// rounded keeps each weight in one byte.
func rounded(topics []string, x []float64) *odds.Model {
	n := len(topics)
	m := &odds.Model{Topics: topics, Scale: make([]float32, n), Weight: make([]int8, len(x))}
	for t := range topics {
		most := 0.0
		for i := t; i < len(x); i += n {
			most = max(most, math.Abs(x[i]))
		}
		m.Scale[t] = float32(max(most, 1e-9) / 127)
	}
	for i, w := range x {
		m.Weight[i] = int8(math.Round(w / float64(m.Scale[i%n])))
	}
	return m
}
