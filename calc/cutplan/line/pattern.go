package line

// take is n pieces of one size.
type take struct {
	size, n int
}

// pattern is a way to cut one stick; its takes run from the longest size to the shortest.
type pattern struct {
	stock int
	takes []take
}

// use is a pattern cut a number of times.
type use struct {
	pattern pattern
	copies  int
}

// fits says whether a stick cut so yields nothing beyond what is still wanted.
func (p pattern) fits(demand []int) bool {
	for _, t := range p.takes {
		if t.n > demand[t.size] {
			return false
		}
	}
	return true
}

// times is how often the pattern can be cut before it yields more than is wanted.
func (p pattern) times(demand []int) int {
	n := -1
	for _, t := range p.takes {
		if k := demand[t.size] / t.n; n < 0 || k < n {
			n = k
		}
	}
	return max(n, 0)
}

// with is the pattern with one more piece of a size no shorter than its own.
func (p pattern) with(size int) pattern {
	q := pattern{stock: p.stock, takes: []take{{size, 1}}}
	for _, t := range p.takes {
		if t.size == size {
			q.takes[0].n += t.n
			continue
		}
		q.takes = append(q.takes, t)
	}
	return q
}

// spend takes copies of the pattern off what is wanted and off the copies in stock.
func (p pattern) spend(need *need, copies int) {
	for _, t := range p.takes {
		need.demand[t.size] -= t.n * copies
	}
	need.copies[p.stock] -= copies
}

// need is what is still to be cut, and from how many copies of each stock (below zero
// never occurs where copies are limited; where not, the number means nothing).
type need struct {
	demand []int
	copies []int
}

func (t task) need() need {
	n := need{make([]int, len(t.sizes)), make([]int, len(t.stocks))}
	for i, s := range t.sizes {
		n.demand[i] = s.demand
	}
	for i, s := range t.stocks {
		n.copies[i] = s.Copies
	}
	return n
}

func (n need) clone() need {
	return need{append([]int(nil), n.demand...), append([]int(nil), n.copies...)}
}

// pieces is how many are still to be cut.
func (n need) pieces() (sum int) {
	for _, d := range n.demand {
		sum += d
	}
	return sum
}

// available says whether another copy of a stock can be had.
func (t task) available(n need, stock int) bool {
	return t.stocks[stock].Copies == 0 || n.copies[stock] > 0
}

func (t task) cost(plan []use) (sum int64) {
	for _, u := range plan {
		sum += t.stocks[u.pattern.stock].Cost * int64(u.copies)
	}
	return sum
}

// allCost is a cost that no plan needs to go beyond: of all stock, or of a stick of each kind
// for every piece.
func (t task) allCost() (sum int64) {
	pieces := t.need().pieces()
	for _, s := range t.stocks {
		copies := s.Copies
		if copies == 0 {
			copies = pieces
		}
		sum += s.Cost * int64(copies)
	}
	return sum
}
