package cutplan

import "slices"

// builder makes whole solutions, board by board.
type builder struct {
	*filler
	guide guide
}

// build serves the demand from the supply: time after time the board is taken that gives most
// weight for its cost, and at the end the cheapest that takes all that is left.
func (b *builder) build(demand, supply []int, weight []float64) []*pattern {
	demand, supply = slices.Clone(demand), slices.Clone(supply)
	ready := make([]*pattern, len(b.lot.stocks))
	var chosen []*pattern
	for b.ctx.Err() == nil {
		b.refill(ready, demand, supply, weight)
		p := b.pick(ready, demand, weight)
		if p == nil {
			break
		}
		chosen = append(chosen, p)
		p.take(demand)
		supply[p.stock]--
	}
	return chosen
}

// refill seeks a new pattern for each stock whose last one asks for what is no longer wanted.
func (b *builder) refill(ready []*pattern, demand, supply []int, weight []float64) {
	for s := range ready {
		switch {
		case supply[s] == 0:
			ready[s] = nil
		case ready[s] == nil || !ready[s].fitsIn(demand):
			ready[s] = b.one(s, demand, weight, b.guide)
		}
	}
}

// pick chooses the next board.
func (b *builder) pick(ready []*pattern, demand []int, weight []float64) *pattern {
	var all float64
	for k, n := range demand {
		all += float64(n) * weight[k]
	}
	var best, last *pattern
	for _, p := range ready {
		if p == nil {
			continue
		}
		cost := b.lot.stocks[p.stock].cost
		if p.value >= all*(1-1e-9) && (last == nil || cost < b.lot.stocks[last.stock].cost) {
			last = p
		}
		if best == nil || p.value*b.lot.stocks[best.stock].cost > best.value*cost {
			best = p
		}
	}
	if last != nil {
		return last
	}
	return best
}
