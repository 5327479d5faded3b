package line

import (
	"cmp"
	"slices"
)

// size is a length and how many pieces of it are wanted.
type size struct {
	length int64
	demand int
}

// task is a problem in its plainest form: sizes from the longest down, lengths without a
// common factor, costs likewise, every limit on copies a real one.
type task struct {
	sizes  []size
	stocks []Stock // Copies 0 means any number
}

// reduced is a task with the way back to the problem it was made from.
type reduced struct {
	task
	costUnit int64
	items    [][]int // of each size, the items that are of it
	stockOf  []int   // of each stock, its index in the problem
}

// reduce merges equal items, leaves out what is not wanted, and divides lengths and costs
// by what they share.
func reduce(p Problem) reduced {
	r := reduced{costUnit: max(1, sharedCost(p.Stocks))}
	order := make([]int, 0, len(p.Items))
	for i, it := range p.Items {
		if it.Quantity > 0 {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(p.Items[b].Length, p.Items[a].Length) })
	var unit int64
	pieces := 0
	for _, i := range order {
		it := p.Items[i]
		unit = gcd(unit, it.Length)
		pieces += it.Quantity
		if n := len(r.sizes); n > 0 && r.sizes[n-1].length == it.Length {
			r.sizes[n-1].demand += it.Quantity
			r.items[n-1] = append(r.items[n-1], i)
			continue
		}
		r.sizes = append(r.sizes, size{it.Length, it.Quantity})
		r.items = append(r.items, []int{i})
	}
	for k := range r.sizes {
		r.sizes[k].length /= unit
	}
	for i, s := range p.Stocks {
		if unit == 0 || s.Length < r.sizes[len(r.sizes)-1].length*unit {
			continue
		}
		if s.Copies >= pieces && s.Cost > 0 {
			s.Copies = 0
		}
		r.stocks = append(r.stocks, Stock{s.Length / unit, s.Cost / r.costUnit, min(s.Copies, pieces)})
		r.stockOf = append(r.stockOf, i)
	}
	return r
}

// expand writes a plan of the task as patterns of the problem, dealing each size's pieces
// out to the items of that length in their order.
func (r reduced) expand(p Problem, plan []use) []Pattern {
	left := make([]int, len(p.Items))
	for i, it := range p.Items {
		left[i] = it.Quantity
	}
	var all []Pattern
	for _, u := range plan {
		for n := u.copies; n > 0; {
			counts := make([]int, len(p.Items))
			for _, t := range u.pattern.takes {
				r.deal(counts, left, t)
			}
			same := n
			for i, c := range counts {
				if c > 0 {
					same = min(same, left[i]/c)
				}
			}
			for i, c := range counts {
				left[i] -= same * c
			}
			all = append(all, Pattern{Stock: r.stockOf[u.pattern.stock], Copies: same, Counts: counts})
			n -= same
		}
	}
	return all
}

// deal puts the pieces of one size that a single stick yields on the items still wanting.
func (r reduced) deal(counts, left []int, t take) {
	need := t.n
	for _, i := range r.items[t.size] {
		n := min(need, left[i])
		counts[i] += n
		need -= n
	}
}

func sharedCost(stocks []Stock) (g int64) {
	for _, s := range stocks {
		g = gcd(g, s.Cost)
	}
	return g
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
