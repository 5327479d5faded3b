package line_test

import (
	"fmt"
	"math"

	"fettle/calc/cutplan/line"
)

// checkPlan replays a result against its problem by counting alone: every stick is long
// enough, every item is cut exactly as often as asked, no stock is used up beyond its
// copies, the cost is the sum and the bound not above it.
func checkPlan(p line.Problem, r line.Result) error {
	cut := make([]int, len(p.Items))
	used := make([]int, len(p.Stocks))
	var cost int64
	for k, t := range r.Patterns {
		if t.Copies < 1 || len(t.Counts) != len(p.Items) {
			return fmt.Errorf("pattern %d: %d copies, %d counts", k, t.Copies, len(t.Counts))
		}
		stock := p.Stocks[t.Stock]
		var length int64
		for i, n := range t.Counts {
			if n < 0 {
				return fmt.Errorf("pattern %d cuts item %d %d times", k, i, n)
			}
			length += int64(n) * p.Items[i].Length
			cut[i] += n * t.Copies
		}
		if length > stock.Length || length == 0 {
			return fmt.Errorf("pattern %d takes %d from a stock of %d", k, length, stock.Length)
		}
		used[t.Stock] += t.Copies
		cost += int64(t.Copies) * stock.Cost
	}
	for i, it := range p.Items {
		if cut[i] != it.Quantity {
			return fmt.Errorf("item %d is cut %d times, want %d", i, cut[i], it.Quantity)
		}
	}
	for s, n := range used {
		if p.Stocks[s].Copies > 0 && n > p.Stocks[s].Copies {
			return fmt.Errorf("stock %d is used %d times of %d", s, n, p.Stocks[s].Copies)
		}
	}
	if cost != r.Cost || r.Bound > r.Cost || r.Proved != (r.Bound == r.Cost) {
		return fmt.Errorf("cost %d (counted %d), bound %d, proved %v", r.Cost, cost, r.Bound, r.Proved)
	}
	return nil
}

// cheapest is the least cost by trying every way to share the pieces out to sticks, one
// stick after another; -1 when they don't go in. It is for a handful of pieces.
func cheapest(p line.Problem) int64 {
	var pieces []int64
	for _, it := range p.Items {
		for range it.Quantity {
			pieces = append(pieces, it.Length)
		}
	}
	all := 1<<len(pieces) - 1
	length := make([]int64, all+1)
	for set := 1; set <= all; set++ {
		for k, l := range pieces {
			if set&(1<<k) != 0 {
				length[set] += l
			}
		}
	}
	best := make([]int64, all+1) // of the pieces in a set, the least cost so far
	for set := range best {
		best[set] = math.MaxInt64
	}
	best[0] = 0
	for _, s := range p.Stocks {
		copies := s.Copies
		if copies == 0 || copies > len(pieces) {
			copies = len(pieces)
		}
		for range copies {
			for set := all; set > 0; set-- {
				for part := set; part > 0; part = (part - 1) & set {
					if rest := best[set&^part]; length[part] <= s.Length && rest < math.MaxInt64 {
						best[set] = min(best[set], rest+s.Cost)
					}
				}
			}
		}
	}
	if best[all] == math.MaxInt64 {
		return -1
	}
	return best[all]
}
