package speech

import (
	"math"
	"slices"
	"sort"
)

// Odds is a second opinion on what a message is about: how likely each form is, in their order,
// and how likely it is that nothing is asked. Together they make one.
type Odds func(Sentence) (of []float64, nothing float64)

// cueWorth is what a point of a topic's cues adds to the logarithm of its odds, and mostCues how
// many points count for or against it. Chosen on messages that the odds were not trained on.
const (
	cueWorth = 0.15
	mostCues = 8
)

// Likelihoods at which a topic is taken: without asking, even against what the cues say for sure, as
// one of two that the person is asked about, and what these two must have together.
const (
	likely     = 0.5
	certain    = 0.9
	conceiving = 0.25
	oneOfTwo   = 0.7
)

// rareOdds is the least likelihood that the odds are believed to tell from none.
const rareOdds = 0.001

// choice is a topic with how likely the odds and the cues together make it.
type choice struct {
	form *Form // nil: nothing is asked
	p    float64
}

// verdict finds what the message is about, likeliest first. Of several sentences one may say it
// and the others tell a story: where the whole leaves it open, the one that is certain counts.
func (l *Language) verdict(s Sentence, ranked []rank) []choice {
	whole := l.weigh(s, ranked)
	if slices.ContainsFunc(ranked, func(r rank) bool { return r.evidence >= Sure }) { // a list says more by its lines than by its words
		return append([]choice{{ranked[0].form, 1}}, whole...)
	}
	parts := s.sentences()
	if whole[0].form != nil && whole[0].p >= likely || len(parts) < 2 {
		return whole
	}
	best := whole
	for _, b := range parts {
		part := s.part(b)
		if v := l.weigh(part, l.rank(&part)); v[0].form != nil && v[0].p >= certain && (best[0].form == nil || v[0].p > best[0].p) {
			best = v
		}
	}
	return best
}

// weigh puts what each topic's cues found together with the odds, likeliest first.
func (l *Language) weigh(s Sentence, ranked []rank) []choice {
	of, nothing := l.odds(s)
	out := make([]choice, 0, len(l.forms)+1)
	points := make(map[*Form]int, len(ranked))
	for _, r := range ranked {
		points[r.form] = r.score
	}
	total := 0.0
	add := func(f *Form, p float64, cues int) {
		c := choice{f, max(p, rareOdds) * math.Exp(cueWorth*float64(max(min(cues, mostCues), -mostCues)))}
		total += c.p
		out = append(out, c)
	}
	add(nil, nothing, 0)
	for i, f := range l.forms {
		add(f, of[i], points[f])
	}
	for i := range out {
		out[i].p /= total
	}
	sort.SliceStable(out, func(a, b int) bool { return out[a].p > out[b].p })
	return out
}

// sentences cuts a message into its sentences, each with the bounds of its items.
func (s *Sentence) sentences() []bounds {
	var out []bounds
	from := 0
	for i, it := range s.Items {
		if clauseEnd(it.Text) {
			if i > from {
				out = append(out, bounds{from, i + 1})
			}
			from = i + 1
		}
	}
	if from < len(s.Items) {
		out = append(out, bounds{from, len(s.Items)})
	}
	return out
}

// bounds are the first item of a stretch and the item behind it.
type bounds struct{ from, to int }

// part is a stretch of the message as a sentence of its own.
func (s *Sentence) part(b bounds) Sentence {
	out := Sentence{Raw: s.Raw, Text: s.Text, Items: s.Items[b.from:b.to]}
	if b.to > b.from {
		out.Text = s.Text[s.Items[b.from].Start:s.Items[b.to-1].End]
	}
	return out
}
