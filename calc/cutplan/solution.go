package cutplan

import "cmp"

// solution is a choice of patterns for a lot.
type solution struct {
	patterns []*pattern
	missing  float64 // area of the pieces without a place, in scaled units
	cost     float64

	sawn     bool // then the two below are known
	offcut   float64
	settings int
}

// compare goes by what is left out, cost and number of boards.
func (a *solution) compare(b *solution) int {
	return cmp.Or(
		apart(a.missing, b.missing),
		apart(a.cost, b.cost),
		cmp.Compare(len(a.patterns), len(b.patterns)),
	)
}

// apart compares two sums that may differ by rounding.
func apart(a, b float64) int {
	if d := a - b; d > 1e-9*(1+max(a, b)) {
		return 1
	} else if -d > 1e-9*(1+max(a, b)) {
		return -1
	}
	return 0
}

// weigh makes a solution of patterns: what they give beyond the demand is dropped, and with it
// the boards that give nothing else.
func (lt *lot) weigh(patterns []*pattern) *solution {
	sol := &solution{}
	demand := lt.demand()
	for _, p := range patterns {
		if p = lt.only(p, demand); len(p.steps) > 0 {
			sol.patterns = append(sol.patterns, p)
			sol.cost += lt.stocks[p.stock].cost
		}
	}
	for k, n := range demand {
		sol.missing += float64(n) * lt.kinds[k].area
	}
	return sol
}

// demand is how many pieces are wanted of each kind.
func (lt *lot) demand() []int {
	d := make([]int, len(lt.kinds))
	for i, k := range lt.kinds {
		d[i] = k.demand
	}
	return d
}

// supply is how many boards there are of each stock.
func (lt *lot) supply() []int {
	n := make([]int, len(lt.stocks))
	for i, s := range lt.stocks {
		n[i] = len(s.copies)
	}
	return n
}
