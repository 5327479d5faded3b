package commands

import (
	"fmt"
	"math/big"
	"slices"

	"fettle/commands/speech"
)

// mostOff is how many pieces stand beside a size without a word: beyond, it is a size itself.
const mostOff = 200

// countBehind finds how many are wanted where that stands behind the sizes with nothing but a sign
// between: 742 × 38 × 16 – 6, 742 × 38 × 16 × 6. It gives the sentence without it. Where the first
// of four figures may be it as well, why says so.
func countBehind(s speech.Sentence) (rest speech.Sentence, count *speech.Quantity, why string) {
	rest = s
	for i, it := range s.Items {
		if q := it.Q; q != nil && q.High != nil && q.Value != nil && q.Bare() && i > 1 && s.Items[i-1].Text == "×" && atMost(q.High, mostOff) && q.High.Cmp(q.Value) < 0 {
			thick := *q
			thick.High = nil
			rest.Items = slices.Clone(s.Items)
			rest.Items[i].Q = &thick
			return rest, &speech.Quantity{Value: q.High, Kind: q.Kind, Integer: true}, ""
		}
	}
	for _, first := range chainStarts(s.Items) {
		four := fourFrom(s.Items, first)
		if four == nil {
			continue
		}
		front, behind := isCount(four[0]) && descend(four[1:]), isCount(four[3]) && descend(four[:3])
		switch {
		case front && behind:
			a, d := four[0].Value.RatString(), four[3].Value.RatString()
			return s, nil, fmt.Sprintf("has four figures. Which is how many? Write “%s off” or “%s off”, please.", a, d)
		case behind:
			rest.Items = slices.Concat(s.Items[:first+5], s.Items[first+7:])
			return rest, four[3], ""
		}
	}
	return rest, nil, ""
}

// fourFrom gives the figures of a size of four from an item on, nil where it has another number of
// them.
func fourFrom(items []speech.Item, first int) (four []*speech.Quantity) {
	for i := first; i < len(items) && items[i].Q != nil && items[i].Q.Bare() && items[i].Q.Value != nil; i += 2 {
		four = append(four, items[i].Q)
		if i+1 >= len(items) || items[i+1].Text != "×" {
			break
		}
	}
	if len(four) != 4 {
		return nil
	}
	return four
}

func isCount(q *speech.Quantity) bool {
	return q.Integer && atMost(q.Value, mostOff)
}

func descend(sizes []*speech.Quantity) bool {
	return slices.IsSortedFunc(sizes, func(a, b *speech.Quantity) int { return b.Value.Cmp(a.Value) })
}

// atMost says whether a number is a whole one from 1 to most.
func atMost(v *big.Rat, most int64) bool {
	return v.IsInt() && v.Sign() > 0 && v.Cmp(big.NewRat(most, 1)) <= 0
}
